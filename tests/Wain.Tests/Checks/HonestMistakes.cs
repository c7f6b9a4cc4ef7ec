using Wain.Core;
using Wain.Core.Findings;
using Wain.Core.Text;

namespace Wain.Tests.Checks;

/// <summary>Slips that a builder makes, each in a spec that is right but for it: told as an error or warning, with the numbers.</summary>
public class HonestMistakes
{
    private const string Sound = """
        sheet ply { thickness 6 mm
            size 48 in by 96 in }
        stick strip { section 3/4 in by 1 1/2 in
            length 96 in }
        board foam { thickness 3/4 in
            size 48 in by 96 in }
        unit window { cut_out 20 in by 10 in, corner 1 in
            wall between 1/2 in and 1 1/4 in
            flange 1 in
            proud 1/2 in }
        stack framed { sheet ply
            core frame of strip flat, filled with foam
            sheet ply }
        stack board { sheet ply }
        plan body {
            start at (-80 in, 20 in)
            leg left run 80 in
            leg front across 40 in
            leg right run 80 in
            leg rear home
        }
        panel floor of board { covers plan body, top at 0 in }

        """;

    private const string Wall = "panel wall of framed { stands on body.left, from floor.top to 40 in\n";

    public static TheoryData<string, string, string> Cases => new()
    {
        { Wall + "}\npanel shelf of board { through (-60 in, 30 in, 20 in) along (-60 in, -10 in, 20 in) up (-30 in, 30 in, 20 in) }", "WN4301", "11 1/4 in" },
        { "panel wall of framed { stands on body.left, from floor.top + 3/32 in to 40 in }", "WN4310", "3/32 in" },
        { "panel wall of framed { stands on body.left, from floor.top + 1/8 in to 40 in }\njoint wall.bottom to floor.top { butt }", "WN4003", "1/8 in" },
        { "panel wall of framed { stands on body.left, from floor.top to floor.top\n opening vent { size 4 in by 4 in\n lower left at (2 in, 2 in) } }", "WN3006", "0 in" },
        { "panel wall of framed { stands on body.left, from 40 in to floor.top }", "WN3006", "40 in" },
        { Wall + "opening vent { size 0 in by 4 in\n lower left at (2 in, 2 in) } }", "WN3011", "0 in by 4 in" },
        { Wall + "opening vent { size 10 in by 4 in corner 3 in\n lower left at (12 in, 12 in) } }", "WN3008", "at most 2 in" },
        { Wall + "rounded_corner upper_left 25 in\n rounded_corner lower_left 25 in }", "WN3008", "at most 15 in" },
        { Wall + "}\nlift up { carries { wall }\n travel 0 in }", "WN2004", "no travel" },
        { Wall + "}\nlift up { carries { wall }\n travel -5 in }", "WN2004", "-5 in" },
        { Wall + "}\nlift up { carries { }\n travel 20 in }", "WN2004", "carries nothing" },
        { "panel wall of framed { stands on body.left, from floor.top to 2 in }", "WN4101", "needs 3 in" },
        { Wall + "frame { studs every 1 in on centre } }", "WN4122", "1 1/2 in wide" },
        { Wall + "frame { studs count 60 } }", "WN4122", "77 in" },
        { Wall + "opening vent { unit window\n lower left at (120 in, 12 in) } }", "WN4103", "60 in past the edge" },
        { Wall + "opening vent { unit window\n lower left at (12 in, 12 in)\n recessed -1/4 in } }", "WN2004", "-1/4 in deep" },
        { Wall + "rabbet top 1/2 in by 3 in }", "WN4121", "3 in deep" },
        { Wall + "rabbet top 50 in by 1/8 in }", "WN4121", "50 in wide" },
        { Wall + "rabbet top 1/2 in by 1/8 in, over 50 in to 10 in }", "WN4121", "50 in to 10 in" },
        { Wall + "rabbet top 1/2 in by 1/8 in, over 60 in to 100 in }", "WN4121", "100 in" },
        { Wall + "splice across length at 200 in { lap width 1 in } }", "WN4211", "200 in" },
        { Wall + "bevel top 75 deg }", "WN4115", "of the member's 1 1/2 in" },
        { Wall + "zone bay of board from 90 in to 100 in along }", "WN3006", "outside of panel wall" },
        { Wall + "}\njoint wall.top to wall.top { butt }", "WN1006", "joined to itself" },
        { Wall + "}\njoint wall.bottom to floor.top { lap width 1 in }", "WN4209", "ends where floor begins" },
    };

    [Theory, MemberData(nameof(Cases))]
    public void Each_is_told_with_the_numbers(string slip, string code, string says)
    {
        var findings = Compiler.Compile(new SourceText("slip.wain", (Sound + slip + "\n").ReplaceLineEndings("\n"))).Findings;
        string told = string.Join("\n", findings.Select(f => $"{f.Code} {f.Message}"));
        Assert.True(findings.Any(f => f.Code == code && f.Level >= Level.Warning && f.Message.Contains(says, StringComparison.Ordinal)), told);
    }

    [Fact]
    public void Without_a_slip_nothing_is_told()
    {
        var findings = Compiler.Compile(new SourceText("slip.wain", (Sound + Wall + "}\njoint wall.bottom to floor.top { butt }\n").ReplaceLineEndings("\n"))).Findings;
        Assert.DoesNotContain(findings, f => f.Level == Level.Error);
    }
}
