using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Framing;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>The head of a pocket screw goes down the pocket and draws on its shoulder.</summary>
public static class PocketHead
{
    private static readonly string Text = """
        sheet ply { thickness 12 mm
            size 48 in by 96 in }
        stick strip { section 3/4 in by 1 1/2 in }
        screw frame_screw { kind pocket_screw
            gauge 7
            length 1 in
            head HEAD }
        stack framed { sheet ply
            core frame of strip flat
            sheet ply }
        panel deck of framed {
            through (0 in, 24 in, 0 in) along (0 in, -24 in, 0 in) up (40 in, 24 in, 0 in)
            frame {
                studs every 16 in on centre
                joined with frame_screw 2 each
            }
        }
        """;

    public static readonly FindingInfo Info = new("WN4124", "head-wider-than-pocket", Level.Warning, "The head of a pocket screw is wider than its pocket",
        "Pockets are bored with a 3/8 in stepped drill (common practice). A wider head stops at the face, and what is left of the screw does not reach the other member.",
        Text.With("HEAD", "1/2 in"), Text.With("HEAD", "11/32 in"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        foreach (var screws in input.Frames.All.Where(f => f.Meetings.Any(m => m.Pockets.Length > 0)).GroupBy(f => f.Rules.Screw!.Fact))
        {
            if (screws.Key.Find("head") is not { } head || input.Spec.Evaluator.Length(head, "diameter") is not { } wide || wide <= Pockets.Diameter + 0.01) continue;
            string most = input.Say.AtMost(Pockets.Diameter);
            yield return new Finding(Info, $"The head of {screws.Key.Name} is {input.Say.Length(wide)} wide and goes into pockets of {most}, first in the frame of {screws.First().Subject}.", head.HeadSpan)
            {
                Subject = screws.Key.Path,
                Hint = $"Take a screw with a head of {most} or less.",
                Fixes = [Fixing.Write(input.Spec, head, "diameter", most)],
            };
        }
    }
}
