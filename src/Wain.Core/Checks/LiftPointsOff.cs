using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Syntax;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>A point that lifts, and the moving end of a strut, sit on what is lifted.</summary>
public static class LiftPointsOff
{
    /// <summary>6 in: brackets and posts stand beside what they lift by no more (common practice).</summary>
    private const double Beside = 6 * 25.4;

    private const string Text = """
        sheet ply {
            thickness 12 mm
            size 48 in by 96 in
        }
        stack board { sheet ply }
        panel roof of board { through (0 in, 20 in, 40 in) along (0 in, -20 in, 40 in) up (-80 in, 20 in, 40 in) }
        lift raise {
            carries { roof }
            travel 18 in
            lifted at front_left (-2 in, 18 in, 40 in)
            lifted at front_right (-2 in, -18 in, 40 in)
            lifted at rear_left (REAR, 18 in, 40 in)
            lifted at rear_right (-78 in, -18 in, 40 in)
        }
        """;

    public static readonly FindingInfo Info = new("WN4311", "lift-point-off", Level.Warning, "A lift point or strut lies off what it lifts",
        "Its share of the weight and the force of the struts are reckoned from where it is stated, so a sign or a unit that slipped makes a lift look steady that is not.",
        Text.With("REAR", "78 in"), Text.With("REAR", "-78 in"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        foreach (var lift in input.Structure.Lifts)
        {
            var carried = input.Structure.Panels.Where(p => p.Lift == lift.Name).Select(PanelShapes.Bounds).ToList();
            if (carried.Count == 0) continue;
            var box = Box3.Of(carried.SelectMany(b => new[] { b.Low, b.High })).Grown(Beside);
            var points = lift.Fact.All("lifted").Select(f => (f, Slot: "at", What: "Lift point")).Concat(lift.Fact.All("strut").Select(f => (f, Slot: "moving", What: "The moving end of strut")));
            foreach (var (fact, slot, what) in points)
            {
                if (input.Spec.Evaluator.Place(fact, slot) is not { } at) continue;
                double[] off = [Off(at[0], box.Min.X, box.Max.X), Off(at[1], box.Min.Y, box.Max.Y)];
                int axis = off[0] >= off[1] ? 0 : 1;
                if (off[axis] < 0.01) continue;
                string name = fact.Name is { } own ? own[(own.LastIndexOf('.') + 1)..] : "";
                yield return new Finding(Info, $"{what} {name} of {lift.Name} lies {input.Say.Nearly(off[axis] + Beside)} outside of what is lifted.", input.Spec.Evaluator.SlotSpan(fact, slot))
                {
                    Subject = $"{lift.Name}.{name}", Hint = "Look at its sign and unit: x runs forward and y to the left, from the centre line at the front edge of the bed floor.",
                    Fixes = Mended(fact, slot, axis, axis == 0 ? (box.Min.X, box.Max.X) : (box.Min.Y, box.Max.Y)),
                };
            }
        }
    }

    private static double Off(double at, double low, double high) => Math.Max(0, Math.Max(low - at, at - high));

    // The other sign, if that is on it.
    private static ImmutableArray<Fix> Mended(BoundFact fact, string slot, int axis, (double Low, double High) within)
    {
        if (!fact.Slots.TryGetValue(slot, out var text) || text.Terms[0] is not PlaceExpression place) return [];
        return place.Items[axis] switch
        {
            MeasureExpression m when -m.Value.Millimetres >= within.Low && -m.Value.Millimetres <= within.High => [new Fix(m.Span, "-" + m.Span.Text, $"write -{m.Span.Text}")],
            NegateExpression { Operand: MeasureExpression m } n when m.Value.Millimetres >= within.Low && m.Value.Millimetres <= within.High => Fixing.WithoutMinus(n),
            _ => [],
        };
    }
}
