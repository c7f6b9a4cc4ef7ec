namespace Wain.Core.Geometry.Kernel;

/// <summary>
/// Integrals over a plane area: Area = int dA (mm2), Sx = int x dA, Sy = int y dA (mm3), Sxx = int x2 dA, Syy = int y2 dA, Sxy = int xy dA (mm4),
/// all about the origin of the coordinates. Holes and clockwise outlines count negative, so areas add by adding their moments.
/// </summary>
public readonly record struct Moments(double Area, double Sx, double Sy, double Sxx, double Syy, double Sxy)
{
    public Vec2 Centroid => Area == 0 ? default : new(Sx / Area, Sy / Area);

    public static Moments operator +(Moments a, Moments b) => new(a.Area + b.Area, a.Sx + b.Sx, a.Sy + b.Sy, a.Sxx + b.Sxx, a.Syy + b.Syy, a.Sxy + b.Sxy);
    public static Moments operator -(Moments a) => new(-a.Area, -a.Sx, -a.Sy, -a.Sxx, -a.Syy, -a.Sxy);
    public static Moments operator -(Moments a, Moments b) => a + -b;

    /// <summary>The same area moved by a vector (parallel axes).</summary>
    public Moments Moved(Vec2 by) => new(
        Area, Sx + Area * by.X, Sy + Area * by.Y,
        Sxx + 2 * by.X * Sx + Area * by.X * by.X,
        Syy + 2 * by.Y * Sy + Area * by.Y * by.Y,
        Sxy + by.X * Sy + by.Y * Sx + Area * by.X * by.Y);

    /// <summary>Second moments about axes through the centroid: (int x2, int y2, int xy).</summary>
    public (double Xx, double Yy, double Xy) Central
    {
        get
        {
            var m = Moved(-Centroid);
            return (m.Sxx, m.Syy, m.Sxy);
        }
    }
}

/// <summary>Area, centroid and second moments of outlines by Green's theorem, taken round the boundary.</summary>
public static class OutlineMeasures
{
    // Eight Gauss-Legendre points (Abramowitz and Stegun, table 25.4). An arc's integrand is a trigonometric polynomial; on an eighth of a turn or
    // less the rule is exact to the last bits of a double, and unlike the closed formulas it loses nothing on very flat arcs.
    private static readonly (double At, double Weight)[] Rule =
    [
        (0.1834346424956498, 0.3626837833783620), (0.5255324099163290, 0.3137066458778873),
        (0.7966664774136267, 0.2223810344533745), (0.9602898564975363, 0.1012285362903763),
    ];

    public static double SignedArea(this Outline outline) => outline.Moments().Area;
    public static double Area(this Outline outline) => Math.Abs(outline.SignedArea());
    public static Vec2 Centroid(this Outline outline) => outline.Moments().Centroid;

    public static Moments Moments(this Outline outline) => outline.Measured;

    internal static Moments Integrate(Outline outline)
    {
        if (outline.Count == 0) return default;
        // Measured from a corner: far from the origin the terms would be large and cancel.
        var origin = outline.Edges[0].Start;
        var sum = default(Moments);
        for (var i = 0; i < outline.Count; i++)
        {
            var s = outline.Segment(i);
            sum += Chord(s.From - origin, s.To - origin);
            if (s.IsArc) sum += ArcOnChord(s, origin);
        }
        return sum.Moved(origin);
    }

    // The triangle from the origin to the chord.
    private static Moments Chord(Vec2 a, Vec2 b)
    {
        var twice = a.Cross(b);
        return new(
            twice / 2, twice * (a.X + b.X) / 6, twice * (a.Y + b.Y) / 6,
            twice * (a.X * a.X + a.X * b.X + b.X * b.X) / 12,
            twice * (a.Y * a.Y + a.Y * b.Y + b.Y * b.Y) / 12,
            twice * (2 * a.X * a.Y + a.X * b.Y + b.X * a.Y + 2 * b.X * b.Y) / 24);
    }

    // What lies between arc and chord, in axes along and square to the chord, then turned into place.
    private static Moments ArcOnChord(Segment s, Vec2 origin)
    {
        var half = Math.Abs(s.Sweep) / 2;
        var radius = s.Radius;
        var pieces = Math.Max(1, (int)Math.Ceiling(2 * half / (Math.PI / 4)));
        double area = 0, sh = 0, suu = 0, shh = 0;
        for (var piece = 0; piece < pieces; piece++)
        {
            var (from, to) = (-half + 2 * half * piece / pieces, -half + 2 * half * (piece + 1) / pieces);
            foreach (var (at, weight) in Rule)
                foreach (var x in (ReadOnlySpan<double>)[-at, at])
                {
                    var angle = (from + to) / 2 + x * (to - from) / 2;
                    // Height over the chord as a product of sines: r (cos angle - cos half) would cancel on flat arcs.
                    var h = 2 * radius * Math.Sin((half + angle) / 2) * Math.Sin((half - angle) / 2);
                    var u = radius * Math.Sin(angle);
                    var du = radius * Math.Cos(angle) * weight * (to - from) / 2;
                    area += h * du;
                    sh += h * h / 2 * du;
                    suu += u * u * h * du;
                    shh += h * h * h / 3 * du;
                }
        }
        var along = s.Chord.Unit;
        // An arc turning left bows to the right of its chord.
        var outward = s.Sweep > 0 ? along.Right : along.Left;
        var local = new Moments(
            area, sh * outward.X, sh * outward.Y,
            suu * along.X * along.X + shh * outward.X * outward.X,
            suu * along.Y * along.Y + shh * outward.Y * outward.Y,
            suu * along.X * along.Y + shh * outward.X * outward.Y).Moved(s.From.Lerp(s.To, 0.5) - origin);
        return s.Sweep > 0 ? local : -local;
    }
}
