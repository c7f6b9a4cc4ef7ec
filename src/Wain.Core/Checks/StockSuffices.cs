using Wain.Core.Binding;
using Wain.Core.CutLists;
using Wain.Core.Findings;

namespace Wain.Core.Checks;

/// <summary>Stock of which there are few must hold all parts.</summary>
public static class StockSuffices
{
    private const string Text = """
        sheet ply { thickness 6 mm
            size 48 in by 96 in, count COUNT }
        stack skin { sheet ply }
        panel deck of skin { through (0 in, 0 in, 0 in) along (0 in, -90 in, 0 in) up (40 in, 0 in, 0 in) }
        panel lid of skin { through (0 in, 0 in, 30 in) along (0 in, -90 in, 30 in) up (40 in, 0 in, 30 in) }
        """;

    public static readonly FindingInfo Info = new("WN7005", "stock-too-little", Level.Warning, "The limited stock can't hold all parts, however they are cut",
        "Where the spec says how many sheets or sticks there are of every size, no more can be bought. The parts together are larger than all of it, so some are left without a place.",
        Text.With("COUNT", "1"), Text.With("COUNT", "2"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        foreach (var list in input.CutLists.Where(l => l.Kind is CutKind.Sheet or CutKind.Stick && l.Stock.Any(s => s.Count != 0) && l.Stock.All(s => s.Count is not null)))
        {
            double there = list.Stock.Sum(s => (double)s.Count!.Value * (list.Kind == CutKind.Stick ? s.Length - s.Faults.Sum(f => f.To - f.From) : (double)s.Width * s.Length));
            double needed = list.Parts.Where(list.Fits).Sum(p => p.Count * (list.Kind == CutKind.Stick ? p.Length : Area(p)));
            if (needed <= there) continue;
            // Of one size it is plain how many there must be; cutting never does with fewer.
            var size = list.Stock is [_] && input.Structure.Materials.First(m => m.Name == list.Material).Fact.Body.Where(f => f.Keyword is "size" or "length" && f.Has("count")).ToList() is [var only] ? only : null;
            int least = size is null ? 0 : (int)Math.Ceiling(needed / there * list.Stock[0].Count!.Value - 1e-9);
            yield return new Finding(Info, $"The parts of {list.Material} take {needed / there * 100:0} % of all the stock of it that there is.", input.PlaceOf(list.Material))
            {
                Subject = list.Material,
                Hint = $"Raise the count{(size is null ? "" : $" to {least} at least")}, add a size, or leave the count out where more can be bought.",
                Fixes = size is null ? [] : [Fixing.Write(input.Spec, size, "count", least.ToString(System.Globalization.CultureInfo.InvariantCulture))],
            };
        }
    }

    private static double Area(CutPart part)
    {
        double twice = 0;
        for (int i = 0; i < part.Outline.Length; i++)
        {
            var (a, b) = (part.Outline[i], part.Outline[(i + 1) % part.Outline.Length]);
            twice += (double)a.X * b.Y - (double)b.X * a.Y;
        }
        return part.Outline.IsEmpty ? (double)part.Width * part.Length : Math.Abs(twice) / 2;
    }
}
