using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>A splice where one sheet would do costs length, glue and time.</summary>
public static class SpliceIdle
{
    private static readonly string Text = Examples.Deck("splice across length {\n    lap width 1 1/2 in\n    lap depth half\n}").With("through (0 in, 33 in, 0 in) along (0 in, -33 in, 0 in) up (90 in, 33 in, 0 in)", "through (0 in, 20 in, 0 in) along (0 in, -20 in, 0 in) up (LONG in, 20 in, 0 in)");

    public static readonly FindingInfo Info = new("WN4213", "splice-idle", Level.Note, "A splice is not needed: one sheet covers the skin",
        "Every skin that the splice speaks of comes out of one sheet in the direction of its grain. A splice without a place then joins nothing; one with a place is cut all the same, and costs its lap, its glue and an evening. It may be left from a larger panel or a smaller sheet. A place that was chosen to use up offcuts can stay.",
        Text.With("LONG", "90"), Text.With("LONG", "110"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        foreach (var idle in input.Pieces.IdleSplices)
        {
            if (idle.Panel.Mirrored is not null) continue;
            bool placed = idle.Rule.At is not null || !idle.Rule.Lengths.IsEmpty;
            string skin = $"its {idle.Sheet.Name}, {input.Say.Nearly(idle.Along)} by {input.Say.Nearly(idle.Across)}, comes out of one sheet of {input.Say.Length(idle.Size.Width)} by {input.Say.Length(idle.Size.Length)}";
            yield return new Finding(Info, $"The splice of {idle.Panel.Name} {(placed ? "is not needed" : "joins nothing")}: {skin}.", idle.Rule.Fact.HeadSpan)
            {
                Subject = idle.Panel.Name,
                Hint = placed ? "Take it out, unless its pieces use up what is left of other sheets." : "Take it out, or leave it for the day that the panel grows.",
                Fixes = [Fixing.TakeOut(idle.Rule.Fact)],
            };
        }
    }
}
