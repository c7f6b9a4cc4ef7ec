namespace Wain.Core.Geometry.Kernel;

/// <summary>A point or a direction in a plane, in mm.</summary>
public readonly record struct Vec2(double X, double Y)
{
    public static Vec2 Zero => default;

    /// <summary>The unit vector at an angle (radians, counter-clockwise from +X).</summary>
    public static Vec2 FromAngle(double angle) => new(Math.Cos(angle), Math.Sin(angle));

    public double LengthSquared => X * X + Y * Y;
    public double Length => Math.Sqrt(LengthSquared);

    /// <summary>Angle from +X, counter-clockwise, in (-pi, pi].</summary>
    public double Angle => Math.Atan2(Y, X);

    /// <summary>This vector turned a quarter counter-clockwise.</summary>
    public Vec2 Left => new(-Y, X);

    /// <summary>This vector turned a quarter clockwise: outward of a counter-clockwise outline's edge.</summary>
    public Vec2 Right => new(Y, -X);

    /// <summary>The vector at length 1; zero stays zero, so that a degenerate edge never makes a NaN.</summary>
    public Vec2 Unit
    {
        get
        {
            var length = Length;
            return length > 0 ? new Vec2(X / length, Y / length) : default;
        }
    }

    public static Vec2 operator +(Vec2 a, Vec2 b) => new(a.X + b.X, a.Y + b.Y);
    public static Vec2 operator -(Vec2 a, Vec2 b) => new(a.X - b.X, a.Y - b.Y);
    public static Vec2 operator -(Vec2 a) => new(-a.X, -a.Y);
    public static Vec2 operator *(Vec2 a, double k) => new(a.X * k, a.Y * k);
    public static Vec2 operator *(double k, Vec2 a) => a * k;
    public static Vec2 operator /(Vec2 a, double k) => new(a.X / k, a.Y / k);

    public double Dot(Vec2 b) => X * b.X + Y * b.Y;

    /// <summary>The z part of the cross product: positive when <paramref name="b"/> lies to the left.</summary>
    public double Cross(Vec2 b) => X * b.Y - Y * b.X;

    public double DistanceTo(Vec2 b) => (this - b).Length;
    public Vec2 Lerp(Vec2 b, double t) => this + (b - this) * t;

    public Vec2 Rotate(double angle)
    {
        var (sin, cos) = Math.SinCos(angle);
        return new(X * cos - Y * sin, X * sin + Y * cos);
    }

    public bool IsNear(Vec2 b, double tolerance = Tolerance.Length) => DistanceTo(b) <= tolerance;
    public bool IsFinite => double.IsFinite(X) && double.IsFinite(Y);

    // A record's own text prints every property, and a property of the same type would print itself without end.
    public override string ToString() => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"({X}, {Y})");
}
