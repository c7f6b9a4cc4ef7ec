using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using Wain.Core.Drawing;
using Wain.Reports.Pdf;
using Wain.Reports.Svg;

namespace Wain.Tests.Drawing;

public partial class WriterTests
{
    private static Picture Sample(string text = "a < b & \"c\" <script>") => new("Wall & door", "Two <views>", 100, 50,
    [
        new PathMark([Contour.Circle(new(20, 20), 10), Contour.Rectangle(new(15, 15, 25, 25))], Pen.Hidden, 1),
        new GroupMark("part", [new TextMark(new(10, 5), text, Angle: Math.PI / 2, Anchor: Anchor.Middle)], new Box(0, 0, 50, 50)),
        new PathMark(Contour.Arc(new(70, 20), 10, 0, Math.PI / 3), Pen.Centre),
    ]);

    [Fact]
    public void SvgIsWellFormedAndEscaped()
    {
        var root = XDocument.Parse(SvgWriter.Text(Sample())).Root!;
        Assert.Equal("100mm", root.Attribute("width")!.Value);
        Assert.Equal("Wall & door", root.Elements().First().Value);
        Assert.DoesNotContain(root.Descendants(), e => e.Name.LocalName == "script");
        Assert.Contains(root.Descendants(), e => e.Name.LocalName == "text" && e.Value == "a < b & \"c\" <script>");
    }

    /// <summary>Every text says how wide it is meant to be, and faces of that width are named before any other.</summary>
    [Fact]
    public void SvgTextsKeepTheirWidth()
    {
        var root = XDocument.Parse(SvgWriter.Text(Sample())).Root!;
        var texts = root.Descendants().Where(e => e.Name.LocalName == "text").ToList();
        Assert.NotEmpty(texts);
        Assert.All(texts, t => Assert.Equal("spacingAndGlyphs", t.Attribute("lengthAdjust")!.Value));
        var drawn = Sample().Marks.SelectMany(m => m is GroupMark g ? g.Marks.AsEnumerable() : [m]).OfType<TextMark>().ToList();
        Assert.Equal(drawn.Select(t => Math.Round(t.Width, 2)), texts.Select(t => double.Parse(t.Attribute("textLength")!.Value, CultureInfo.InvariantCulture)));
        Assert.EndsWith("DejaVu Sans Condensed, sans-serif", root.Attribute("font-family")!.Value, StringComparison.Ordinal);
    }

    [Fact]
    public void SvgPutsUpAtTheTop()
    {
        // An arc of 60 degrees from (80, 20) to (75, 28.66) in axes with y up, on a page 50 high.
        Assert.Contains("M80 30A10 10 0 0 0 75 21.34", SvgWriter.Text(Sample()));
    }

    [Fact]
    public void ControlCharactersBecomeReplacementCharacters() => Assert.Contains("x\uFFFDy", SvgWriter.Text(Sample("x\u0001y")));

    [Fact]
    public void SameBytesInAnyCulture()
    {
        var before = CultureInfo.CurrentCulture;
        byte[] svg = SvgWriter.Write(Sample()), pdf = PdfWriter.Write("t", [Sample()]);
        try
        {
            var comma = (CultureInfo)CultureInfo.InvariantCulture.Clone();
            comma.NumberFormat.NumberDecimalSeparator = ",";
            comma.NumberFormat.NegativeSign = "~";
            CultureInfo.CurrentCulture = comma;
            Assert.Equal(svg, SvgWriter.Write(Sample()));
            Assert.Equal(pdf, PdfWriter.Write("t", [Sample()]));
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    /// <summary>ISO 32000-1, 7.5: every entry of the cross-reference table is 20 bytes and points at its object; a stream's Length is its bytes.</summary>
    [Fact]
    public void PdfTablesPointWhereTheySay()
    {
        string pdf = Encoding.Latin1.GetString(PdfWriter.Write("Demo \u00D8 \u2014", [Sample(), Sample("(brackets) \\ \u00E9")]));
        Assert.StartsWith("%PDF-1.7\n", pdf);
        int table = int.Parse(StartXref().Match(pdf).Groups[1].Value, CultureInfo.InvariantCulture);
        Assert.Equal("xref", pdf.Substring(table, 4));
        var entries = Entry().Matches(pdf[table..]).ToList();
        Assert.Equal(6 + 3 * 2, entries.Count);
        for (int i = 0; i < entries.Count; i++)
        {
            int offset = int.Parse(entries[i].Groups[1].Value, CultureInfo.InvariantCulture);
            Assert.StartsWith($"{i + 1} 0 obj\n", pdf[offset..]);
        }
        foreach (Match stream in Stream().Matches(pdf)) Assert.Equal(stream.Groups[2].Length, int.Parse(stream.Groups[1].Value, CultureInfo.InvariantCulture));
        Assert.Contains(@"(\(brackets\) \\ " + "\u00E9) Tj", pdf);
        Assert.Contains("/PrintScaling/None", pdf);
        Assert.DoesNotContain("/CreationDate", pdf);
    }

    /// <summary>100 mm by 50 mm is 283.46 by 141.73 points of 1/72 in.</summary>
    /// <summary>A document is known by what it was made from, and no longer once a byte of it is changed.</summary>
    [Fact]
    public void ADocumentIsKnownByItsSource()
    {
        string source = new('A', 32), other = new('B', 32);
        byte[] pdf = PdfWriter.Write("t", [Sample()], source);
        Assert.True(PdfWriter.IsOf(pdf, source));
        Assert.False(PdfWriter.IsOf(pdf, other));
        Assert.False(PdfWriter.IsOf(pdf, ""));
        Assert.False(PdfWriter.IsOf(PdfWriter.Write("t", [Sample()]), source));
        Assert.False(PdfWriter.IsOf([], source));
        for (int at = 0; at < pdf.Length / 2; at += 97)
        {
            byte[] changed = [.. pdf];
            changed[at] ^= 1;
            Assert.False(PdfWriter.IsOf(changed, source));
        }
    }

    [Fact]
    public void PagesHaveTheirSize() => Assert.Contains("/MediaBox[0 0 283.46 141.73]", Encoding.Latin1.GetString(PdfWriter.Write("t", [Sample()])));

    [GeneratedRegex(@"startxref\n(\d+)\n%%EOF")]
    private static partial Regex StartXref();

    [GeneratedRegex(@"(\d{10}) 00000 n \n")]
    private static partial Regex Entry();

    [GeneratedRegex(@"<</Length (\d+)>>\nstream\n(.*?)\nendstream", RegexOptions.Singleline)]
    private static partial Regex Stream();
}
