using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Pieces;

namespace Wain.Core.Checks;

/// <summary>A sheet without a size can be neither spliced nor bought.</summary>
public static class StockSizes
{
    private const string Text = """
        sheet ply { thickness 6 mm
        SIZE }
        stack skin { sheet ply }
        panel deck of skin { through (0 in, 0 in, 0 in) along (0 in, -40 in, 0 in) up (30 in, 0 in, 0 in) }
        """;

    public static readonly FindingInfo Info = new("WN4207", "sheet-without-size", Level.Warning, "A sheet material has no size that it is sold in",
        "Without one nothing can be said about splices, cutting or how many sheets to buy.",
        Text.With("SIZE", ""), Text.With("SIZE", "    size 48 in by 96 in"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        string usual = input.Say.Such("48 in by 96 in", "1220 mm by 2440 mm");
        return input.Pieces.Problems.Where(p => p.Kind == PieceProblemKind.NoStockSize).Select(p => p.Layer.Material!).DistinctBy(m => m.Name)
            .Select(m => new Finding(Info, $"{m.Name} states no size that it is sold in.", m.Fact.NameSpan) { Subject = m.Name, Hint = $"A full sheet is most often {usual} (common practice).", Fixes = Fixing.One(Fixing.AddLine(m.Fact, $"size {usual}")) });
    }
}
