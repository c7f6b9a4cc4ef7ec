using Wain.Core.Binding;
using Wain.Core.CutLists;
using Wain.Core.Findings;
using Wain.Core.Pieces;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>Every part must come out of some stock of its material.</summary>
public static class PartFitsStock
{
    private const string Text = """
        sheet ply { thickness 6 mm
            size 48 in by 120 in }
        stick strip { section 3/4 in by 1 1/2 in
            length LONG }
        stack wall_stack {
            sheet ply
            core frame of strip flat
        }
        panel wall of wall_stack {
            through (0 in, 0 in, 0 in) along (0 in, -110 in, 0 in) up (0 in, 0 in, 40 in)
            frame { studs every 16 in }
        }
        """;

    public static readonly FindingInfo Info = new("WN7001", "fits-no-stock", Level.Warning, "A part fits none of the stock of its material",
        "A part that is longer than every length sold, or than every clear stretch of what is owned, can't be cut, and a cutting plan has to leave it out. Longer stock is often sold for little more; a strip can also be scarfed from two, which then belongs in the design.",
        Text.With("LONG", "96 in"), Text.With("LONG", "120 in"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        // A skin that is too large is told by its panel, with the splice that would do.
        var told = input.Pieces.Problems.Where(p => p.Kind is PieceProblemKind.TooLarge or PieceProblemKind.PieceTooLong).Select(p => (p.Panel.Name, p.Layer.Material?.Name)).ToHashSet();
        var skins = input.Pieces.All.Where(p => told.Contains((p.Panel.Name, p.Material.Name))).Select(p => p.PartMark).ToHashSet(StringComparer.Ordinal);
        foreach (var list in input.CutLists.Where(l => !l.Stock.IsEmpty))
        {
            var lacking = list.Parts.Where(p => p.Count > 0 && !list.Fits(p) && !skins.Contains(p.Mark)).OrderByDescending(p => p.Length).ThenBy(p => p.Mark, StringComparer.Ordinal).ToList();
            if (lacking.Count == 0) continue;
            var first = lacking[0];
            string Length(long units) => input.Say.Length(units / CutList.UnitsPerMillimetre);
            double step = input.Say.Metric ? 500 : 304.8;
            string longer = $"length {input.Say.Length(Math.Ceiling(first.Length / CutList.UnitsPerMillimetre / step - 1e-6) * step)}";
            string size = list.Kind == CutKind.Stick ? $"{Length(first.Length)} long" : $"{Length(first.Width)} by {Length(first.Length)}";
            yield return new Finding(Info, $"{first.Mark} is {size} and fits none of the stock of {list.Material}{(lacking.Count > 1 ? $"; {Others(lacking)}" : "")}.", input.PlaceOf(list.Material))
            {
                Subject = list.Material,
                Hint = list.Kind == CutKind.Stick ? $"Add a longer stock, such as {longer}, or part the member in two." : "Add a larger stock, or part the panel in two.",
                Fixes = Fixing.One(list.Kind == CutKind.Stick ? Fixing.AddLine(input.Structure.Materials.First(m => m.Name == list.Material).Fact, longer) : null),
            };
        }
    }

    private static string Others(List<CutPart> lacking) => lacking.Count == 2 ? $"nor does {lacking[1].Mark}" : $"nor do {lacking.Count - 1} more, such as {lacking[1].Mark}";
}
