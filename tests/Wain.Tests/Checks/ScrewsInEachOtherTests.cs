using Wain.Core;
using Wain.Core.Findings;
using Wain.Core.Text;

namespace Wain.Tests.Checks;

/// <summary>A spacing that no screw can keep is told as an error, and counted in no memory.</summary>
public class ScrewsInEachOtherTests
{
    private static Finding Told(string spacing) => Assert.Single(Compiler.Compile(new SourceText("joint.wain", $$"""
        sheet ply { thickness 12 mm
            size 48 in by 96 in }
        adhesive glue { spread 0.05 lb/ft2 }
        screw wood_screw { diameter 4 mm
            length 1 1/2 in }
        stack board { sheet ply }
        plan body {
            start at (-80 in, 20 in)
            leg left run 80 in
            leg front across 40 in
            leg right run 80 in
            leg rear home
        }
        panel floor of board { covers plan body, top at 0 in }
        panel wall of board { stands on body.left, from floor.top to 40 in }
        joint wall.bottom to floor.top {
            butt
            glue glue
            screws wood_screw every {{spacing}}, driven from below
        }
        """.ReplaceLineEndings("\n"))).Findings, f => f.Code == "WN4114");

    [Theory]
    [InlineData("1e-9 in")]
    [InlineData("1/8 in")]
    public void Closer_than_their_own_thickness(string spacing)
    {
        var told = Told(spacing);
        Assert.Equal(Level.Error, told.Level);
        Assert.Contains("less than its own thickness", told.Message);
        Assert.NotEmpty(told.Fixes);
    }

    [Fact]
    public void Close_in_a_glued_joint_is_a_note() => Assert.Equal(Level.Note, Told("1 in").Level);
}
