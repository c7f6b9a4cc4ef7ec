using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Pieces;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>What is cut stays as it was cut: the mark that was written down then is held against the design as it is now.</summary>
public static class CutDesign
{
    private static readonly string Text = Examples.Deck("splice across length {\n    lap width 1 1/2 in\n    lap depth half\n}") + "\nbuilt deck {\n    cut on 2026-10-17MARK\n}\n";

    public static readonly FindingInfo Changed = new("WN4501", "cut-design-changed", Level.Warning, "A part is cut already and its design has changed since",
        "The part in the shop is what the text said on the day that it was cut. A change of shape, size or material since then means to cut again, to alter it, or to take the change back.",
        Text.With("MARK", " design \"00000000\""), Text.With("MARK", " design \"fdccb02c\""));

    public static readonly FindingInfo Unmarked = new("WN4502", "cut-without-mark", Level.Note, "A part is cut and the design that it was cut to is not written down",
        "With the mark of the design beside the day, any later change that would make the part wrong is told. Without it nobody notices.",
        Text.With("MARK", ""), Text.With("MARK", " design \"fdccb02c\""));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        foreach (var built in input.Spec.All("built"))
        {
            if (built.Find("cut") is not { } cut || !built.Slots.TryGetValue("of", out var of) || of.Terms[0] is not Syntax.NameExpression named) continue;
            string name = string.Join('.', input.Spec.Evaluator.WholeName(named, built.Scope));
            if (DesignMark.Of(name, input.Structure, input.Frames, input.Pieces) is not { } mark) continue;
            if (!cut.Has("mark"))
            {
                yield return new Finding(Unmarked, $"{name} is cut, and the mark of its design is not written down; now it is {mark}.", cut.HeadSpan)
                {
                    Subject = name, Hint = $"Write design \"{mark}\" after the day if the part is cut to the design as it stands.", Fixes = [new Fix(new Span(cut.Span.Source, cut.Span.End, 0), $" design \"{mark}\"", $"write design \"{mark}\"")],
                };
            }
            else if (input.Spec.Evaluator.Text(cut, "mark") is { } was && was != mark)
            {
                yield return new Finding(Changed, $"{name} was cut to design {was}; the design is now {mark}.", cut.HeadSpan)
                {
                    Subject = name, Hint = $"Cut it again, or write design \"{mark}\" if the part in the shop fits all the same.", Fixes = [Fixing.Write(input.Spec, cut, "mark", $"\"{mark}\"")],
                };
            }
        }
    }
}
