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
        { Wall + "}\nstick odd { section 3/4 mm by 1 1/2 in\n length 96 in\n density 28 lb/ft3 }", "WN4127", "stated with 3/4 mm" },
        { Wall + "}\nstick odd { section 3/4 in by 1 1/2 mm\n length 96 in\n density 28 lb/ft3 }", "WN4127", "1 1/2 mm" },
        { Wall + "}\nstick odd { section 19 in by 38 in\n length 96 in\n density 28 lb/ft3 }", "WN4127", "19 in" },
        { Wall + "}\nstick odd { section 3/4 in by 1 1/2 in\n length 96 mm\n density 28 lb/ft3 }", "WN4127", "12 in to 600 in" },
        { Wall + "}\nstick odd { section 3/4 in by 1 1/2 in\n length 8 in\n density 28 lb/ft3 }", "WN4127", "stated with 8 in" },
        { Wall + "}\nstick odd { section 3/4 in by 1 1/2 in\n length 96 ft\n density 28 lb/ft3 }", "WN4127", "96 ft" },
        { Wall + "}\nstick odd { section 3/4 in by 1 1/2 in\n length 96 in\n density 28 kg/m3 }", "WN4127", "28 kg/m3" },
        { Wall + "}\nstick odd { section 1 1/2 in by 3/4 in\n length 96 in\n density 28 lb/ft3 }", "WN4128", "1 1/2 in thick and 3/4 in wide" },
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
        { Wall + "zone bay of board from 60 in to 100 in along }", "WN4129", "reaches 20 in past the edge" },
        { Wall + "zone bay of board { lower left at (70 in, 5 in), size 30 in by 10 in } }", "WN4129", "reaches 20 in past the edge" },
        { Wall + "zone bay of board from 10 in to 30 in along, recessed 2 in from inside }", "WN4130", "recessed 2 in" },
        { Wall + "zone bay of board from 10 in to 30 in along, recessed -1/4 in from outside }", "WN4130", "recessed -1/4 in" },
        { Wall + "zone a of board from 10 in to 30 in along\n zone b of board from 25 in to 50 in along, from 5 in to 15 in up }", "WN4131", "overlap by 50 in2" },
        { Wall + "zone bay of board from 10 in to 30 in along\n opening vent { unit window\n lower left at (25 in, 15 in) } }", "WN4132", "25 % of it lies in the zone" },
        { Wall + "lip top 1 in of thin }\nsheet thin { thickness 3 mm\n size 48 in by 96 in }", "WN4134", "has no layer of it" },
        { "panel wall of board { stands on body.left, from floor.top to 40 in\n bevel top 95 deg }", "WN3016", "95 deg is no edge" },
        { "panel wall of board { stands on body.left, from floor.top to 3 in\n bevel top 85 deg\n bevel bottom 85 deg }", "WN3016", "below its outside face" },
        { "plan odd { start at (0 in, 10 in)\n leg a run 20 in, rounded 2 in\n leg b across 20 in, bowed outward by 2 in\n leg c run 20 in\n leg d home }\npanel cover of board { covers plan odd, top at 20 in }", "WN3008", "leg b is bowed" },
        { Wall + "}\njoint wall.top to wall.top { butt }", "WN1006", "joined to itself" },
        { Wall + "}\njoint wall.bottom to floor.top { lap width 1 in }", "WN4209", "ends where floor begins" },
        { Wall + "}\npanel nose of framed { stands on body.front, from floor.top to 40 in }\njoint wall.left to nose.left { butt }", "WN4003", "not its edge left, which is 39" },
        { Wall + "}\npanel nose of framed { stands on body.front, from floor.top to 40 in }\njoint wall.left to nose.right { lap depth 40 mm }", "WN4210", "1.222 in thick" },
        { "sheet thin { thickness 4 mm\n size 48 in by 96 in\n price 30 USD }\nstack skin { sheet thin }\npanel cover of skin { covers plan body, top at 20 in }", "WN1003", "\"per\" is expected after" },
        { "sheet thin { thickness 48 in\n size 6 mm by 96 in }\nstack skin { sheet thin }\npanel cover of skin { covers plan body, top at 60 in }", "WN3015", "48 in thick" },
        { "panel wall of framed { stands on body.left, from floor.bottom to 40 in }", "WN4301", "15/64 in" },
        { "panel wall of framed { stands on body.left, from floor.top to 400 in }", "WN4204", "400 in" },
        { "panel wall of board { stands on body.left, from floor.top to 40 in\n opening vent { unit window\n lower left at (20 in, 10 in) } }", "WN4106", "0.264 in too thin" },
        { Wall + "frame { studs every 16 on centre } }", "WN2002", "write in, ft or mm" },
        { "panel wall of framed { stands on body.lefft, from floor.top to 40 in }", "WN3007", "Did you mean left" },
        { "panel wall of framed { stands on body.left, from floor.top to 3'4\" }", "WN0006", "3 ft 4 in" },
        { "let high = 3,5 in\npanel wall of framed { stands on body.left, from floor.top to high }", "WN0006", "3.5" },
        { "plan odd { start at (0 in, 10 in)\n leg a run 20 in\n leg b across 20 in\n leg c run 20 in }\npanel cover of board { covers plan odd, top at 20 in }", "WN3003", "20 in to the right of its start" },
        { "panel wall of framed { stands on body.left, from wall.top to 40 in }", "WN1011", "the place of wall" },
        { Wall + "opening vent { unit window\n lower left at (70 in, 20 in) } }", "WN4103", "10 in past the edge" },
        { "panel roof of framed { covers plan body, underside at 40 in }\nlift up { carries { roof }\n travel 18 in }", "WN4308", "1 deg is the least" },
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
