using Wain.Core;
using Wain.Core.Findings;
using Wain.Core.Text;

namespace Wain.Tests.Checks;

/// <summary>What findings suggest where the line to change is missing, or where an opening is placed in another way than by its corner.</summary>
public class SuggestionTests
{
    private const string Materials = """
        sheet ply { thickness 6 mm
            size 48 in by 96 in }
        stick strip { section 3/4 in by 1 1/2 in
            length 96 in }
        board foam { thickness 1 in
            size 48 in by 96 in }
        unit vent_window { cut_out 20 in by 10 in, corner 1 in
            wall between 1/2 in and 1 1/4 in
            flange 1 in
            proud PROUD }
        stack wall_stack {
            sheet ply
            core frame of strip flat, filled with foam
            sheet ply
        }

        """;

    private const string Mirrored = """
        panel left_side of wall_stack {
            through (0 in, 30 in, 0 in) along (-60 in, 30 in, 0 in) up (0 in, 30 in, 30 in)
            opening vent {
                size 20 in by 10 in
                lower left at (20 in, 1/2 in)
            }
        }
        mirror left_side as right_side
        """;

    private static readonly string Corner = Materials.Replace("PROUD", "0 in", StringComparison.Ordinal) + """
        plan box { start at (-40 in, 20 in)
            leg left run 40 in
            leg front across 40 in
            leg right mirror of left
            leg aft home, across 40 in }
        panel side of wall_stack { stands on box.left, from 0 in to 30 in }
        panel nose of wall_stack { stands on box.front, from 0 in to 30 in }

        """;

    private const string Boards = """
        sheet ply { thickness 12 mm
            size 48 in by 96 in }
        stack board { sheet ply }
        plan box { start at (-40 in, 20 in)
            leg left run 40 in
            leg front across 40 in
            leg right mirror of left
            leg aft home, across 40 in }

        """;

    // A wall that slides down over another; where their space is written is the case's.
    private static string Slides(string let, string plan, string inner, string outer) => Materials.Replace("PROUD", "0 in", StringComparison.Ordinal) + $$"""
        plan box { start at (-40 in, 20 in)
            leg left run 40 in
            leg front across 40 in
            leg right mirror of left
            leg aft home, across 40 in }
        {{let}}
        {{plan}}
        panel inside of wall_stack { stands on {{inner}}, from 0 in to 30 in }
        panel outside of wall_stack { stands on {{outer}}, from 2 in to 32 in }
        lift rise { carries { outside }
            travel 20 in
            gap between 3/8 in and 5/8 in }

        """;

    private static string Wall(string openings, string proud = "1/2 in") =>
        Materials.Replace("PROUD", proud, StringComparison.Ordinal) + $"panel wall of wall_stack {{\n    through (0 in, 0 in, 0 in) along (0 in, -60 in, 0 in) up (0 in, 0 in, 30 in)\n{openings}\n}}\n";

    private static Compilation Compile(string text) => Compiler.Compile(new SourceText("example.wain", text.ReplaceLineEndings("\n")));

    public static TheoryData<string, string> Cases => new()
    {
        { "WN4108", Wall("opening vent {\n    unit vent_window\n    lower left at (20 in, 10 in)\n    proud at most 1/8 in\n}") },
        { "WN4108", Wall("opening vent { unit vent_window\n    lower left at (20 in, 10 in)\n    proud at most 1/8 in }") },
        { "WN4105", Wall("opening vent {\n    size 20 in by 8 in\n    centred 12 in up\n}\nopening hatch {\n    size 10 in by 8 in\n    centred 14 in up\n}") },
        { "WN4105", Wall("opening vent {\n    size 20 in by 8 in\n    centred at (14 in, 12 in)\n}\nopening hatch {\n    size 10 in by 8 in\n    upper right at (28 in, 18 in)\n}") },
        { "WN4103", Wall("opening vent {\n    size 20 in by 8 in\n    centred 5 in up\n}") },
        { "WN4103", Wall("opening vent {\n    size 20 in by 8 in\n    upper right at (1/2 in, 20 in)\n}") },
        { "WN4103", Wall("opening vent {\n    size 20 in by 8 in\n    centred at (55 in, 15 in)\n}") },
        { "WN4103", Materials.Replace("PROUD", "0 in", StringComparison.Ordinal) + Mirrored },
        { "WN4003", Corner + "joint side.left to nose.left { butt }" },
        { "WN4003", Corner + "panel desk of wall_stack { covers plan box, top at 20 in\n inset all by 1 1/4 in }\npanel post of wall_stack { spans from (-20 in, 5 in) to (-20 in, -5 in), standing on desk.top, up to 28 in }\njoint post.bottom to desk.aft { butt }" },
        { "WN4003", Boards + "panel post of board { spans from (-30 in, 5 in) to (-30 in, -5 in), standing on -1 in, up to 28 in }\npanel lid of board { covers plan box, underside at 28 1/8 in }\njoint post.top to lid.bottom { butt }" },
        { "WN4003", Boards + "panel side of board { stands on box.left, from 0 in to 20 in }\npanel post of board { spans from (-30 in, 19 3/8 in) to (-30 in, -5 in), standing on 0 in, up to 20 in }\njoint post.left to side.inside {\n butt\n}" },
        { "WN4209", Boards + "panel deck of board { covers plan box, top at 0 in }\npanel post of board { spans from (-30 in, 5 in) to (-20 in, 5 in), standing on deck.top, up to 28 in }\njoint post.bottom to deck.top { rabbet depth 1/4 in }" },
        { "WN4209", Boards + "panel deck of board { covers plan box, top at 0 in\n overhang front by 1 in }\npanel fore of board { through (1 in, 20 in, 0 in) along (1 in, -20 in, 0 in) up (30 in, 20 in, 0 in) }\njoint deck.front to fore.bottom { lap width 1 1/2 in, depth half }" },
        { "WN4304", Slides("let space = 1/4 in", "plan shell from box, outward by space {\n line inside\n}", "box.left", "shell.left") },
        { "WN4304", Slides("let space = 1/8 in", "plan shell from box, outward by 2 * space {\n line inside\n}", "box.left", "shell.left") },
        { "WN4304", Slides("let space = 3/4 in + wall_stack.thickness", "plan tub from box, inward by space { }", "tub.left", "box.left") },
        { "WN4304", Slides("let space = 1/4 in", "plan shell from box, outward by 1/2 in {\n line inside\n side left outward by space\n}", "box.left", "shell.left") },
        { "WN1002", Boards + "panel lid of board { covers plan box, underside 28 in }" },
        { "WN1002", Wall("frame { studs 16 in }") },
        { "WN1002", Boards + "resin epoxy { density 1.1 g/cm3 }\npanel lid of board {\n covers plan box, underside at 28 in\n splice across length {\n lap width 2 in, depth half\n glue epoxy }\n}" },
        { "WN1003", "camper \"Metric\" {\n lengths mm\n}\n" + Boards + "panel lid of board { covers plan box, underside at 28 in }" },
        { "WN1003", "camper \"Metric\" { weights kg }\n" + Boards + "panel lid of board { covers plan box, underside at 28 in }" },
        { "WN1003", "camper \"Metric\" { cuts gilotine }\n" + Boards + "panel lid of board { covers plan box, underside at 28 in }" },
        { "WN1003", Boards + "stick odd { section 3/4 in x 1 1/2 in\n length 96 in }\nstack framed { sheet ply\n core frame of odd\n sheet ply }\npanel lid of framed { covers plan box, underside at 28 in }" },
        { "WN1003", Boards + "panel side of board { stands on box.left, from 0 in to 20 in }\nmirror side to other" },
        { "WN2004", Materials.Replace("between 1/2 in and 1 1/4 in", "between 1 1/4 in and 1/2 in", StringComparison.Ordinal).Replace("PROUD", "0 in", StringComparison.Ordinal) + "panel wall of wall_stack { through (0 in, 0 in, 0 in) along (0 in, -60 in, 0 in) up (0 in, 0 in, 30 in)\n opening vent { unit vent_window\n lower left at (20 in, 10 in) } }" },
        { "WN4127", Boards.Replace("48 in by 96 in", "4 in by 8 in", StringComparison.Ordinal) + "panel lid of board { covers plan box, underside at 28 in }" },
        { "WN4308", Boards + "panel roof of board { covers plan box, underside at 30 in, pitched 1/2 deg toward left\n outside up }\nlift rise { carries { roof }\n travel 10 in }" },
    };

    [Theory, MemberData(nameof(Cases))]
    public void Each_suggestion_can_be_written_in_and_mends(string code, string text)
    {
        text = text.ReplaceLineEndings("\n");
        var told = Compile(text).Findings.Where(f => f.Code == code).ToList();
        Assert.NotEmpty(told);
        foreach (var finding in told)
        {
            Assert.NotEmpty(finding.Fixes);
            foreach (var fix in finding.Fixes)
            {
                var mended = Compile(text[..fix.Place.Start] + fix.Text + text[fix.Place.End..]);
                Assert.True(mended.Findings.All(f => f.Code != code && f.Level < Level.Error), $"{fix.Label}\n{string.Join("\n", mended.Findings.Select(f => $"{f.Code} {f.Message}"))}");
            }
        }
    }

    [Fact]
    public void A_recess_that_no_skin_would_be_left_under_is_not_suggested()
    {
        var finding = Assert.Single(Compile(Wall("opening vent {\n    unit vent_window\n    lower left at (20 in, 10 in)\n    proud at most 0 in\n}", "1 1/8 in")).Findings, f => f.Code == "WN4108");
        Assert.Empty(finding.Fixes);
        Assert.Contains("1 1/8 in deep", finding.Hint);
        Assert.Contains("is the most that leaves a whole skin", finding.Hint);
    }

    /// <summary>Walls set too near to each other crush their seal and touch with a corner low; all of it follows from the gap, which is told.</summary>
    [Fact]
    public void What_follows_from_a_wrong_gap_is_not_told_again()
    {
        string text = "seal bulb { works between 5/16 in and 11/16 in }\n" + Slides("let space = 1/4 in", "plan shell from box, outward by space {\n line inside\n}", "box.left", "shell.left")
            .Replace("travel 20 in", "travel 20 in\n seal bulb\n lag up to 4 in at any corner\n clearance at least 1/8 in", StringComparison.Ordinal)
            + "panel far of wall_stack { stands on shell.right, from 2 in to 32 in }\n";
        text = text.Replace("carries { outside }", "carries {\n outside\n far\n }", StringComparison.Ordinal);
        Assert.Equal(["WN4304"], Compile(text).Findings.Where(f => f.Level == Level.Error).Select(f => f.Code).Distinct());
        // Without a stated gap it is the seal and the corner that tell.
        string silent = text.Replace("gap between 3/8 in and 5/8 in", "", StringComparison.Ordinal);
        Assert.Equal(["WN4303", "WN4305"], Compile(silent).Findings.Where(f => f.Level == Level.Error).Select(f => f.Code).Distinct().Order(StringComparer.Ordinal));
    }

    [Fact]
    public void A_mistake_of_a_mirrored_panel_is_told_once()
    {
        var text = Materials.Replace("PROUD", "0 in", StringComparison.Ordinal) + Mirrored;
        var finding = Assert.Single(Compile(text).Findings, f => f.Code == "WN4103");
        Assert.Equal("left_side.vent", finding.Subject);
        Assert.Contains("Likewise right_side.vent, its mirror.", finding.Message);
    }

    /// <summary>The block between a stud and a trimmer is too short on both sides of the camper; in the mirror the left trimmer is the right one.</summary>
    [Fact]
    public void A_note_that_names_a_sided_member_is_told_once()
    {
        var text = "screw frame_screw { kind pocket_screw\n length 1 1/4 in }\n" + Materials.Replace("PROUD", "0 in", StringComparison.Ordinal)
            + Mirrored.Replace("opening vent {", "frame {\n studs every 17 in, from left\n blocking at 15 in up\n joined with frame_screw 2 each\n }\n opening vent {", StringComparison.Ordinal).Replace("(20 in, 1/2 in)", "(20 3/4 in, 10 in)", StringComparison.Ordinal);
        var finding = Assert.Single(Compile(text).Findings, f => f.Code == "WN4125");
        Assert.Contains("vent.trimmer_left", finding.Message);
        Assert.Contains("Likewise right_side, its mirror.", finding.Message);
    }

    [Fact]
    public void A_joint_of_two_mirrored_panels_at_the_wrong_edge_is_told_once()
    {
        var text = Boards + """
            plan nose { start at (0 in, 40 in)
                leg left_taper run 30 in, width 60 in
                leg tip across 60 in
                leg right_taper mirror of left_taper
                leg back home }
            panel side of board { stands on box.left, from 0 in to 20 in }
            mirror side as other_side
            panel cheek of board { stands on nose.left_taper, from 0 in to 20 in }
            mirror cheek as other_cheek
            joint side.right to cheek.left { butt }
            """;
        var finding = Assert.Single(Compile(text.Replace("start at (-40 in, 20 in)", "start at (-40 in, 40 in)", StringComparison.Ordinal).Replace("leg front across 40 in", "leg front across 80 in", StringComparison.Ordinal)
            .Replace("home, across 40 in", "home, across 80 in", StringComparison.Ordinal)).Findings, f => f.Code == "WN4003");
        Assert.Contains("Likewise other_side.left to other_cheek.right, its mirror.", finding.Message);
    }

    [Fact]
    public void A_mirror_with_a_mistake_of_its_own_is_told_by_itself()
    {
        var text = Materials.Replace("PROUD", "0 in", StringComparison.Ordinal) + Mirrored.Replace("mirror left_side as right_side", "mirror left_side as right_side {\n    opening hatch {\n        size 6 in by 6 in\n        lower left at (50 in, 1 in)\n    }\n}", StringComparison.Ordinal);
        var subjects = Compile(text).Findings.Where(f => f.Code == "WN4103").Select(f => f.Subject).ToList();
        Assert.Contains("left_side.vent", subjects);
        Assert.Contains("right_side.hatch", subjects);
    }

    [Fact]
    public void Accepting_one_side_alone_keeps_the_two_apart()
    {
        var text = Materials.Replace("PROUD", "0 in", StringComparison.Ordinal) + Mirrored + "\naccept WN4103 for right_side.vent because \"cut through on purpose\"\n";
        var findings = Compile(text).Findings.Where(f => f.Code == "WN4103").ToList();
        Assert.Equal(2, findings.Count);
        Assert.Single(findings, f => f.AcceptedBecause is null && f.Subject == "left_side.vent");
    }
}
