using Wain.Core;
using Wain.Core.Findings;
using Wain.Core.Findings.Renderers;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Text;

namespace Wain.Tests.Checks;

/// <summary>What a first draft is told, done to the letter: each finding leads to what was meant.</summary>
public class FirstDraftTests
{
    private const string Box = """
        sheet ply { thickness 12 mm
            size 48 in by 96 in }
        stack board { sheet ply }
        plan box { start at (-40 in, 20 in)
            leg side_left run 40 in
            leg side_front across 40 in
            leg side_right mirror of side_left
            leg side_aft home, across 40 in }
        panel floor of board { covers plan box, top at 0 in }

        """;

    private static IReadOnlyList<Finding> Compile(string text) => Compiler.Compile(new SourceText("box.wain", text.ReplaceLineEndings("\n"))).Findings;

    private static string Mended(string text, Fix fix) => text[..fix.Place.Start] + fix.Text + text[fix.Place.End..];

    [Fact]
    public void A_key_behind_a_plan_is_told_how_its_legs_go_by_keys()
    {
        string With(string leg) => Box + $"for side in left, right {{\n    panel wall[side] of board {{\n        stands on {leg}, from floor.top to 20 in\n    }}\n}}\n";
        var told = Compile(With("box[side]")).Where(f => f.Code == "WN1004").ToList();
        Assert.Single(told);
        Assert.All(told, f => Assert.EndsWith("write: box.side[side]", f.Hint));
        Assert.All(told, f => Assert.Empty(f.Fixes));
        Assert.DoesNotContain(Compile(With("box.side[side]")), f => f.Level == Level.Error);
    }

    [Theory]
    [InlineData("    splice across length { lap width 2 in lap depth half }\n")]
    [InlineData("    splice across length {\n        lap width 2 in lap depth half\n    }\n")]
    public void Two_facts_on_one_line_are_parted(string splice)
    {
        string text = (Box + $"panel long of board {{\n    through (-50 in, 0 in, 30 in) along (60 in, 0 in, 30 in) up (-50 in, 0 in, 50 in)\n{splice}}}\n").ReplaceLineEndings("\n");
        var told = Assert.Single(Compile(text), f => f.Code == "WN1002");
        Assert.Equal("\"lap depth half\" is a fact of its own here.", told.Message);
        Assert.DoesNotContain(Compile(Mended(text, Assert.Single(told.Fixes))), f => f.Level == Level.Error);
    }

    /// <summary>What is shown can be typed as it is shown: a fact ends with its line, so the lines are told apart.</summary>
    [Fact]
    public void Lines_to_add_are_shown_as_lines()
    {
        var findings = Compile(Box + "panel long of board {\n    through (-50 in, 0 in, 30 in) along (60 in, 0 in, 30 in) up (-50 in, 0 in, 50 in)\n}\n");
        var told = Assert.Single(findings, f => f.Code == "WN4204");
        Assert.Contains("at each semicolon: splice across length { lap width 2 in; lap depth half }", told.Hint);
        string shown = PeopleRenderer.Render([told], colour: false);
        Assert.Equal(2, shown.Split("splice across").Length - 1);
    }

    [Fact]
    public void Nothing_is_to_be_written_into_what_the_program_ships()
    {
        var findings = Compile(Box + """
            use "library/screws.wain"
            panel wall of board { stands on box.side_left, from floor.top to 20 in }
            joint wall.bottom to floor.top {
                screws wood_screw_6x1 every 4 in, driven from below
            }
            """);
        var told = Assert.Single(findings, f => f.Code == "WN4113");
        Assert.StartsWith("Use a screw at least", told.Hint);
        Assert.Empty(told.Fixes);
    }

    /// <summary>A wall that begins at the number at which two decks begin runs through both: it begins at their tops.</summary>
    [Theory]
    [InlineData("from 10 in to 40 in", "wing_left.top", "10 in")]
    [InlineData("from 0 in to 10 in + 12 mm", "wing_left.bottom", "10 in + 12 mm")]
    public void A_wall_through_decks_at_its_end_is_ended_at_them(string height, string written, string instead)
    {
        string text = (Box + $$"""
            panel wing_left of board { through (-40 in, 20 in, 10 in) along (-40 in, 10 in, 10 in) up (0 in, 20 in, 10 in)
                outside up }
            mirror wing_left as wing_right
            panel nose of board { spans from (-20 in, -20 in) to (-20 in, 20 in), standing on 0 in, up to 40 in }
            """.Replace("through (-40 in, 20 in, 10 in) along (-40 in, 10 in, 10 in) up (0 in, 20 in, 10 in)", "through (-40 in, 20 in, 10 in + 12 mm) along (-40 in, 10 in, 10 in + 12 mm) up (0 in, 20 in, 10 in + 12 mm)", StringComparison.Ordinal)
            .Replace("standing on 0 in, up to 40 in", height.Replace("from", "standing on", StringComparison.Ordinal).Replace(" to ", ", up to ", StringComparison.Ordinal), StringComparison.Ordinal) + "\n").ReplaceLineEndings("\n");
        var told = Assert.Single(Compile(text), f => f.Code == "WN4301");
        var fix = Assert.Single(told.Fixes);
        Assert.Equal((written, instead), (fix.Text, fix.Place.Text));
        Assert.Equal($"Ended at {written} it is clear of them all.", told.Hint);
        Assert.DoesNotContain(Compile(Mended(text, fix)), f => f.Code == "WN4301");
    }

    /// <summary>Points told in the wrong order turn a panel over; exchanged, it looks the way that it says and keeps its outline.</summary>
    [Theory]
    [InlineData("through (-30 in, 0 in, 15 in) along (-10 in, 0 in, 15 in) up (-30 in, -12 in, 15 in)", "up", 20 * 12)]
    [InlineData("spans from (-30 in, 0 in) to (-10 in, 0 in), standing on floor.top, up to 15 in", "left", 20 * 15)]
    public void A_panel_that_is_turned_over_is_told(string place, string looks, int squareInches)
    {
        string text = (Box + $"panel shelf of board {{\n    {place}\n    outside {looks}\n}}\n").ReplaceLineEndings("\n");
        var told = Assert.Single(Compile(text), f => f.Code == "WN4138");
        Assert.Equal(2, told.Fixes.Length);
        foreach (var fix in told.Fixes)
        {
            var mended = Compiler.Compile(new SourceText("box.wain", Mended(text, fix)));
            Assert.DoesNotContain(mended.Findings, f => f.Code is "WN4138" or "WN1022");
            Assert.Equal(squareInches, mended.Structure!.Panels.Single(p => p.Name == "shelf").Outline.Area() / 25.4 / 25.4, 6);
        }
    }

    /// <summary>By hand: where two rabbets cross at a corner, or one is stated and follows from a joint as well, the wood is routed away once.</summary>
    [Theory]
    [InlineData("rabbet top 40 mm by 4 mm\n    rabbet right 30 mm by 3 mm", 40 * 4 * 500 + 30 * 3 * 200 - 40 * 30 * 3)]
    [InlineData("rabbet top 40 mm by 4 mm\n    rabbet top 40 mm by 4 mm", 40 * 4 * 500)]
    // From both faces of a board of 12 mm, 7 and 8 mm deep: 3 mm of the corner are not there twice.
    [InlineData("rabbet top 40 mm by 7 mm\n    rabbet right 30 mm by 8 mm from inside", 40 * 7 * 500 + 30 * 8 * 200 - 40 * 30 * 3)]
    public void Wood_that_two_steps_share_is_routed_once(string steps, int routed)
    {
        string text = Box + $"panel shelf of board {{\n    through (-600 mm, 0 mm, 300 mm) along (-100 mm, 0 mm, 300 mm) up (-600 mm, 0 mm, 500 mm)\n    {steps}\n}}\n";
        var piece = Assert.Single(Compiler.Compile(new SourceText("box.wain", text)).Design!.Pieces.All, p => p.Panel.Name == "shelf");
        Assert.Equal(500 * 200 * 12 - routed, piece.Volume, 1e-6);
    }

    /// <summary>1/8 in is no whole number of hundredths of a millimetre, and a board as wide as the trimmed sheet is still cut from it.</summary>
    [Fact]
    public void A_part_as_wide_as_a_trimmed_sheet_fits_it()
    {
        string With(string width) => Box.Replace("48 in by 96 in }", "48 in by 96 in\n    trimmed 1/8 in }", StringComparison.Ordinal) + $"panel bed of board {{ through (-90 in, 0 in, 30 in) along (0 in, 0 in, 30 in) up (-90 in, 0 in, 30 in + {width}) }}\n";
        Assert.DoesNotContain(Compile(With("47 3/4 in")), f => f.Code is "WN7001" or "WN4204");
        Assert.Contains(Compile(With("47 13/16 in")), f => f.Code is "WN7001" or "WN4204");
    }

    [Theory]
    [InlineData(0.0003, "0.1")]
    [InlineData(0.013, "1.3")]
    [InlineData(0.3688, "36.9")]
    [InlineData(0.2, "20")]
    public void A_gap_is_never_told_smaller_than_it_is(double gap, string said) => Assert.Equal(said, Wain.Core.CutLists.CuttingTables.AtMost(gap));
}
