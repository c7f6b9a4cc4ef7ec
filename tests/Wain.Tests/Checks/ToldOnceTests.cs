using Wain.Core;
using Wain.Core.Findings;
using Wain.Core.Text;
using Wain.Tests.Revisions;

namespace Wain.Tests.Checks;

/// <summary>One slip is one finding, at the slip itself, with what mends it, in the words and units of the spec. All figures are invented.</summary>
public sealed class ToldOnceTests : IDisposable
{
    private const string Sound = """
        camper "Told" { lengths UNITS }
        sheet ply { thickness 12 mm
            size 48 in by 96 in }
        stack board { sheet ply }
        let wall_top = 50 in
        let ring = 3 in
        plan body {
            start at (0 in, 20 in)
            leg left run 80 in
            leg front across 40 in
            leg right run 80 in
            leg rear home, across 40 in
        }
        panel deck of board { covers plan body, top at 20 in }

        """;

    private static string Of(string more, bool metric = false) => Sound.Replace("UNITS", metric ? "millimetres" : "inches to 1/16", StringComparison.Ordinal).ReplaceLineEndings("\n") + more;

    private static List<Finding> Told(string text) => [.. Compiler.Compile(new SourceText("told.wain", text)).Findings.Where(f => f.Level == Level.Error)];

    private static string Mended(string text, Fix fix) => text[..fix.Place.Start] + fix.Text + text[fix.Place.End..];

    [Fact]
    public void A_gap_from_its_end_to_its_beginning_is_told_once()
    {
        string text = Of("seal bulb { works between 1/4 in and 3/4 in }\npanel wall of board { stands on body.left, from 20 1/2 in to 50 in }\njoint wall.bottom to deck.top {\n gap between 3/4 in and 1/4 in\n seal bulb\n}\n");
        var finding = Assert.Single(Told(text));
        Assert.Equal("The range ends at 1/4 in, below its beginning at 3/4 in.", finding.Message);
        Assert.Empty(Told(Mended(text, Assert.Single(finding.Fixes))));
    }

    [Fact]
    public void What_a_let_states_is_mended_at_the_let()
    {
        string text = Of("panel wall of board { stands on body.left, from deck.top to wall_top\n rounded_corner upper_left arc }\nlet arc = wide\nlet wide = 36 in\n");
        var fix = Assert.Single(Assert.Single(Told(text)).Fixes);
        Assert.Equal(("36 in", "write 30 in for wide"), (fix.Place.Text, fix.Label));
        Assert.Empty(Told(Mended(text, fix)));
    }

    [Theory]
    [InlineData("screws long count 0", "count 1")]
    [InlineData("gusset ply 0 in by 6 in", "")]
    [InlineData("gusset ply 6 in by 6 in, count 0", "count 1")]
    [InlineData("hardware hinge 0", "hinge 1")]
    public void What_there_is_none_of_is_told(string line, string mended)
    {
        string text = Of($"screw long {{ length 2 in }}\nhardware hinge {{ kind hinge }}\npanel wall of board {{ stands on body.left, from deck.top to 50 in }}\njoint wall.bottom to deck.top {{\n butt\n {line}\n}}\n");
        var finding = Assert.Single(Told(text));
        Assert.Contains("is nothing here", finding.Message);
        foreach (var fix in finding.Fixes) Assert.Empty(Told(Mended(text, fix)));
        if (mended.Length > 0) Assert.Contains(mended, Mended(text, finding.Fixes[0]));
    }

    /// <summary>Words left out, put in the wrong place or taken from another language, each told once with what to write.</summary>
    [Theory]
    [InlineData("let rise: 20 in\n", "let rise = 20 in")]
    [InlineData("rise = 20 in\nrequire rise > 1 in\n", "let rise = 20 in")]
    [InlineData("let skin = board.thicknes\nrequire skin > 1 mm\n", "board.thickness")]
    [InlineData("let skin = boards.thickness\nrequire skin > 1 mm\n", "board.thickness")]
    [InlineData("require ring < = 4 in\n", "ring <= 4 in")]
    [InlineData("function under(a, b) = a -b\nrequire under(ring, 1 in) > 1 in\n", "a - b")]
    [InlineData("panel wall of board { stands on left, from deck.top to 50 in }\n", "body.left, from")]
    [InlineData("panel wall of board { stands on body.left, from deck.top to 50 }\n", "to 50 in")]
    [InlineData("panel wall of board { stands on body.left, from deck.top to 50 in }\nmirror wall other\n", "wall as other")]
    [InlineData("panel wall of board { stands on body.left, from deck.top to 50 in\n opening vent {\n size 6 in by 4 in\n lower left at 10 in, 8 in\n}\n}\n", "at (10 in, 8 in)")]
    [InlineData("panel wall of board { stands on body.left, from deck.top to 50 in\n opening vent {\n size 6 in by 4 in\n lower left at(10 in, 8 in)\n}\n}\n", "at (10 in, 8 in)")]
    [InlineData("lift up {\n carries { deck }\n travel 10 in\n gap 3/8 in - 3/4 in\n}\n", "gap 3/8 in to 3/4 in")]
    [InlineData("plan loft {\n start at (0 in, 20 in)\n leg left runn 80 in\n leg front across 40 in\n leg right run 80 in\n leg rear home\n}\n", "leg left run 80 in")]
    public void A_word_is_mended(string more, string mended)
    {
        string text = Of(more);
        var finding = Assert.Single(Told(text));
        Assert.Contains(mended, Mended(text, finding.Fixes[0]));
        Assert.Empty(Told(Mended(text, finding.Fixes[0])));
    }

    [Fact]
    public void A_let_without_its_unit_is_told_once() =>
        Assert.Single(Told(Of("let sill = 30\npanel a of board { stands on body.left, from deck.top to sill }\npanel b of board { stands on body.front, from deck.top to sill }\npanel c of board { stands on body.rear, from deck.top to sill }\n")));

    [Theory]
    [InlineData("let sill = 30\npanel wall of board { stands on body.left, from deck.top to sill }\n", "mm, in or ft")]
    [InlineData("load box { weighs 2 kg\n at (1 mm, 2 mm)\n}\n", "(-500 mm, 0 mm, 350 mm)")]
    [InlineData("lift top { travel 300 mm\n gap \"wide\"\n}\n", "between 25 mm and 50 mm")]
    public void Examples_are_in_the_units_of_the_spec(string more, string said) => Assert.Contains(Told(Of(more, metric: true)), f => f.Message.Contains(said, StringComparison.Ordinal));

    [Theory]
    [InlineData("joint skirt.left.bottom to deck.top { butt }", "skirt_left and skirt_right", "skirt_left.bottom to")]
    [InlineData("joint skirt_side.bottom to deck.top { butt }", "skirt_left and skirt_right", "")]
    [InlineData("joint skirt[left].bottom to deck.top { butt }", "whole name, skirt_left", "")]
    [InlineData("require port.lid.area > 1 ft2", "there is port_lid", "require port_lid.area")]
    public void A_wrong_key_is_told_with_the_names_that_there_are(string line, string said, string mended)
    {
        string text = Of("group box(high) {\n panel lid of board { covers plan body, top at high }\n}\nplace box(60 in) as port\nfor side in left, right {\n panel skirt[side] of board { stands on body.left, from deck.top to 50 in }\n}\n" + line + "\n");
        var finding = Compiler.Compile(new SourceText("told.wain", text)).Findings.First(f => f.Code == "WN1004");
        Assert.Contains(said, finding.Message + finding.Hint);
        if (mended.Length > 0) Assert.Contains(mended, Mended(text, Assert.Single(finding.Fixes)));
    }

    /// <summary>In the demo: every wall that hangs on a height, and shapes that cross for it, told as the one number.</summary>
    [Theory]
    [InlineData("let bunk_height = 34 in")]
    [InlineData("let wall_top = 57 in")]
    [InlineData("let roof_height = 60 in")]
    [InlineData("covers plan galley_plan, top at 37 in")]
    [InlineData("covers plan spice_plan, underside at 50 in")]
    public void A_height_in_another_unit_is_told_at_the_height(string line)
    {
        string folder = Path.Combine(Repository.Root, "specs", "heron"), text = File.ReadAllText(Path.Combine(folder, "heron.wain"));
        Assert.Contains(line, text);
        text = text.Replace(line, line[..^2] + "mm", StringComparison.Ordinal);
        var compiled = Compiler.Compile(new SourceText("heron.wain", text), path => (new SourceText(path, File.ReadAllText(Path.Combine(folder, path))), null));
        var finding = Assert.Single(compiled.Findings, f => f.Level == Level.Error);
        Assert.Equal("WN3021", finding.Code);
        Assert.Contains(line, Mended(text, Assert.Single(finding.Fixes)));
    }

    private readonly RevisionFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void A_query_shows_what_was_asked()
    {
        var (code, _, errors) = RevisionFolder.Run("query", _folder.At("old/camper.wain"), "total.weigth");
        Assert.Equal(1, code);
        Assert.Contains("write total.weight", errors);
        Assert.DoesNotContain("let x", errors);
    }

    [Fact]
    public void A_list_of_figures_for_a_person_is_in_units_of_the_trade()
    {
        string spec = _folder.At("old/camper.wain");
        Assert.Matches(@"ply_9mm\.density +34 +lb/ft3", RevisionFolder.Run("query", spec, "figures").Output);
        Assert.Contains("kg/m3", RevisionFolder.Run("query", spec, "figures", "--as", "csv").Output);
    }

    [Fact]
    public void A_plan_goes_without_what_states_no_size()
    {
        string folder = _folder.Write("unsized", RevisionFolder.Main, RevisionFolder.Materials.Replace("    size 48 in by 96 in, price 31 USD, on 2026-10-01\n", "", StringComparison.Ordinal));
        var (code, output, errors) = RevisionFolder.Run("cut", Path.Combine(folder, "camper.wain"), "--steps", "1000", "--out", _folder.At("out"));
        Assert.Equal(0, code);
        Assert.Contains("ply_5mm: not planned; it states no size that it is sold in", output);
        Assert.Contains("ply_9mm: 2 sheets", output);
        Assert.Contains("Add a line to ply_5mm: size", string.Join(' ', errors.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)));
    }

    /// <summary>What stands in the shop is known by its day and its mark, though its name, its size and its place in the text are others.</summary>
    [Fact]
    public void A_panel_that_is_built_renamed_and_changed_is_one_panel()
    {
        string built = "built nose_wall {\n    cut on 2026-10-17 design \"00000000\"\n}\n";
        _folder.Write("old", RevisionFolder.Main + built);
        var (code, output) = _folder.CompareWith(("nose_wall of wall {\n    stands on bunk.nose, from bunk_floor.top to 66 in", "bow_wall of wall {\n    stands on bunk.nose, from bunk_floor.top to 64 in"), ("joint nose_wall.bottom", "joint bow_wall.bottom"),
            ("to nose_wall.inside", "to bow_wall.inside"), ("require bunk_floor", built.Replace("nose_wall", "bow_wall", StringComparison.Ordinal) + "require bunk_floor"));
        Assert.Equal(1, code);
        Assert.Contains("was nose_wall", output);
        Assert.DoesNotContain("gone", output);
    }
}
