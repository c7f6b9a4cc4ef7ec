using Wain.Core.Findings;
using Wain.Core.Framing;

namespace Wain.Core.Checks;

/// <summary>An opening without members of its own must not cut those of the panel.</summary>
public static class OpeningCutsMember
{
    private static readonly string Text = Examples.Wall(60, 30, "frame {\n    stud at 30 in along\n}\nopening cable {\n    size 4 in by 4 in\n    lower left at (ALONG, 10 in)\n    unframed\n}");

    public static readonly FindingInfo Info = new("WN4110", "opening-cuts-member", Level.Warning, "An opening without members cuts a member of the frame",
        "A hole that is left unframed goes through skins and foam. Where it meets a stud the stud is cut in two and its ends hang in the air.",
        Text.With("ALONG", "28 in"), Text.With("ALONG", "20 in"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        foreach (var frame in input.Frames.All)
            foreach (var group in frame.Problems.Where(p => p.Kind == FrameProblemKind.MemberCut).GroupBy(p => p.Subject))
            {
                if (Where.Opening(frame.Panel, group.Key) is not { } opening) continue;
                yield return new Finding(Info, $"Opening {opening.Name} of {frame.Panel.Name} has no members of its own and cuts {string.Join(", ", group.Select(g => g.Other))}.", opening.Fact.NameSpan)
                {
                    Subject = group.Key,
                    Hint = "Write framed in place of unframed, or move it into a bay.",
                    Fixes = opening.Fact.Find("unframed") is { } unframed ? [new Fix(unframed.HeadSpan, "framed", "write framed")] : [],
                };
            }
    }
}
