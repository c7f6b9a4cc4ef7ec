using System.Collections.Immutable;

namespace Wain.Core.Geometry.Kernel;

/// <summary>Two edges of one outline that meet where they should not, and where.</summary>
public sealed record Crossing(int EdgeA, int EdgeB, Vec2 At);

public static class OutlineQueries
{
    /// <summary>
    /// Every place where two edges meet other than at the corner they share: crossings, touches, and edges folded back on each other.
    /// An edge of no length is reported as meeting itself. Empty for a simple outline.
    /// </summary>
    public static ImmutableArray<Crossing> Crossings(this Outline outline, double tolerance = Tolerance.Length)
    {
        var found = ImmutableArray.CreateBuilder<Crossing>();
        var segments = outline.Segments.ToArray();
        var bounds = segments.Select(s => s.Bounds.Grown(tolerance)).ToArray();
        var byLeft = new int[segments.Length];
        for (var i = 0; i < byLeft.Length; i++) byLeft[i] = i;
        Array.Sort(Array.ConvertAll(bounds, b => b.Min.X), byLeft);
        for (var i = 0; i < segments.Length; i++)
            if (segments[i].Chord.Length <= tolerance) found.Add(new(i, i, segments[i].From));
        for (var a = 0; a < byLeft.Length; a++)
            for (var b = a + 1; b < byLeft.Length && bounds[byLeft[b]].Min.X <= bounds[byLeft[a]].Max.X; b++)
            {
                var (i, j) = (Math.Min(byLeft[a], byLeft[b]), Math.Max(byLeft[a], byLeft[b]));
                if (!bounds[i].Touches(bounds[j]) || MeetAtTheirCornerAlone(outline, segments, i, j, tolerance)) continue;
                foreach (var p in SegmentPair.Meet(segments[i], segments[j], tolerance))
                {
                    var shared = (outline.Next(i) == j && p.IsNear(segments[j].From, 4 * tolerance)) || (outline.Next(j) == i && p.IsNear(segments[i].From, 4 * tolerance));
                    if (!shared) found.Add(new(i, j, p));
                }
            }
        found.Sort((x, y) => (x.EdgeA, x.EdgeB, x.At.X, x.At.Y).CompareTo((y.EdgeA, y.EdgeB, y.At.X, y.At.Y)));
        return found.ToImmutable();
    }

    // Straight neighbours whose other ends are clear of each other have nothing in common but their corner: most pairs of most outlines.
    private static bool MeetAtTheirCornerAlone(Outline outline, Segment[] segments, int i, int j, double tolerance)
    {
        var (a, b) = (segments[i], segments[j]);
        if (a.IsArc || b.IsArc || segments.Length < 3 || outline.Next(i) != j && outline.Next(j) != i) return false;
        return Math.Abs(a.Chord.Cross(b.Chord)) > 8 * tolerance * Math.Max(a.Chord.Length, b.Chord.Length);
    }

    public static double DistanceToEdges(this Outline outline, Vec2 p)
    {
        double least = double.PositiveInfinity;
        foreach (var s in outline.Segments)
            if (s.Reach.DistanceTo(new Box2(p, p)) < least) least = Math.Min(least, s.DistanceTo(p));
        return least;
    }

    /// <summary>True for a point inside or, within the tolerance (mm), on the edge.</summary>
    public static bool Contains(this Outline outline, Vec2 p, double tolerance = Tolerance.Length)
    {
        var inside = false;
        foreach (var s in outline.Segments)
        {
            bool near = s.Reach.Grown(tolerance).Holds(p);
            if (near && s.DistanceTo(p) <= tolerance) return true;
            // Crossing count of the chord polygon; what lies between a chord and its arc changes sides.
            if (s.From.Y > p.Y != s.To.Y > p.Y && p.X < s.From.X + (p.Y - s.From.Y) / (s.To.Y - s.From.Y) * (s.To.X - s.From.X)) inside = !inside;
            if (near && s.BetweenArcAndChord(p)) inside = !inside;
        }
        return inside;
    }

    /// <summary>mm from p to the edge, negative inside.</summary>
    public static double SignedDistance(this Outline outline, Vec2 p) =>
        outline.Contains(p, 0) ? -outline.DistanceToEdges(p) : outline.DistanceToEdges(p);

    /// <summary>mm between two outlined areas; 0 when they touch or overlap.</summary>
    public static double DistanceTo(this Outline a, Outline b) =>
        a.Contains(b.Edges[0].Start) || b.Contains(a.Edges[0].Start) ? 0 : a.EdgeDistance(b).Distance;

    /// <summary>The least distance between the edges of two outlines, one inside the other or not, with the edges and the points.</summary>
    public static (double Distance, int EdgeA, int EdgeB, Vec2 OnA, Vec2 OnB) EdgeDistance(this Outline a, Outline b)
    {
        var best = (Distance: double.PositiveInfinity, EdgeA: -1, EdgeB: -1, OnA: default(Vec2), OnB: default(Vec2));
        for (var i = 0; i < a.Count; i++)
            for (var j = 0; j < b.Count; j++)
            {
                var (from, to) = (a.Segment(i), b.Segment(j));
                if (from.Reach.DistanceTo(to.Reach) >= best.Distance) continue;
                var (p, q) = SegmentPair.Nearest(from, to);
                if (p.DistanceTo(q) < best.Distance) best = (p.DistanceTo(q), i, j, p, q);
            }
        return best;
    }

    /// <summary>True when all of <paramref name="inner"/> lies inside, edges allowed to touch.</summary>
    public static bool Contains(this Outline outer, Outline inner, double tolerance = Tolerance.Length)
    {
        ReadOnlySpan<double> ends = [0, 1];
        var cuts = new List<double>(4);
        // Split at every meeting, each piece of the inner edge lies wholly in or out, so its middle tells.
        foreach (var s in inner.Segments)
        {
            cuts.Clear();
            cuts.AddRange(ends);
            foreach (var o in outer.Segments)
                foreach (var p in SegmentPair.Meet(s, o, tolerance))
                    if ((s.IsArc ? s.ArcParameter(p) : Math.Clamp((p - s.From).Dot(s.Chord) / s.Chord.LengthSquared, 0, 1)) is { } t) cuts.Add(t);
            cuts.Sort();
            for (var i = 1; i < cuts.Count; i++)
                if (!outer.Contains(s.At((cuts[i - 1] + cuts[i]) / 2), 2 * tolerance)) return false;
        }
        return outer.Contains(inner.Edges[0].Start, tolerance);
    }

    /// <summary>The greatest distance between two points of the outline (mm): what a sheet's diagonal must exceed.</summary>
    public static double LongestChord(this Outline outline)
    {
        var segments = outline.Segments.ToArray();
        var best = 0.0;
        for (var i = 0; i < segments.Length; i++)
            for (var j = i; j < segments.Length; j++)
                best = Math.Max(best, i == j ? LongestWithin(segments[i]) : SegmentPair.Farthest(segments[i], segments[j]));
        return best;

        static double LongestWithin(Segment s) => Math.Abs(s.Sweep) >= Math.PI ? 2 * s.Radius : s.Chord.Length;
    }

    /// <summary>Straight edges only, each arc by equal chords whose sagitta is at most the tolerance (mm), corners on the arc. Names and tilts go to every piece.</summary>
    public static Outline Flattened(this Outline outline, double sagitta) =>
        outline.HasArcs ? new([.. Enumerable.Range(0, outline.Count).SelectMany(i => Pieces(outline, i, sagitta))]) : outline;

    private static IEnumerable<OutlineEdge> Pieces(Outline outline, int i, double sagitta)
    {
        var (edge, s) = (outline.Edges[i], outline.Segment(i));
        var pieces = 1;
        if (s.IsArc)
        {
            // sagitta of a chord over angle w is r (1 - cos(w/2)) = 2 r sin2(w/4).
            var widest = 4 * Math.Asin(Math.Min(1, Math.Sqrt(sagitta / (2 * s.Radius))));
            pieces = Math.Clamp((int)Math.Ceiling(Math.Abs(s.Sweep) / widest), 1, 100_000);
        }
        for (var k = 0; k < pieces; k++) yield return edge with { Start = s.At((double)k / pieces), Sweep = 0 };
    }
}
