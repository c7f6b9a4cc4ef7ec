using Wain.Core.Findings;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>A bevelled edge is within what the shop's saw tilts.</summary>
public static class SawTilt
{
    private static readonly string Text = Examples.Wall(60, 30, "bevel right 50 deg");

    public static readonly FindingInfo Info = new("WN4118", "bevel-over-saw", Level.Warning, "An edge is bevelled more than the saw tilts",
        "A saw tilts so far and no farther, most of them a little over 45 degrees. A steeper bevel is cut with the panel on edge against a tall fence, or planed to a line; both want to be known before the sheet is cut.",
        Text + "\nshop { saw_tilt 45 deg }\n", Text + "\nshop { saw_tilt 60 deg }\n");

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        if (input.Spec.All("shop").Select(s => s.Find("saw_tilt")).FirstOrDefault(t => t is not null) is not { } stated || input.Spec.Evaluator.Angle(stated, "value") is not { } most) yield break;
        foreach (var panel in input.Structure.Panels)
        {
            // A mirror image is cut from the same drawing.
            if (panel.Mirrored is not null) continue;
            var worst = panel.Outline.Edges.MaxBy(e => Math.Abs(e.Tilt));
            if (worst is null || Math.Abs(worst.Tilt) <= most + 1e-6) continue;
            yield return new Finding(Info, $"The {worst.Name ?? "worst"} edge of {panel.Name} is bevelled {Say.Angle(Math.Abs(worst.Tilt))}; the shop's saw tilts {Say.Angle(most)}.", panel.Fact.NameSpan)
            {
                Subject = panel.Name,
                Hint = "Cut it on edge against a tall fence, or plane it to a line.",
                Related = [new Related(stated.Span, "the saw")],
            };
        }
    }
}
