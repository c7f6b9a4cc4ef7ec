using Wain.Core.Findings;
using Wain.Core.Framing;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>A pocket has wood on both sides from its mouth to its shoulder.</summary>
public static class PocketBreaksOut
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
        plan bunk {
            start at (0 in, 32 in)
            leg left_nose run 40 in, inward 8.5308 deg, width 52 in
            leg nose across 52 in
            leg right_nose mirror of left_nose
            leg aft home, across 64 in
        }
        panel deck of framed {
            covers plan bunk, underside at 0 in
            frame {
                studs STUDS
                joined with frame_screw 2 each
            }
        }
        """;

    public static readonly FindingInfo Info = new("WN4125", "pocket-breaks-out", Level.Warning, "A pocket hole breaks out of the side of its member",
        "A member that is cut to a feather edge, ripped narrow or very short has not the wood around a pocket: the drill comes out at its side or end, and the screw pulls through what is left. In a glued frame it is a note.",
        Text.With("STUDS", "every 12 in"), Text.With("STUDS", "count 1"));

    private const int MostNamed = 3;

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        foreach (var frame in input.Frames.All)
        {
            var ends = frame.Meetings.Where(m => m.Pocket is not null && m.Driven < m.Count).Select(m => (Meeting: m, By: Beyond(m, m.Pocket!))).Where(e => e.By > Meetings.LeastBeyond)
                .OrderByDescending(e => Math.Round(e.By, 6)).ThenBy(e => MirroredFindings.AsDesigned(frame, e.Meeting.First.Key), StringComparer.Ordinal).ThenBy(e => MirroredFindings.AsDesigned(frame, e.Meeting.Second.Key), StringComparer.Ordinal).ToList();
            if (ends.Count == 0) continue;
            string named = string.Join(", ", ends.Take(MostNamed).Select(e => $"that of {e.Meeting.First.Key} at {e.Meeting.Second.Key} by {input.Say.Nearly(e.By)}"));
            yield return new Finding(Info, $"{(ends.Count == 1 ? "A pocket" : "Pockets")} in the frame of {frame.Subject} {(ends.Count == 1 ? "breaks" : "break")} out of the member: {named}{(ends.Count > MostNamed ? $", and {ends.Count - MostNamed} more" : "")}.", (frame.Rules.Fact!.Find("joined") ?? frame.Rules.Fact).Span)
            {
                Level = frame.Rules.Glue is not null ? Level.Note : Level.Warning,
                Subject = frame.Subject,
                Hint = $"None is drawn there: glue that end, or drive a screw through {ends[0].Meeting.Second.Key} into it; or move the member.",
            };
        }
    }

    // Of the worst pocket of a meeting.
    private static double Beyond(Meeting meeting, Pocket pocket) => Meetings.Places(meeting, pocket).Max(place => Meetings.Beyond(meeting.First.Outline, place, pocket));
}
