namespace Wain.Cutting;

/// <summary>Fast constructions: the first plan, the last bars of a dive, and the yardstick that every plan has to beat.</summary>
internal static class StickGreedy
{
    /// <summary>
    /// First-fit decreasing, pattern by pattern: each next pattern is filled from the longest piece down and cut as often as the demand allows,
    /// so that a million equal pieces cost no more work than one. Null if the stock does not suffice.
    /// </summary>
    public static List<StickPattern>? Fill(StickCore core, int[] demand, int[] counts, bool bestFill, StepBudget budget)
    {
        var left = (int[])demand.Clone();
        var stock = (int[])counts.Clone();
        var order = Enumerable.Range(0, core.Kinds).Where(i => demand[i] > 0).OrderByDescending(i => core.Lengths[i]).ThenBy(i => i).ToArray();
        var patterns = new List<StickPattern>();
        var amounts = new int[core.Kinds];
        while (order.Length > 0)
        {
            StickPattern? best = null;
            var bestRate = double.MaxValue;
            for (var s = 0; s < stock.Length; s++)
            {
                if (stock[s] == 0)
                    continue;
                Array.Clear(amounts);
                var parts = new int[core.Segments[s].Length][];
                long used = 0;
                for (var g = 0; g < parts.Length; g++)
                {
                    parts[g] = bestFill ? Exact(core, core.Segments[s][g], order, left, amounts) : Greedy(core, core.Segments[s][g], order, left, amounts);
                    foreach (var k in parts[g])
                        used += core.Lengths[k];
                }

                budget.Spend(bestFill ? (long)core.Segments[s].Sum() * Math.Min(order.Length, 64) / 8 : order.Length * 2);
                if (used == 0)
                    continue;
                var rate = (core.Costs[s] + 1e-6) / used;
                if (rate >= bestRate - 1e-15)
                    continue;
                var times = stock[s] < 0 ? int.MaxValue : stock[s];
                foreach (var k in order)
                {
                    if (amounts[k] > 0)
                        times = Math.Min(times, left[k] / amounts[k]);
                }

                bestRate = rate;
                best = new StickPattern(s, parts, times);
            }

            if (best is null)
                return null;
            patterns.Add(best);
            foreach (var part in best.Parts)
            {
                foreach (var k in part)
                    left[k] -= best.Times;
            }

            if (stock[best.Stock] > 0)
                stock[best.Stock] -= best.Times;
            order = Array.FindAll(order, i => left[i] > 0);
        }

        return patterns;
    }

    private static int[] Greedy(StickCore core, int capacity, int[] order, int[] left, int[] amounts)
    {
        var part = new List<int>();
        foreach (var i in order)
        {
            var n = Math.Min(left[i] - amounts[i], capacity / core.Lengths[i]);
            if (n <= 0)
                continue;
            amounts[i] += n;
            capacity -= n * core.Lengths[i];
            for (; n > 0; n--)
                part.Add(i);
        }

        return [.. part];
    }

    /// <summary>The longest piece that fits, then the rest of the stretch filled as full as it can be.</summary>
    private static int[] Exact(StickCore core, int capacity, int[] order, int[] left, int[] amounts)
    {
        var first = Array.FindIndex(order, i => left[i] > amounts[i] && core.Lengths[i] <= capacity);
        if (first < 0)
            return [];
        var part = new List<int> { order[first] };
        amounts[order[first]]++;
        capacity -= core.Lengths[order[first]];
        // reach[c]: the kind whose piece completed sum c first, -1 unreached. Longer pieces go first, so small ones are kept for later.
        var reach = new int[capacity + 1];
        Array.Fill(reach, -1);
        reach[0] = int.MaxValue;
        var best = 0;
        for (var o = first; o < order.Length && best < capacity; o++)
        {
            var i = order[o];
            var length = core.Lengths[i];
            var spare = Math.Min(left[i] - amounts[i], capacity / length);
            if (spare <= 0)
                continue;
            for (var c = 0; c + length <= capacity; c++)
            {
                if (reach[c] < 0 || reach[c] == i)
                    continue;
                for (int n = 1, to = c + length; n <= spare && to <= capacity && reach[to] < 0; n++, to += length)
                {
                    reach[to] = i;
                    best = Math.Max(best, to);
                }
            }
        }

        for (var c = best; c > 0; c -= core.Lengths[reach[c]])
        {
            part.Add(reach[c]);
            amounts[reach[c]]++;
        }

        return [.. part];
    }
}
