namespace Wain.Cutting;

/// <summary>
/// Patterns of strips for sheets, wanted where pieces come in numbers: the sheet is cut into strips, a strip into columns, and a column holds one kind
/// stacked as often as it fits (three stages: Gilmore and Gomory 1965). Both stages are knapsacks, so the best pattern for given prices is found fast;
/// a linear program combines the patterns, and whole uses of them are fixed until little is left.
/// </summary>
internal sealed class StripPatterns
{
    /// <summary>A kind in one position as a column of a strip.</summary>
    private readonly record struct Lie(int Kind, int Width, int Height);

    private readonly SheetCore _core;
    private readonly StepBudget _budget;
    private readonly MasterProgram _master;
    private readonly int[] _limited;
    private readonly Lie[] _lies;
    private readonly Lie[] _transposed;
    private readonly Knapsack _strip = new();
    private readonly Knapsack _sheet = new();
    private readonly List<GuillotineTree> _trees = [];
    private bool[] _allowed = new bool[64];

    public StripPatterns(SheetCore core, StepBudget budget)
    {
        _core = core;
        _budget = budget;
        _limited = [.. Enumerable.Range(0, core.Stocks).Where(s => core.Counts[s] >= 0)];
        _master = new MasterProgram(core.Kinds, _limited, core.Stocks, 10.0 * (core.Costs.Max() + 1));
        _lies = [.. Enumerable.Range(0, core.Kinds).SelectMany(k => core.MayTurn[k] && core.Width[k] != core.Height[k]
            ? new[] { new Lie(k, core.Width[k], core.Height[k]), new Lie(k, core.Height[k], core.Width[k]) } : [new Lie(k, core.Width[k], core.Height[k])])];
        _transposed = [.. _lies.Select(l => new Lie(l.Kind, l.Height, l.Width))];
    }

    /// <summary>Whether the tables stay small enough to be worth while.</summary>
    public static bool Suits(SheetCore core) => core.Stocks > 0 && core.StockWidth.Concat(core.StockHeight).Max() <= 20_000
        && core.Demand.Sum(d => (long)d) >= 40 && core.Kinds <= 200;

    /// <summary>A plan from the program's solution, sheets with equal layout together, or null. What is fixed last is packed by ruin and recreate.</summary>
    /// <param name="depart">0 for the first choices, else the number of the attempt.</param>
    public SettledSheets? Dive(ulong depart, double stopBelow)
    {
        var random = new FixedRandom(depart + 1);
        var demand = (int[])_core.Demand.Clone();
        var counts = (int[])_core.Counts.Clone();
        var taken = new List<(GuillotineTree, int)>();
        _master.Reset(demand, [.. _limited.Select(s => counts[s])]);
        var anew = false;
        while (true)
        {
            if (!Solve(demand))
                return null;
            var fractions = new List<(double Value, int Column)>();
            var any = false;
            for (var j = 0; j < _trees.Count; j++)
            {
                var x = _master.ValueOf(j);
                if (x >= 1 - 1e-6)
                    any |= Take(j, (int)Math.Floor(x + 1e-6));
                else if (x > 1e-6)
                    fractions.Add((x, j));
            }

            var area = Enumerable.Range(0, _core.Kinds).Sum(k => (double)demand[k] * _core.Area(k));
            if (area <= stopBelow)
                return new SettledSheets(taken, demand, counts);
            if (!any)
            {
                fractions.Sort((a, b) => a.Value != b.Value ? b.Value.CompareTo(a.Value) : a.Column.CompareTo(b.Column));
                var pick = 0;
                while (depart > 0 && pick + 1 < fractions.Count && random.Below(100) < 30)
                    pick++;
                for (; pick < fractions.Count && !any; pick++)
                    any = Take(fractions[pick].Column, 1);
                if (!any)
                {
                    if (anew)
                        return new SettledSheets(taken, demand, counts);
                    // Patterns in the basis may give more than is still wanted: begin anew with those that do not.
                    anew = true;
                    _master.Reset(demand, [.. _limited.Select(s => counts[s])]);
                    continue;
                }
            }

            anew = false;

            _master.SetRhs(demand, [.. _limited.Select(s => counts[s])]);
            _master.Recompute();
        }

        bool Take(int column, int times)
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
            taken.Add((_trees[column], times));
            return true;
        }
    }

    private bool Solve(int[] demand)
    {
        for (var j = 0; j < _trees.Count; j++)
        {
            var c = _master.Columns[j];
            _allowed[j] = true;
            for (var k = 0; k < c.Kinds.Length; k++)
                _allowed[j] &= c.Amounts[k] <= demand[c.Kinds[k]];
        }

        _master.RestoreFeasible(_allowed, _budget);
        for (var round = 0; round < 2000; round++)
        {
            _master.Primal(_allowed, _budget);
            var added = Price(demand, _lies, _core.StockWidth, _core.StockHeight, false);
            added |= Price(demand, _transposed, _core.StockHeight, _core.StockWidth, true);
            if (!_budget.Spend(_master.TakeWork()))
                return false;
            if (!added)
                return true;
        }

        return true;
    }

    /// <summary>Prices strips of every height that a piece has, then sheets of strips.</summary>
    private bool Price(int[] demand, Lie[] lies, int[] stockWidth, int[] stockHeight, bool transposed)
    {
        var widest = stockWidth.Max();
        var tallest = stockHeight.Max();
        var heights = lies.Where(l => demand[l.Kind] > 0 && l.Height <= tallest).Select(l => l.Height).Distinct().Order().ToArray();
        var dual = _master.Dual.ToArray();
        var worth = new double[_core.Stocks][];
        for (var s = 0; s < worth.Length; s++)
            worth[s] = new double[heights.Length];
        var lengths = new int[lies.Length];
        var counts = new int[lies.Length];
        var values = new double[lies.Length];
        for (var h = 0; h < heights.Length; h++)
        {
            Strip(heights[h], demand);
            for (var s = 0; s < worth.Length; s++)
                worth[s][h] = heights[h] <= stockHeight[s] ? _strip.Value(stockWidth[s]) : 0;
        }

        var added = false;
        var fits = new int[heights.Length];
        var uses = new int[heights.Length];
        for (var s = 0; s < _core.Stocks; s++)
        {
            for (var h = 0; h < heights.Length; h++)
                fits[h] = stockHeight[s] / heights[h];
            _budget.Spend(_sheet.Fill(stockHeight[s], heights, fits, worth[s]));
            if (_sheet.Value(stockHeight[s]) <= (_core.Costs[s] + _master.StockDual(s)) * (1 + 1e-7) + 1e-9)
                continue;
            added |= Build(s);
        }

        return added;

        void Strip(int height, int[] left)
        {
            for (var i = 0; i < lies.Length; i++)
            {
                var stack = height / lies[i].Height;
                lengths[i] = lies[i].Width;
                // Where less than a whole column is wanted, one shorter column is.
                counts[i] = stack == 0 ? 0 : Math.Max(left[lies[i].Kind] / stack, left[lies[i].Kind] > 0 ? 1 : 0);
                values[i] = Math.Min(stack, left[lies[i].Kind]) * dual[lies[i].Kind];
            }

            _budget.Spend(_strip.Fill(widest, lengths, counts, values));
        }

        // Strip by strip: what one takes is not there for the next. The worth of a strip only falls, so only those that would be used are reckoned again.
        bool Build(int s)
        {
            var left = (int[])demand.Clone();
            var now = (double[])worth[s].Clone();
            var tree = new GuillotineTree();
            tree.Reset(s, _core.StockWidth[s], _core.StockHeight[s]);
            var rest = 0;
            var columns = new int[lies.Length];
            var sure = new bool[heights.Length];
            Array.Fill(sure, true);
            for (var room = stockHeight[s]; rest >= 0 && heights.Length > 0 && room >= heights[0];)
            {
                for (var h = 0; h < heights.Length; h++)
                    fits[h] = room / heights[h];
                _budget.Spend(_sheet.Fill(room, heights, fits, now));
                Array.Clear(uses);
                _sheet.Trace(room, heights, uses);
                var tallest = Array.FindLastIndex(uses, u => u > 0);
                if (tallest < 0)
                    break;
                Strip(heights[tallest], left);
                now[tallest] = _strip.Value(stockWidth[s]);
                if (!sure[tallest])
                {
                    sure[tallest] = true;
                    continue;
                }

                Array.Clear(columns);
                _strip.Trace(stockWidth[s], lengths, columns);
                rest = Lay(tree, rest, heights[tallest], lies, columns, left, transposed);
                room -= heights[tallest];
                Array.Clear(sure);
            }

            return Offer(s, tree, left);
        }

        bool Offer(int s, GuillotineTree tree, int[] left)
        {
            var amounts = Enumerable.Range(0, _core.Kinds).Where(k => left[k] < demand[k]).ToArray();
            if (amounts.Length == 0 || !_master.Add(new Column(s, amounts, [.. amounts.Select(k => demand[k] - left[k])], _core.Costs[s])))
                return false;
            _trees.Add(tree);
            if (_trees.Count > _allowed.Length)
                Array.Resize(ref _allowed, _allowed.Length * 2);
            _allowed[_trees.Count - 1] = true;
            return true;
        }
    }

    /// <summary>Lays one strip into the leaf, no more pieces than are left; returns the leaf that remains.</summary>
    private static int Lay(GuillotineTree tree, int leaf, int height, Lie[] lies, int[] columns, int[] left, bool transposed)
    {
        var used = Enumerable.Range(0, lies.Length).Where(i => columns[i] > 0 && left[lies[i].Kind] > 0).ToArray();
        if (used.Length == 0 || leaf < 0)
            return leaf;
        int strip, rest;
        strip = transposed ? tree.SplitColumns(leaf, height, out rest) : tree.SplitRows(leaf, height, out rest);
        foreach (var i in used)
        {
            for (var c = 0; c < columns[i] && left[lies[i].Kind] > 0 && strip >= 0; c++)
            {
                var column = transposed ? tree.SplitRows(strip, lies[i].Width, out strip) : tree.SplitColumns(strip, lies[i].Width, out strip);
                for (var room = height; room >= lies[i].Height && left[lies[i].Kind] > 0 && column >= 0; room -= lies[i].Height)
                {
                    var piece = transposed ? tree.SplitColumns(column, lies[i].Height, out column) : tree.SplitRows(column, lies[i].Height, out column);
                    tree.Put(piece, lies[i].Kind);
                    left[lies[i].Kind]--;
                }
            }
        }

        return rest;
    }
}
