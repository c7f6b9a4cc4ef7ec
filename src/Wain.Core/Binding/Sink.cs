using System.Collections.Immutable;
using Wain.Core.Language;

namespace Wain.Core.Binding;

/// <summary>
/// The facts of one block while they unfold. A part that is decided later, such as an <c>if</c>, keeps its place in the order of the text through a
/// sink of its own; what must be there only once is counted over the whole block.
/// </summary>
internal sealed class Sink
{
    private readonly List<object> _entries = [];
    private readonly Sink _whole;
    private Dictionary<(FactShape, string), BoundFact>? _once;

    public Sink() => _whole = this;

    private Sink(Sink whole) => _whole = whole;

    public void Add(BoundFact fact) => _entries.Add(fact);

    /// <summary>A place for facts that come later.</summary>
    public Sink Reserve()
    {
        var part = new Sink(_whole);
        _entries.Add(part);
        return part;
    }

    /// <summary>The fact of this shape and key that stands in the block already, or null; then this one does.</summary>
    public BoundFact? Claim(FactShape shape, string key, BoundFact fact)
    {
        // Shapes are told apart by reference: a record's own comparison would walk the whole table of the language.
        var once = _whole._once ??= new Dictionary<(FactShape, string), BoundFact>(ByReference.Instance);
        return once.TryAdd((shape, key), fact) ? null : once[(shape, key)];
    }

    /// <summary>All facts in the order of the text.</summary>
    public ImmutableArray<BoundFact> Facts()
    {
        var facts = ImmutableArray.CreateBuilder<BoundFact>();
        var open = new Stack<(Sink Sink, int Next)>();
        open.Push((this, 0));
        while (open.TryPop(out var at))
        {
            for (int i = at.Next; i < at.Sink._entries.Count; i++)
            {
                if (at.Sink._entries[i] is BoundFact fact)
                {
                    facts.Add(fact);
                    continue;
                }
                open.Push((at.Sink, i + 1));
                open.Push(((Sink)at.Sink._entries[i], 0));
                break;
            }
        }
        return facts.ToImmutable();
    }

    private sealed class ByReference : IEqualityComparer<(FactShape Shape, string Key)>
    {
        public static readonly ByReference Instance = new();

        public bool Equals((FactShape Shape, string Key) a, (FactShape Shape, string Key) b) => ReferenceEquals(a.Shape, b.Shape) && a.Key == b.Key;

        public int GetHashCode((FactShape Shape, string Key) key) => HashCode.Combine(System.Runtime.CompilerServices.RuntimeHelpers.GetHashCode(key.Shape), key.Key);
    }
}
