namespace Wain.Cutting;

/// <summary>Sheets that are settled, how often each is cut, and what pieces and stock are left for others.</summary>
internal sealed record SettledSheets(List<(GuillotineTree Tree, int Times)> Sheets, int[] Left, int[] Counts);

/// <summary>
/// Plans from a linear program of whole sheets: its prices tell which pieces and sheets are hard, its patterns are the best fillings for those prices, and the
/// sheets that it uses most are settled one after another while prices follow. Where sides leave little choice this finds what packing piece by piece misses;
/// the last sheets, for which few pieces are left to choose from, are better packed piece by piece.
/// </summary>
internal sealed class CutPatterns
{
    private const int MostPatterns = 4000;
    private const int FirstRounds = 400;
    private const int Rounds = 30;
    private const int Candidates = 6;
    private readonly SheetCore _core;
    private readonly StepBudget _budget;
    private readonly MasterProgram _master;
    private readonly SheetKnapsack _knapsack;
    private readonly int[] _limited;
    private readonly List<GuillotineTree> _trees = [];
    private readonly double[] _worth;
    private bool[] _allowed = new bool[64];
    private bool _begun;

    private CutPatterns(SheetCore core, SheetKnapsack knapsack, StepBudget budget)
    {
        (_core, _knapsack, _budget) = (core, knapsack, budget);
        _limited = [.. Enumerable.Range(0, core.Stocks).Where(s => core.Counts[s] >= 0)];
        _master = new MasterProgram(core.Kinds, _limited, core.Stocks, 10.0 * (core.Costs.Max() + 1));
        _worth = new double[core.Kinds];
    }

    /// <summary>Null where sheets can be filled in too many ways to look at all.</summary>
    public static CutPatterns? For(SheetCore core, StepBudget budget) => SheetKnapsack.For(core) is { } knapsack ? new CutPatterns(core, knapsack, budget) : null;

    /// <summary>Settles sheets until so little area is left. Null if the budget is spent or nothing can be settled.</summary>
    /// <param name="depart">The number of the attempt; each settles others.</param>
    public SettledSheets? Dive(ulong depart, double stopBelow)
    {
        if (!Begin())
            return null;
        var random = new FixedRandom(depart + 1);
        var (demand, counts) = ((int[])_core.Demand.Clone(), (int[])_core.Counts.Clone());
        var settled = new List<(GuillotineTree, int)>();
        while (true)
        {
            Want(demand, counts);
            if (!Solve(demand, counts, Rounds))
                return null;
            if (Enumerable.Range(0, _core.Kinds).Sum(k => (double)demand[k] * _core.Area(k)) <= stopBelow)
                return new SettledSheets(settled, demand, counts);
            var used = Enumerable.Range(0, _trees.Count).Where(j => _allowed[j] && _master.ValueOf(j) > 1e-6)
                .OrderByDescending(_master.ValueOf).ThenBy(j => j).Take(Candidates).ToArray();
            if (used.Length == 0)
                return settled.Count == 0 ? null : new SettledSheets(settled, demand, counts);
            // What prices use most fits together, so every other attempt settles two before they are reckoned again.
            for (var n = 0ul; n <= depart % 2; n++)
            {
                var pick = used[random.Below(used.Length)];
                var column = _master.Columns[pick];
                if (!IsAllowed(column, demand, counts))
                    continue;
                for (var k = 0; k < column.Kinds.Length; k++)
                    demand[column.Kinds[k]] -= column.Amounts[k];
                if (counts[column.Stock] > 0)
                    counts[column.Stock]--;
                settled.Add((_trees[pick], 1));
            }
        }
    }

    /// <summary>Solves the whole program once. False if the budget is spent.</summary>
    private bool Begin()
    {
        if (_begun)
            return true;
        _master.Reset(_core.Demand, Limits(_core.Counts));
        if (!Solve(_core.Demand, _core.Counts, FirstRounds))
            return false;
        _begun = true;
        return true;
    }

    private int[] Limits(int[] counts) => [.. _limited.Select(s => counts[s])];

    /// <summary>From now on the program wants this demand; patterns that would give more of a kind, or need stock that is gone, are not allowed.</summary>
    private void Want(int[] demand, int[] counts)
    {
        for (var j = 0; j < _trees.Count; j++)
            _allowed[j] = IsAllowed(_master.Columns[j], demand, counts);

        _budget.Spend(_trees.Count * 4);
        _master.SetRhs(demand, Limits(counts));
        _master.Recompute();
        _master.RestoreFeasible(_allowed, _budget);
    }

    private static bool IsAllowed(Column column, int[] demand, int[] counts)
    {
        for (var k = 0; k < column.Kinds.Length; k++)
        {
            if (column.Amounts[k] > demand[column.Kinds[k]])
                return false;
        }

        return counts[column.Stock] != 0;
    }

    private bool Solve(int[] demand, int[] counts, int rounds)
    {
        for (var round = 0; round < rounds; round++)
        {
            _master.Primal(_allowed, _budget);
            if (!_budget.Spend(_master.TakeWork()))
                return false;
            if (_trees.Count >= MostPatterns || !Price(demand, counts))
                return true;
        }

        return true;
    }

    /// <summary>Adds the best filling of each stock where it is worth more than the sheet. False if none is.</summary>
    private bool Price(int[] demand, int[] counts)
    {
        var dual = _master.Dual.ToArray();
        // What has no price goes where there is room for it all the same.
        for (var k = 0; k < _worth.Length; k++)
            _worth[k] = Math.Max(0, dual[k]) + (1e-7 * _core.Area(k));
        long work = 0;
        _knapsack.Solve(demand, _worth, ref work);
        var added = false;
        for (var s = 0; s < _core.Stocks; s++)
        {
            var least = ((_core.Costs[s] + _master.StockDual(s)) * (1 + 1e-7)) + 1e-9;
            if (counts[s] == 0 || _knapsack.Value(s) <= least)
                continue;
            var tree = new GuillotineTree();
            tree.Reset(s, _core.StockWidth[s], _core.StockHeight[s]);
            var left = (int[])demand.Clone();
            _knapsack.Lay(tree, left);
            var kinds = Enumerable.Range(0, _core.Kinds).Where(k => left[k] < demand[k]).ToArray();
            work += 20 * _core.Kinds;
            if (kinds.Sum(k => (demand[k] - left[k]) * dual[k]) <= least
                || !_master.Add(new Column(s, kinds, [.. kinds.Select(k => demand[k] - left[k])], _core.Costs[s])))
                continue;
            _trees.Add(tree);
            if (_trees.Count > _allowed.Length)
                Array.Resize(ref _allowed, 2 * _allowed.Length);
            _allowed[_trees.Count - 1] = true;
            added = true;
        }

        _budget.Spend(work);
        return added;
    }
}
