using System.Collections.Immutable;
using CsCheck;
using Wain.Core;
using Wain.Core.Checks;
using Wain.Core.Clearance;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Text;
using Wain.Tests.Geometry;

namespace Wain.Tests.Clearance;

public class LiftClearanceTests
{
    private const string Materials = """
        sheet ply { thickness 1/2 in
            size 48 in by 96 in }
        stack board { sheet ply }
        unit window { cut_out 20 in by 10 in
            flange 1 in
            proud 3/4 in }

        """;

    private static Compilation Compile(string text) => Compiler.Compile(new SourceText("lift.wain", Materials + text.ReplaceLineEndings("\n")));

    // A standing wall 1/2 in thick whose outside face is at y = 30 in, and a shell wall that slides up outside it.
    private static string Story(string recess, string gap = "1/2 in", string lift = "") => $$"""
        panel inner of board {
            through (0 in, 30 in, 0 in) along (-60 in, 30 in, 0 in) up (0 in, 30 in, 30 in)
            outside left
            opening vent {
                unit window
                lower left at (20 in, 6 in)
                unframed
                {{recess}}
            }
        }
        panel outer of board {
            through (0 in, 30 in + 1/2 in + {{gap}}, 20 in) along (-60 in, 30 in + 1/2 in + {{gap}}, 20 in) up (0 in, 30 in + 1/2 in + {{gap}}, 50 in)
        }
        lift top_lift {
            carries { outer }
            travel 15 in
            lag up to 0 in at any corner
            clearance at least 1/8 in
            {{lift}}
        }
        """;

    /// <summary>By hand: the trim stands 3/4 in out, the gap is 1/2 in: they cross by 1/4 in, and with 1/8 in to spare the recess is 3/8 in deep.</summary>
    [Fact]
    public void Trim_proud_of_a_sliding_wall_fails_with_place_amount_and_depth_and_its_revision_passes()
    {
        // The shell's lower edge is at 20 in, the trim reaches from 5 to 17 in: the way down is the travel of a shell that starts raised.
        string text = Story("").Replace("travel 15 in", "travel 15 in toward down", StringComparison.Ordinal);
        var finding = Assert.Single(Compile(text).Findings, f => f.Code == LiftClears.Straight.Code);
        Assert.Contains("runs into", finding.Message);
        Assert.Contains("1/4 in", finding.Message);
        Assert.Contains("from 3 in to 15 in of travel", finding.Message);
        Assert.Contains("3/8 in deep", finding.Hint);
        Assert.Equal("inner.vent", finding.Subject);

        string mended = Story("recessed 3/8 in, margin 1 1/4 in").Replace("travel 15 in", "travel 15 in toward down", StringComparison.Ordinal);
        Assert.DoesNotContain(Compile(mended).Findings, f => f.Code == LiftClears.Straight.Code);
        string almost = mended.Replace("recessed 3/8 in", "recessed 5/16 in", StringComparison.Ordinal);
        Assert.Contains("comes within 1/16 in", Assert.Single(Compile(almost).Findings, f => f.Code == LiftClears.Straight.Code).Message);
    }

    [Fact]
    public void Gap_overlap_and_figures_by_hand()
    {
        var compiled = Compile(Story("recessed 3/4 in, margin 1 in", lift: "gap between 5/8 in and 3/4 in\noverlap raised at least 2 in"));
        Assert.Contains(compiled.Findings, f => f.Code == LiftWalls.Gap.Code && f.Message.Contains("1/2 in", StringComparison.Ordinal));
        // Standing top at 30 in, moving bottom at 20 + 15 in: they have parted by 5 in.
        Assert.Contains(compiled.Findings, f => f.Code == LiftWalls.Overlap.Code && f.Message.Contains("5 in past", StringComparison.Ordinal));
        var figures = compiled.Design!.Figures;
        Assert.Equal(12.7, figures.Find("top_lift.gap_least")!.Value.Millimetres, 4);
        Assert.Equal(12.7, figures.Find("top_lift.clearance")!.Value.Millimetres, 4);
        Assert.Equal(-127, figures.Find("top_lift.overlap")!.Value.Millimetres, 4);
    }

    [Fact]
    public void Panels_that_pass_through_each_other_are_told_with_the_depth()
    {
        var findings = Compile("""
            panel deck of board { through (0 in, 20 in, 0 in) along (0 in, -20 in, 0 in) up (40 in, 20 in, 0 in) }
            panel post of board { spans from (10 in, 0 in) to (20 in, 0 in), standing on -1/8 in, up to 20 in }
            """).Findings;
        var clash = Assert.Single(findings, f => f.Code == PanelsClash.Info.Code);
        Assert.Contains("by 1/8 in", clash.Message);
    }

    /// <summary>Random small assemblies against sampling at 200 heights, each by every corner, edge and face.</summary>
    [Fact]
    public void Least_clearance_agrees_with_sampling_200_heights()
    {
        var at = Gen.Select(Gen.Int[-6, 6], Gen.Int[-6, 6], Gen.Int[-6, 6], Gen.Int[1, 8], Gen.Int[1, 8], Gen.Int[1, 8])
            .Select((x, y, z, a, b, c) => ConvexPolyhedron.Block(new Vec3(x, y, z) * 50, new Vec3(x, y, z) * 50 + new Vec3(a, b, c) * 30));
        int apart = 0, collided = 0;
        Gen.Select(at.Array[1, 3], at.Array[1, 3], Gen.Int[1, 8]).Sample((moving, standing, rise) =>
        {
            double travel = rise * 60;
            var found = MovingClearance.Find([[.. moving]], [[.. standing]], Vec3.UnitZ, 0, travel, 1e4);
            double sampled = Enumerable.Range(0, 201).Min(k => moving.Min(m => standing.Min(s => BruteForce.Distance(m.Transformed(RigidMove.Straight(Vec3.UnitZ * (travel * k / 200))), s))));
            double step = travel / 200;
            var least = Assert.Single(found);
            if (least.Distance < 0)
            {
                Interlocked.Increment(ref collided);
                Assert.InRange(sampled, 0, step);
            }
            else
            {
                if (least.Distance > 0) Interlocked.Increment(ref apart);
                // Never more than any sample, and no sample can miss by more than half a step.
                Assert.InRange(least.Distance, 0, sampled + 1e-6);
                Assert.InRange(sampled - least.Distance, -1e-6, step);
            }
        }, iter: 60);
        Assert.True(apart > 5 && collided > 5, $"{apart} apart, {collided} collided");
    }

    /// <summary>Low corners by hand: a box of walls that turns about its top by lag over diagonal swings its lower edges by that angle times their depth.</summary>
    [Fact]
    public void Racked_roof_swings_its_walls()
    {
        const string box = """
            panel inner of board { through (0 in, 30 in, 0 in) along (-60 in, 30 in, 0 in) up (0 in, 30 in, 30 in)
                outside left }
            panel outer of board { through (0 in, 31 in, 2 in) along (-60 in, 31 in, 2 in) up (0 in, 31 in, 32 in) }
            panel far_side of board { through (-60 in, -31 in, 2 in) along (0 in, -31 in, 2 in) up (-60 in, -31 in, 32 in) }
            lift top_lift { carries { outer
                    far_side }
                travel 20 in
                lag up to 1 in at any corner }
            """;
        var lift = Assert.Single(Compile(box).Design!.Clearance.Lifts);
        double straight = lift.Straight[0].Distance, racked = lift.Racked[0].Distance;
        double wide = 2 * lift.Straight[0].Moving.Bounds.Max.Y, diagonal = Math.Sqrt(wide * wide + 1524 * 1524);
        double swing = 25.4 / diagonal * (wide > 0 ? 1524 / diagonal : 0) * 28 * 25.4;
        Assert.True(racked < straight);
        // The part of the swing that goes sideways; the rest goes along the wall.
        Assert.InRange(straight - racked, 0.5 * swing, 1.5 * swing);
    }

    // A standing wall that leans away from a plumb one outside of it: 1 in apart at its foot, and 30 in farther up by the tangent of the lean more.
    private static string Leaning(string top, string travel, string fact) => $$"""
        panel inner of board {
            through (0 in, 30 in, 0 in) along (-60 in, 30 in, 0 in) up (0 in, {{top}}, 30 in)
            outside left
        }
        panel outer of board { through (0 in, 31 1/2 in, 0 in) along (-60 in, 31 1/2 in, 0 in) up (0 in, 31 1/2 in, 30 in) }
        lift top_lift {
            carries { outer }
            travel {{travel}}
            {{fact}}
        }
        """;

    /// <summary>By hand: at rest they share 0 to 30 in, raised by 12 in 12 to 30 in; over 30 in the inner wall goes back 3 in, so the gap runs from 1 to 4 in.</summary>
    [Fact]
    public void The_gap_of_walls_that_lean_to_each_other_is_told_from_end_to_end()
    {
        var compilation = Compile(Leaning("27 in", "12 in", "gap between 3/4 in and 1 1/4 in"));
        var wall = Assert.Single(Assert.Single(compilation.Design!.Clearance.Lifts).Walls);
        Assert.Equal(25.4, wall.Gap, 6);
        Assert.Equal(4 * 25.4, wall.Widest, 6);
        var finding = Assert.Single(compilation.Findings, f => f.Code == LiftWalls.Gap.Code);
        Assert.Contains("runs from 1 in to 4 in at rest and raised", finding.Message);
        Assert.DoesNotContain(Compile(Leaning("27 in", "12 in", "gap between 3/4 in and 4 1/16 in")).Findings, f => f.Code == LiftWalls.Gap.Code);
        Assert.DoesNotContain(Compile(Leaning("30 in", "12 in", "gap between 3/4 in and 1 1/4 in")).Findings, f => f.Code == LiftWalls.Gap.Code);
    }

    /// <summary>By hand: 30 in of wall raised by 33 in ends 3 in past the other, and 27 in is as far as 30 in may go to lap by 3 in.</summary>
    [Theory]
    [InlineData("33 in", "", "WN4313")]
    [InlineData("28 in", "", null)]
    [InlineData("28 in", "overlap raised at least 3 in", "WN4306")]
    public void Walls_that_part_are_told_without_a_stated_overlap(string travel, string fact, string? code)
    {
        var found = Compile(Leaning("30 in", travel, fact)).Findings.Where(f => f.Code is "WN4306" or "WN4313").ToList();
        Assert.Equal(code is null ? [] : [code], found.Select(f => f.Code));
        if (code == "WN4313") Assert.Contains("ends 3 in past inner", found[0].Message);
    }

    /// <summary>Walls 2 1/2 in apart stand beside nothing: a gap, a seal or a lap that is stated of them says nothing, which is told.</summary>
    [Theory]
    [InlineData("gap between 3/8 in and 5/8 in", "1/2 in", false)]
    [InlineData("gap between 3/8 in and 5/8 in", "2 1/2 in", true)]
    [InlineData("overlap raised at least 2 in", "2 1/2 in", true)]
    [InlineData("", "2 1/2 in", false)]
    public void Walls_too_far_apart_for_a_stated_gap_are_told(string fact, string gap, bool told) =>
        Assert.Equal(told, Compile(Story("recessed 7/16 in", gap, fact)).Findings.Any(f => f.Code == LiftWalls.Apart.Code));
}
