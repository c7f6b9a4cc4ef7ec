using System.Collections.Immutable;

namespace Wain.Core.Geometry.Kernel;

public enum OffsetFailure
{
    /// <summary>Nothing is left: the edges closed up on each other.</summary>
    Collapsed,

    /// <summary>The outline runs into itself, so that it would fall into parts or overlap.</summary>
    MeetsItself,
}

/// <summary>
/// An outline moved edge by edge. <see cref="Outline"/> is null when <see cref="Failure"/> says why. <see cref="Sources"/> gives for each new edge
/// the old edge that it comes from, or -1 for a short step between two edges in one line that moved by different amounts. <see cref="Vanished"/>
/// lists old edges that closed up. <see cref="Part"/> is the part of the asked distance (0 to 1) up to which it works: 1 when it does.
/// </summary>
public sealed record OffsetResult(
    Outline? Outline, ImmutableArray<int> Sources, ImmutableArray<int> Vanished, OffsetFailure? Failure = null, double Part = 1, ImmutableArray<Crossing> Crossings = default);

/// <summary>
/// True offset: every edge moves square to itself, corners stay mitred (the moved edges run on until they meet), arcs keep their centre.
/// The outline must be counter-clockwise and simple; distances are mm, positive outward.
/// </summary>
public static class Offsetting
{
    public static OffsetResult Offset(this Outline outline, double outward) => outline.Offset(_ => outward);

    /// <summary>The outline at a depth (mm) below the outside face, by the edges' tilts.</summary>
    public static OffsetResult AtDepth(this Outline outline, double depth) => outline.Offset(i => depth * Math.Tan(outline.Edges[i].Tilt));

    public static OffsetResult Offset(this Outline outline, Func<int, double> outward)
    {
        var distances = new double[outline.Count];
        for (var i = 0; i < distances.Length; i++) distances[i] = outward(i);
        if (Array.TrueForAll(distances, d => d == 0)) return new(outline, [.. Enumerable.Range(0, outline.Count)], []);
        var result = Whole(outline, distances, 1);
        if (result.Failure is null) return result;
        // Bisection for the distance that still works, so that the message can state it.
        var (good, bad) = (0.0, 1.0);
        for (var step = 0; step < 40; step++)
        {
            var middle = (good + bad) / 2;
            if (Whole(outline, distances, middle).Failure is null) good = middle; else bad = middle;
        }
        return result with { Part = good };
    }

    private static OffsetResult Whole(Outline outline, double[] distances, double part)
    {
        var left = Enumerable.Range(0, outline.Count).ToList();
        var vanished = new List<int>();
        while (true)
        {
            if (left.Count < 2) return Fail(OffsetFailure.Collapsed);
            var moved = Moved(outline, distances, left, part, out var parted);
            if (moved is null) return Fail(parted);
            var closed = new List<int>(0);
            for (var k = 0; k < left.Count; k++) if (HasClosed(outline, distances, left, moved, k, part)) closed.Add(k);
            if (closed.Count == 0) return Finish(moved);
            // Only the edge that closes first is truly gone; without it the others may live on.
            var first = closed.MinBy(k => ClosesAt(outline, distances, left, k, part));
            vanished.Add(left[first]);
            left.RemoveAt(first);
        }

        OffsetResult Fail(OffsetFailure why, ImmutableArray<Crossing> crossings = default) => new(null, [], [.. vanished], why, part, crossings);

        OffsetResult Finish(List<(OutlineEdge Edge, int Source)> moved)
        {
            var result = new Outline([.. moved.Select(m => m.Edge)]);
            if (result.Count < 3 && !result.HasArcs || result.SignedArea() <= Tolerance.Length * Tolerance.Length) return Fail(OffsetFailure.Collapsed);
            var crossings = result.Crossings();
            if (crossings.Length > 0) return Fail(OffsetFailure.MeetsItself, crossings);
            return new(result, [.. moved.Select(m => m.Source)], [.. vanished.Order()]);
        }
    }

    // The moved edges that are left, with corners where neighbours meet; null when two neighbours run parallel towards nothing.
    private static List<(OutlineEdge Edge, int Source)>? Moved(Outline outline, double[] distances, List<int> left, double part, out OffsetFailure parted)
    {
        parted = OffsetFailure.Collapsed;
        var corners = new (Vec2 End, Vec2 Start)[left.Count];
        for (var k = 0; k < left.Count; k++)
        {
            var before = left[k == 0 ? left.Count - 1 : k - 1];
            if (Corner(outline, distances, before, left[k], part) is not { } corner)
            {
                // Sides that face each other across the panel have closed it up; sides of a notch have run into each other.
                var (a, b) = (outline.Segment(before), outline.Segment(left[k]));
                if (a.Tangent(1).Cross(b.From - a.To) <= 0) parted = OffsetFailure.MeetsItself;
                return null;
            }
            corners[k] = corner;
        }
        var moved = new List<(OutlineEdge, int)>(left.Count);
        for (var k = 0; k < left.Count; k++)
        {
            var (end, start) = corners[k];
            if (!end.IsNear(start)) moved.Add((new OutlineEdge(end), -1));
            var i = left[k];
            var to = corners[k + 1 == left.Count ? 0 : k + 1].End;
            moved.Add((outline.Edges[i] with { Start = start, Sweep = SweepOf(outline.Segment(i), start, to) }, i));
        }
        return moved;
    }

    // An arc keeps its centre, so its sweep follows from its new ends; taken within half a turn of the old, a closed-up arc shows as a turned sign.
    private static double SweepOf(Segment old, Vec2 from, Vec2 to)
    {
        if (!old.IsArc) return 0;
        var (a, b) = (from - old.Centre, to - old.Centre);
        var sweep = Math.Atan2(a.Cross(b), a.Dot(b));
        while (sweep < old.Sweep - Math.PI) sweep += 2 * Math.PI;
        while (sweep > old.Sweep + Math.PI) sweep -= 2 * Math.PI;
        return sweep == 0 ? -Math.Sign(old.Sweep) * double.Epsilon : sweep;
    }

    private static double RadiusOf(Segment old, double distance) => old.Radius + Math.Sign(old.Sweep) * distance;

    private static (Vec2 End, Vec2 Start)? Corner(Outline outline, double[] distances, int i, int j, double part)
    {
        var (a, b) = (outline.Segment(i), outline.Segment(j));
        var (da, db) = (distances[i] * part, distances[j] * part);
        var adjacent = outline.Next(i) == j;
        var (endA, startB) = (Shifted(a, da, 1), Shifted(b, db, 0));
        var (ta, tb) = (a.Tangent(1), b.Tangent(0));
        // A smooth joint moves along the one normal that both edges have there.
        if (adjacent && Math.Abs(ta.Cross(tb)) <= 1e-7 && ta.Dot(tb) > 0) return (endA, startB);
        if (!a.IsArc && !b.IsArc) return SegmentPair.LineLine(endA, a.Chord, startB, b.Chord) is { } p ? (p, p) : null;
        Vec2[] meets;
        if (!a.IsArc) meets = SegmentPair.LineCircle(endA, a.Chord, b.Centre, Math.Abs(RadiusOf(b, db)));
        else if (!b.IsArc) meets = SegmentPair.LineCircle(startB, b.Chord, a.Centre, Math.Abs(RadiusOf(a, da)));
        else meets = SegmentPair.CircleCircle(a.Centre, Math.Abs(RadiusOf(a, da)), b.Centre, Math.Abs(RadiusOf(b, db)));
        if (meets.Length > 0)
        {
            var near = adjacent ? b.From : endA.Lerp(startB, 0.5);
            var corner = meets.MinBy(m => m.DistanceTo(near));
            return (corner, corner);
        }
        // Circles that no longer reach each other get a straight step; parallel lines that a vanished edge parted have no corner at all.
        return adjacent && (a.IsArc || b.IsArc) ? (endA, startB) : null;
    }

    private static Vec2 Shifted(Segment s, double distance, double t) => s.At(t) + s.Tangent(t).Right * distance;

    private static bool HasClosed(Outline outline, double[] distances, List<int> left, List<(OutlineEdge Edge, int Source)> moved, int k, double part)
    {
        var (i, at) = (left[k], 0);
        while (moved[at].Source != i) at++;
        var (edge, to) = (moved[at].Edge, moved[(at + 1) % moved.Count].Edge.Start);
        var old = outline.Segment(i);
        if (!old.IsArc) return (to - edge.Start).Dot(old.Chord) <= Tolerance.Length * old.Chord.Length;
        var radius = RadiusOf(old, distances[i] * part);
        return radius <= Tolerance.Length || edge.Sweep * Math.Sign(old.Sweep) * radius <= Tolerance.Length;
    }

    private static double ClosesAt(Outline outline, double[] distances, List<int> left, int k, double part)
    {
        var (good, bad) = (0.0, part);
        for (var step = 0; step < 50; step++)
        {
            var middle = (good + bad) / 2;
            var moved = Moved(outline, distances, left, middle, out _);
            if (moved is not null && !HasClosed(outline, distances, left, moved, k, middle)) good = middle; else bad = middle;
        }
        return good;
    }
}
