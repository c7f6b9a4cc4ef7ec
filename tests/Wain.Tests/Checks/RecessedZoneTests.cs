using Wain.Core;
using Wain.Core.Checks;
using Wain.Core.Clearance;
using Wain.Core.Findings;
using Wain.Core.Text;

namespace Wain.Tests.Checks;

/// <summary>A window in a zone that is recessed sits on the zone's face and not on the wall's. Counted by hand.</summary>
public sealed class RecessedZoneTests
{
    private const string Text = """
        sheet ply { thickness 6 mm
            size 48 in by 96 in
            density 600 kg/m3 }
        sheet thick { thickness 20 mm
            size 48 in by 96 in
            density 600 kg/m3 }
        stick strip { section 3/4 in by 1 1/2 in
            length 96 in
            density 450 kg/m3 }
        board foam { thickness 1 1/2 in
            size 48 in by 96 in
            density 30 kg/m3 }
        unit pane { cut_out 20 in by 10 in, corner 1 in
            wall between 1/2 in and 2 in
            flange 1 in
            proud 1/4 in, inside 1/8 in }
        stack wall_stack {
            sheet ply
            core frame of strip on edge, filled with foam
            sheet ply
        }
        stack bay_stack { sheet thick }
        panel wall of wall_stack {
            through (0 in, 0 in, 0 in) along (60 in, 0 in, 0 in) up (0 in, 0 in, 30 in)
            frame { studs every 20 in }
            zone bay of bay_stack from 15 in to 45 in along, from 6 in to 24 in up, recessed RECESS from outside
            opening vent {
                unit pane
                centred at (CENTRE, 15 in)
                FACT
                unframed
            }
        }

        """;

    private static Compilation Compiled(string recess = "1/2 in", string centre = "30 in", string fact = "proud at most 0 in", string more = "") =>
        Compiler.Compile(new SourceText("zone.wain", Text.Replace("RECESS", recess, StringComparison.Ordinal).Replace("CENTRE", centre, StringComparison.Ordinal).Replace("FACT", fact, StringComparison.Ordinal) + more));

    private static double Reach(Compilation compiled, bool fromOutside)
    {
        var wall = compiled.Structure!.Panel("wall")!;
        var trim = Bodies.Of(compiled.Structure).Single(b => b.Kind == BodyKind.Trim && b.FromOutside == fromOutside);
        var depths = trim.Parts.SelectMany(p => p.Corners).Select(c => -wall.Face.ToLocal(c).Z).ToList();
        return Math.Round((fromOutside ? depths.Min() : depths.Max()) / 25.4, 6);
    }

    /// <summary>Depth below the wall's outside face: a flange of 1/4 in on a face half an inch down ends a quarter below the wall's own.</summary>
    [Theory]
    [InlineData("1/2 in", "30 in", 0.25)]
    [InlineData("1/8 in", "30 in", -0.125)]
    [InlineData("1/2 in", "17 in", -0.25)]
    public void Trim_stands_on_the_face_of_its_zone(string recess, string centre, double depth) => Assert.Equal(depth, Reach(Compiled(recess, centre), fromOutside: true));

    /// <summary>Inside, 1/2 in and 20 mm below the wall's outside face, and 1/8 in of trim.</summary>
    [Fact]
    public void And_so_it_does_inside() => Assert.Equal(0.5 + 20 / 25.4 + 0.125, Reach(Compiled(), fromOutside: false), 1e-6);

    [Theory]
    [InlineData("1/4 in", "", null, null)]
    [InlineData("1/8 in", "", "1/8 in out of wall", "1/4 in")]
    [InlineData("1/8 in", "proud at most 1/8 in", null, null)]
    [InlineData("1/16 in", "proud at most 1/8 in", "3/16 in out of wall at opening vent; 1/8 in is allowed", "1/8 in")]
    public void Trim_that_stands_out_asks_for_a_deeper_zone(string recess, string fact, string? says, string? writes)
    {
        var told = Compiled(recess, fact: fact).Findings.Where(f => f.Code == TrimProud.Info.Code).ToList();
        if (says is null)
        {
            Assert.Empty(told);
            return;
        }
        var finding = Assert.Single(told);
        Assert.Contains(says, finding.Message);
        var fix = Assert.Single(finding.Fixes);
        Assert.Equal((writes, recess), (fix.Text, fix.Place.Text));
        string text = fix.Place.Source.Text, mended = text[..fix.Place.Start] + fix.Text + text[fix.Place.End..];
        Assert.DoesNotContain(Compiler.Compile(new SourceText("zone.wain", mended)).Findings, f => f.Code == TrimProud.Info.Code);
    }

    [Fact]
    public void A_flange_across_the_edge_of_a_zone_is_told()
    {
        // The hole begins at 15 1/2 in, its flange at 14 1/2 in and the zone at 15 in.
        var finding = Assert.Single(Compiled(centre: "25 1/2 in").Findings, f => f.Message.Contains("across the edge of zone bay", StringComparison.Ordinal));
        Assert.Equal((UnitSeat.Info.Code, "wall.vent"), (finding.Code, finding.Subject));
        Assert.Contains("14 1/2 in along and 9 in up to 36 1/2 in along and 21 in up", finding.Hint);
        // One whose hole is cut across the border is told as that alone.
        Assert.DoesNotContain(Compiled(centre: "17 in").Findings, f => f.Message.Contains("across the edge", StringComparison.Ordinal));
        Assert.DoesNotContain(Compiled().Findings, f => f.Message.Contains("across the edge", StringComparison.Ordinal));
    }

    /// <summary>
    /// A wall that slides down half an inch outside passes a pane that is let in by its zone, and runs into the same pane on the wall's own face: 1/4 in of trim in a gap of 1/8 in.
    /// </summary>
    [Theory]
    [InlineData("1/2 in", 0)]
    [InlineData("1/16 in", 1)]
    public void What_slides_past_meets_only_trim_that_is_there(string recess, int clashes)
    {
        string shell = """
            panel shell of wall_stack {
                through (0 in, -1.9974 in, 1 in) along (60 in, -1.9974 in, 1 in) up (0 in, -1.9974 in, 31 in)
            }
            lift rise { carries { shell }
                travel 20 in }

            """;
        // The shell's inside face lies 1/8 in before the wall's outside one: 1 1/2 in of frame and twice 6 mm behind its own.
        var found = Compiled(recess, fact: "", more: shell).Findings.Where(f => f.Level == Level.Error && f.Message.Contains("the trim of pane", StringComparison.Ordinal) && f.Code is "WN4302" or "WN4301" or "WN4303").ToList();
        Assert.Equal(clashes, found.Count > 0 ? 1 : 0);
    }

    /// <summary>A recess of the opening's own is counted from the face of its zone: 24 by 14 in less the hole, 3 mm deep, is missing from the 20 mm sheet.</summary>
    [Fact]
    public void A_recess_in_a_zone_begins_at_the_zone()
    {
        var plain = Compiled(fact: "").Design!.Figures.Find("wall.bay.thick.volume")!.Value.Value;
        var recessed = Compiled(fact: "recessed 3 mm, margin 2 in, corner 0 in").Design!.Figures.Find("wall.bay.thick.volume")!.Value.Value;
        double hole = 20 * 10 - (4 - Math.PI) * 1;
        Assert.Equal((24 * 14 - hole) * 25.4 * 25.4 * 3 / 1e9, plain - recessed, 1e-9);
    }

    /// <summary>The window of the zone recessed 3 in into 20 mm: that goes through, and a thickness of less than nothing is not spoken of.</summary>
    [Fact]
    public void A_recess_deeper_than_the_wall_is_told_once()
    {
        var told = Compiled(fact: "recessed 3 in").Findings;
        Assert.Contains(told, f => f.Code == "WN4109");
        Assert.DoesNotContain(told, f => f.Code == "WN4106");
        Assert.DoesNotContain(told, f => f.Message.Contains("is -", StringComparison.Ordinal));
        Assert.Contains(Compiled(fact: "recessed 5/8 in").Findings, f => f.Code == "WN4106");
    }
}
