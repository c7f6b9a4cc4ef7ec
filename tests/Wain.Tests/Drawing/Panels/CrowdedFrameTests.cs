using Wain.Core;
using Wain.Core.Drawing;
using Wain.Core.Drawing.Panels;
using Wain.Core.Text;

namespace Wain.Tests.Drawing.Panels;

/// <summary>A long wall with a framed window in a framed recess: more short members than a margin holds names. No name leaves its sheet, and the frame's sheet names them all.</summary>
public sealed class CrowdedFrameTests
{
    private const string Text = """
        sheet ply { thickness 5 mm
            size 60 in by 144 in }
        stick strip { section 3/4 in by 1 1/2 in
            length 144 in }
        stick square { section 1 1/2 in by 1 1/2 in
            length 144 in }
        board foam { thickness 3/4 in
            size 48 in by 96 in }
        screw pocket { kind pocket_screw
            diameter 4 mm
            length 1 1/4 in }
        stack thick { sheet ply
            core frame of square flat, filled with foam
            sheet ply }
        stack thin { sheet ply
            core frame of strip flat, filled with foam
            sheet ply }
        panel wall of thick { through (0 in, 0 in, 0 in) along (-96 in, 0 in, 0 in) up (0 in, 0 in, 42 in)
            frame { studs every SPACING in
                joined with pocket, 2 each }
            zone alcove of thin from 30 in to 66 in along, from 12 in to 36 in up, recessed 3/4 in from outside
            opening look { size 24 in by 14 in
                lower left at (36 in, 16 in) } }

        """;

    [Theory]
    [InlineData(false, false, 16)]
    [InlineData(true, false, 16)]
    [InlineData(true, true, 16)]
    [InlineData(false, false, 5)]
    [InlineData(true, false, 5)]
    public void Every_name_stands_on_its_sheet(bool a4, bool metric, int spacing)
    {
        var design = Compiler.Compile(new SourceText("wall.wain", Text.Replace("SPACING", $"{spacing}", StringComparison.Ordinal))).Design!;
        var sheets = DrawingBook.Sheets(design, new DrawingOptions { Camper = "Wall", Metric = metric, Paper = a4 ? Paper.A4 : Paper.Letter });
        foreach (var sheet in sheets) LayoutChecks.Readable(sheet);
        var drawn = sheets.Single(s => s.Name == "panel-wall-frame").Labels.Select(l => l.Text).ToHashSet(StringComparer.Ordinal);
        Assert.True(design.Frames.Members.Count() >= 25);
        // By its name, or where that has no room by its number in the list.
        var numbers = FrameSheet.Numbers([.. design.Frames.Members]);
        Assert.All(design.Frames.Members, m => Assert.True(drawn.Contains(m.Key) || drawn.Contains(numbers[m.Key]), m.Key));
        // The recess has a frame of its own, of sticks half as thick: the list tells both.
        var list = sheets.Where(s => s.Name.StartsWith("panel-wall-frame", StringComparison.Ordinal)).SelectMany(s => s.Labels).Select(l => l.Text).ToHashSet(StringComparer.Ordinal);
        Assert.Superset(new HashSet<string> { "Thick", metric ? "38" : "1 1/2", metric ? "19" : "3/4" }, list);
        string notes = string.Join(' ', sheets.SelectMany(s => s.Labels).Select(l => l.Text));
        foreach (string thick in new[] { metric ? "38" : "1 1/2", metric ? "19" : "3/4" }) Assert.Contains($"Black dots in members {thick} thick are pocket holes", notes, StringComparison.Ordinal);
        Assert.Contains($"Within the zone alcove: strip, {(metric ? "19" : "3/4")} through.", notes, StringComparison.Ordinal);
    }
}
