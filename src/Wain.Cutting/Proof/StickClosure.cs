namespace Wain.Cutting;

/// <summary>
/// The rest of a proof, where prices alone leave a gap: that no plan costs as little as the target. Only few patterns can be part of such a plan
/// (<see cref="NearPatterns"/>), and this tree goes through the ways to use them.
/// </summary>
/// <param name="Target">The cost that no plan has, nor less.</param>
/// <param name="Nodes">The tree from its root down, first branch first.</param>
public sealed record StickClosure(long Target, IReadOnlyList<ClosureNode> Nodes);

/// <summary>
/// One node of the tree: prices, then how it parts. With prices every pattern left is worth no more than its stick costs; if all pieces left are worth more than
/// what is left of the target the node is closed and ends there, else patterns that lose more than the difference go.
/// </summary>
/// <param name="Prices">A price for each kind that has one in the certificate, of either sign, then one for each stock, for the use of a limited one; null to go on with what there is.</param>
/// <param name="Kind">A kind of which one piece is left: first its stick also holds <paramref name="Other"/>, then it does not. -1 for none.</param>
/// <param name="Pattern">A pattern that is first used <paramref name="Times"/> times and maybe more, then exactly once less, and so on to never. -1 for none.</param>
public sealed record ClosureNode(IReadOnlyList<long>? Prices = null, int Kind = -1, int Other = -1, int Pattern = -1, int Times = 0);

/// <summary>What is left to do in a node: pieces to cut with some of the patterns at no more than so much cost.</summary>
/// <param name="Patterns">Indexes of the patterns that may still be used.</param>
/// <param name="Left">What is left of the target.</param>
internal sealed record ClosureState(int[] Patterns, int[] Demand, int[] Counts, long Left);

/// <summary>The problem that a closure goes through, and its rules, which both the maker and the checker of a proof stand on.</summary>
internal sealed class ClosureProblem
{
    /// <summary>Prices beyond this are not believed, so that no sum of a pattern leaves its type.</summary>
    public const long MostPrice = 1L << 47;

    private readonly StickCore _core;
    private readonly long _scale;

    private ClosureProblem(StickCore core, long scale, int[] kinds, IReadOnlyList<NearPattern> patterns, ClosureState root) =>
        (_core, _scale, Kinds, Patterns, Root) = (core, scale, kinds, patterns, root);

    /// <summary>Kinds of the core that have a price, by which the kinds here are numbered. The others are left out: no plan gets dearer without them.</summary>
    public int[] Kinds { get; }

    public IReadOnlyList<NearPattern> Patterns { get; }

    public ClosureState Root { get; }

    /// <summary>The problem of a target, by prices that prove a bound no higher than that; null if it is too large or the prices prove more.</summary>
    public static ClosureProblem? Of(StickCore core, StickCertificate certificate, long target, out long work)
    {
        work = 0;
        if (!NearPatterns.Suits(core) || certificate.Prices.Any(p => p > MostPrice) || core.Costs.Max() > MostPrice / certificate.Scale || target < 0 || target > MostPrice)
            return null;
        var worth = StickBound.StickWorth(core, certificate.Prices);
        var spare = (Int128)target * certificate.Scale;
        for (var k = 0; k < core.Kinds; k++)
            spare -= (Int128)certificate.Prices[k] * core.Demand[k];
        var more = new long[worth.Length];
        for (var s = 0; s < worth.Length; s++)
        {
            more[s] = Math.Max(0, worth[s] - core.Costs[s] * certificate.Scale);
            if (core.Counts[s] < 0 && more[s] > 0)
                return null;
            spare += (Int128)more[s] * Math.Max(0, core.Counts[s]);
        }

        if (spare < 0 || spare > MostPrice || NearPatterns.List(core, certificate.Prices, certificate.Scale, [.. more.Select(m => (long)spare - m)], out work) is not { } patterns)
            return null;
        int[] kinds = [.. Enumerable.Range(0, core.Kinds).Where(k => certificate.Prices[k] > 0)];
        var root = new ClosureState([.. Enumerable.Range(0, patterns.Count)], [.. kinds.Select(k => core.Demand[k])], core.Counts, target);
        return new ClosureProblem(core, certificate.Scale, kinds, patterns, root);
    }

    /// <summary>How much the pieces left are worth beyond what is left of the target, in the scale; null if the prices do not hold.</summary>
    public Int128? Excess(ClosureState state, IReadOnlyList<long> prices)
    {
        if (prices.Count != Kinds.Length + _core.Costs.Length || prices.Any(p => p is < -MostPrice or > MostPrice))
            return null;
        for (var s = 0; s < _core.Costs.Length; s++)
        {
            if (prices[Kinds.Length + s] < 0 || (state.Counts[s] < 0 && prices[Kinds.Length + s] > 0))
                return null;
        }

        foreach (var p in state.Patterns)
        {
            if (Loss(p, prices) < 0)
                return null;
        }

        var excess = -(Int128)state.Left * _scale;
        for (var k = 0; k < Kinds.Length; k++)
            excess += (Int128)prices[k] * state.Demand[k];
        for (var s = 0; s < _core.Costs.Length; s++)
            excess -= (Int128)prices[Kinds.Length + s] * Math.Max(0, state.Counts[s]);
        return excess;
    }

    /// <summary>The node without the patterns that lose more than there is to lose.</summary>
    /// <param name="excess">As <see cref="Excess"/> gives it, not above 0.</param>
    public ClosureState Without(ClosureState state, IReadOnlyList<long> prices, Int128 excess) =>
        state with { Patterns = Array.FindAll(state.Patterns, p => Loss(p, prices) <= -excess) };

    /// <summary>What a stick so cut costs beyond what its pieces are worth.</summary>
    public long Loss(int pattern, IReadOnlyList<long> prices)
    {
        var p = Patterns[pattern];
        var loss = _core.Costs[p.Stock] * _scale + prices[Kinds.Length + p.Stock];
        for (var i = 0; i < p.Kinds.Length; i++)
            loss -= p.Amounts[i] * prices[p.Kinds[i]];
        return loss;
    }

    /// <summary>The nodes that a node parts into, which leave out no way to use its patterns; null if the parting makes no sense there.</summary>
    public IReadOnlyList<ClosureState>? Children(ClosureState state, ClosureNode node)
    {
        if (node.Kind >= 0)
        {
            if (node.Kind >= Kinds.Length || node.Other < 0 || node.Other >= Kinds.Length || node.Other == node.Kind || state.Demand[node.Kind] != 1)
                return null;
            return [Keep(holds => holds), Keep(holds => !holds)];
        }

        if (node.Times < 1 || Array.BinarySearch(state.Patterns, node.Pattern) < 0)
            return null;
        var children = new List<ClosureState>();
        var rest = Array.FindAll(state.Patterns, p => p != node.Pattern);
        for (var n = node.Times; n >= 0; n--)
        {
            if (Use(n == node.Times ? state : state with { Patterns = rest }, node.Pattern, n) is { } child)
                children.Add(child);
        }

        return children;

        ClosureState Keep(Func<bool, bool> wanted) => state with
        {
            Patterns = Array.FindAll(state.Patterns, p => !Patterns[p].Kinds.Contains(node.Kind) || wanted(Patterns[p].Kinds.Contains(node.Other))),
        };
    }

    /// <summary>The node after a pattern is used so often; null if that is more than is wanted.</summary>
    private ClosureState? Use(ClosureState state, int pattern, int times)
    {
        if (times == 0)
            return state;
        var p = Patterns[pattern];
        var demand = (int[])state.Demand.Clone();
        var counts = (int[])state.Counts.Clone();
        for (var i = 0; i < p.Kinds.Length; i++)
        {
            if (demand[p.Kinds[i]] < (long)times * p.Amounts[i])
                return null;
            demand[p.Kinds[i]] -= times * p.Amounts[i];
        }

        var left = state.Left - times * (Int128)_core.Costs[p.Stock];
        if (left < 0 || (counts[p.Stock] >= 0 && (counts[p.Stock] -= times) < 0))
            return null;
        return new ClosureState(Array.FindAll(state.Patterns, q => Fits(Patterns[q], demand)), demand, counts, (long)left);
    }

    private static bool Fits(NearPattern p, int[] demand)
    {
        for (var i = 0; i < p.Kinds.Length; i++)
        {
            if (p.Amounts[i] > demand[p.Kinds[i]])
                return false;
        }

        return true;
    }
}
