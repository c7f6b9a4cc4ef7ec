namespace Wain.Cutting;

/// <summary>Turns the bare solution back into the caller's pieces, sheets and units.</summary>
internal static class SheetExpansion
{
    public static IReadOnlyList<CutSheet> Expand(SheetProblem problem, SheetPlanner.Reduced reduced, SheetSolution solution)
    {
        var left = reduced.PiecesOfKind.Select(ps => ps.Select(p => (Piece: p, Left: problem.Pieces[p].Count)).ToList()).ToArray();
        var sheets = new List<CutSheet>();
        foreach (var layout in solution.Layouts)
        {
            var used = layout.Pieces.GroupBy(p => p.Kind).Select(g => (Kind: g.Key, Count: g.Count())).ToArray();
            for (var times = layout.Times; times > 0;)
            {
                // As many sheets as the first piece of every kind allows; a sheet that two pieces of a kind share is cut alone.
                var batch = times;
                foreach (var (kind, n) in used)
                    batch = Math.Min(batch, left[kind][0].Left / n);
                batch = Math.Max(1, batch);
                times -= batch;
                sheets.Add(Build(problem, reduced, layout, batch, left));
            }
        }

        return sheets;
    }

    private static CutSheet Build(SheetProblem problem, SheetPlanner.Reduced reduced, SheetLayout layout, int batch, List<(int Piece, int Left)>[] left)
    {
        var stockIndex = reduced.StockOf[layout.Stock];
        var stock = problem.Stock[stockIndex];
        var placements = new List<SheetPlacement>();
        foreach (var p in layout.Pieces)
        {
            var (piece, n) = left[p.Kind][0];
            if (n <= batch)
                left[p.Kind].RemoveAt(0);
            else
                left[p.Kind][0] = (piece, n - batch);
            var (w, h) = (p.Width - problem.Kerf, p.Height - problem.Kerf);
            placements.Add(new SheetPlacement(piece, stock.Trim.Left + p.X, stock.Trim.Bottom + p.Y, w, h, problem.Pieces[piece].Width != w || problem.Pieces[piece].Height != h));
        }

        return new CutSheet(stockIndex, batch, placements, [], []);
    }
}
