using CsCheck;
using Wain.Core;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Text;

namespace Wain.Tests.Geometry;

/// <summary>A curve stays one edge through an overlay of plans and on a pitched panel. By hand and by sampling.</summary>
public sealed class CurvesTests
{
    private const string Text = """
        sheet ply { thickness 12 mm
            size 48 in by 96 in }
        stack board { sheet ply }
        plan body { start at (-60 in, 30 in)
            leg left run 60 in
            leg front across 60 in
            leg right run 60 in
            leg rear home }
        plan nose { start at (0 in, 30 in)
            leg cheek run 20 in
            leg corner to (30 in, 20 in), bowed outward by 2.9289321881345254 in
            leg prow across 40 in
            leg other_corner mirror of corner
            leg other_cheek mirror of cheek
            leg back home }
        plan all from body joined with nose
        panel roof of board { covers plan all, underside at 60 in, pitched PITCH toward aft
            outside up }

        """;

    private static Structure Placed(string pitch)
    {
        var compiled = Compiler.Compile(new SourceText("curves.wain", Text.Replace("PITCH", pitch, StringComparison.Ordinal)));
        Assert.DoesNotContain(compiled.Findings, f => f.Code.StartsWith("WN3", StringComparison.Ordinal) && f.Level == Core.Findings.Level.Error);
        return compiled.Structure!;
    }

    /// <summary>60 by 60, and 60 by 30 less twice what a quarter circle of 10 leaves of its square: the joined plan has its two arcs, exact to the last bits of the overlay.</summary>
    [Fact]
    public void Joined_plans_keep_their_curves()
    {
        var all = Placed("1 deg").Plans.Single(p => p.Name == "all").Outline;
        Assert.Equal(2, all.Edges.Count(e => e.Sweep != 0));
        Assert.Equal(Math.PI / 2, Math.Abs(all.Edges[all.IndexOf("corner")].Sweep), 1e-4);
        Assert.Equal(60 * 60 + 60 * 30 - 2 * (100 - 25 * Math.PI), all.Area() / (25.4 * 25.4), 1e-3);
    }

    /// <summary>A panel of some pitch is its plan over the cosine, with as many edges while the pitch is small, all cut square.</summary>
    [Theory]
    [InlineData("0 deg", 0, 2)]
    [InlineData("1 deg", 1, 2)]
    [InlineData("10 deg", 10, 8)]
    public void A_pitched_panel_keeps_its_curves(string pitch, double degrees, int arcs)
    {
        var structure = Placed(pitch);
        var (plan, roof) = (structure.Plans.Single(p => p.Name == "all").Outline, structure.Panel("roof")!.Outline);
        Assert.InRange(roof.Edges.Count(e => e.Sweep != 0), 2, arcs);
        Assert.All(roof.Edges, e => Assert.Equal(0, e.Tilt));
        Assert.Equal(plan.Area() / Math.Cos(degrees * Math.PI / 180), roof.Area(), roof.Area() * 2e-5);
        Assert.Equal(plan.Perimeter, roof.Perimeter, plan.Perimeter * 0.02);
    }

    /// <summary>Any arc, flattened and restored, is itself.</summary>
    [Fact]
    public void What_is_flattened_is_restored() => Gen.Select(Gen.Double[20, 300], Gen.Double[0.3, 3], Gen.Double[0.005, 0.01]).Sample((chord, sweep, sagitta) =>
    {
        var outline = new Outline([new(new Vec2(0, 0), sweep, "bow"), new(new Vec2(chord, 0), 0, "side"), new(new Vec2(chord / 2, chord), 0, "other")]);
        var back = outline.Flattened(sagitta).Restored(outline.Segments);
        Assert.Equal(3, back.Count);
        Assert.Equal(sweep, back.Edges[back.IndexOf("bow")].Sweep, 1e-6);
    }, iter: 500);

    /// <summary>Arcs that stand for a stretched arc lie within the tolerance of it everywhere.</summary>
    [Fact]
    public void The_image_of_an_arc_is_near_it() => Gen.Select(Gen.Double[20, 500], Gen.Double[-3, 3], Gen.Double[1, 1.3]).Where(g => Math.Abs(g.Item2) > 0.05).Sample((chord, sweep, stretch) =>
    {
        var arc = new Segment(new Vec2(10, 20), new Vec2(10 + chord, 5), sweep);
        Vec2 Map(Vec2 p) => new(p.X, p.Y * stretch);
        var image = arc.Image(Map, 0.1).ToList();
        var made = image.Select((e, i) => new Segment(e.Start, i + 1 < image.Count ? image[i + 1].Start : Map(arc.To), e.Sweep)).ToList();
        for (int k = 0; k <= 200; k++) Assert.True(made.Min(m => m.DistanceTo(Map(arc.At(k / 200.0)))) < 0.15);
    }, iter: 300);
}
