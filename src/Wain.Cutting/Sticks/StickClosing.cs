namespace Wain.Cutting;

/// <summary>
/// Decides whether there is a plan of a wanted cost, where the linear program leaves next to nothing to lose: the few patterns that lose no more are listed, and a
/// tree of choices among them is searched, each with its own linear program, until a plan is found or every branch is closed by prices. Branches put two
/// kinds together on a stick or apart (Ryan and Foster 1981), or use a pattern or not.
/// </summary>
internal sealed class StickClosing
{
    private const double Dear = 8;
    private const int MostTimes = 50;
    private readonly StickCore _core;
    private readonly StickCertificate _root;
    private readonly ClosureProblem _problem;
    private readonly StepBudget _budget;
    private readonly MasterProgram _master;
    private readonly int[] _limited;
    private readonly bool[] _allowed;
    private readonly bool[] _costly;
    private readonly Stack<(ClosureState State, IReadOnlyList<(int Pattern, int Times)> Taken)> _open = new();
    private readonly List<ClosureNode> _nodes = [];

    private StickClosing(StickCore core, StickCertificate root, ClosureProblem problem, StepBudget budget)
    {
        (_core, _root, _problem, _budget) = (core, root, problem, budget);
        _limited = [.. Enumerable.Range(0, core.Counts.Length).Where(s => core.Counts[s] >= 0)];
        var dear = Dear * (core.Costs.Max() + 1);
        _master = new MasterProgram(problem.Kinds.Length, _limited, core.Costs.Length, dear, dear);
        foreach (var p in problem.Patterns)
            _master.Add(new Column(p.Stock, p.Kinds, p.Amounts, core.Costs[p.Stock]));
        (_allowed, _costly) = (new bool[problem.Patterns.Count], new bool[problem.Patterns.Count]);
        _master.SetCostly(_costly);
        _master.Reset(problem.Root.Demand, [.. _limited.Select(s => core.Counts[s])]);
        _open.Push((problem.Root, []));
    }

    /// <summary>The search for a plan of a target cost; null if more patterns could be part of it than can be gone through.</summary>
    /// <param name="root">Prices that prove the bound so far.</param>
    public static StickClosing? Of(StickCore core, StickCertificate root, long target, StepBudget budget)
    {
        var problem = ClosureProblem.Of(core, root, target, out var work);
        budget.Spend(work);
        return problem is null ? null : new StickClosing(core, root, problem, budget) { Target = target };
    }

    public long Target { get; private init; }

    /// <summary>The plan, without the kinds that have no price; null while there is none.</summary>
    public IReadOnlyList<StickPattern>? Found { get; private set; }

    /// <summary>The proof that there is no such plan; null while there is none.</summary>
    public StickCertificate? Certificate { get; private set; }

    /// <summary>Goes through one node. False at the end: with <see cref="Found"/>, <see cref="Certificate"/> or, if the numbers fail or the budget is spent, neither.</summary>
    public bool Step()
    {
        if (_open.Count == 0)
        {
            Certificate = _root with { Closure = new StickClosure(Target, [.. _nodes]) };
            return false;
        }

        var (state, taken) = _open.Pop();
        Solve(state);
        if (_budget.IsSpent)
            return false;
        var prices = WholePrices(state);
        if (_problem.Excess(state, prices) is not { } excess)
            return false;
        if (excess > 0)
        {
            _nodes.Add(new ClosureNode(prices));
            return true;
        }

        if (Whole(state) is { } last)
        {
            Found = [.. taken.Concat(last).Select(Bare)];
            return false;
        }

        var kept = _problem.Without(state, prices, excess);
        var filters = kept.Patterns.Length < state.Patterns.Length;
        if (Choose(kept) is not { } branch || _problem.Children(kept, branch) is not { } children)
            return false;
        _nodes.Add(filters ? branch with { Prices = prices } : branch);
        for (var c = children.Count - 1; c >= 0; c--)
            _open.Push((children[c], branch.Pattern >= 0 && branch.Times > c ? [.. taken, (branch.Pattern, branch.Times - c)] : taken));
        return true;
    }

    private StickPattern Bare((int Pattern, int Times) use)
    {
        var p = _problem.Patterns[use.Pattern];
        return new StickPattern(p.Stock, [[.. p.Kinds.SelectMany((k, i) => Enumerable.Repeat(_problem.Kinds[k], p.Amounts[i]))]], use.Times);
    }

    private void Solve(ClosureState state)
    {
        Array.Clear(_allowed);
        Array.Fill(_costly, true);
        foreach (var p in state.Patterns)
            (_allowed[p], _costly[p]) = (true, false);
        _master.SetRhs(state.Demand, [.. _limited.Select(s => state.Counts[s])]);
        _master.Recompute();
        _master.RestoreFeasible(_allowed, _budget);
        _master.Primal(_allowed, _budget);
        _budget.Spend(_master.TakeWork());
    }

    /// <summary>The prices of the linear program in whole numbers, lowered by as much as the dearest pattern asks, so that they hold exactly; a limited stock's price rises instead.</summary>
    private long[] WholePrices(ClosureState state)
    {
        var prices = new long[_problem.Kinds.Length + _core.Costs.Length];
        for (var k = 0; k < _problem.Kinds.Length; k++)
            prices[k] = (long)Math.Floor(_master.Dual[k] * _root.Scale);
        foreach (var s in _limited)
            prices[_problem.Kinds.Length + s] = (long)Math.Ceiling(Math.Max(0, _master.StockDual(s)) * _root.Scale);
        var factor = 1.0;
        foreach (var p in state.Patterns)
        {
            var stock = _problem.Patterns[p].Stock;
            var loss = _problem.Loss(p, prices);
            if (loss >= 0)
                continue;
            if (_core.Counts[stock] >= 0)
                prices[_problem.Kinds.Length + stock] -= loss;
            else
                factor = Math.Min(factor, (double)_core.Costs[stock] * _root.Scale / ((double)_core.Costs[stock] * _root.Scale - loss));
        }

        if (factor < 1)
        {
            factor -= 1e-12;
            for (var k = 0; k < prices.Length; k++)
                prices[k] = (long)(k < _problem.Kinds.Length ? Math.Floor(prices[k] * factor) : Math.Ceiling(prices[k] * factor));
        }

        return prices;
    }

    /// <summary>The solution of the linear program as a plan for what is left; null if it is none.</summary>
    private List<(int Pattern, int Times)>? Whole(ClosureState state)
    {
        var uses = new List<(int, int)>();
        var demand = (int[])state.Demand.Clone();
        var counts = (int[])state.Counts.Clone();
        var left = state.Left;
        foreach (var p in state.Patterns)
        {
            var x = _master.ValueOf(p);
            var times = (int)Math.Round(x);
            if (Math.Abs(x - times) > 1e-5)
                return null;
            if (times == 0)
                continue;
            var pattern = _problem.Patterns[p];
            for (var i = 0; i < pattern.Kinds.Length; i++)
                demand[pattern.Kinds[i]] -= times * pattern.Amounts[i];
            if (counts[pattern.Stock] >= 0 && (counts[pattern.Stock] -= times) < 0)
                return null;
            left -= times * _core.Costs[pattern.Stock];
            uses.Add((p, times));
        }

        return left >= 0 && demand.All(d => d == 0) ? uses : null;
    }

    /// <summary>How to part a node: two kinds whose being together is most in doubt, else a pattern used in part.</summary>
    private ClosureNode? Choose(ClosureState state)
    {
        var together = new Dictionary<(int, int), double>();
        ClosureNode? best = null;
        var bestScore = 0.0;
        foreach (var p in state.Patterns)
        {
            var x = _master.ValueOf(p);
            var whole = Math.Floor(x + 1e-6);
            if (x - whole < 1e-6)
                continue;
            var pattern = _problem.Patterns[p];
            // A pattern used often parts into as many branches: the rarely used go first, and all of them behind pairs.
            var score = 1e-6 * Math.Min(x - whole, whole + 1 - x) / (whole + 1);
            if (score > bestScore && whole < MostTimes)
                (best, bestScore) = (new ClosureNode(Pattern: p, Times: (int)whole + 1), score);
            foreach (var kind in pattern.Kinds)
            {
                if (state.Demand[kind] != 1)
                    continue;
                foreach (var other in pattern.Kinds)
                {
                    if (other != kind && (state.Demand[other] != 1 || other > kind))
                        together[(kind, other)] = together.GetValueOrDefault((kind, other)) + x;
                }
            }
        }

        _budget.Spend(state.Patterns.Length * 4L + together.Count * 20L);
        foreach (var ((kind, other), x) in together.OrderBy(t => t.Key))
        {
            var score = Math.Min(x, 1 - x);
            if (score > 1e-5 && score > bestScore + 1e-9)
                (best, bestScore) = (new ClosureNode(Kind: kind, Other: other), score);
        }

        return best;
    }
}
