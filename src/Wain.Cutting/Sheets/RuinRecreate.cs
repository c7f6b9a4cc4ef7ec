namespace Wain.Cutting;

/// <summary>
/// Improves layouts towards a goal: once a plan is found, its cost less one unit becomes the limit, pieces that then find no room stay
/// out, and the search takes parts of sheets out and fills them anew until all pieces are in again (ruin and recreate: Schrimpf and others 2000). A change is
/// kept if it is not much worse, less and less so.
/// </summary>
internal abstract class RuinRecreate<TSheet>
    where TSheet : class, IOpenSheet<TSheet>
{
    private const int ExchangesInTen = 3;
    private const double Hot = 0.1;
    private readonly StepBudget _budget;
    private readonly int[] _out;           // pieces of each kind without a place
    private readonly int[] _outBefore;
    private readonly int[] _order;
    private readonly double[] _key;
    private readonly Cooling _cooling;
    private readonly SheetChoice<TSheet>? _choice;
    private FixedRandom _random;
    private double _value;
    private long _limit;
    private long _iteration;
    private long _work;
    private bool _tidies;

    protected RuinRecreate(SheetCore core, StepBudget budget, ulong seed, Func<TSheet> make, long cooling)
    {
        Core = core;
        _budget = budget;
        _random = new FixedRandom(seed);
        _out = (int[])core.Demand.Clone();
        _outBefore = new int[core.Kinds];
        Open = new OpenSheets<TSheet>(core, make);
        _order = new int[core.Kinds];
        _key = new double[core.Kinds];
        Scale = 1.0 / Enumerable.Range(0, core.Stocks).Max(core.StockArea);
        // What is too much for one size of piece is nothing for another: the mean piece is the measure.
        var pieces = Enumerable.Range(0, core.Kinds).Sum(k => (double)core.Demand[k]);
        _cooling = new Cooling(Hot * Scale * Enumerable.Range(0, core.Kinds).Sum(k => (double)core.Demand[k] * core.Area(k)) / Math.Max(1, pieces), cooling);
        _choice = core.Stocks > 1 ? new SheetChoice<TSheet>(core, Open) : null;
    }

    public SheetSolution? Best { get; private set; }

    protected SheetCore Core { get; }

    protected OpenSheets<TSheet> Open { get; }

    /// <summary>One over the area of the largest sheet.</summary>
    protected double Scale { get; }

    protected ref FixedRandom Random => ref _random;

    /// <summary>Simple operations since the last change was counted.</summary>
    protected ref long Work => ref _work;

    /// <summary>Builds a first plan without a limit of cost.</summary>
    public void Construct()
    {
        _limit = long.MaxValue;
        Recreate(0);
        Open.Settle();
        Record();
        if (Best is not null)
            Aim(Best.Cost);
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

    /// <summary>Lowers the limit below a cost that a plan is known for, and takes out the sheets that give least for their cost until the limit holds.</summary>
    public void Aim(long cost)
    {
        if (_limit <= cost - Core.CostUnit)
            return;
        _limit = cost - Core.CostUnit;
        while (Open.Cost > _limit && Open.Count > 0)
        {
            var worst = 0;
            for (var i = 1; i < Open.Count; i++)
            {
                if (Rate(i) < Rate(worst))
                    worst = i;
            }

            Open.Close(worst, _out);
        }

        _value = Value();
        _cooling.Heat();

        double Rate(int i) => (double)Open[i].UsedArea / Math.Max(1, Core.Costs[Open[i].Stock]);
    }

    /// <summary>Takes about so many pieces out of a sheet, or fewer; counts them in <paramref name="removed"/>.</summary>
    protected abstract void TakeOut(TSheet sheet, int most, int[] removed);

    /// <summary>Draws the rules by which pieces are placed from now on.</summary>
    protected abstract void ChooseRules();

    /// <summary>Places one piece where it fits best, if anywhere.</summary>
    /// <param name="blink">How often a place is overlooked, so that the next best has its chance; 0 for never.</param>
    protected abstract bool PlaceOne(int kind, double blink);

    /// <summary>Takes out of one sheet what keeps a piece from its place, where that is least and less than the piece, more or less. False if there is no such place.</summary>
    protected abstract bool MakeRoom(int kind, int[] removed);

    /// <summary>Adds what the free room of a sheet is worth: more where it lies together.</summary>
    protected abstract double AddRoom(double sum, TSheet sheet);

    /// <summary>Opens the sheet that gives most for its cost, of those that the limit allows, and says at which place; -1 if there is none.</summary>
    protected int OpenSheet(int kind, double blink)
    {
        if (_choice is not null && blink > 0 && _limit < long.MaxValue)
            return _choice.Next(kind, _limit, ref _random, ref _work) is var next and >= 0 ? Open.Open(next) : -1;
        var best = -1;
        var bestRate = double.MaxValue;
        for (var s = 0; s < Core.Stocks; s++)
        {
            if (!Open.HasLeft(s) || !Core.Fits(kind, s) || Core.Costs[s] > _limit - Open.Cost)
                continue;
            var rate = (double)Core.Costs[s] / Core.StockArea(s);
            if (blink > 0)
                rate *= 0.5 + _random.Unit();
            if (rate < bestRate)
            {
                bestRate = rate;
                best = s;
            }
        }

        return best < 0 ? -1 : Open.Open(best);
    }

    /// <summary>Which way a piece lies on a sheet that was opened for it.</summary>
    protected bool LiesTurned(int kind, int stock)
    {
        int w = Core.Width[kind], h = Core.Height[kind];
        var upright = w <= Core.StockWidth[stock] && h <= Core.StockHeight[stock];
        var turned = Core.MayTurn[kind] && w != h && h <= Core.StockWidth[stock] && w <= Core.StockHeight[stock];
        return turned && (!upright || _random.Below(2) == 0);
    }

    private void Change()
    {
        Array.Copy(_out, _outBefore, _out.Length);
        Open.Begin();
        if (_tidies || _random.Below(10) >= ExchangesInTen || !Exchange())
            Ruin();
        Recreate(0.01);
        var value = Value();
        if (value <= _value + (_tidies ? 0 : _cooling.Allowed(ref _random)))
        {
            Open.Keep(_out);
            _value = value;
            if (AllIn())
            {
                Record();
                if (!_tidies)
                    Aim(Best!.Cost);
            }
        }
        else
        {
            Open.Undo();
            Array.Copy(_outBefore, _out, _out.Length);
        }

        if ((++_iteration & 63) == 0)
            _choice?.Learn();
    }

    private bool AllIn()
    {
        foreach (var n in _out)
        {
            if (n > 0)
                return false;
        }

        return true;
    }

    /// <summary>The area that is out. When the cost stands, free room in few large places is better than the same in many small ones.</summary>
    private double Value()
    {
        var value = 0.0;
        for (var k = 0; k < _out.Length; k++)
        {
            if (_out[k] > 0)
                value += _out[k] * Core.Area(k) * Scale;
        }

        if (!_tidies)
            return value;
        var room = 0.0;
        for (var place = 0; place < Open.Count; place++)
            room = AddRoom(room, Open[place]);
        return value - (0.01 * room);
    }

    private void Record()
    {
        if (!AllIn())
            return;
        var solution = SheetSolution.Of(Core, [.. Enumerable.Range(0, Open.Count).Select(i => Open[i]).Where(t => t.Pieces > 0).Select(t => t.Layout())]);
        if (!solution.IsBetterThan(Best))
            return;
        Best = solution;
        _budget.Cost = _budget.Cost < 0 ? solution.Cost : Math.Min(_budget.Cost, solution.Cost);
    }

    /// <summary>One of the pieces that are out gets its place, and what was there is out.</summary>
    private bool Exchange()
    {
        var count = 0;
        foreach (var n in _out)
            count += n;
        if (count == 0)
            return false;
        var pick = _random.Below(count);
        var kind = 0;
        for (; pick >= _out[kind]; kind++)
            pick -= _out[kind];
        if (!MakeRoom(kind, _out))
            return false;
        if (PlaceOne(kind, 0))
            _out[kind]--;
        return true;
    }

    private void Ruin()
    {
        if (Open.Count == 0)
            return;
        var total = 0;
        for (var i = 0; i < Open.Count; i++)
            total += Open[i].Pieces;
        var aim = 1 + _random.Below(Math.Max(2, Math.Min(24, total / 3)));
        var several = Core.Stocks > 1;
        for (var guard = 0; guard < 40 && aim > 0; guard++)
        {
            var place = _random.Below(Open.Count);
            if (Open[place].Pieces == 0)
                continue;
            var sheet = Open.Writable(place, ref _work);
            var before = sheet.Pieces;
            // Among several sizes another sheet may do better, but not often: a set of sheets must be packed well before it is given up.
            if (_random.Below(8) == 0 || (several && _random.Below(100) == 0))
            {
                sheet.Clear(_out);
                if (several)
                    Open.HandBack(sheet);
            }
            else
            {
                TakeOut(sheet, aim, _out);
            }

            aim -= before - sheet.Pieces;
            _work += 60;
        }
    }

    private void Recreate(double blink)
    {
        var rule = _random.Below(6);
        ChooseRules();
        var n = 0;
        for (var k = 0; k < _out.Length; k++)
        {
            if (_out[k] == 0)
                continue;
            double w = Core.Width[k], h = Core.Height[k];
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
            while (_out[kind] > 0 && PlaceOne(kind, blink))
                _out[kind]--;
        }
    }
}
