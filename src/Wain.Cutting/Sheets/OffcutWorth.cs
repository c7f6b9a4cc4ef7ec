namespace Wain.Cutting;

/// <summary>
/// What kept offcuts are worth against what sheets cost. Pieces and offcuts of a sheet share no area, so a plan costs, what it keeps taken off, at least what its sheets cost beyond
/// the worth of their whole area, and the worth of the area of the pieces that lie on them.
/// </summary>
internal static class OffcutWorth
{
    /// <summary>Whether the value of offcuts has a say at all.</summary>
    public static bool Counts(SheetProblem problem) => problem.Offcuts.ValuePerArea > 0;

    /// <summary>The problem with what each sheet costs beyond the worth of its whole area; as it is where offcuts have no value.</summary>
    public static SheetPlanner.Reduced Beyond(SheetProblem problem, SheetPlanner.Reduced reduced)
    {
        if (!Counts(problem))
            return reduced;
        var c = reduced.Core;
        var costs = c.Costs.Select((cost, s) => cost - (long)Math.Min(cost, decimal.Ceiling(Rule(problem, reduced, s).ValuePerArea * c.StockArea(s)))).ToArray();
        return reduced with { Core = new SheetCore(c.Width, c.Height, c.Demand, c.MayTurn, c.StockWidth, c.StockHeight, costs, c.Counts, c.Guillotine) };
    }

    /// <summary>The least worth of the area that the pieces take of paid sheets: what they may at most take of free ones is left out.</summary>
    /// <param name="plain">The problem with its pieces as their bounding rectangles.</param>
    public static long OfPieces(SheetProblem problem, SheetPlanner.Reduced plain)
    {
        var core = plain.Core;
        int[] free = [.. Enumerable.Range(0, core.Stocks).Where(s => core.Costs[s] == 0)];
        if (!Counts(problem) || free.Length == core.Stocks || free.Any(s => core.Counts[s] < 0))
            return 0;
        var least = Enumerable.Range(0, core.Stocks).Where(s => core.Costs[s] > 0).Min(s => Rule(problem, plain, s).ValuePerArea);
        var counts = plain.Counts(problem.Pieces.Count);
        var area = counts.Select((n, p) => n == 0 ? 0 : (decimal)n * SheetSharing.Area(problem.Pieces[p], problem.Kerf)).Sum() - free.Sum(s => (decimal)core.Counts[s] * core.StockArea(s));
        return area <= 0 ? 0 : (long)decimal.Floor(least * area);
    }

    /// <summary>What the kept offcuts of a plan are worth.</summary>
    public static long Kept(SheetProblem problem, IEnumerable<CutSheet> sheets) => !Counts(problem) ? 0
        : sheets.Sum(s => s.Times * s.Offcuts.Sum(o => problem.Offcuts.For(problem.Stock[s.Stock], problem.Kerf).Worth(o.Width, o.Height)));

    private static OffcutRule Rule(SheetProblem problem, SheetPlanner.Reduced reduced, int stock) => problem.Offcuts.For(problem.Stock[reduced.StockOf[stock]], problem.Kerf);
}
