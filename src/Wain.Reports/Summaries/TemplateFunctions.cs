using System.Globalization;
using System.Text;
using Scriban.Runtime;

namespace Wain.Reports.Summaries;

/// <summary>The functions that summaries have beside Scriban's own, under <c>show</c>.</summary>
public static class TemplateFunctions
{
    internal static ScriptObject All()
    {
        var all = new ScriptObject();
        // An empty cell of a table stays empty, and a text stays itself: a template need not ask cell by cell.
        all.Import("decimals", (object? value, int places) => Number(value) is { } number ? Decimals(number, places) : value?.ToString() ?? "");
        all.Import("fraction", (object? value, int denominator) => Number(value) is { } number ? Fraction(number, denominator) : value?.ToString() ?? "");
        all.Import("markdown", (string? text) => Markdown(text));
        all.IsReadOnly = true;
        return all;
    }

    private static double? Number(object? value) => value switch { double d => d, int i => i, long l => l, float f => f, decimal m => (double)m, _ => null };

    /// <summary><c>show.decimals 12345.678 2</c>: 12,345.68. Halves go away from zero.</summary>
    public static string Decimals(double value, int places)
    {
        places = Math.Clamp(places, 0, 12);
        double rounded = Math.Abs(value) < 1e15 ? (double)Math.Round((decimal)value, places, MidpointRounding.AwayFromZero) : value;
        return (rounded == 0 ? 0 : rounded).ToString("#,0." + new string('0', places), CultureInfo.InvariantCulture);
    }

    /// <summary><c>show.fraction 14.5 16</c>: 14 1/2. To the nearest part of the denominator, halves up, in lowest terms, as on a tape measure.</summary>
    public static string Fraction(double value, int denominator)
    {
        denominator = Math.Clamp(denominator, 1, 1024);
        if (!(Math.Abs(value) < 1e12)) return value.ToString("R", CultureInfo.InvariantCulture);
        // The 9th decimal is taken as noise, so that a value a last bit below a half goes up like the half.
        long parts = (long)Math.Floor(Math.Round(value * denominator, 9) + 0.5);
        string sign = parts < 0 ? "-" : "";
        parts = Math.Abs(parts);
        long whole = parts / denominator, rest = parts % denominator;
        if (rest == 0) return sign + whole.ToString(CultureInfo.InvariantCulture);
        long divisor = Divisor(rest, denominator);
        string fraction = string.Create(CultureInfo.InvariantCulture, $"{rest / divisor}/{denominator / divisor}");
        return sign + (whole == 0 ? fraction : string.Create(CultureInfo.InvariantCulture, $"{whole} {fraction}"));
    }

    private static long Divisor(long a, long b) => b == 0 ? a : Divisor(b, a % b);

    /// <summary>A text that stands in Markdown, in a table's cell too, as itself: CommonMark's ASCII punctuation escaped where it could mean something, line ends as blanks.</summary>
    public static string Markdown(string? text)
    {
        if (text is null) return "";
        var escaped = new StringBuilder(text.Length);
        foreach (char c in text.ReplaceLineEndings(" "))
        {
            if (c is '\\' or '`' or '*' or '_' or '[' or ']' or '<' or '>' or '|' or '#' or '&' or '~' or '!') escaped.Append('\\');
            escaped.Append(c);
        }
        return escaped.ToString();
    }
}
