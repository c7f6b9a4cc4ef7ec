namespace Wain.Core.Geometry.Kernel;

/// <summary>Where two segments meet and how far apart or how far across they are. Lines and arcs in every combination.</summary>
public static class SegmentPair
{
    /// <summary>
    /// The points in both segments, within a tolerance. Segments that run together over a length give the two ends of that length.
    /// </summary>
    public static IReadOnlyList<Vec2> Meet(Segment a, Segment b, double tolerance = Tolerance.Length) => a.Reach.Grown(2 * tolerance).Touches(b.Reach) ? Meets(a, b, tolerance) : [];

    private static IReadOnlyList<Vec2> Meets(Segment a, Segment b, double tolerance)
    {
        List<Vec2>? found = null;
        void Add(Vec2 p)
        {
            if (a.DistanceTo(p) > tolerance || b.DistanceTo(p) > tolerance) return;
            found ??= new(2);
            foreach (var q in found) if (q.IsNear(p, 2 * tolerance)) return;
            found.Add(p);
        }
        // Ends that touch come first: they catch shared corners and runs together, where the equations below are singular.
        Add(a.From); Add(a.To); Add(b.From); Add(b.To);
        if (!a.IsArc && !b.IsArc)
        {
            if (LineLine(a.From, a.Chord, b.From, b.Chord) is { } cross) Add(cross);
        }
        else foreach (var p in CarrierMeet(a, b)) Add(p);
        return (IReadOnlyList<Vec2>?)found ?? [];
    }

    /// <summary>Where the whole lines or circles that carry two segments cross: 0, 1 or 2 points. Parallel lines and one same circle give none.</summary>
    public static Vec2[] CarrierMeet(Segment a, Segment b)
    {
        if (!a.IsArc && !b.IsArc) return LineLine(a.From, a.Chord, b.From, b.Chord) is { } p ? [p] : [];
        if (!a.IsArc) return LineCircle(a.From, a.Chord, b.Centre, b.Radius);
        if (!b.IsArc) return LineCircle(b.From, b.Chord, a.Centre, a.Radius);
        return CircleCircle(a.Centre, a.Radius, b.Centre, b.Radius);
    }

    internal static Vec2? LineLine(Vec2 p, Vec2 d, Vec2 q, Vec2 e)
    {
        var cross = d.Cross(e);
        return Math.Abs(cross) <= Tolerance.Angle * d.Length * e.Length ? null : p + d * ((q - p).Cross(e) / cross);
    }

    internal static Vec2[] LineCircle(Vec2 p, Vec2 d, Vec2 centre, double radius)
    {
        var along = d.Unit;
        var foot = p + along * (centre - p).Dot(along);
        var miss = foot.DistanceTo(centre);
        if (along == default || miss > radius + Tolerance.Length) return [];
        var half = Math.Sqrt(Math.Max(0, (radius - miss) * (radius + miss)));
        return half == 0 ? [foot] : [foot - along * half, foot + along * half];
    }

    internal static Vec2[] CircleCircle(Vec2 a, double ra, Vec2 b, double rb)
    {
        var apart = a.DistanceTo(b);
        if (apart <= Tolerance.Length || apart > ra + rb + Tolerance.Length || apart < Math.Abs(ra - rb) - Tolerance.Length) return [];
        var along = (b - a) / apart;
        var reach = (apart * apart + (ra - rb) * (ra + rb)) / (2 * apart);
        var half = Math.Sqrt(Math.Max(0, (ra - reach) * (ra + reach)));
        var foot = a + along * reach;
        return half == 0 ? [foot] : [foot - along.Left * half, foot + along.Left * half];
    }

    /// <summary>The nearest two points, one on each segment.</summary>
    public static (Vec2 OnA, Vec2 OnB) Nearest(Segment a, Segment b)
    {
        if (Meet(a, b) is [var meet, ..]) return (meet, meet);
        return Apart(a, b);
    }

    private static (Vec2 OnA, Vec2 OnB) Apart(Segment a, Segment b)
    {
        var best = (OnA: a.From, OnB: b.Nearest(a.From));
        void Try(Vec2 onA, Vec2 onB)
        {
            if (onA.DistanceTo(onB) < best.OnA.DistanceTo(best.OnB)) best = (onA, onB);
        }
        Try(a.To, b.Nearest(a.To));
        Try(a.Nearest(b.From), b.From);
        Try(a.Nearest(b.To), b.To);
        foreach (var (onA, onB) in CommonNormals(a, b)) Try(onA, onB);
        return best;
    }

    public static double Distance(Segment a, Segment b)
    {
        var (p, q) = Nearest(a, b);
        return p.DistanceTo(q);
    }

    /// <summary>The greatest distance from a point of one to a point of the other.</summary>
    public static double Farthest(Segment a, Segment b)
    {
        var best = Math.Max(Math.Max(a.From.DistanceTo(b.From), a.From.DistanceTo(b.To)), Math.Max(a.To.DistanceTo(b.From), a.To.DistanceTo(b.To)));
        foreach (var (onA, onB) in CommonNormals(a, b)) best = Math.Max(best, onA.DistanceTo(onB));
        foreach (var (arc, other) in (ReadOnlySpan<(Segment, Segment)>)[(a, b), (b, a)])
        {
            if (!arc.IsArc) continue;
            foreach (var end in (ReadOnlySpan<Vec2>)[other.From, other.To])
            {
                var across = arc.Centre + (arc.Centre - end).Unit * arc.Radius;
                if (arc.ArcParameter(across, 0) is not null) best = Math.Max(best, across.DistanceTo(end));
            }
        }
        return best;
    }

    /// <summary>Pairs of inner points whose joining line stands square on both segments: where a distance has its inner extremes.</summary>
    private static List<(Vec2, Vec2)> CommonNormals(Segment a, Segment b)
    {
        if (!a.IsArc && !b.IsArc) return [];
        var pairs = new List<(Vec2, Vec2)>();
        Vec2 direction;
        if (a.IsArc && b.IsArc) direction = (b.Centre - a.Centre).Unit;
        else direction = (a.IsArc ? b : a).Chord.Unit.Left;
        if (direction == default) return pairs;
        foreach (var p in Feet(a, b, direction))
            foreach (var q in Feet(b, a, direction))
                pairs.Add((p, q));
        return pairs;

        static List<Vec2> Feet(Segment s, Segment other, Vec2 direction)
        {
            var feet = new List<Vec2>();
            if (!s.IsArc)
            {
                var t = (other.Centre - s.From).Dot(s.Chord) / s.Chord.LengthSquared;
                if (t is >= 0 and <= 1) feet.Add(s.At(t));
                return feet;
            }
            foreach (var p in (ReadOnlySpan<Vec2>)[s.Centre + direction * s.Radius, s.Centre - direction * s.Radius])
                if (s.ArcParameter(p, 0) is not null) feet.Add(p);
            return feet;
        }
    }
}
