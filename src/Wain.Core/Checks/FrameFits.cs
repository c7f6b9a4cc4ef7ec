using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Framing;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>Rails and stiles must fit round a panel with space between them.</summary>
public static class FrameFits
{
    public static readonly FindingInfo Info = new("WN4101", "frame-does-not-fit", Level.Error, "A frame does not fit its panel",
        "Two members side by side need twice their width. In a panel narrower than that, or in a neck of one, the sticks would lie over each other and nothing is counted for it. A narrower stick, one on edge, or a stack of solid sheet does the work there.",
        Examples.Wall(60, 2, ""), Examples.Wall(60, 6, ""));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        foreach (var frame in input.Frames.All)
            foreach (var p in frame.Problems.Where(p => p.Kind == FrameProblemKind.DoesNotFit))
                yield return new Finding(Info, $"The frame of {p.Subject} needs {input.Say.Length(p.Needs)} where its narrowest place leaves {input.Say.Length(p.Has)}.", frame.Zone?.Fact.HeadSpan ?? frame.Panel.Fact.NameSpan)
                {
                    Subject = p.Subject,
                    Hint = $"Make it at least {input.Say.AtLeast(p.Needs)} wide there, lay the stick on edge, or use a stick no wider than {input.Say.AtMost(p.Has / 2)} on the face.",
                };
    }
}
