using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Geometry;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>Two panels can't be in one place. What a lap or a rabbet takes away is stepped off when it is cut, and counts as room.</summary>
public static class PanelsClash
{
    private static readonly string Text = Examples.Materials + """

        panel deck of deck_stack {
            through (0 in, 20 in, 0 in) along (0 in, -20 in, 0 in) up (90 in, 20 in, 0 in)
        }
        panel post of deck_stack {
            spans from (20 in, 10 in) to (40 in, 10 in), standing on LEVEL, up to 30 in
        }
        """;

    public static readonly FindingInfo Info = new("WN4301", "panels-pass-through", Level.Error, "Two panels pass through each other",
        "Both can't be built where they are. One of them stops at the other, or one has a hole or a step where the other goes.",
        Text.With("LEVEL", "-1 in"), Text.With("LEVEL", "deck.top"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        foreach (var clash in input.Clearance.Clashes)
        {
            if (input.Structure.Joints.Any(j => j.Kind is JointKind.Lap or JointKind.Rabbet && Joins(j, clash.First, clash.Second))) continue;
            yield return new Finding(Info, $"{clash.First.Name} and {clash.Second.Name} pass through each other by {input.Say.Nearly(clash.Depth)}, {input.Say.In(clash.At)}.", clash.Second.Fact.NameSpan)
            {
                Subject = clash.Second.Name,
                Related = [new Related(clash.First.Fact.NameSpan, $"{clash.First.Name} is here")],
                Hint = $"Moving or shortening one of them by {input.Say.Nearly(clash.Depth)} frees them.",
                Fixes = Fixing.One(Reaching.Meet(input.Spec, clash.First, clash.Second, clash.Depth)),
            };
        }
    }

    private static bool Joins(PlacedJoint joint, PlacedPanel a, PlacedPanel b) =>
        joint.First.Panel.Name == a.Name && joint.Second.Panel.Name == b.Name || joint.First.Panel.Name == b.Name && joint.Second.Panel.Name == a.Name;
}
