namespace Wain.Cutting;

/// <summary>
/// Improves guillotine layouts towards a goal: once a plan is found, its cost less one unit becomes the limit, pieces that then find no room stay
/// out, and the search takes parts of sheets out and fills them anew until all pieces are in again. A change is kept if it is no worse than
/// the plan some hundred changes ago (late acceptance). Ruin and recreate: Schrimpf and others 2000; late acceptance: Burke and Bykov 2017.
/// </summary>
internal sealed class RuinRecreate
{
    private const int History = 400;
    private readonly SheetCore _core;
    private readonly StepBudget _budget;
    private FixedRandom _random;
    private readonly OpenSheets _open;
    private readonly int[] _out;           // pieces of each kind without a place
    private readonly int[] _outBefore;
    private readonly int[] _order;
    private readonly double[] _key;
    private readonly double[] _history = new double[History];
    private readonly double _scale;
    private long _limit;
    private long _iteration;
    private long _work;

    public RuinRecreate(SheetCore core, StepBudget budget, ulong seed)
    {
        _core = core;
        _budget = budget;
        _random = new FixedRandom(seed);
        _out = (int[])core.Demand.Clone();
        _outBefore = new int[core.Kinds];
        _open = new OpenSheets(core);
        _order = new int[core.Kinds];
        _key = new double[core.Kinds];
        _scale = 1.0 / Enumerable.Range(0, core.Stocks).Max(core.StockArea);
    }

    public SheetSolution? Best { get; private set; }

    /// <summary>Builds a first plan without a limit of cost.</summary>
    public void Construct()
    {
        _limit = long.MaxValue;
        Recreate(0);
        _open.Settle();
        Record();
        Aim();
    }

    /// <summary>Runs a number of changes. False if the budget is spent.</summary>
    public bool Run(int changes, long bound)
    {
        for (var i = 0; i < changes; i++)
        {
            if (Best is not null && Best.Cost <= bound)
                return true;
            Change();
            if (!_budget.Spend(_work))
                return false;
            _work = 200;
        }

        return true;
    }

    /// <summary>Keeps to the cost of the best plan and looks for fewer sheets, a larger rest and fewer cuts at that cost.</summary>
    public void Tidy(int changes)
    {
        if (Best is null)
            return;
        _limit = Best.Cost;
        _tidies = true;
        for (; changes > 0 && !_budget.IsSpent; changes--)
        {
            Change();
            _budget.Spend(_work);
            _work = 200;
        }
    }

    private bool _tidies;

    private void Change()
    {
        Array.Copy(_out, _outBefore, _out.Length);
        _open.Begin();
        var before = _value;
        Ruin();
        Recreate(0.01);
        var value = Value();
        var slot = (int)(_iteration++ % History);
        if (value <= before || value <= _history[slot])
        {
            _open.Keep(_out);
            _value = value;
            if (AllIn())
            {
                Record();
                if (!_tidies)
                    Aim();
            }
        }
        else
        {
            _open.Undo();
            Array.Copy(_outBefore, _out, _out.Length);
        }

        _history[slot] = _value;
    }

    private double _value;

    private bool AllIn()
    {
        foreach (var n in _out)
        {
            if (n > 0)
                return false;
        }

        return true;
    }

    /// <summary>What is out counts most; then free room in few large leaves is better than the same in many small ones.</summary>
    private double Value()
    {
        var value = 0.0;
        for (var k = 0; k < _out.Length; k++)
        {
            if (_out[k] > 0)
                value += _out[k] * (_core.Area(k) * _scale + 0.002);
        }

        var room = 0.0;
        for (var place = 0; place < _open.Count; place++)
        {
            var tree = _open[place];
            for (var i = 0; i < tree.FreeLeaves; i++)
            {
                ref readonly var n = ref tree.At(tree.FreeLeaf(i));
                var area = (double)n.Width * n.Height * _scale;
                room += area * area;
            }

            _work += tree.FreeLeaves * 2;
        }

        return value - 0.01 * room;
    }

    private void Record()
    {
        if (!AllIn())
            return;
        var solution = SheetSolution.Of(_core, [.. Enumerable.Range(0, _open.Count).Select(i => _open[i]).Where(t => t.Pieces > 0).Select(t => t.Layout())]);
        if (!solution.IsBetterThan(Best))
            return;
        Best = solution;
        _budget.Cost = _budget.Cost < 0 ? solution.Cost : Math.Min(_budget.Cost, solution.Cost);
    }

    /// <summary>Lowers the limit below the best plan and takes out the sheets that give least for their cost until the limit holds.</summary>
    private void Aim()
    {
        if (Best is null)
            return;
        _limit = Best.Cost - _core.CostUnit;
        while (_open.Cost > _limit && _open.Count > 0)
        {
            var worst = 0;
            for (var i = 1; i < _open.Count; i++)
            {
                if (Rate(i) < Rate(worst))
                    worst = i;
            }

            _open.Close(worst, _out);
        }

        _value = Value();
        Array.Fill(_history, _value);

        double Rate(int i) => (double)_open[i].UsedArea / Math.Max(1, _core.Costs[_open[i].Stock]);
    }

    private void Ruin()
    {
        if (_open.Count == 0)
            return;
        var total = 0;
        for (var i = 0; i < _open.Count; i++)
            total += _open[i].Pieces;
        var aim = 1 + _random.Below(Math.Max(2, Math.Min(24, total / 3)));
        var several = _core.Stocks > 1;
        for (var guard = 0; guard < 40 && aim > 0; guard++)
        {
            var place = _random.Below(_open.Count);
            if (_open[place].Pieces == 0)
                continue;
            var tree = _open.Writable(place, ref _work);
            var before = tree.Pieces;
            if (_random.Below(8) == 0 || (several && _random.Below(3) == 0))
            {
                tree.Clear(0, _out);
                if (several)
                    _open.HandBack(tree);
            }
            else
            {
                for (var tries = 0; tries < 3 && aim - (before - tree.Pieces) > 0; tries++)
                {
                    var node = _random.Below(tree.NodeCount);
                    if (tree.At(node).Parent != -2 && tree.At(node).Kind != NodeKind.Free)
                        tree.Clear(node, _out);
                }
            }

            aim -= before - tree.Pieces;
            _work += 60;
        }
    }

    private void Recreate(double blink)
    {
        var rule = _random.Below(6);
        var fit = _random.Below(3);
        var n = 0;
        for (var k = 0; k < _out.Length; k++)
        {
            if (_out[k] == 0)
                continue;
            double w = _core.Width[k], h = _core.Height[k];
            var key = rule switch
            {
                0 or 1 => w * h,
                2 => Math.Max(w, h) * 1000 + Math.Min(w, h),
                3 => h * 1000 + w,
                4 => w * 1000 + h,
                _ => (w + h) * _random.Unit(),
            };
            _order[n] = k;
            _key[n++] = blink == 0 ? -w * h : -key * (0.9 + 0.2 * _random.Unit());
        }

        Array.Sort(_key, _order, 0, n);
        _work += n * 10;
        for (var i = 0; i < n; i++)
        {
            var kind = _order[i];
            while (_out[kind] > 0 && PlaceOne(kind, fit, blink))
                _out[kind]--;
        }
    }

    private bool PlaceOne(int kind, int fit, double blink)
    {
        var bestScore = double.MaxValue;
        var (bestPlace, bestLeaf, bestTurned) = (-1, -1, false);
        int w = _core.Width[kind], h = _core.Height[kind];
        var turns = _core.MayTurn[kind] && w != h ? 2 : 1;
        var area = (long)w * h;
        for (var place = 0; place < _open.Count; place++)
        {
            var tree = _open[place];
            var leaves = tree.FreeLeaves;
            _work += leaves * 2;
            for (var i = 0; i < leaves; i++)
            {
                var leaf = tree.FreeLeaf(i);
                ref readonly var n = ref tree.At(leaf);
                for (var turn = 0; turn < turns; turn++)
                {
                    var dw = n.Width - (turn == 0 ? w : h);
                    var dh = n.Height - (turn == 0 ? h : w);
                    if (dw < 0 || dh < 0)
                        continue;
                    double score = fit switch
                    {
                        0 => (long)n.Width * n.Height - area,
                        1 => Math.Min(dw, dh),
                        _ => Math.Max(dw, dh),
                    };
                    if (score >= bestScore || (blink > 0 && _random.Unit() < blink))
                        continue;
                    bestScore = score;
                    (bestPlace, bestLeaf, bestTurned) = (place, leaf, turn == 1);
                }
            }
        }

        if (bestPlace < 0)
        {
            bestPlace = OpenSheet(kind, blink);
            if (bestPlace < 0)
                return false;
            bestLeaf = 0;
            var stock = _open[bestPlace].Stock;
            var upright = w <= _core.StockWidth[stock] && h <= _core.StockHeight[stock];
            var turned = turns == 2 && h <= _core.StockWidth[stock] && w <= _core.StockHeight[stock];
            bestTurned = turned && (!upright || _random.Below(2) == 0);
        }

        var target = _open.Writable(bestPlace, ref _work);
        var (pw, ph) = bestTurned ? (h, w) : (w, h);
        ref readonly var free = ref target.At(bestLeaf);
        // Cutting so that the larger rest stays whole is usually best; now and then the other way.
        var restRight = (long)(free.Width - pw) * free.Height;
        var restTop = (long)(free.Height - ph) * free.Width;
        var columnsFirst = restRight != restTop ? restRight > restTop : _random.Below(2) == 0;
        if (blink > 0 && _random.Below(6) == 0)
            columnsFirst = !columnsFirst;
        target.Insert(bestLeaf, kind, pw, ph, columnsFirst);
        _work += 20;
        return true;
    }

    private int OpenSheet(int kind, double blink)
    {
        var best = -1;
        var bestRate = double.MaxValue;
        for (var s = 0; s < _core.Stocks; s++)
        {
            if (!_open.HasLeft(s) || !_core.Fits(kind, s) || _core.Costs[s] > _limit - _open.Cost)
                continue;
            var rate = (double)_core.Costs[s] / _core.StockArea(s);
            if (blink > 0)
                rate *= 0.5 + _random.Unit();
            if (rate < bestRate)
            {
                bestRate = rate;
                best = s;
            }
        }

        return best < 0 ? -1 : _open.Open(best);
    }
}
