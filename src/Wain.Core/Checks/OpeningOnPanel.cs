using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>A hole has panel all round it. Where there is a frame, the frame's own check says more.</summary>
public static class OpeningOnPanel
{
    private static readonly string Text = Examples.Materials + """

        panel board of deck_stack {
            through (0 in, 20 in, 0 in) along (0 in, -20 in, 0 in) up (30 in, 20 in, 0 in)
            opening hatch {
                size 20 in by 10 in
                lower left at (10 in, UP)
                unframed
            }
        }
        """;

    public static readonly FindingInfo Info = new("WN4117", "opening-past-edge", Level.Error, "An opening reaches past the edge of its panel",
        "What is cut out of a panel lies within it. A step in an edge is drawn with the panel's own outline, as a plan.",
        Text.With("UP", "22 in"), Text.With("UP", "10 in"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        var framed = input.Frames.All.Select(f => f.Panel.Name).ToHashSet(StringComparer.Ordinal);
        foreach (var panel in input.Structure.Panels)
            foreach (var opening in panel.Openings)
            {
                var corners = opening.Hole.Flattened(0.1).Corners;
                double past = corners.Max(panel.Outline.SignedDistance);
                if (past <= 0.01 && Recess(input, panel, opening) is { } recess) yield return recess;
                if (past <= 0.01 || framed.Contains(panel.Name)) continue;
                var (room, hole) = (panel.Outline.Bounds, opening.Hole.Bounds);
                yield return new Finding(Info, $"Opening {opening.Name} of {panel.Name} is {input.Say.Nearly(hole.Width)} by {input.Say.Nearly(hole.Height)} and reaches {input.Say.Nearly(past)} past the edge; the panel is {input.Say.Nearly(room.Width)} by {input.Say.Nearly(room.Height)}.", opening.Fact.NameSpan)
                {
                    Subject = $"{panel.Name}.{opening.Name}",
                    Hint = "Move it in, or make it smaller.",
                    Fixes = Fixing.One(Moving.Within(input.Spec, panel, opening)),
                };
            }
    }

    /// <summary>The hole lies within the panel, but the step that is cut round it runs out at an edge.</summary>
    private static Finding? Recess(CheckInput input, PlacedPanel panel, PlacedOpening opening)
    {
        if (opening.Recess is not { } recess || opening.Fact.Find("recessed") is not { } fact) return null;
        double past = recess.Region.Flattened(0.1).Corners.Max(panel.Outline.SignedDistance), margin = (recess.Region.Bounds.Width - opening.Hole.Bounds.Width) / 2 - past;
        return past <= 0.01 ? null : new Finding(Info, $"The recess of opening {opening.Name} of {panel.Name} reaches {input.Say.Nearly(past)} past the edge.", fact.Span)
        {
            Subject = $"{panel.Name}.{opening.Name}",
            Hint = margin > 0 ? $"A margin of {input.Say.AtMost(margin)} ends at the edge; some wall should stay outside of it." : "Move the opening in.",
            Fixes = margin > 25.4 / 16 && fact.Has("margin") ? [Fixing.Write(input.Spec, fact, "margin", input.Say.AtMost(margin))] : [],
        };
    }
}
