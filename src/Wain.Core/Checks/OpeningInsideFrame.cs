using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Framing;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>An opening must lie inside the rails and stiles.</summary>
public static class OpeningInsideFrame
{
    private static readonly string Text = Examples.Wall(60, 30, "opening vent {\n    size 20 in by 10 in\n    lower left at (20 in, UP)\n}");

    public static readonly FindingInfo Info = new("WN4103", "opening-cuts-frame", Level.Error, "An opening reaches into the rails or stiles",
        "The hole would cut the members that hold the panel's edge. The clear space is what lies inside them; a window has to stand within it.",
        Text.With("UP", "1/2 in"), Text.With("UP", "3 in"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        foreach (var frame in input.Frames.All)
            foreach (var p in frame.Problems.Where(p => p.Kind == FrameProblemKind.HoleOutsideClear))
            {
                if (Where.Opening(frame.Panel, p.Subject) is not { } opening || frame.Clear is not { } clear) continue;
                double past = frame.Panel.Outline.SignedDistance(p.At);
                string what = past > 0.01 ? $"reaches {input.Say.Nearly(past)} past the edge of {frame.Panel.Name}" : $"of {frame.Panel.Name} reaches {input.Say.Length(-p.Has)} into the frame";
                yield return new Finding(Info, $"Opening {opening.Name} {what}, {input.Say.On(p.At)}; it is {input.Say.Nearly(opening.Width)} by {input.Say.Nearly(opening.Height)}.", opening.Fact.NameSpan)
                {
                    Subject = p.Subject,
                    Hint = $"The clear space inside rails and stiles runs from {input.Say.On(clear.Bounds.Min)} to {input.Say.On(clear.Bounds.Max)}.",
                    Fixes = Fixing.One(Moving.Into(input.Spec, frame, opening)),
                };
            }
    }
}
