using System.Numerics;

namespace Wain.Cutting;

/// <summary>Re-derives bounds from their certificates, in exact arithmetic and without trust in the search that found them.</summary>
internal static class StickProof
{
    /// <summary>The lower bound of cost that the certificate proves, or null if it proves none.</summary>
    public static long? Bound(StickCore core, StickCertificate certificate)
    {
        if (certificate.Prices.Count != core.Kinds || certificate.Scale <= 0 || certificate.Prices.Any(p => p < 0))
            return null;
        BigInteger sum = 0;
        for (var i = 0; i < core.Kinds; i++)
            sum += (BigInteger)certificate.Prices[i] * core.Demand[i];
        var worth = StickBound.StickWorth(core, certificate.Prices);
        for (var s = 0; s < worth.Length; s++)
        {
            var excess = worth[s] - (BigInteger)core.Costs[s] * certificate.Scale;
            if (excess <= 0)
                continue;
            if (core.Counts[s] < 0)
                return null;
            sum -= excess * core.Counts[s];
        }

        // No plan costs what no number of sticks adds up to.
        var bound = sum <= 0 ? 0 : core.NextCost((long)((sum + certificate.Scale - 1) / certificate.Scale));
        if (certificate.Closure is not { } closure)
            return bound;
        return ClosureProof.Holds(core, certificate, closure) ? Math.Max(bound, core.NextCost(closure.Target + 1)) : null;
    }
}
