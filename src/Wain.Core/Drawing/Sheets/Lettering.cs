using System.Text;

namespace Wain.Core.Drawing;

/// <summary>Measures text in the sans-serif face of PDF's standard fonts (Helvetica), so that layout is decided before any writer runs.</summary>
public static class Lettering
{
    /// <summary>Height of the capitals as a share of the font size.</summary>
    public const double CapShare = 0.718;

    /// <summary>Depth of descenders as a share of the capitals' height (207 of 718 units).</summary>
    public const double Descent = 207.0 / 718;

    /// <summary>Base line to base line as a share of the capitals' height.</summary>
    public const double Leading = 1.6;

    // Advance widths in 1/1000 of the font size, characters 32 to 126: the face's published metrics.
    private static readonly short[] Regular =
    [
        278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278,
        556, 556, 556, 556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556,
        1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833, 722, 778,
        667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469, 556,
        333, 556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556,
        556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584,
    ];

    private static readonly short[] BoldFace =
    [
        278, 333, 474, 556, 556, 889, 722, 238, 333, 333, 389, 584, 278, 333, 278, 278,
        556, 556, 556, 556, 556, 556, 556, 556, 556, 556, 333, 333, 584, 584, 584, 611,
        975, 722, 722, 722, 722, 667, 611, 778, 722, 278, 556, 722, 611, 833, 722, 778,
        667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 333, 278, 333, 584, 556,
        333, 556, 611, 556, 611, 556, 333, 611, 611, 278, 278, 556, 278, 889, 611, 611,
        611, 611, 389, 556, 333, 611, 556, 778, 556, 556, 500, 389, 280, 389, 584,
    ];

    // U+00C0 to U+00FF; '-' where the letter is no accented one.
    private const string Unaccented = "AAAAAA-CEEEEIIII-NOOOOO-OUUUUY--aaaaaa-ceeeeiiii-nooooo-ouuuuy-y";

    /// <summary>Width in mm of a text whose capitals are <paramref name="height"/> mm high.</summary>
    public static double Width(string text, double height, bool bold = false) => WidthOf(Units(text, bold), height);

    private static double WidthOf(int units, double height) => units / 1000.0 * height / CapShare;

    private static int Units(string text, bool bold)
    {
        int units = 0;
        foreach (var rune in text.EnumerateRunes()) units += Units(rune, bold);
        return units;
    }

    private static int Units(Rune rune, bool bold)
    {
        int code = rune.Value;
        if (code is >= 32 and < 127) return (bold ? BoldFace : Regular)[code - 32];
        if (code is '\u00A0') return 278;
        if (code is '\u00B0') return 400;
        if (code is '\u00D7' or '\u00B1' or '\u00F7') return 584;
        // A letter with an accent is as wide as the letter; only the i, which gets the room of its dotless form, is not.
        if (code is >= 0xC0 and <= 0xFF && Unaccented[code - 0xC0] is var letter and not '-')
        {
            return letter == 'i' ? 278 : (bold ? BoldFace : Regular)[letter - 32];
        }
        // The rest is taken as a full em: no letter of this face is wider, so layout errs to the roomy side.
        return code < 32 ? 0 : 1015;
    }

    /// <summary>Broken at blanks into lines no wider than <paramref name="width"/>; a word that is wider alone is cut.</summary>
    public static IReadOnlyList<string> Wrap(string text, double height, double width, bool bold = false)
    {
        var lines = new List<string>();
        string line = "";
        int soFar = 0, blank = Units(" ", bold);
        foreach (string word in Measures(text))
        {
            int own = Units(word, bold), longer = line.Length == 0 ? own : soFar + blank + own;
            if (WidthOf(longer, height) <= width)
            {
                line = line.Length == 0 ? word : line + " " + word;
                soFar = longer;
                continue;
            }
            if (line.Length > 0) lines.Add(line);
            line = word;
            while (Width(line, height, bold) > width && line.Length > 1)
            {
                int count = Fitting(line, height, width, bold);
                lines.Add(line[..count]);
                line = line[count..];
            }
            soFar = Units(line, bold);
        }
        if (line.Length > 0) lines.Add(line);
        return lines;
    }

    // Words, but a measure in one: who reads 46 at the end of a line and 1/4 at the beginning of the next cuts it short.
    private static List<string> Measures(string text)
    {
        var words = new List<string>();
        foreach (string word in text.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            bool ofMeasure = words.Count > 0 && (words[^1] == "R" ? char.IsAsciiDigit(word[0])
                : char.IsAsciiDigit(words[^1][^1]) && (word.Contains('/') && char.IsAsciiDigit(word[0]) || word.TrimEnd('.', ',', ';', ':') is "in" or "mm" or "ft" or "lb" or "kg"));
            if (ofMeasure) words[^1] += " " + word;
            else words.Add(word);
        }
        return words;
    }

    /// <summary>The text, or as much of it as fits with three dots behind.</summary>
    public static string Shorten(string text, double height, double width, bool bold = false)
    {
        if (Width(text, height, bold) <= width) return text;
        int count = Fitting(text, height, width - Width("...", height, bold), bold);
        return text[..count].TrimEnd() + "...";
    }

    private static int Fitting(string text, double height, double width, bool bold)
    {
        int count = 1;
        while (count < text.Length && Width(text[..(count + 1)], height, bold) <= width) count++;
        // Half of a surrogate pair is no character.
        return count < text.Length && char.IsLowSurrogate(text[count]) ? Math.Max(count - 1, count == 1 ? 2 : 1) : count;
    }
}
