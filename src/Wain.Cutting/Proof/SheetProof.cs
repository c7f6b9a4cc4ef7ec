using System.Numerics;

namespace Wain.Cutting;

/// <summary>Re-derives the bound of cost for sheets from its certificate, in exact arithmetic and without trust in the search that found it.</summary>
internal static class SheetProof
{
    /// <summary>The lower bound of cost that the certificate proves, or null if it proves none.</summary>
    public static long? Bound(SheetCore core, SheetCertificate certificate)
    {
        var sizes = certificate.Sizes;
        if (certificate.Scale <= 0 || certificate.Terms.Count == 0 || sizes.Distinct().Count() != sizes.Count)
            return null;
        foreach (var term in certificate.Terms)
        {
            if (term.Weight < 0 || term.Across.Count != sizes.Count || term.Up.Count != sizes.Count || term.Across.Any(p => p < 0) || term.Up.Any(p => p < 0))
                return null;
        }

        var place = new Dictionary<long, int>();
        for (var i = 0; i < sizes.Count; i++)
            place[sizes[i]] = i;
        var across = new long[sizes.Count];
        var up = new long[sizes.Count];
        for (var k = 0; k < core.Kinds; k++)
        {
            if (!place.ContainsKey(core.Width[k]) || !place.ContainsKey(core.Height[k]))
                return null;
            across[place[core.Width[k]]] += core.Demand[k];
            up[place[core.Height[k]]] += core.Demand[k];
            if (core.MayTurn[k] && core.Width[k] != core.Height[k])
            {
                across[place[core.Height[k]]] += core.Demand[k];
                up[place[core.Width[k]]] += core.Demand[k];
            }
        }

        var worth = new BigInteger[core.Stocks];
        foreach (var term in certificate.Terms)
        {
            var x = ExactKnapsack.Values([.. core.StockWidth.Select(w => (long)w)], sizes, across, term.Across);
            var y = ExactKnapsack.Values([.. core.StockHeight.Select(h => (long)h)], sizes, up, term.Up);
            for (var s = 0; s < worth.Length; s++)
                worth[s] += term.Weight * x[s] * y[s];
        }

        BigInteger sum = 0;
        for (var k = 0; k < core.Kinds; k++)
            sum += core.Demand[k] * Worth(core, certificate, place, k);
        for (var s = 0; s < worth.Length; s++)
        {
            var excess = worth[s] - core.Costs[s] * certificate.Scale;
            if (excess <= 0)
                continue;
            if (core.Counts[s] < 0)
                return null;
            sum -= excess * core.Counts[s];
        }

        if (sum <= 0)
            return 0;
        var unit = core.CostUnit * certificate.Scale;
        return (long)((sum + unit - 1) / unit) * core.CostUnit;
    }

    private static BigInteger Worth(SheetCore core, SheetCertificate certificate, Dictionary<long, int> place, int kind)
    {
        var (w, h) = (place[core.Width[kind]], place[core.Height[kind]]);
        BigInteger? least = null;
        if (Enumerable.Range(0, core.Stocks).Any(s => core.Width[kind] <= core.StockWidth[s] && core.Height[kind] <= core.StockHeight[s]))
            least = Sum(w, h);
        if (core.MayTurn[kind] && Enumerable.Range(0, core.Stocks).Any(s => core.Height[kind] <= core.StockWidth[s] && core.Width[kind] <= core.StockHeight[s]))
            least = least is null ? Sum(h, w) : BigInteger.Min(least.Value, Sum(h, w));
        return least ?? 0;

        BigInteger Sum(int x, int y)
        {
            BigInteger sum = 0;
            foreach (var term in certificate.Terms)
                sum += term.Weight * term.Across[x] * term.Up[y];
            return sum;
        }
    }
}
