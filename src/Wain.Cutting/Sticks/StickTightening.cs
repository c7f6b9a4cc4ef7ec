using System.Numerics;

namespace Wain.Cutting;

/// <summary>
/// Raises the bound of a stick problem above that of the linear program by rounding cuts: those that the present solution breaks are added, the program
/// is solved again with patterns priced under the cuts, and so on. Wanted for the rare problem whose best plan needs a stick more than the program says.
/// </summary>
internal sealed class StickTightening
{
    private const int CutsPerRound = 30;
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
    public double Objective => _master.Objective; public int CutCount => _cuts.Count; public int Cols => _amounts.Count; public long LastNodes, Solves;//DBG

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
            LastNodes = nodes; Solves++;//DBG
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

    /// <summary>The cuts on three kinds that the present solution breaks most.</summary>
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
        var broken = new List<(double By, RoundingCut Cut)>();
        var tried = new HashSet<(int, int, int)>();
        for (var i = 0; i < _core.Kinds; i++)
        {
            var beside = patternsOf[i].SelectMany(p => Enumerable.Range(0, _core.Kinds).Where(k => k != i && used[p].Amounts[k] > 0)).Distinct().ToArray();
            foreach (var j in beside)
            {
                foreach (var k in patternsOf[j].SelectMany(p => Enumerable.Range(0, _core.Kinds).Where(k => k != i && k != j && used[p].Amounts[k] > 0)).Distinct())
                    Try(i, j, k);
            }

            _budget.Spend(beside.Length * 200);
        }

        return [.. broken.OrderByDescending(b => b.By).ThenBy(b => string.Join(',', b.Cut.Kinds), StringComparer.Ordinal).Take(CutsPerRound).Select(b => b.Cut)];

        void Try(int i, int j, int k)
        {
            int[] kinds = [i, j, k];
            Array.Sort(kinds);
            if (!tried.Add((kinds[0], kinds[1], kinds[2])) || kinds.Sum(n => (long)_core.Demand[n]) % 2 == 0)
                return;
            var cut = new RoundingCut(kinds, [1, 1, 1], 2, 0);
            var sum = -(double)cut.Multiples(_core.Demand);
            foreach (var p in kinds.SelectMany(n => patternsOf[n]).Distinct())
                sum += used[p].X * cut.Multiples(used[p].Amounts);
            if (sum > 0.02)
                broken.Add((sum, cut));
        }
    }
}
