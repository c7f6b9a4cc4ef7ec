using System.Collections.Immutable;
using CsCheck;
using Wain.Core.Geometry.Kernel;

namespace Wain.Tests.Geometry;

public class MovingClearanceTests
{
    // A random convex solid: some tangent planes of a ball, bounded by a block.
    private static readonly Gen<ConvexPolyhedron> Solids =
        from centre in Gen.Select(Gen.Double[-300, 300], Gen.Double[-300, 300], Gen.Double[-300, 300])
        from size in Gen.Select(Gen.Double[5, 150], Gen.Double[5, 150], Gen.Double[5, 150])
        from cuts in Gen.Select(Gen.Double[-1, 1], Gen.Double[-1, 1], Gen.Double[-1, 1], Gen.Double[0.4, 1]).Array[0, 5]
        select Build(new(centre.Item1, centre.Item2, centre.Item3), new(size.Item1, size.Item2, size.Item3), cuts);

    private static ConvexPolyhedron Build(Vec3 c, Vec3 s, (double X, double Y, double Z, double At)[] cuts)
    {
        var block = ConvexPolyhedron.Block(c - s, c + s);
        List<Plane> planes = [.. block.Planes];
        foreach (var (x, y, z, at) in cuts)
            if (new Vec3(x, y, z) is { Length: > 0.1 } n) planes.Add(Plane.Through(c + new Vec3(n.Unit.X * s.X, n.Unit.Y * s.Y, n.Unit.Z * s.Z) * at, n));
        return ConvexPolyhedron.FromHalfSpaces(planes) ?? block;
    }

    private static readonly Gen<Vec3> Paths = Gen.Select(Gen.Double[-400, 400], Gen.Double[-400, 400], Gen.Double[-400, 400]).Select((x, y, z) => new Vec3(x, y, z));

    /// <summary>
    /// The least distance over a straight travel, against an independent method: distances at single positions by every corner, edge and face, and a search
    /// over positions, which is sound because the distance of convex solids is convex in the position.
    /// </summary>
    [Fact]
    public void Least_distance_agrees_with_brute_force()
    {
        var apart = 0;
        Gen.Select(Solids, Solids, Paths).Sample((a, b, by) =>
        {
            var found = ConvexPair.Nearest(a, b, by);
            var (low, high) = (0.0, 1.0);
            // Coarse positions first, as a sampler would; then golden sections round the best.
            var coarse = Enumerable.Range(0, 17).MinBy(k => At(k / 16.0));
            (low, high) = (Math.Max(0, (coarse - 1) / 16.0), Math.Min(1, (coarse + 1) / 16.0));
            while (high - low > 1e-11)
            {
                var (p, q) = (low + (high - low) * 0.381966, low + (high - low) * 0.618034);
                if (At(p) <= At(q)) high = q; else low = p;
            }
            var brute = At((low + high) / 2);
            if (ConvexPair.Penetrates(a, b, by) is not null)
            {
                Assert.InRange(found.Distance, 0, 1e-6);
                Assert.NotNull(ConvexPair.Collision(a, b, by));
                return;
            }
            Interlocked.Increment(ref apart);
            Assert.InRange(found.Distance - brute, -1e-6, 1e-6);
            Assert.InRange(found.Distance - found.Bound, -1e-9, 1e-7);
            Assert.InRange(found.Part, 0, 1);
            Assert.Equal(found.Distance, found.OnMoving.DistanceTo(found.OnStanding), 6);
            Assert.True(a.Contains(found.OnMoving - by * found.Part, 1e-6) && b.Contains(found.OnStanding, 1e-6));

            double At(double t) => BruteForce.Distance(a.Transformed(RigidMove.Straight(by * t)), b);
        }, iter: 300);
        Assert.True(apart > 50, $"only {apart} were apart");
    }

    /// <summary>The collision interval against the common volume at positions inside and outside it, and the depth against the shift that frees.</summary>
    [Fact]
    public void Collision_interval_and_depth_agree_with_common_volume()
    {
        var collided = 0;
        Gen.Select(Solids, Solids, Paths).Sample((a, b, by) =>
        {
            if (ConvexPair.Collision(a, b, by) is not { } span)
            {
                for (var k = 0; k <= 20; k++) Assert.InRange(Common(k / 20.0), 0, 1e-3);
                return;
            }
            Interlocked.Increment(ref collided);
            var hair = 1e-4;
            if (span.To - span.From > 4 * hair)
            {
                Assert.True(Common((span.From + span.To) / 2) > 0);
                Assert.True(BruteForce.Distance(a.Transformed(RigidMove.Straight(by * (span.From + hair))), b) <= 1e-6 || Common(span.From + hair) > 0);
            }
            if (span.From > hair) Assert.True(Common(span.From - hair) == 0);
            if (span.To < 1 - hair) Assert.True(Common(span.To + hair) == 0);
            var deep = ConvexPair.Penetrates(a, b, by)!.Value;
            var freed = a.Transformed(RigidMove.Straight(deep.Direction * (deep.Depth + 1e-5)));
            Assert.Null(ConvexPair.Collision(freed, b, by));
            var nearly = a.Transformed(RigidMove.Straight(deep.Direction * (deep.Depth * 0.99 - 1e-4)));
            Assert.NotNull(ConvexPair.Penetrates(nearly, b, by));

            double Common(double t) => ConvexPolyhedron.Intersection(a.Transformed(RigidMove.Straight(by * t)), b)?.Measures.Volume ?? 0;
        }, iter: 500);
        Assert.True(collided > 50, $"only {collided} collided");
    }

    /// <summary>Window trim that stands proud of a wall past which another slides: the depth is how much deeper the recess must be.</summary>
    [Fact]
    public void Proud_trim_on_a_sliding_wall()
    {
        ImmutableArray<ConvexPolyhedron> wall = [ConvexPolyhedron.Block(new(0, 0, 0), new(2000, 30, 900))];
        ImmutableArray<ConvexPolyhedron> trim = [ConvexPolyhedron.Block(new(600, 30, 400), new(1000, 42, 700))];
        ImmutableArray<ConvexPolyhedron> outer = [ConvexPolyhedron.Block(new(0, 40, 800), new(2000, 60, 1500))];
        var clear = MovingClearance.Find([wall], [outer], Vec3.UnitZ, 0, 600, 50);
        Assert.Equal(10, Assert.Single(clear).Distance, 9);
        var found = MovingClearance.Find([wall, trim], [outer], Vec3.UnitZ, 0, 600, 50);
        Assert.Equal(2, found.Length);
        Assert.Equal((1, 0), (found[0].Moving, found[0].Standing));
        Assert.Equal(-2, found[0].Distance, 9);
        Assert.Equal(100, found[0].From!.Value, 9);
        Assert.Equal(600, found[0].To!.Value, 9);
        Assert.True(found[0].Away.IsNear(new(0, -1, 0), 1e-9));
        // At rest, below it, the trim clears by the slant between the two edges.
        var rest = MovingClearance.Find([trim], [outer], Vec3.UnitZ, 0, 0, 200);
        Assert.Equal(100, Assert.Single(rest).Distance, 9);
    }

    [Fact]
    public void Racked_roof_is_low_at_one_corner()
    {
        Vec3[] feet = [new(0, -900, 1800), new(2400, -900, 1800), new(2400, 900, 1800), new(0, 900, 1800)];
        for (var low = 0; low < 4; low++)
        {
            var move = Racking.LowCorner(feet, low, 25.4, Vec3.UnitZ)!.Value;
            var turned = feet.Select(move.Apply).ToArray();
            Assert.Equal(1800 - 25.4, turned[low].Z, 9);
            Assert.Equal(1800, turned[(low + 2) % 4].Z, 9);
            Assert.Equal(turned[(low + 1) % 4].Z + turned[(low + 3) % 4].Z, turned[low].Z + turned[(low + 2) % 4].Z, 9);
            Assert.Equal(2400, turned[0].DistanceTo(turned[1]), 9);
        }
        Assert.Null(Racking.LowCorner(feet, 0, 3100, Vec3.UnitZ));
    }

    [Fact]
    public void Bodies_that_pass_through_each_other()
    {
        ImmutableArray<ConvexPolyhedron>[] bodies =
        [
            [ConvexPolyhedron.Block(new(0, 0, 0), new(100, 100, 20))],
            [ConvexPolyhedron.Block(new(50, 50, 15), new(70, 70, 100))],
            [ConvexPolyhedron.Block(new(100, 0, 0), new(200, 100, 20))],
        ];
        var (a, b, depth, volume) = Assert.Single(MovingClearance.Overlaps(bodies));
        Assert.Equal((0, 1), (a, b));
        Assert.Equal(5, depth, 9);
        Assert.Equal(20 * 20 * 5, volume, 6);
    }

    [Fact]
    public void Tree_finds_what_a_full_scan_finds()
    {
        var box = Gen.Select(Gen.Double[0, 100], Gen.Double[0, 100], Gen.Double[0, 100], Gen.Double[0, 20]).Select((x, y, z, s) => new Box3(new(x, y, z), new(x + s, y + s / 2, z + s)));
        Gen.Select(box.Array[0, 60], box).Sample((boxes, query) =>
            Assert.Equal(Enumerable.Range(0, boxes.Length).Where(i => boxes[i].Touches(query)), new BoxTree(boxes).Touching(query).Order()), iter: 500);
    }
}
