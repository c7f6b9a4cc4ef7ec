namespace Wain.Core.Drawing;

/// <summary>Places labels along a line, each as near as can be to where it belongs, none closer to the next than it may be.</summary>
public static class Spreading
{
    /// <summary>The places that keep the order and the gaps with the least sum of squared shifts, within [low, high] if they fit there;
    /// if they don't, they overflow both ends alike. Time n.</summary>
    /// <param name="wanted">Ascending.</param>
    /// <param name="gap">gap(i) is the least distance from i to i + 1.</param>
    public static double[] Place(IReadOnlyList<double> wanted, Func<int, double> gap, double low, double high)
    {
        int n = wanted.Count;
        if (n == 0) return [];
        var offset = new double[n];
        for (int i = 1; i < n; i++) offset[i] = offset[i - 1] + gap(i - 1);

        // With the gaps taken off, the places may be equal but must not fall: isotonic regression by pooling neighbours that do.
        var pools = new List<(double Sum, int Count)>();
        for (int i = 0; i < n; i++)
        {
            (double Sum, int Count) pool = (wanted[i] - offset[i], 1);
            while (pools.Count > 0 && pools[^1].Sum / pools[^1].Count > pool.Sum / pool.Count)
            {
                pool = (pool.Sum + pools[^1].Sum, pool.Count + pools[^1].Count);
                pools.RemoveAt(pools.Count - 1);
            }
            pools.Add(pool);
        }

        double last = high - offset[n - 1];
        if (last < low) low = last = (low + last) / 2;
        var places = new double[n];
        int at = 0;
        foreach (var (sum, count) in pools)
        {
            double value = Math.Clamp(sum / count, low, last);
            for (int k = 0; k < count; k++, at++) places[at] = value + offset[at];
        }
        return places;
    }
}
