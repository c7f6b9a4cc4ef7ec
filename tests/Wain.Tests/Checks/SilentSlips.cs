using Wain.Core;
using Wain.Core.Findings;
using Wain.Core.Text;

namespace Wain.Tests.Checks;

/// <summary>Slips that once changed a part, or left one out, without a word. Each is told with its amount, at its own line, and what it says to write mends it.</summary>
public class SilentSlips
{
    private const string Text = """
        sheet ply { thickness 6 mm
            size 48 in by 120 in }
        stick strip { section 3/4 in by 1 1/2 in
            length 120 in }
        adhesive glue { spread 200 g/m2
            density 1.1 g/cm3 }
        cloth weave { weight 200 g/m2
            glass 50 %
            overlap 2 in
            roll 30 in wide }
        screw long { diameter 0.164 in
            length 3 in }
        stack framed { cloth weave
            sheet ply
            core frame of strip flat
            sheet ply }
        stack slim { cloth weave
            sheet ply }
        plan body {
            start at (-80 in, 20 in)
            leg left run 80 in
            leg front across 40 in
            leg right run 80 in
            leg rear home
        }
        panel floor of framed { covers plan body, top at 0 in }
        panel wall of framed { stands on body.left, from floor.top to 40 in
            frame { studs every 16 in
                MEMBER }
            opening vent { size 20 in by 10 in
                lower left at (20 in, 12 in)
                RECESS }
            ZONE
        }
        joint wall.bottom to floor.top { glue glue
            JOINT }

        """;

    private static Compilation Compile(string text) => Compiler.Compile(new SourceText("slip.wain", text));

    private static string With(string slot, string said) => (Text.Replace(slot, said, StringComparison.Ordinal) is var text ? new[] { "MEMBER", "RECESS", "ZONE", "JOINT" }.Aggregate(text, (t, s) => t.Replace(s, "", StringComparison.Ordinal)) : "").ReplaceLineEndings("\n");

    [Theory]
    [InlineData("MEMBER", "stud at 90 in along", "WN4151", "placed at 90 in, and the panel is 80 in", "")]
    [InlineData("MEMBER", "stud at -20 in along", "WN4151", "placed at -20 in", "20 in")]
    [InlineData("MEMBER", "blocking at 41 in up", "WN4151", "placed 41 in up, and the panel is 40 in", "")]
    [InlineData("MEMBER", "blocking at 20 in up, from 60 in, to 40 in", "WN4151", "from 60 in to 40 in", "80 in")]
    [InlineData("RECESS", "recessed 1/8 in, margin 13 in", "WN4117", "reaches 1 in past the edge", "12 in")]
    [InlineData("RECESS", "recessed 1/8 in, margin 1 in, corner 9 in", "WN3008", "22 in by 12 in; at most 6 in", "6 in")]
    [InlineData("ZONE", "zone bay of slim from 60 in to 50 in along", "WN3006", "ends at 50 in and begins at 60 in", "50 in to 60 in")]
    [InlineData("ZONE", "zone bay of framed from 50 in to 60 in along, recessed 1/4 in from outside", "WN4152", "stands 1/4 in out of the inside face", null)]
    [InlineData("ZONE", "rounded left -1/8 in", "WN4112", "rounded -1/8 in", "1/8 in")]
    [InlineData("JOINT", "screws long every 8 in, driven from below, edge distance 5 in", "WN4114", "5 in from the edge of what is 1.222 in thick", "9/16 in")]
    [InlineData("JOINT", "mitre", "WN4153", "floor meets with a face", "butt")]
    [InlineData("JOINT", "mirrored", "WN3020", "wall has no mirror", null)]
    public void It_is_told_and_mended(string slot, string said, string code, string words, string? written)
    {
        Assert.DoesNotContain(Compile(With("MEMBER", "")).Findings, f => f.Code == code);
        string text = With(slot, said);
        var told = Assert.Single(Compile(text).Findings, f => f.Code == code);
        Assert.Contains(words, told.Message);
        Assert.Equal(written, told.Fixes.FirstOrDefault()?.Text);
        foreach (var fix in told.Fixes) Assert.DoesNotContain(Compile(text[..fix.Place.Start] + fix.Text + text[fix.Place.End..]).Findings, f => f.Code == code && f.Message == told.Message);
    }

    /// <summary>The front wall of a shell is left out of the list of what rises: the side wall that laps it would rub along it all the way up.</summary>
    [Fact]
    public void What_was_left_out_of_a_lift_is_named()
    {
        string text = """
            sheet ply { thickness 12 mm
                size 48 in by 96 in }
            stack board { sheet ply }
            plan body {
                start at (-60 in, 20 in)
                leg left run 60 in
                leg front across 40 in
                leg right run 60 in
                leg rear home
            }
            panel side of board { stands on body.left, from 10 in to 30 in }
            panel fore of board { stands on body.front, from 10 in to 30 in }
            panel lid of board { covers plan body, underside at 30 in }
            lift up {
                carries { side
                    lid }
                travel 10 in
                clearance at least 1/8 in
            }
            """.ReplaceLineEndings("\n");
        var told = Compile(text).Findings.Where(f => f.Code == "WN4302").ToList();
        Assert.Contains("If fore rises as well, up has to carry it", told[0].Hint);
        var fix = told[0].Fixes[0];
        Assert.DoesNotContain(Compile(text[..fix.Place.Start] + fix.Text + text[fix.Place.End..]).Findings, f => f.Level == Level.Error);
    }

    /// <summary>
    /// Cloth 30 in wide over a wall of 80 in by 40 in is two lengths that lap 2 in. Where it runs on over a zone that is flush with the face, what the panel and the zone take adds to the face and the
    /// one lap; the zone is not counted twice.
    /// </summary>
    [Fact]
    public void Cloth_that_runs_on_over_a_zone_is_counted_once()
    {
        var figures = Compile(With("ZONE", "zone bay of slim from 50 in to 70 in along, from 5 in to 35 in up")).Design!.Figures;
        double Area(string name) => figures.Find(name)!.Value.Value / (0.0254 * 0.0254);
        Assert.Equal(80 * 40 - 20 * 10 + 80 * 2, Area("wall.weave.area") + Area("wall.bay.weave.area"), 6);
        Assert.Equal(80 * 2, Area("wall.weave.lap_area"), 6);
    }
}
