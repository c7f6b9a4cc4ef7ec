using System.Collections.Immutable;
using Wain.Core.Drawing;
using Wain.Core.Geometry.Kernel;

namespace Wain.Tests.Drawing;

public class SheetTests
{
    private static readonly TitleBlock Full = new()
    {
        Name = "Left wall, front part with a very long name that nobody would write but somebody will (invented)",
        PartMark = "LW-07-b",
        View = "seen from inside, face down",
        Weight = "23.4 lb [10.6 kg]",
        Revision = "14",
        ValuesHash = "9f3a77c01b2d44e1aa",
        Number = "113 of 120",
        Scale = 12,
        Units = "Dimensions in inches; in brackets millimetres.",
        Caution = "Wear a respirator when you sand glass cloth or cured epoxy, and follow the data sheet of what you use. Check the scale bar with a tape before you trust this print.",
    };

    public static IEnumerable<object[]> Papers =>
        from paper in (Paper[])[Paper.Letter, Paper.A4, Paper.Letter.Turned(), Paper.A4.Turned(), Paper.A3]
        from errors in (int[])[0, 1, 9]
        select new object[] { paper, errors };

    internal static IEnumerable<TextMark> Texts(IEnumerable<Mark> marks) => marks.SelectMany(m => m is GroupMark g ? Texts(g.Marks) : m is TextMark t ? [t] : []);

    private static void Readable(Picture picture)
    {
        var page = new Box(0, 0, picture.Width, picture.Height);
        var texts = Texts(picture.Marks).Where(t => !t.Hollow && t.Text.Length > 0).ToList();
        for (int i = 0; i < texts.Count; i++)
        {
            Assert.True(texts[i].Height >= 2.5, $"'{texts[i].Text}' is {texts[i].Height} mm high");
            Assert.True(page.Contains(texts[i].Bounds), $"'{texts[i].Text}' {texts[i].Bounds} leaves the page");
            for (int k = i + 1; k < texts.Count; k++) Assert.False(texts[i].Bounds.Grow(-0.05).Overlaps(texts[k].Bounds.Grow(-0.05)), $"'{texts[i].Text}' over '{texts[k].Text}'");
        }
    }

    [Theory]
    [MemberData(nameof(Papers))]
    public void TheFrameIsReadable(Paper paper, int errors)
    {
        var title = Full with { DraftErrors = [.. Enumerable.Range(0, errors).Select(i => $"WN4003: opening window_{i} is 3/8 in too close to the edge (left_wall.wain:{i}:3), which is a long line that may not fit on a narrow page at all")] };
        var sheet = new Sheet(paper, title, []);
        Readable(sheet.ToPicture());
        var texts = Texts(sheet.ToPicture().Marks).Select(t => t.Text).ToList();
        Assert.Equal(errors > 0, texts.Contains("DRAFT"));
        Assert.Contains("9f3a77c01b2d", texts);
        Assert.Contains("LW-07-b", texts);
        Assert.Contains("1:12", texts);
        var area = SheetFrame.Area(paper, title);
        Assert.True(area.Width > 150 && area.Height > 90, $"{area}");
        foreach (var text in Texts(sheet.ToPicture().Marks).Where(t => !t.Hollow)) Assert.False(text.Bounds.Overlaps(area), text.Text);
    }

    /// <summary>At 1:12, 12 in of the real thing are 25.4 mm of paper, and 400 mm are 33.33 mm.</summary>
    [Fact]
    public void ScaleBarsTellTheTruth()
    {
        var marks = new Sheet(Paper.Letter, Full, []).ToPicture().Marks;
        var label = Texts(marks).Single(t => t.Text == "400 mm");
        var parts = marks.OfType<PathMark>().Where(m => m.Tone is not null && m.Bounds.Overlaps(new(0, label.Bounds.Bottom, 100, label.Bounds.Top))).Select(m => m.Bounds).ToList();
        Assert.Equal(400.0 / 12, parts.Max(b => b.Right) - parts.Min(b => b.Left), 6);
    }

    private static readonly Template Wide = new("Scribe", "W-07", "Outside face up.", [new PathMark(Contour.Polygon(new(0, 0), new(900, 0), new(900, 400), new(0, 400)), Pen.Outline)]);

    /// <summary>Laid side by side by their labels, the pages' windows give every place of the drawing at full size, each neighbour sharing 15 mm.</summary>
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void TemplatePagesCoverTheDrawing(bool a4)
    {
        var paper = a4 ? Paper.A4 : Paper.Letter;
        var pages = Templates.Tile(Wide, paper);
        Assert.All(pages, Readable);
        Assert.All(pages, p => Assert.Contains("100 mm", Texts(p.Marks).Select(t => t.Text)));
        var windows = pages.Skip(1).Select(p => p.Marks.OfType<GroupMark>().Single()).Select(g =>
        {
            // Where the drawing's corner lies on this page tells which part of the drawing the window shows.
            var corner = g.Marks.OfType<PathMark>().Single().Contours[0].Start;
            return new Box(g.Clip!.Value.Left - corner.X, g.Clip.Value.Bottom - corner.Y, g.Clip.Value.Right - corner.X, g.Clip.Value.Top - corner.Y);
        }).ToList();
        foreach (var segment in ((PathMark)Wide.Marks[0]).Contours[0].Segments)
        {
            for (double t = 0; t <= 1; t += 0.01) Assert.Contains(windows, w => w.Contains(segment.At(t)));
        }
        var columns = windows.Select(w => Math.Round(w.Left, 6)).Distinct().Order().ToList();
        Assert.Equal(windows[0].Width - 15, columns[1] - columns[0], 6);
        Assert.Equal(pages.Skip(1).Select(p => p.Title).Distinct().Count(), windows.Count);
    }

    [Fact]
    public void ASmallTemplateIsOnePageWithATrueBar()
    {
        var page = Assert.Single(Templates.Tile(Wide with { Marks = [new PathMark(Contour.Circle(default, 40), Pen.Outline)] }, Paper.A4));
        var bars = page.Marks.OfType<PathMark>().Where(m => m.Tone is not null).Select(m => m.Bounds).GroupBy(b => b.Bottom).Select(g => g.Max(b => b.Right) - g.Min(b => b.Left)).Order().ToList();
        Assert.Equal(100, bars[0], 9);
        Assert.Equal(101.6, bars[1], 9);
        Assert.Equal(80, page.Marks.OfType<GroupMark>().Single().Marks[0].Bounds.Width, 9);
    }

    /// <summary>A page in the middle of a ring shows nothing and is not printed.</summary>
    [Fact]
    public void EmptyPagesAreLeftOut()
    {
        var ring = Wide with { Marks = [new PathMark(Contour.Circle(default, 600), Pen.Outline)] };
        var labels = Templates.Tile(ring, Paper.Letter).Select(p => p.Title).ToList();
        Assert.True(labels.Count > 10);
        Assert.DoesNotContain("W-07 Scribe D3", labels);
    }

    public static IEnumerable<object[]> Plots =>
    [
        [new LinePlot("Lift force over travel", "Travel, mm", "Force, N",
            [new("front", [(0, 600), (350, 500), (700, 433)]), new("rear", [(0, 640), (350, double.NaN), (700, 430)], Dots: true), new("springs", [(0, 520), (300, 470), (700, 431)], Stepped: true)])
            { Limits = [new("one person", 400), new("two persons", 432)] }.Draw(180, 100)],
        [new LinePlot("Through a wall", "Depth, mm", "Temperature, \u00B0C", [new("plain", [(0, -10), (29, 17)])])
            { Bands = [new("glass", 0, 0.5), new("skin", 0.5, 1), new("foam", 1, 28), new("skin", 28, 28.5), new("cloth", 28.5, 29)] }.Draw(120, 90)],
        [new LinePlot("One point", "x", "y", [new("only", [(3, 3)])]).Draw(80, 60)],
        [new LinePlot("Nothing", "x", "y", []).Draw(80, 60)],
        [new BarPlot("Weight", "Weight, kg", [.. Enumerable.Range(0, 25).Select(i => new PlotBar($"assembly_{i}", i * 7 - 20, $"{i * 7 - 20} kg"))]).Draw(150)],
        [new BarPlot("Zero", "Weight, kg", [new("a", 0, "0 kg")]).Draw(100)],
        [new TableDrawing("Sweep", [new("Height, in", true), new("Findings")], [["70", "headroom under 76 in"], ["71", ""]]).Draw()],
    ];

    [Theory]
    [MemberData(nameof(Plots))]
    public void PlotsAreReadable(Picture picture) => Readable(picture);

    /// <summary>Heckbert's rule, Graphics Gems (from memory): steps of 1, 2 or 5 times a power of ten that hold the data.</summary>
    [Theory]
    [InlineData(0, 97, 6, 0, 100, 20)]
    [InlineData(-10, 17.5, 6, -10, 20, 5)]
    [InlineData(0.012, 0.019, 6, 0.012, 0.02, 0.002)]
    [InlineData(5, 5, 5, 0, 10, 2)]
    public void Axes(double low, double high, int ticks, double first, double last, double step)
    {
        var axis = PlotAxis.Of([low, high], ticks);
        Assert.Equal(first, axis.Low, 9);
        Assert.Equal(last, axis.High, 9);
        Assert.Equal(step, axis.Step, 9);
    }

    [Fact]
    public void TickTextsHaveTheStepsDecimals()
    {
        Assert.Equal(["0.012", "0.014", "0.016", "0.018", "0.020"], PlotAxis.Of([0.012, 0.019], 6) is var axis ? axis.Ticks.Select(axis.Text) : []);
        Assert.Equal("20", new PlotAxis(0, 100, 20).Text(20));
    }

    [Fact]
    public void TablesAreCutWithTheirHeads()
    {
        var rows = Enumerable.Range(0, 50).Select(i => ImmutableArray.Create($"{i}")).ToImmutableArray();
        var table = new TableDrawing("Members", [new("No.", true)], rows);
        var pages = table.Pages(100).ToList();
        Assert.All(pages, p => Assert.True(p.Height <= 100));
        Assert.Equal(rows, pages.SelectMany(p => p.Rows));
        Assert.True(pages.Count > 1);
    }
}
