using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Wain.Core.Drawing;
using Wain.Core.Geometry.Kernel;

namespace Wain.Reports.Pdf;

/// <summary>
/// Pictures as the pages of one PDF 1.7 document (ISO 32000-1). Written by hand because a sheet is lines and lettering in standard fonts: no fonts are embedded,
/// no stream is compressed (a compressor's bytes differ between machines), and the same pictures give the same bytes anywhere.
/// </summary>
public static class PdfWriter
{
    private const double PointsPerMm = 72 / 25.4;

    /// <param name="title">Of the document.</param>
    /// <param name="pages">In order, at least one; each page has its picture's size and a bookmark with its title.</param>
    /// <param name="source">A name for what the pages were made from, 32 hexadecimal digits: <see cref="IsOf"/> knows the document by it. Empty for none.</param>
    public static byte[] Write(string title, IReadOnlyList<Picture> pages, string source = "")
    {
        if (pages.Count == 0) throw new ArgumentException("A document has at least one page.", nameof(pages));
        // Numbers: 1 catalog, 2 page tree, 3 and 4 fonts, 5 outlines, 6 information; then page, content and bookmark of each.
        const int first = 7;
        int Page(int i) => first + 3 * i;
        var objects = new List<string>
        {
            // Viewers shrink pages to the printer's margins unless told not to, and a one-to-one template would then lie.
            "<</Type/Catalog/Pages 2 0 R/Outlines 5 0 R/Lang(en)/ViewerPreferences<</PrintScaling/None/DisplayDocTitle true>>>>",
            $"<</Type/Pages/Count {Whole(pages.Count)}/Kids[{string.Join(' ', pages.Select((_, i) => Whole(Page(i)) + " 0 R"))}]>>",
            "<</Type/Font/Subtype/Type1/BaseFont/Helvetica/Encoding/WinAnsiEncoding>>",
            "<</Type/Font/Subtype/Type1/BaseFont/Helvetica-Bold/Encoding/WinAnsiEncoding>>",
            $"<</Type/Outlines/Count {Whole(pages.Count)}/First {Whole(Page(0) + 2)} 0 R/Last {Whole(Page(pages.Count - 1) + 2)} 0 R>>",
            $"<</Title{Unicode(title)}>>",
        };
        for (int i = 0; i < pages.Count; i++)
        {
            string content = Content(pages[i]);
            objects.Add($"<</Type/Page/Parent 2 0 R/MediaBox[0 0 {Number(pages[i].Width * PointsPerMm)} {Number(pages[i].Height * PointsPerMm)}]"
                + $"/Resources<</Font<</F1 3 0 R/F2 4 0 R>>>>/Contents {Whole(Page(i) + 1)} 0 R>>");
            objects.Add($"<</Length {Whole(content.Length)}>>\nstream\n{content}\nendstream");
            string next = i + 1 < pages.Count ? $"/Next {Whole(Page(i + 1) + 2)} 0 R" : "";
            string previous = i > 0 ? $"/Prev {Whole(Page(i - 1) + 2)} 0 R" : "";
            objects.Add($"<</Title{Unicode(pages[i].Title)}/Parent 5 0 R/Dest[{Whole(Page(i))} 0 R/Fit]{previous}{next}>>");
        }
        return Assemble(objects, source);
    }

    /// <summary>Bodies to a file with its cross-reference table. Every string holds one character a byte (Latin-1), so lengths are offsets.</summary>
    private static byte[] Assemble(List<string> objects, string source)
    {
        var file = new StringBuilder("%PDF-1.7\n%\u00e2\u00e3\u00cf\u00d3\n");
        var offsets = new List<int>();
        for (int i = 0; i < objects.Count; i++)
        {
            offsets.Add(file.Length);
            file.Append($"{Whole(i + 1)} 0 obj\n{objects[i]}\nendobj\n");
        }
        // The identifier stands for the content, not for when or where it was written.
        string id = IdOf(Encoding.Latin1.GetBytes(file.ToString()));
        int table = file.Length;
        file.Append($"xref\n0 {Whole(objects.Count + 1)}\n0000000000 65535 f \n");
        foreach (int offset in offsets) file.Append(offset.ToString("D10", CultureInfo.InvariantCulture)).Append(" 00000 n \n");
        file.Append($"trailer\n<</Size {Whole(objects.Count + 1)}/Root 1 0 R/Info 6 0 R/ID[<{id}><{(source.Length == 0 ? id : source)}>]>>\nstartxref\n{Whole(table)}\n%%EOF\n");
        return Encoding.Latin1.GetBytes(file.ToString());
    }

    private static string IdOf(ReadOnlySpan<byte> content) => Convert.ToHexString(SHA256.HashData(content))[..32];

    /// <summary>True for a document of this writer that was made from this source and that nobody has changed since: it need not be made again.</summary>
    public static bool IsOf(ReadOnlySpan<byte> document, string source)
    {
        int table = document.LastIndexOf("xref\n0 "u8), ids = document.LastIndexOf("/ID[<"u8);
        if (table < 0 || ids < table || ids + 71 > document.Length) return false;
        var (id, from) = (Encoding.Latin1.GetString(document.Slice(ids + 5, 32)), Encoding.Latin1.GetString(document.Slice(ids + 39, 32)));
        return source.Length == 32 && from == source && id == IdOf(document[..table]);
    }

    /// <summary>The page's operators. One matrix turns points into mm, so that all that follows is as laid out.</summary>
    private static string Content(Picture page)
    {
        var content = new StringBuilder();
        content.Append($"{PointsPerMm.ToString("0.######", CultureInfo.InvariantCulture)} 0 0 {PointsPerMm.ToString("0.######", CultureInfo.InvariantCulture)} 0 0 cm 1 j\n");
        foreach (var mark in page.Marks) Append(content, mark);
        return content.ToString();
    }

    private static void Append(StringBuilder content, Mark mark)
    {
        switch (mark)
        {
            case PathMark path:
                AppendPath(content, path);
                break;
            case TextMark text:
                AppendText(content, text);
                break;
            case GroupMark group:
                if (group.Clip is { } box) content.Append($"q {Number(box.Left)} {Number(box.Bottom)} {Number(box.Width)} {Number(box.Height)} re W n\n");
                foreach (var inner in group.Marks) Append(content, inner);
                if (group.Clip is not null) content.Append("Q\n");
                break;
        }
    }

    private static void AppendPath(StringBuilder content, PathMark path)
    {
        if (path.Contours.IsEmpty || (path.Pen is null && path.Tone is null)) return;
        if (path.Tone is { } tone) content.Append($"{Number(tone)} g ");
        if (path.Pen is { } pen) content.Append($"{Number(pen.Width)} w [{string.Join(' ', pen.Dashes.Select(Number))}] 0 d ");
        foreach (var contour in path.Contours)
        {
            content.Append($"{At(contour.Start)} m ");
            foreach (var segment in contour.Segments)
            {
                if (segment.IsArc) AppendArc(content, segment);
                else content.Append($"{At(segment.To)} l ");
            }
            if (contour.Closed) content.Append("h ");
        }
        content.Append((path.Tone is null, path.Pen is null) switch { (true, _) => "S\n", (_, true) => "f*\n", _ => "B*\n" });
    }

    /// <summary>An arc as cubic curves of at most a quarter turn, which stray from the circle by less than 0.03 % of its radius.</summary>
    private static void AppendArc(StringBuilder content, Segment arc)
    {
        int count = Math.Max(1, (int)Math.Ceiling(Math.Abs(arc.Sweep) / (Math.PI / 2) - 1e-9));
        double handle = 4.0 / 3 * Math.Tan(Math.Abs(arc.Sweep) / count / 4) * arc.Radius;
        for (int i = 0; i < count; i++)
        {
            double from = (double)i / count, to = (i + 1.0) / count;
            content.Append($"{At(arc.At(from) + arc.Tangent(from) * handle)} {At(arc.At(to) - arc.Tangent(to) * handle)} {At(arc.At(to))} c ");
        }
    }

    private static void AppendText(StringBuilder content, TextMark text)
    {
        if (text.Text.Length == 0) return;
        double cos = Math.Cos(text.Angle), sin = Math.Sin(text.Angle);
        double shift = text.Anchor switch { Anchor.Start => 0, Anchor.Middle => -text.Width / 2, _ => -text.Width };
        var at = text.At + new Vec2(cos, sin) * shift;
        string paint = text.Hollow ? $"{Number(TextMark.HollowTone)} G {Number(TextMark.HollowWidth)} w [] 0 d 1 Tr" : "0 g";
        if (text.Hollow) content.Append("q ");
        content.Append($"BT {paint} /{(text.Bold ? "F2" : "F1")} {Number(text.Height / Lettering.CapShare)} Tf ");
        content.Append(text.Angle == 0 ? $"{At(at)} Td " : $"{Fine(cos)} {Fine(sin)} {Fine(-sin)} {Fine(cos)} {At(at)} Tm ");
        content.Append(Literal(text.Text)).Append(text.Hollow ? " Tj ET Q\n" : " Tj ET\n");
    }

    /// <summary>A string in WinAnsiEncoding; what it has no letter for becomes a question mark.</summary>
    private static string Literal(string text)
    {
        var literal = new StringBuilder("(");
        foreach (var rune in text.EnumerateRunes())
        {
            switch (rune.Value)
            {
                case '(' or ')' or '\\': literal.Append('\\').Append((char)rune.Value); break;
                case >= 32 and < 127 or >= 0xA0 and <= 0xFF: literal.Append((char)rune.Value); break;
                case '\u2018' or '\u2019': literal.Append('\''); break;
                case '\u201C' or '\u201D': literal.Append('"'); break;
                case '\u2010' or '\u2011' or '\u2012' or '\u2013' or '\u2014' or '\u2212': literal.Append('-'); break;
                case '\t' or '\n' or '\r': literal.Append(' '); break;
                default: literal.Append('?'); break;
            }
        }
        return literal.Append(')').ToString();
    }

    /// <summary>A text string for titles and bookmarks: UTF-16 in hexadecimal, which holds any character.</summary>
    private static string Unicode(string text) => $"<FEFF{Convert.ToHexString(Encoding.BigEndianUnicode.GetBytes(text))}>";

    private static string At(Vec2 p) => $"{Number(p.X)} {Number(p.Y)}";

    private static string Whole(int value) => value.ToString(CultureInfo.InvariantCulture);

    private static string Number(double value) => Svg.SvgWriter.Number(value);

    private static string Fine(double value) => Math.Round(value, 5) is var r && r == 0 ? "0" : r.ToString("0.#####", CultureInfo.InvariantCulture);
}
