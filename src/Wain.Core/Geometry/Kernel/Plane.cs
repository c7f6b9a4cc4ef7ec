namespace Wain.Core.Geometry.Kernel;

/// <summary>A line in space: a point on it and a unit direction.</summary>
public readonly record struct Line3(Vec3 Point, Vec3 Direction)
{
    public Vec3 At(double t) => Point + Direction * t;
    public double DistanceTo(Vec3 p) => (p - Point).Cross(Direction).Length;
}

/// <summary>The points x with Normal . x = Offset; the side that Normal points to is positive. As a half-space it means Normal . x &lt;= Offset.</summary>
public readonly record struct Plane(Vec3 Normal, double Offset)
{
    public static Plane Through(Vec3 point, Vec3 normal)
    {
        var unit = normal.Unit;
        return new(unit, unit.Dot(point));
    }

    /// <summary>The plane through three points, seen counter-clockwise from its positive side; null when they lie on one line.</summary>
    public static Plane? Through(Vec3 a, Vec3 b, Vec3 c)
    {
        var normal = (b - a).Cross(c - a);
        var reach = Math.Max((b - a).Length, (c - a).Length);
        return normal.Length <= Tolerance.Length * reach ? null : Through(a, normal);
    }

    public Plane Flipped => new(-Normal, -Offset);

    // A record's own text prints every property, and a property of the same type would print itself without end.
    public override string ToString() => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"normal {Normal}, offset {Offset}");

    /// <summary>The same plane moved along its normal (mm).</summary>
    public Plane Moved(double along) => new(Normal, Offset + along);

    /// <summary>mm, positive on the side that the normal points to.</summary>
    public double SignedDistance(Vec3 p) => Normal.Dot(p) - Offset;

    public Vec3 Project(Vec3 p) => p - Normal * SignedDistance(p);

    /// <summary>The line in both planes, with direction Normal x other.Normal; null when they are parallel.</summary>
    public Line3? Meet(Plane other)
    {
        var direction = Normal.Cross(other.Normal);
        var square = direction.LengthSquared;
        if (square <= Tolerance.Angle * Tolerance.Angle) return null;
        var point = (other.Normal.Cross(direction) * Offset + direction.Cross(Normal) * other.Offset) / square;
        return new(point, direction.Unit);
    }

    /// <summary>Where a line passes through the plane; null when it runs parallel.</summary>
    public Vec3? Meet(Line3 line)
    {
        var speed = Normal.Dot(line.Direction);
        return Math.Abs(speed) <= Tolerance.Angle ? null : line.At(-SignedDistance(line.Point) / speed);
    }

    /// <summary>The one point in three planes; null when they have none or more than one.</summary>
    public static Vec3? Meet(Plane a, Plane b, Plane c) => a.Meet(b) is { } line ? c.Meet(line) : null;
}
