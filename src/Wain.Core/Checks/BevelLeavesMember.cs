using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Framing;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>A bevelled edge must leave its rail or stile wide enough on its narrow side.</summary>
public static class BevelLeavesMember
{
    private static readonly string Text = Examples.Wall(60, 30, "bevel right ANGLE");

    public static readonly FindingInfo Info = new("WN4115", "bevel-eats-member", Level.Warning, "A bevel leaves little of the member behind it",
        "The stick along a bevelled edge is ripped at the same angle. Where the frame is deep or the bevel steep, its narrow side comes to a point that takes no glue and no screw. A wider stick, or two along that edge (double), leaves wood.",
        Text.With("ANGLE", "60 deg"), Text.With("ANGLE", "45 deg"));

    // Down to the half degree that a saw is set to.
    private static string Steepest(PanelFrame frame) => Say.Angle(Math.Floor(Math.Atan(frame.Layer.FaceWidth * 3 / 4 / frame.Depth) * 360 / Math.PI) / 360 * Math.PI);

    // Walls that lap where a plan hardly turns: the one that stops would end in a feather, and no stick is wide enough for that.
    private static string? FlatCorner(PanelFrame frame, string? side) =>
        frame.Panel.Fact.Find("stands") is not null && !PanelFacts.All(frame.Panel, "bevel").Any() && frame.Panel.Outline.Edges.FirstOrDefault(e => e.Name == side)?.Tilt is { } tilt && Math.Abs(tilt) > Math.PI / 3
            ? "The plan hardly turns there, and a wall that stops at the other ends in a feather. Mitre the corner: a line of the plan says which, mitred <leg> with <leg>." : null;

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        foreach (var frame in input.Frames.All)
            foreach (var p in frame.Problems.Where(p => p.Kind == FrameProblemKind.BevelTooSteep))
                yield return new Finding(Info, $"The bevel of {frame.Subject}'s {p.Side ?? "edge"} edge leaves {input.Say.Length(p.Has)} of the member's {input.Say.Length(frame.Layer.FaceWidth)} on its narrow side; a quarter should stay.", (frame.Rules.Fact ?? frame.Panel.Fact).HeadSpan)
                {
                    Subject = frame.Subject,
                    Fixes = frame.Panel.Mirrored is null && p.Side is { } side && PanelFacts.All(frame.Panel, "bevel").FirstOrDefault(b => b.Word("edge") == side && input.Spec.Evaluator.Angle(b, "angle") > 0) is { } bevel
                        ? [Fixing.Write(input.Spec, bevel, "angle", Steepest(frame))] : [],
                    Hint = FlatCorner(frame, p.Side) ?? $"Use a stick at least {input.Say.AtLeast((frame.Layer.FaceWidth - p.Has) * 4 / 3)} wide on the face there, or double the edge.",
                };
    }
}
