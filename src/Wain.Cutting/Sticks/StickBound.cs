using System.Numerics;

namespace Wain.Cutting;

/// <summary>
/// The proof of a lower bound of cost for sticks: a price for each kind of piece, in parts of <see cref="Scale"/>.
/// If no stock piece can give pieces worth more than it costs, no plan can cost less than all pieces are worth; a stock of which there are few
/// may fall short by a surcharge, paid once for each that there is.
/// </summary>
/// <param name="Prices">Price of each kind, at least 0.</param>
/// <param name="Scale">What one unit of cost is in these prices.</param>
/// <param name="Closure">What goes on where the prices end; null where they are enough.</param>
public sealed record StickCertificate(IReadOnlyList<long> Prices, long Scale, StickClosure? Closure = null);

internal static class StickBound
{
    /// <summary>Turns approximate dual values into whole prices that hold exactly.</summary>
    public static StickCertificate Certify(StickCore core, ReadOnlySpan<double> dual)
    {
        var top = Math.Max(1, core.Costs.Max());
        var scale = Math.Max(1, (1L << 40) / top);
        var prices = new long[core.Kinds];
        for (var i = 0; i < prices.Length; i++)
            prices[i] = (long)Math.Floor(Math.Clamp(dual[i], 0, 4.0 * top) * scale);
        var worth = StickWorth(core, prices);
        // Only stock without limit must hold exactly; the largest excess sets the factor for all.
        BigInteger num = 1, den = 1;
        for (var s = 0; s < worth.Length; s++)
        {
            var allowed = (BigInteger)core.Costs[s] * scale;
            if (core.Counts[s] >= 0 || worth[s] <= allowed)
                continue;
            if (allowed * den < num * worth[s])
                (num, den) = (allowed, worth[s]);
        }

        if (num != den)
        {
            for (var i = 0; i < prices.Length; i++)
                prices[i] = (long)(prices[i] * num / den);
        }

        return new StickCertificate(prices, scale);
    }

    /// <summary>Most that the pieces cut from each stock can be worth.</summary>
    public static long[] StickWorth(StickCore core, IReadOnlyList<long> prices)
    {
        var capacities = core.Segments.SelectMany(s => s).Select(c => (long)c).ToArray();
        var values = ExactKnapsack.Values(capacities, [.. core.Lengths.Select(l => (long)l)], [.. core.Demand.Select(d => (long)d)], prices);
        var worth = new long[core.Segments.Length];
        var at = 0;
        for (var s = 0; s < worth.Length; s++)
        {
            foreach (var _ in core.Segments[s])
                worth[s] += values[at++];
        }

        return worth;
    }
}
