namespace Wain.Cutting;

/// <summary>What the sheet search hands back.</summary>
internal sealed record SheetResult(long Bound, SheetCertificate Certificate);

/// <summary>Runs the bounds and the searches for a sheet problem in a fixed order of work, until bound and plan meet or the budget ends.</summary>
internal sealed class SheetSearch
{
    private const int MostLoose = 4000;
    private const int MostFree = 1000;
    private readonly SheetCore _core;
    private readonly StepBudget _budget;
    private readonly SheetBound _bound;
    private SheetSolution? _best;
    private Action<SheetSolution>? _improved;

    private SheetSearch(SheetCore inner, SheetCore core, SharingBound sharing, StepBudget budget)
    {
        _core = core;
        _budget = budget;
        _bound = new SheetBound(inner, sharing, budget);
        budget.Bound = _bound.Bound;
    }

    /// <param name="inner">The problem that the bound is for; the same as <paramref name="core"/> unless pieces are no rectangles.</param>
    /// <param name="improved">Told of every better plan as it is found.</param>
    /// <param name="sharing">What pieces prove that keep each other off a sheet.</param>
    public static SheetResult Run(SheetCore inner, SheetCore core, SharingBound sharing, StepBudget budget, Action<SheetSolution> improved)
    {
        var search = new SheetSearch(inner, core, sharing, budget) { _improved = improved };
        search.Run();
        return new SheetResult(search._bound.Bound, search._bound.Certificate);
    }

    private bool Done() => _best is not null && _best.Cost <= _bound.Bound;

    private void Run()
    {
        var pieces = _core.Demand.Sum(d => (long)d);
        var loose = pieces <= MostLoose;
        var many = pieces >= 10L * _core.Kinds;
        var whole = new GuillotinePacking(_core, _budget, 1);
        if (loose)
        {
            whole.Construct();
            Keep(whole.Best);
        }
        else
        {
            Keep(Repeated());
        }

        // Patterns pay where a layout is cut more than once; there they come first. Strips are for sheets that can be filled in too many ways to look at all.
        var cuts = loose && !many && !Done() ? CutPatterns.For(_core, _budget) : null;
        var patterns = cuts is null && pieces >= 2L * _core.Kinds && StripPatterns.Suits(_core) ? new StripPatterns(_core, _budget) : null;
        if (loose && !(many && patterns is not null))
        {
            whole.Run(2000, _bound.Bound);
            Keep(whole.Best);
        }

        var free = pieces <= MostFree && !_core.Guillotine && !Done() ? new FreePacking(_core, _budget, 1) : null;
        free?.Construct();
        ulong dive = 0;
        long beside = 0;
        var start = _budget.StepsDone;
        for (var turn = 0; !Done() && !_budget.IsSpent && (loose || patterns is not null);)
        {
            if (many && patterns is not null)
                Patterns(patterns, ref dive, 4);
            if (loose && !Done())
                Joined();
            // Packing piece by piece finds most; bounds and strips have a quarter of its work, in turns.
            var before = _budget.StepsDone;
            if (!Done() && (!loose || 4 * beside <= before - start))
            {
                if (turn++ % 2 == 1 && !many && patterns is not null)
                    Patterns(patterns, ref dive, 2);
                else
                    _bound.Raise(1, Done);
                beside += _budget.StepsDone - before;
            }

            // A dive takes long, so a small budget is better spent without.
            var packed = _sawWork + _freeWork;
            if (!Done() && cuts is not null && packed > BeforeDives && _diveWork <= (free is null ? SawDives : FreeDives) * packed)
                Dive(cuts);
            if (!Done() && loose && !Pack(whole, free))
                break;
            if (!loose && dive > 60)
                break;
        }

        Keep(whole.Best);
        // Where the cost cannot fall any more, the later aims have their turn.
        if (Done() && whole.Best?.Cost == _best!.Cost)
        {
            whole.Tidy(MostTidies);
            Keep(whole.Best);
        }
        else if (Done() && free?.Best?.Cost == _best!.Cost)
        {
            free.Tidy(MostTidies);
            Keep(free.Best);
        }
    }

    private const int FreeShare = 3;
    private long _freeWork;
    private long _sawWork;

    /// <summary>
    /// Packs piece by piece for a while. Where any pattern will do, that takes most of the time: it finds what no saw from edge to edge can cut, and so a cheaper
    /// plan more often. At the same cost a plan for the saw stands. False if the budget is spent.
    /// </summary>
    private bool Pack(GuillotinePacking saw, FreePacking? free)
    {
        var before = _budget.StepsDone;
        bool more;
        if (free is null || _freeWork > FreeShare * _sawWork)
        {
            more = saw.Run(2000, _bound.Bound);
            Keep(saw.Best);
            _sawWork += _budget.StepsDone - before;
        }
        else
        {
            more = free.Run(1000, _bound.Bound);
            if (_best is null || free.Best?.Cost < _best.Cost)
                Keep(free.Best);
            _freeWork += _budget.StepsDone - before;
        }

        if (_best is not null)
        {
            saw.Aim(_best.Cost);
            free?.Aim(_best.Cost);
        }

        return more;
    }

    private const int MostTidies = 4000;

    private void Keep(SheetSolution? solution)
    {
        if (solution is null || !solution.IsBetterThan(_best))
            return;
        _best = solution;
        _budget.Cost = solution.Cost;
        _improved?.Invoke(solution);
    }

    private void Patterns(StripPatterns patterns, ref ulong dive, int dives)
    {
        var sheetArea = Enumerable.Range(0, _core.Stocks).Max(_core.StockArea);
        for (; dives > 0 && !Done() && !_budget.IsSpent; dives--, dive++)
        {
            // The last few sheets are packed piece by piece: fewer at first, then more, where fixed patterns leave no way out.
            if (patterns.Dive(dive, sheetArea * (1.5 + 2 * (dive % 4))) is not { } found)
                return;
            Finish(found, new GuillotinePacking(Rest(found), _budget, dive + 2), 3000);
        }
    }

    private SheetCore Rest(SettledSheets settled) => _core with { Demand = settled.Left, Counts = settled.Counts };

    /// <summary>Packs what settled sheets leave, and keeps the plan if it is the best.</summary>
    private void Finish(SettledSheets settled, GuillotinePacking rest, int changes, bool lower = false)
    {
        var layouts = settled.Sheets.Select(f => f.Tree.Layout() with { Times = f.Times }).ToList();
        var cost = layouts.Sum(l => _core.Costs[l.Stock] * l.Times);
        var left = settled.Left.Sum(n => (long)n);
        if (left == 0)
            Keep(SheetSolution.Of(_core, layouts));
        if (left is 0 or > MostLoose)
            return;
        rest.Construct();
        if (lower && _best is not null)
            rest.Aim(_best.Cost - cost);
        rest.Run(changes, _bound.Bound - cost);
        if (rest.Best is not null)
            Keep(SheetSolution.Of(_core, [.. layouts, .. rest.Best.Layouts]));
    }

    private const int DiveChanges = 60_000;
    private const long BeforeDives = 100_000;
    private const double SawDives = 2;
    private const double FreeDives = 0.5;
    private ulong _dives;
    private long _diveWork;

    /// <summary>Settles some of the sheets by the linear program and packs the rest for less than the best plan costs.</summary>
    private void Dive(CutPatterns cuts)
    {
        var before = _budget.StepsDone;
        var area = Enumerable.Range(0, _core.Kinds).Sum(k => (double)_core.Demand[k] * _core.Area(k));
        if (cuts.Dive(_dives, area * (0.55 + (0.05 * (_dives % 4)))) is { } settled)
            Finish(settled, new GuillotinePacking(Rest(settled), _budget, _dives + 2, DiveChanges), DiveChanges, lower: true);
        _dives++;
        _diveWork += _budget.StepsDone - before;
    }

    private const ulong MostJoins = 48;
    private ulong _joins;

    /// <summary>Packs blocks of pieces that fit together without waste, again and again as long as that is as good as the best so far.</summary>
    private void Joined()
    {
        if (_joins >= MostJoins)
            return;
        _joins++;
        if (FitAssembly.Join(_core, 300, _joins == 1 ? 12_000_000 : 40_000_000, _joins, _budget) is not { } joined)
        {
            _joins = MostJoins;
            return;
        }

        var search = new GuillotinePacking(joined.Core, _budget, _joins);
        search.Construct();
        search.Run(1500, _bound.Bound);
        // Where no block fills a sheet, sides may well be equal by chance: then a third of the tries will do, and two that come out worse end them.
        if (joined.Full == 0)
            _joins += _best is not null && search.Best?.Cost > _best.Cost ? MostJoins / 2 : 2;
        if (search.Best is { } best)
            Keep(SheetSolution.Of(_core, [.. best.Layouts.Select(joined.Expand)]));
    }

    /// <summary>For very many pieces: a sheet packed as well as one pass can, used as often as the demand allows, and so on.</summary>
    private SheetSolution? Repeated()
    {
        var left = (int[])_core.Demand.Clone();
        var counts = (int[])_core.Counts.Clone();
        var layouts = new List<SheetLayout>();
        while (left.Any(n => n > 0))
        {
            // A handful of each kind is more than a few sheets hold, and keeps the pass short.
            var sample = left.Select(n => Math.Min(n, 200)).ToArray();
            var search = new GuillotinePacking(_core with { Demand = sample, Counts = counts }, _budget, 1);
            search.Construct();
            var fullest = search.Best?.Layouts.MaxBy(l => l.Pieces.Sum(p => (double)p.Width * p.Height) / Math.Max(1, _core.Costs[l.Stock]));
            if (fullest is null)
                return null;
            var times = counts[fullest.Stock] < 0 ? int.MaxValue : counts[fullest.Stock];
            var amounts = fullest.Pieces.GroupBy(p => p.Kind).Select(g => (Kind: g.Key, Count: g.Count())).ToArray();
            foreach (var (kind, n) in amounts)
                times = Math.Min(times, left[kind] / n);
            layouts.Add(fullest with { Times = times });
            foreach (var (kind, n) in amounts)
                left[kind] -= n * times;
            if (counts[fullest.Stock] > 0)
                counts[fullest.Stock] -= times;
        }

        return SheetSolution.Of(_core, layouts);
    }
}
