namespace Wain.Core.Geometry.Kernel;

/// <summary>
/// A panel's own axes: U along, V up and N = U x V outward, all unit and square to each other.
/// A local point is (u, v) on the outside face; depth is measured inward, along -N.
/// </summary>
public readonly record struct Frame(Vec3 Origin, Vec3 U, Vec3 V)
{
    public static Frame World => new(Vec3.Zero, Vec3.UnitX, Vec3.UnitY);

    public Vec3 N => U.Cross(V);
    public Plane Plane => Plane.Through(Origin, N);

    /// <summary>The frame with a given U whose V is the part of <paramref name="towards"/> square to it; null when the two are parallel.</summary>
    public static Frame? Of(Vec3 origin, Vec3 u, Vec3 towards)
    {
        var along = u.Unit;
        var up = towards - along * along.Dot(towards);
        return along.Length == 0 || up.Length <= Tolerance.Angle * towards.Length || towards.Length == 0 ? null : new Frame(origin, along, up.Unit);
    }

    /// <summary>The frame of the face seen from outside through three points, a its origin and a to b its U; null when they lie on one line.</summary>
    public static Frame? ThroughPoints(Vec3 a, Vec3 b, Vec3 c) => Plane.Through(a, b, c) is null ? null : Of(a, b - a, c - a);

    public Vec3 ToWorld(Vec2 local, double depth = 0) => Origin + U * local.X + V * local.Y - N * depth;
    public Vec3 ToWorld(Vec3 local) => Origin + U * local.X + V * local.Y + N * local.Z;
    public Vec3 DirectionToWorld(Vec2 local) => U * local.X + V * local.Y;
    public Vec3 DirectionToWorld(Vec3 local) => U * local.X + V * local.Y + N * local.Z;

    /// <summary>(u, v, height along N).</summary>
    public Vec3 ToLocal(Vec3 world) => DirectionToLocal(world - Origin);
    public Vec3 DirectionToLocal(Vec3 world) => new(U.Dot(world), V.Dot(world), N.Dot(world));

    /// <summary>A world plane's trace in this frame's own axes.</summary>
    public Plane ToLocal(Plane world) => new(DirectionToLocal(world.Normal), world.Offset - world.Normal.Dot(Origin));

    /// <summary>The parallel frame at a depth below this face.</summary>
    public Frame AtDepth(double depth) => this with { Origin = Origin - N * depth };

    public Frame Moved(Vec3 by) => this with { Origin = Origin + by };

    /// <summary>
    /// The frame of the mirror image across y = 0. U is turned round so that N stays outward and the axes stay right-handed;
    /// the outline in it is the original's <see cref="Outline.Mirrored"/>.
    /// </summary>
    public Frame Mirrored => new(Origin.Mirrored, -U.Mirrored, V.Mirrored);

    // A record's own text prints every property, and a property of the same type would print itself without end.
    public override string ToString() => $"at {Origin}, u {U}, v {V}";
}
