using Wain.Core;
using Wain.Core.Drawing;
using Wain.Core.Drawing.Panels;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Reporting;
using Wain.Core.Text;

namespace Wain.Tests.Drawing.Panels;

public class JointAnglesTests
{
    private const double Degree = Math.PI / 180;

    /// <summary>
    /// Four walls that lean alike are a hopper. The compound mitre and bevel table printed in table-saw owner's manuals (to the closest 0.005 degree), pitch from
    /// the horizontal, four sides.
    /// </summary>
    [Theory]
    [InlineData(15, 44.01, 10.55)]
    [InlineData(30, 40.89, 20.70)]
    [InlineData(45, 35.26, 30.00)]
    [InlineData(60, 26.57, 37.76)]
    [InlineData(75, 14.51, 43.08)]
    public void AHopperIsCutAsThePublishedTableSays(double pitch, double mitre, double bevel)
    {
        double p = pitch * Degree;
        var normals = Enumerable.Range(0, 4).Select(i => Vec2.FromAngle(i * Math.PI / 2)).Select(d => new Vec3(d.X * Math.Sin(p), d.Y * Math.Sin(p), Math.Cos(p))).ToArray();
        var panel = Samples.Hopper(normals[0], normals[1], normals[3], 18);
        var cuts = JointAngles.Bevels(panel).Where(c => c.EdgeName is "left" or "right").ToList();
        Assert.Equal(2, cuts.Count);
        foreach (var cut in cuts)
        {
            Assert.NotNull(cut.Compound);
            Assert.InRange(cut.Compound.Value.Mitre / Degree - mitre, -0.0051, 0.0051);
            Assert.InRange(cut.Compound.Value.Bevel / Degree - bevel, -0.0051, 0.0051);
            Assert.InRange(cut.MitreRounded!.Value.Rounded / Degree - mitre, -0.26, 0.26);
        }
    }

    /// <summary>The tilt of every edge in the demo, measured again on corners of the solid in space: no formula of angles is used.</summary>
    [Fact]
    public void TiltsAreThoseOfTheSolids()
    {
        int cuts = 0, bevels = 0;
        foreach (var cut in JointAngles.Of(Samples.Heron.Structure).SelectMany(a => a.Cuts))
        {
            var (panel, edge) = (cut.Panel, cut.Edge);
            var inside = panel.OutlineAt(panel.Thickness);
            if (inside.Count != panel.Outline.Count) continue;
            Vec3 a = panel.Face.ToWorld(panel.Outline.Segment(edge).From), b = panel.Face.ToWorld(panel.Outline.Segment(edge).To);
            Vec3 c = panel.Face.ToWorld(inside.Segment(edge).At(0.5), panel.Thickness);
            // The foot of the inside edge's middle on the outside edge.
            var along = (b - a) / a.DistanceTo(b);
            var across = c - (a + along * (c - a).Dot(along));
            double width = across.Length, tilt = Math.Acos(Math.Min(1, panel.Thickness / width));
            Assert.Equal(Math.Abs(cut.Tilt), tilt, 6);
            cuts++;
            if (cut.IsSquare) continue;
            bevels++;
            // The rounded cut ends this far from the true one at the far side: two points on the same circle.
            Vec2 Far(double t) => Vec2.FromAngle(t) * width;
            double set = cut.Setting.WorkOnEdge ? Math.PI / 2 - cut.Rounded.Rounded : cut.Rounded.Rounded;
            Assert.Equal(Far(Math.Abs(cut.Tilt)).DistanceTo(Far(set)), cut.Error, 6);
            Assert.True(cut.Error <= width * 0.25 * Degree + 1e-9);
        }
        Assert.True(cuts > 20 && bevels >= 4, $"{cuts} cuts, {bevels} bevelled");
    }

    /// <summary>At a mitre of equal walls each tilt is half of what the angle lacks to 180 degrees (common practice), and both saw cuts lie in one plane.</summary>
    [Fact]
    public void MitredWallsShareTheirCut()
    {
        var mitres = JointAngles.Of(Samples.Heron.Structure).Where(a => a.Joint.Kind == JointKind.Mitre).ToList();
        Assert.NotEmpty(mitres);
        foreach (var angle in mitres)
        {
            Assert.Equal(2, angle.Cuts.Length);
            Assert.Equal(Math.PI - angle.Dihedral, Math.Abs(angle.Cuts[0].Tilt) + Math.Abs(angle.Cuts[1].Tilt), 6);
            foreach (var cut in angle.Cuts) Assert.Equal(angle.Ideal.Mitre, Math.Abs(cut.Tilt), 6);
            var planes = angle.Cuts.Select(c => FaceCut.Through(c.Panel.Face, c.Panel.Outline, c.Edge)!.Value).ToList();
            Assert.Equal(Math.PI, planes[0].Normal.AngleTo(planes[1].Normal), 6);
            Assert.Equal(planes[0].Offset, -planes[1].Offset, 3);
        }
    }

    /// <summary>
    /// Walls that lean by different angles on the legs of an irregular plan, mitred: dihedral, tilt, compound mitre and bevel, long and short points, each measured again on the
    /// corners of the placed solids with a ruler and a protractor's arithmetic, and none of the formulas.
    /// </summary>
    [Fact]
    public void OddCornersAreCutAsTheirSolidsSay()
    {
        var random = new Random(11);
        int compound = 0, steep = 0;
        for (int n = 0; n < 60; n++)
        {
            double In(double low, double high) => Math.Round(low + (high - low) * random.NextDouble(), 1);
            string text = FormattableString.Invariant($$"""
                sheet ply { thickness 18 mm
                    size 48 in by 96 in }
                stack board { sheet ply }
                plan body {
                    start at (0 in, 0 in)
                    leg one to ({{In(40, 60)}} in, {{In(-20, 20)}} in)
                    leg two to ({{In(45, 70)}} in, {{In(40, 60)}} in)
                    leg three to ({{In(-10, 10)}} in, {{In(35, 60)}} in)
                    leg four home
                    corners mitred
                }
                panel a of board { stands on body.one, from 0 in to 20 in, leaning {{In(0, 35)}} deg inward }
                panel b of board { stands on body.two, from 0 in to 20 in, leaning {{In(0, 35)}} deg inward }
                panel c of board { stands on body.three, from 0 in to 20 in, leaning {{In(0, 35)}} deg inward }
                panel d of board { stands on body.four, from 0 in to 20 in }
                joint a.right to b.left { mitre }
                joint b.right to c.left { mitre }
                joint c.right to d.left { mitre }
                joint d.right to a.left { mitre }
                """);
            var c = Compiler.Compile(new SourceText("odd.wain", text.ReplaceLineEndings("\n")));
            if (c.Structure is not { } structure) continue;
            foreach (var joint in JointAngles.Of(structure))
            {
                Vec3 Normal(PlacedPanel p) { Vec3 At(int i) => p.Face.ToWorld(p.Outline.Corners.ElementAt(i)); return (At(1) - At(0)).Cross(At(2) - At(0)).Unit; }
                Vec3 m = Normal(joint.Joint.First.Panel), q = Normal(joint.Joint.Second.Panel);
                Assert.Equal(Math.PI - Math.Acos(Math.Clamp(m.Dot(q), -1, 1)), joint.Dihedral, 6);
                foreach (var cut in joint.Cuts)
                {
                    var panel = cut.Panel;
                    var outer = panel.Outline.Segment(cut.Edge);
                    var inner = panel.OutlineAt(panel.Thickness).Segment(cut.Edge);
                    Vec3 p0 = panel.Face.ToWorld(outer.From), p1 = panel.Face.ToWorld(outer.To), r0 = panel.Face.ToWorld(inner.From, panel.Thickness);
                    // The saw's cut holds the edge of both faces: its plane leans from square to the board by the blade's tilt.
                    var saw = (p1 - p0).Cross(r0 - p0).Unit;
                    double bevel = Math.Asin(Math.Clamp(Math.Abs(saw.Dot(Normal(panel))), 0, 1));
                    Assert.Equal(Math.Abs(cut.Tilt), bevel, 6);
                    steep += bevel > Math.PI / 4 ? 1 : 0;
                    Assert.Equal(bevel > Math.PI / 4 + 1e-9, cut.Setting.WorkOnEdge);
                    if (cut.Compound is not { } both) continue;
                    compound++;
                    int fence = panel.Outline.IndexOf(cut.Fence!);
                    var held = panel.Outline.Segment(fence).Chord.Unit;
                    double between = Math.Acos(Math.Clamp(Math.Abs(outer.Chord.Unit.Dot(held)), 0, 1));
                    Assert.Equal(Math.PI / 2 - between, both.Mitre, 6);
                    Assert.Equal(bevel, both.Bevel, 6);
                }
                // Cut so, the two boards meet in one plane.
                var planes = joint.Cuts.Select(k => FaceCut.Through(k.Panel.Face, k.Panel.Outline, k.Edge)!.Value).ToList();
                Assert.Equal(Math.PI, planes[0].Normal.AngleTo(planes[1].Normal), 5);
                Assert.Equal(planes[0].Offset, -planes[1].Offset, 2);
            }
        }
        Assert.True(compound > 100, $"{compound} compound cuts, {steep} beyond 45 degrees");
    }

    /// <summary>A quarter of a degree goes up to the half, whatever the last bits of its arithmetic, and an angle under that is sawn square.</summary>
    [Theory]
    [InlineData(4.25, 4.5)]
    [InlineData(4.2499999999, 4.5)]
    [InlineData(4.24, 4.0)]
    [InlineData(0.15, 0.0)]
    public void HalfDegreesGoUp(double exact, double rounded)
    {
        Assert.Equal(rounded, Angles.RoundToHalfDegree(exact * Degree).Rounded / Degree, 9);
        Assert.Equal(FormattableString.Invariant($"{rounded:0.#}\u00B0"), LengthText.OfAngle(exact * Degree));
    }

    /// <summary>Right-triangle case: 3/4 in bevelled by 30 degrees gains 0.75 tan 30 = 0.433 in. Beyond 45 degrees the complement is set with the work on edge.</summary>
    [Fact]
    public void LongPointsAndSteepCuts()
    {
        var panel = Samples.Bevelled(24 * 25.4, 0.75 * 25.4, 30 * Degree);
        var cut = JointAngles.Cut(panel, panel.Outline.IndexOf("right"));
        Assert.Equal(24, cut.Size.Short / 25.4, 9);
        Assert.Equal(24.4330127, cut.Size.Blank / 25.4, 6);
        Assert.False(cut.Setting.WorkOnEdge);
        Assert.Contains("Tilt the saw 30\u00B0", cut.Instruction, StringComparison.Ordinal);

        var steep = Samples.Bevelled(24 * 25.4, 0.75 * 25.4, 60.2 * Degree);
        var steepCut = JointAngles.Cut(steep, steep.Outline.IndexOf("right"));
        Assert.True(steepCut.Setting.WorkOnEdge);
        Assert.Equal(30, steepCut.Rounded.Rounded / Degree, 9);
        Assert.Equal(29.8, steepCut.Rounded.Exact / Degree, 9);
        Assert.Contains("Set the saw to 30\u00B0 and stand the work on edge", steepCut.Instruction, StringComparison.Ordinal);
    }

    [Fact]
    public void TheTableHasARowForEveryCut()
    {
        var structure = Samples.Heron.Structure;
        var table = JointTable.Of(structure, new ReportUnits(Core.Text.Say.Usual, 16));
        Assert.Equal(JointAngles.Of(structure).Sum(a => a.Cuts.Length), table.Rows.Length);
        Assert.Equal(table.Rows.Length, table.Rows.Select(r => r.Key).Distinct(StringComparer.Ordinal).Count());
        Assert.All(table.Rows, r => Assert.Equal(table.Columns.Length, r.Cells.Length));
        int tilt = table.ColumnIndex("tilt"), kind = table.ColumnIndex("kind");
        var nose = table.Rows.First(r => r.Key.StartsWith("left_wall.left at", StringComparison.Ordinal));
        // The demo states a nose angle of 8.5 degrees, so each half of its mitre is 4.25.
        Assert.Equal(4.25, Math.Abs(((Cell.Number)nose.Cells[tilt]).Value), 6);
        Assert.Equal("mitre", ((Cell.Words)nose.Cells[kind]).Value);
    }
}
