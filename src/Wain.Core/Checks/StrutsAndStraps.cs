using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Syntax;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>Struts and straps run on one side of the camper, or in pairs that cross, and end on what they hold.</summary>
public static class StrutsAndStraps
{
    /// <summary>6 in: brackets and eyes stand beside what they hold by no more (common practice), and what runs along the centre line may lie on both sides of it.</summary>
    private const double Beside = 6 * 25.4;

    private const string Text = """
        sheet ply {
            thickness 12 mm
            size 48 in by 96 in
        }
        stack board { sheet ply }
        panel floor of board { through (0 in, 20 in, 0 in) along (0 in, -20 in, 0 in) up (-80 in, 20 in, 0 in) }
        carrier truck {
            kind flatbed
            tie_down front_left at (-4 in, 30 in, -4 in), to (-14 in, 19 in, 1 in)
            tie_down front_right at (-4 in, -30 in, -4 in), to (-14 in, ASIDE, 1 in)
            tie_down rear_left at (-76 in, 30 in, -4 in), to (ALONG, 19 in, 1 in)
            tie_down rear_right at (-76 in, -30 in, -4 in), to (-66 in, -19 in, 1 in)
        }
        """;

    public static readonly FindingInfo Across = new("WN4317", "strut-or-strap-across", Level.Warning, "A strut or strap runs to the other side, and none comes back",
        "Struts and straps come in pairs that mirror each other, or cross each other. One that crosses alone is most often a sign that slipped at one of its ends, and its force is reckoned along a line that it does not have. If it is meant so, accept the finding with the reason.",
        Text.With("ASIDE", "19 in").With("ALONG", "-66 in"), Text.With("ASIDE", "-19 in").With("ALONG", "-66 in"));

    public static readonly FindingInfo Off = new("WN4318", "strut-or-strap-end-off", Level.Warning, "A strut or strap ends off what it holds to",
        "A strap ends on the camper, and the end of a strut that stays on what stays. An end in the air is a slip in a sign or a unit, and the force is reckoned along a line that it does not have.",
        Text.With("ASIDE", "-19 in").With("ALONG", "66 in"), Text.With("ASIDE", "-19 in").With("ALONG", "-66 in"));

    /// <param name="What">"strut" or "strap".</param>
    /// <param name="First">The slot of its first end, and of its second.</param>
    /// <param name="Held">The slot of the end that this check holds to a body.</param>
    private sealed record Line(BoundFact Fact, BoundFact Owner, string What, string First, string Second, string Held, Vec3 From, Vec3 To)
    {
        public string Name => Fact.Name is { } full ? full[(full.LastIndexOf('.') + 1)..] : What;

        public bool Crosses => Math.Min(Math.Abs(From.Y), Math.Abs(To.Y)) > Beside && From.Y > 0 != To.Y > 0;
    }

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        var panels = input.Structure.Panels;
        foreach (var lift in input.Structure.Lifts)
            foreach (var finding in Told(input, Lines(input, lift.Fact, "strut", "fixed", "moving", "fixed"), [.. panels.Where(p => p.Lift is null)], "what stays")) yield return finding;
        foreach (var carrier in input.Spec.All("carrier"))
            foreach (var finding in Told(input, Lines(input, carrier, "tie_down", "at", "to", "to"), [.. panels], "the camper")) yield return finding;
    }

    private static List<Line> Lines(CheckInput input, BoundFact owner, string keyword, string first, string second, string held) =>
        [.. owner.All(keyword).Select(f => (Fact: f, From: Point(input, f, first), To: Point(input, f, second))).Where(l => l.From is not null && l.To is not null)
            .Select(l => new Line(l.Fact, owner, keyword == "strut" ? "strut" : "strap", first, second, held, l.From!.Value, l.To!.Value))];

    private static Vec3? Point(CheckInput input, BoundFact fact, string slot) => fact.Has(slot) && input.Spec.Evaluator.Place(fact, slot) is [var x, var y, var z] ? new Vec3(x, y, z) : null;

    private static IEnumerable<Finding> Told(CheckInput input, List<Line> lines, ImmutableArray<PlacedPanel> held, string what)
    {
        foreach (var line in lines)
        {
            string subject = $"{line.Owner.Name}.{line.Name}";
            if (line.Crosses && !lines.Exists(l => l.Crosses && l.From.Y > 0 != line.From.Y > 0))
            {
                // The end that has its mirror among the others is right.
                string slot = lines.Exists(l => l != line && l.To.DistanceTo(line.To.Mirrored) < 25.4) && !lines.Exists(l => l != line && l.From.DistanceTo(line.From.Mirrored) < 25.4) ? line.First : line.Second;
                yield return new Finding(Across, $"The {line.What} {line.Name} of {line.Owner.Name} runs from the {Side(line.From)} side to the {Side(line.To)}, and none runs back.", input.Spec.Evaluator.SlotSpan(line.Fact, slot))
                {
                    Subject = subject, Hint = "Look at the signs of its ends: y runs to the left.", Fixes = OtherSign(line.Fact, slot, 1),
                };
                continue;
            }
            if (held.IsEmpty) continue;
            var box = Box3.Of(held.Select(PanelShapes.Bounds).SelectMany(b => new[] { b.Low, b.High })).Grown(Beside);
            var at = line.Held == line.First ? line.From : line.To;
            (double At, double Low, double High)[] axes = [(at.X, box.Min.X, box.Max.X), (at.Y, box.Min.Y, box.Max.Y), (at.Z, box.Min.Z, box.Max.Z)];
            int axis = Enumerable.Range(0, 3).MaxBy(i => Beyond(axes[i]));
            if (Beyond(axes[axis]) is var off && off < 0.01) continue;
            yield return new Finding(Off, $"The {line.What} {line.Name} of {line.Owner.Name} ends {input.Say.Nearly(off + Beside)} off {what}.", input.Spec.Evaluator.SlotSpan(line.Fact, line.Held))
            {
                Subject = subject, Hint = "Look at its sign and unit: x runs forward, y to the left and z up, from the centre line at the front edge of the bed floor.",
                Fixes = Beyond(axes[axis] with { At = -axes[axis].At }) <= 0 ? OtherSign(line.Fact, line.Held, axis) : [],
            };
        }
    }

    private static string Side(Vec3 at) => at.Y > 0 ? "left" : "right";

    private static double Beyond((double At, double Low, double High) axis) => Math.Max(axis.Low - axis.At, axis.At - axis.High);

    private static ImmutableArray<Fix> OtherSign(BoundFact fact, string slot, int axis) =>
        fact.Slots.TryGetValue(slot, out var text) && text.Terms[0] is PlaceExpression place ? Fixing.OtherSign(place.Items[axis]) : [];
}
