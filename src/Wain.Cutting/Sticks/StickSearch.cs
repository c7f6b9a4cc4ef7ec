namespace Wain.Cutting;

/// <summary>What the stick search hands back: the best solution, the best bound and its certificate.</summary>
internal sealed record StickResult(StickSolution? Best, long Bound, StickCertificate Certificate);

/// <summary>
/// Exact cutting stock by patterns: the linear program over all patterns gives the bound (Gilmore and Gomory 1961), and dives that fix patterns one
/// by one, each time with fresh patterns for what is left, give the plans. Once a good part is fixed, the rest becomes a smaller problem that is
/// dived into more than once; so the search branches most where that is cheapest, until bound and plan meet or the budget ends.
/// </summary>
internal sealed class StickSearch
{
    private const int MostTried = 60;
    private const int MostTriedWhole = 90;
    private const int ClosingShare = 3;
    private readonly StickCore _core;
    private readonly StepBudget _budget;
    private readonly StickRelaxation _root;
    private StickSolution? _best;
    private long _bound;
    private StickCertificate _certificate;
    private ulong _dives;
    private StickClosing? _closing;
    private StickCertificate[]? _middle;
    private bool _withGrains;
    private readonly HashSet<long> _tried = [];
    private Action<StickSolution>? _improved;

    private StickSearch(StickCore core, StepBudget budget)
    {
        _core = core;
        _budget = budget;
        _root = new StickRelaxation(core, budget);
        // The plain bound: every unit of length is worth the cheapest unit of stock.
        var rate = Enumerable.Range(0, core.Costs.Length).Min(s => (double)core.Costs[s] / core.Segments[s].Sum(x => (double)x));
        _certificate = StickBound.Certify(core, core.Lengths.Select(l => l * rate).ToArray());
        _bound = StickProof.Bound(core, _certificate) ?? 0;
    }

    /// <param name="improved">Told of every better solution as it is found.</param>
    public static StickResult Run(StickCore core, StepBudget budget, Action<StickSolution>? improved = null)
    {
        var search = new StickSearch(core, budget) { _improved = improved };
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
        foreach (var p in _best?.Patterns ?? [])
            _root.AddColumn(p.Stock, p.Parts);
        _root.Reset();
        _root.Broad = true;
        var whole = _root.Solve(PricesFor.Bound);
        var certificate = StickBound.Certify(_core, _root.Prices);
        if (StickProof.Bound(_core, certificate) is { } bound && bound > _bound)
            (_bound, _certificate) = (bound, certificate);
        _budget.Bound = _bound;
        var diving = -_budget.StepsDone;
        long closing = 0;
        while (whole && !Done && !_budget.IsSpent && _dives < 100_000)
        {
            var start = _dives;
            if (start > 0)
                _root.Restore();
            _root.Broad = start % 2 == 1;
            if (!_root.Solve(PricesFor.Dive))
                return;
            Dive(_root, Enumerable.Range(0, _core.Kinds).ToArray(), [], 0, start > 0);
            if (start == 0 && !Done)
                TryWhole();
            if (_dives == start)
                return;
            // Either the plan or the bound has a unit to give. Where few patterns can matter, to go through them decides sooner than dives.
            diving += _budget.StepsDone;
            var before = _budget.StepsDone;
            while (!Done && !_budget.IsSpent && closing + _budget.StepsDone - before <= ClosingShare * diving && Close())
            {
            }

            closing += _budget.StepsDone - before;
            diving -= _budget.StepsDone;
        }
    }

    /// <summary>Few pieces are once tried in every way: where nothing may be wasted, that is quick and the dives are blind.</summary>
    private void TryWhole()
    {
        if (_best is null || _core.Costs.Length != 1 || _core.Counts[0] >= 0 || _core.Segments[0].Length != 1 || _core.Demand.Sum(d => (long)d) > MostTriedWhole)
            return;
        if (StickCompletion.Try(_core, _core.Demand, _best.Cost / Math.Max(1, _core.Costs[0]) - 1, 400_000, _budget) is { } whole)
            Offer([.. whole.Select(part => new StickPattern(0, [part], 1))]);
    }

    /// <summary>Goes a step towards a plan of less cost, or the proof that there is none. False if there is no more to do for the present.</summary>
    private bool Close()
    {
        if (_best is null)
            return false;
        if (_closing is null)
        {
            // The cost just below the best decides all; where that leaves too many patterns, the bound may be raised by as much as a plan can cost more.
            foreach (var target in new[] { _core.CostBelow(_best.Cost), _bound })
            {
                if (_closing is null && _tried.Add(target) && (_middle ??= Middle()) is { Length: > 0 } middle)
                    _closing = StickClosing.Of(_core, middle[_withGrains ? ^1 : 0], target, _budget);
            }

            return _closing is not null;
        }

        if (_closing.Target >= _best.Cost)
            _closing = null;
        else if (!_closing.Step())
        {
            if (_closing.Certificate is { } certificate && _core.NextCost(_closing.Target + 1) is var raised && raised > _bound)
                (_bound, _certificate) = (raised, certificate);
            if (_closing.Found is { } found)
            {
                var before = _best.Cost;
                Complete(found);
                // Kinds that were left out found no room: now none is.
                if (_best.Cost == before && !_withGrains)
                {
                    _withGrains = true;
                    _tried.Clear();
                }
            }

            _closing = null;
        }

        _budget.Bound = _bound;
        return true;
    }

    /// <summary>Prices to list patterns by, and the same with a grain for every kind, so that none is left out.</summary>
    private StickCertificate[] Middle()
    {
        if (!NearPatterns.Suits(_core))
            return [];
        _root.Restore();
        if (!_root.Solve(PricesFor.Closing) || _root.MiddlePrices() is not { } prices)
            return [];
        var bare = StickBound.Certify(_core, prices);
        // Lowered by more than all grains on a stick, prices with grains hold too.
        var lowered = StickBound.Certify(_core, Array.ConvertAll(prices, p => p * (1 - 1e-7)));
        var all = lowered with { Prices = [.. lowered.Prices.Select(p => Math.Max(1, p))] };
        return StickProof.Bound(_core, all) is not null ? [bare, all] : [bare];
    }

    /// <summary>Puts kinds that have no price, and so were left out, where there is room: into the patterns, else on further sticks.</summary>
    private void Complete(IReadOnlyList<StickPattern> patterns)
    {
        var demand = (int[])_core.Demand.Clone();
        var counts = (int[])_core.Counts.Clone();
        foreach (var p in patterns)
        {
            foreach (var k in p.Parts[0])
                demand[k] -= p.Times;
            if (counts[p.Stock] >= 0)
                counts[p.Stock] -= p.Times;
        }

        var sticks = demand.Any(d => d > 0)
            ? patterns.SelectMany(p => Enumerable.Repeat(0, p.Times).Select(_ => (p.Stock, Part: p.Parts[0].ToList()))).ToList() : [];
        foreach (var (stock, part) in sticks)
        {
            var room = _core.Segments[stock][0] - part.Sum(k => (long)_core.Lengths[k]);
            for (var k = _core.Kinds - 1; k >= 0; k--)
            {
                for (; demand[k] > 0 && _core.Lengths[k] <= room; demand[k]--, room -= _core.Lengths[k])
                    part.Add(k);
            }
        }

        if (sticks.Count > 0)
            patterns = [.. sticks.Select(s => new StickPattern(s.Stock, [[.. s.Part]], 1))];
        if (StickGreedy.Fill(_core with { Counts = counts }, demand, counts, false, _budget) is { } rest)
            Offer([.. patterns, .. rest]);
    }

    private void Offer(IReadOnlyList<StickPattern> patterns)
    {
        var solution = StickSolution.Of(_core, patterns);
        if (!solution.IsBetterThan(_best, _core))
            return;
        _best = solution;
        _budget.Cost = solution.Cost;
        _improved?.Invoke(solution);
    }

    /// <summary>Fixes patterns in a solved relaxation until few kinds are left, then makes these a problem of their own.</summary>
    /// <param name="map">The whole problem's kind behind each kind of the relaxation.</param>
    /// <param name="taken">Patterns fixed so far, in kinds of the whole problem.</param>
    private void Dive(StickRelaxation relaxation, int[] map, List<StickPattern> taken, long cost, bool depart)
    {
        var random = new FixedRandom(++_dives);
        var core = relaxation.Core;
        var demand = (int[])core.Demand.Clone();
        var counts = (int[])core.Counts.Clone();
        taken = [.. taken];
        while (!_budget.IsSpent)
        {
            // No plan below this one can beat the best: give up this dive.
            var reach = cost + (long)Math.Ceiling((relaxation.Objective - 1e-6 * Math.Max(1, core.CostUnit)) / _core.CostUnit) * _core.CostUnit;
            if (_best is not null && reach >= _best.Cost)
                return;
            var fixedNow = relaxation.Fix(depart ? _dives : 0, ref random, demand, counts);
            if (fixedNow.Count == 0)
                return;
            foreach (var p in fixedNow)
            {
                taken.Add(p with { Parts = [.. p.Parts.Select(part => part.Select(k => map[k]).ToArray())] });
                cost += core.Costs[p.Stock] * p.Times;
            }

            Finish(core, map, taken, demand, counts);
            var active = Enumerable.Range(0, core.Kinds).Where(k => demand[k] > 0).ToArray();
            if (Done || active.Length == 0)
                return;
            if (active.Length <= 0.75 * core.Kinds || core.Kinds - active.Length >= 40)
            {
                var rest = core with { Lengths = [.. active.Select(k => core.Lengths[k])], Demand = [.. active.Select(k => demand[k])], Counts = counts };
                var smaller = new StickRelaxation(rest, _budget) { Broad = relaxation.Broad };
                smaller.Inherit(relaxation, active);
                smaller.Reset();
                var below = active.Select(k => map[k]).ToArray();
                for (var tries = 0; tries < (active.Length <= 12 ? 2 : 1) && !Done; tries++)
                {
                    if (tries > 0)
                        smaller.Restore();
                    if (!smaller.Solve(PricesFor.Dive))
                        return;
                    Dive(smaller, below, taken, cost, depart || tries > 0);
                }

                return;
            }

            relaxation.SetDemand(demand, counts);
            if (!relaxation.Solve(PricesFor.Dive))
                return;
        }
    }

    /// <summary>Completes a dive at once by the fast constructions, in case that is good enough.</summary>
    private void Finish(StickCore core, int[] map, List<StickPattern> taken, int[] demand, int[] counts)
    {
        if (_best is not null && core.Costs.Length == 1 && counts[0] < 0 && core.Segments[0].Length == 1 && demand.Sum(d => (long)d) is > 0 and <= MostTried)
        {
            var sticks = _best.Cost / Math.Max(1, core.Costs[0]) - 1 - taken.Sum(p => (long)p.Times);
            if (StickCompletion.Try(core, demand, sticks, 10_000, _budget) is { } last)
                Offer([.. taken, .. last.Select(part => new StickPattern(0, [[.. part.Select(k => map[k])]], 1))]);
            return;
        }

        var rest = core with { Counts = counts };
        foreach (var exact in new[] { false, true })
        {
            if (exact && (long)core.Longest * demand.Count(d => d > 0) > 200_000)
                return;
            if (StickGreedy.Fill(rest, demand, counts, exact, _budget) is { } end)
                Offer([.. taken, .. end.Select(p => p with { Parts = [.. p.Parts.Select(part => part.Select(k => map[k]).ToArray())] })]);
        }
    }
}
