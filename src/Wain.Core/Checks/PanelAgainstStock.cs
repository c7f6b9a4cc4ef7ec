using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Pieces;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>A skin larger than any sheet that can be bought needs a splice.</summary>
public static class PanelAgainstStock
{
    private static readonly string Text = Examples.Deck("SPLICE");

    public static readonly FindingInfo Info = new("WN4204", "larger-than-stock", Level.Error, "A skin is larger than any sheet it could be cut from",
        "No sheet that the material comes in covers it, in the direction that its grain must run. It has to be made out of pieces, and how they join belongs in the design: a splice takes length, glue and time.",
        Text.With("SPLICE", ""), Text.With("SPLICE", "splice across length {\n    lap width 1 1/2 in\n    lap depth half\n}"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        foreach (var p in input.Pieces.Problems.Where(p => p.Kind == PieceProblemKind.TooLarge).DistinctBy(p => (p.Panel.Name, p.Layer.Material!.Name, p.Rule)))
        {
            string material = p.Layer.Material!.Name;
            string message = p.Rule is null
                ? $"{material} of {p.Panel.Name} is {input.Say.Length(p.Panel.Width)} by {input.Say.Length(p.Panel.Height)}, larger than any sheet of it, and has no splice."
                : $"The pieces of {material} for {p.Panel.Name} are {input.Say.Length(p.Has)} across; the stock gives {input.Say.Length(p.Needs)} there.";
            yield return new Finding(Info, message, p.Rule?.Fact.HeadSpan ?? p.Panel.Fact.NameSpan)
            {
                Subject = p.Panel.Name,
                Hint = p.Advice.Length > 0 ? $"This would do, with a new line at each semicolon: {Fixing.OneLine(p.Advice)}" : "No one row of pieces does: state a larger size of sheet, or part the panel in two.",
                Fixes = p.Rule is null && p.Advice.Length > 0 && p.Panel.Mirrored is null ? Fixing.One(Fixing.AddLine(p.Panel.Fact, p.Advice)) : [],
            };
        }
    }
}
