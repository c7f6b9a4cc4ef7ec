using System.Diagnostics.CodeAnalysis;

namespace Wain;

/// <summary>Operators that give one answer. They look no further than they need.</summary>
internal static partial class Sequence
{
    public static bool Any<T>(this IEnumerable<T> source) => Items(source).Length > 0;

    public static bool Any<T>(this IEnumerable<T> source, Func<T, bool> predicate)
    {
        foreach (var item in Items(source))
            if (predicate(item)) return true;
        return false;
    }

    public static bool All<T>(this IEnumerable<T> source, Func<T, bool> predicate)
    {
        foreach (var item in Items(source))
            if (!predicate(item)) return false;
        return true;
    }

    public static int Count<T>(this IEnumerable<T> source) => source is not T[] and ICollection<T> collection ? collection.Count : Items(source).Length;

    public static int Count<T>(this IEnumerable<T> source, Func<T, bool> predicate)
    {
        int count = 0;
        foreach (var item in Items(source))
            if (predicate(item)) count++;
        return count;
    }

    public static T First<T>(this IEnumerable<T> source) => Items(source) is [var first, ..] ? first : throw Nothing();

    public static T First<T>(this IEnumerable<T> source, Func<T, bool> predicate)
    {
        foreach (var item in Items(source))
            if (predicate(item)) return item;
        throw Nothing();
    }

    public static T? FirstOrDefault<T>(this IEnumerable<T> source) => Items(source) is [var first, ..] ? first : default;

    public static T? FirstOrDefault<T>(this IEnumerable<T> source, Func<T, bool> predicate)
    {
        foreach (var item in Items(source))
            if (predicate(item)) return item;
        return default;
    }

    public static T? LastOrDefault<T>(this IEnumerable<T> source, Func<T, bool> predicate)
    {
        var items = Items(source);
        for (int i = items.Length - 1; i >= 0; i--)
            if (predicate(items[i])) return items[i];
        return default;
    }

    public static double Sum<T>(this IEnumerable<T> source, Func<T, double> value)
    {
        double sum = 0;
        foreach (var item in Items(source)) sum += value(item);
        return sum;
    }

    public static int Sum<T>(this IEnumerable<T> source, Func<T, int> value)
    {
        int sum = 0;
        foreach (var item in Items(source)) sum = checked(sum + value(item));
        return sum;
    }

    public static long Sum<T>(this IEnumerable<T> source, Func<T, long> value)
    {
        long sum = 0;
        foreach (var item in Items(source)) sum = checked(sum + value(item));
        return sum;
    }

    public static double Sum(this IEnumerable<double> source)
    {
        double sum = 0;
        foreach (var item in Items(source)) sum += item;
        return sum;
    }

    /// <summary>A value that is not a number is less than any other, as in System.Linq.</summary>
    public static double Max(this IEnumerable<double> source)
    {
        var items = Items(source);
        if (items.Length == 0) throw Nothing();
        double most = items[0];
        foreach (double item in items)
            if (item > most || double.IsNaN(most)) most = item;
        return most;
    }

    /// <summary>A value that is not a number is less than any other, as in System.Linq.</summary>
    public static double Min(this IEnumerable<double> source)
    {
        var items = Items(source);
        if (items.Length == 0) throw Nothing();
        double least = items[0];
        foreach (double item in items)
            if (item < least || double.IsNaN(item)) least = item;
        return least;
    }

    public static double Max<T>(this IEnumerable<T> source, Func<T, double> value) => Max(source.Select(value));

    public static double Min<T>(this IEnumerable<T> source, Func<T, double> value) => Min(source.Select(value));

    public static int Max<T>(this IEnumerable<T> source, Func<T, int> value) => System.Linq.Enumerable.Max(source.Select(value));

    public static int Min<T>(this IEnumerable<T> source, Func<T, int> value) => System.Linq.Enumerable.Min(source.Select(value));

    public static long Max<T>(this IEnumerable<T> source, Func<T, long> value) => System.Linq.Enumerable.Max(source.Select(value));

    public static long Min<T>(this IEnumerable<T> source, Func<T, long> value) => System.Linq.Enumerable.Min(source.Select(value));

    public static T? MaxBy<T, TKey>(this IEnumerable<T> source, Func<T, TKey> key) => Best(source, key, 1);

    public static T? MinBy<T, TKey>(this IEnumerable<T> source, Func<T, TKey> key) => Best(source, key, -1);

    // The first of several that are equally good. A key that is null never wins over one that is not.
    private static T? Best<T, TKey>(IEnumerable<T> source, Func<T, TKey> key, int sign)
    {
        var items = Items(source);
        if (items.Length == 0) return default(T) is null ? default : throw Nothing();
        var comparer = Comparer<TKey>.Default;
        var best = items[0];
        var bestKey = key(best);
        for (int i = 1; i < items.Length; i++)
        {
            var k = key(items[i]);
            if (k is null || bestKey is not null && sign * comparer.Compare(k, bestKey) <= 0) continue;
            (best, bestKey) = (items[i], k);
        }
        return best;
    }

    public static TSum Aggregate<T, TSum>(this IEnumerable<T> source, TSum seed, Func<TSum, T, TSum> add)
    {
        foreach (var item in Items(source)) seed = add(seed, item);
        return seed;
    }

    public static T Aggregate<T>(this IEnumerable<T> source, Func<T, T, T> add)
    {
        var items = Items(source);
        if (items.Length == 0) throw Nothing();
        var sum = items[0];
        for (int i = 1; i < items.Length; i++) sum = add(sum, items[i]);
        return sum;
    }

    private static InvalidOperationException Nothing() => new("The sequence has no such item.");
}
