using Wain.Core.Geometry.Kernel;

namespace Wain.Core.Drawing;

/// <summary>An upright rectangle, as a rule on paper. The empty box holds nothing and is the neutral element of <see cref="Union"/>.</summary>
public readonly record struct Box(double Left, double Bottom, double Right, double Top)
{
    public static readonly Box Empty = new(double.PositiveInfinity, double.PositiveInfinity, double.NegativeInfinity, double.NegativeInfinity);

    public bool IsEmpty => Left > Right || Bottom > Top;

    public double Width => Right - Left;

    public double Height => Top - Bottom;

    public Vec2 Centre => new((Left + Right) / 2, (Bottom + Top) / 2);

    public static Box Of(IEnumerable<Vec2> points) => points.Aggregate(Empty, (b, p) => b.Add(p));

    public static Box Of(params ReadOnlySpan<Vec2> points)
    {
        var box = Empty;
        foreach (var point in points) box = box.Add(point);
        return box;
    }

    public Box Add(Vec2 p) => new(Math.Min(Left, p.X), Math.Min(Bottom, p.Y), Math.Max(Right, p.X), Math.Max(Top, p.Y));

    public Box Union(Box o) => new(Math.Min(Left, o.Left), Math.Min(Bottom, o.Bottom), Math.Max(Right, o.Right), Math.Max(Top, o.Top));

    public Box Grow(double by) => new(Left - by, Bottom - by, Right + by, Top + by);

    /// <summary>True if the two share some area; a shared edge is no overlap.</summary>
    public bool Overlaps(Box o) => Left < o.Right && o.Left < Right && Bottom < o.Top && o.Bottom < Top;

    /// <summary>True if the two share a place, be it on an edge.</summary>
    public bool Meets(Box o) => Left <= o.Right && o.Left <= Right && Bottom <= o.Top && o.Bottom <= Top;

    public bool Contains(Vec2 p) => p.X >= Left && p.X <= Right && p.Y >= Bottom && p.Y <= Top;

    public bool Contains(Box o) => o.Left >= Left && o.Right <= Right && o.Bottom >= Bottom && o.Top <= Top;

    /// <summary>True if any of the segment from a to b lies strictly inside (Liang and Barsky's clipping).</summary>
    public bool Crosses(Vec2 a, Vec2 b)
    {
        double from = 0, to = 1, dx = b.X - a.X, dy = b.Y - a.Y;
        return Clip(-dx, a.X - Left, ref from, ref to) && Clip(dx, Right - a.X, ref from, ref to)
            && Clip(-dy, a.Y - Bottom, ref from, ref to) && Clip(dy, Top - a.Y, ref from, ref to) && from < to;
    }

    public bool IsCrossedBy(ReadOnlySpan<(Vec2 A, Vec2 B)> lines)
    {
        foreach (var (a, b) in lines) if (Crosses(a, b)) return true;
        return false;
    }

    private static bool Clip(double p, double q, ref double from, ref double to)
    {
        if (p == 0) return q > 0;
        double r = q / p;
        if (p < 0) from = Math.Max(from, r);
        else to = Math.Min(to, r);
        return from < to;
    }
}
