using System.Collections.Immutable;
using Wain.Core.Syntax;

namespace Wain.Core.Binding;

/// <summary>
/// The order that every pass meets facts in: by keyword, then name, then words. It follows from what a spec says and not from where it says it, so that
/// declarations in another order, or in another file, change no byte of an output.
/// </summary>
internal static class FactOrder
{
    public static ImmutableArray<BoundFact> Of(ImmutableArray<BoundFact> facts)
    {
        for (int i = 1; i < facts.Length; i++)
        {
            // Stable, so that what a loop says with the same words keeps the order of its keys.
            if (Compare(facts[i - 1], facts[i]) > 0) return [.. facts.Order(Comparer<BoundFact>.Create(Compare))];
        }
        return facts;
    }

    private static int Compare(BoundFact a, BoundFact b)
    {
        int order = string.CompareOrdinal(Kind(a), Kind(b));
        if (order == 0) order = string.CompareOrdinal(a.Name ?? "", b.Name ?? "");
        if (order == 0 && a.Name is null) order = string.CompareOrdinal(Words(a), Words(b));
        return order;
    }

    // A mirrored panel stands among the panels, where its name puts it.
    private static string Kind(BoundFact fact) => fact.Keyword == "mirror" ? "panel" : fact.Keyword;

    private static string Words(BoundFact fact) => fact.Scope.Prefix + string.Join(' ', fact.Slots.All.Select(s => string.Join(' ', s.Terms.Select(Words))));

    private static string Words(Expression term) => term is NameExpression name ? string.Join('.', name.Parts.Select(p => p.Name.Text)) : string.Join(' ', term.Span.Text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
}
