namespace Wain.Cutting;

/// <summary>Turns the bare solution back into the caller's pieces, sheets and units.</summary>
internal static class SheetExpansion
{
    public static IReadOnlyList<CutSheet> Expand(SheetProblem problem, SheetPlanner.Reduced reduced, SheetSolution solution)
    {
        var left = reduced.Kinds.Select(lots => lots.ToList()).ToArray();
        var sheets = new List<CutSheet>();
        foreach (var layout in solution.Layouts)
        {
            var used = layout.Pieces.GroupBy(p => p.Kind).Select(g => (Kind: g.Key, Count: g.Count())).ToArray();
            for (var times = layout.Times; times > 0;)
            {
                // As many sheets as the first piece of every kind allows; a sheet that two pieces of a kind share is cut alone.
                var batch = times;
                foreach (var (kind, n) in used)
                    batch = Math.Min(batch, left[kind][0].Count / n);
                batch = Math.Max(1, batch);
                times -= batch;
                sheets.Add(Build(problem, reduced, layout, batch, left));
            }
        }

        return sheets;
    }

    private static CutSheet Build(SheetProblem problem, SheetPlanner.Reduced reduced, SheetLayout layout, int batch, List<SheetPlanner.Lot>[] left)
    {
        var stockIndex = reduced.StockOf[layout.Stock];
        var stock = problem.Stock[stockIndex];
        var trim = stock.Trim;
        var kerf = problem.Kerf;
        var placements = new List<SheetPlacement>();
        foreach (var p in layout.Pieces)
        {
            var lot = left[p.Kind][0];
            if (lot.Count <= batch)
                left[p.Kind].RemoveAt(0);
            else
                left[p.Kind][0] = lot with { Count = lot.Count - batch };
            Place(problem, lot, trim.Left + p.X, trim.Bottom + p.Y, p.Width - kerf, p.Height - kerf, placements);
        }

        long width = reduced.Core.StockWidth[layout.Stock], height = reduced.Core.StockHeight[layout.Stock];
        var cuts = TrimCuts(stock);
        var found = CutList.Of(layout.Pieces, width, height, kerf, trim, problem.Offcuts.For(stock, kerf), problem.Guillotine);
        cuts.AddRange(found.Cuts);
        return new CutSheet(stockIndex, batch, placements, cuts, Sorted(found.Offcuts));
    }

    private static List<SheetOffcut> Sorted(List<SheetOffcut> offcuts) => [.. offcuts.OrderByDescending(o => o.Area)];

    private static void Place(SheetProblem problem, SheetPlanner.Lot lot, long x, long y, long width, long height, List<SheetPlacement> placements)
    {
        var first = problem.Pieces[lot.Piece];
        if (lot.Pair is not { } pair)
        {
            placements.Add(new SheetPlacement(lot.Piece, x, y, width, height, first.Width != width || first.Height != height));
            return;
        }

        var second = problem.Pieces[pair.Second];
        // A pair turned by a quarter, leftwards: what lay to the right lies above, and what stood up points left.
        if (pair.Width == width && pair.Height == height)
        {
            placements.Add(new SheetPlacement(lot.Piece, x, y, first.Width, first.Height, false));
            placements.Add(new SheetPlacement(pair.Second, x + pair.Offset, y, second.Width, second.Height, false, true));
        }
        else
        {
            placements.Add(new SheetPlacement(lot.Piece, x + width - first.Height, y, first.Height, first.Width, true));
            placements.Add(new SheetPlacement(pair.Second, x + width - second.Height, y + pair.Offset, second.Height, second.Width, true, true));
        }
    }

    /// <summary>The edges come off first, each over the whole length that is there.</summary>
    private static List<SheetCut> TrimCuts(StockSheet stock)
    {
        var cuts = new List<SheetCut>();
        var trim = stock.Trim;
        if (trim.Left > 0)
            cuts.Add(new SheetCut(true, trim.Left, 0, stock.Height, 0));
        if (trim.Right > 0)
            cuts.Add(new SheetCut(true, stock.Width - trim.Right, 0, stock.Height, 0));
        if (trim.Bottom > 0)
            cuts.Add(new SheetCut(false, trim.Bottom, trim.Left, stock.Width - trim.Right, 0));
        if (trim.Top > 0)
            cuts.Add(new SheetCut(false, stock.Height - trim.Top, trim.Left, stock.Width - trim.Right, 0));
        return cuts;
    }
}
