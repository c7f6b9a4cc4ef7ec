using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;
using Wain.Core.Language;
using Wain.Core.Syntax;
using Wain.Core.Text;

namespace Wain.Core.Binding;

/// <summary>The terms of a fact that fill one slot.</summary>
public sealed record SlotText(Slot Slot, ImmutableArray<Expression> Terms)
{
    public Span Span => Terms[0].Span.Source == Terms[^1].Span.Source ? Terms[0].Span.To(Terms[^1].Span) : Terms[0].Span;
}

/// <summary>What fills the slots of one fact. Few and small, so a list beats a table of hashes for a spec of a million facts.</summary>
internal sealed class SlotTexts
{
    private ImmutableArray<SlotText> _all = [];

    public ImmutableArray<SlotText> All => _all;

    public bool TryGetValue(string name, [NotNullWhen(true)] out SlotText? text)
    {
        foreach (var one in _all)
        {
            if (one.Slot.Name != name) continue;
            text = one;
            return true;
        }
        text = null;
        return false;
    }

    public bool ContainsKey(string name) => TryGetValue(name, out _);

    public void Add(SlotText text) => _all = _all.Add(text);
}

/// <summary>
/// A fact whose words are understood: which shape it has, what fills each slot, and the facts of its block. Values are evaluated when a pass
/// asks for them, in <see cref="Scope"/>, since a size may depend on where another panel ends.
/// </summary>
public sealed class BoundFact
{
    internal BoundFact(FactShape shape, Fact syntax, Scope scope, BoundFact? parent)
    {
        Shape = shape;
        Syntax = syntax;
        Scope = scope;
        Parent = parent;
    }

    public FactShape Shape { get; }

    public Fact Syntax { get; }

    internal Scope Scope { get; }

    public BoundFact? Parent { get; internal set; }

    /// <summary>The keyword: "panel", "opening", "screws".</summary>
    public string Keyword => Shape.Keyword;

    /// <summary>The name given here, whole ("locker_left"), or null for a fact without one.</summary>
    public string? Name { get; internal set; }

    public Span NameSpan { get; internal set; }

    public Span Span => Syntax.Span;

    /// <summary>The head of the fact alone, without its block: what a finding about the whole points at.</summary>
    public Span HeadSpan { get; internal set; }

    /// <summary>Where it stands in the model: "left_wall.vent.size".</summary>
    public string Path => Parent is null ? Name ?? Keyword : Parent.Path + "." + (Name ?? Keyword);

    internal SlotTexts Slots { get; } = new();

    /// <summary>Phrases that were present, by their leading words, such as "flat" or "home".</summary>
    private ImmutableArray<string> _flags = [];

    internal void AddFlag(string words) => _flags = _flags.Add(words);

    private ImmutableArray<BoundFact> _body = [];

    /// <summary>Reads the block when it is first asked for, since what stands in it may hang on another block's facts; null once that is done.</summary>
    internal Action? Unread { get; set; }

    public ImmutableArray<BoundFact> Body
    {
        get
        {
            if (Unread is { } read)
            {
                Unread = null;
                read();
            }
            return _body;
        }
        internal set => _body = value;
    }

    /// <summary>True if an if, a for or a group decided that it is there.</summary>
    internal bool Conditional { get; init; }

    /// <summary>The thing that this is a mirrored copy of.</summary>
    public BoundFact? MirrorOf { get; internal set; }

    /// <summary>Set when a pass has read the fact; what is never read is told in a note.</summary>
    internal bool Used { get; set; }

    /// <summary>Set when another fact or value speaks of the thing by its name.</summary>
    internal bool Referenced { get; set; }

    public bool Has(string slot) { Used = true; return Slots.ContainsKey(slot); }

    /// <summary>True if the words stand in the fact, such as "flat" or "on edge".</summary>
    public bool Says(string words) { Used = true; return _flags.Contains(words); }

    /// <summary>The first fact of its block with a keyword, or null.</summary>
    public BoundFact? Find(string keyword)
    {
        foreach (var fact in Body)
        {
            if (fact.Keyword != keyword) continue;
            fact.Used = true;
            return fact;
        }
        return null;
    }

    /// <summary>Every fact of its block with a keyword: in the order written where the block is a sequence, else by name and words.</summary>
    public IEnumerable<BoundFact> All(string keyword)
    {
        foreach (var fact in Body)
        {
            if (fact.Keyword != keyword) continue;
            fact.Used = true;
            yield return fact;
        }
    }

    /// <summary>The word that fills a slot of choices or plain words, or null.</summary>
    public string? Word(string slot)
    {
        Used = true;
        return Slots.TryGetValue(slot, out var text) && text.Terms[0] is NameExpression name ? string.Join('.', name.Parts.Select(p => p.Name.Text)) : null;
    }

    public override string ToString() => Path;
}
