using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Framing;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>A screw is driven from a side that it can be driven from.</summary>
public static class ScrewSide
{
    private static readonly string Text = ScrewLength.Text.With("LENGTH", "1 1/2 in").With("EVERY", "8 in");

    public static readonly FindingInfo Info = new("WN4133", "screw-from-wrong-side", Level.Warning, "Screws can't be driven from the side that is stated",
        "A screw goes straight through one panel into the other, so the driver stands behind the one that it passes. Pilots drilled from another side miss the wood, or there is no other side at all.",
        Text.With("driven from below", "driven from left"), Text);

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        foreach (var (joint, fact, screw) in JointScrews.Of(input))
        {
            // A pocket screw slants out of the panel that it joins, from whichever face its pocket is in.
            if (joint.Mirrored || screw.Find("kind")?.Word("kind") == "pocket_screw") continue;
            if (ScrewPath.From(joint, fact) is not { } word || ScrewPath.Of(joint, fact) is not { } path || path.IsDrivenFrom(word)) continue;
            string side = word is "outside" or "inside" ? path.Through.Face.N.Dot(path.Driver) > 0 ? "outside" : "inside" : path.Side;
            yield return new Finding(Info, $"{screw.Name} of joint {joint.Name} can't be driven from {word}: it passes {path.Through.Name} and ends in {path.Into.Name}.", input.Spec.Evaluator.SlotSpan(fact, "from"))
            {
                Subject = joint.Name,
                Hint = $"The driver stands {(side is "outside" or "inside" ? $"{side} of {path.Through.Name}" : side is "above" or "below" ? side : side is "left" or "right" ? $"to the {side}" : side)}.",
                Fixes = [Fixing.Write(input.Spec, fact, "from", side)],
            };
        }
    }
}
