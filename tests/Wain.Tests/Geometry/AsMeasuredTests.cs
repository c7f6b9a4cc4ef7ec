using Wain.Core;
using Wain.Core.Checks;
using Wain.Core.Geometry;
using Wain.Core.Text;

namespace Wain.Tests.Geometry;

/// <summary>What is fitted is where and as large as a tape says, what hangs on it follows, and what no longer closes is told. All figures are invented.</summary>
public class AsMeasuredTests
{
    private const double Inch = 25.4;

    private static Compilation Compile(string built) => Compiler.Compile(new SourceText("built.wain", $$"""
        sheet ply { thickness 1/2 in
            size 48 in by 96 in }
        stack board { sheet ply }
        plan deck_plan {
            start at (-70 in, 20 in)
            leg left_side run 70 in
            leg front across 40 in
            leg right_side run 70 in
            leg rear home
        }
        panel floor of board { covers plan deck_plan, top at 0 in }
        panel counter of board { through (-60 in, 20 in, 30 in) along (-60 in, 0 in, 30 in) up (-30 in, 20 in, 30 in) }
        panel lid of board { leans from floor.front to counter.top
            outside up }
        let floor_is = floor.width
        panel post of board { spans from (-20 in, floor.left) to (-20 in, floor.left - 10 in), standing on floor.top, up to 30 in }
        panel left_wall of board { stands on deck_plan.left_side, from 0 in to 30 in }
        joint left_wall.bottom to floor.left_side { butt }
        {{built}}
        """.ReplaceLineEndings("\n")));

    private static PlacedPanel Panel(Compilation c, string name) => c.Structure?.Panel(name) ?? throw new Xunit.Sdk.XunitException(string.Join("\n", c.Findings.Select(f => f.Message)));

    [Fact]
    public void A_fitted_floor_is_as_wide_as_measured_and_what_is_placed_from_it_follows()
    {
        var drawn = Compile("");
        var built = Compile("built floor { fitted on 2026-05-02\nmeasured width 40 1/2 in }");
        Assert.Equal(40 * Inch, Panel(drawn, "floor").Width, 1e-6);
        Assert.Equal(40.5 * Inch, Panel(built, "floor").Width, 1e-6);
        // It straddles the centre line: a quarter of an inch more on each side. The post stands from its left edge.
        Assert.Equal(0.25 * Inch, PanelShapes.Bounds(Panel(built, "post")).High.Y - PanelShapes.Bounds(Panel(drawn, "post")).High.Y, 1e-6);
        Assert.Equal(0.25 * Inch, PanelShapes.Bounds(Panel(built, "lid")).High.Y - PanelShapes.Bounds(Panel(drawn, "lid")).High.Y, 1e-6);
        Assert.Contains(built.Findings, f => f.Code == PlacingFindings.Measured.Code && f.Message.Contains("40 1/2 in wide, and not 40 in", StringComparison.Ordinal));
    }

    [Fact]
    public void What_no_longer_closes_is_told()
    {
        var drawn = Compile("");
        Assert.DoesNotContain(drawn.Findings, f => f.Code == JointMeets.Info.Code);
        // Half an inch narrower: the wall's edge stands a quarter of an inch off the floor's.
        var built = Compile("built floor { fitted on 2026-05-02\nmeasured width 38 in }");
        Assert.Contains(built.Findings, f => f.Code == JointMeets.Info.Code && f.Message.Contains("left_wall", StringComparison.Ordinal));
    }

    /// <summary>What is cut and not fitted may still be trimmed; it stays as drawn.</summary>
    [Fact]
    public void What_is_cut_only_stays_as_drawn() => Assert.Equal(40 * Inch, Panel(Compile("built floor { cut on 2026-05-02\nmeasured width 40 1/2 in }"), "floor").Width, 1e-6);

    /// <summary>Beside the centre line it keeps the corner that its drawing measures from.</summary>
    [Fact]
    public void A_fitted_counter_grows_at_its_right_and_upper_edges()
    {
        var (drawn, built) = (Panel(Compile(""), "counter"), Panel(Compile("built counter { fitted on 2026-05-02\nmeasured width 20 1/4 in\nmeasured height 29 in }"), "counter"));
        Assert.True(drawn.Face.Origin.IsNear(built.Face.Origin, 1e-6));
        Assert.Equal(20.25 * Inch, built.Width, 1e-6);
        Assert.Equal(29 * Inch, built.Height, 1e-6);
    }

    [Fact]
    public void A_measure_that_leaves_no_shape_is_told() =>
        Assert.Contains(Compile("built counter { fitted on 2026-05-02\nmeasured width 1/1000 in }").Findings, f => f.Code is "WN3006" or "WN3014");

    private static Compilation Storeys(string built) => Compiler.Compile(new SourceText("built.wain", $$"""
        sheet ply { thickness 1/2 in
            size 48 in by 96 in }
        stick strip { section 3/4 in by 1 1/2 in
            length 96 in }
        stack board { sheet ply }
        stack framed { sheet ply
            core frame of strip flat
            sheet ply }
        plan deck_plan {
            start at (-70 in, 20 in)
            leg left_side run 70 in
            leg front across 40 in
            leg right_side run 70 in
            leg rear home
        }
        panel deck of framed { covers plan deck_plan, underside at 10 in
            outside up }
        panel post of board { spans from (-20 in, 10 in) to (-20 in, 0 in), standing on deck.top, up to 40 in }
        panel rest of board { spans from (-40 in, 10 in) to (-40 in, 0 in), standing on 11 3/4 in, up to 40 in }
        panel left_wall of board { spans from (-60 in, 15 in) to (-50 in, 15 in), standing on deck.top, up to 40 in
            opening vent { size 4 in by 4 in
                lower left at (1 in, 10 in) }
        }
        mirror left_wall as right_wall
        let deck_is = deck.thickness
        {{built}}
        """.ReplaceLineEndings("\n")));

    [Fact]
    public void A_fitted_deck_is_as_thick_as_measured_and_what_stands_on_it_follows()
    {
        var (drawn, built) = (Storeys(""), Storeys("built deck { fitted on 2026-05-02\nmeasured thickness 1 15/16 in }"));
        Assert.Equal(1.75 * Inch, Panel(drawn, "deck").Thickness, 1e-6);
        Assert.Equal(1.9375 * Inch, Panel(built, "deck").Thickness, 1e-6);
        // Its underside is stated, so its top is higher by the difference; what stands on the face follows, what was typed as a height runs into it.
        Assert.Equal(11.9375 * Inch, PanelShapes.Bounds(Panel(built, "post")).Low.Z, 1e-6);
        Assert.DoesNotContain(drawn.Findings, f => f.Code == PanelsClash.Info.Code);
        var clash = Assert.Single(built.Findings, f => f.Code == PanelsClash.Info.Code);
        Assert.Contains("rest", clash.Message);
        Assert.Contains("3/16 in", clash.Message);
        Assert.Contains(built.Findings, f => f.Code == PlacingFindings.Measured.Code && f.Message.Contains("1 15/16 in thick, and not 1 3/4 in", StringComparison.Ordinal));
        // The skins are as sold; the frame takes the difference.
        var layers = Panel(built, "deck").Stack.Layers;
        Assert.Equal([0.5 * Inch, 0.9375 * Inch, 0.5 * Inch], layers.Select(l => l.Thickness), (a, b) => Math.Abs(a - b) < 1e-9);
        Assert.Equal(1.9375 * 0.0254, ((Wain.Core.Binding.QuantityValue)built.Evaluate("deck_is").Value!).Quantity.Value, 1e-9);
    }

    /// <summary>A wall that came out half an inch low takes down what lies on it and what runs up to its top; a leaning one by what its slope leaves of that.</summary>
    [Theory]
    [InlineData("", 1)]
    [InlineData(", leaning 30 deg outward", 0.8660254037844386)]
    public void What_lies_on_a_fitted_wall_comes_down_with_it(string leaning, double share)
    {
        Compilation Made(string built) => Compiler.Compile(new SourceText("built.wain", $$"""
            sheet ply { thickness 1/2 in
                size 48 in by 96 in }
            stack board { sheet ply }
            plan body {
                start at (-40 in, 20 in)
                leg left run 40 in
                leg front across 40 in
                leg right run 40 in
                leg rear home
                through left
            }
            panel wall of board { stands on body.left, from 10 in to 30 in{{leaning}} }
            panel post of board { spans from (-20 in, 0 in) to (-20 in, -10 in), standing on 10 in, up to wall.top }
            panel lid of board { covers plan body, underside at wall.top }
            {{built}}
            """.ReplaceLineEndings("\n")));
        double high = 20 / share;
        var (drawn, fitted) = (Made(""), Made($"built wall {{ fitted on 2026-05-02\nmeasured height {(high - 0.5).ToString(System.Globalization.CultureInfo.InvariantCulture)} in }}"));
        foreach (string panel in (string[])["post", "lid", "wall"])
            Assert.Equal(-0.5 * share * Inch, PanelShapes.Bounds(Panel(fitted, panel)).High.Z - PanelShapes.Bounds(Panel(drawn, panel)).High.Z, 1e-4);
    }

    [Fact]
    public void What_is_built_of_one_side_is_not_copied_to_its_mirror()
    {
        var (drawn, left, right) = (Storeys(""), Storeys("built left_wall { fitted on 2026-05-02\nmeasured height 28 in\nmeasured width 10 1/4 in\nmeasured thickness 5/8 in }"), Storeys("built right_wall { fitted on 2026-05-02\nmeasured height 28 in\nmeasured width 10 1/4 in\nmeasured thickness 5/8 in }"));
        foreach (var (c, one, other) in new[] { (left, "left_wall", "right_wall"), (right, "right_wall", "left_wall") })
        {
            Assert.Equal(Panel(drawn, other).Width, Panel(c, other).Width, 1e-6);
            Assert.Equal(Panel(drawn, other).Thickness, Panel(c, other).Thickness, 1e-6);
            Assert.Equal(PanelShapes.Bounds(Panel(drawn, other)), PanelShapes.Bounds(Panel(c, other)));
            Assert.Equal(10.25 * Inch, Panel(c, one).Width, 1e-6);
            Assert.Equal(28 * Inch, Panel(c, one).Height, 1e-6);
            Assert.Equal(0.625 * Inch, Panel(c, one).Thickness, 1e-6);
        }
        // The vent of the right wall is told from its right edge, as its original's is from the left.
        var hole = Panel(right, "right_wall").Openings.Single().Hole.Bounds;
        Assert.Equal(1 * Inch, 10.25 * Inch - hole.Max.X, 1e-6);
    }
}
