using Wain.Core.Findings;
using Wain.Core.Framing;
using Wain.Core.Geometry;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>A panel that stands in a step of another, or laps it at a corner, stands square to it: steps are cut square to their faces.</summary>
public static class StepsOutOfSquare
{
    private const double Warned = 25.4 / 64, Refused = 25.4 / 16;

    private const string Text = """
        sheet ply { thickness 12 mm
            size 48 in by 96 in }
        stack board { sheet ply }
        plan box {
            start at (0 in, 20 in)
            leg left run 20 in, inward ANGLE
            leg front across WIDE
            leg right mirror of left
            leg rear home, across 40 in
            through front
        }
        panel front of board { stands on box.front, from 0 in to 20 in }
        panel side of board { stands on box.left, from 0 in to 20 in }
        joint front.right to side.left { KIND }
        """;

    public static readonly FindingInfo Info = new("WN4212", "step-out-of-square", Level.Warning, "A lap or rabbet joins two panels that do not stand square to each other",
        "A rabbet is cut square to the face that the saw's table or the router stands on. Where the two panels meet at another angle the cheek of one step leans away from that of the other: wood stands in wood on one side and glue fills a wedge on the other. More than 1/64 in over the depth of the step is told, more than 1/16 in is an error.",
        Text.With("ANGLE", "30 deg").With("WIDE", "16.906 in").With("KIND", "lap depth half"), Text.With("ANGLE", "0 deg").With("WIDE", "40 in").With("KIND", "lap depth half"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        foreach (var joint in input.Structure.Joints)
        {
            if (JointFit.Of(input.Spec, joint) is not { Parallel: false } fit) continue;
            double lean = Math.Abs(Math.PI / 2 - fit.Stepped.Panel.Face.N.AngleTo(fit.Other.Panel.Face.N)), deep = Math.Max(fit.First, fit.Second), off = deep * Math.Tan(Math.Min(lean, 1.5));
            if (off <= Warned) continue;
            var fact = joint.Fact.Find(joint.Kind == JointKind.Lap ? "lap" : "rabbet")!;
            yield return new Finding(Info, FormattableString.Invariant($"{joint.First.Panel.Name} and {joint.Second.Panel.Name} stand {lean * 180 / Math.PI:0.#} degrees out of square; over a step {input.Say.Nearly(deep)} deep that is {input.Say.Nearly(off)}."), fact.Span)
            {
                Level = off > Refused ? Level.Error : Level.Warning,
                Subject = joint.Name,
                Hint = "A butt or a mitre follows any angle.",
                Fixes = [new Fix(fact.Span, "butt", "write butt")],
            };
        }
    }
}
