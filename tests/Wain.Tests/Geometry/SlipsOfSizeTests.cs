using Wain.Core;
using Wain.Core.Findings;
using Wain.Core.Text;

namespace Wain.Tests.Geometry;

/// <summary>A size with too many digits is told where it is, and never framed, cut up or scheduled.</summary>
public class SlipsOfSizeTests
{
    private static Compilation Compiled(string side, string foam, string more = "") => Compiler.Compile(new SourceText("size.wain", $$"""
        camper "Size" { currency USD }
        sheet ply { thickness 6 mm
            size 48 in by 96 in
            density 600 kg/m3 }
        board foam_board { thickness 1 in
            size 48 in by 96 in
            density 30 kg/m3 }
        stack bed { sheet ply
            foam foam_board thick {{foam}}
            sheet ply }
        panel deck of bed { through (0 in, 0 in, 0 in) along ({{side}}, 0 in, 0 in) up (0 in, 40 in, 0 in) }
        {{more}}
        """.ReplaceLineEndings("\n")));

    [Theory]
    [InlineData("1e9 in", "3/4 in", "long")]
    [InlineData("60 in", "1e9 in", "thick")]
    [InlineData("60 in", "40 in", "thick")]
    public void Larger_than_a_truck(string side, string foam, string what)
    {
        var compiled = Compiled(side, foam);
        var told = Assert.Single(compiled.Findings, f => f.Code == "WN3015");
        Assert.Contains(what, told.Message);
        Assert.Null(compiled.Design);
    }

    [Fact]
    public void Larger_than_a_truck_for_its_unit()
    {
        var compiled = Compiled("4 km", "3/4 in");
        Assert.Contains("4 km", Assert.Single(compiled.Findings, f => f.Level == Level.Error).Message);
        Assert.Null(compiled.Design);
    }

    [Fact]
    public void Foam_thicker_than_its_board_is_laid_in_layers_and_told()
    {
        Assert.DoesNotContain(Compiled("60 in", "1 in").Findings, f => f.Code == "WN4208");
        Assert.Contains("3 layers", Assert.Single(Compiled("60 in", "2 1/2 in").Findings, f => f.Code == "WN4208").Message);
    }

    [Fact]
    public void Work_beyond_the_calendar_has_no_date()
    {
        var work = Compiled("60 in", "3/4 in", "shop { start on 2026-11-02\n hours 6 h a day }\nwork rest { takes 1e9 h }\nwork rest_on { after rest\n takes 1 h }").Design!.Engineering.Work;
        Assert.Contains(work.Steps, s => s.Day > 1_000_000 && s.Date is null);
        Assert.Contains(work.Steps, s => s.Date is not null);
    }
}
