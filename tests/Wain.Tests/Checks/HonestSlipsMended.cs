using Wain.Core;
using Wain.Core.Findings;
using Wain.Core.Text;

namespace Wain.Tests.Checks;

/// <summary>Slips of unit, sign, place and name, told at their own line with the value that was meant, which mends them; what follows from them stays silent.</summary>
public class HonestSlipsMended
{
    private const string Sound = """
        sheet ply { thickness 6 mm
            size 48 in by 96 in
            density 600 kg/m3
            modulus 8 GPa
            modulus_across 4 GPa
            shear_modulus 0.5 GPa
            bending_strength 30 MPa
            safety 2.5
            conductivity 0.13 W/m/K
            vapour 100 }
        stick strip { section 3/4 in by 1 1/2 in
            length 96 in }
        board foam { thickness 3/4 in
            size 48 in by 96 in }
        adhesive glue { spread 200 g/m2
            density 1.1 g/cm3 }
        filler silica { bulk_density 50 kg/m3 }
        resin epoxy { density 1.1 g/cm3 }
        screw wood_screw { diameter 0.164 in
            length 2 in }
        unit window { cut_out 20 in by 10 in, corner 1 in
            wall between 1/2 in and 1 1/4 in
            flange 1 in }
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
    private const string Joint = Wall + "}\njoint wall.bottom to floor.top {\n butt\n glue glue\n";
    private const string Truck = "carrier truck {\n wheelbase 128 in\n front_axle at 92 in\n track 62 in\n";

    /// <summary>The slip, its code, words of the message, the value written, and codes that must stay silent until it is mended.</summary>
    public static TheoryData<string, string, string, string, string> Cases => new()
    {
        { Joint + " screws wood_screw every 8 mm, driven from below\n}", "WN4135", "stated as 8 mm", "8 in", "WN4123" },
        { Joint + " fillet silica radius 3/8 ft\n}", "WN4135", "radius of the fillet", "3/8 in", "" },
        { Truck.Replace("128 in", "128 ft") + "}", "WN4135", "wheelbase of truck", "128 in", "WN6110" },
        { Truck.Replace("at 92 in", "at -92 in") + "}", "WN4135", "front axle", "92 in", "WN6110" },
        { Truck.Replace("62 in", "62 mm") + "}", "WN4135", "track of truck", "62 in", "" },
        { "shop { temperature 65 degC }", "WN4135", "65 degC", "65 degF", "" },
        { "shop { person lifts 50 oz\n people 2 }", "WN4135", "50 oz", "50 lb", "WN6601" },
        { "shop { bench 8 in by 4 in }", "WN4135", "bench of shop", "8 ft by 4 ft", "WN6603" },
        { "shop { door 7 in by 3 in }", "WN4135", "door of shop", "7 ft by 3 ft", "WN6602" },
        { "case people on floor { uniform 30 psi }", "WN4135", "30 psi", "30 psf", "WN6311" },
        { "case people on floor { uniform 0.2 psf\n deflection at most 180 of span }", "WN4135", "stated as 180", "1/180", "WN6310" },
        { "night cold { outside 15 degF, humidity 80\n inside 60 degF, humidity 50 % }", "WN6003", "humidity of 80 can't be", "80 %", "" },
        { "cloth glass { weight 6 lb/yd2 }\nstack laid { cloth glass wet with epoxy\n sheet ply }\npanel cover of laid { covers plan body, top at 20 in }", "WN4127", "6 lb/yd2", "6 oz/yd2", "" },
        { Joint.Replace("glue glue", "screws long_screw every 8 in, driven from below") + "}\nscrew long_screw { diameter 0.164 in\n length 2 ft }", "WN4127", "length of long_screw", "2 in", "" },
        { "cloth glass { weight 6 oz/yd2 }\nstack laid { cloth glass\n sheet ply }\npanel cover of laid { covers plan body, top at 20 in }", "WN4136", "without resin", "wet with epoxy", "" },
        { Truck + " tie_down left at (-60 in, 30 in, 0 in)\n tie_down right at (-60 in, 30 in, 0 in)\n}", "WN6117", "where left is", "-30 in", "" },
        { Wall + "}\nlift up { carries { wall }\n travel 20 in\n lifted at aft (78 in, 20 in, 20 in) }", "WN4311", "aft of up lies", "-78 in", "" },
        { Wall + "frame { studs every 16 mm on centre } }", "WN4122", "every 16 mm", "16 in", "" },
        { Wall + "frame { studs count 48 } }", "WN4122", "leave bays of", "25", "" },
        { "panel left_wall of framed { stands on body.left, from floor.top to 40 in }\njoint right_wall.bottom to floor.top {\n butt\n glue glue\n}", "WN1004", "nothing mirrors left_wall", "mirror left_wall as right_wall", "" },
        { Wall + "opening vent { unit window\n lower left at (6 in, 52 in) } }", "WN4103", "past the edge", "(52 in, 6 in)", "WN4104" },
        { "camper \"Demo\" { tax 6 }", "WN4135", "stated as 6", "6 %", "" },
        { "coating paint { coverage 500 m2/l }\nstack painted { coating paint 1 coats\n sheet ply }\npanel cover of painted { covers plan body, top at 20 in }", "WN4127", "500 m2/l", "500 ft2/gal", "" },
        { "let high = 40\npanel wall of framed { stands on body.left, from floor.top to high }", "WN2002", "plain number", "40 in", "" },
        { "group box(far) {\n plan base { start at (0 in, 10 in)\n leg left run far\n leg front across 20 in\n leg right run far\n leg rear home, across 20 in }\n panel low of board { covers plan base, top at 20 in }\n panel end of board { stands on base.left, from low.top to 40 in }\n joint end.top to low.top { butt\n glue glue }\n}\nplace box(30 in) as first_box", "WN4003", "first_box_end.top", "end.bottom", "" },
        { Wall + "splice across length at 30 in { lap width 2 mm\n lap depth half } }", "WN4202", "0.079 in wide", "2 in", "" },
    };

    private static List<Finding> Compile(string text) => [.. Compiler.Compile(new SourceText("slip.wain", text)).Findings];

    [Theory, MemberData(nameof(Cases))]
    public void The_value_that_was_meant_is_told_and_mends(string slip, string code, string says, string written, string silent)
    {
        string text = (Sound + slip + "\n").ReplaceLineEndings("\n");
        var findings = Compile(text);
        string all = string.Join("\n", findings.Select(f => $"{f.Code} {f.Message}"));
        var told = findings.FirstOrDefault(f => f.Code == code && f.Message.Contains(says, StringComparison.Ordinal));
        Assert.True(told is not null, all);
        Assert.Contains(told.Fixes, f => f.Text.Trim() == written);
        Assert.DoesNotContain(findings, f => f.Code == silent);
        var fix = told.Fixes.First(f => f.Text.Trim() == written);
        string mended = text[..fix.Place.Start] + fix.Text + text[fix.Place.End..];
        Assert.True(!Compile(mended).Exists(f => f.Code == code && f.Message == told.Message), mended);
    }

    [Fact]
    public void What_is_accepted_lets_what_follows_be_told_again()
    {
        string text = (Sound + "case people on floor { uniform 30 psi }\n").ReplaceLineEndings("\n");
        Assert.DoesNotContain(Compile(text), f => f.Code == "WN6311");
        Assert.Contains(Compile(text + "accept WN4135 for people because \"a press stands on it\"\n"), f => f.Code == "WN6311");
    }

    /// <summary>Whether the day or the month comes first nobody can tell, so there is one error at the date and no fix.</summary>
    [Fact]
    public void A_date_with_its_year_last_is_told_once()
    {
        var told = Compile(Sound + "sheet other { thickness 6 mm\n size 48 in by 96 in, price 62 USD, on 12-09-2026 }\n").Where(f => f.Code == "WN0008").ToList();
        Assert.Contains("year, month, day", Assert.Single(told).Message);
        Assert.Empty(told[0].Fixes);
        Assert.Equal(2, Compile("let a = 5-3-2\nrequire a < 9\n").Count(f => f.Code == "WN0008"));
    }

    [Fact]
    public void A_night_with_its_sides_exchanged_says_so() =>
        Assert.Contains("changed places", Compile(Sound + "night cold { outside 60 degF, humidity 50 %\n inside 15 degF, humidity 80 % }\n").Single(f => f.Code == "WN4135").Hint);

    [Fact]
    public void Two_walls_on_one_leg_are_told_so() =>
        Assert.Equal("Both stand on body.left: one of them was meant for another leg.", Compile(Sound + Wall + "}\npanel other of framed { stands on body.left, from floor.top to 30 in }\n").Single(f => f.Code == "WN4301").Hint);

    [Fact]
    public void A_wheel_well_counts_whichever_end_is_stated_first()
    {
        string Told(string well) => string.Join("\n", Compile(Sound + Wall + "}\n" + Truck + $" kind bed\n bed 90 in by 50 in, depth 20 in\n wheel_well {well}, between 30 in, high 9 in\n}}\n").Where(f => f.Code.StartsWith("WN440", StringComparison.Ordinal)).Select(f => f.Code + f.Message));
        Assert.NotEmpty(Told("from -50 in to -22 in"));
        Assert.Equal(Told("from -50 in to -22 in"), Told("from -22 in to -50 in"));
    }
}
