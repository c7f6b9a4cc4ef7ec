using System.Text;

namespace Wain.Reports.Workbooks;

/// <summary>Makes any text fit for a cell or a sheet's name.</summary>
internal static class SheetText
{
    /// <summary>Text that XML 1.0 and a cell can hold: other characters become U+FFFD, and what is too long is cut with a mark.</summary>
    public static string ForCell(string text, out bool replaced, out bool cut)
    {
        string clean = OnlyXml(text.ReplaceLineEndings("\n"));
        replaced = !ReferenceEquals(clean, text) && clean != text.ReplaceLineEndings("\n");
        cut = clean.Length > SheetLimits.CellText;
        if (!cut) return clean;
        int end = SheetLimits.CellText - SheetLimits.CutMark.Length;
        if (char.IsHighSurrogate(clean[end - 1])) end--;
        return clean[..end] + SheetLimits.CutMark;
    }

    // XML 1.0, production [2] Char: tab, line feed, carriage return, U+0020 to U+D7FF, U+E000 to U+FFFD, U+10000 to U+10FFFF.
    private static string OnlyXml(string text)
    {
        StringBuilder? clean = null;
        for (int i = 0; i < text.Length; i++)
        {
            bool pair = char.IsHighSurrogate(text[i]) && i + 1 < text.Length && char.IsLowSurrogate(text[i + 1]);
            bool allowed = pair || text[i] is '\t' or '\n' or (>= ' ' and <= '\uD7FF') or (>= '\uE000' and <= '\uFFFD');
            if (!allowed) clean ??= new StringBuilder(text, 0, i, text.Length);
            if (pair) clean?.Append(text[i]).Append(text[++i]);
            else clean?.Append(allowed ? text[i] : '\uFFFD');
        }
        return clean?.ToString() ?? text;
    }

    /// <summary>A sheet name after the rules of spreadsheet programs: at most 31 characters, none of : \ / ? * [ ], no apostrophe at an end, not "History", unique without regard to case.</summary>
    public static string SheetName(string title, ISet<string> taken)
    {
        var text = new StringBuilder();
        foreach (char c in OnlyXml(title)) text.Append(c is ':' or '\\' or '/' or '?' or '*' or '[' or ']' || char.IsControl(c) ? '-' : c);
        string name = Short(text.ToString().Trim().Trim('\'').Trim(), SheetLimits.SheetName);
        if (name.Length == 0) name = "Sheet";
        if (name.Equals("History", StringComparison.OrdinalIgnoreCase)) name += " list";
        string unique = name;
        for (int n = 2; !taken.Add(unique.ToUpperInvariant()); n++) unique = Short(name, SheetLimits.SheetName - $" ({n})".Length) + $" ({n})";
        return unique;
    }

    private static string Short(string text, int length)
    {
        if (text.Length <= length) return text;
        if (char.IsHighSurrogate(text[length - 1])) length--;
        return text[..length].TrimEnd().TrimEnd('\'');
    }
}
