using Wain.Core;
using Wain.Core.Drawing.Panels;
using Wain.Core.Findings;
using Wain.Core.Text;

namespace Wain.Tests.Checks;

/// <summary>How the step at a zone's border is worked: in the notes of the drawing, and against the cloth that goes over it.</summary>
public sealed class ZoneEdgeTests
{
    private static Compilation Compiled(string edge, string recess = ", recessed 1/4 in from outside", string stack = "bay_stack") => Compiler.Compile(new SourceText("zone.wain", $$"""
        sheet ply { thickness 12 mm
            size 48 in by 96 in }
        sheet thin { thickness 6 mm
            size 48 in by 96 in }
        resin epoxy { density 1.1 kg/l }
        cloth glass { weight 6 oz/yd2
            roll 50 in wide
            bend_radius 1/4 in }
        stack wall_stack {
            cloth glass wet with epoxy
            sheet ply
        }
        stack bay_stack { sheet thin }
        panel wall of wall_stack {
            through (0 in, 0 in, 0 in) along (60 in, 0 in, 0 in) up (0 in, 0 in, 30 in)
            zone bay of {{stack}} from 15 in to 45 in along, from 6 in to 24 in up{{recess}} {
                {{edge}}
            }
        }
        """));

    private static List<Finding> Told(Compilation compiled) => [.. compiled.Findings.Where(f => f.Code == "WN4112")];

    [Fact]
    public void Cloth_over_a_sharper_step_is_told_with_the_radius_that_it_lies_over()
    {
        var told = Assert.Single(Told(Compiled("edge rounded 1/8 in")));
        Assert.Contains("step of zone bay of wall is rounded 1/8 in; glass lies over no less than 1/4 in", told.Message);
        Assert.Equal("1/4 in", Assert.Single(told.Fixes).Text);
        Assert.Empty(Told(Compiled("edge rounded 1/4 in")));
        Assert.Empty(Told(Compiled("edge bevelled 1/8 in")));
    }

    [Fact]
    public void A_zone_that_is_flush_has_no_step() => Assert.Empty(Told(Compiled("edge rounded 1/8 in", recess: "", stack: "wall_stack")));

    [Theory]
    [InlineData("edge rounded 1/8 in", "Its step is rounded 1/8.")]
    [InlineData("edge bevelled", "Its step is bevelled.")]
    [InlineData("", null)]
    public void It_stands_in_the_notes_of_the_drawing(string edge, string? said)
    {
        var design = Compiled(edge).Design!;
        var options = new DrawingOptions { Camper = "Zone", Revision = "A", ValuesHash = "0123456789abcdef", Mass = _ => 1 };
        string words = string.Join(' ', DrawingBook.Sheets(design, options).Single(s => s.Name == "panel-wall").Labels.Select(l => l.Text));
        if (said is null) Assert.DoesNotContain("Its step", words);
        else Assert.Contains(said, words);
    }

    [Fact]
    public void It_is_a_fact_with_a_use() => Assert.DoesNotContain(Compiled("edge rounded 1/4 in").Findings, f => f.Code == "WN1022");
}
