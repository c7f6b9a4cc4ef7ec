using System.Collections.Immutable;
using System.Runtime.CompilerServices;

namespace Wain.Core.Geometry.Kernel;

/// <summary>
/// One edge of an outline, from its own start to the next edge's start. <see cref="Sweep"/> as in <see cref="Segment"/>: positive bows outward.
/// <see cref="Tilt"/> is the bevel: the edge at depth d below the outside face stands d * tan(Tilt) further out (radians, between -pi/2 and pi/2).
/// </summary>
public sealed record OutlineEdge(Vec2 Start, double Sweep = 0, string? Name = null, double Tilt = 0);

/// <summary>A closed outline of straight and arc edges in a plane (mm). Counter-clockwise and without crossings when it is a panel's.</summary>
public sealed record Outline
{
    // Asked for again and again, and the same as long as the edges are. Boxed, so that two threads that ask at once each see a whole value.
    private StrongBox<Box2>? _bounds;
    private StrongBox<Moments>? _moments;
    private StrongBox<ImmutableArray<(double Depth, Outline? Outline)>>? _depths;

    // A panel is asked for a few depths: its faces and those of its layers and frame.
    private const int MostDepths = 32;

    public Outline(ImmutableArray<OutlineEdge> edges) => Edges = edges;

    public ImmutableArray<OutlineEdge> Edges { get; }

    public int Count => Edges.Length;

    public static Outline Polygon(params IEnumerable<Vec2> corners) => new([.. corners.Select(c => new OutlineEdge(c))]);

    public static Outline Rectangle(Vec2 min, Vec2 max) => Polygon(min, new(max.X, min.Y), max, new(min.X, max.Y));

    /// <summary>A circle as two half-circle edges: one edge alone would have no chord.</summary>
    public static Outline Circle(Vec2 centre, double radius) =>
        new([new(centre + new Vec2(radius, 0), Math.PI), new(centre - new Vec2(radius, 0), Math.PI)]);

    public int Next(int i) => i + 1 == Count ? 0 : i + 1;
    public int Previous(int i) => i == 0 ? Count - 1 : i - 1;
    public Segment Segment(int i) => new(Edges[i].Start, Edges[Next(i)].Start, Edges[i].Sweep);
    public SegmentRow Segments => new(this);
    public CornerRow Corners => new(this);

    /// <summary>The edge with a name, or -1.</summary>
    public int IndexOf(string name)
    {
        for (var i = 0; i < Count; i++)
            if (string.Equals(Edges[i].Name, name, StringComparison.Ordinal)) return i;
        return -1;
    }

    public double Perimeter => Segments.Sum(s => s.Length);
    public Box2 Bounds => (_bounds ??= new(Around())).Value;

    /// <summary>Area and its moments: see <see cref="OutlineMeasures"/>.</summary>
    internal Moments Measured => (_moments ??= new(OutlineMeasures.Integrate(this))).Value;

    public bool HasArcs
    {
        get
        {
            foreach (var edge in Edges) if (edge.Sweep != 0) return true;
            return false;
        }
    }

    /// <summary>The outline at a depth (mm) below the outside face, by the edges' tilts; null where the bevels leave nothing.</summary>
    public Outline? Below(double depth)
    {
        if (HasSquareEdges) return this;
        var known = _depths?.Value ?? [];
        foreach (var (at, outline) in known) if (at == depth) return outline;
        var found = this.AtDepth(depth).Outline;
        if (known.Length < MostDepths) _depths = new(known.Add((depth, found)));
        return found;
    }

    private bool HasSquareEdges
    {
        get
        {
            foreach (var edge in Edges) if (edge.Tilt != 0) return false;
            return true;
        }
    }

    public Outline WithEdge(int i, Func<OutlineEdge, OutlineEdge> change) => new(Edges.SetItem(i, change(Edges[i])));
    public Outline Translated(Vec2 by) => new([.. Edges.Select(e => e with { Start = e.Start + by })]);
    public Outline Rotated(double angle, Vec2 about = default) => new([.. Edges.Select(e => e with { Start = about + (e.Start - about).Rotate(angle) })]);

    /// <summary>The same outline walked the other way round; names and tilts stay with their edges.</summary>
    public Outline Reversed => Backwards(p => p, -1);

    /// <summary>The mirror image x to -x, still counter-clockwise; names and tilts stay with their edges.</summary>
    public Outline Mirrored => Backwards(p => new(-p.X, p.Y), 1);

    /// <summary>This outline if it runs counter-clockwise, else the same walked the other way.</summary>
    public Outline CounterClockwise => this.SignedArea() < 0 ? Reversed : this;

    private Box2 Around()
    {
        var box = Segment(0).Bounds;
        for (int i = 1; i < Count; i++) box = box.Union(Segment(i).Bounds);
        return box;
    }

    // A record's own text prints every property, and a property of the same type would print itself without end.
    public override string ToString() => string.Join("; ", Segments);

    // Walked backwards, an edge starts where it used to end.
    private Outline Backwards(Func<Vec2, Vec2> map, int sweepSign) =>
        new([.. Enumerable.Range(0, Count).Reverse().Select(i => Edges[i] with { Start = map(Edges[Next(i)].Start), Sweep = sweepSign * Edges[i].Sweep })]);

    public bool Equals(Outline? other) => other is not null && Edges.AsSpan().SequenceEqual(other.Edges.AsSpan());

    public override int GetHashCode()
    {
        var hash = new HashCode();
        foreach (var edge in Edges) hash.Add(edge);
        return hash.ToHashCode();
    }
}
