using Wain.Core.Binding;
using Wain.Core.Geometry;

namespace Wain.Core.Checks;

internal static class JointScrews
{
    /// <summary>The screw facts of every joint with the screw that they name.</summary>
    public static IEnumerable<(PlacedJoint Joint, BoundFact Fact, BoundFact Screw)> Of(CheckInput input)
    {
        foreach (var joint in input.Structure.Joints)
            foreach (var fact in joint.Fact.All("screws"))
                if (input.Spec.Evaluator.Thing(fact, "screw") is { } screw) yield return (joint, fact, screw);
    }
}
