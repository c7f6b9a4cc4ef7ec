using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;
using System.Runtime.InteropServices;

namespace Wain;

/// <summary>
/// The query operators of the core, at once instead of on demand: each gives an array. Standing in the namespace above all passes, they are found before those of System.Linq, which stay for the rest.
/// </summary>
/// <remarks>
/// A short run of the program spends its time on getting ready, not on working. An operator on demand is an object of a generic class for every pair of types, whose methods are reached through interfaces:
/// the runtime must build ten types for it, and ahead-of-time compilation can't see which methods will be called. A loop over an array needs neither. Order, stability and treatment of nothing are those of System.Linq.
/// Because all is done at once, a function given here is called for every item, also where only the first is asked for.
/// </remarks>
internal static partial class Sequence
{
    /// <summary>The items where they lie, copied only where they don't lie in a row. Valid until the source changes.</summary>
    internal static ReadOnlySpan<T> Items<T>(IEnumerable<T> source) => source switch
    {
        T[] array => new ReadOnlySpan<T>(array),
        List<T> list => CollectionsMarshal.AsSpan(list),
        ImmutableArray<T> immutable => immutable.AsSpan(),
        ItemRow<T> row => row.Items,
        _ => Copy(source),
    };

    private static ReadOnlySpan<T> Copy<T>(IEnumerable<T> source)
    {
        if (source is ICollection<T> collection)
        {
            var copy = new T[collection.Count];
            collection.CopyTo(copy, 0);
            return copy;
        }
        var items = new T[4];
        int count = 0;
        foreach (var item in source)
        {
            if (count == items.Length) Array.Resize(ref items, count * 2);
            items[count++] = item;
        }
        return items.AsSpan(0, count);
    }

    private static T[] Cut<T>(T[] items, int count)
    {
        if (count < items.Length) Array.Resize(ref items, count);
        return items;
    }

    public static TResult[] Select<T, TResult>(this IEnumerable<T> source, Func<T, TResult> selector)
    {
        var items = Items(source);
        if (items.Length == 0) return [];
        var made = new TResult[items.Length];
        for (int i = 0; i < items.Length; i++) made[i] = selector(items[i]);
        return made;
    }

    public static TResult[] Select<T, TResult>(this IEnumerable<T> source, Func<T, int, TResult> selector)
    {
        var items = Items(source);
        if (items.Length == 0) return [];
        var made = new TResult[items.Length];
        for (int i = 0; i < items.Length; i++) made[i] = selector(items[i], i);
        return made;
    }

    public static T[] Where<T>(this IEnumerable<T> source, Func<T, bool> predicate)
    {
        var items = Items(source);
        T[] kept = [];
        int count = 0;
        for (int i = 0; i < items.Length; i++)
        {
            var item = items[i];
            if (!predicate(item)) continue;
            if (count == kept.Length) Array.Resize(ref kept, count == 0 ? Math.Min(items.Length - i, 4) : Math.Min(count * 2, count + items.Length - i));
            kept[count++] = item;
        }
        return Cut(kept, count);
    }

    public static T[] Where<T>(this IEnumerable<T> source, Func<T, int, bool> predicate)
    {
        var items = Items(source);
        var kept = new List<T>();
        for (int i = 0; i < items.Length; i++)
            if (predicate(items[i], i)) kept.Add(items[i]);
        return kept.ToArray();
    }

    public static TResult[] SelectMany<T, TResult>(this IEnumerable<T> source, Func<T, IEnumerable<TResult>> selector)
    {
        var items = Items(source);
        var made = new List<TResult>();
        for (int i = 0; i < items.Length; i++) made.AddRange(Items(selector(items[i])));
        return made.ToArray();
    }

    public static TResult[] SelectMany<T, TMiddle, TResult>(this IEnumerable<T> source, Func<T, IEnumerable<TMiddle>> collection, Func<T, TMiddle, TResult> selector)
    {
        var items = Items(source);
        var made = new List<TResult>();
        for (int i = 0; i < items.Length; i++)
        {
            var item = items[i];
            foreach (var middle in Items(collection(item))) made.Add(selector(item, middle));
        }
        return made.ToArray();
    }

    public static T[] Concat<T>(this IEnumerable<T> first, IEnumerable<T> second)
    {
        var a = ToArrayOrSame(first);
        var b = Items(second);
        var all = new T[a.Length + b.Length];
        a.CopyTo(all);
        b.CopyTo(all.AsSpan(a.Length));
        return all;
    }

    // A span of a list may move when the second source is read, so the first is held as an array.
    private static ReadOnlySpan<T> ToArrayOrSame<T>(IEnumerable<T> source) => source is T[] array ? new ReadOnlySpan<T>(array) : Items(source).ToArray();

    public static T[] Append<T>(this IEnumerable<T> source, T last) => [.. Items(source), last];

    public static T[] Prepend<T>(this IEnumerable<T> source, T first) => [first, .. Items(source)];

    public static T[] Take<T>(this IEnumerable<T> source, int count)
    {
        var items = Items(source);
        return items[..Math.Clamp(count, 0, items.Length)].ToArray();
    }

    public static T[] Skip<T>(this IEnumerable<T> source, int count)
    {
        var items = Items(source);
        return items[Math.Clamp(count, 0, items.Length)..].ToArray();
    }

    public static T[] Distinct<T>(this IEnumerable<T> source) => source.Distinct(null);

    public static T[] Distinct<T>(this IEnumerable<T> source, IEqualityComparer<T>? comparer)
    {
        var seen = new HashSet<T>(comparer);
        var kept = new List<T>();
        foreach (var item in Items(source))
            if (seen.Add(item)) kept.Add(item);
        return kept.ToArray();
    }

    public static T[] DistinctBy<T, TKey>(this IEnumerable<T> source, Func<T, TKey> key, IEqualityComparer<TKey>? comparer = null)
    {
        var seen = new HashSet<TKey>(comparer);
        var kept = new List<T>();
        foreach (var item in Items(source))
            if (seen.Add(key(item))) kept.Add(item);
        return kept.ToArray();
    }

    public static T[] DefaultIfEmpty<T>(this IEnumerable<T> source, T otherwise)
    {
        var items = Items(source);
        return items.Length == 0 ? [otherwise] : items.ToArray();
    }

    public static (T First, TOther Second)[] Zip<T, TOther>(this IEnumerable<T> first, IEnumerable<TOther> second)
    {
        var a = ToArrayOrSame(first);
        var b = Items(second);
        var pairs = new (T, TOther)[Math.Min(a.Length, b.Length)];
        for (int i = 0; i < pairs.Length; i++) pairs[i] = (a[i], b[i]);
        return pairs;
    }

    public static T[] ToArray<T>(this IEnumerable<T> source) => Items(source).ToArray();

    public static List<T> ToList<T>(this IEnumerable<T> source)
    {
        var items = Items(source);
        var list = new List<T>(items.Length);
        list.AddRange(items);
        return list;
    }

    public static ImmutableArray<T> ToImmutableArray<T>(this IEnumerable<T> source) => source is ImmutableArray<T> same ? same : ImmutableArray.Create(Items(source));

    public static HashSet<T> ToHashSet<T>(this IEnumerable<T> source, IEqualityComparer<T>? comparer = null)
    {
        var items = Items(source);
        var set = new HashSet<T>(items.Length, comparer);
        foreach (var item in items) set.Add(item);
        return set;
    }

    public static Dictionary<TKey, T> ToDictionary<T, TKey>(this IEnumerable<T> source, Func<T, TKey> key, IEqualityComparer<TKey>? comparer = null)
        where TKey : notnull
    {
        var items = Items(source);
        var made = new Dictionary<TKey, T>(items.Length, comparer);
        foreach (var item in items) made.Add(key(item), item);
        return made;
    }

    public static Dictionary<TKey, TValue> ToDictionary<T, TKey, TValue>(this IEnumerable<T> source, Func<T, TKey> key, Func<T, TValue> value, IEqualityComparer<TKey>? comparer = null)
        where TKey : notnull
    {
        var items = Items(source);
        var made = new Dictionary<TKey, TValue>(items.Length, comparer);
        foreach (var item in items) made.Add(key(item), value(item));
        return made;
    }
}
