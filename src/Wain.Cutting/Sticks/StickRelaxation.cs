namespace Wain.Cutting;

/// <summary>What a linear program is solved for, and so how good its prices must be.</summary>
internal enum PricesFor
{
    /// <summary>Coarse pricing may miss a pattern.</summary>
    Dive,

    /// <summary>No pattern is missed that could change the bound.</summary>
    Bound,

    /// <summary>No pattern is missed.</summary>
    Closing,
}

/// <summary>The linear program of one stick problem with its patterns, solved by generating the patterns that it asks for.</summary>
internal sealed class StickRelaxation
{
    private readonly StepBudget _budget;
    private readonly MasterProgram _master;
    private readonly int[] _limited;
    private readonly Knapsack _knapsack = new();
    private readonly int[] _amounts;
    private readonly double[] _prices;
    private readonly (int Unit, int[] Lengths)[] _coarse;
    private readonly List<int[][]> _parts = [];
    private readonly PatternPricer? _pricer;
    private bool[] _allowed = new bool[64];
    private int[] _demand;

    public StickRelaxation(StickCore core, StepBudget budget)
    {
        Core = core;
        _budget = budget;
        _limited = [.. Enumerable.Range(0, core.Counts.Length).Where(s => core.Counts[s] >= 0)];
        _master = new MasterProgram(core.Kinds, _limited, core.Counts.Length, 10.0 * (core.Costs.Max() + 1));
        _amounts = new int[core.Kinds];
        _prices = new double[core.Kinds];
        _demand = core.Demand;
        // Fine units make the exact table slow; most patterns are found on a coarse one, with lengths rounded up.
        _coarse = [.. new[] { core.Longest / 2000 }.Where(u => u > 1).Select(u => (u, core.Lengths.Select(l => (l + u - 1) / u).ToArray()))];
        _pricer = core.Segments.All(s => s.Length == 1) ? new PatternPricer(core.Lengths, core.Longest) : null;
    }

    public StickCore Core { get; }

    /// <summary>Whether many patterns are sought at a time, which is quicker but leads to other plans than one at a time.</summary>
    public bool Broad { get; set; }

    public IReadOnlyList<Column> Columns => _master.Columns;

    public double Objective => _master.Objective;

    /// <summary>The prices to certify a bound with.</summary>
    public ReadOnlySpan<double> Prices => _prices;

    public void Reset() => _master.Reset(Core.Demand, [.. _limited.Select(s => Core.Counts[s])]);

    public void Restore() => SetDemand(Core.Demand, Core.Counts);

    public void SetDemand(int[] demand, int[] counts)
    {
        _demand = (int[])demand.Clone();
        _master.SetRhs(demand, [.. _limited.Select(s => counts[s])]);
        _master.Recompute();
    }

    /// <summary>
    /// Prices from the midst of those that prove nearly the present bound, as the mean of what small changes of the demand give. Prices at the rim let many
    /// patterns break even that no best solution uses. Null if the budget ended first.
    /// </summary>
    public double[]? MiddlePrices()
    {
        var sum = Prices.ToArray();
        var random = new FixedRandom(1);
        for (var change = 0; change < Changes; change++)
        {
            _master.SetDemand(Core.Demand.Select(d => d * (1 + MostChange * (2 * random.Unit() - 1))).ToArray());
            if (!Solve(PricesFor.Closing))
                return null;
            for (var k = 0; k < sum.Length; k++)
                sum[k] += Prices[k];
        }

        Restore();
        return Array.ConvertAll(sum, p => p / (Changes + 1));
    }

    private const double Smooth = 0.7;
    private const int Changes = 8;
    private const double MostChange = 0.05;

    public int AddColumn(int stock, int[][] parts)
    {
        var counted = parts.SelectMany(p => p).GroupBy(k => k).OrderBy(g => g.Key).ToArray();
        if (counted.Length == 0)
            return -1;
        if (!_master.Add(new Column(stock, [.. counted.Select(g => g.Key)], [.. counted.Select(g => g.Count())], Core.Costs[stock])))
            return -1;
        _parts.Add(parts);
        if (_parts.Count > _allowed.Length)
            Array.Resize(ref _allowed, _allowed.Length * 2);
        _allowed[_parts.Count - 1] = true;
        return _parts.Count - 1;
    }

    /// <summary>Takes over the patterns of a larger problem that still make sense, <paramref name="active"/> naming its kinds that live on.</summary>
    public void Inherit(StickRelaxation larger, int[] active)
    {
        var place = new int[larger.Core.Kinds];
        Array.Fill(place, -1);
        for (var i = 0; i < active.Length; i++)
            place[active[i]] = i;
        for (var j = 0; j < larger._parts.Count; j++)
        {
            var column = larger._master.Columns[j];
            if (IsProper(column, larger._demand) || larger._master.ValueOf(j) > 1e-6)
                AddColumn(column.Stock, [.. larger._parts[j].Select(part => Keep(part))]);
        }

        int[] Keep(int[] part)
        {
            var used = new Dictionary<int, int>();
            return [.. part.Where(k => place[k] >= 0 && (used[k] = used.GetValueOrDefault(k) + 1) <= Core.Demand[place[k]]).Select(k => place[k])];
        }
    }

    /// <summary>Solves for the present demand, with new patterns as long as they help. False if the budget ended first.</summary>
    public bool Solve(PricesFor use)
    {
        for (var j = 0; j < _parts.Count; j++)
            _allowed[j] = IsProper(_master.Columns[j], _demand);
        _master.RestoreFeasible(_allowed, _budget);
        for (var round = 0; round < 20_000; round++)
        {
            _master.Primal(_allowed, _budget);
            var work = _master.TakeWork();
            // Prices swing from one round to the next: the mean with those before asks for patterns that last (Neame 1999).
            var smooth = round > 0 && _limited.Length == 0;
            for (var k = 0; k < Core.Kinds; k++)
                _prices[k] = smooth ? Smooth * _prices[k] + (1 - Smooth) * _master.Dual[k] : _master.Dual[k];
            var added = Generate(use, ref work, out var settled);
            if (!added && !settled && smooth)
            {
                _master.Dual[..Core.Kinds].CopyTo(_prices);
                added = Generate(use, ref work, out _);
            }

            if (!_budget.Spend(work))
                return false;
            if (!added)
                return true;
        }

        return true;
    }

    /// <summary>Adds patterns that the present prices want. <paramref name="settled"/> if none could change the bound.</summary>
    private bool Generate(PricesFor use, ref long work, out bool settled)
    {
        settled = false;
        var complete = false;
        if (_pricer is not null && Broad && Search(use, ref work, out complete, out settled))
            return true;
        if (complete)
            return false;
        foreach (var (unit, lengths) in _coarse)
        {
            if (Price(lengths, unit, ref work, PricesFor.Dive, out _))
                return true;
        }

        // Rounding hides some patterns; most of these are found by trying. Only the bound needs the exact answer; a dive goes on with what it has.
        if (_pricer is not null && !Broad && _coarse.Length > 0 && Search(use, ref work, out complete, out settled))
            return true;
        return !complete && (_coarse.Length == 0 || use != PricesFor.Dive) && Price(Core.Lengths, 1, ref work, use, out settled);
    }

    /// <summary>Adds the most wanted pattern of each stock, with lengths in a coarser unit, rounded up. False if none is wanted.</summary>
    private bool Price(int[] lengths, int unit, ref long work, PricesFor use, out bool settled)
    {
        work += _knapsack.Fill(Core.Longest / unit, lengths, _demand, _prices);
        settled = use == PricesFor.Bound && IsCloseEnough(Core.Segments[0].Sum(c => _knapsack.Value(c)));
        if (settled)
            return false;
        var added = false;
        for (var s = 0; s < Core.Counts.Length; s++)
        {
            var worth = 0.0;
            foreach (var capacity in Core.Segments[s])
                worth += _knapsack.Value(capacity / unit);
            if (worth > Core.Costs[s] + _master.StockDual(s) + 1e-7 * Math.Max(1, Core.Costs[s]))
                added |= AddColumn(s, Trace(s, lengths, unit)) >= 0;
        }

        return added;
    }

    /// <summary>Adds patterns that the pricer finds. <paramref name="complete"/> if no other pattern is wanted, or none could change the bound.</summary>
    private bool Search(PricesFor use, ref long work, out bool complete, out bool settled)
    {
        complete = true;
        settled = false;
        var added = false;
        for (var s = 0; s < Core.Counts.Length; s++)
        {
            var floor = Core.Costs[s] + _master.StockDual(s) + 1e-7 * Math.Max(1, Core.Costs[s]);
            var found = _pricer!.Find(Core.Segments[s][0], _demand, _prices, floor, 4000, out var whole, out var spent);
            work += spent;
            complete &= whole;
            found.Sort((a, b) => b.Worth.CompareTo(a.Worth));
            settled = use == PricesFor.Bound && whole && IsCloseEnough(found.Count > 0 ? found[0].Worth : floor);
            if (settled)
                return false;
            foreach (var pattern in found.Take(20))
            {
                var part = new List<int>();
                for (var k = 0; k < pattern.Amounts.Length; k++)
                {
                    for (var n = pattern.Amounts[k]; n > 0; n--)
                        part.Add(k);
                }

                added |= AddColumn(s, [[.. part]]) >= 0;
            }
        }

        return added;
    }

    /// <summary>
    /// For one stock without limit: the prices divided by the worth of the best pattern already prove the program's value rounded up
    /// (Farley 1990), so no more pattern can change the bound.
    /// </summary>
    private bool IsCloseEnough(double mostWorth)
    {
        if (Core.Counts.Length != 1 || Core.Counts[0] >= 0 || _master.ArtificialLeft() > 1e-9)
            return false;
        var worth = mostWorth / Core.Costs[0];
        if (!(worth > 0))
            return false;
        var value = 0.0;
        for (var k = 0; k < Core.Kinds; k++)
            value += _prices[k] * _demand[k];
        return Math.Ceiling(value / Core.CostUnit / worth - 1e-6) >= Math.Ceiling(_master.Objective / Core.CostUnit - 1e-6);
    }

    private int[][] Trace(int stock, int[] lengths, int unit)
    {
        var segments = Core.Segments[stock];
        var parts = new int[segments.Length][];
        var total = new int[Core.Kinds];
        for (var g = 0; g < segments.Length; g++)
        {
            Array.Clear(_amounts);
            _knapsack.Trace(segments[g] / unit, lengths, _amounts);
            var part = new List<int>();
            for (var i = 0; i < _amounts.Length; i++)
            {
                // Two stretches of one stick may both want the last piece of a kind; the first has it.
                for (var n = Math.Min(_amounts[i], _demand[i] - total[i]); n > 0; n--)
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

    /// <summary>Fixes every whole use of a pattern, or else one use of a pattern that is nearest to one; takes it off demand and counts.</summary>
    /// <param name="departure">0 to take the first choice always, else the number of the attempt, which says how often to pass it over.</param>
    public List<StickPattern> Fix(ulong departure, ref FixedRandom random, int[] demand, int[] counts)
    {
        var taken = new List<StickPattern>();
        var fractions = new List<(double Value, int Column)>();
        for (var j = 0; j < _parts.Count; j++)
        {
            var x = _master.ValueOf(j);
            if (x < 1e-6)
                continue;
            var whole = (int)Math.Floor(x + 1e-6);
            if (whole > 0)
                Take(j, whole);
            else
                fractions.Add((x, j));
        }

        if (taken.Count > 0)
            return taken;
        fractions.Sort((a, b) => a.Value != b.Value ? b.Value.CompareTo(a.Value) : a.Column.CompareTo(b.Column));
        var pick = 0;
        while (departure > 0 && pick + 1 < fractions.Count && random.Below(100) < 10 + 5 * (int)(departure % 9))
            pick++;
        for (; pick < fractions.Count && taken.Count == 0; pick++)
            Take(fractions[pick].Column, 1);
        return taken;

        void Take(int column, int times)
        {
            var c = _master.Columns[column];
            if (counts[c.Stock] >= 0)
                times = Math.Min(times, counts[c.Stock]);
            for (var k = 0; k < c.Kinds.Length; k++)
                times = Math.Min(times, demand[c.Kinds[k]] / c.Amounts[k]);
            if (times <= 0)
                return;
            for (var k = 0; k < c.Kinds.Length; k++)
                demand[c.Kinds[k]] -= c.Amounts[k] * times;
            if (counts[c.Stock] > 0)
                counts[c.Stock] -= times;
            taken.Add(new StickPattern(c.Stock, _parts[column], times));
        }
    }
}
