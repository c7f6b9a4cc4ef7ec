using NetTopologySuite.Operation.OverlayNG;
using Wain.Core;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Text;
using Wain.Tests.Framing;

namespace Wain.Tests.Geometry;

/// <summary>Plans joined with and cut back by plans, against areas by hand and a general geometry library. All figures are invented.</summary>
public class CombinedPlanTests
{
    private const double Inch = 25.4;

    private const string Plans = """
        plan body {
            start at (-70 in, 30 in)
            leg left_side run 70 in
            leg front across 60 in
            leg right_side run 70 in
            leg rear home
        }
        plan bunk {
            start at (-2 in, 20 in)
            leg left_side run 42 in
            leg nose across 40 in
            leg right_side run 42 in
            leg aft home
        }
        plan far_off {
            start at (10 in, 20 in)
            leg left_side run 20 in
            leg nose across 40 in
            leg right_side run 20 in
            leg aft home
        }

        """;

    private static Compilation Compile(string more) => Compiler.Compile(new SourceText("plans.wain", (Plans + more).ReplaceLineEndings("\n")));

    private static PlacedPlan Plan(string more) => Compile(more).Structure is { } s ? s.Plans.Single(p => p.Name == "made") : throw new Xunit.Sdk.XunitException(string.Join("\n", Compile(more).Findings.Select(f => f.Message)));

    [Fact]
    public void Joined_plans_are_one_outline_with_the_names_of_its_legs()
    {
        var made = Plan("plan made from body joined with bunk");
        // By hand: 70 x 60 and what of the bunk is past the front, 40 x 40.
        Assert.Equal((70 * 60 + 40 * 40) * Inch * Inch, made.Outline.Area(), 1e-2);
        Assert.Equal(["bunk_left_side", "bunk_right_side", "front", "front_2", "left_side", "nose", "rear", "right_side"], made.Outline.Edges.Select(e => e.Name!).Order(StringComparer.Ordinal));
        var left = made.Outline.Segment(made.Outline.IndexOf("bunk_left_side"));
        Assert.Equal(40 * Inch, left.Length, 1e-5);
    }

    [Fact]
    public void Cut_back_plans_lose_what_the_other_covers()
    {
        var made = Plan("plan made from body cut back by bunk");
        Assert.Equal((70 * 60 - 2 * 40) * Inch * Inch, made.Outline.Area(), 1e-2);
        Assert.True(made.Outline.IndexOf("aft") >= 0);
    }

    /// <summary>Offset first, then joined: judged by NetTopologySuite.</summary>
    [Fact]
    public void Areas_agree_with_the_referee()
    {
        var structure = Compile("plan wide from bunk outward by 3/4 in\nplan made from body inward by 1 in joined with wide\nplan inner from body inward by 1 in").Structure!;
        var (wide, inner, made) = (structure.Plans.Single(p => p.Name == "wide"), structure.Plans.Single(p => p.Name == "inner"), structure.Plans.Single(p => p.Name == "made"));
        double referee = OverlayNGRobust.Overlay(Designs.Referee(wide.Outline), Designs.Referee(inner.Outline), NetTopologySuite.Operation.Overlay.SpatialFunction.Union).Area;
        Assert.Equal(referee, made.Outline.Area(), referee * 1e-9);
    }

    [Fact]
    public void A_wall_stands_on_a_leg_of_a_joined_plan()
    {
        var compiled = Compile("""
            sheet ply { thickness 1/2 in
                size 48 in by 96 in }
            stack board { sheet ply }
            plan made from body joined with bunk
            panel side of board { stands on made.bunk_left_side, from 0 in to 20 in }
            """);
        Assert.Equal(40 * Inch, compiled.Structure!.Panel("side")!.Width, 1e-3);
    }

    [Theory]
    [InlineData("plan made from body joined with far_off", "it falls into 2 parts")]
    [InlineData("plan made from bunk cut back by body\nplan last from made cut back by made", "nothing is left")]
    [InlineData("plan middle from body inward by 10 in\nplan made from body cut back by middle", "it has a hole in its middle")]
    public void What_is_no_one_area_is_told(string more, string says) => Assert.Contains(Compile(more).Findings, f => f.Message.Contains(says, StringComparison.Ordinal));
}
