using Wain.Core;
using Wain.Core.Drawing;
using Wain.Core.Drawing.Panels;
using Wain.Core.Text;

namespace Wain.Tests.Drawing.Panels;

/// <summary>A section shows a screw as it is driven: from the side that the spec says, through what it passes, into what it ends in.</summary>
public class ScrewSectionTests
{
    private static string Text(string joint) => $$"""
        camper "Screws" { lengths millimetres }
        sheet ply { thickness 6 mm
            size 1250 mm by 2500 mm }
        stick batten { section 30 mm by 45 mm
            length 3000 mm }
        board foam { thickness 30 mm
            size 600 mm by 1250 mm }
        screw long { diameter 5 mm
            length 70 mm }
        stack wall { sheet ply
            core frame of batten flat, filled with foam
            sheet ply }
        panel floor of wall { through (0 mm, 400 mm, 0 mm) along (0 mm, -400 mm, 0 mm) up (900 mm, 400 mm, 0 mm)
            outside up
            frame { studs count 1 } }
        panel side of wall { spans from (900 mm, 400 mm) to (0 mm, 400 mm), standing on 0 mm, up to 600 mm
            frame { studs count 1 } }
        joint {{joint}}

        """;

    /// <summary>Head and point of the only screw, on paper, mm of the part, upwards.</summary>
    private static (double Head, double Point) Screw(string joint)
    {
        var design = Compiler.Compile(new SourceText("screws.wain", Text(joint))).Design!;
        var sheet = JointSection.Of(design, JointTypes.Of(design.Structure).Single(), new() { Camper = "Screws", Metric = true }).First().Sheet;
        var outline = sheet.Marks.OfType<PathMark>().Where(m => m.Contours is [{ Closed: true, Segments.Length: 7 }] && m.Pen == new Pen(LineType.Continuous, 0.25)).Select(m => m.Contours[0]).Single();
        double scale = sheet.Title.Scale!.Value;
        return ((outline.Segments[0].From.Y + outline.Segments[6].From.Y) / 2 * scale, outline.Segments[3].From.Y * scale);
    }

    [Theory]
    [InlineData("side.bottom to floor.outside { butt\nscrews long every 150 mm, driven from below }", 1)]
    [InlineData("side.bottom to floor.outside { butt\nscrews long every 150 mm, driven from above }", -1)]
    [InlineData("floor.outside to side.bottom { butt\nscrews long every 150 mm, driven from above }", -1)]
    public void AScrewPointsTheWayItIsDriven(string joint, int up)
    {
        var (head, point) = Screw(joint);
        // Down from above, up from below, by its length.
        Assert.Equal(up * 70, point - head, 3);
    }
}
