using Wain.Core.Findings;
using Wain.Core.Framing;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>Pockets from the two ends of a short member have wood between their mouths.</summary>
public static class PocketsOfBothEnds
{
    private static readonly string Text = """
        sheet ply { thickness 12 mm
            size 48 in by 96 in }
        stick strip { section 3/4 in by 1 1/2 in }
        screw frame_screw { kind pocket_screw
            gauge 7
            length 1 in }
        stack framed { sheet ply
            core frame of strip flat
            sheet ply }
        panel deck of framed {
            through (0 in, 24 in, 0 in) along (0 in, -24 in, 0 in) up (40 in, 24 in, 0 in)
            frame {
                studs every EVERY, on centre
                blocking at 20 in up
                joined with frame_screw 2 each
            }
        }
        """;

    public static readonly FindingInfo Info = new("WN4137", "pockets-of-both-ends", Level.Warning, "Pockets from both ends of a short member run into each other",
        "The mouth of a pocket is long: at 15 degrees it reaches over 2 in from the end of 3/4 in stock. In a member shorter than two of them the second drill falls into the pocket of the first, wanders, and leaves a strip that splits when it is driven. In a glued frame it is a note.",
        Text.With("EVERY", "5 in"), Text.With("EVERY", "8 in"));

    private const int MostNamed = 3;

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        foreach (var frame in input.Frames.All)
        {
            // What breaks out of the member is told by PocketBreaksOut.
            var lost = frame.Meetings.Where(m => m.Pocket is not null && m.Driven < m.Count).Select(m => (Meeting: m, Fit: Meetings.Places(m, m.Pocket!).Count(p => Meetings.Beyond(m.First.Outline, p, m.Pocket!) <= Meetings.LeastBeyond)))
                .Where(m => m.Fit > m.Meeting.Driven).GroupBy(m => m.Meeting.First, ReferenceEqualityComparer.Instance).Select(g => (Member: (Member)g.Key!, Ends: g.ToList())).OrderBy(m => m.Member.LongPoint).ThenBy(m => MirroredFindings.AsDesigned(frame, m.Member.Key), StringComparer.Ordinal).ToList();
            if (lost.Count == 0) continue;
            var pocket = lost[0].Ends[0].Meeting.Pocket!;
            string named = string.Join(", ", lost.Take(MostNamed).Select(m => $"{m.Member.Key} is {input.Say.Nearly(m.Member.LongPoint)} long")) + (lost.Count > MostNamed ? $", {lost.Count - MostNamed} more are as short" : "");
            yield return new Finding(Info, $"Pockets from both ends run into each other in the frame of {frame.Subject}: {named}, and two in one line take {input.Say.AtLeast(2 * (pocket.FromEnd + Meetings.Mouth(pocket)))}.", (frame.Rules.Fact!.Find("joined") ?? frame.Rules.Fact).Span)
            {
                Level = frame.Rules.Glue is not null ? Level.Note : Level.Warning,
                Subject = frame.Subject,
                Hint = $"{lost.Sum(m => m.Ends.Sum(e => e.Fit - e.Meeting.Driven))} are not drawn or counted: bore one an end, side by side, or glue the end and drive a screw through {lost[0].Ends[0].Meeting.Second.Key} into it.",
            };
        }
    }
}
