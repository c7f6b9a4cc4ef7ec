using System.Collections.Immutable;
using Wain.Core.Reporting;

namespace Wain.Reports.Workbooks;

/// <summary>How wide the columns of a table are and on which pages they are printed, so that it can be read on paper.</summary>
/// <param name="Widths">In digits, as columns are measured.</param>
/// <param name="Breaks">Columns, counted from 0, that begin another page beside the first; each of these repeats the first column.</param>
/// <param name="Upright">True for a page that is higher than wide.</param>
/// <param name="Scale">Per cent; 0 for as large as brings the columns on one page.</param>
internal sealed record PrintLayout(ImmutableArray<double> Widths, ImmutableArray<int> Breaks, bool Upright = false, int Scale = 0)
{
    /// <summary>Digits that a lying page shows side by side at 7 points, about the least that is read with ease, measured in the spreadsheet program that shows the fewest; and an upright one.</summary>
    public const int PageWidth = 156, UprightWidth = 108;

    /// <summary>Of a sheet that is printed over several pages, per cent: somewhat over 7 points.</summary>
    public const int Least = 65;

    /// <summary>Of a narrow table, per cent: about 9 points. Larger takes pages and reads no better.</summary>
    public const int Most = 80;

    // What is sure to stand on a page at the least scale, whatever a program adds to each column.
    private const int SafeWidth = 142, SafeUpright = 96;

    // Points of a page between its margins.
    private const double LyingHeight = 500, UprightHeight = 698;

    // Text wraps, but into no narrower column than this and the longest word; a very long one, such as a part mark, is broken only if that saves a page.
    private const int NarrowestText = 14, WidestBeside = 40, WidestMark = 66;
    private static readonly int[] LongestWords = [WidestMark, 34, 26];

    /// <summary>Texts wrap as far as it takes to bring a table to one page across, upright if it takes fewer pages so; what is wider even so goes on beside it.</summary>
    public static PrintLayout Of(SheetPlan sheet)
    {
        var columns = sheet.Table!.Columns;
        int printed = Printed(sheet.Table);
        double[] natural = [.. columns.Select((_, i) => SheetFormat.Width(sheet, i))];
        // Marks are not wrapped like other texts: they have no blanks.
        natural[0] = Math.Max(natural[0], SheetFormat.LongestWord(sheet, 0, WidestMark));
        double[] Whole(double[] widths) => [.. widths, .. natural[printed..]];
        var lying = Within(sheet, natural[..printed], PageWidth, LongestWords);
        if (lying is not null)
        {
            if (Within(sheet, natural[..printed], UprightWidth, [WidestMark]) is { } upright && Height(sheet, upright, UprightWidth) / UprightHeight < Height(sheet, lying, PageWidth) / LyingHeight)
                return new([.. Whole(upright)], [], Upright: true, ScaleOf(upright, SafeUpright));
            return new([.. Whole(lying)], [], Scale: ScaleOf(lying, SafeWidth));
        }

        double[] beside = [.. natural[..printed].Select(w => Math.Min(w, WidestBeside))];
        // Each page has the marks, whole if that takes no page more.
        double[] whole = [SheetFormat.LongestWord(sheet, 0, WidestMark), .. beside[1..]];
        if (whole[0] > beside[0] && BreaksOf(whole, SafeWidth).Count == BreaksOf(beside, SafeWidth).Count) beside = whole;
        // As few pages as there can be, and the columns shared among them evenly.
        int pages = BreaksOf(beside, SafeWidth).Count;
        double even = SafeWidth;
        while (even > 2 * WidestBeside && BreaksOf(beside, even - 1).Count == pages) even--;
        return new([.. Whole(beside)], [.. BreaksOf(beside, even)], Scale: Least);
    }

    /// <summary>How many columns of a table are printed.</summary>
    public static int Printed(Table table) => table.Columns.TakeWhile(c => c.Printed).Count();

    // Null if no wrapping brings them on a page.
    private static double[]? Within(SheetPlan sheet, double[] natural, int page, int[] words)
    {
        var columns = sheet.Table!.Columns;
        foreach (int word in words)
        {
            double[] least = [.. natural.Select((width, i) => columns[i].Kind is ColumnKind.Text or ColumnKind.Builder ? Math.Min(width, Math.Max(NarrowestText, SheetFormat.LongestWord(sheet, i, word))) : width)];
            double[] At(double most) => [.. natural.Select((width, i) => Math.Max(least[i], Math.Min(width, most)))];
            double widest = natural.Max();
            while (widest > NarrowestText && At(widest).Sum() > page) widest--;
            if (At(widest) is var widths && widths.Sum() <= page) return widths;
        }
        return null;
    }

    // A table that is sure to fit at the most is not enlarged to fill the page; what a program adds to columns must not push one over the edge.
    private static int ScaleOf(double[] widths, int safe) => widths.Sum() * Most <= safe * Least ? Most : 0;

    /// <summary>Of the rows on paper, points, at the scale that brings the columns on a page.</summary>
    private static double Height(SheetPlan sheet, double[] widths, int page) =>
        sheet.Rows.Skip(SheetPlan.HeadRow).Sum(r => (double)r.Take(widths.Length).Select((c, i) => c.Value.Kind == CellValueKind.Text ? SheetFormat.Lines(c.Value.Text, (int)widths[i] - 1) : 1).DefaultIfEmpty(1).Max())
        * SheetFormat.LineHeight * Math.Min(Most, Least * page / widths.Sum()) / 100;

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
