using System.Collections.Immutable;
using Wain.Core.Geometry.Kernel;

namespace Wain.Core.Drawing;

/// <summary>A line of straight and circular stretches, each beginning where the last ends; open, or closed where it began.</summary>
public sealed record Contour(ImmutableArray<Segment> Segments, bool Closed)
{
    public Vec2 Start => Segments[0].From;

    public static Contour Of(Outline outline) => new([.. outline.Segments], true);

    public static Contour Line(Vec2 a, Vec2 b) => new([new(a, b)], false);

    public static Contour Open(params ReadOnlySpan<Vec2> points) => Through(points, false);

    public static Contour Polygon(params ReadOnlySpan<Vec2> points) => Through(points, true);

    public static Contour Rectangle(Box b) => Polygon(new(b.Left, b.Bottom), new(b.Right, b.Bottom), new(b.Right, b.Top), new(b.Left, b.Top));

    public static Contour Circle(Vec2 centre, double radius) => Of(Outline.Circle(centre, radius));

    /// <summary>An arc round a centre from one angle to another; it turns left when <paramref name="to"/> is the greater.</summary>
    public static Contour Arc(Vec2 centre, double radius, double from, double to) =>
        new([new(centre + Vec2.FromAngle(from) * radius, centre + Vec2.FromAngle(to) * radius, to - from)], false);

    private static Contour Through(ReadOnlySpan<Vec2> points, bool closed)
    {
        var segments = ImmutableArray.CreateBuilder<Segment>(points.Length);
        for (int i = 1; i < points.Length; i++) segments.Add(new(points[i - 1], points[i]));
        if (closed) segments.Add(new(points[^1], points[0]));
        return new(segments.DrainToImmutable(), closed);
    }

    /// <summary>Points along the contour, with arcs cut into chords that stray at most <paramref name="tolerance"/> from the arc; a closed contour ends where it began.</summary>
    public ImmutableArray<Vec2> Flatten(double tolerance = 0.05)
    {
        var points = ImmutableArray.CreateBuilder<Vec2>(Segments.Length + 1);
        points.Add(Start);
        foreach (var segment in Segments)
        {
            if (segment.IsArc)
            {
                double step = 2 * Math.Acos(Math.Clamp(1 - tolerance / Math.Max(segment.Radius, tolerance), 0, 1));
                int count = Math.Clamp((int)Math.Ceiling(Math.Abs(segment.Sweep) / step), 2, 360);
                for (int i = 1; i < count; i++) points.Add(segment.At((double)i / count));
            }
            points.Add(segment.To);
        }
        return points.DrainToImmutable();
    }

    public Box Bounds => Segments.Aggregate(Box.Empty, (box, s) => s.Bounds is var b ? box.Add(b.Min).Add(b.Max) : box);

    public Contour Map(View view) => new([.. Segments.Select(s => new Segment(view.ToPaper(s.From), view.ToPaper(s.To), view.Mirrored ? -s.Sweep : s.Sweep))], Closed);
}

/// <summary>Takes a part's own mm to mm on paper: scaled by 1/<paramref name="Scale"/>, after a mirroring left to right when seen from behind.</summary>
/// <param name="Scale">10 for a drawing at 1:10.</param>
/// <param name="Origin">Where the part's (0, 0) stands on paper.</param>
public sealed record View(double Scale, Vec2 Origin, bool Mirrored = false)
{
    public static readonly View Paper = new(1, default);

    public Vec2 ToPaper(Vec2 p) => new(Origin.X + (Mirrored ? -p.X : p.X) / Scale, Origin.Y + p.Y / Scale);

    public Box ToPaper(Box b) => Box.Of(ToPaper(new Vec2(b.Left, b.Bottom)), ToPaper(new Vec2(b.Right, b.Top)));

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
