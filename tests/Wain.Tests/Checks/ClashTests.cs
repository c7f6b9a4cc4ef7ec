using Wain.Core;
using Wain.Core.Findings;
using Wain.Core.Text;

namespace Wain.Tests.Checks;

/// <summary>A panel at a wrong place runs into several others: one mistake is told once, with the value that clears them all if there is one.</summary>
public class ClashTests
{
    private const string Box = """
        sheet ply { thickness 12 mm
            size 60 in by 120 in }
        stack board { sheet ply }
        plan box { start at (-40 in, 20 in)
            leg left run 40 in
            leg front across 40 in
            leg right mirror of left
            leg aft home, across 40 in }
        panel floor of board { covers plan box, FLOOR }
        panel side of board { stands on box.left, from 1/2 in to 30 in }
        mirror side as other_side
        panel nose of board { stands on box.front, from 1/2 in to HIGH }
        panel tail of board { stands on box.aft, from 1/2 in to 30 in }
        panel roof of board { covers plan box, ROOF }

        """;

    private static string Text(string roof, string floor = "top at 1/2 in", string high = "30 in", string more = "") =>
        (Box.Replace("ROOF", roof).Replace("FLOOR", floor).Replace("HIGH", high) + more).ReplaceLineEndings("\n");

    private static List<Finding> Clashes(string text) => [.. Compiler.Compile(new SourceText("box.wain", text)).Findings.Where(f => f.Code == "WN4301")];

    [Theory]
    [InlineData("underside at 29 3/4 in", "roof lies 1/4 in too low: it passes through nose, other_side, side and tail.", "underside at nose.top")]
    // Farther than the walls are thick: sideways they would be free sooner, which is not how a roof is mended.
    [InlineData("underside at 28 in", "roof lies 2 in too low: it passes through nose, other_side, side and tail.", "underside at nose.top")]
    [InlineData("top at 30 in", "roof lies 1/2 in too low: it passes through nose, other_side, side and tail.", "underside at nose.top")]
    public void A_roof_too_low_is_told_once_with_the_height_that_clears_all(string roof, string message, string written)
    {
        string text = Text(roof);
        var told = Assert.Single(Clashes(text));
        Assert.Equal(message, told.Message);
        Assert.Equal("roof", told.Subject);
        var fix = Assert.Single(told.Fixes);
        Assert.Equal(written, fix.Text);
        var mended = Compiler.Compile(new SourceText("box.wain", text[..fix.Place.Start] + fix.Text + text[fix.Place.End..])).Findings;
        Assert.DoesNotContain(mended, f => f.Level == Level.Error || f.Code == "WN4310");
    }

    [Fact]
    public void A_floor_too_high_is_laid_under_the_lowest()
    {
        var told = Assert.Single(Clashes(Text("underside at 30 in", floor: "top at 3/4 in")));
        Assert.Equal("floor lies 1/4 in too high: it passes through nose, other_side, side and tail.", told.Message);
        Assert.Equal("top at nose.bottom", Assert.Single(told.Fixes).Text);
    }

    [Fact]
    public void The_highest_of_uneven_walls_is_what_the_roof_must_clear()
    {
        var told = Assert.Single(Clashes(Text("underside at 29 3/4 in", high: "31 in")));
        Assert.StartsWith("roof lies 1 1/4 in too low", told.Message);
        Assert.Equal("underside at nose.top", Assert.Single(told.Fixes).Text);
    }

    [Fact]
    public void Where_something_else_is_in_the_way_no_height_is_given()
    {
        var told = Clashes(Text("underside at 29 3/4 in", more: "panel rack of board { covers plan box, underside at 30 3/8 in }\n"));
        var roof = Assert.Single(told);
        Assert.Equal("roof passes through 4 panels by 1/4 in: nose, other_side, side, tail.", roof.Message);
        // Then each wall may end at the roof.
        Assert.NotEmpty(roof.Fixes);
        Assert.All(roof.Fixes, f => Assert.Equal("roof.bottom", f.Text));
    }

    [Fact]
    public void Two_panels_that_pass_through_each_other_are_told_as_a_pair() =>
        Assert.Contains("pass through each other", Assert.Single(Clashes(Text("underside at 30 in", high: "31 in"))).Message);
}
