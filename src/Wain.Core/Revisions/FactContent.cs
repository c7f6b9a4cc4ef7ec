using System.Globalization;
using System.Text;
using Wain.Core.Binding;
using Wain.Core.Language;
using Wain.Core.Syntax;
using Wain.Core.Units;

namespace Wain.Core.Revisions;

/// <summary>What a slot of a fact comes to, as a text that is equal when the meaning is.</summary>
/// <param name="Source">What stands in the spec; null for what no text of its own says.</param>
internal readonly record struct SlotContent(string Slot, string Kind, string Text, Quantity? Value, SlotText? Source = null)
{
    public bool Same(SlotContent other) =>
        Text == other.Text || (Value is { } a && other.Value is { } b && a.Dimension == b.Dimension && a.CompareTo(b) == 0)
        // A side that does not compile may not know the value of what reads the same.
        || (Source is not null && other.Source is not null && FactContent.Written(Source) is { Length: > 0 } written && written == FactContent.Written(other.Source) && (Text == written || other.Text == written));
}

/// <summary>A fact by its meaning: evaluated slots, phrases, and the facts of its block. Order stands in it only where order means something.</summary>
internal sealed class FactContent
{
    private FactContent(BoundFact fact, string key, List<SlotContent> slots, List<FactContent> inner)
    {
        Fact = fact;
        Key = key;
        Slots = slots;
        Inner = inner;
        Text = Whole();
    }

    public BoundFact Fact { get; }

    /// <summary>Keyword, and the name as the new revision calls it.</summary>
    public string Key { get; }

    public List<SlotContent> Slots { get; }

    public List<FactContent> Inner { get; }

    /// <summary>The whole content but for the fact's own name.</summary>
    public string Text { get; }

    /// <summary>What a nameless fact is about: the things and edges that it speaks of.</summary>
    public string Identity => string.Join(' ', Slots.Where(s => s.Kind is "edge" or "leg" or "word" or "subject" || s.Kind.Split('|').All(Kinds.IsThing)).Select(s => s.Text));

    public static FactContent Of(Spec spec, BoundFact fact, Func<string, string> nameNow)
    {
        var slots = new List<SlotContent>();
        foreach (var text in fact.Slots.All)
        {
            if (text.Slot.Kind == "new") continue;
            var quantity = QuantityOf(spec, fact, text);
            slots.Add(new SlotContent(text.Slot.Name, text.Slot.Kind, quantity is { } q ? Say(q) : TextOf(spec, fact, text, nameNow), quantity, text));
        }
        foreach (var phrase in fact.Shape.Phrases)
        {
            if (phrase.Flag is { } words && fact.Says(words)) slots.Add(new SlotContent(words, "phrase", "yes", null));
        }
        slots.Sort((a, b) => string.CompareOrdinal(a.Slot, b.Slot));
        var inner = fact.Body.Select(f => Of(spec, f, nameNow)).ToList();
        // Layers and legs are walked in the order written; everything else is a set.
        if (fact.Keyword == "stack") slots.Add(new SlotContent("layers", "order", string.Join(", ", inner.Select(i => i.Key + " " + i.Identity)), null));
        if (fact.Keyword == "plan") slots.Add(new SlotContent("legs", "order", string.Join(", ", inner.Where(i => i.Fact.Keyword == "leg").Select(i => i.Key)), null));
        string name = fact.Name is { } own ? " " + (fact.Parent is null ? nameNow(own) : own[(own.LastIndexOf('.') + 1)..]) : "";
        return new FactContent(fact, fact.Keyword + name, slots, inner);
    }

    private string Whole()
    {
        var text = new StringBuilder(Fact.Keyword);
        foreach (var slot in Slots) text.Append(' ').Append(slot.Slot).Append('=').Append(slot.Text);
        foreach (string inner in Inner.Select(i => i.Key + ":" + i.Text).Order(StringComparer.Ordinal)) text.Append("{").Append(inner).Append('}');
        return text.ToString();
    }

    private static Quantity? QuantityOf(Spec spec, BoundFact fact, SlotText text)
    {
        string kind = text.Slot.Kind;
        bool plain = kind is "new" or "word" or "subject" or "call" or "date" or "leg" or "edge" or "text" or "place2" or "place3" or "depths" or "lengths"
            || kind.StartsWith("bounds_", StringComparison.Ordinal) || !text.Slot.Things.IsEmpty || !text.Slot.Choices.IsEmpty || (kind == "level" && text.Terms[0] is NameExpression name && !IsValue(name, fact.Scope));
        return plain ? null : spec.Evaluator.Quantity(fact, text.Slot.Name);
    }

    // A level is a height or a face such as floor.top; a name that a let gave to a height is that height.
    private static bool IsValue(NameExpression name, Scope scope) =>
        name.SingleWord is { } word ? scope.FindValue(word) is not null : name.Parts is [{ Keys.IsEmpty: true } key, { Name.Text: "value" }] && scope.FindValue(Evaluator.KeyValueName(key.Name.Text)) is not null;

    private static string TextOf(Spec spec, BoundFact fact, SlotText text, Func<string, string> nameNow)
    {
        var e = spec.Evaluator;
        string slot = text.Slot.Name, kind = text.Slot.Kind;
        if (kind == "text") return "\"" + (e.Text(fact, slot) ?? Written(text)) + "\"";
        if (kind == "date") return e.Date(fact, slot)?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) ?? Written(text);
        if (kind is "place2" or "place3" && text.Terms[0] is PlaceExpression) return e.Place(fact, slot) is { } place ? string.Join(", ", place.Select(Say)) : Written(text);
        if (kind is "depths" or "lengths") return e.Lengths(fact, slot) is { IsEmpty: false } lengths ? string.Join(", ", lengths.Select(Say)) : Written(text);
        if (kind.StartsWith("bounds_", StringComparison.Ordinal)) return e.Bounds(fact, slot) is { } b ? $"{(b.Low is { } low ? Say(low) : "any")} to {(b.High is { } high ? Say(high) : "any")}" : Written(text);
        if (text.Terms is [NameExpression name])
        {
            var words = e.WholeName(name, fact.Scope);
            if (words.IsDefaultOrEmpty) return Written(text);
            string first = fact.Scope.FindThing(words[0]) is { } whole ? nameNow(whole) : words[0];
            return string.Join('.', words.Skip(1).Prepend(first));
        }
        return Written(text);
    }

    /// <summary>As it stands in the text, with blanks evened out.</summary>
    internal static string Written(SlotText text) => string.Join(' ', text.Terms.Select(t => Even(t.Span.Text)));

    internal static string Even(string text)
    {
        var even = new StringBuilder(text.Length);
        foreach (string line in text.Split('\n'))
        {
            int comment = line.IndexOf("--", StringComparison.Ordinal);
            foreach (string word in (comment < 0 ? line : line[..comment]).Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)) even.Append(even.Length > 0 ? " " : "").Append(word);
        }
        return even.ToString();
    }

    // Nine digits are finer than any figure is shown in, and coarser than the noise of trigonometry.
    private static string Say(Quantity q) => q.Value.ToString("E8", CultureInfo.InvariantCulture) + " " + q.Dimension.Describe();

    private static string Say(double mm) => Math.Round(mm, 5).ToString("0.#####", CultureInfo.InvariantCulture);
}
