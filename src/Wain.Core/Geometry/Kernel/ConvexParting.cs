using System.Collections.Immutable;

namespace Wain.Core.Geometry.Kernel;

/// <summary>Splits outlines of straight edges into convex ones.</summary>
public static class ConvexParting
{
    /// <summary>
    /// Convex outlines that together are the whole. At each inward corner an edge is carried on across the outline; the cut keeps that edge's tilt, so the
    /// parts stay true at every depth. Null when the outline has arcs, crosses itself or runs clockwise.
    /// </summary>
    public static ImmutableArray<Outline>? ConvexParts(this Outline outline)
    {
        if (outline.HasArcs || outline.Count < 3 || outline.SignedArea() <= 0) return null;
        if (IsConvex(outline)) return [outline];
        if (outline.Crossings().Length > 0) return null;
        var parts = ImmutableArray.CreateBuilder<Outline>();
        var open = new Stack<Outline>([outline]);
        // Every cut straightens an inward corner, so more cuts than edges means that rounding has got hold of a shape too thin to part.
        for (var cuts = 0; cuts <= 4 * outline.Count && open.TryPop(out var next); cuts++)
        {
            if (InwardCorner(next) is not { } corner) { parts.Add(next); continue; }
            if (Split(next, corner) is not { } split) return null;
            // A part that has fewer than three edges of any length is a sliver along the cut, with no area.
            if (split.Right is { } right) open.Push(right);
            if (split.Left is { } left) open.Push(left);
        }
        return open.Count > 0 ? null : parts.ToImmutable();
    }

    public static bool IsConvex(this Outline outline) => !outline.HasArcs && outline.SignedArea() > 0 && InwardCorner(outline) is null;

    private static double Turn(Outline o, int i)
    {
        var (a, b) = (o.Segment(o.Previous(i)).Chord, o.Segment(i).Chord);
        return Math.Atan2(a.Cross(b), a.Dot(b));
    }

    private static int? InwardCorner(Outline o)
    {
        for (var i = 0; i < o.Count; i++)
            // Edges in one line but with unlike tilts meet in a ridge or a valley; a valley is an inward corner too.
            if (Turn(o, i) is var turn && (turn < -Tolerance.Angle || turn < Tolerance.Angle && o.Edges[i].Tilt != o.Edges[o.Previous(i)].Tilt)) return i;
        return null;
    }

    private static (Outline? Left, Outline? Right)? Split(Outline o, int corner)
    {
        var before = o.Previous(corner);
        var (from, along) = (o.Edges[corner].Start, o.Segment(before).Chord.Unit);
        var straight = Math.Abs(Turn(o, corner)) <= Tolerance.Angle;
        // Edges in one line give no direction to carry on: cut square across.
        if (straight) along = along.Left;
        var (hit, at, reach) = (-1, default(Vec2), double.PositiveInfinity);
        for (var k = 0; k < o.Count; k++)
        {
            if (k == corner || k == before) continue;
            var s = o.Segment(k);
            if (SegmentPair.LineLine(from, along, s.From, s.Chord) is not { } p) continue;
            var distance = (p - from).Dot(along);
            if (distance <= Tolerance.Length || distance >= reach || s.DistanceTo(p) > Tolerance.Length) continue;
            (hit, at, reach) = (k, p, distance);
        }
        if (hit < 0) return null;
        var tilt = straight ? 0 : o.Edges[before].Tilt;
        // Going on from the corner along the cut, the left part keeps the edge's own side of its plane.
        var left = Loop(o, hit, before, at, [new OutlineEdge(from, 0, null, tilt)]);
        var right = Loop(o, corner, hit, from, []);
        // The right part is closed by the cut walked back, with the plane's other side.
        right = new(right.Edges.Add(new OutlineEdge(at, 0, null, -tilt)));
        return (Clean(left), Clean(right));
    }

    // Edges first to last round the outline, the first starting at a given point, then more edges.
    private static Outline Loop(Outline o, int first, int last, Vec2 start, ImmutableArray<OutlineEdge> more)
    {
        var edges = ImmutableArray.CreateBuilder<OutlineEdge>();
        edges.Add(o.Edges[first] with { Start = start });
        for (var i = first; i != last;)
        {
            i = o.Next(i);
            edges.Add(o.Edges[i]);
        }
        edges.AddRange(more);
        return new(edges.ToImmutable());
    }

    private static Outline? Clean(Outline o)
    {
        var edges = Enumerable.Range(0, o.Count).Where(i => o.Segment(i).Chord.Length > Tolerance.Length).Select(i => o.Edges[i]).ToList();
        // The carried-on edge and its cut are one edge.
        for (var i = edges.Count - 1; i >= 0 && edges.Count > 3; i--)
        {
            var (p, e, n) = (edges[(i + edges.Count - 1) % edges.Count], edges[i], edges[(i + 1) % edges.Count]);
            var (a, b) = (e.Start - p.Start, n.Start - e.Start);
            if (p.Tilt == e.Tilt && Math.Abs(a.Cross(b)) <= Tolerance.Angle * a.Length * b.Length && a.Dot(b) > 0) edges.RemoveAt(i);
        }
        return edges.Count < 3 ? null : new([.. edges]);
    }
}
