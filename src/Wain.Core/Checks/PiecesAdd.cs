using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Pieces;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>Pieces that a spec states must add to the length and the laps.</summary>
public static class PiecesAdd
{
    private static readonly string Text = Examples.Deck("splice across length {\n    lap width 1 1/2 in\n    lap depth half\n    pieces 48 in and LAST\n}");

    public static readonly FindingInfo Info = new("WN4203", "pieces-do-not-add", Level.Error, "Pieces and laps do not add up to the length",
        "Each lap is cut twice, once on each piece, so the pieces together are longer than the panel by the width of every lap. A piece cut without it leaves the panel short by a lap.",
        Text.With("LAST", "42 in"), Text.With("LAST", "43 1/2 in"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        foreach (var p in input.Pieces.Problems.Where(p => p.Kind == PieceProblemKind.PiecesDoNotAdd))
        {
            var fact = p.Rule!.Fact.Find("pieces")!;
            double last = p.Rule.Lengths[^1] + p.Needs - p.Has;
            string text = string.Join(" and ", p.Rule.Lengths.SkipLast(1).Append(last).Select(input.Say.Length));
            yield return new Finding(Info, $"The pieces of {p.Panel.Name} come to {input.Say.Length(p.Has)}; its length with {p.Rule.Lengths.Length - 1} lap{(p.Rule.Lengths.Length == 2 ? "" : "s")} of {input.Say.Length(p.Rule.LapWidth)} needs {input.Say.Length(p.Needs)}, {input.Say.Length(Math.Abs(p.Needs - p.Has))} {(p.Needs > p.Has ? "more" : "less")}.", fact.Span)
            {
                Subject = p.Panel.Name,
                Hint = last > 0 ? $"With the others as they are the last piece is {input.Say.Length(last)}." : null,
                Fixes = last > 0 ? [Fixing.Write(input.Spec, fact, "lengths", text)] : [],
            };
        }
    }
}
