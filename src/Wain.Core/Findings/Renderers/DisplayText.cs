using System.Globalization;
using System.Text;

namespace Wain.Core.Findings.Renderers;

/// <summary>Text as a terminal shows it: how wide it is, and free of what could move the cursor or turn the writing round.</summary>
internal static class DisplayText
{
    private const int TabStop = 4;

    /// <summary>One line, safe to print: tabs become blanks up to the next stop, control and direction characters become U+FFFD.</summary>
    /// <param name="text">A line or a message.</param>
    /// <param name="offsets">For every UTF-16 unit of the text, and for its end, the column (from zero) at which it is shown.</param>
    public static string Plain(string text, out int[] offsets)
    {
        var shown = new StringBuilder(text.Length);
        offsets = new int[text.Length + 1];
        int column = 0;
        for (int i = 0; i < text.Length;)
        {
            bool valid = Rune.TryGetRuneAt(text, i, out var rune);
            int units = valid ? rune.Utf16SequenceLength : 1;
            for (int k = 0; k < units; k++) offsets[i + k] = column;
            if (text[i] == '\t')
            {
                int blanks = TabStop - column % TabStop;
                shown.Append(' ', blanks);
                column += blanks;
            }
            else if (!valid || IsUnsafe(rune))
            {
                shown.Append('\uFFFD');
                column++;
            }
            else
            {
                shown.Append(text, i, units);
                column += Width(rune);
            }
            i += units;
        }
        offsets[text.Length] = column;
        return shown.ToString();
    }

    public static string Plain(string text) => Plain(text, out _);

    /// <summary>Several lines, each safe to print.</summary>
    public static string PlainLines(string text) => string.Join('\n', text.ReplaceLineEndings("\n").Split('\n').Select(Plain));

    /// <summary>Columns that a text takes.</summary>
    public static int Width(string text)
    {
        int width = 0;
        foreach (var rune in text.EnumerateRunes()) width += Width(rune);
        return width;
    }

    private static bool IsUnsafe(Rune rune) =>
        Rune.GetUnicodeCategory(rune) is UnicodeCategory.Control or UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator
        || rune.Value is (>= 0x202A and <= 0x202E) or (>= 0x2066 and <= 0x2069) or 0x200E or 0x200F;

    /// <summary>0 for marks that sit on the letter before, 2 for characters that are wide after Unicode Standard Annex 11, else 1.</summary>
    public static int Width(Rune rune)
    {
        if (rune.Value < 0x300) return 1;
        if (Rune.GetUnicodeCategory(rune) is UnicodeCategory.NonSpacingMark or UnicodeCategory.EnclosingMark or UnicodeCategory.Format) return 0;
        foreach (var (first, last) in Wide)
        {
            if (rune.Value < first) return 1;
            if (rune.Value <= last) return 2;
        }
        return 1;
    }

    // The blocks whose characters are W or F in EastAsianWidth.txt, joined where only unassigned code points lie between.
    private static readonly (int First, int Last)[] Wide =
    [
        (0x1100, 0x115F), (0x231A, 0x231B), (0x2329, 0x232A), (0x23E9, 0x23EC), (0x23F0, 0x23F0), (0x23F3, 0x23F3), (0x25FD, 0x25FE), (0x2614, 0x2615), (0x2648, 0x2653),
        (0x267F, 0x267F), (0x2693, 0x2693), (0x26A1, 0x26A1), (0x26AA, 0x26AB), (0x26BD, 0x26BE), (0x26C4, 0x26C5), (0x26CE, 0x26CE), (0x26D4, 0x26D4), (0x26EA, 0x26EA),
        (0x26F2, 0x26F3), (0x26F5, 0x26F5), (0x26FA, 0x26FA), (0x26FD, 0x26FD), (0x2705, 0x2705), (0x270A, 0x270B), (0x2728, 0x2728), (0x274C, 0x274C), (0x274E, 0x274E),
        (0x2753, 0x2755), (0x2757, 0x2757), (0x2795, 0x2797), (0x27B0, 0x27B0), (0x27BF, 0x27BF), (0x2B1B, 0x2B1C), (0x2B50, 0x2B50), (0x2B55, 0x2B55), (0x2E80, 0x303E),
        (0x3041, 0x4DBF), (0x4E00, 0xA4CF), (0xA960, 0xA97F), (0xAC00, 0xD7A3), (0xF900, 0xFAFF), (0xFE10, 0xFE19), (0xFE30, 0xFE6F), (0xFF01, 0xFF60), (0xFFE0, 0xFFE6),
        (0x16FE0, 0x18DFF), (0x1AFF0, 0x1B2FF), (0x1F004, 0x1F004), (0x1F0CF, 0x1F0CF), (0x1F18E, 0x1F18E), (0x1F191, 0x1F19A), (0x1F200, 0x1F320), (0x1F32D, 0x1F335),
        (0x1F337, 0x1F37C), (0x1F37E, 0x1F393), (0x1F3A0, 0x1F3CA), (0x1F3CF, 0x1F3D3), (0x1F3E0, 0x1F3F0), (0x1F3F4, 0x1F3F4), (0x1F3F8, 0x1F43E), (0x1F440, 0x1F440),
        (0x1F442, 0x1F4FC), (0x1F4FF, 0x1F53D), (0x1F54B, 0x1F54E), (0x1F550, 0x1F567), (0x1F57A, 0x1F57A), (0x1F595, 0x1F596), (0x1F5A4, 0x1F5A4), (0x1F5FB, 0x1F64F),
        (0x1F680, 0x1F6C5), (0x1F6CC, 0x1F6CC), (0x1F6D0, 0x1F6D2), (0x1F6D5, 0x1F6DF), (0x1F6EB, 0x1F6EC), (0x1F6F4, 0x1F6FC), (0x1F7E0, 0x1F7F0), (0x1F90C, 0x1F93A),
        (0x1F93C, 0x1F945), (0x1F947, 0x1F9FF), (0x1FA70, 0x1FAFF), (0x20000, 0x3FFFD),
    ];

    /// <summary>Breaks a text at blanks into lines of at most a width; a longer word is cut.</summary>
    public static IEnumerable<string> Wrapped(string text, int width)
    {
        var line = new StringBuilder();
        int used = 0;
        foreach (string word in Plain(text.ReplaceLineEndings(" ")).Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            string rest = word;
            int length = Width(rest);
            if (used > 0 && used + 1 + length > width)
            {
                yield return line.ToString();
                line.Clear();
                used = 0;
            }
            int from = 0;
            while (length > width)
            {
                string part = Start(rest.AsSpan(from), width);
                yield return part;
                from += part.Length;
                length -= Width(part);
            }
            if (used > 0) line.Append(' ');
            line.Append(rest, from, rest.Length - from);
            used += (used > 0 ? 1 : 0) + length;
        }
        if (used > 0) yield return line.ToString();
    }

    /// <summary>As much of a text as fits a width, at least one character.</summary>
    public static string Start(ReadOnlySpan<char> text, int width)
    {
        int used = 0, units = 0;
        foreach (var rune in text.EnumerateRunes())
        {
            used += Width(rune);
            if (used > width && units > 0) break;
            units += rune.Utf16SequenceLength;
        }
        return text[..Math.Min(units, text.Length)].ToString();
    }
}
