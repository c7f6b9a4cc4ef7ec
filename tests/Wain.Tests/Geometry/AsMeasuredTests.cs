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
}
