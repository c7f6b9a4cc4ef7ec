using Wain.Core;
using Wain.Core.Findings;
using Wain.Core.Text;

namespace Wain.Tests.Clearance;

/// <summary>Slips of a zero or a unit in a subframe and in a unit's flange are told, and never stop the program or keep it busy.</summary>
public sealed class SubframeExtremesTests
{
    private const string Text = """
        sheet ply { thickness 9 mm
            size 48 in by 96 in
            density 600 kg/m3 }
        stick tube { section 40 mm by 60 mm
            wall 3 mm
            length 6000 mm
            density 7850 kg/m3 }
        unit pane { cut_out 400 mm by 300 mm, corner 40 mm
            flange 25 mm
            proud 10 mm }
        stack board { sheet ply }
        panel floor of board { through (0 mm, 600 mm, 0 mm) along (0 mm, -600 mm, 0 mm) up (-2000 mm, 600 mm, 0 mm)
            opening hatch { unit pane
                centred at (600 mm, 1000 mm)
                unframed } }
        carrier lorry { kind subframe
            wheelbase 3300 mm
            front_axle at 1300 mm
            cab roof 750 mm, rear 60 mm, width 1700 mm, length 1500 mm
            cab_clearance 50 mm, pitched 1 deg
            subframe tube, high 80 mm
            member left_rail from (-2000 mm, 400 mm, -30 mm) to (-50 mm, 400 mm, -30 mm)
            member right_rail from (-2000 mm, -400 mm, -30 mm) to (-50 mm, -400 mm, -30 mm)
            mount a at (-300 mm, 400 mm, -60 mm), rated 8 kN
            mount b at (-300 mm, -400 mm, -60 mm), rated 8 kN
        }

        """;

    [Fact]
    public void As_it_is_meant_it_fits() =>
        Assert.DoesNotContain(Compiler.Compile(new SourceText("lorry.wain", Text)).Findings, f => f.Level == Level.Error);

    [Theory]
    [InlineData("-2000 mm, 400 mm, -30 mm", "-2e9 mm, 400 mm, -30 mm", "left_rail")]
    [InlineData("40 mm by 60 mm", "40 mm by 1e9 mm", "thick")]
    [InlineData("-300 mm, 400 mm, -60 mm", "-300 mm, 1e9 mm, -60 mm", "Mount a")]
    [InlineData("width 1700 mm", "width 1e9 mm", "width of the cab")]
    [InlineData("flange 25 mm", "flange 1e9 mm", "flange of pane")]
    public async Task A_slip_is_told_in_good_time(string old, string @new, string says)
    {
        var compiled = await Task.Run(() => Compiler.Compile(new SourceText("lorry.wain", Text.Replace(old, @new, StringComparison.Ordinal)))).WaitAsync(TimeSpan.FromSeconds(30));
        Assert.Contains(compiled.Findings, f => f.Level >= Level.Warning && f.Message.Contains(says, StringComparison.Ordinal));
    }
}
