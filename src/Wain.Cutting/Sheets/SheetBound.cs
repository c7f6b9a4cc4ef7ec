using System.Numerics;

namespace Wain.Cutting;

/// <summary>Finds good prices for the bound of a sheet problem.</summary>
internal static class SheetBound
{
    /// <summary>Every piece is worth its area.</summary>
    public static SheetCertificate ByArea(SheetCore core)
    {
        var sizes = Sizes(core);
        return Certify(core, sizes, sizes, sizes);
    }

    public static long[] Sizes(SheetCore core) =>
        [.. core.Width.Concat(core.Height).Distinct().Order().Select(s => (long)s)];

    /// <summary>One term, at the largest weight that every unlimited stock allows.</summary>
    public static SheetCertificate Certify(SheetCore core, long[] sizes, long[] across, long[] up)
    {
        var (x, y) = Worth(core, sizes, across, up);
        BigInteger weight = 1, scale = 0;
        for (var s = 0; s < core.Stocks; s++)
        {
            var worth = (BigInteger)x[s] * y[s];
            // weight / scale is at most cost / worth for every stock without limit; for limited stock alone the best of them is taken.
            if (core.Counts[s] < 0 && worth > 0 && (scale == 0 || core.Costs[s] * scale < weight * worth))
                (weight, scale) = (core.Costs[s], worth);
        }

        if (scale > 0)
            return new SheetCertificate(sizes, [new PriceTerm(weight, across, up)], scale);
        SheetCertificate? best = null;
        long bound = -1;
        for (var s = 0; s < core.Stocks; s++)
        {
            var worth = (BigInteger)x[s] * y[s];
            if (worth == 0)
                continue;
            var candidate = new SheetCertificate(sizes, [new PriceTerm(core.Costs[s], across, up)], worth);
            if (SheetProof.Bound(core, candidate) is { } b && b > bound)
                (best, bound) = (candidate, b);
        }

        return best ?? new SheetCertificate(sizes, [new PriceTerm(0, across, up)], 1);
    }

    private static (long[] Across, long[] Up) Worth(SheetCore core, long[] sizes, long[] across, long[] up)
    {
        var x = new long[sizes.Length];
        var y = new long[sizes.Length];
        for (var k = 0; k < core.Kinds; k++)
        {
            var (w, h) = (Array.BinarySearch(sizes, core.Width[k]), Array.BinarySearch(sizes, core.Height[k]));
            x[w] += core.Demand[k];
            y[h] += core.Demand[k];
            if (core.MayTurn[k] && w != h)
            {
                x[h] += core.Demand[k];
                y[w] += core.Demand[k];
            }
        }

        return (ExactKnapsack.Values([.. core.StockWidth.Select(w => (long)w)], sizes, x, across),
            ExactKnapsack.Values([.. core.StockHeight.Select(h => (long)h)], sizes, y, up));
    }
}
