using Wain.Core;
using Wain.Core.Drawing.Panels;
using Wain.Core.Text;

namespace Wain.Tests.Drawing.Panels;

/// <summary>What a builder cuts by stands on the sheet in full: thicknesses behind long names, where a splice's lap lies, and how far members are lapped under a recess. Sizes by hand.</summary>
public class SheetWordsTests
{
    private const string Text = """
        camper "Words" { lengths millimetres }
        sheet skin { thickness 9 mm called "9 mm tropical hardwood plywood with a smooth face on both sides"
            size 1220 mm by 2440 mm }
        stick batten { section 30 mm by 45 mm called "planed spruce, pine or fir batten of the better grade"
            length 3600 mm }
        board foam { thickness 30 mm
            size 600 mm by 1250 mm }
        stack wall { sheet skin
            core frame of batten flat, filled with foam
            sheet skin }
        panel side of wall { through (0 mm, 0 mm, 0 mm) along (-3000 mm, 0 mm, 0 mm) up (0 mm, 0 mm, 1200 mm)
            frame { studs every 500 mm }
            opening window { size 700 mm by 300 mm
                lower left at (800 mm, 500 mm)
                recessed 13 mm, margin 30 mm }
            splice across length { lap width 60 mm
                lap depth half } }

        """;

    private static readonly Lazy<Design> Wall = new(() => Compiler.Compile(new SourceText("words.wain", Text)).Design!);

    private static IReadOnlyList<string> Texts(Func<DrawingOptions, IEnumerable<LaidSheet>> sheets) => [.. sheets(new() { Camper = "Words", Metric = true }).SelectMany(s => s.Labels).Select(l => l.Text)];

    [Fact]
    public void ALongNameKeepsItsThickness()
    {
        var texts = Texts(o => PanelSheet.Outside(Wall.Value, Wall.Value.Structure.Panel("side")!, o));
        Assert.DoesNotContain(texts, t => t.EndsWith('\u2026'));
        string all = string.Join(' ', texts);
        Assert.Contains("9 mm tropical hardwood plywood with a smooth face on both sides 9", all, StringComparison.Ordinal);
        Assert.Contains("planed spruce, pine or fir batten of the better grade flat 30, foam", all, StringComparison.Ordinal);
    }

    [Fact]
    public void ASpliceSaysWhereItsLapLies() =>
        Assert.Contains("lap 60, its middle on the line", string.Join(' ', Texts(o => PanelSheet.Outside(Wall.Value, Wall.Value.Structure.Panel("side")!, o))), StringComparison.Ordinal);

    /// <summary>The recess reaches 30 mm past an opening 700 mm by 300 mm at (800 mm, 500 mm); the frame is drawn from inside, so from the other end of 3000 mm.</summary>
    [Fact]
    public void TheFrameSaysHowFarItsMembersAreLapped() =>
        Assert.Superset(new HashSet<string> { "470", "830", "1470", "2230" }, Texts(o => FrameSheet.Of(Wall.Value, Wall.Value.Structure.Panel("side")!, o)).ToHashSet());
}
