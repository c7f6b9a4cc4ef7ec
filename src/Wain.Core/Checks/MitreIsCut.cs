using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>A joint that is said to be mitred has its two edges cut to one plane: a joint alone bevels nothing, the corner of the plan does.</summary>
public static class MitreIsCut
{
    // Half a degree, what a saw is set to; and what glue fills (mm).
    private const double Angle = 0.5 * Math.PI / 180;

    private static readonly string Text = Examples.Materials + """

        plan corner {
            start at (-60 in, 20 in)
            leg left run 60 in
            leg front across 40 in
            leg right run 60 in
            leg rear home
            CORNERS
        }
        panel side of wall_stack { stands on corner.left, from 0 in to 40 in }
        panel fore of wall_stack { stands on corner.front, from 0 in to 40 in }
        joint side.left to fore.right {
            mitre
        }
        """;

    public static readonly FindingInfo Info = new("WN4153", "mitre-not-cut", Level.Warning, "A joint is said to be mitred, and its edges are cut another way",
        "How walls meet at a corner is told of the plan: corners mitred, or one corner mitred. Told of the joint alone, its walls are cut by the plan's rule, one running through and one stopping, and the list of saw settings and the glue are those of another joint.",
        Text.With("CORNERS", "corners lapped"), Text.With("CORNERS", "corners mitred"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        foreach (var joint in input.Structure.Joints)
        {
            // What does not meet is told as such.
            if (joint.Kind != JointKind.Mitre || joint.Gap > JointMeets.Tolerance || Why(input, joint) is not { } why) continue;
            var mitre = joint.Fact.Find("mitre")!;
            yield return new Finding(Info, $"{joint.First.Panel.Name} and {joint.Second.Panel.Name} are said to be mitred, and {why}.", mitre.Span)
            {
                Subject = joint.Name,
                Hint = Corner(input, joint) is { } corner ? $"Say it of the plan: mitred {corner.First} with {corner.Second}" : "Bevel both to the middle of their angle, or call the joint what it is.",
                Fixes = Corner(input, joint) is { } said ? Fixing.One(Fixing.AddLine(said.Plan, $"mitred {said.First} with {said.Second}")) : [new Fix(mitre.Span, "butt", "write butt")],
            };
        }
    }

    private static string? Why(CheckInput input, PlacedJoint joint)
    {
        if (joint.First.IsFace || joint.Second.IsFace) return $"{(joint.First.IsFace ? joint.First : joint.Second).Panel.Name} meets with a face, which has no edge to mitre";
        if (Cut(joint.First) is not { } a || Cut(joint.Second) is not { } b) return null;
        double off = a.Normal.AngleTo(-b.Normal);
        if (off <= Angle) return null;
        string Tilted(JointSide side) => Math.Abs(side.Panel.Outline.Edges[side.Edge].Tilt) is var tilt && tilt < Angle ? "square" : $"{Say.Angle(Math.Round(tilt * 1800 / Math.PI) / 1800 * Math.PI)} from square";
        return $"{joint.First.Panel.Name} is cut {Tilted(joint.First)} and {joint.Second.Panel.Name} {Tilted(joint.Second)}";
    }

    private static Plane? Cut(JointSide side) => FaceCut.Through(side.Panel.Face, side.Panel.Outline, side.Edge);

    /// <summary>The two legs of one plan that the walls stand on; null where they do not.</summary>
    private static (BoundFact Plan, string First, string Second)? Corner(CheckInput input, PlacedJoint joint)
    {
        if (joint.Mirrored || joint.First.IsFace || joint.Second.IsFace || Leg(joint.First.Panel) is not { } a || Leg(joint.Second.Panel) is not { } b) return null;
        return a.Plan == b.Plan && a.Leg != b.Leg ? (a.Plan, a.Leg, b.Leg) : null;

        (BoundFact Plan, string Leg)? Leg(PlacedPanel panel) =>
            panel.Mirrored is null && panel.Fact.Find("stands") is { } way && input.Spec.Evaluator.PathOf(way, "leg") is ({ Keyword: "plan" } plan, [var leg]) ? (plan, leg) : null;
    }
}
