using CsCheck;
using Wain.Core.Geometry.Kernel;

namespace Wain.Tests.Geometry;

public class OutlineTests
{
    private static Outline Points(params (double X, double Y)[] points) => Outline.Polygon(points.Select(p => new Vec2(p.X, p.Y)));

    /// <summary>The surveyor's (shoelace) formula on two polygons of whole numbers: B. Braden, "The Surveyor's Area Formula",
    /// The College Mathematics Journal 17 (1986). The rule is the published one; the corners are our own and the areas counted by Pick's theorem.</summary>
    [Fact]
    public void Shoelace_area_agrees_with_picks_theorem()
    {
        // Inner lattice points plus half the boundary points less one (Pick, 1899).
        Check(Points((0, 0), (6, 0), (6, 2), (3, 2), (3, 5), (0, 5)));
        Check(Points((1, 0), (7, 1), (9, 6), (4, 4), (2, 8), (0, 3)));

        static void Check(Outline o)
        {
            int inner = 0, onEdge = 0;
            for (var x = -1; x <= 10; x++)
                for (var y = -1; y <= 10; y++)
                {
                    var p = new Vec2(x, y);
                    if (o.DistanceToEdges(p) < 1e-9) onEdge++;
                    else if (o.Contains(p)) inner++;
                }
            Assert.Equal(inner + onEdge / 2.0 - 1, o.SignedArea(), 12);
            Assert.Equal(-o.SignedArea(), o.Reversed.SignedArea(), 12);
        }
    }

    /// <summary>Centroid of a trapezoid, y = h(2a + b) / (3(a + b)) from the side b (Gere, Mechanics of Materials, appendix on plane areas).</summary>
    [Fact]
    public void Trapezoid_centroid()
    {
        var o = Points((-4, 0), (4, 0), (2, 6), (-2, 6));
        Assert.Equal(6.0 * (2 * 4 + 8) / (3 * (4 + 8)), o.Centroid().Y, 12);
        Assert.Equal(2.667, o.Centroid().Y, 3);
    }

    /// <summary>Plate with a hole (Hibbeler, Statics, example 9.10; from memory of the text): a 3 x 3 square with a triangle of 4.5 beside it, less a 2 x 1 hole.</summary>
    [Fact]
    public void Plate_with_hole_centroid()
    {
        var triangle = Points((0, 0), (3, 0), (0, 3));
        var square = Points((-3, 0), (0, 0), (0, 3), (-3, 3));
        var hole = Points((-3, 1), (-2, 1), (-2, 3), (-3, 3));
        var centroid = (triangle.Moments() + square.Moments() - hole.Moments()).Centroid;
        Assert.Equal(-0.348, centroid.X, 3);
        Assert.Equal(1.22, centroid.Y, 2);
    }

    /// <summary>Half circle: area pi r2 / 2, centroid 4r / (3 pi), second moments pi r4 / 8 about both axes through the centre (Gere, appendix on plane areas).</summary>
    [Fact]
    public void Half_circle_moments()
    {
        const double r = 250;
        var m = new Outline([new(new(r, 0), Math.PI), new(new(-r, 0))]).Moments();
        Relative(Math.PI * r * r / 2, m.Area);
        Relative(4 * r / (3 * Math.PI), m.Centroid.Y);
        Assert.Equal(0, m.Centroid.X, 9);
        Relative(Math.PI * Math.Pow(r, 4) / 8, m.Sxx);
        Relative(Math.PI * Math.Pow(r, 4) / 8, m.Syy);
    }

    /// <summary>Circular segment: area r2 (w - sin w) / 2 and centroid 4 r sin3(w/2) / (3 (w - sin w)) from the centre (Gere, appendix on plane areas).</summary>
    [Theory]
    [InlineData(0.02)]
    [InlineData(0.7)]
    [InlineData(2.5)]
    [InlineData(4.4)]
    public void Circular_segment_area_and_centroid(double w)
    {
        const double r = 900;
        var (a, b) = (Vec2.FromAngle(-w / 2) * r, Vec2.FromAngle(w / 2) * r);
        var m = new Outline([new(a, w), new(b)]).Moments();
        var tolerance = w < 0.1 ? 1e-9 : 1e-12;
        Relative(r * r / 2 * (w - Math.Sin(w)), m.Area, tolerance);
        Relative(4 * r * Math.Pow(Math.Sin(w / 2), 3) / (3 * (w - Math.Sin(w))), m.Centroid.X, tolerance);
    }

    [Fact]
    public void Arcs_agree_with_their_fine_flattening()
    {
        Gen.Double[-3, 3].Array[5].Sample(sweeps =>
        {
            var o = new Outline([.. sweeps.Select((s, i) => new OutlineEdge(Vec2.FromAngle(2 * Math.PI * i / 5) * 500 + new Vec2(300, -200), s))]);
            var flat = o.Flattened(1e-5).Moments();
            var exact = o.Moments();
            Assert.InRange(exact.Area - flat.Area, -0.1, 0.1);
            Assert.InRange(exact.Sx - flat.Sx, -200, 200);
            Assert.InRange((exact.Sxx - flat.Sxx) / 1e11, -1e-5, 1e-5);
            Assert.InRange((exact.Sxy - flat.Sxy) / 1e11, -1e-5, 1e-5);
            Assert.Equal(flat.Area, o.Flattened(1e-5).Area(), 6);
        }, iter: 50);
    }

    [Fact]
    public void Moments_move_and_turn_with_the_outline()
    {
        var o = new Outline([new(new(0, 0), 0.5), new(new(400, 30)), new(new(300, 250), -0.8), new(new(20, 200))]);
        var m = o.Moments().Moved(new(70, -40));
        var moved = o.Translated(new(70, -40)).Moments();
        Relative(m.Sxy, moved.Sxy);
        Relative(m.Syy, moved.Syy);
        var turned = o.Rotated(0.3).Moments();
        Relative(o.Moments().Area, turned.Area);
        Assert.True(turned.Centroid.IsNear(o.Centroid().Rotate(0.3), 1e-9));
        Relative(o.Moments().Area, o.Mirrored.SignedArea());
        Assert.True(new Vec2(-o.Centroid().X, o.Centroid().Y).IsNear(o.Mirrored.Centroid(), 1e-9));
        Assert.Equal(o, o.Mirrored.Mirrored);
    }

    [Fact]
    public void Crossings_say_which_edges_and_where()
    {
        Assert.Empty(Points((0, 0), (10, 0), (10, 10), (0, 10)).Crossings());
        var bow = Assert.Single(Points((0, 0), (10, 10), (10, 0), (0, 10)).Crossings());
        Assert.Equal((0, 2), (bow.EdgeA, bow.EdgeB));
        Assert.True(bow.At.IsNear(new(5, 5)));
        Assert.NotEmpty(Points((0, 0), (10, 0), (4, 0), (4, 5)).Crossings());
        // An arc that bows in as far as the far side.
        var arc = new Outline([new(new(0, 0)), new(new(100, 0)), new(new(100, 40), -Math.PI * 0.9), new(new(0, 40))]).Crossings();
        Assert.NotEmpty(arc);
        Assert.All(arc, c => Assert.Equal((0, 2), (c.EdgeA, c.EdgeB)));
    }

    [Fact]
    public void Longest_chord()
    {
        Assert.Equal(50, Outline.Rectangle(new(0, 0), new(40, 30)).LongestChord(), 9);
        Assert.Equal(200, Outline.Circle(new(5, 5), 100).LongestChord(), 9);
        // A slot with round ends is as long as its length over all.
        var slot = new Outline([new(new(0, -20)), new(new(100, -20), Math.PI), new(new(100, 20)), new(new(0, 20), Math.PI)]);
        Assert.Equal(140, slot.LongestChord(), 9);
        Assert.Equal(new Box2(new(-20, -20), new(120, 20)), slot.Bounds);
        Assert.Equal(200 + 40 * Math.PI, slot.Perimeter, 9);
    }

    [Fact]
    public void Rounded_corners_fit_or_say_why()
    {
        var fits = OutlineShapes.RoundedRectangle(new(0, 0), new(450, 250), 50).Outline!;
        Assert.Equal(450 * 250 - (4 - Math.PI) * 50 * 50, fits.Area(), 6);
        Assert.Empty(fits.Crossings());
        var capsule = OutlineShapes.RoundedRectangle(new(0, 0), new(450, 250), 125).Outline!;
        Assert.Equal(450 * 250 - (4 - Math.PI) * 125 * 125, capsule.Area(), 6);
        Assert.Empty(capsule.Crossings());
        var failure = OutlineShapes.RoundedRectangle(new(0, 0), new(450, 250), 140).Failure!;
        Assert.Equal((280.0, 250.0), (Math.Round(failure.Needed, 9), failure.Available));
    }

    [Fact]
    public void Distances_between_openings()
    {
        var panel = Outline.Rectangle(new(0, 0), new(1000, 600));
        var window = OutlineShapes.RoundedRectangle(new(100, 100), new(400, 300), 40).Outline!;
        var port = Outline.Circle(new(500, 400), 60);
        Assert.True(panel.Contains(window));
        Assert.Equal(100, panel.EdgeDistance(window).Distance, 9);
        // Centre of the window's upper right corner arc to the port's centre, less both radii.
        Assert.Equal(new Vec2(360, 260).DistanceTo(new(500, 400)) - 100, window.DistanceTo(port), 9);
        Assert.False(panel.Contains(Outline.Circle(new(30, 300), 40)));
        Assert.Equal(0, Outline.Circle(new(0, 0), 50).DistanceTo(Outline.Circle(new(80, 0), 50)));
    }

    private static void Relative(double expected, double actual, double tolerance = 1e-12) =>
        Assert.True(Math.Abs(expected - actual) <= tolerance * Math.Abs(expected), $"{actual:R} is not {expected:R}");
}
