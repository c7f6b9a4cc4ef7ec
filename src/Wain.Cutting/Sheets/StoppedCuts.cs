namespace Wain.Cutting;

/// <summary>
/// Frees what no cut from edge to edge can: a jigsaw or a router follows the sides of one piece after another. Each line is cut as far as it goes without
/// striking a piece, so that it serves the neighbours too.
/// </summary>
internal static class StoppedCuts
{
    /// <summary>
    /// Cuts in an order that frees part by part, always the one that takes the fewest further cuts. All numbers carry the kerf at their far sides, as in
    /// <see cref="SheetCore"/>; the cuts have it no more, and stop short at no edge of the block.
    /// </summary>
    /// <param name="parts">Pieces, and rests that are kept, each within the block.</param>
    public static List<SheetCut> Of(SheetRegion block, IReadOnlyList<SheetRegion> parts, long kerf)
    {
        var cuts = new List<SheetCut>();
        var onLine = new Dictionary<(bool Upright, long At), List<SheetCut>>();
        var open = new List<SheetRegion>(parts);
        while (open.Count > 0)
        {
            var next = open.Select(p => (Part: p, Sides: Open(p))).MinBy(p => (p.Sides.Count, p.Part.Y1, p.Part.X1));
            foreach (var cut in next.Sides.Select(Whole))
            {
                cuts.Add(cut);
                if (!onLine.TryGetValue((cut.Upright, cut.At), out var others))
                    onLine[(cut.Upright, cut.At)] = others = [];
                others.Add(cut);
            }

            open.Remove(next.Part);
        }

        return cuts;

        // The sides of a part that no cut so far and no edge of the block has freed.
        List<SheetCut> Open(SheetRegion p)
        {
            var sides = new List<SheetCut>(4);
            if (p.Y1 > block.Y1)
                Add(false, p.Y1 - kerf, p.X1, p.X2 - kerf);
            if (p.X1 > block.X1)
                Add(true, p.X1 - kerf, p.Y1, p.Y2 - kerf);
            if (p.Y2 < block.Y2)
                Add(false, p.Y2 - kerf, p.X1, p.X2 - kerf);
            if (p.X2 < block.X2)
                Add(true, p.X2 - kerf, p.Y1, p.Y2 - kerf);
            return sides;

            void Add(bool upright, long at, long from, long to)
            {
                if (!onLine.TryGetValue((upright, at), out var others) || !others.Exists(c => c.From <= from && c.To >= to))
                    sides.Add(new SheetCut(upright, at, from, to, SheetCut.Stopped));
            }
        }

        SheetCut Whole(SheetCut side)
        {
            var (from, to) = side.Upright ? (block.Y1, block.Y2 - kerf) : (block.X1, block.X2 - kerf);
            foreach (var p in parts)
            {
                var (near, far, start, end) = side.Upright ? (p.X1, p.X2 - kerf, p.Y1, p.Y2 - kerf) : (p.Y1, p.Y2 - kerf, p.X1, p.X2 - kerf);
                if (near >= side.At + kerf || far <= side.At)
                    continue;
                if (end <= side.From)
                    from = Math.Max(from, end);
                else
                    to = Math.Min(to, start);
            }

            return side with { From = from, To = to };
        }
    }
}
