using System.Numerics;

namespace Wain.Cutting;

/// <summary>Re-derives the bound of cost from prices by which pieces keep each other off a sheet, in whole numbers and without trust in the search that found them.</summary>
internal static class SharingProof
{
    /// <summary>Prices, scales and sets beyond these are not believed, so that no sum leaves its type and no reader of a plan is kept waiting.</summary>
    public const long MostPrice = 1L << 30;
    public const int MostKinds = 120;
    private const int MostPieces = 100_000;
    private const long MostWork = 400_000_000;

    /// <summary>The lower bound of cost that the prices prove, or null if they prove none.</summary>
    /// <param name="plain">The problem with its pieces as their bounding rectangles.</param>
    public static long? Bound(SheetProblem problem, SheetPlanner.Reduced plain, SharingPrices sharing)
    {
        var counts = plain.Counts(problem.Pieces.Count);
        var (pieces, prices) = (sharing.Pieces, sharing.Prices);
        if (sharing.Scale <= 0 || sharing.Weight < 0 || pieces.Count != prices.Count || pieces.Count > MostPieces || pieces.Distinct().Count() != pieces.Count
            || pieces.Any(p => p < 0 || p >= counts.Length || counts[p] == 0) || prices.Any(p => p is < 0 or > MostPrice))
            return null;
        // Equal pieces of one price are reckoned together.
        var kinds = Enumerable.Range(0, pieces.Count).GroupBy(i => (Shape(problem.Pieces[pieces[i]]), prices[i])).ToArray();
        if (kinds.Length > MostKinds)
            return null;
        int[] wanted = [.. kinds.Select(g => g.Sum(i => counts[pieces[i]]))];
        var table = new SheetSharing(problem, plain.Core, [.. kinds.Select(g => pieces[g.First()])], wanted);
        var worth = Worth(table, plain.Core, [.. kinds.Select(g => g.Key.Item2)], MostWork);
        return worth is null ? null : Bound(plain.Core, wanted, [.. kinds.Select(g => g.Key.Item2)], worth, sharing.Weight, sharing.Scale);
    }

    /// <summary>Pieces with the same are laid alike.</summary>
    public static (long, long, bool, string) Shape(SheetPiece p) =>
        (p.Width, p.Height, p.MayTurn, p.Outline is { Count: >= 3 } corners ? string.Join(';', corners.Select(c => (c.X, c.Y))) : "");

    /// <summary>The most that a sheet of each stock can be worth; null if that takes too much work.</summary>
    public static long[]? Worth(SheetSharing table, SheetCore core, IReadOnlyList<long> prices, long work)
    {
        var worth = new long[core.Stocks];
        for (var s = 0; s < worth.Length; s++)
        {
            if (table.MostWorth(s, prices, new int[prices.Count], ref work) is not { } most)
                return null;
            worth[s] = most;
        }

        return worth;
    }

    /// <summary>What all pieces cost at least if a sheet of each stock is worth so much at most; null if that is more than a sheet costs of which there are as many as wanted.</summary>
    public static long? Bound(SheetCore core, IReadOnlyList<int> counts, IReadOnlyList<long> prices, IReadOnlyList<long> worth, long weight, long scale)
    {
        BigInteger sum = 0;
        for (var k = 0; k < counts.Count; k++)
            sum += (BigInteger)counts[k] * prices[k];
        sum *= weight;
        for (var s = 0; s < worth.Count; s++)
        {
            var excess = (BigInteger)worth[s] * weight - (BigInteger)core.Costs[s] * scale;
            if (excess <= 0)
                continue;
            if (core.Counts[s] < 0)
                return null;
            sum -= excess * core.Counts[s];
        }

        if (sum <= 0)
            return 0;
        var unit = (BigInteger)core.CostUnit * scale;
        var bound = (sum + unit - 1) / unit * core.CostUnit;
        return bound > long.MaxValue ? null : (long)bound;
    }
}
