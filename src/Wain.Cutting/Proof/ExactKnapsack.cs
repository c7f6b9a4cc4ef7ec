using System.Numerics;

namespace Wain.Cutting;

/// <summary>The best value of pieces within every capacity, in whole numbers: what both the maker and the checker of a proof stand on.</summary>
internal static class ExactKnapsack
{
    private const int MaxCells = 1 << 21;

    /// <summary>
    /// Upper bounds of the value that fits each capacity; exact while the longest capacity is below two million units, else on lengths rounded down
    /// to a coarser unit, which can only let more in and so keeps a bound valid.
    /// </summary>
    public static long[] Values(IReadOnlyList<long> capacities, IReadOnlyList<long> lengths, IReadOnlyList<long> counts, IReadOnlyList<long> values)
    {
        var longest = capacities.Count == 0 ? 0 : capacities.Max();
        var unit = lengths.Aggregate(0L, StickCore.Gcd);
        unit = Math.Max(unit, longest / MaxCells + 1);
        var size = (int)(longest / unit) + 1;
        var table = new long[size];
        for (var i = 0; i < lengths.Count; i++)
        {
            var length = lengths[i] / unit;
            if (values[i] <= 0 || length >= size)
                continue;
            var left = length == 0 ? counts[i] : Math.Min(counts[i], (size - 1) / length);
            for (long bundle = 1; left > 0; bundle *= 2)
            {
                var copies = Math.Min(bundle, left);
                left -= copies;
                var reach = copies * length;
                if (reach < size)
                    AddBundle(table, (int)reach, copies * values[i]);
            }
        }

        return [.. capacities.Select(c => c < 0 ? 0 : table[c / unit])];
    }

    /// <summary>Each cell may hold the bundle once. From the top down, so that what a cell looks at is still without it.</summary>
    private static void AddBundle(Span<long> table, int length, long value)
    {
        var c = table.Length;
        var more = new Vector<long>(value);
        for (; c - Vector<long>.Count >= length; c -= Vector<long>.Count)
        {
            var at = c - Vector<long>.Count;
            Vector.Max(new Vector<long>(table[at..]), new Vector<long>(table[(at - length)..]) + more).CopyTo(table[at..]);
        }

        for (c--; c >= length; c--)
            table[c] = Math.Max(table[c], table[c - length] + value);
    }
}
