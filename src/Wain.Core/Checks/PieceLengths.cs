using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Pieces;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>Each piece of a spliced skin must come out of the stock, and be no shorter than the spec allows.</summary>
public static class PieceLengths
{
    private static readonly string Text = Examples.Deck("splice across length at PLACE {\n    lap width 1 1/2 in\n    lap depth half\n}");

    public static readonly FindingInfo Info = new("WN4205", "piece-length", Level.Error, "A piece of a skin is longer than the sheet or shorter than allowed",
        "With splices at stated places a piece comes out as long as it comes out. The longest must still be cut from a sheet, laps counted; the shortest must not be less than the spec's least piece, since a short one at an end is a weak place.",
        Text.With("PLACE", "60 in"), Text.With("PLACE", "46 in"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        var problems = input.Pieces.Problems.Where(p => p.Kind is PieceProblemKind.PieceTooLong or PieceProblemKind.PieceTooShort).ToList();
        foreach (var (p, others) in OfSkins.Worst(problems, p => (p.Kind, p.Panel, p.Rule!.Fact, p.Advice), p => p.Layer.Material!.Name, p => Math.Abs(p.Has - p.Needs)))
        {
            bool tooLong = p.Kind == PieceProblemKind.PieceTooLong;
            yield return new Finding(Info, $"A piece of {p.Layer.Material!.Name}{others} in {p.Panel.Name} ({p.Advice}) is {input.Say.Length(p.Has)} long; {(tooLong ? "the stock gives" : "the spec's least piece is")} {input.Say.Length(p.Needs)}.", p.Rule!.Fact.HeadSpan)
            {
                Level = tooLong ? Level.Error : Level.Warning,
                Subject = p.Panel.Name,
                Hint = $"Move the splice by {input.Say.AtLeast(Math.Abs(p.Has - p.Needs))} or more, or leave its place to the rule.",
                // Of two pieces the one gives what the other takes; where both are wrong no place will do.
                Fixes = p.Panel.Mirrored is null && p.Rule.Fact.Has("at") && input.Pieces.All.Count(x => x.Panel.Name == p.Panel.Name && x.Material == p.Layer.Material) == 2 && problems.Where(x => x.Panel.Name == p.Panel.Name).Select(x => (x.Kind, x.Advice)).Distinct().Count() == 1
                    ? Fixing.One(Fixing.Longer(input.Spec, p.Rule.Fact, "at", (p.Advice.EndsWith('a') ? 1 : -1) * (p.Needs - p.Has))) : [],
            };
        }
    }
}
