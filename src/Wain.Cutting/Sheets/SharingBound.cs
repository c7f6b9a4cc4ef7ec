namespace Wain.Cutting;

/// <summary>
/// Finds prices of whole pieces for the bound of a sheet problem (<see cref="SharingPrices"/>): the dual values of the linear program over all sets of pieces of
/// which any two could share a sheet, with the sets found as they are wanted. The larger pieces alone come first, then smaller ones too, as far as the work lasts.
/// </summary>
internal sealed class SharingBound
{
    private const long MostWork = 12_000_000, MostWorkOfSet = 600_000;
    private const int MostRounds = 400;
    private static readonly int[] Parts = [4, 9, 25];
    private readonly SheetProblem _problem;
    private readonly SheetCore _core;
    private readonly StepBudget _budget;
    private readonly int[][] _shapes;
    private readonly int[] _counts;
    private readonly Lazy<(long, SharingPrices)?> _best;
    private long _work = MostWork;

    /// <param name="plain">The problem with its pieces as their bounding rectangles.</param>
    public SharingBound(SheetProblem problem, SheetPlanner.Reduced plain, StepBudget budget)
    {
        (_problem, _core, _budget) = (problem, plain.Core, budget);
        var counts = plain.Counts(problem.Pieces.Count);
        _shapes = [.. Enumerable.Range(0, counts.Length).Where(p => counts[p] > 0).GroupBy(p => SharingProof.Shape(problem.Pieces[p])).Select(g => g.ToArray())
            .OrderByDescending(g => (double)problem.Pieces[g[0]].Width * problem.Pieces[g[0]].Height).ThenBy(g => g[0]).Take(SharingProof.MostKinds)];
        _counts = [.. _shapes.Select(g => g.Sum(p => counts[p]))];
        _best = new(Search);
    }

    /// <summary>The highest bound found and the prices that prove it, searched for when first asked for; null if there are none.</summary>
    public (long Bound, SharingPrices Prices)? Best => _best.Value;

    private (long, SharingPrices)? Search()
    {
        (long Bound, SharingPrices Prices)? best = null;
        var table = new SheetSharing(_problem, _core, [.. _shapes.Select(g => g[0])], _counts);
        _work -= table.Work;
        var largest = Enumerable.Range(0, _core.Stocks).Max(_core.StockArea);
        var before = 0;
        foreach (var part in Parts)
        {
            var kinds = _shapes.TakeWhile(g => (_problem.Pieces[g[0]].Width + _problem.Kerf) * (_problem.Pieces[g[0]].Height + _problem.Kerf) >= largest / part).Count();
            if (kinds == before)
                continue;
            before = kinds;
            if (_work <= 0 || Prices(table, kinds) is not { } prices)
                break;
            if (Certify(table, prices) is { } found && found.Bound > (best?.Bound ?? 0))
                best = found;
        }

        _budget.Spend(Math.Min(MostWork, MostWork - _work));
        return best;
    }

    /// <summary>The best prices of the first so many kinds; null if that takes too much work.</summary>
    private long[]? Prices(SheetSharing table, int kinds)
    {
        int[] limited = [.. Enumerable.Range(0, _core.Stocks).Where(s => _core.Counts[s] >= 0)];
        var top = Math.Max(1.0, _core.Costs.Max());
        var master = new MasterProgram(kinds, limited, _core.Stocks, 10 * top);
        master.Reset(_counts[..kinds], [.. limited.Select(s => _core.Counts[s])]);
        var allowed = new bool[64];
        var prices = new long[_shapes.Length];
        var amounts = new int[_shapes.Length];
        for (var round = 0; round < MostRounds; round++)
        {
            Array.Fill(allowed, true);
            master.Primal(allowed, _budget);
            _work -= master.TakeWork();
            if (_work <= 0 || _budget.IsSpent)
                return null;
            var unit = Math.Max(1e-12, master.Dual[..kinds].ToArray().Max()) / (SharingProof.MostPrice / 64);
            for (var k = 0; k < kinds; k++)
                prices[k] = (long)(Math.Max(0, master.Dual[k]) / unit);
            var added = false;
            for (var s = 0; s < _core.Stocks; s++)
            {
                var work = Math.Min(_work, MostWorkOfSet);
                var worth = table.MostWorth(s, prices, amounts, ref work);
                _work -= Math.Min(_work, MostWorkOfSet) - work;
                if (worth is null)
                    return null;
                if (worth.Value * unit <= (_core.Costs[s] + master.StockDual(s)) * (1 + 1e-6) + 1e-9 * top)
                    continue;
                int[] used = [.. Enumerable.Range(0, kinds).Where(k => amounts[k] > 0)];
                added |= master.Add(new Column(s, used, [.. used.Select(k => amounts[k])], _core.Costs[s]));
            }

            if (!added)
                return prices;
            if (master.Columns.Count > allowed.Length)
                allowed = new bool[master.Columns.Count * 2];
        }

        return prices;
    }

    /// <summary>The prices weighted as the stock allows; where all of it is limited the weight that each allows is tried.</summary>
    private (long Bound, SharingPrices Prices)? Certify(SheetSharing table, long[] prices)
    {
        if (SharingProof.Worth(table, _core, prices, 4 * MostWorkOfSet) is not { } worth)
            return null;
        (long Bound, SharingPrices Prices)? best = null;
        int[] full = [.. Enumerable.Range(0, _core.Stocks).Where(s => worth[s] > 0 && _core.Costs[s] > 0)];
        int[] binding = [.. full.Where(s => _core.Counts[s] < 0)];
        int[] priced = [.. Enumerable.Range(0, prices.Length).Where(k => prices[k] > 0)];
        foreach (var s in binding.Length > 0 ? binding : full)
        {
            if (SharingProof.Bound(_core, _counts, prices, worth, _core.Costs[s], worth[s]) is { } bound && bound > (best?.Bound ?? 0))
                best = (bound, new SharingPrices([.. priced.SelectMany(k => _shapes[k])], [.. priced.SelectMany(k => _shapes[k].Select(_ => prices[k]))], _core.Costs[s], worth[s]));
        }

        return best;
    }
}
