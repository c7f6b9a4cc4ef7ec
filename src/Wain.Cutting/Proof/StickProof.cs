using System.Numerics;

namespace Wain.Cutting;

/// <summary>Re-derives bounds from their certificates, in exact arithmetic and without trust in the search that found them.</summary>
internal static class StickProof
{
    private const long MostNodes = 50_000_000;

    /// <summary>The lower bound of cost that the certificate proves, or null if it proves none.</summary>
    public static long? Bound(StickCore core, StickCertificate certificate)
    {
        if (certificate.Prices.Count != core.Kinds || certificate.Scale <= 0 || certificate.Prices.Any(p => p < 0))
            return null;
        if (certificate.Cuts?.Any(c => !IsSound(core, c)) == true)
            return null;
        BigInteger sum = 0;
        for (var i = 0; i < core.Kinds; i++)
            sum += (BigInteger)certificate.Prices[i] * core.Demand[i];
        foreach (var cut in certificate.Cuts ?? [])
            sum -= (BigInteger)cut.Price * cut.Multiples(core.Demand);
        if (Worth(core, certificate) is not { } worth)
            return null;
        for (var s = 0; s < worth.Length; s++)
        {
            var excess = worth[s] - (BigInteger)core.Costs[s] * certificate.Scale;
            if (excess <= 0)
                continue;
            if (core.Counts[s] < 0)
                return null;
            sum -= excess * core.Counts[s];
        }

        if (sum <= 0)
            return 0;
        var unit = (BigInteger)core.CostUnit * certificate.Scale;
        return (long)((sum + unit - 1) / unit) * core.CostUnit;
    }

    private static bool IsSound(StickCore core, RoundingCut cut) => cut.Kinds.Count == cut.Weights.Count && cut.Divisor > 0 && cut.Price >= 0
        && cut.Weights.All(w => w > 0) && cut.Kinds.All(k => k >= 0 && k < core.Kinds) && cut.Kinds.Distinct().Count() == cut.Kinds.Count;

    /// <summary>Most that the pieces cut from each stock can be worth, the cuts taken off; what is no more than it costs counts as its cost.</summary>
    private static long[]? Worth(StickCore core, StickCertificate certificate)
    {
        if (certificate.Cuts is not { Count: > 0 } cuts)
            return StickBound.StickWorth(core, certificate.Prices);
        // On a stick with faults a cut would reach over several stretches.
        if (core.Segments.Any(s => s.Length != 1) || core.Costs.Max() > long.MaxValue / 4 / certificate.Scale)
            return null;
        return CutKnapsack.Values([.. core.Segments.Select(s => s[0])], core.Lengths, core.Demand, certificate.Prices, cuts,
            [.. core.Costs.Select(c => c * certificate.Scale)], MostNodes, out _);
    }
}
