using System.Collections;

namespace Wain;

/// <summary>Items in a row that an operator made.</summary>
internal abstract class ItemRow<T> : IEnumerable<T>
{
    private T[]? _items;

    public T[] Items => _items ??= Made();

    protected abstract T[] Made();

    public IEnumerator<T> GetEnumerator() => ((IEnumerable<T>)Items).GetEnumerator();

    IEnumerator IEnumerable.GetEnumerator() => Items.GetEnumerator();
}

/// <summary>Items that share a key, in the order of the source.</summary>
internal sealed class KeyedGroup<TKey, T>(TKey key, List<T> items) : ItemRow<T>
{
    public TKey Key => key;

    protected override T[] Made() => items.ToArray();
}

/// <summary>One key of an order: compares two items by their places in the source.</summary>
internal abstract class SortKey
{
    public abstract int Compare(int a, int b);
}

internal sealed class SortKey<TKey>(TKey[] keys, IComparer<TKey>? comparer, bool descending) : SortKey
{
    private readonly IComparer<TKey> _comparer = comparer ?? Comparer<TKey>.Default;

    public override int Compare(int a, int b) => descending ? _comparer.Compare(keys[b], keys[a]) : _comparer.Compare(keys[a], keys[b]);
}

/// <summary>Items in order; equal ones keep the order of the source.</summary>
internal sealed class Ordered<T>(T[] source, SortKey[] keys) : ItemRow<T>
{
    public Ordered<T> ThenBy<TKey>(Func<T, TKey> key, IComparer<TKey>? comparer = null) => new(source, [.. keys, new SortKey<TKey>(source.Select(key), comparer, false)]);

    public Ordered<T> ThenByDescending<TKey>(Func<T, TKey> key, IComparer<TKey>? comparer = null) => new(source, [.. keys, new SortKey<TKey>(source.Select(key), comparer, true)]);

    protected override T[] Made()
    {
        var places = new int[source.Length];
        for (int i = 0; i < places.Length; i++) places[i] = i;
        Array.Sort(places, Compare);
        var made = new T[places.Length];
        for (int i = 0; i < places.Length; i++) made[i] = source[places[i]];
        return made;
    }

    private int Compare(int a, int b)
    {
        foreach (var key in keys)
            if (key.Compare(a, b) is not 0 and var order) return order;
        return a.CompareTo(b);
    }
}

/// <summary>Operators that put items in order or in groups.</summary>
internal static partial class Sequence
{
    public static Ordered<T> OrderBy<T, TKey>(this IEnumerable<T> source, Func<T, TKey> key, IComparer<TKey>? comparer = null) => By(source, key, comparer, false);

    public static Ordered<T> OrderByDescending<T, TKey>(this IEnumerable<T> source, Func<T, TKey> key, IComparer<TKey>? comparer = null) => By(source, key, comparer, true);

    private static Ordered<T> By<T, TKey>(IEnumerable<T> source, Func<T, TKey> key, IComparer<TKey>? comparer, bool descending)
    {
        var items = Items(source).ToArray();
        return new Ordered<T>(items, [new SortKey<TKey>(items.Select(key), comparer, descending)]);
    }

    public static T[] Order<T>(this IEnumerable<T> source, IComparer<T>? comparer = null)
    {
        var items = Items(source).ToArray();
        return new Ordered<T>(items, [new SortKey<T>(items, comparer, false)]).Items;
    }

    public static KeyedGroup<TKey, T>[] GroupBy<T, TKey>(this IEnumerable<T> source, Func<T, TKey> key, IEqualityComparer<TKey>? comparer = null) => source.GroupBy(key, item => item, comparer);

    /// <summary>Groups in the order of their first items. A key may be null.</summary>
    public static KeyedGroup<TKey, TItem>[] GroupBy<T, TKey, TItem>(this IEnumerable<T> source, Func<T, TKey> key, Func<T, TItem> item, IEqualityComparer<TKey>? comparer = null)
    {
        var keys = new List<TKey>();
        var groups = new List<List<TItem>>();
#pragma warning disable CS8714 // A key that is null is kept apart: a dictionary can't hold it.
        var places = new Dictionary<TKey, int>(comparer);
#pragma warning restore CS8714
        int nothing = -1;
        foreach (var one in Items(source))
        {
            var k = key(one);
            int place = nothing;
            if (k is null ? nothing < 0 : !places.TryGetValue(k, out place))
            {
                place = keys.Count;
                if (k is null) nothing = place;
                else places.Add(k, place);
                keys.Add(k);
                groups.Add([]);
            }
            groups[place].Add(item(one));
        }
        var made = new KeyedGroup<TKey, TItem>[keys.Count];
        for (int i = 0; i < made.Length; i++) made[i] = new(keys[i], groups[i]);
        return made;
    }
}
