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
        var room = _room ??= new Room();
        var parts = Parts(outline, side, room.Parts);
        bool cutAway = false, kept = false;
        foreach (var part in parts) (cutAway, kept) = (cutAway || part.Side < 0, kept || part.Side > 0);
        if (!cutAway) return [outline];
        if (!kept) return [];
        var runs = Runs(parts, room.Runs);
        var along = side.Keep.Right;
        Span<bool> used = runs.Count <= 64 ? stackalloc bool[runs.Count] : new bool[runs.Count];
        used.Clear();
        var pieces = ImmutableArray.CreateBuilder<Outline>(1);
        var edges = room.Edges;
        for (int first = 0; first < runs.Count; first++)
        {
            if (used[first]) continue;
            edges.Clear();
            int at = first;
            do
            {
                used[at] = true;
                var (from, count) = runs[at];
                for (int k = 0; k < count; k++) edges.Add(parts[(from + k) % parts.Count].Edge);
                var exit = parts[(from + count - 1) % parts.Count].To;
                int next = NextAlong(parts, runs, used, first, exit, along);
                if (!exit.IsNear(parts[runs[next].From].Edge.Start)) edges.Add(new OutlineEdge(exit));
                at = next;
            }
            while (at != first);
            Tidy(edges);
            var piece = new Outline([.. edges]);
            if (piece.Count >= 2 && piece.SignedArea() > LeastArea) pieces.Add(piece);
        }
        return pieces.DrainToImmutable();
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
    internal static bool Misses(Outline outline, ReadOnlySpan<HalfPlane> sides)
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

    // A frame is cut out of its panel with some hundred cuts, and each would leave these lists behind: they are used again.
    private sealed class Room
    {
        public List<Part> Parts { get; } = [];

        public List<(int From, int Count)> Runs { get; } = [];

        public List<OutlineEdge> Edges { get; } = [];
    }

    [ThreadStatic]
    private static Room? _room;

    private readonly record struct Part(OutlineEdge Edge, Vec2 To, int Side);

    // Edges cut where they cross the line, each piece wholly on one side: +1 kept, -1 cut away, 0 along the cut.
    private static List<Part> Parts(Outline outline, HalfPlane side, List<Part> parts)
    {
        parts.Clear();
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

    // Stretches of parts on the kept side, each by its first part and how many it has, going round.
    private static List<(int From, int Count)> Runs(List<Part> parts, List<(int From, int Count)> runs)
    {
        int start = parts.FindIndex(p => p.Side <= 0);
        runs.Clear();
        bool open = false;
        for (int k = 1; k <= parts.Count; k++)
        {
            int at = (start + k) % parts.Count;
            if (parts[at].Side <= 0) open = false;
            else if (open) runs[^1] = (runs[^1].From, runs[^1].Count + 1);
            else
            {
                runs.Add((at, 1));
                open = true;
            }
        }
        return runs;
    }

    // The outline leaves the kept side at one place and comes back at the next one along the cut: between the two runs the new edge.
    private static int NextAlong(List<Part> parts, List<(int From, int Count)> runs, ReadOnlySpan<bool> used, int first, Vec2 exit, Vec2 along)
    {
        int best = first;
        double nearest = double.PositiveInfinity;
        for (int k = 0; k < runs.Count; k++)
        {
            if (used[k] && k != first) continue;
            double way = (parts[runs[k].From].Edge.Start - exit).Dot(along);
            if (way < -4 * Tolerance.Length || way >= nearest) continue;
            (best, nearest) = (k, way);
        }
        return best;
    }

    // Edges of no length go, and straight runs of one kind become one edge.
    private static void Tidy(List<OutlineEdge> edges)
    {
        for (int i = edges.Count - 1; i >= 0; i--)
            if (edges[i].Sweep == 0 && (edges[(i + 1) % edges.Count].Start - edges[i].Start).Length <= Tolerance.Length) edges.RemoveAt(i);
        for (int i = 0; edges.Count > 3 && i < edges.Count;)
        {
            var (before, here, after) = (edges[(i + edges.Count - 1) % edges.Count], edges[i], edges[(i + 1) % edges.Count]);
            bool same = before.Sweep == 0 && here.Sweep == 0 && before.Name == here.Name && before.Tilt == here.Tilt;
            var (a, b) = (here.Start - before.Start, after.Start - here.Start);
            if (same && a.Dot(b) > 0 && Math.Abs(a.Cross(b)) <= Tolerance.Length * Math.Max(a.Length, b.Length)) edges.RemoveAt(i);
            else i++;
        }
    }
}
