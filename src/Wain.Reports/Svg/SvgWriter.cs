using System.Globalization;
using System.Text;
using Wain.Core.Drawing;

namespace Wain.Reports.Svg;

/// <summary>Pictures as SVG 1.1: text stays text, no scripts, no links, the same bytes for the same picture on any machine.</summary>
public static class SvgWriter
{
    // Free faces of the same widths, and one of nearly the same, come before whatever a viewer takes for sans-serif: not every viewer minds the width that each text is given.
    private const string Fonts = "Helvetica, Arial, Liberation Sans, Arimo, Nimbus Sans, TeX Gyre Heros, FreeSans, DejaVu Sans Condensed, sans-serif";

    /// <summary>A whole document in UTF-8 without a byte order mark, sized in mm.</summary>
    public static byte[] Write(Picture picture) => Encoding.UTF8.GetBytes(Text(picture));

    public static string Text(Picture picture)
    {
        var svg = new StringBuilder();
        string width = Number(picture.Width), height = Number(picture.Height);
        svg.Append($"<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}mm\" height=\"{height}mm\" viewBox=\"0 0 {width} {height}\" role=\"img\" aria-labelledby=\"title desc\" font-family=\"{Fonts}\">\n");
        svg.Append($"<title id=\"title\">{Escape(picture.Title)}</title>\n<desc id=\"desc\">{Escape(picture.Description)}</desc>\n");
        svg.Append($"<rect width=\"{width}\" height=\"{height}\" fill=\"#fff\"/>\n");
        int clips = 0;
        foreach (var mark in picture.Marks) Append(svg, mark, picture.Height, ref clips);
        return svg.Append("</svg>\n").ToString();
    }

    private static void Append(StringBuilder svg, Mark mark, double top, ref int clips)
    {
        switch (mark)
        {
            case PathMark path:
                AppendPath(svg, path, top);
                break;
            case TextMark text:
                AppendText(svg, text, top);
                break;
            case GroupMark group:
                string clip = "";
                if (group.Clip is { } box)
                {
                    string id = "clip" + (++clips).ToString(CultureInfo.InvariantCulture);
                    svg.Append($"<clipPath id=\"{id}\"><rect x=\"{Number(box.Left)}\" y=\"{Number(top - box.Top)}\" width=\"{Number(box.Width)}\" height=\"{Number(box.Height)}\"/></clipPath>\n");
                    clip = $" clip-path=\"url(#{id})\"";
                }
                svg.Append($"<g{clip}>\n");
                if (group.Title is { } title) svg.Append($"<title>{Escape(title)}</title>\n");
                foreach (var inner in group.Marks) Append(svg, inner, top, ref clips);
                svg.Append("</g>\n");
                break;
        }
    }

    private static void AppendPath(StringBuilder svg, PathMark path, double top)
    {
        if (path.Contours.IsEmpty || (path.Pen is null && path.Tone is null)) return;
        svg.Append("<path d=\"");
        foreach (var contour in path.Contours)
        {
            svg.Append($"M{Number(contour.Start.X)} {Number(top - contour.Start.Y)}");
            foreach (var segment in contour.Segments)
            {
                string to = $"{Number(segment.To.X)} {Number(top - segment.To.Y)}";
                if (segment.IsArc)
                {
                    string radius = Number(segment.Radius);
                    // The page's y runs down, so a turn to the left is SVG's sweep flag 0.
                    svg.Append($"A{radius} {radius} 0 {(Math.Abs(segment.Sweep) > Math.PI ? 1 : 0)} {(segment.Sweep > 0 ? 0 : 1)} {to}");
                }
                else
                {
                    svg.Append('L').Append(to);
                }
            }
            if (contour.Closed) svg.Append('Z');
        }
        svg.Append($"\" fill=\"{(path.Tone is { } tone ? Grey(tone) : "none")}\"");
        if (path.Tone is not null && path.Contours.Length > 1) svg.Append(" fill-rule=\"evenodd\"");
        if (path.Pen is { } pen)
        {
            svg.Append($" stroke=\"#000\" stroke-width=\"{Number(pen.Width)}\" stroke-linejoin=\"round\"");
            if (!pen.Dashes.IsEmpty) svg.Append($" stroke-dasharray=\"{string.Join(' ', pen.Dashes.Select(Number))}\"");
        }
        svg.Append("/>\n");
    }

    private static void AppendText(StringBuilder svg, TextMark text, double top)
    {
        if (text.Text.Length == 0) return;
        string x = Number(text.At.X), y = Number(top - text.At.Y);
        svg.Append($"<text x=\"{x}\" y=\"{y}\" font-size=\"{Number(text.Height / Lettering.CapShare)}\"");
        if (text.Anchor != Anchor.Start) svg.Append(text.Anchor == Anchor.Middle ? " text-anchor=\"middle\"" : " text-anchor=\"end\"");
        if (text.Bold) svg.Append(" font-weight=\"bold\"");
        if (text.Hollow) svg.Append($" fill=\"none\" stroke=\"{Grey(TextMark.HollowTone)}\" stroke-width=\"{Number(TextMark.HollowWidth)}\"");
        if (text.Angle != 0) svg.Append($" transform=\"rotate({Number(-text.Angle * 180 / Math.PI)} {x} {y})\"");
        // Whatever face the viewer has, the text takes the width that the layout left for it.
        svg.Append($" textLength=\"{Number(text.Width)}\" lengthAdjust=\"spacingAndGlyphs\">{Escape(text.Text)}</text>\n");
    }

    private static string Grey(double tone)
    {
        int level = (int)Math.Round(Math.Clamp(tone, 0, 1) * 255, MidpointRounding.AwayFromZero);
        return level switch { 0 => "#000", 255 => "#fff", _ => $"#{level:x2}{level:x2}{level:x2}" };
    }

    /// <summary>To 0.01 mm: finer than any printer, and coarse enough that the last bits of arithmetic never show. They would at a half: so what is within a millionth of one is one.</summary>
    internal static string Number(double value)
    {
        double rounded = Math.Round(Math.Round(value, 6), 2, MidpointRounding.AwayFromZero);
        if (!double.IsFinite(rounded)) throw new ArgumentOutOfRangeException(nameof(value), value, "A coordinate is a finite number.");
        return rounded == 0 ? "0" : rounded.ToString("0.##", CultureInfo.InvariantCulture);
    }

    /// <summary>Escapes markup; characters that XML 1.0 forbids become U+FFFD.</summary>
    private static string Escape(string text)
    {
        var escaped = new StringBuilder(text.Length);
        foreach (var rune in text.EnumerateRunes())
        {
            switch (rune.Value)
            {
                case '&': escaped.Append("&amp;"); break;
                case '<': escaped.Append("&lt;"); break;
                case '>': escaped.Append("&gt;"); break;
                case '"': escaped.Append("&quot;"); break;
                case '\t' or '\n' or '\r': escaped.Append(' '); break;
                case < 0x20 or 0xFFFE or 0xFFFF: escaped.Append('\uFFFD'); break;
                default: escaped.Append(rune.ToString()); break;
            }
        }
        return escaped.ToString();
    }
}
