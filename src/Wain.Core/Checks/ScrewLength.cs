using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Framing;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>A screw must reach far enough into wood, and not out of it.</summary>
public static class ScrewLength
{
    /// <summary>Least penetration in diameters: the National Design Specification's least for wood screws (from memory).</summary>
    public const double LeastDiameters = 6;

    internal const string Text = """
        sheet ply { thickness 12 mm
            size 48 in by 96 in }
        stick strip { section 3/4 in by 1 1/2 in }
        screw deck_screw { kind wood_screw
            gauge 6
            length LENGTH }
        adhesive wood_glue { density 1.1 g/cm3 }
        stack board { sheet ply }
        stack framed { sheet ply
            core frame of strip flat
            sheet ply }
        plan deck_plan {
            start at (0 in, 23 in)
            leg left_side run 80 in
            leg front across 46 in
            leg right_side mirror of left_side
            leg rear home, across 46 in
        }
        panel deck of board { covers plan deck_plan, top at 0 in }
        panel wall of framed { stands on deck_plan.front, from deck.top to 40 in }
        joint wall.bottom to deck.top {
            butt
            screws deck_screw every EVERY, driven from below
        }
        """;

    public static readonly FindingInfo Info = new("WN4113", "screw-length", Level.Warning, "A screw is too short to hold, or too long for where it ends",
        "What counts is the length that is left after the panel that the screw passes. With less than six diameters in wood it holds little; past the rail it ends in foam or a cavity; and driven the other way it may come out of the far face.",
        Text.With("LENGTH", "5/8 in").With("EVERY", "8 in"), Text.With("LENGTH", "1 1/2 in").With("EVERY", "8 in"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        foreach (var (joint, fact, screw) in JointScrews.Of(input))
        {
            var e = input.Spec.Evaluator;
            if (screw.Find("length") is not { } stated || e.Length(stated, "value") is not { } length || ScrewPath.Diameter(input.Spec, screw) is not { } diameter) continue;
            if (ScrewPath.Of(joint, fact) is not { } path) continue;
            double bite = length - path.Passes, least = LeastDiameters * diameter, longest = path.Passes + path.Wood;
            string text = $"{screw.Name} of joint {joint.Name} is {input.Say.Length(length)} long and passes {input.Say.Length(path.Passes)} of {path.Through.Name}";
            if (bite < least - 0.01)
            {
                bool room = path.Passes + least <= longest;
                yield return new Finding(Info, bite <= 0 ? $"{text}: it never reaches {path.Into.Name}." : $"{text}: {input.Say.Length(bite)} are left in {path.Into.Name}, and {input.Say.Length(least)} is the least.", fact.Span)
                {
                    Level = bite <= 0 ? Level.Error : Level.Warning,
                    Subject = joint.Name,
                    Hint = room ? $"Use a screw at least {input.Say.AtLeast(path.Passes + least)} long." : "There is not wood enough for any such screw: glue and a fillet have to hold it.",
                    Fixes = room ? [Fixing.Write(input.Spec, stated, "value", input.Say.Between(path.Passes + least, longest))] : [],
                };
            }
            else if (length > longest + 0.01)
            {
                yield return new Finding(Info, $"{text}: its last {input.Say.Length(length - longest)} {(path.Open ? "come out of the far face" : "end in foam or a cavity")}.", fact.Span)
                {
                    Level = path.Open ? Level.Error : Level.Warning,
                    Subject = joint.Name,
                    Hint = path.Wood > 0 ? $"Use a screw at most {input.Say.AtMost(longest)} long." : $"There is no wood at the edge of {path.Into.Name}.",
                    Fixes = path.Wood >= least ? [Fixing.Write(input.Spec, stated, "value", input.Say.AtMost(longest))] : [],
                };
            }
        }
    }
}
