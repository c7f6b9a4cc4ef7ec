using Wain.Core.Findings;
using Wain.Core.Geometry;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>The two sides of a joint must meet in space. A joint that is meant to stay open says so with its gap.</summary>
public static class JointMeets
{
    /// <summary>1/32 in: what glue fills and a plane takes off.</summary>
    public const double Tolerance = 25.4 / 32;

    private const string Text = """
        sheet ply { thickness 12 mm
            size 48 in by 96 in }
        stack board { sheet ply }
        plan deck_plan {
            start at (0 in, 20 in)
            leg left_side run 80 in
            leg front across 40 in
            leg right_side mirror of left_side
            leg rear home, across 40 in
        }
        panel deck of board { covers plan deck_plan, top at 0 in }
        panel wall of board { stands on deck_plan.front, from HEIGHT to 40 in }
        joint wall.bottom to deck.top { butt }
        """;

    public static readonly FindingInfo Info = new("WN4003", "joint-apart", Level.Error, "The two sides of a joint do not meet",
        "A joint that is listed but does not touch in space is a wrong place or a wrong edge; its glue and screws would be counted for nothing.",
        Text.Replace("HEIGHT", "2 in", StringComparison.Ordinal), Text.Replace("HEIGHT", "deck.top", StringComparison.Ordinal));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        foreach (var joint in input.Structure.Joints)
        {
            double allowed = joint.Fact.Find("gap") is { } gap ? input.Spec.Evaluator.Bounds(gap, "range")?.High?.Millimetres ?? Tolerance : Tolerance;
            if (joint.Gap <= allowed + 1e-6) continue;
            yield return new Finding(Info, $"{joint.First.Panel.Name}.{joint.First.Name} and {joint.Second.Panel.Name}.{joint.Second.Name} are {Show.Length(joint.Gap)} apart where they should meet.", joint.Fact.HeadSpan)
            {
                Subject = joint.Name,
                Hint = allowed > Tolerance ? $"The joint allows {Show.Length(allowed)}." : "If the gap is meant, say so: gap at most 1/4 in",
            };
        }
    }
}
