using Wain.Core.Binding;

namespace Wain.Core.Revisions;

/// <summary>A fact that says something else than before, is new (no old) or is gone (no new).</summary>
/// <param name="Slots">The kinds of the slots that differ; empty for a whole fact.</param>
internal sealed record FactChange(BoundFact? Old, BoundFact? New, IReadOnlyList<string> Slots)
{
    public string Path => (New ?? Old)!.Path;

    /// <summary>The statement at the top of the text that it belongs to.</summary>
    public static BoundFact TopOf(BoundFact fact)
    {
        while (fact.Parent is { } parent) fact = parent;
        return fact;
    }
}

/// <summary>Compares the facts of two specs as trees of meaning.</summary>
internal static class FactChanges
{
    /// <param name="old">With its names as the new revision calls them.</param>
    public static List<FactChange> Of(IReadOnlyList<FactContent> old, IReadOnlyList<FactContent> now)
    {
        var changes = new List<FactChange>();
        Compare(old, now, changes);
        return changes;
    }

    private static void Compare(IReadOnlyList<FactContent> old, IReadOnlyList<FactContent> now, List<FactChange> changes)
    {
        var before = old.GroupBy(f => f.Key, StringComparer.Ordinal).ToDictionary(g => g.Key, g => g.ToList(), StringComparer.Ordinal);
        foreach (var group in now.GroupBy(f => f.Key, StringComparer.Ordinal))
        {
            var news = group.ToList();
            var olds = before.Remove(group.Key, out var same) ? same : [];
            foreach (var (o, n) in Pair(olds, news)) CompareOne(o, n, changes);
            changes.AddRange(news.Select(n => new FactChange(null, n.Fact, [])));
            changes.AddRange(olds.Select(o => new FactChange(o.Fact, null, [])));
        }
        changes.AddRange(before.Values.SelectMany(g => g).Select(o => new FactChange(o.Fact, null, [])));
    }

    /// <summary>Takes out of both lists what belongs together: what is the same first, then what is about the same, then what is left in order.</summary>
    private static List<(FactContent Old, FactContent New)> Pair(List<FactContent> olds, List<FactContent> news)
    {
        var pairs = new List<(FactContent, FactContent)>();
        foreach (var key in (Func<FactContent, string>[])[f => f.Text, f => f.Identity, _ => ""])
        {
            var byKey = olds.GroupBy(key, StringComparer.Ordinal).ToDictionary(g => g.Key, g => new Queue<FactContent>(g), StringComparer.Ordinal);
            var left = new List<FactContent>();
            foreach (var n in news)
            {
                if (byKey.TryGetValue(key(n), out var queue) && queue.TryDequeue(out var o)) pairs.Add((o, n));
                else left.Add(n);
            }
            var kept = byKey.Values.SelectMany(q => q).ToHashSet();
            olds.RemoveAll(o => !kept.Contains(o));
            news.Clear();
            news.AddRange(left);
        }
        return pairs;
    }

    private static void CompareOne(FactContent old, FactContent now, List<FactChange> changes)
    {
        if (ReferenceEquals(old, now) || old.Text == now.Text) return;
        int before = changes.Count;
        Compare(old.Inner, now.Inner, changes);
        bool innerDiffers = changes.Count > before;
        var slots = new List<string>();
        foreach (string slot in old.Slots.Concat(now.Slots).Select(s => s.Slot).Distinct(StringComparer.Ordinal))
        {
            SlotContent? a = Find(old, slot), b = Find(now, slot);
            // A layer that is new or gone changes the order as well; it is told once.
            if ((a ?? b)!.Value.Kind == "order" && innerDiffers) continue;
            if (a is null || b is null || !a.Value.Same(b.Value)) slots.Add((a ?? b)!.Value.Kind);
        }
        if (slots.Count > 0) changes.Add(new FactChange(old.Fact, now.Fact, slots));
    }

    private static SlotContent? Find(FactContent content, string slot)
    {
        foreach (var s in content.Slots) if (s.Slot == slot) return s;
        return null;
    }
}
