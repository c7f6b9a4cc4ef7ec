namespace Wain.Core.Geometry.Kernel;

/// <summary>A rectangle with sides along the axes (mm).</summary>
public readonly record struct Box2(Vec2 Min, Vec2 Max)
{
    public double Width => Max.X - Min.X;
    public double Height => Max.Y - Min.Y;
    public Vec2 Centre => (Min + Max) / 2;

    public static Box2 Of(IEnumerable<Vec2> points)
    {
        var (min, max) = (new Vec2(double.PositiveInfinity, double.PositiveInfinity), new Vec2(double.NegativeInfinity, double.NegativeInfinity));
        foreach (var p in points)
        {
            min = new(Math.Min(min.X, p.X), Math.Min(min.Y, p.Y));
            max = new(Math.Max(max.X, p.X), Math.Max(max.Y, p.Y));
        }
        return new(min, max);
    }

    public static Box2 Of(Vec2 a, Vec2 b) => new(new(Math.Min(a.X, b.X), Math.Min(a.Y, b.Y)), new(Math.Max(a.X, b.X), Math.Max(a.Y, b.Y)));

    public Box2 Grown(double by) => new(Min - new Vec2(by, by), Max + new Vec2(by, by));
    public bool Touches(Box2 b) => Min.X <= b.Max.X && b.Min.X <= Max.X && Min.Y <= b.Max.Y && b.Min.Y <= Max.Y;
    public bool Holds(Vec2 p) => Min.X <= p.X && p.X <= Max.X && Min.Y <= p.Y && p.Y <= Max.Y;

    /// <summary>mm between two boxes; 0 when they touch. Never more than the distance between what they hold.</summary>
    public double DistanceTo(Box2 b) => new Vec2(Math.Max(0, Math.Max(b.Min.X - Max.X, Min.X - b.Max.X)), Math.Max(0, Math.Max(b.Min.Y - Max.Y, Min.Y - b.Max.Y))).Length;

    public Box2 Union(Box2 b) => new(new(Math.Min(Min.X, b.Min.X), Math.Min(Min.Y, b.Min.Y)), new(Math.Max(Max.X, b.Max.X), Math.Max(Max.Y, b.Max.Y)));
}

/// <summary>A block with sides along the axes (mm).</summary>
public readonly record struct Box3(Vec3 Min, Vec3 Max)
{
    public static Box3 Of(IEnumerable<Vec3> points)
    {
        double x0 = double.PositiveInfinity, y0 = x0, z0 = x0, x1 = double.NegativeInfinity, y1 = x1, z1 = x1;
        foreach (var p in points)
        {
            x0 = Math.Min(x0, p.X); y0 = Math.Min(y0, p.Y); z0 = Math.Min(z0, p.Z);
            x1 = Math.Max(x1, p.X); y1 = Math.Max(y1, p.Y); z1 = Math.Max(z1, p.Z);
        }
        return new(new(x0, y0, z0), new(x1, y1, z1));
    }

    public Box3 Grown(double by) => new(Min - new Vec3(by, by, by), Max + new Vec3(by, by, by));

    public bool Touches(Box3 b) =>
        Min.X <= b.Max.X && b.Min.X <= Max.X && Min.Y <= b.Max.Y && b.Min.Y <= Max.Y && Min.Z <= b.Max.Z && b.Min.Z <= Max.Z;

    public Box3 Union(Box3 b) => new(
        new(Math.Min(Min.X, b.Min.X), Math.Min(Min.Y, b.Min.Y), Math.Min(Min.Z, b.Min.Z)),
        new(Math.Max(Max.X, b.Max.X), Math.Max(Max.Y, b.Max.Y), Math.Max(Max.Z, b.Max.Z)));

    /// <summary>The block that this one passes through while it moves straight by a vector.</summary>
    public Box3 Swept(Vec3 by) => Union(new(Min + by, Max + by));

    /// <summary>mm between two blocks; 0 when they touch. Never more than the distance between what they hold.</summary>
    public double DistanceTo(Box3 b)
    {
        static double Gap(double aMin, double aMax, double bMin, double bMax) => Math.Max(0, Math.Max(bMin - aMax, aMin - bMax));
        return new Vec3(Gap(Min.X, Max.X, b.Min.X, b.Max.X), Gap(Min.Y, Max.Y, b.Min.Y, b.Max.Y), Gap(Min.Z, Max.Z, b.Min.Z, b.Max.Z)).Length;
    }
}
