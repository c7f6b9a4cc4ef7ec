using CsCheck;
using NetTopologySuite.Geometries;
using NetTopologySuite.Operation.OverlayNG;
using Wain.Core.Geometry.Kernel;

namespace Wain.Tests.Geometry;

/// <summary>Areas combined and clipped, with NetTopologySuite as the independent referee.</summary>
public class ClippingTests
{
    // Boundaries of up to 5 m are rounded to a grid of a nanometre, 1e-6 mm.
    private const double Slack = 5e-3;

    private static readonly GeometryFactory Factory = new();

    private static readonly Gen<Outline> Stars =
        from n in Gen.Int[3, 10]
        from radii in Gen.Double[0.2, 1].Array[10]
        from x in Gen.Double[-200, 200]
        from y in Gen.Double[-200, 200]
        from turn in Gen.Double[0, 3]
        select Outline.Polygon(Enumerable.Range(0, n).Select(i => new Vec2(x, y) + Vec2.FromAngle(2 * Math.PI * i / n + turn) * (300 * radii[i])));

    private static Polygon Referee(Outline o) => Factory.CreatePolygon([.. o.Corners.Append(o.Edges[0].Start).Select(c => new Coordinate(c.X, c.Y))]);

    [Fact]
    public void Areas_agree_with_an_independent_library()
    {
        Gen.Select(Stars, Stars).Sample((a, b) =>
        {
            var (ra, rb) = (Region.Of(a), Region.Of(b));
            var (ja, jb) = (Referee(a), Referee(b));
            Check(ra.Union(rb), OverlayNGRobust.Overlay(ja, jb, NetTopologySuite.Operation.Overlay.SpatialFunction.Union));
            Check(ra.Intersection(rb), OverlayNGRobust.Overlay(ja, jb, NetTopologySuite.Operation.Overlay.SpatialFunction.Intersection));
            Check(ra.Minus(rb), OverlayNGRobust.Overlay(ja, jb, NetTopologySuite.Operation.Overlay.SpatialFunction.Difference));
            Assert.InRange(ra.DistanceTo(rb) - ja.Distance(jb), -1e-6, 1e-6);

            static void Check(Region ours, NetTopologySuite.Geometries.Geometry theirs)
            {
                Assert.InRange(ours.Area - theirs.Area, -Slack, Slack);
                if (theirs.Area > 1) Assert.True(ours.Centroid.IsNear(new(theirs.Centroid.X, theirs.Centroid.Y), 1e-3));
                Assert.All(ours.Loops, l => Assert.True(l.SignedArea() > 0));
            }
        }, iter: 1500);
    }

    [Fact]
    public void Chains_of_operations_keep_the_area()
    {
        Gen.Select(Stars, Stars, Stars).Sample((a, b, c) =>
        {
            var (ra, rb, rc) = (Region.Of(a), Region.Of(b), Region.Of(c));
            var all = ra.Union(rb).Union(rc);
            // Inclusion and exclusion over parts that hold holes and touch along whole edges.
            var parts = new[] { ra, rb.Minus(ra), rc.Minus(ra.Union(rb)) };
            Assert.InRange(parts.Sum(p => p.Area) - all.Area, -Slack, Slack);
            var rejoined = parts[0].Union(parts[1]).Union(parts[2]);
            Assert.InRange(rejoined.Area - all.Area, -Slack, Slack);
            Assert.InRange(all.Minus(rejoined).Area, 0, Slack);
        }, iter: 500);
    }

    /// <summary>Corners that fall a few nanometres apart where the areas are joined again: one of them must stay.</summary>
    [Fact]
    public void Corners_a_hair_apart_are_not_both_dropped()
    {
        var a = Region.Of(Outline.Polygon(new(299.8936170212766, 0), new(-0.10638297872339936, 79.97866024107387), new(-265.68930327691066, 0), new(-0.10638297872342388, -106.81826823147435)));
        var b = Region.Of(Outline.Polygon(new(163.27907079721763, -1), new(0, 79.76923076923076), new(-300, -0.9999999999999633), new(0, -231.41903018058204)));
        Assert.InRange(a.Union(b.Minus(a)).Area - a.Union(b).Area, -Slack, Slack);
    }

    [Fact]
    public void Shared_edges_leave_no_sliver()
    {
        var left = Region.Of(Outline.Rectangle(new(0, 0), new(100.1, 60)));
        var right = Region.Of(Outline.Rectangle(new(100.1, 10), new(200, 60)));
        var both = left.Union(right);
        var part = Assert.Single(both.Parts);
        Assert.Empty(part.Holes);
        Assert.Equal(100.1 * 60 + 99.9 * 50, both.Area, 3);
        Assert.True(left.Intersection(right).IsEmpty);
        Assert.Equal(left.Area, left.Minus(right).Area, 3);
        Assert.True(left.Minus(left).IsEmpty);
    }

    [Fact]
    public void Holes_and_islands()
    {
        var plate = Region.Of(Outline.Rectangle(new(0, 0), new(300, 200)));
        var ring = plate.Minus(Region.Of(Outline.Rectangle(new(50, 50), new(250, 150))));
        Assert.Single(Assert.Single(ring.Parts).Holes);
        Assert.Equal(60000 - 20000, ring.Area, 4);
        Assert.False(ring.Contains(new(150, 100)));
        var island = ring.Union(Region.Of(Outline.Rectangle(new(100, 80), new(200, 120))));
        Assert.Equal(2, island.Parts.Length);
        Assert.Equal(44000, island.Area, 4);
        Assert.Equal(2, ring.Minus(Region.Of(Outline.Rectangle(new(-10, 90), new(310, 110)))).Parts.Length);
        // Two squares that touch at a corner stay two.
        var corner = Region.Of(Outline.Rectangle(new(0, 0), new(10, 10))).Union(Region.Of(Outline.Rectangle(new(10, 10), new(20, 20))));
        Assert.Equal(2, corner.Parts.Length);
        var disc = plate.Minus(Region.Of(Outline.Circle(new(150, 100), 60)), 0.0001);
        Assert.InRange(disc.Area - (60000 - Math.PI * 3600), 0, 2 * Math.PI * 60 * 0.0001);
    }

    [Fact]
    public void Clipping_by_a_line_agrees_with_the_library_and_keeps_arcs()
    {
        Gen.Select(Stars, Gen.Double[0, 6], Gen.Double[-200, 200]).Sample((o, angle, offset) =>
        {
            var keep = -Vec2.FromAngle(angle);
            var parts = o.Clip(new HalfPlane(keep * -offset, keep));
            var middle = keep * (5000 - offset);
            var (u, v) = (keep * -5000, keep.Right * 5000);
            var half = Referee(Outline.Polygon(middle - u - v, middle + u - v, middle + u + v, middle - u + v));
            Assert.InRange(parts.Sum(p => p.Area()) - Referee(o).Intersection(half).Area, -2e-3, 2e-3);
            Assert.All(parts, p => Assert.Empty(p.Crossings(1e-9)));
        }, iter: 1500);
        // A disc cut at half its radius: circular segment r2 (w - sin w) / 2 with w = 120 degrees.
        var cap = Assert.Single(Outline.Circle(new(10, 20), 100).Clip(new HalfPlane(new(0, 70), new(0, 1))));
        var w = 2 * Math.PI / 3;
        Assert.Equal(100 * 100 * (w - Math.Sin(w)) / 2, cap.Area(), 6);
        Assert.Empty(Outline.Circle(new(10, 20), 100).Clip(new HalfPlane(new(0, 500), new(0, 1))));
        Assert.Equal(Math.PI * 1e4, Assert.Single(Outline.Circle(new(10, 20), 100).Clip(new HalfPlane(new(0, -500), new(0, 1)))).Area(), 6);
    }
}
