using CsCheck;
using Wain.Core.Geometry.Kernel;

namespace Wain.Tests.Geometry;

public class SolidTests
{
    private static Slab Tapered(double tilt, double depth) =>
        new(Frame.World, new([.. Outline.Rectangle(new(0, 0), new(4, 4)).Edges.Select(e => e with { Tilt = tilt })]), [], 0, depth);

    /// <summary>Frustum of a square pyramid, sides 4 and 2, height 6: volume 56 (Moscow papyrus, problem 14, from memory); its centroid by
    /// h(A1 + 2 sqrt(A1 A2) + 3 A2) / (4 (A1 + sqrt(A1 A2) + A2)) from the base (from memory), 2.357.</summary>
    [Fact]
    public void Frustum_of_a_pyramid()
    {
        var slab = Tapered(-Math.Atan(1.0 / 6), 6);
        var m = slab.Measures()!.Value;
        Assert.Equal(56, m.Volume, 9);
        Assert.Equal(-6.0 * (16 + 2 * 8 + 3 * 4) / (4 * (16 + 8 + 4)), m.Centroid.Z, 9);
        Assert.Equal(-2.357, m.Centroid.Z, 3);
        var solid = Assert.Single(slab.ConvexParts()!.Value).Measures;
        Assert.Equal(56, solid.Volume, 7);
        Assert.True(solid.Centroid.IsNear(m.Centroid, 1e-9));
    }

    /// <summary>A panel that comes to a point before its full depth ends there: pyramid h/4.</summary>
    [Fact]
    public void Pyramid_ends_at_its_point()
    {
        var m = Tapered(-Math.Atan(2.0 / 6), 8).Measures()!.Value;
        Assert.Equal(32, m.Volume, 6);
        Assert.Equal(-1.5, m.Centroid.Z, 6);
    }

    [Fact]
    public void Openings_are_taken_out()
    {
        var outline = Outline.Rectangle(new(0, 0), new(1000, 600));
        var window = OutlineShapes.RoundedRectangle(new(200, 200), new(600, 400), 50).Outline!;
        var slab = new Slab(Frame.World, outline, [window], 0, 30);
        var expected = 30 * (600_000 - window.Area());
        Assert.Equal(expected, slab.Measures()!.Value.Volume, 4);
        var parts = slab.ConvexParts(0.001)!.Value;
        var sum = parts.Select(p => p.Measures).Aggregate((a, b) => a + b);
        // Chords of a corner arc cut off less than perimeter times sagitta.
        Assert.InRange(sum.Volume - expected, 0, 30 * 2 * Math.PI * 50 * 0.001);
        Assert.True(sum.Centroid.IsNear(slab.Measures()!.Value.Centroid, 0.01));
    }

    /// <summary>The volume by integrating areas over depth, against the same slab cut into convex solids: two methods with nothing in common.</summary>
    [Fact]
    public void Volumes_agree_with_convex_parts()
    {
        var inward = Gen.Select(Gen.Int[4, 9], Gen.Double[0.35, 1].Array[9], Gen.Double[-0.6, 0.6].Array[9], Gen.Double[2, 40]);
        var compared = 0;
        inward.Sample((n, radii, tilts, thickness) =>
        {
            var outline = new Outline([.. Enumerable.Range(0, n).Select(i => new OutlineEdge(Vec2.FromAngle(2 * Math.PI * i / n) * (radii[i] * 500), 0, null, tilts[i]))]);
            var frame = new Frame(new(100, -200, 300), new(0.6, 0.8, 0), new(0, 0, 1));
            var slab = new Slab(frame, outline, [], 5, 5 + thickness);
            if (slab.Outline.AtDepth(5 + thickness) is not { Failure: null, Vanished.Length: 0 } || slab.Measures() is not { } exact) return;
            var parts = slab.ConvexParts()!.Value.Select(p => p.Measures).Aggregate((a, b) => a + b);
            Assert.InRange((parts.Volume - exact.Volume) / exact.Volume, -1e-9, 1e-9);
            Assert.True(parts.Centroid.IsNear(exact.Centroid, 1e-6));
            Interlocked.Increment(ref compared);
        }, iter: 300);
        Assert.True(compared > 150, $"only {compared} compared");
    }

    [Fact]
    public void Intersection_and_difference_of_blocks()
    {
        var a = ConvexPolyhedron.Block(new(0, 0, 0), new(10, 10, 10));
        var b = ConvexPolyhedron.Block(new(4, 5, 6), new(20, 20, 20));
        Assert.Equal(6 * 5 * 4, ConvexPolyhedron.Intersection(a, b)!.Measures.Volume, 7);
        Assert.Equal(1000 - 120, a.Minus(b).Sum(p => p.Measures.Volume), 7);
        Assert.Null(ConvexPolyhedron.Intersection(a, ConvexPolyhedron.Block(new(10, 0, 0), new(20, 10, 10))));
        Assert.Null(ConvexPolyhedron.FromHalfSpaces([new(Vec3.UnitX, 1), new(-Vec3.UnitX, 1), new(Vec3.UnitY, 1), new(-Vec3.UnitY, 1)]));
    }

    /// <summary>A plane given again a hair askew must not cut away a part of the first one's face.</summary>
    [Fact]
    public void Planes_that_differ_by_rounding_make_one_face()
    {
        var block = ConvexPolyhedron.Block(new(-100, -50, -20), new(100, 50, 20));
        var askew = Plane.Through(new(-20, 0, 20), new(-1e-13, 2e-13, 1));
        // The bottom comes first, so that the volume is measured from a corner there and the top face counts.
        var solid = ConvexPolyhedron.FromHalfSpaces([.. block.Planes.OrderBy(p => p.Normal.Z), askew])!;
        Assert.Equal(6, solid.Faces.Length);
        Assert.All(solid.Faces, f => Assert.Equal(4, f.Corners.Length));
        Assert.Equal(200 * 100 * 40, solid.Measures.Volume, 6);
    }

    [Fact]
    public void Convex_parts_add_to_the_outline()
    {
        Gen.Select(Gen.Int[4, 12], Gen.Double[0.2, 1].Array[12]).Sample((n, radii) =>
        {
            var o = Outline.Polygon(Enumerable.Range(0, n).Select(i => Vec2.FromAngle(2 * Math.PI * i / n) * (radii[i] * 500)));
            var parts = o.ConvexParts()!.Value;
            Assert.All(parts, p => Assert.True(p.IsConvex()));
            Assert.InRange(parts.Sum(p => p.Area()) - o.Area(), -1e-6, 1e-6);
        }, iter: 2000);
    }

    [Fact]
    public void Frames_go_there_and_back_and_mirror()
    {
        var frame = Frame.ThroughPoints(new(10, 20, 30), new(10, -80, 30), new(40, 0, 130))!.Value;
        var p = frame.ToWorld(new Vec2(12, 34), 5);
        Assert.True(frame.ToLocal(p).IsNear(new(12, 34, -5), 1e-9));
        var mirrored = frame.Mirrored;
        Assert.True(mirrored.ToWorld(new Vec2(-12, 34), 5).IsNear(p.Mirrored, 1e-9));
        Assert.True(mirrored.N.IsNear(frame.N.Mirrored, 1e-12));
        Assert.Null(Frame.ThroughPoints(new(0, 0, 0), new(1, 1, 1), new(2, 2, 2)));
    }
}
