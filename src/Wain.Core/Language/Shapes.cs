using System.Collections.Immutable;

namespace Wain.Core.Language;

/// <summary>A value that a fact asks for: its name in the model and the kind of value.</summary>
/// <param name="Kind">A kind of quantity ("length"), "new" for a name given here, a kind of thing referred to ("panel"), or words to choose from ("left|right").</param>
public sealed record Slot(string Name, string Kind)
{
    /// <summary>The words to choose from, or empty.</summary>
    public ImmutableArray<string> Choices { get; } = Kind.Contains('|') && !Kind.Split('|').All(Kinds.IsThing) ? [.. Kind.Split('|')] : [];

    /// <summary>The kinds of things that it may refer to, or empty.</summary>
    public ImmutableArray<string> Things { get; } = Kind.Split('|').All(Kinds.IsThing) ? [.. Kind.Split('|')] : [];
}

/// <summary>The kinds of things that have names in a spec and that facts refer to.</summary>
public static class Kinds
{
    private static readonly HashSet<string> Things = new[]
    {
        "sheet", "stick", "board", "foam", "cloth", "tape", "resin", "filler", "coating", "adhesive", "sealant", "seal", "membrane", "trim", "screw", "hardware", "unit", "item",
        "stack", "plan", "panel", "lift", "load", "joint", "opening", "part",
    }.ToHashSet(StringComparer.Ordinal);

    public static bool IsThing(string kind) => Things.Contains(kind);
}

/// <summary>A run of words and values that belong together, such as <c>lap width &lt;width:length&gt;</c>; optional when in square brackets.</summary>
public sealed record Phrase(ImmutableArray<object> Items, bool Optional)
{
    /// <summary>The words before the first value: what the phrase is known by. Empty for a value that stands by its position.</summary>
    public ImmutableArray<string> Lead { get; } = [.. Items.TakeWhile(i => i is string).Cast<string>()];

    /// <summary>The words of a phrase that is there or not and holds no value, such as "flat"; null for any other.</summary>
    public string? Flag { get; } = Optional && !Items.IsEmpty && Items.All(i => i is string) ? string.Join(' ', Items) : null;

    public IEnumerable<Slot> Slots => Items.OfType<Slot>();

    public override string ToString() => string.Join(" ", Items.Select(i => i is Slot s ? "<" + s.Name + ">" : i));
}

/// <summary>One kind of fact: what it reads like, what it means, and the block that may follow it.</summary>
public sealed record FactShape(string Keyword, ImmutableArray<Phrase> Phrases, string Summary, BlockShape? Body, bool Many)
{
    public IEnumerable<Slot> Slots => Phrases.SelectMany(p => p.Slots);

    /// <summary>The slot for a name given here; such facts may stand many times, once for each name.</summary>
    public Slot? NameSlot { get; } = Phrases.SelectMany(p => p.Slots).FirstOrDefault(s => s.Kind == "new");

    /// <summary>The slot whose word tells one fact of the kind from another, such as the edge of a bevel: each is told once. Null where that is not so.</summary>
    public string? Each { get; init; }

    /// <summary>The keyword of the fact that this one takes the place of, such as an inset that of an overhang: of the two only one is told. Null where that is not so.</summary>
    public string? Instead { get; init; }

    private string? _reading;

    /// <summary>How the fact reads, for messages and the reference.</summary>
    public string Reading => _reading ??= string.Join(" ", new[] { Keyword }.Concat(Phrases.Where(p => p.Items.Length > 0).Select(p => p.Optional ? $"[{p}]" : p.ToString())))
        + (Body is null ? "" : " { ... }");
}

/// <summary>The facts that may stand in one kind of block. Keywords are keywords only here.</summary>
public sealed record BlockShape(string Name, string Summary, ImmutableArray<FactShape> Facts)
{
    /// <summary>By keyword; where two facts begin with the same one ("show lengths", "show weights"), the first.</summary>
    public IReadOnlyDictionary<string, FactShape> ByKeyword { get; } = FirstOf(Facts);

    /// <summary>Every fact with a keyword; told apart by the words after it.</summary>
    public IReadOnlyDictionary<string, ImmutableArray<FactShape>> AllByKeyword => _all ??= Facts.GroupBy(f => f.Keyword).ToDictionary(g => g.Key, g => g.ToImmutableArray(), StringComparer.Ordinal);

    private Dictionary<string, ImmutableArray<FactShape>>? _all;

    private static Dictionary<string, FactShape> FirstOf(ImmutableArray<FactShape> facts)
    {
        var first = new Dictionary<string, FactShape>(facts.Length, StringComparer.Ordinal);
        foreach (var fact in facts) first.TryAdd(fact.Keyword, fact);
        return first;
    }

    /// <summary>The kind of thing that a bare name in this block refers to, for blocks that are plain lists; null otherwise.</summary>
    public string? ListOf { get; init; }

    /// <summary>True where the order written has a meaning: layers of a stack, legs of a plan, months of a climate.</summary>
    public bool IsSequence { get; init; }
}

/// <summary>Reads the notation in which the tables of the language are written.</summary>
/// <remarks>
/// <c>leg &lt;name:new&gt; [run &lt;run:length&gt;] [inward &lt;inward:angle&gt;]</c>: the keyword, then values by position, then phrases in any order;
/// square brackets mark what may be left out. Two facts with the same keyword are told apart by the words after it.
/// </remarks>
public static class Shape
{
    public static FactShape Fact(string reading, string summary, BlockShape? body = null, bool many = false, string? each = null, string? instead = null)
    {
        var phrases = ImmutableArray.CreateBuilder<Phrase>();
        var items = ImmutableArray.CreateBuilder<object>();
        string keyword = "";
        reading = reading.Replace(" { ... }", "", StringComparison.Ordinal);
        int i = 0;
        bool optional = false;
        void Flush()
        {
            if (items.Count > 0) phrases.Add(new Phrase(items.ToImmutable(), optional));
            items.Clear();
        }
        while (i < reading.Length)
        {
            char c = reading[i];
            if (c == ' ') { i++; continue; }
            if (c == '[') { Flush(); optional = true; i++; continue; }
            if (c == ']') { Flush(); optional = false; i++; continue; }
            if (c == ',') { Flush(); i++; continue; }
            if (c == '<')
            {
                int end = reading.IndexOf('>', i);
                var parts = reading[(i + 1)..end].Split(':');
                items.Add(new Slot(parts[0], parts[1]));
                i = end + 1;
                continue;
            }
            int stop = reading.IndexOfAny([' ', '[', ']', ',', '<'], i);
            if (stop < 0) stop = reading.Length;
            string word = reading[i..stop];
            if (keyword.Length == 0) keyword = word;
            else items.Add(word);
            i = stop;
        }
        Flush();
        return new FactShape(keyword, phrases.ToImmutable(), summary, body, many || each is not null) { Each = each, Instead = instead };
    }

    public static BlockShape Block(string name, string summary, params FactShape[] facts) => new(name, summary, [.. facts]);

    public static BlockShape ListOf(string name, string summary, string kind) => new(name, summary, []) { ListOf = kind };
}
