using System.Collections.Immutable;

namespace Wain.Core.Geometry.Kernel;

/// <summary>The side of a straight cut that stays: the points p with (p - Point) . Keep &gt;= 0, Keep of length 1.</summary>
public readonly record struct HalfPlane(Vec2 Point, Vec2 Keep)
{
    /// <summary>What lies to the left of a line, seen along its direction: the inside of a counter-clockwise outline's edge.</summary>
    public static HalfPlane LeftOf(Vec2 point, Vec2 direction) => new(point, direction.Unit.Left);

    public HalfPlane Flipped => new(Point, -Keep);

    /// <summary>mm, positive on the side that stays.</summary>
    public double Height(Vec2 p) => (p - Point).Dot(Keep);

    /// <summary>mm, the least and the greatest in a box.</summary>
    public (double Low, double High) Heights(Box2 box)
    {
        var (middle, half) = (Height(box.Centre), (Math.Abs(Keep.X) * box.Width + Math.Abs(Keep.Y) * box.Height) / 2);
        return (middle - half, middle + half);
    }

    public HalfPlane Moved(double along) => new(Point + Keep * along, Keep);
}

/// <summary>Straight cuts through outlines: what a saw does. Edges keep their names and bevels; a cut edge has neither.</summary>
public static class Clipping
{
    // A sliver smaller than this (mm2) is rounding, not wood.
    private const double LeastArea = 1e-3;

    /// <summary>The parts of a counter-clockwise outline on the kept side: none, one, or several where the cut passes through notches.</summary>
    public static ImmutableArray<Outline> Clip(this Outline outline, HalfPlane side)
    {
        // Most cuts pass an outline by: its box tells.
        var (low, high) = side.Heights(outline.Bounds);
        if (low >= -Tolerance.Length) return [outline];
        if (high <= Tolerance.Length) return [];
        var parts = Parts(outline, side);
        if (!parts.Exists(p => p.Side < 0)) return [outline];
        if (!parts.Exists(p => p.Side > 0)) return [];
        var chains = Chains(parts);
        if (chains.Count == 0) return [];
        var along = side.Keep.Right;
        var used = new bool[chains.Count];
        var pieces = ImmutableArray.CreateBuilder<Outline>();
        for (int first = 0; first < chains.Count; first++)
        {
            if (used[first]) continue;
            var edges = ImmutableArray.CreateBuilder<OutlineEdge>();
            int at = first;
            do
            {
                used[at] = true;
                foreach (var part in chains[at]) edges.Add(part.Edge);
                var exit = chains[at][^1].To;
                int next = NextAlong(chains, used, first, exit, along);
                if (!exit.IsNear(chains[next][0].Edge.Start)) edges.Add(new OutlineEdge(exit));
                at = next;
            }
            while (at != first);
            var piece = Tidy(new Outline(edges.ToImmutable()));
            if (piece.Count >= 2 && piece.SignedArea() > LeastArea) pieces.Add(piece);
        }
        return pieces.ToImmutable();
    }

    /// <summary>The parts inside every one of several cuts: an outline within a convex shape.</summary>
    public static ImmutableArray<Outline> Clip(this Outline outline, params ReadOnlySpan<HalfPlane> sides)
    {
        if (Misses(outline, sides)) return [];
        ImmutableArray<Outline> rest = [outline];
        foreach (var side in sides) rest = Each(rest, side);
        return rest;
    }

    // Most shapes lie apart: then nothing needs cutting to find that nothing is inside.
    private static bool Misses(Outline outline, ReadOnlySpan<HalfPlane> sides)
    {
        foreach (var side in sides)
            if (side.Heights(outline.Bounds) is { High: <= Tolerance.Length, Low: < -Tolerance.Length }) return true;
        return false;
    }

    private static ImmutableArray<Outline> Each(ImmutableArray<Outline> outlines, HalfPlane side)
    {
        if (outlines is [var one]) return side.Heights(one.Bounds).Low >= -Tolerance.Length ? outlines : one.Clip(side);
        var pieces = ImmutableArray.CreateBuilder<Outline>(outlines.Length);
        foreach (var outline in outlines) pieces.AddRange(outline.Clip(side));
        return pieces.DrainToImmutable();
    }

    /// <summary>What is inside the convex shape that the cuts enclose, and what is left outside it, cut along the sides in the order given.</summary>
    public static (ImmutableArray<Outline> Inside, ImmutableArray<Outline> Outside) Split(this Outline outline, params ReadOnlySpan<HalfPlane> sides)
    {
        if (Misses(outline, sides)) return ([], [outline]);
        ImmutableArray<Outline> rest = [outline];
        var outside = ImmutableArray.CreateBuilder<Outline>();
        foreach (var side in sides)
        {
            outside.AddRange(Each(rest, side.Flipped));
            rest = Each(rest, side);
            if (rest.IsEmpty) return ([], [outline]);
        }
        return (rest, outside.DrainToImmutable());
    }

    /// <summary>The four cuts of a rectangle, those across x first, so that what is left above and below stays in one piece as wide as the rectangle.</summary>
    public static HalfPlane[] Sides(this Box2 box) =>
        [new(box.Min, new(1, 0)), new(box.Max, new(-1, 0)), new(box.Min, new(0, 1)), new(box.Max, new(0, -1))];

    /// <summary>The cuts along the edges of a convex outline with straight edges, counter-clockwise.</summary>
    public static HalfPlane[] Sides(this Outline convex) => [.. convex.Segments.Where(s => s.Chord.Length > Tolerance.Length).Select(s => HalfPlane.LeftOf(s.From, s.Chord))];

    private readonly record struct Part(OutlineEdge Edge, Vec2 To, int Side);

    // Edges cut where they cross the line, each piece wholly on one side: +1 kept, -1 cut away, 0 along the cut.
    private static List<Part> Parts(Outline outline, HalfPlane side)
    {
        var parts = new List<Part>(outline.Count + 4);
        Span<double> cuts = stackalloc double[4];
        for (int i = 0; i < outline.Count; i++)
        {
            var (edge, s) = (outline.Edges[i], outline.Segment(i));
            int last = 1;
            if (!s.IsArc)
            {
                var (a, b) = (side.Height(s.From), side.Height(s.To));
                if (Math.Min(a, b) < -Tolerance.Length && Math.Max(a, b) > Tolerance.Length) cuts[last++] = a / (a - b);
            }
            else if (side.Heights(s.Reach) is { Low: <= Tolerance.Length, High: >= -Tolerance.Length })
            {
                foreach (var p in SegmentPair.LineCircle(side.Point, side.Keep.Right, s.Centre, s.Radius))
                    if (s.ArcParameter(p) is { } t && !p.IsNear(s.From, 2 * Tolerance.Length) && !p.IsNear(s.To, 2 * Tolerance.Length)) cuts[last++] = t;
            }
            (cuts[0], cuts[last]) = (0, 1);
            cuts[..(last + 1)].Sort();
            for (int k = 1; k <= last; k++)
            {
                double middle = side.Height(s.At((cuts[k - 1] + cuts[k]) / 2));
                int on = middle > Tolerance.Length ? 1 : middle < -Tolerance.Length ? -1 : 0;
                parts.Add(last == 1 ? new Part(edge, s.To, on) : new Part(edge with { Start = s.At(cuts[k - 1]), Sweep = edge.Sweep * (cuts[k] - cuts[k - 1]) }, s.At(cuts[k]), on));
            }
        }
        return parts;
    }

    private static List<List<Part>> Chains(List<Part> parts)
    {
        int start = parts.FindIndex(p => p.Side <= 0);
        var chains = new List<List<Part>>();
        List<Part>? open = null;
        for (int k = 1; k <= parts.Count; k++)
        {
            var part = parts[(start + k) % parts.Count];
            if (part.Side <= 0) { open = null; continue; }
            if (open is null) chains.Add(open = []);
            open.Add(part);
        }
        return chains;
    }

    // The outline leaves the kept side at one place and comes back at the next one along the cut: between the two runs the new edge.
    private static int NextAlong(List<List<Part>> chains, bool[] used, int first, Vec2 exit, Vec2 along)
    {
        int best = first;
        double nearest = double.PositiveInfinity;
        for (int k = 0; k < chains.Count; k++)
        {
            if (used[k] && k != first) continue;
            double way = (chains[k][0].Edge.Start - exit).Dot(along);
            if (way < -4 * Tolerance.Length || way >= nearest) continue;
            (best, nearest) = (k, way);
        }
        return best;
    }

    // Edges of no length go, and straight runs of one kind become one edge.
    private static Outline Tidy(Outline outline)
    {
        var edges = new List<OutlineEdge>(outline.Count);
        for (int i = 0; i < outline.Count; i++)
            if (outline.Edges[i].Sweep != 0 || outline.Segment(i).Chord.Length > Tolerance.Length) edges.Add(outline.Edges[i]);
        for (int i = 0; edges.Count > 3 && i < edges.Count;)
        {
            var (before, here, after) = (edges[(i + edges.Count - 1) % edges.Count], edges[i], edges[(i + 1) % edges.Count]);
            bool same = before.Sweep == 0 && here.Sweep == 0 && before.Name == here.Name && before.Tilt == here.Tilt;
            var (a, b) = (here.Start - before.Start, after.Start - here.Start);
            if (same && a.Dot(b) > 0 && Math.Abs(a.Cross(b)) <= Tolerance.Length * Math.Max(a.Length, b.Length)) edges.RemoveAt(i);
            else i++;
        }
        return edges.Count == outline.Count ? outline : new Outline([.. edges]);
    }
}
