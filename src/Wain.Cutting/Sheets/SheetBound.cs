using System.Numerics;

namespace Wain.Cutting;

/// <summary>
/// Finds good prices for the bound of a sheet problem. Given prices for heights, the best prices for widths are the dual values of a cutting stock
/// problem in one dimension, and the other way round; so the two are improved in turns from several starts.
/// </summary>
internal sealed class SheetBound
{
    private readonly SharingBound _sharing;
    private readonly SheetCore _core;
    private readonly StepBudget _budget;
    private readonly long[] _sizes;
    private readonly long[] _countAcross;
    private readonly long[] _countUp;
    private readonly int[] _limited;
    private readonly bool _square;

    /// <param name="sharing">What pieces prove that keep each other off a sheet: reckoned when the bound is first to be raised.</param>
    public SheetBound(SheetCore core, SharingBound sharing, StepBudget budget)
    {
        _sharing = sharing;
        _core = core;
        _budget = budget;
        _sizes = [.. core.Width.Concat(core.Height).Distinct().Order().Select(s => (long)s)];
        (_countAcross, _countUp) = Counts();
        _limited = [.. Enumerable.Range(0, core.Stocks).Where(s => core.Counts[s] >= 0)];
        _square = Enumerable.Range(0, core.Stocks).All(s => core.StockWidth[s] == core.StockHeight[s]) && core.MayTurn.Any(t => t);
        Certificate = Certify(_sizes, _sizes);
        Bound = SheetProof.Bound(core, Certificate) ?? 0;
    }

    public long Bound { get; private set; }

    public SheetCertificate Certificate { get; private set; }

    /// <summary>Tries start after start until the bound reaches the target or nothing is left to try.</summary>
    public void Raise(int starts, Func<bool> reached)
    {
        if (_starts is null && _sharing.Best is { } best && best.Bound > Bound)
        {
            (Bound, Certificate) = (best.Bound, Certificate with { Sharing = best.Prices });
            _budget.Bound = Bound;
        }

        _starts ??= Starts().GetEnumerator();
        while (starts-- > 0 && !reached() && !_budget.IsSpent && _starts.MoveNext())
        {
            var start = _starts.Current;
            var (across, up) = (start.Across, start.Up);
            var before = double.NegativeInfinity;
            for (var turn = 0; turn < 4; turn++)
            {
                var fromUp = turn % 2 == 0;
                var prices = Improve(fromUp ? up : across, fromUp, out var value);
                if (prices is null)
                    return;
                if (fromUp)
                    across = prices;
                else
                    up = prices;
                Offer(across, up);
                if (reached() || value <= before + 1e-3 * Math.Abs(before))
                    break;
                before = value;
            }
        }
    }

    private IEnumerator<(long[] Across, long[] Up)>? _starts;
    private readonly List<Column>[] _known = [[], []];

    /// <summary>Lengths themselves, then lengths below a threshold worth nothing and those that leave less than it worth the whole.</summary>
    private IEnumerable<(long[] Across, long[] Up)> Starts()
    {
        yield return (_sizes, _sizes);
        var height = _core.StockHeight.Max();
        var width = _core.StockWidth.Max();
        var tried = new HashSet<string>();
        foreach (var part in new[] { 8, 5, 4, 6, 3, 2, 7, 1 })
        {
            var up = Threshold(height, (long)height * part / 16);
            if (tried.Add("u" + string.Join(',', up)))
                yield return (_sizes, up);
            var across = Threshold(width, (long)width * part / 16);
            if (!_square && tried.Add("a" + string.Join(',', across)))
                yield return (across, Improve(across, false, out _) ?? _sizes);
        }
    }

    private long[] Threshold(long whole, long least) =>
        [.. _sizes.Select(s => s < least ? 0 : s > whole - least ? whole : s)];

    private void Offer(long[] across, long[] up)
    {
        var candidate = Certify(across, up);
        if (SheetProof.Bound(_core, candidate) is not { } bound || bound <= Bound)
            return;
        (Bound, Certificate) = (bound, candidate);
        _budget.Bound = bound;
    }

    /// <summary>The best prices in one direction for given prices in the other. Null if the budget ends.</summary>
    private long[]? Improve(long[] other, bool forWidths, out double value)
    {
        var (countHere, countThere) = forWidths ? (_countAcross, _countUp) : (_countUp, _countAcross);
        var (here, there) = forWidths ? (_core.StockWidth, _core.StockHeight) : (_core.StockHeight, _core.StockWidth);
        var worth = ExactKnapsack.Values([.. there.Select(c => (long)c)], _sizes, countThere, other);
        var top = Math.Max(1, other.Max());
        var weight = new double[_sizes.Length];
        for (var k = 0; k < _core.Kinds; k++)
        {
            var (w, h) = (Place(_core.Width[k]), Place(_core.Height[k]));
            var (a, b) = forWidths ? (w, h) : (h, w);
            var (upright, turned) = Positions(k);
            double n = _core.Demand[k];
            // A piece that may lie both ways counts half in each.
            if (upright)
                weight[a] += (turned ? 0.5 : 1) * n * other[b] / top;
            if (turned)
                weight[b] += (upright ? 0.5 : 1) * n * other[a] / top;
        }

        var used = Enumerable.Range(0, _sizes.Length).Where(i => weight[i] > 1e-9 && _sizes[i] <= here.Max()).ToArray();
        var lengths = used.Select(i => (int)_sizes[i]).ToArray();
        var counts = used.Select(i => (int)Math.Min(int.MaxValue, countHere[i])).ToArray();
        var costs = Enumerable.Range(0, _core.Stocks).Select(s => _core.Costs[s] / Math.Max(1e-9, (double)worth[s] / top)).ToArray();
        var prices = Price(used, lengths, counts, [.. used.Select(i => weight[i])], here, costs, _known[forWidths ? 0 : 1], out value);
        if (prices is null)
            return null;
        var most = Math.Max(1e-12, prices.Max());
        var result = new long[_sizes.Length];
        for (var i = 0; i < used.Length; i++)
            result[used[i]] = (long)(Math.Max(0, prices[i]) / most * (1 << 28));
        return result;
    }

    /// <summary>Dual values of a one-dimensional cutting stock problem, by pricing patterns with a knapsack.</summary>
    private double[]? Price(int[] used, int[] lengths, int[] counts, double[] weight, int[] capacities, double[] costs, List<Column> known, out double value)
    {
        value = 0;
        if (lengths.Length == 0)
            return null;
        var top = costs.Max() + 1e-9;
        var master = new MasterProgram(lengths.Length, _limited, _core.Stocks, 10 * top);
        master.Reset(weight, [.. _limited.Select(s => _core.Counts[s])]);
        var knapsack = new Knapsack();
        var amounts = new int[lengths.Length];
        // Patterns found for other prices are patterns still; they only miss what is worth nothing now.
        foreach (var column in known)
        {
            var kept = Enumerable.Range(0, column.Kinds.Length).Where(i => Array.BinarySearch(used, column.Kinds[i]) >= 0).ToArray();
            if (kept.Length > 0)
                master.Add(new Column(column.Stock, [.. kept.Select(i => Array.BinarySearch(used, column.Kinds[i]))], [.. kept.Select(i => column.Amounts[i])], costs[column.Stock]));
        }

        var allowed = new bool[master.Columns.Count + 64];
        Array.Fill(allowed, true);
        var old = master.Columns.Count;
        for (var round = 0; round < 3000; round++)
        {
            master.Primal(allowed, _budget);
            if (!_budget.Spend(master.TakeWork() + knapsack.Fill(capacities.Max(), lengths, counts, master.Dual[..lengths.Length])))
                return null;
            var added = false;
            for (var s = 0; s < capacities.Length; s++)
            {
                if (knapsack.Value(capacities[s]) <= (costs[s] + master.StockDual(s)) * (1 + 1e-8) + 1e-12)
                    continue;
                Array.Clear(amounts);
                knapsack.Trace(capacities[s], lengths, amounts);
                var kinds = Enumerable.Range(0, amounts.Length).Where(i => amounts[i] > 0).ToArray();
                added |= master.Add(new Column(s, kinds, [.. kinds.Select(i => amounts[i])], costs[s]));
            }

            if (!added)
                break;
            if (master.Columns.Count > allowed.Length)
                Array.Resize(ref allowed, master.Columns.Count * 2);
            Array.Fill(allowed, true);
        }

        known.AddRange(master.Columns.Skip(old).Select(c => c with { Kinds = [.. c.Kinds.Select(k => used[k])] }));
        value = master.Objective;
        return master.Dual[..lengths.Length].ToArray();
    }

    private int Place(long size) => Array.BinarySearch(_sizes, size);

    private (bool Upright, bool Turned) Positions(int kind)
    {
        var (upright, turned) = (false, false);
        for (var s = 0; s < _core.Stocks; s++)
        {
            upright |= _core.Width[kind] <= _core.StockWidth[s] && _core.Height[kind] <= _core.StockHeight[s];
            turned |= _core.MayTurn[kind] && _core.Height[kind] <= _core.StockWidth[s] && _core.Width[kind] <= _core.StockHeight[s];
        }

        return (upright, turned);
    }

    /// <summary>The prices at the largest weight that the stock allows; on square sheets also with the directions exchanged, so that turning gains nothing.</summary>
    private SheetCertificate Certify(long[] across, long[] up)
    {
        var terms = new List<PriceTerm> { new(1, across, up) };
        if (_square && !across.AsSpan().SequenceEqual(up))
            terms.Add(new PriceTerm(1, up, across));
        var worth = new BigInteger[_core.Stocks];
        foreach (var term in terms)
        {
            var x = ExactKnapsack.Values([.. _core.StockWidth.Select(w => (long)w)], _sizes, _countAcross, term.Across);
            var y = ExactKnapsack.Values([.. _core.StockHeight.Select(h => (long)h)], _sizes, _countUp, term.Up);
            for (var s = 0; s < worth.Length; s++)
                worth[s] += (BigInteger)x[s] * y[s];
        }

        // Weight over scale is at most cost over worth for every stock without limit; for limited stock alone each of these ratios is tried.
        var ratios = Enumerable.Range(0, _core.Stocks).Where(s => worth[s] > 0)
            .Select(s => (s, Weight: (BigInteger)_core.Costs[s], Scale: worth[s])).ToArray();
        var binding = ratios.Where(r => _core.Counts[r.s] < 0).ToArray();
        if (binding.Length > 0)
            ratios = [binding.Aggregate((a, b) => a.Weight * b.Scale <= b.Weight * a.Scale ? a : b)];
        SheetCertificate? best = null;
        long bound = -1;
        foreach (var (_, weight, scale) in ratios)
        {
            var candidate = new SheetCertificate(_sizes, [.. terms.Select(t => t with { Weight = weight })], scale);
            if (ratios.Length == 1)
                return candidate;
            if (SheetProof.Bound(_core, candidate) is { } b && b > bound)
                (best, bound) = (candidate, b);
        }

        return best ?? new SheetCertificate(_sizes, [new PriceTerm(0, across, up)], 1);
    }

    private (long[] Across, long[] Up) Counts()
    {
        var x = new long[_sizes.Length];
        var y = new long[_sizes.Length];
        for (var k = 0; k < _core.Kinds; k++)
        {
            var (w, h) = (Place(_core.Width[k]), Place(_core.Height[k]));
            x[w] += _core.Demand[k];
            y[h] += _core.Demand[k];
            if (_core.MayTurn[k] && w != h)
            {
                x[h] += _core.Demand[k];
                y[w] += _core.Demand[k];
            }
        }

        return (x, y);
    }
}
