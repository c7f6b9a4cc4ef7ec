using System.Globalization;
using Wain.Core.Drawing;
using Wain.Core.Reporting;

namespace Wain.Reports.Workbooks;

/// <summary>Number format codes (ECMA-376 part 1, 18.8.31) and the widths that go with them.</summary>
internal static class SheetFormat
{
    public const double LineHeight = 15;

    private const int Narrowest = 6, Widest = 48;

    private const double Blank = 0.5;

    // True widths depend on the reader's fonts.
    private const double Generous = 1.05;

    /// <summary>The width of a text in digits, which is what columns are measured in, by the proportions of a common sans-serif face.</summary>
    private static double Digits(string text) => Lettering.Width(text, 1) / Lettering.Width("0", 1) * Generous;

    public static string Of(NumberStyle style) => style switch
    {
        NumberStyle.Decimals decimals => (decimals.Thousands ? "#,##0" : "0") + (decimals.Places > 0 ? "." + new string('0', decimals.Places) : ""),
        NumberStyle.Fraction fraction => "# " + new string('?', Digits(fraction.Denominator)) + "/" + fraction.Denominator.ToString(CultureInfo.InvariantCulture),
        NumberStyle.Percent percent => "0" + (percent.Places > 0 ? "." + new string('0', percent.Places) : "") + "%",
        NumberStyle.Date => "yyyy-mm-dd",
        _ => "",
    };

    private static int Digits(int denominator) => denominator.ToString(CultureInfo.InvariantCulture).Length;

    /// <summary>The longest word of a column in digits, so that wrapping breaks none that is shorter than the most given.</summary>
    public static double LongestWord(SheetPlan sheet, int column, int most) =>
        Math.Min(most, 2 + sheet.Rows.Skip(SheetPlan.HeadRow).Where(r => column < r.Length && r[column].Value.Kind == CellValueKind.Text)
            .SelectMany(r => r[column].Value.Text.Split(' ', '\n')).Append(sheet.Table!.Columns[column].FullHeading.Split(' ').MaxBy(w => w.Length)!).Max(word => Math.Ceiling(Digits(word))));

    /// <summary>The width of a column in characters: what its widest figure or the longest word of its heading needs. Longer texts wrap.</summary>
    public static double Width(SheetPlan sheet, int column)
    {
        var of = sheet.Table!.Columns[column];
        if (of.Width > 0) return of.Width;
        int widest = of.FullHeading.Split(' ').Max(word => word.Length) + 1;
        for (int row = SheetPlan.HeadRow; row < sheet.Rows.Length; row++)
        {
            if (column < sheet.Rows[row].Length) widest = Math.Max(widest, Shown(sheet.Rows[row][column], sheet.Rows[row][column].Style ?? of.NumberStyle));
        }
        return Math.Clamp(widest + 1, Narrowest, Widest);
    }

    // Digits of the whole part come from the figure and the rest from the format; the figure itself is never printed here.
    private static int Shown(SheetCell cell, NumberStyle style)
    {
        // As generous as the count of lines is, so that a text which sets the width does not seem to need two.
        if (cell.Value.Kind != CellValueKind.Number) return cell.Value.Text.Split('\n').Max(line => (int)Math.Ceiling(Digits(line))) + 1;
        if (cell.IsDate || style is NumberStyle.Date) return 10;
        double size = Math.Abs(cell.Value.Number);
        int whole = (cell.Value.Number < 0 ? 1 : 0) + (size < 10 ? 1 : (int)Math.Floor(Math.Log10(size)) + 1);
        return style switch
        {
            NumberStyle.Decimals decimals => whole + (decimals.Thousands ? (whole - 1) / 3 : 0) + 1 + decimals.Places,
            NumberStyle.Fraction fraction => whole + 2 + 2 * Digits(fraction.Denominator),
            NumberStyle.Percent percent => whole + 4 + percent.Places,
            _ => Math.Min(cell.Value.ToString().Length, 11),
        };
    }

    /// <summary>How many lines a text takes in a column of a width, broken at blanks; a little generous.</summary>
    public static int Lines(string text, int width)
    {
        int lines = 0;
        foreach (string line in text.Split('\n'))
        {
            double used = 0;
            lines++;
            foreach (string word in line.Split(' '))
            {
                double length = Digits(word);
                if (used > 0 && used + Blank + length > width)
                {
                    lines++;
                    used = 0;
                }
                lines += (int)(length / (width + 1));
                used += (used > 0 ? Blank : 0) + length % (width + 1);
            }
        }
        return lines;
    }
}
