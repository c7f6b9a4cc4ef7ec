namespace Wain.Cutting;

/// <summary>
/// A stick problem as bare whole numbers. The kerf is already in: every length and every clear stretch carries one kerf more,
/// so that n pieces fit a stretch exactly when their lengths add up to no more than its own.
/// </summary>
/// <param name="Lengths">Length of each kind.</param>
/// <param name="Demand">How many of each kind.</param>
/// <param name="Segments">Clear stretches of each stock; a sound stick has one.</param>
/// <param name="Costs">Price of each stock.</param>
/// <param name="Counts">How many there are of each stock, -1 for as many as wanted.</param>
internal sealed record StickCore(int[] Lengths, int[] Demand, int[][] Segments, long[] Costs, int[] Counts)
{
    public int Kinds => Lengths.Length;

    public int Longest { get; } = Segments.Max(s => s.Max());

    /// <summary>All costs are whole multiples of this, and so is the cost of any plan.</summary>
    public long CostUnit { get; } = Math.Max(1, Costs.Aggregate(0L, Gcd));

    /// <summary>The least cost that sticks can add up to, and no less than this; beyond what the table holds the next whole multiple of the unit.</summary>
    public long NextCost(long atLeast)
    {
        var at = Math.Max(0, (atLeast + CostUnit - 1) / CostUnit);
        while (at < TableUnits && !_costSums.Value[at])
            at++;
        return at * CostUnit;
    }

    /// <summary>The most that sticks can add up to below a cost, or else the multiple of the unit below it.</summary>
    public long CostBelow(long cost)
    {
        var at = (cost - 1) / CostUnit;
        while (at > 0 && at < TableUnits && !_costSums.Value[at])
            at--;
        return at * CostUnit;
    }

    private const int TableUnits = 200_000;

    private readonly Lazy<bool[]> _costSums = new(() =>
    {
        var unit = Math.Max(1, Costs.Aggregate(0L, Gcd));
        var sums = new bool[TableUnits];
        sums[0] = true;
        foreach (var cost in Costs.Where(c => c > 0 && c / unit < TableUnits).Distinct())
        {
            for (var at = cost / unit; at < TableUnits; at++)
                sums[at] |= sums[at - cost / unit];
        }

        return sums;
    });

    public static long Gcd(long a, long b)
    {
        while (b != 0)
            (a, b) = (b, a % b);
        return a;
    }
}

/// <summary>A stick as cut: for each clear stretch the kinds in it, and how many sticks are cut so.</summary>
internal sealed record StickPattern(int Stock, int[][] Parts, int Times);

/// <summary>Patterns that cover the demand, and what they cost.</summary>
internal sealed record StickSolution(IReadOnlyList<StickPattern> Patterns, long Cost, long Sticks)
{
    public static StickSolution Of(StickCore core, IReadOnlyList<StickPattern> patterns) =>
        new(patterns, patterns.Sum(p => core.Costs[p.Stock] * p.Times), patterns.Sum(p => (long)p.Times));

    /// <summary>Fewest cost first, then fewest sticks, then the longest single remainder.</summary>
    public bool IsBetterThan(StickSolution? other, StickCore core) => other is null || Cost < other.Cost
        || (Cost == other.Cost && (Sticks < other.Sticks || (Sticks == other.Sticks && LongestRest(core) > other.LongestRest(core))));

    public long LongestRest(StickCore core) => Patterns.Count == 0 ? 0
        : Patterns.Max(p => p.Parts.Select((part, s) => (long)core.Segments[p.Stock][s] - part.Sum(k => (long)core.Lengths[k])).Max());
}
