using Wain.Core;
using Wain.Core.Drawing;
using Wain.Core.Drawing.Panels;
using Wain.Core.Text;

namespace Wain.Tests.Drawing.Panels;

/// <summary>A roof with a round nose over two plans that are joined, of some pitch: its sheets are as plain as those of a straight one.</summary>
public sealed class RoundNoseTests
{
    private const string Text = """
        sheet ply { thickness 5 mm
            size 60 in by 144 in }
        stick strip { section 3/4 in by 1 1/2 in
            length 144 in }
        board foam { thickness 3/4 in
            size 48 in by 96 in }
        stack lid { sheet ply
            core frame of strip flat, filled with foam
            sheet ply }
        plan body { start at (-84 in, 37 in)
            leg left run 84 in
            leg front across 74 in
            leg right run 84 in
            leg rear home }
        plan nose { start at (0 in, 37 in)
            leg cheek run 30 in
            leg corner to (40 in, 27 in), bowed outward by 2 15/16 in
            leg prow across 54 in
            leg other_corner mirror of corner
            leg other_cheek mirror of cheek
            leg back home }
        plan all from body joined with nose
        panel roof of lid { covers plan all, underside at 60 in, pitched PITCH toward aft
            outside up
            frame { studs every 16 in }
            splice across width { lap width 1 1/2 in
                lap depth half } }
        panel bunk of lid { covers plan nose, underside at 30 in
            frame { studs count COUNT } }

        """;

    [Theory]
    [InlineData(false, "1 deg", 3)]
    [InlineData(true, "1 deg", 3)]
    [InlineData(false, "4 deg", 5)]
    [InlineData(true, "0 deg", 6)]
    public void Its_sheets_can_be_read(bool a4, string pitch, int studs)
    {
        var compiled = Compiler.Compile(new SourceText("nose.wain", Text.Replace("PITCH", pitch, StringComparison.Ordinal).Replace("COUNT", $"{studs}", StringComparison.Ordinal)));
        foreach (var sheet in DrawingBook.Sheets(compiled.Design!, new DrawingOptions { Camper = "Nose", Paper = a4 ? Paper.A4 : Paper.Letter }))
        {
            LayoutChecks.Readable(sheet);
            Assert.InRange(sheet.Labels.Length, 1, 160);
        }
    }
}
