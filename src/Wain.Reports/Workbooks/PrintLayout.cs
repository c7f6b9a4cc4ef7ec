using System.Collections.Immutable;
using Wain.Core.Reporting;

namespace Wain.Reports.Workbooks;

/// <summary>How wide the columns of a table are and on which pages they are printed, so that it can be read on paper.</summary>
/// <param name="Widths">In digits, as columns are measured.</param>
/// <param name="Breaks">Columns, counted from 0, that begin another page beside the first; each of these repeats the first column.</param>
internal sealed record PrintLayout(ImmutableArray<double> Widths, ImmutableArray<int> Breaks)
{
    /// <summary>Digits that a lying page shows side by side at 7 points, about the least that is read with ease, measured in the spreadsheet program that shows the fewest.</summary>
    public const int PageWidth = 156;

    /// <summary>Of a sheet that is printed over several pages, per cent: somewhat over 7 points.</summary>
    public const int Scale = 65;

    // What is sure to stand on a page at that scale, whatever a program adds to each column.
    private const int SafeWidth = 142;

    // Text wraps, but into no narrower column than this and the longest word; a very long one, such as a part mark, is broken if that saves a page.
    private const int NarrowestText = 14, WidestBeside = 40, WidestMark = 66;
    private static readonly int[] LongestWords = [34, 26];

    /// <summary>Texts wrap as far as it takes to bring a table to one page; what is wider even so goes on beside it.</summary>
    public static PrintLayout Of(SheetPlan sheet)
    {
        var columns = sheet.Table!.Columns;
        double[] natural = [.. columns.Select((_, i) => SheetFormat.Width(sheet, i))];
        foreach (int word in LongestWords)
        {
            double[] least = [.. natural.Select((width, i) => columns[i].Kind is ColumnKind.Text or ColumnKind.Builder ? Math.Min(width, Math.Max(NarrowestText, SheetFormat.LongestWord(sheet, i, word))) : width)];
            double[] At(double most) => [.. natural.Select((width, i) => Math.Max(least[i], Math.Min(width, most)))];
            double widest = natural.Max();
            while (widest > NarrowestText && At(widest).Sum() > PageWidth) widest--;
            if (At(widest) is var widths && widths.Sum() <= PageWidth) return new([.. widths], []);
        }

        double[] beside = [.. natural.Select(w => Math.Min(w, WidestBeside))];
        // Each page has the marks, whole if that takes no page more.
        double[] whole = [SheetFormat.LongestWord(sheet, 0, WidestMark), .. beside[1..]];
        if (whole[0] > beside[0] && BreaksOf(whole, SafeWidth).Count == BreaksOf(beside, SafeWidth).Count) beside = whole;
        // As few pages as there can be, and the columns shared among them evenly.
        int pages = BreaksOf(beside, SafeWidth).Count;
        double even = SafeWidth;
        while (even > 2 * WidestBeside && BreaksOf(beside, even - 1).Count == pages) even--;
        return new([.. beside], [.. BreaksOf(beside, even)]);
    }

    private static List<int> BreaksOf(double[] widths, double page)
    {
        var breaks = new List<int>();
        double used = widths[0];
        for (int i = 1; i < widths.Length; i++)
        {
            if (used + widths[i] > page && used > widths[0])
            {
                breaks.Add(i);
                used = widths[0];
            }
            used += widths[i];
        }
        return breaks;
    }
}
