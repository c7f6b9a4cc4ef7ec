using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>A wall on one side of a camper has its like on the other.</summary>
public static class MirrorForgotten
{
    private static readonly string Text = """
        sheet ply {
            thickness 12 mm
            size 48 in by 96 in
        }
        stack board { sheet ply }
        plan body {
            start at (-40 in, 20 in)
            leg left run 40 in
            leg left_nose run 20 in, inward 10 deg
            leg nose across 33 in
            leg right_nose mirror of left_nose
            leg right run 40 in
            leg rear home
        }
        panel left_wall of board { stands on body.left, from 0 in to 30 in }
        panel left_bow of board { stands on body.left_nose, from 0 in to 30 in }
        mirror left_bow as right_bow
        MIRROR

        """;

    public static readonly FindingInfo Info = new("WN4319", "mirror-forgotten", Level.Warning, "A wall stands on one side, and nothing on the other",
        "Other walls of the plan stand on both sides, and the leg that mirrors this one carries none: a camper without a side is most often a mirror that was forgotten, and nothing of it is cut, bought or weighed. Where the side is open on purpose, accept the finding with the reason.",
        Text.With("MIRROR", ""), Text.With("MIRROR", "mirror left_wall as right_wall"));

    /// <summary>1 in: walls that are drawn alike on both sides, and not as mirrors, may differ by so much.</summary>
    private const double Alike = 25.4;

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        var walls = input.Structure.Panels.Where(p => !p.IsLevel).Select(p => (Panel: p, Middle: Middle(p))).ToImmutableArray();
        bool IsPaired(Vec3 middle) => walls.Any(w => w.Middle.DistanceTo(middle.Mirrored) < Alike);
        foreach (var plan in walls.Where(w => w.Panel.Mirrored is null && Plan(input, w.Panel) is not null && Math.Abs(w.Middle.Y) > Alike).GroupBy(w => Plan(input, w.Panel)!))
        {
            var alone = plan.Where(w => !IsPaired(w.Middle)).ToList();
            // Of a plan on one side, as furniture has, no wall has its like; where several lack it the plan is no mirror of itself.
            if (alone is not [var one] || plan.Count() < 2) continue;
            string name = one.Panel.Name, other = Mirrors.OtherSide(name);
            // Something else that stands there closes the side as well.
            if (walls.Any(w => w.Panel != one.Panel && Near(w.Panel, one.Middle.Mirrored))) continue;
            yield return new Finding(Info, $"{name} stands on the {(one.Middle.Y > 0 ? "left" : "right")} side, and nothing stands where its mirror would.", one.Panel.Fact.NameSpan)
            {
                Subject = name, Fixes = other == name || input.Spec.Find(other) is not null || one.Panel.Fact.Scope.Placed is not null ? [] : [Fixing.After(one.Panel.Fact, $"mirror {name} as {other}")],
            };
        }
    }

    private static BoundFact? Plan(CheckInput input, PlacedPanel panel) => panel.Fact.Find("stands") is { } way && input.Spec.Evaluator.PathOf(way, "leg") is ({ Keyword: "plan" } plan, _) ? plan : null;

    private static Vec3 Middle(PlacedPanel p) => p.Face.ToWorld((p.Outline.Bounds.Min + p.Outline.Bounds.Max) / 2, p.Thickness / 2);

    private static bool Near(PlacedPanel panel, Vec3 point) => PanelShapes.Bounds(panel) is var (low, high) && Box3.Of([low, high]).Grown(Alike) is var box
        && point.X > box.Min.X && point.X < box.Max.X && point.Y > box.Min.Y && point.Y < box.Max.Y && point.Z > box.Min.Z && point.Z < box.Max.Z;
}
