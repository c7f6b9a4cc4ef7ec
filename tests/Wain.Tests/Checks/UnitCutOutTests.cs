using Wain.Core;
using Wain.Core.Checks;
using Wain.Core.Text;

namespace Wain.Tests.Checks;

/// <summary>A window of 500 mm by 300 mm with corners of 60 mm and a flange of 20 mm, in holes of a size of their own.</summary>
public class UnitCutOutTests
{
    private static Compilation With(string size) => Compiler.Compile(new SourceText("hole.wain", $$"""
        camper "Hole" revision "A" { lengths millimetres }
        sheet ply { thickness 6 mm
            size 1250 mm by 2500 mm }
        stack board { sheet ply }
        unit window { cut_out 500 mm by 300 mm, corner 60 mm
            flange 20 mm }
        panel wall of board {
            through (0 m, 0 m, 0 m) along (1.2 m, 0 m, 0 m) up (0 m, 0 m, 1 m)
            opening vent {
                unit window
                {{size}}
                lower left at (300 mm, 300 mm)
                unframed
            }
        }
        """.ReplaceLineEndings("\n")));

    /// <summary>
    /// By hand. A hole 4 mm larger each way has 2 mm of play, which is 2.83 mm along the diagonal: corners may be rounder by 2.83 / 0.4142 = 6.8 mm and
    /// the 0.5 mm that a file takes off, 8 mm in all. A hole wider by 44 mm stands open by 22 mm beside a flange of 20 mm.
    /// </summary>
    [Theory]
    [InlineData("", null)]
    [InlineData("size 500 mm by 300 mm", null)]
    [InlineData("size 504 mm by 304 mm, corner 66 mm", null)]
    [InlineData("size 504 mm by 304 mm, corner 70 mm", "the hole is rounded by 70 mm and the unit by 60 mm")]
    [InlineData("size 490 mm by 300 mm", "it is 10 mm too narrow")]
    [InlineData("size 500 mm by 280 mm", "it is 20 mm too low")]
    [InlineData("size 544 mm by 300 mm", "its flange of 20 mm does not cover the 22 mm beside it")]
    public void A_hole_that_its_unit_does_not_fit_is_told(string size, string? why)
    {
        var found = With(size).Findings.Where(f => f.Code == UnitCutOut.Info.Code).ToList();
        if (why is null) Assert.Empty(found);
        else Assert.Contains(why, Assert.Single(found).Message);
    }

    [Fact]
    public void A_size_without_a_corner_leaves_that_of_the_unit() =>
        Assert.Equal(60, With("size 504 mm by 304 mm").Design!.Structure.Panels.Single().Openings.Single().Corner, 9);
}
