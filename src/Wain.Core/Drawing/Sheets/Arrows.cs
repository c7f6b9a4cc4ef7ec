using System.Collections.Immutable;
using Wain.Core.Geometry.Kernel;

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

    public static Mark Head(Vec2 tip, Vec2 direction)
    {
        var back = tip - direction.Unit * Length;
        var half = direction.Unit.Left * (Length * Math.Tan(Math.PI / 12));
        return new PathMark(Contour.Polygon(tip, back + half, back - half), null, 0);
    }

    public static Mark Dot(Vec2 at) => new PathMark(Contour.Circle(at, DotRadius), null, 0);

    public static Mark Line(params ReadOnlySpan<Vec2> points) => new PathMark(Contour.Open(points), Pen.Narrow);

    /// <summary>The end mark of a line that arrives at <paramref name="tip"/> in <paramref name="direction"/>.</summary>
    public static ImmutableArray<Mark> End(LineEnd end, Vec2 tip, Vec2 direction) => end switch
    {
        LineEnd.Arrow => [Head(tip, direction)],
        LineEnd.Dot => [Dot(tip)],
        _ => [],
    };
}
