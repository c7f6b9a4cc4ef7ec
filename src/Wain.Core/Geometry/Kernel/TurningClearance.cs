using System.Collections.Immutable;

namespace Wain.Core.Geometry.Kernel;

/// <summary>A line about which something turns, by the right-hand rule, from closed (0) to <see cref="Angle"/> (radians). The axis is a unit vector.</summary>
public readonly record struct Hinge(Vec3 About, Vec3 Axis, double Angle)
{
    public RigidMove At(double angle) => new(About, Axis, angle, Vec3.Zero);

    /// <summary>mm from the line.</summary>
    public double Radius(Vec3 p) => (p - About - Axis * (p - About).Dot(Axis)).Length;
}

/// <summary>
/// Clearance of bodies that turn about a hinge past bodies that stand. Between two convex solids the distance (negative by the depth where they share volume)
/// is the greatest gap that any direction sees between them, so a gap seen in one direction over a whole range of angles is a distance that none of those
/// angles can be below. Ranges are halved until the least distance found lies within <see cref="Error"/> of such a bound for all the rest.
/// </summary>
public static class TurningClearance
{
    /// <summary>mm by which a reported distance may exceed the least one.</summary>
    public const double Error = 0.01;

    // Far more than any pair has taken; past it the bound itself is reported, which errs to the safe side.
    private const int MostSteps = 4000;

    /// <summary>
    /// Every pair that comes nearer than <paramref name="within"/> (mm) at any angle of the swing from <paramref name="from"/> (radians) on, least distance first.
    /// <see cref="PairClearance.Travel"/>, From and To are angles in radians.
    /// </summary>
    public static ImmutableArray<PairClearance> Find(IReadOnlyList<ImmutableArray<ConvexPolyhedron>> moving, IReadOnlyList<ImmutableArray<ConvexPolyhedron>> standing, Hinge hinge, double within, double from = 0)
    {
        var parts = Enumerable.Range(0, standing.Count).SelectMany(body => standing[body].Select(part => (Body: body, Part: part))).ToArray();
        var tree = new BoxTree([.. parts.Select(p => p.Part.Bounds)]);
        var best = new Dictionary<(int, int), PairClearance>();
        for (var m = 0; m < moving.Count; m++)
            foreach (var solid in moving[m])
            {
                var orbits = Orbits(solid, hinge);
                var swept = new Box3(
                    new(orbits.Min(o => o.Least(Vec3.UnitX, from, hinge.Angle)), orbits.Min(o => o.Least(Vec3.UnitY, from, hinge.Angle)), orbits.Min(o => o.Least(Vec3.UnitZ, from, hinge.Angle))),
                    new(-orbits.Min(o => o.Least(-Vec3.UnitX, from, hinge.Angle)), -orbits.Min(o => o.Least(-Vec3.UnitY, from, hinge.Angle)), -orbits.Min(o => o.Least(-Vec3.UnitZ, from, hinge.Angle))));
                foreach (var i in tree.Touching(swept.Grown(within)))
                {
                    var (s, part) = parts[i];
                    var known = best.GetValueOrDefault((m, s));
                    var limit = Math.Min(within, known?.Distance ?? within);
                    if (swept.DistanceTo(part.Bounds) > limit || Between(solid, orbits, part, hinge, from, limit) is not { } found) continue;
                    best[(m, s)] = found with { Moving = m, Standing = s };
                }
            }
        return [.. best.Values.OrderBy(p => Math.Round(p.Distance, 6)).ThenBy(p => p.Moving).ThenBy(p => p.Standing)];
    }

    /// <summary>The way of a corner: Centre + Out cos(angle) + Side sin(angle).</summary>
    private readonly record struct Orbit(Vec3 Centre, Vec3 Out, Vec3 Side)
    {
        /// <summary>The least height along a direction between two angles, in closed form: at an end, or where the sine wave has its trough.</summary>
        public double Least(Vec3 n, double from, double to)
        {
            var (b, c) = (n.Dot(Out), n.Dot(Side));
            var trough = Math.Atan2(-c, -b);
            trough += Math.Ceiling((from - trough) / (2 * Math.PI)) * 2 * Math.PI;
            var wave = trough <= to ? -Math.Sqrt(b * b + c * c) : Math.Min(b * Math.Cos(from) + c * Math.Sin(from), b * Math.Cos(to) + c * Math.Sin(to));
            return n.Dot(Centre) + wave;
        }
    }

    private static Orbit[] Orbits(ConvexPolyhedron solid, Hinge hinge) =>
        [.. solid.Corners.Select(c =>
        {
            var centre = hinge.About + hinge.Axis * (c - hinge.About).Dot(hinge.Axis);
            return new Orbit(centre, c - centre, hinge.Axis.Cross(c - centre));
        })];

    // The least over all angles; null if it is not below the limit.
    private static PairClearance? Between(ConvexPolyhedron solid, Orbit[] orbits, ConvexPolyhedron part, Hinge hinge, double from, double limit)
    {
        Vec3[] fixedAxes = [.. part.Faces.Select(f => f.Plane.Normal)];
        PairClearance? least = null;
        double Known() => Math.Min(limit, least?.Distance ?? limit);
        var queue = new PriorityQueue<(double From, double To), double>();
        void Try(double a, double b)
        {
            var middle = (a + b) / 2;
            var here = At(solid, part, hinge, middle);
            if (here.Distance < Known()) least = here;
            var bound = Bound(orbits, part, here.Away, a, b);
            foreach (var n in fixedAxes)
            {
                if (bound >= Known() - Error) break;
                bound = Math.Max(bound, Bound(orbits, part, n, a, b));
            }
            if (bound < Known() - Error && bound < here.Distance - Error)
                foreach (var face in solid.Faces) bound = Math.Max(bound, Bound(orbits, part, -face.Plane.Normal.Rotate(hinge.Axis, middle), a, b));
            queue.Enqueue((a, b), bound);
        }
        foreach (var end in new[] { from, hinge.Angle })
            if (At(solid, part, hinge, end) is var there && there.Distance < Known()) least = there;
        Try(from, hinge.Angle);
        for (var step = 0; queue.TryDequeue(out var range, out var bound) && bound < Known() - Error; step++)
        {
            if (step >= MostSteps) return least is null || bound < least.Distance ? (least ?? At(solid, part, hinge, range.From)) with { Distance = bound } : least;
            var middle = (range.From + range.To) / 2;
            Try(range.From, middle);
            Try(middle, range.To);
        }
        return least is { Distance: < -1e-3 } hit ? Spanned(hit, solid, part, hinge, from) : least;
    }

    // The gap that one direction sees between the two at the worst of a range of angles: no distance in the range is below it.
    private static double Bound(Orbit[] orbits, ConvexPolyhedron part, Vec3 n, double from, double to)
    {
        if (n.LengthSquared < 0.5) return double.NegativeInfinity;
        var low = double.PositiveInfinity;
        foreach (var orbit in orbits) low = Math.Min(low, orbit.Least(n, from, to));
        return low - part.Extent(n).Max;
    }

    private static PairClearance At(ConvexPolyhedron solid, ConvexPolyhedron part, Hinge hinge, double angle)
    {
        var there = solid.Transformed(hinge.At(angle));
        var nearest = ConvexPair.Nearest(there, part, default);
        if (nearest.Distance > 1e-5) return new(0, 0, nearest.Distance, angle, nearest.OnMoving, nearest.OnStanding, (nearest.OnMoving - nearest.OnStanding).Unit);
        if (ConvexPair.Penetrates(there, part, default) is not { } deep) return new(0, 0, 0, angle, nearest.OnMoving, nearest.OnStanding, default);
        var at = ConvexPolyhedron.Intersection(there, part)?.Measures.Centroid ?? nearest.OnStanding;
        return new(0, 0, -deep.Depth, angle, at, at, deep.Direction);
    }

    // From the worst angle to each side until the two part, to a thousandth of the swing.
    private static PairClearance Spanned(PairClearance hit, ConvexPolyhedron solid, ConvexPolyhedron part, Hinge hinge, double from)
    {
        bool Apart(double angle) => At(solid, part, hinge, angle).Distance > -1e-3;
        double Edge(double end)
        {
            var inside = hit.Travel;
            for (var k = 1; k <= 64; k++)
            {
                var outside = hit.Travel + (end - hit.Travel) * k / 64;
                if (Apart(outside))
                {
                    while (Math.Abs(outside - inside) > (hinge.Angle - from) / 1000)
                        if (Apart((inside + outside) / 2)) outside = (inside + outside) / 2; else inside = (inside + outside) / 2;
                    return inside;
                }
                inside = outside;
            }
            return end;
        }
        return hit with { From = Edge(from), To = Edge(hinge.Angle) };
    }
}
