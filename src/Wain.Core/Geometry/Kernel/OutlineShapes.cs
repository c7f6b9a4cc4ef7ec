namespace Wain.Core.Geometry.Kernel;

/// <summary>Why a corner can't be rounded: the arc takes <paramref name="Needed"/> mm from the edge's length, which has <paramref name="Available"/> mm left.</summary>
public sealed record RoundingFailure(int Corner, int Edge, double Radius, double Needed, double Available, double LargestRadius);

public sealed record RoundingResult(Outline? Outline, RoundingFailure? Failure = null);

/// <summary>Outlines with rounded corners.</summary>
public static class OutlineShapes
{
    /// <summary>Corners between two straight edges rounded with arcs tangent to both; corner i is the start of edge i and radius 0 leaves it sharp.
    /// An arc that does not fit its edges is a failure with the numbers. The arc carries the name of no edge and the tilt of none.</summary>
    public static RoundingResult Rounded(this Outline outline, Func<int, double> radius)
    {
        var radii = Enumerable.Range(0, outline.Count).Select(radius).ToArray();
        var setback = new double[outline.Count];
        var half = new double[outline.Count];
        for (var i = 0; i < outline.Count; i++)
        {
            if (radii[i] <= 0) continue;
            var (a, b) = (outline.Segment(outline.Previous(i)), outline.Segment(i));
            if (a.IsArc || b.IsArc) return new(null, new(i, a.IsArc ? outline.Previous(i) : i, radii[i], double.PositiveInfinity, 0, 0));
            var turn = Math.Atan2(a.Chord.Cross(b.Chord), a.Chord.Dot(b.Chord));
            half[i] = turn / 2;
            setback[i] = radii[i] * Math.Abs(Math.Tan(half[i]));
        }
        for (var e = 0; e < outline.Count; e++)
        {
            var (at, next) = (e, outline.Next(e));
            var needed = setback[at] + setback[next];
            var length = outline.Segment(e).Chord.Length;
            if (needed <= length + Tolerance.Length) continue;
            var corner = setback[at] >= setback[next] ? at : next;
            // The largest radius with the other corner of the edge left as it is.
            var largest = Math.Max(0, length - (needed - setback[corner])) / Math.Abs(Math.Tan(half[corner]));
            return new(null, new(corner, e, radii[corner], needed, length, largest));
        }
        var edges = new List<OutlineEdge>();
        for (var i = 0; i < outline.Count; i++)
        {
            var (edge, s, before) = (outline.Edges[i], outline.Segment(i), outline.Segment(outline.Previous(i)));
            var start = edge.Start;
            if (setback[i] > 0)
            {
                edges.Add(new(edge.Start - before.Chord.Unit * setback[i], 2 * half[i]));
                start += s.Chord.Unit * setback[i];
            }
            var end = s.To - s.Chord.Unit * setback[outline.Next(i)];
            // Two arcs that use an edge up leave no straight piece between them.
            if (s.IsArc || (end - start).Dot(s.Chord) > Tolerance.Length * s.Chord.Length) edges.Add(edge with { Start = start });
        }
        return new(new([.. edges]));
    }

    /// <summary>A rectangle with all corners of one radius, as an opening is cut.</summary>
    public static RoundingResult RoundedRectangle(Vec2 min, Vec2 max, double radius) => Outline.Rectangle(min, max).Rounded(_ => radius);
}
