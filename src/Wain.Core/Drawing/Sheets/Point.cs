namespace Wain.Core.Drawing;

/// <summary>A place on paper or in a view, in mm; x to the right, y up.</summary>
public readonly record struct Point(double X, double Y)
{
    public static Point operator +(Point a, Point b) => new(a.X + b.X, a.Y + b.Y);

    public static Point operator -(Point a, Point b) => new(a.X - b.X, a.Y - b.Y);

    public static Point operator *(Point a, double s) => new(a.X * s, a.Y * s);

    public double Length => Math.Sqrt(X * X + Y * Y);

    /// <summary>A quarter turn to the left.</summary>
    public Point Left => new(-Y, X);

    /// <summary>The same direction with length 1; the zero vector stays zero.</summary>
    public Point Unit => Length is var l && l > 0 ? new(X / l, Y / l) : this;

    public static double Dot(Point a, Point b) => a.X * b.X + a.Y * b.Y;

    public static double Cross(Point a, Point b) => a.X * b.Y - a.Y * b.X;

    // The generated text would print Left, whose text prints its Left, and so on.
    public override string ToString() => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"({X:0.###}, {Y:0.###})");

    public static Point Polar(double radius, double angle) => new(radius * Math.Cos(angle), radius * Math.Sin(angle));
}

/// <summary>An upright rectangle. The empty box holds nothing and is the neutral element of <see cref="Union"/>.</summary>
public readonly record struct Box(double Left, double Bottom, double Right, double Top)
{
    public static readonly Box Empty = new(double.PositiveInfinity, double.PositiveInfinity, double.NegativeInfinity, double.NegativeInfinity);

    public bool IsEmpty => Left > Right || Bottom > Top;

    public double Width => Right - Left;

    public double Height => Top - Bottom;

    public Point Centre => new((Left + Right) / 2, (Bottom + Top) / 2);

    public static Box Of(IEnumerable<Point> points) => points.Aggregate(Empty, (b, p) => b.Add(p));

    public Box Add(Point p) => new(Math.Min(Left, p.X), Math.Min(Bottom, p.Y), Math.Max(Right, p.X), Math.Max(Top, p.Y));

    public Box Union(Box o) => new(Math.Min(Left, o.Left), Math.Min(Bottom, o.Bottom), Math.Max(Right, o.Right), Math.Max(Top, o.Top));

    public Box Grow(double by) => new(Left - by, Bottom - by, Right + by, Top + by);

    /// <summary>True if the two share some area; a shared edge is no overlap.</summary>
    public bool Overlaps(Box o) => Left < o.Right && o.Left < Right && Bottom < o.Top && o.Bottom < Top;

    public bool Contains(Point p) => p.X >= Left && p.X <= Right && p.Y >= Bottom && p.Y <= Top;

    public bool Contains(Box o) => o.Left >= Left && o.Right <= Right && o.Bottom >= Bottom && o.Top <= Top;

    /// <summary>True if any of the segment from a to b lies strictly inside (Liang and Barsky's clipping).</summary>
    public bool Crosses(Point a, Point b)
    {
        double from = 0, to = 1, dx = b.X - a.X, dy = b.Y - a.Y;
        return Clip(-dx, a.X - Left, ref from, ref to) && Clip(dx, Right - a.X, ref from, ref to)
            && Clip(-dy, a.Y - Bottom, ref from, ref to) && Clip(dy, Top - a.Y, ref from, ref to) && from < to;
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
