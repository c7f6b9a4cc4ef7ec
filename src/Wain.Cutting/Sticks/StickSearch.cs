namespace Wain.Cutting;

/// <summary>What the stick search hands back: the best solution, the best bound and its certificate.</summary>
internal sealed record StickResult(StickSolution? Best, long Bound, StickCertificate Certificate);

/// <summary>
/// Exact cutting stock by patterns: the linear program over all patterns gives the bound (Gilmore and Gomory 1961), and dives that fix patterns one
/// by one, each time with fresh patterns for what is left, give the plans. Dives repeat with more and more departures from the first choice
/// (limited discrepancy search) until bound and plan meet or the budget ends.
/// </summary>
internal sealed class StickSearch
{
    private readonly StickCore _core;
    private readonly StepBudget _budget;
    private readonly MasterProgram _master;
    private readonly int[] _limited;
    private readonly Knapsack _knapsack = new();
    private readonly int[] _amounts;
    private readonly List<int[][]> _parts = [];
    private bool[] _allowed = new bool[64];
    private StickSolution? _best;
    private long _bound;
    private StickCertificate _certificate;

    private StickSearch(StickCore core, StepBudget budget)
    {
        _core = core;
        _budget = budget;
        _limited = [.. Enumerable.Range(0, core.Counts.Length).Where(s => core.Counts[s] >= 0)];
        _master = new MasterProgram(core.Kinds, _limited, core.Counts.Length, 10.0 * (core.Costs.Max() + 1));
        _amounts = new int[core.Kinds];
        // The plain bound: every unit of length is worth the cheapest unit of stock.
        var rate = Enumerable.Range(0, core.Costs.Length).Min(s => (double)core.Costs[s] / core.Segments[s].Sum(x => (double)x));
        var dual = core.Lengths.Select(l => l * rate).ToArray();
        _certificate = StickBound.Certify(core, dual);
        _bound = StickProof.Bound(core, _certificate) ?? 0;
    }

    public static StickResult Run(StickCore core, StepBudget budget)
    {
        var search = new StickSearch(core, budget);
        search.Run();
        return new StickResult(search._best, search._bound, search._certificate);
    }

    private bool Done => _best is not null && _best.Cost <= _bound;

    private void Run()
    {
        _budget.Bound = _bound;
        foreach (var exact in new[] { false, true })
        {
            if (exact && (Done || (long)_core.Longest * _core.Kinds > 2_000_000))
                break;
            if (StickGreedy.Fill(_core, _core.Demand, _core.Counts, exact, _budget) is { } start)
                Offer(start);
        }

        if (Done)
            return;
        if (_best is not null)
        {
            foreach (var p in _best.Patterns)
                AddColumn(p.Stock, p.Parts);
        }

        _master.Reset(_core.Demand, [.. _limited.Select(s => _core.Counts[s])]);
        if (!Solve(_core.Demand))
            return;
        var certificate = StickBound.Certify(_core, _master.Dual);
        if (StickProof.Bound(_core, certificate) is { } bound && bound > _bound)
            (_bound, _certificate) = (bound, certificate);
        _budget.Bound = _bound;
        for (var departures = 0; !Done && !_budget.IsSpent && departures < 1000; departures++)
            Dive(departures);
    }

    private void Offer(IReadOnlyList<StickPattern> patterns)
    {
        var solution = StickSolution.Of(_core, patterns);
        if (!solution.IsBetterThan(_best, _core))
            return;
        _best = solution;
        _budget.Cost = solution.Cost;
    }

    private int AddColumn(int stock, int[][] parts)
    {
        var counted = parts.SelectMany(p => p).GroupBy(k => k).OrderBy(g => g.Key).ToArray();
        if (counted.Length == 0)
            return -1;
        if (!_master.Add(new Column(stock, [.. counted.Select(g => g.Key)], [.. counted.Select(g => g.Count())], _core.Costs[stock])))
            return -1;
        _parts.Add(parts);
        if (_parts.Count > _allowed.Length)
            Array.Resize(ref _allowed, _allowed.Length * 2);
        _allowed[_parts.Count - 1] = true;
        return _parts.Count - 1;
    }

    /// <summary>Solves the linear program for a demand, with new patterns as long as they help. False if the budget ended first.</summary>
    private bool Solve(int[] demand)
    {
        for (var j = 0; j < _parts.Count; j++)
            _allowed[j] = IsProper(_master.Columns[j], demand);
        _master.Dual_(_allowed, _budget);
        for (var round = 0; round < 20_000; round++)
        {
            _master.Primal(_allowed, _budget);
            if (!_budget.Spend(_master.TakeWork() + _knapsack.Fill(_core.Longest, _core.Lengths, demand, _master.Dual[.._core.Kinds])))
                return false;
            var added = false;
            for (var s = 0; s < _core.Counts.Length; s++)
            {
                var worth = 0.0;
                foreach (var capacity in _core.Segments[s])
                    worth += _knapsack.Value(capacity);
                if (worth <= _core.Costs[s] + _master.StockDual(s) + 1e-7 * Math.Max(1, _core.Costs[s]))
                    continue;
                var parts = Trace(s, demand);
                added |= AddColumn(s, parts) >= 0;
            }

            if (!added)
                return true;
        }

        return true;
    }

    private int[][] Trace(int stock, int[] demand)
    {
        var segments = _core.Segments[stock];
        var parts = new int[segments.Length][];
        var total = new int[_core.Kinds];
        for (var g = 0; g < segments.Length; g++)
        {
            Array.Clear(_amounts);
            _knapsack.Trace(segments[g], _core.Lengths, _amounts);
            var part = new List<int>();
            for (var i = 0; i < _amounts.Length; i++)
            {
                // Two stretches of one stick may both want the last piece of a kind; the first has it.
                for (var n = Math.Min(_amounts[i], demand[i] - total[i]); n > 0; n--)
                {
                    part.Add(i);
                    total[i]++;
                }
            }

            parts[g] = [.. part];
        }

        return parts;
    }

    private static bool IsProper(Column c, int[] demand)
    {
        for (var k = 0; k < c.Kinds.Length; k++)
        {
            if (c.Amounts[k] > demand[c.Kinds[k]])
                return false;
        }

        return true;
    }

    private void Dive(int departures)
    {
        var random = new FixedRandom((ulong)departures + 1);
        var demand = (int[])_core.Demand.Clone();
        var counts = (int[])_core.Counts.Clone();
        var taken = new List<StickPattern>();
        long cost = 0;
        _master.Reset(demand, [.. _limited.Select(s => counts[s])]);
        while (true)
        {
            if (!Solve(demand) || demand.All(d => d == 0))
                break;
            // No plan below this one can beat the best: give up this dive.
            var reach = cost + (long)Math.Ceiling((_master.Objective - 1e-6 * Math.Max(1, _core.CostUnit)) / _core.CostUnit) * _core.CostUnit;
            if (_best is not null && reach >= _best.Cost)
                break;
            if (!Fix(departures, ref random, demand, counts, taken, ref cost))
                break;
            if (StickGreedy.Fill(_core, demand, counts, false, _budget) is { } rest)
                Offer([.. taken, .. rest]);
            if ((long)_core.Longest * demand.Count(d => d > 0) < 200_000 && StickGreedy.Fill(_core, demand, counts, true, _budget) is { } full)
                Offer([.. taken, .. full]);
            if (Done)
                return;
            _master.SetRhs(demand, [.. _limited.Select(s => counts[s])]);
            _master.Recompute();
        }
    }

    /// <summary>Fixes every whole use of a pattern, or else one use of a pattern that is nearest to one.</summary>
    private bool Fix(int departures, ref FixedRandom random, int[] demand, int[] counts, List<StickPattern> taken, ref long cost)
    {
        var any = false;
        var fractions = new List<(double Value, int Column)>();
        for (var j = 0; j < _parts.Count; j++)
        {
            var x = _master.ValueOf(j);
            if (x < 1e-6)
                continue;
            var whole = (int)Math.Floor(x + 1e-6);
            if (whole > 0)
                any |= Take(j, whole, ref cost);
            else
                fractions.Add((x, j));
        }

        if (any)
            return true;
        fractions.Sort((a, b) => a.Value != b.Value ? b.Value.CompareTo(a.Value) : a.Column.CompareTo(b.Column));
        // The first dive takes the largest fraction; later ones depart from it, more often the later they are.
        var pick = 0;
        while (departures > 0 && pick + 1 < fractions.Count && random.Below(100) < Math.Min(60, 10 + departures))
            pick++;
        for (; pick < fractions.Count; pick++)
        {
            if (Take(fractions[pick].Column, 1, ref cost))
                return true;
        }

        return false;

        bool Take(int column, int times, ref long cost)
        {
            var c = _master.Columns[column];
            if (counts[c.Stock] >= 0)
                times = Math.Min(times, counts[c.Stock]);
            for (var k = 0; k < c.Kinds.Length; k++)
                times = Math.Min(times, demand[c.Kinds[k]] / c.Amounts[k]);
            if (times <= 0)
                return false;
            for (var k = 0; k < c.Kinds.Length; k++)
                demand[c.Kinds[k]] -= c.Amounts[k] * times;
            if (counts[c.Stock] > 0)
                counts[c.Stock] -= times;
            taken.Add(new StickPattern(c.Stock, _parts[column], times));
            cost += times * _core.Costs[c.Stock];
            return true;
        }
    }
}
