using System.Collections.Immutable;

namespace Wain.Core.Drawing;

/// <summary>One stretch of a contour.</summary>
/// <param name="To">Where it ends.</param>
/// <param name="Sweep">The angle that an arc turns through, radians, positive to the left; 0 is a straight line. Less than a full turn.</param>
public readonly record struct Segment(Point To, double Sweep = 0);

/// <summary>A line of straight and circular stretches, open or closed.</summary>
public sealed record Contour(Point Start, ImmutableArray<Segment> Segments, bool Closed)
{
    public static Contour Line(Point a, Point b) => new(a, [new(b)], false);

    public static Contour Open(params ReadOnlySpan<Point> points) => Of(points, false);

    public static Contour Polygon(params ReadOnlySpan<Point> points) => Of(points, true);

    public static Contour Rectangle(Box b) => Polygon(new(b.Left, b.Bottom), new(b.Right, b.Bottom), new(b.Right, b.Top), new(b.Left, b.Top));

    public static Contour Circle(Point centre, double radius)
    {
        var side = new Point(radius, 0);
        return new(centre + side, [new(centre - side, Math.PI), new(centre + side, Math.PI)], true);
    }

    /// <summary>An arc round a centre from one angle to another; it turns left when <paramref name="to"/> is the greater.</summary>
    public static Contour Arc(Point centre, double radius, double from, double to) =>
        new(centre + Point.Polar(radius, from), [new(centre + Point.Polar(radius, to), to - from)], false);

    private static Contour Of(ReadOnlySpan<Point> points, bool closed)
    {
        var segments = ImmutableArray.CreateBuilder<Segment>(points.Length - 1);
        for (int i = 1; i < points.Length; i++) segments.Add(new(points[i]));
        return new(points[0], segments.MoveToImmutable(), closed);
    }

    /// <summary>Centre and radius of the arc from <paramref name="from"/>: the centre stands on the chord's bisector, at chord/2 / tan(sweep/2).</summary>
    public static (Point Centre, double Radius) ArcOf(Point from, Segment arc)
    {
        var half = (arc.To - from) * 0.5;
        var centre = from + half + half.Left * (1 / Math.Tan(arc.Sweep / 2));
        return (centre, (from - centre).Length);
    }

    /// <summary>The corner points, with arcs cut into chords that stray at most <paramref name="tolerance"/> from the arc.</summary>
    public ImmutableArray<Point> Flatten(double tolerance = 0.05)
    {
        var points = ImmutableArray.CreateBuilder<Point>();
        points.Add(Start);
        foreach (var segment in Segments)
        {
            if (segment.Sweep != 0)
            {
                var (centre, radius) = ArcOf(points[^1], segment);
                double step = 2 * Math.Acos(Math.Clamp(1 - tolerance / Math.Max(radius, tolerance), 0, 1));
                int count = Math.Clamp((int)Math.Ceiling(Math.Abs(segment.Sweep) / step), 2, 360);
                var first = points[^1] - centre;
                double start = Math.Atan2(first.Y, first.X);
                for (int i = 1; i < count; i++) points.Add(centre + Point.Polar(radius, start + segment.Sweep * i / count));
            }
            points.Add(segment.To);
        }
        return points.DrainToImmutable();
    }

    public Box Bounds => Box.Of(Flatten());

    public Contour Map(View view) => new(view.ToPaper(Start), [.. Segments.Select(s => new Segment(view.ToPaper(s.To), view.Mirrored ? -s.Sweep : s.Sweep))], Closed);
}

/// <summary>Takes a part's own mm to mm on paper: scaled by 1/<paramref name="Scale"/>, after a mirroring left to right when seen from behind.</summary>
/// <param name="Scale">10 for a drawing at 1:10.</param>
/// <param name="Origin">Where the part's (0, 0) stands on paper.</param>
public sealed record View(double Scale, Point Origin, bool Mirrored = false)
{
    public static readonly View Paper = new(1, default);

    public Point ToPaper(Point p) => new(Origin.X + (Mirrored ? -p.X : p.X) / Scale, Origin.Y + p.Y / Scale);

    public Box ToPaper(Box b) => Box.Of([ToPaper(new Point(b.Left, b.Bottom)), ToPaper(new Point(b.Right, b.Top))]);

    /// <summary>The largest scale of <see cref="Scales"/> at which the box fits the area, centred in it.</summary>
    public static View Fit(Box model, Box area, bool mirrored = false)
    {
        double least = Math.Max(model.Width / area.Width, model.Height / area.Height);
        return Centred(Scales.AtLeast(least), model, area, mirrored);
    }

    public static View Centred(double scale, Box model, Box area, bool mirrored = false)
    {
        var turned = new View(scale, default, mirrored).ToPaper(model.Centre);
        return new(scale, area.Centre - turned, mirrored);
    }
}

/// <summary>Scales to draw at: ISO 5455's and those that a tape in inches reads well.</summary>
public static class Scales
{
    private static readonly double[] Steps = [1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 16, 20, 24, 30, 32, 40, 48, 50, 60, 64, 80, 96, 100];

    /// <summary>The first scale that is not smaller than the ratio of real size to paper size.</summary>
    public static double AtLeast(double ratio)
    {
        for (double power = 1; power < 1e12; power *= 100)
        {
            foreach (double step in Steps)
            {
                if (step * power >= ratio * (1 - 1e-9)) return step * power;
            }
        }
        throw new ArgumentOutOfRangeException(nameof(ratio), ratio, "No scale is that small.");
    }

    public static string Text(double scale) => "1:" + scale.ToString("0.##", System.Globalization.CultureInfo.InvariantCulture);
}
