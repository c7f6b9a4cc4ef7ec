namespace Wain.Cutting;

/// <summary>Plans how pieces are cut from sheets.</summary>
public static class SheetPlanner
{
    private const long MostUnits = 1L << 30;

    /// <summary>
    /// Plans at least cost, then with fewest sheets, then with the largest usable offcut, then with fewest cuts. Bad values and pieces that fit nothing
    /// become issues of the plan and the rest is planned. The same problem and budget give the same plan everywhere, and a larger budget
    /// never a worse one.
    /// </summary>
    public static SheetPlan Plan(SheetProblem problem, StepBudget budget)
    {
        var issues = new List<CuttingIssue>();
        if (Reduce(problem, issues) is not { } reduced)
            return new SheetPlan([], 0, 0, issues.Count == 0, null, issues, 0);
        var result = SheetSearch.Run(reduced.Core, budget);
        if (result.Best is null)
        {
            issues.Add(new CuttingIssue(IssueKind.NotEnoughStock, "", reduced.Core.Demand.Sum(d => (long)d), "No plan was found that places all pieces on the stock on hand and on sale."));
            return new SheetPlan([], 0, result.Bound, false, result.Certificate, issues, budget.StepsDone);
        }

        var sheets = SheetExpansion.Expand(problem, reduced, result.Best);
        return new SheetPlan(sheets, result.Best.Cost, result.Bound, result.Best.Cost == result.Bound, result.Certificate, issues, budget.StepsDone);
    }

    /// <summary>The lower bound that a plan's certificate proves for a problem, in exact arithmetic; null if it proves none.</summary>
    public static long? CheckBound(SheetProblem problem, SheetCertificate certificate) =>
        Reduce(problem, []) is { } reduced ? SheetProof.Bound(reduced.Core, certificate) : null;

    /// <summary>A problem with kerf, trim and equal pieces worked in.</summary>
    /// <param name="PiecesOfKind">Piece indexes behind each kind of the core.</param>
    /// <param name="StockOf">Stock index behind each stock of the core.</param>
    internal sealed record Reduced(SheetCore Core, int[][] PiecesOfKind, int[] StockOf);

    internal static Reduced? Reduce(SheetProblem problem, List<CuttingIssue> issues)
    {
        if (problem.Kerf is < 0 or > MostUnits)
        {
            issues.Add(new CuttingIssue(IssueKind.BadValue, "kerf", 0, "The kerf must not be negative."));
            return null;
        }

        var stock = new List<(int Index, int Width, int Height)>();
        for (var s = 0; s < problem.Stock.Count; s++)
        {
            var sheet = problem.Stock[s];
            var trim = sheet.Trim;
            var width = sheet.Width - trim.Left - trim.Right;
            var height = sheet.Height - trim.Bottom - trim.Top;
            if (sheet.Width is <= 0 or > MostUnits || sheet.Height is <= 0 or > MostUnits || width <= 0 || height <= 0 || sheet.Cost is < 0 or > 1L << 40 || sheet.Count < 0
                || trim.Left < 0 || trim.Right < 0 || trim.Bottom < 0 || trim.Top < 0)
                issues.Add(new CuttingIssue(IssueKind.BadValue, sheet.Id, 0, $"Stock {sheet.Id} has a size, trim, price or count that cannot be; it is left out."));
            else if (sheet.Count != 0)
                stock.Add((s, (int)(width + problem.Kerf), (int)(height + problem.Kerf)));
        }

        var kinds = new SortedDictionary<(long Width, long Height, bool Turn), List<int>>();
        long total = 0;
        for (var p = 0; p < problem.Pieces.Count; p++)
        {
            var piece = problem.Pieces[p];
            if (piece.Width <= 0 || piece.Height <= 0 || piece.Count < 0 || total + piece.Count > int.MaxValue)
            {
                issues.Add(new CuttingIssue(IssueKind.BadValue, piece.Id, piece.Count, $"Piece {piece.Id} has a size or count that cannot be; it is left out."));
                continue;
            }

            if (piece.Count == 0)
                continue;
            var (w, h) = (piece.Width + problem.Kerf, piece.Height + problem.Kerf);
            if (!stock.Any(s => (w <= s.Width && h <= s.Height) || (piece.MayTurn && h <= s.Width && w <= s.Height)))
            {
                issues.Add(new CuttingIssue(IssueKind.FitsNoStock, piece.Id, piece.Count, $"Piece {piece.Id} is larger than every sheet."));
                continue;
            }

            total += piece.Count;
            // A piece that may turn is the same kind either way up.
            var key = piece.MayTurn && w < h ? (h, w, true) : (w, h, piece.MayTurn);
            if (!kinds.TryGetValue(key, out var list))
                kinds[key] = list = [];
            list.Add(p);
        }

        if (kinds.Count == 0)
            return null;
        var core = new SheetCore(
            [.. kinds.Keys.Select(k => (int)k.Width)], [.. kinds.Keys.Select(k => (int)k.Height)],
            [.. kinds.Values.Select(ps => ps.Sum(p => problem.Pieces[p].Count))], [.. kinds.Keys.Select(k => k.Turn)],
            [.. stock.Select(s => s.Width)], [.. stock.Select(s => s.Height)],
            [.. stock.Select(s => problem.Stock[s.Index].Cost)], [.. stock.Select(s => problem.Stock[s.Index].Count ?? -1)], problem.Guillotine);
        return new Reduced(core, [.. kinds.Values.Select(l => l.ToArray())], [.. stock.Select(s => s.Index)]);
    }
}
