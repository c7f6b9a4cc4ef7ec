using Wain.Core.Findings;
using Wain.Core.Geometry;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>A wall in front of the cab's rear window.</summary>
public static class RearWindow
{
    private static readonly string Text = Examples.Materials + """

        panel front of wall_stack {
            through (0 in, -20 in, LOW) along (0 in, 20 in, LOW) up (0 in, -20 in, 40 in)
        }
        carrier truck {
            kind bed
            rear_window from 8 in to 26 in
        }
        """;

    public static readonly FindingInfo Info = new("WN4404", "rear-window-covered", Level.Note, "The camper covers the cab's rear window",
        "Mirrors on both sides are then the only view to the rear; local codes say which are needed.",
        Text.With("LOW", "1 in"), Text.With("LOW", "28 in"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        foreach (var carrier in input.Spec.All("carrier"))
        {
            if (carrier.Find("rear_window") is not { } window || input.Spec.Evaluator.Length(window, "low") is not { } one || input.Spec.Evaluator.Length(window, "high") is not { } other) continue;
            var (low, high) = (Math.Min(one, other), Math.Max(one, other));
            var covering = input.Structure.Panels.Where(p => Math.Abs(p.Face.N.X) > 0.7).Select(p => (Panel: p, Box: PanelShapes.Bounds(p)))
                .Where(p => p.Box.Low.Z < high - 1 && p.Box.High.Z > low + 1 && p.Box.Low.Y < 0 && p.Box.High.Y > 0).OrderByDescending(p => p.Box.High.X).ToList();
            if (covering is [var first, ..])
                yield return new Finding(Info, $"{first.Panel.Name} covers the rear window from {input.Say.Nearly(Math.Max(low, first.Box.Low.Z))} to {input.Say.Nearly(Math.Min(high, first.Box.High.Z))} over the bed floor.", window.HeadSpan) { Subject = first.Panel.Name };
        }
    }
}
