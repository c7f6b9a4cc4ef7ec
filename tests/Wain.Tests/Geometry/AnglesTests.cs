using CsCheck;
using Wain.Core.Geometry.Kernel;

namespace Wain.Tests.Geometry;

public class AnglesTests
{
    private const double Degree = Math.PI / 180;

    /// <summary>The compound mitre and bevel table printed in table-saw owner's manuals (to the closest 0.005 degree), pitch from the horizontal.</summary>
    public static TheoryData<int, double, double, double> Table => new()
    {
        { 4, 15, 44.01, 10.55 }, { 5, 15, 35.06, 8.75 }, { 6, 15, 29.15, 7.44 }, { 8, 15, 21.81, 5.68 },
        { 4, 30, 40.89, 20.70 }, { 5, 30, 32.18, 17.09 }, { 6, 30, 26.57, 14.48 }, { 8, 30, 19.73, 11.03 },
        { 4, 45, 35.26, 30.00 }, { 5, 45, 27.19, 24.56 }, { 6, 45, 22.21, 20.70 }, { 8, 45, 16.32, 15.70 },
        { 4, 60, 26.57, 37.76 }, { 5, 60, 19.96, 30.60 }, { 6, 60, 16.10, 25.66 }, { 8, 60, 11.70, 19.35 },
        { 4, 75, 14.51, 43.08 }, { 5, 75, 10.65, 34.59 },
        { 4, 0, 45, 0 }, { 5, 0, 36, 0 }, { 6, 0, 30, 0 }, { 8, 0, 22.5, 0 },
        { 4, 90, 0, 45 }, { 5, 90, 0, 36 }, { 6, 90, 0, 30 }, { 8, 90, 0, 22.5 },
    };

    [Theory]
    [MemberData(nameof(Table))]
    public void Compound_table(int sides, double pitch, double mitre, double bevel)
    {
        var box = Angles.RegularBox(sides, pitch * Degree);
        Assert.InRange(box.Mitre / Degree - mitre, -0.0051, 0.0051);
        Assert.InRange(box.Bevel / Degree - bevel, -0.0051, 0.0051);
        // The general case from two panels: outward normals of neighbouring sides and the level edge.
        Vec3 Outward(int i)
        {
            var around = Vec2.FromAngle(2 * Math.PI * i / sides);
            return new(around.X * Math.Sin(pitch * Degree), around.Y * Math.Sin(pitch * Degree), Math.Cos(pitch * Degree));
        }
        if (pitch > 0)
        {
            var general = Angles.CompoundMitre(Outward(0), Outward(1), new(0, 1, 0))!.Value;
            Assert.Equal(box.Mitre, general.Mitre, 9);
            Assert.Equal(box.Bevel, general.Bevel, 9);
        }
    }

    /// <summary>Measured on the corners of a board built as a solid, with none of the formulas.</summary>
    [Theory]
    [MemberData(nameof(Table))]
    public void Compound_table_by_measuring_a_solid_board(int sides, double pitch, double mitre, double bevel)
    {
        var (half, p) = (Math.PI / sides, pitch * Degree);
        var outward = new Vec3(Math.Sin(p), 0, Math.Cos(p));
        var face = Plane.Through(new(500, 0, 0), outward);
        // The board's long edges are level on the face; its ends lie in the upright planes that halve the corners.
        var edges = new Vec3(Math.Cos(p), 0, -Math.Sin(p));
        var board = ConvexPolyhedron.FromHalfSpaces([
            face, face.Moved(-18).Flipped,
            Plane.Through(new(500, 0, 0), edges), Plane.Through(new Vec3(500, 0, 0) - edges * 100, -edges),
            Plane.Through(default, new(-Math.Sin(half), Math.Cos(half), 0)), Plane.Through(default, new(-Math.Sin(half), -Math.Cos(half), 0))])!;
        var outside = board.Faces[0].Corners.Select(i => board.Corners[i]).ToArray();
        var end = outside.Where(c => c.Y > 0).ToArray();
        Assert.Equal(2, end.Length);
        var measuredMitre = Math.Atan2(Math.Abs(end[0].Y - end[1].Y), Math.Abs((end[0] - end[1]).Dot(edges)));
        var normal = board.Faces[4].Corners.Select(i => board.Corners[i]).ToArray() is var q ? (q[1] - q[0]).Cross(q[2] - q[0]) : default;
        var measuredBevel = Math.Abs(Math.PI / 2 - normal.AngleTo(outward));
        Assert.InRange(measuredMitre / Degree - mitre, -0.0051, 0.0051);
        Assert.InRange(measuredBevel / Degree - bevel, -0.0051, 0.0051);
    }

    /// <summary>Moulding at a 38 degree spring in a square corner: mitre 31.62, bevel 33.86 (mitre-saw manuals, from memory).</summary>
    [Fact]
    public void Sprung_moulding()
    {
        var cut = Angles.RegularBox(4, (90 - 38) * Degree);
        Assert.Equal(31.62, cut.Mitre / Degree, 2);
        Assert.Equal(33.86, cut.Bevel / Degree, 2);
    }

    /// <summary>Two walls at 90 degrees in plan that lean a and b from upright: cos of the angle between outward normals is sin a sin b
    /// (45/45 agrees with the published table's 30 degree blade tilt; 15/30 is computed).</summary>
    [Theory]
    [InlineData(45, 45, 120)]
    [InlineData(15, 30, 97.44)]
    [InlineData(0, 0, 90)]
    public void Dihedral_of_leaning_walls(double a, double b, double dihedral)
    {
        var first = new Vec3(Math.Cos(a * Degree), 0, Math.Sin(a * Degree));
        var second = new Vec3(0, Math.Cos(b * Degree), Math.Sin(b * Degree));
        var found = Angles.Dihedral(first, second);
        // Leaning in, the normals turn up together and the inside angle opens.
        Assert.Equal(dihedral, found / Degree, 2);
        Assert.Equal((180 - dihedral) / 2, Angles.SawTilt(found).Mitre / Degree, 2);
        Assert.Equal(Math.Abs(90 - dihedral), Angles.SawTilt(found).OneSide / Degree, 2);
        // Seen from the other side the same two faces make an inward corner.
        Assert.Equal(2 * Math.PI - found, Angles.Dihedral(first, second, reflex: true), 9);
    }

    [Fact]
    public void Beyond_forty_five_the_complement()
    {
        Assert.Equal(new SawSetting(45 * Degree, false), Angles.Setting(45 * Degree));
        var steep = Angles.Setting(-60 * Degree);
        Assert.True(steep.WorkOnEdge);
        Assert.Equal(30, steep.Tilt / Degree, 9);
    }

    [Fact]
    public void Rounding_to_half_degrees_leaves_a_stated_error()
    {
        var rounded = Angles.RoundToHalfDegree(8.3 * Degree);
        Assert.Equal(8.5, rounded.Rounded / Degree, 9);
        // 0.2 degree over 1278 mm, by the chord.
        Assert.Equal(2 * 1278 * Math.Sin(0.1 * Degree), rounded.ErrorAt(1278), 9);
        Assert.Equal(8.5, Angles.RoundToHalfDegree(8.25 * Degree + 1e-12).Rounded / Degree, 9);
    }

    [Fact]
    public void Long_and_short_points()
    {
        // Ends at 45 degrees, both lengthening the inside by the thickness.
        var wedge = Angles.Bevelled(1000, 18, Math.PI / 4, Math.PI / 4);
        Assert.Equal((1000, 1036, 1036, 1000), (wedge.Outside, Math.Round(wedge.Inside, 9), Math.Round(wedge.Blank, 9), wedge.Short));
        // Parallel ends: both faces are as long, the blank is longer than either.
        var rhomb = Angles.Bevelled(1000, 18, Math.PI / 4, -Math.PI / 4);
        Assert.Equal((1000, 1018, 982), (Math.Round(rhomb.Inside, 9), Math.Round(rhomb.Blank, 9), Math.Round(rhomb.Short, 9)));
    }
}
