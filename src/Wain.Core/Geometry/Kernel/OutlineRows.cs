using System.Collections;

namespace Wain.Core.Geometry.Kernel;

/// <summary>The edges of an outline as segments, made as they are walked.</summary>
public readonly struct SegmentRow(Outline outline) : IReadOnlyList<Segment>
{
    public int Count => outline.Count;
    public Segment this[int index] => outline.Segment(index);
    public Walk GetEnumerator() => new(outline);
    IEnumerator<Segment> IEnumerable<Segment>.GetEnumerator() => GetEnumerator();
    IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();

    public struct Walk(Outline outline) : IEnumerator<Segment>
    {
        private int _at = -1;
        public readonly Segment Current => outline.Segment(_at);
        readonly object IEnumerator.Current => Current;
        public bool MoveNext() => ++_at < outline.Count;
        public void Reset() => _at = -1;
        public readonly void Dispose() { }
    }
}

/// <summary>Where the edges of an outline start.</summary>
public readonly struct CornerRow(Outline outline) : IReadOnlyList<Vec2>
{
    public int Count => outline.Count;
    public Vec2 this[int index] => outline.Edges[index].Start;
    public Walk GetEnumerator() => new(outline);
    IEnumerator<Vec2> IEnumerable<Vec2>.GetEnumerator() => GetEnumerator();
    IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();

    public struct Walk(Outline outline) : IEnumerator<Vec2>
    {
        private int _at = -1;
        public readonly Vec2 Current => outline.Edges[_at].Start;
        readonly object IEnumerator.Current => Current;
        public bool MoveNext() => ++_at < outline.Count;
        public void Reset() => _at = -1;
        public readonly void Dispose() { }
    }
}
