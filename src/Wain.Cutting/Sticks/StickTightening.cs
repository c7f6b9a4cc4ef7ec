using System.Numerics;

namespace Wain.Cutting;

/// <summary>
/// Raises the bound of a stick problem above that of the linear program by rounding cuts: those that the present solution breaks are added, the program
/// is solved again with patterns priced under the cuts, and so on. Wanted for the rare problem whose best plan needs a stick more than the program says.
/// </summary>
internal sealed class StickTightening
{
    private const int CutsPerRound = 30;
    private const int MostDivisor = 60;
    private const long MostNodes = 3_000_000;
    private readonly StickCore _core;
    private readonly StepBudget _budget;
    private readonly MasterProgram _master;
    private readonly int _firstCut;
    private readonly int[] _capacities;
    private readonly List<int[]> _amounts = [];           // pieces of each kind in each pattern
    private readonly List<RoundingCut> _cuts = [];        // without prices
    private readonly HashSet<string> _known = [];
    private readonly long _scale;
    private bool[] _allowed = new bool[256];

    public StickTightening(StickCore core, IEnumerable<Column> patterns, StepBudget budget)
    {
        (_core, _budget) = (core, budget);
        int[] limited = [.. Enumerable.Range(0, core.Counts.Length).Where(s => core.Counts[s] >= 0)];
        _firstCut = core.Kinds + limited.Length;
        _capacities = [.. core.Segments.Select(s => s[0])];
        _scale = Math.Max(1, (1L << 40) / Math.Max(1, core.Costs.Max()));
        _master = new MasterProgram(core.Kinds, limited, core.Counts.Length, 10.0 * (core.Costs.Max() + 1));
        foreach (var column in patterns)
            Add(column.Stock, Spread(column));
        _master.Reset(core.Demand, [.. limited.Select(s => core.Counts[s])]);
    }

    /// <summary>Cuts are for sticks without faults, in numbers that the exact search for patterns can hold.</summary>
    public static bool Suits(StickCore core) => core.Segments.All(s => s.Length == 1) && CutKnapsack.Suits(core.Kinds, core.Longest);

    /// <summary>The best certificate so far, or null.</summary>
    public StickCertificate? Certificate { get; private set; }

    public long Bound { get; private set; }

    /// <summary>Adds one round of cuts and solves again. False if no cut helps any more, the numbers fail or the budget is spent.</summary>
    public bool Round()
    {
        if (!Solve())
            return false;
        var found = Separate();
        if (found.Count == 0)
            return false;
        _cuts.AddRange(found);
        var j = 0;
        _master.AddRows([.. found.Select(c => -(double)c.Multiples(_core.Demand))], c => Extend(c, _amounts[j++], _cuts.Count - found.Count));
        _master.RestoreFeasible(_allowed, _budget);
        return Solve();
    }

    private int[] Spread(Column column)
    {
        var amounts = new int[_core.Kinds];
        for (var i = 0; i < column.Kinds.Length; i++)
            amounts[column.Kinds[i]] = Math.Min(column.Amounts[i], _core.Demand[column.Kinds[i]]);
        return amounts;
    }

    private bool Add(int stock, int[] amounts)
    {
        if (!_known.Add($"{stock}:{string.Join(',', amounts)}"))
            return false;
        var kinds = Enumerable.Range(0, amounts.Length).Where(k => amounts[k] > 0).ToArray();
        if (!_master.Add(Extend(new Column(stock, kinds, [.. kinds.Select(k => amounts[k])], _core.Costs[stock]), amounts, 0)))
            return false;
        _amounts.Add(amounts);
        if (_amounts.Count > _allowed.Length)
            Array.Resize(ref _allowed, _allowed.Length * 2);
        _allowed[_amounts.Count - 1] = true;
        return true;
    }

    /// <summary>The pattern with its amounts in the cuts from one on; they count against it.</summary>
    private Column Extend(Column column, int[] amounts, int from)
    {
        var rows = new List<int>(column.Kinds);
        var values = new List<int>(column.Amounts);
        for (var c = from; c < _cuts.Count; c++)
        {
            var n = (int)_cuts[c].Multiples(amounts);
            if (n == 0)
                continue;
            rows.Add(_firstCut + c);
            values.Add(-n);
        }

        return column with { Kinds = [.. rows], Amounts = [.. values] };
    }

    private bool Solve()
    {
        for (var round = 0; round < 5_000; round++)
        {
            _master.Primal(_allowed, _budget);
            if (!_budget.Spend(_master.TakeWork()))
                return false;
            var prices = new long[_core.Kinds];
            for (var k = 0; k < prices.Length; k++)
                prices[k] = (long)Math.Floor(Math.Max(0, _master.Dual[k]) * _scale);
            var priced = new List<RoundingCut>();
            for (var c = 0; c < _cuts.Count; c++)
            {
                var price = (long)Math.Ceiling(_master.Dual[_firstCut + c] * _scale);
                if (price > 0)
                    priced.Add(_cuts[c] with { Price = price });
            }

            var floor = _core.Costs.Select((cost, s) => (long)Math.Ceiling((cost + _master.StockDual(s)) * _scale * (1 + 1e-9))).ToArray();
            var wanted = new List<(int Stock, int[] Amounts)>();
            var worth = CutKnapsack.Values(_capacities, _core.Lengths, _core.Demand, prices, priced, floor, MostNodes, out var nodes,
                (s, amounts, _) => wanted.Add((s, (int[])amounts.Clone())));
            _budget.Spend(nodes * 20);
            if (worth is null)
                return false;
            Offer(prices, priced, worth, floor);
            // The last found are the best; a few more of the best save rounds.
            var added = false;
            foreach (var (stock, amounts) in wanted.AsEnumerable().Reverse().Take(4))
                added |= Add(stock, amounts);
            if (!added)
                return true;
        }

        return false;
    }

    /// <summary>Divides the prices by what the best pattern is worth too much, which makes them a proof.</summary>
    private void Offer(long[] prices, List<RoundingCut> cuts, long[] worth, long[] floor)
    {
        BigInteger num = 1, den = 1;
        for (var s = 0; s < worth.Length; s++)
        {
            if (_core.Counts[s] < 0 && (BigInteger)floor[s] * den < num * worth[s])
                (num, den) = (floor[s], worth[s]);
        }

        // The last grain off, for the rounding of the floor itself.
        (num, den) = (num * 999_999_999, den * 1_000_000_000);
        var certificate = new StickCertificate([.. prices.Select(p => (long)(p * num / den))], _scale,
            [.. cuts.Select(c => c with { Price = (long)(c.Price * num / den) + 1 })]);
        BigInteger sum = 0;
        for (var k = 0; k < prices.Length; k++)
            sum += (BigInteger)certificate.Prices[k] * _core.Demand[k];
        foreach (var c in certificate.Cuts!)
            sum -= (BigInteger)c.Price * c.Multiples(_core.Demand);
        // The checker is asked only where the sum promises more than is proven.
        if (sum <= (BigInteger)_scale * Bound || StickProof.Bound(_core, certificate) is not { } bound || bound <= Bound)
            return;
        (Bound, Certificate) = (bound, certificate);
    }

    /// <summary>Weights of the rules that are tried, with their divisors: those that cut off most on three, four and five rows (Pecin and others 2017), and one kind against another.</summary>
    private static readonly (int[] Weights, int Divisor)[] Families =
    [
        ([1, 1, 1], 2), ([2, 1, 1, 1], 3), ([1, 1, 1, 1, 1], 2), ([1, 1, 1, 1, 1], 3), ([3, 1, 1, 1, 1], 4), ([2, 2, 1, 1, 1], 3), ([3, 2, 2, 1, 1], 5), ([2, 2, 1, 1, 1], 5),
        ([1], 2), ([1], 3), ([1, 1], 2), ([1, 1], 3), ([2, 1], 3), ([3, 2], 6), ([6, 4, 1], 12),
    ];

    /// <summary>The cuts that the present solution breaks most. From every kind each family is grown by the kind that adds most to what is broken.</summary>
    private List<RoundingCut> Separate()
    {
        var used = new List<(double X, int[] Amounts)>();
        for (var j = 0; j < _amounts.Count; j++)
        {
            var x = _master.ValueOf(j);
            if (x > 1e-7)
                used.Add((x, _amounts[j]));
        }

        var patternsOf = new List<int>[_core.Kinds];
        for (var k = 0; k < patternsOf.Length; k++)
            patternsOf[k] = [.. Enumerable.Range(0, used.Count).Where(p => used[p].Amounts[k] > 0)];
        var broken = new List<(double By, string Key, RoundingCut Cut)>();
        var tried = new HashSet<string>(_cuts.Select(Key));
        var sums = new long[used.Count];
        var touched = new HashSet<int>();
        long work = 0;
        foreach (var (weights, divisor) in Families)
        {
            if (weights.Length > _core.Kinds)
                continue;
            for (var first = 0; first < _core.Kinds; first++)
                Grow(weights, divisor, first);
        }

        for (var row = 0; row < _master.Rows; row++)
        {
            var fraction = _master.Amount(row) - Math.Floor(_master.Amount(row));
            if (fraction is > 1e-4 and < 1 - 1e-4)
                FromRow(_master.InverseRow(row)[.._core.Kinds]);
        }

        _budget.Spend(work);
        return [.. broken.OrderByDescending(b => b.By).ThenBy(b => b.Key, StringComparer.Ordinal).Take(CutsPerRound).Select(b => b.Cut)];

        // The fractional parts of a row of the inverse, and their multiples, make the rules that the present solution is sure to break (Gomory 1958).
        void FromRow(ReadOnlySpan<double> row)
        {
            var divisor = 2;
            while (divisor <= MostDivisor && !IsWhole(row, divisor))
                divisor++;
            for (var times = 1; divisor <= MostDivisor && times < divisor; times++)
            {
                var kinds = new List<int>();
                var weights = new List<int>();
                for (var k = 0; k < row.Length; k++)
                {
                    var weight = (int)(((long)Math.Round(row[k] * divisor) * times % divisor + divisor) % divisor);
                    if (weight == 0)
                        continue;
                    kinds.Add(k);
                    weights.Add(weight);
                }

                work += row.Length * 2 + kinds.Count * used.Count;
                if (kinds.Count > 0)
                    Offer([.. kinds], [.. weights], divisor);
            }
        }

        static bool IsWhole(ReadOnlySpan<double> row, int divisor)
        {
            foreach (var u in row)
            {
                if (Math.Abs(u * divisor - Math.Round(u * divisor)) > 1e-5)
                    return false;
            }

            return true;
        }

        void Offer(int[] kinds, int[] weights, int divisor)
        {
            var cut = new RoundingCut(kinds, weights, divisor, 0);
            if (!tried.Add(Key(cut)))
                return;
            var by = -(double)cut.Multiples(_core.Demand);
            foreach (var (x, amounts) in used)
                by += x * cut.Multiples(amounts);
            if (by > 0.005)
                broken.Add((by, Key(cut), cut));
        }

        void Grow(int[] weights, int divisor, int first)
        {
            Array.Clear(sums);
            touched.Clear();
            var kinds = new List<int>();
            for (var place = 0; place < weights.Length; place++)
            {
                var (best, bestGain) = (first, double.MinValue);
                if (place > 0)
                {
                    foreach (var k in touched.SelectMany(p => Enumerable.Range(0, _core.Kinds).Where(k => used[p].Amounts[k] > 0)).Distinct().Except(kinds).Order())
                    {
                        var gain = 0.0;
                        foreach (var p in patternsOf[k])
                        {
                            var to = sums[p] + (long)weights[place] * used[p].Amounts[k];
                            // Whole multiples count; what only comes nearer to one counts a little.
                            gain += used[p].X * (to / divisor - sums[p] / divisor + 0.1 * (to % divisor) / divisor * (sums[p] > 0 ? 1 : 0));
                        }

                        work += patternsOf[k].Count * 6 + 6;
                        if (gain > bestGain)
                            (best, bestGain) = (k, gain);
                    }

                    if (bestGain < 0)
                        return;
                }

                kinds.Add(best);
                foreach (var p in patternsOf[best])
                {
                    sums[p] += (long)weights[place] * used[p].Amounts[best];
                    touched.Add(p);
                }
            }

            var order = Enumerable.Range(0, weights.Length).OrderBy(i => kinds[i]).ToArray();
            Offer([.. order.Select(i => kinds[i])], [.. order.Select(i => weights[i])], divisor);
        }

        static string Key(RoundingCut cut) => $"{string.Join(',', cut.Kinds)}:{string.Join(',', cut.Weights)}/{cut.Divisor}";
    }
}
