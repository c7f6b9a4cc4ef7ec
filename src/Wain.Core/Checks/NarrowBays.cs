using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Framing;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>Bays too narrow to foam are filled with wood, and told.</summary>
public static class NarrowBays
{
    public static readonly FindingInfo Info = new("WN4102", "bay-filled-solid", Level.Note, "A bay is so narrow that it is filled with wood",
        "Foam in a bay narrower than a stick is wide is hard to fit and hard to pour, so common practice is to fill it with a strip of the frame's own stick, ripped to width. It adds a little weight and a cold bridge. Move a stud, or state the least bay that you want to foam: bay at least.",
        Examples.Wall(60, 30, "frame {\n    stud at 10 in along\n    stud at 12 in along\n}"), Examples.Wall(60, 30, "frame {\n    stud at 10 in along\n    stud at 15 in along\n}"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        foreach (var frame in input.Frames.All)
        {
            var narrow = frame.Problems.Where(p => p.Kind == FrameProblemKind.BayFilled).ToList();
            if (narrow.Count == 0) continue;
            var worst = narrow.MinBy(p => p.Has)!;
            string many = narrow.Count == 1 ? "One bay" : $"{narrow.Count} bays";
            yield return new Finding(Info, $"{many} of {frame.Subject} narrower than {input.Say.Length(worst.Needs)} {(narrow.Count == 1 ? "is" : "are")} filled with wood; the narrowest is {input.Say.Length(worst.Has)}, {input.Say.On(worst.At)}.", (frame.Rules.Fact ?? frame.Panel.Fact).HeadSpan)
            {
                Subject = frame.Subject,
                Hint = $"Move the member beside it, or write in the frame: bay at least {input.Say.AtMost(worst.Has)}",
            };
        }
    }
}
