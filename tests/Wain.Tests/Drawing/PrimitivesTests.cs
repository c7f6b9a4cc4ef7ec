using Wain.Core.Drawing;
using Wain.Core.Geometry.Kernel;

namespace Wain.Tests.Drawing;

public class PrimitivesTests
{
    /// <summary>Advance widths as published in the metrics files of the metric-compatible free face of PDF's standard sans serif: at 1000 units, W 944, i 222, 0 556, space 278.</summary>
    [Theory]
    [InlineData("W", false, 944)]
    [InlineData("i", false, 222)]
    [InlineData("0", false, 556)]
    [InlineData(" ", false, 278)]
    [InlineData("1/2 in", false, 556 + 278 + 556 + 278 + 222 + 556)]
    [InlineData("45\u00B0", false, 1112 + 400)]
    [InlineData("m", true, 889)]
    [InlineData("\u00E9", false, 556)]
    [InlineData("\u00D8", false, 778)]
    public void Widths(string text, bool bold, int units) => Assert.Equal(units / 1000.0, Lettering.Width(text, Lettering.CapShare, bold), 9);

    [Fact]
    public void WrappedLinesFit()
    {
        const string text = "Check the bar with a tape before you trust this print, andaverylongwordthatnobodycanbreakatablank too.";
        var lines = Lettering.Wrap(text, 2.5, 30);
        Assert.All(lines, l => Assert.True(Lettering.Width(l, 2.5) <= 30, l));
        Assert.Equal(text.Replace(" ", ""), string.Concat(lines).Replace(" ", ""));
        Assert.True(Lettering.Width(Lettering.Shorten(text, 2.5, 30), 2.5) <= 30);
    }

    /// <summary>ISO 128-2: dash 12, gap 3, long dash 24, dot at most half of the line's width, in widths of the line.</summary>
    [Fact]
    public void Dashes()
    {
        Assert.Empty(Pen.Outline.Dashes.ToArray());
        Assert.Equal(new double[] { 3, 0.75 }, Pen.Hidden.Dashes.ToArray());
        Assert.Equal(new double[] { 12, 1.5, 0.25, 1.5 }, Pen.CuttingPlane.Dashes.ToArray());
        Assert.Equal(6, Pen.Alternate.Dashes.Length);
    }

    /// <summary>A quarter circle's chords stay within the tolerance of its radius; its box is the circle's.</summary>
    [Fact]
    public void Arcs()
    {
        var circle = Contour.Circle(new(10, 20), 5);
        Assert.All(circle.Flatten(0.01), p => Assert.Equal(5, (p - new Vec2(10, 20)).Length, 9));
        var points = circle.Flatten(0.01);
        Assert.All(points.Zip(points.Skip(1)), s => Assert.InRange((((s.First + s.Second) * 0.5) - new Vec2(10, 20)).Length, 4.99 - 1e-9, 5));
        var arc = Contour.Arc(default, 2, 0, Math.PI / 2);
        var mirrored = arc.Map(new View(1, default, Mirrored: true));
        Assert.All(mirrored.Flatten(), p => Assert.Equal(2, p.Length, 9));
        Assert.All(mirrored.Flatten(), p => Assert.True(p.X <= 1e-9 && p.Y >= -1e-9));
    }

    [Theory]
    [InlineData(1, 1)]
    [InlineData(9.2, 10)]
    [InlineData(13, 15)]
    [InlineData(101, 200)]
    public void ScaleSteps(double ratio, double scale) => Assert.Equal(scale, Scales.AtLeast(ratio));

    /// <summary>Total length of hatching times spacing is the area it covers, holes left out: 40 x 30 less 20 x 10.</summary>
    [Theory]
    [InlineData(0.25)]
    [InlineData(0.75)]
    [InlineData(0.1)]
    public void HatchingCoversTheArea(double turn)
    {
        var hatch = Hatching.Lines([Contour.Rectangle(new(0, 0, 40, 30)), Contour.Rectangle(new(10, 10, 30, 20))], turn * Math.PI, 0.02);
        Assert.Equal(1000, hatch.Contours.Sum(c => (c.Segments[0].To - c.Start).Length) * 0.02, 0);
    }

    /// <summary>What a debugger or a failed check prints of the kernel's types ends.</summary>
    [Fact]
    public void GeometryPrints()
    {
        Assert.Equal("(1.5, 2)", new Vec2(1.5, 2).ToString());
        Assert.Equal("(1, 2, 3)", new Vec3(1, 2, 3).ToString());
        Assert.Equal("(0, 0) to (1, 0), sweep 0", new Segment(default, new(1, 0)).ToString());
        Assert.StartsWith("(0, 0) to", Outline.Rectangle(default, new(1, 1)).ToString());
        Assert.StartsWith("at", new Frame(default, Vec3.UnitX, Vec3.UnitY).ToString());
        Assert.StartsWith("normal", new Plane(Vec3.UnitZ, 1).ToString());
    }
}
