using System.Collections.Immutable;

namespace Wain.Core.Drawing;

/// <summary>Ends of dimension lines and leaders, after ISO 129-1 and ISO 128-2.</summary>
public enum LineEnd
{
    None,

    /// <summary>Filled arrowhead, 30 degrees: on an outline.</summary>
    Arrow,

    /// <summary>Dot: within an area, or where arrows have no room.</summary>
    Dot,
}

internal static class Arrows
{
    public const double Length = 2.5, DotRadius = 0.5, OriginRadius = 1.1;

    public static Mark Head(Point tip, Point direction)
    {
        var back = tip - direction.Unit * Length;
        var half = direction.Unit.Left * (Length * Math.Tan(Math.PI / 12));
        return new PathMark(Contour.Polygon(tip, back + half, back - half), null, 0);
    }

    public static Mark Dot(Point at) => new PathMark(Contour.Circle(at, DotRadius), null, 0);

    public static Mark Line(params ReadOnlySpan<Point> points) => new PathMark(Contour.Open(points), Pen.Narrow);

    /// <summary>The end mark of a line that arrives at <paramref name="tip"/> in <paramref name="direction"/>.</summary>
    public static ImmutableArray<Mark> End(LineEnd end, Point tip, Point direction) => end switch
    {
        LineEnd.Arrow => [Head(tip, direction)],
        LineEnd.Dot => [Dot(tip)],
        _ => [],
    };
}
