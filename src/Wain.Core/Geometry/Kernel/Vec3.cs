namespace Wain.Core.Geometry.Kernel;

/// <summary>A point or a direction in space, in mm: x forward, y left, z up (ISO 8855).</summary>
public readonly record struct Vec3(double X, double Y, double Z)
{
    public static Vec3 Zero => default;
    public static Vec3 UnitX => new(1, 0, 0);
    public static Vec3 UnitY => new(0, 1, 0);
    public static Vec3 UnitZ => new(0, 0, 1);

    public double LengthSquared => X * X + Y * Y + Z * Z;
    public double Length => Math.Sqrt(LengthSquared);

    /// <summary>The part seen from above.</summary>
    public Vec2 XY => new(X, Y);

    /// <summary>The vector at length 1; zero stays zero.</summary>
    public Vec3 Unit
    {
        get
        {
            var length = Length;
            return length > 0 ? new Vec3(X / length, Y / length, Z / length) : default;
        }
    }

    public static Vec3 operator +(Vec3 a, Vec3 b) => new(a.X + b.X, a.Y + b.Y, a.Z + b.Z);
    public static Vec3 operator -(Vec3 a, Vec3 b) => new(a.X - b.X, a.Y - b.Y, a.Z - b.Z);
    public static Vec3 operator -(Vec3 a) => new(-a.X, -a.Y, -a.Z);
    public static Vec3 operator *(Vec3 a, double k) => new(a.X * k, a.Y * k, a.Z * k);
    public static Vec3 operator *(double k, Vec3 a) => a * k;
    public static Vec3 operator /(Vec3 a, double k) => new(a.X / k, a.Y / k, a.Z / k);

    public double Dot(Vec3 b) => X * b.X + Y * b.Y + Z * b.Z;
    public Vec3 Cross(Vec3 b) => new(Y * b.Z - Z * b.Y, Z * b.X - X * b.Z, X * b.Y - Y * b.X);
    public double DistanceTo(Vec3 b) => (this - b).Length;
    public Vec3 Lerp(Vec3 b, double t) => this + (b - this) * t;

    /// <summary>Angle between two directions in [0, pi], by atan2, which keeps its accuracy near 0 and pi where acos loses it.</summary>
    public double AngleTo(Vec3 b) => Math.Atan2(Cross(b).Length, Dot(b));

    /// <summary>Turned round a unit axis through the origin by the right-hand rule (Rodrigues' formula).</summary>
    public Vec3 Rotate(Vec3 axis, double angle)
    {
        var (sin, cos) = Math.SinCos(angle);
        return this * cos + axis.Cross(this) * sin + axis * (axis.Dot(this) * (1 - cos));
    }

    /// <summary>The mirror image across the camper's centre plane y = 0.</summary>
    public Vec3 Mirrored => new(X, -Y, Z);

    public bool IsNear(Vec3 b, double tolerance = Tolerance.Length) => DistanceTo(b) <= tolerance;
    public bool IsFinite => double.IsFinite(X) && double.IsFinite(Y) && double.IsFinite(Z);

    // A record's own text prints every property, and a property of the same type would print itself without end.
    public override string ToString() => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"({X}, {Y}, {Z})");
}
