using System.Collections.Immutable;
using Wain.Core.Findings;
using Wain.Core.Reporting;

namespace Wain.Reports.Workbooks;

/// <summary>A whole workbook, laid out: what both the file and its text form are written from.</summary>
internal sealed record WorkbookPlan(ImmutableArray<SheetPlan> Sheets, ImmutableArray<WorkbookNotice> Notices)
{
    /// <summary>Why no workbook can be written; null if one can.</summary>
    public string? Error { get; init; }

    public static WorkbookPlan Of(Report report)
    {
        if (TooLarge(report) is { } error) return new([], []) { Error = error };
        var notices = new List<WorkbookNotice>();
        var names = new HashSet<string>(StringComparer.Ordinal);
        var first = FirstSheet(report, SheetText.SheetName("Read first", names), notices);
        var bare = report.Tables.Select(table => new SheetPlan(SheetText.SheetName(table.Title, names), []) { Table = table, IsTable = true }).ToImmutableArray();
        var writer = new FormulaText(bare.ToDictionary(sheet => sheet.Table!.Key, StringComparer.Ordinal));
        var figures = new Figures(report.Tables);
        var sheets = ImmutableArray.CreateBuilder<SheetPlan>();
        sheets.Add(first);
        foreach (var sheet in bare)
        {
            var filled = sheet with { Rows = TableRows(report, sheet, figures, writer, notices) };
            sheets.Add(Beside(filled with { Print = PrintLayout.Of(filled) }));
        }
        string? longest = LongFormula(sheets);
        return new(sheets.ToImmutable(), notices.ToImmutableArray()) { Error = longest };
    }

    // Where a table goes on over pages each of them repeats the first column, and a note that began in it would be cut off there: it begins in the second.
    private static SheetPlan Beside(SheetPlan sheet) => sheet.Print!.Breaks.IsEmpty || sheet.Rows[1].IsEmpty ? sheet : sheet with { Rows = sheet.Rows.SetItem(1, [new SheetCell(CellValue.Blank), sheet.Rows[1][0]]) };

    private static string? TooLarge(Report report)
    {
        foreach (var table in report.Tables)
        {
            long rows = SheetPlan.HeadRow + (long)table.Rows.Length + 1;
            if (rows > SheetLimits.Rows) return $"The sheet \"{table.Title}\" would need {rows:N0} rows; a sheet holds {SheetLimits.Rows:N0}. Split the spec, or leave this table out.";
            if (table.Columns.Length > SheetLimits.Columns) return $"The sheet \"{table.Title}\" would need {table.Columns.Length:N0} columns; a sheet holds {SheetLimits.Columns:N0}.";
        }
        return null;
    }

    private static string? LongFormula(IEnumerable<SheetPlan> sheets)
    {
        foreach (var sheet in sheets)
        {
            if (sheet.Rows.SelectMany(row => row).Any(cell => cell.Formula?.Length > SheetLimits.Formula)) return $"A formula on the sheet \"{sheet.Name}\" is longer than the {SheetLimits.Formula:N0} characters that a cell holds.";
        }
        return null;
    }

    private static SheetPlan FirstSheet(Report report, string name, List<WorkbookNotice> notices)
    {
        SheetCell Words(string text) => TextCell(text, $"on the sheet \"{name}\"", null, notices);
        var rows = ImmutableArray.CreateBuilder<ImmutableArray<SheetCell>>();
        void Line(params string[] texts) => rows.Add(texts.Select(Words).ToImmutableArray());
        Line(report.Title);
        Line($"Revision {report.Revision}", $"Values {report.ValuesHash}");
        if (report.Remark.Length > 0) Line(report.Remark);
        if (report.IsDraft) Line("DRAFT: errors stand. Do not build from it.");
        Line();
        Line(CautionsHeading);
        foreach (string caution in report.Cautions) Line(caution);
        Line();
        Line(FindingsHeading);
        if (report.Findings.IsEmpty) Line("No findings.");
        else Line("Level", "Code", "About", "What was found", "What to do", "Accepted because");
        // Not by place in the text: a comment or a reordering of the spec must change nothing here.
        foreach (var finding in report.Findings.OrderByDescending(f => f.Level).ThenBy(f => f.Code, StringComparer.Ordinal)
            .ThenBy(f => f.Subject, StringComparer.Ordinal).ThenBy(f => f.Message, StringComparer.Ordinal))
        {
            Line(finding.Level.ToString(), finding.Code, finding.Subject, finding.Message, finding.Hint ?? "", finding.AcceptedBecause ?? "");
        }
        return new SheetPlan(name, rows.ToImmutable());
    }

    public const string CautionsHeading = "Before you build from this";
    public const string FindingsHeading = "Findings";

    private static ImmutableArray<ImmutableArray<SheetCell>> TableRows(Report report, SheetPlan sheet, Figures figures, FormulaText writer, List<WorkbookNotice> notices)
    {
        var table = sheet.Table!;
        string where = $"on the sheet \"{sheet.Name}\"";
        var rows = ImmutableArray.CreateBuilder<ImmutableArray<SheetCell>>(table.Rows.Length + 5);
        rows.Add([TextCell((report.IsDraft ? "DRAFT: " : "") + table.Title, where, null, notices)]);
        string note = table.Rows.IsEmpty ? $"There are none. {table.Note}".TrimEnd() : table.Note;
        rows.Add(note.Length == 0 ? [] : [TextCell(note, where, null, notices)]);
        rows.Add(table.Columns.Select(column => TextCell(column.FullHeading, where, null, notices)).ToImmutableArray());
        for (int i = 0; i < table.Rows.Length; i++) rows.Add(Cells(table.Rows[i], i, sheet.FirstDataRow + i));
        if (table.Rows.IsEmpty) rows.Add([]);
        if (table.Totals is { } totals) rows.Add(Cells(totals, table.Rows.Length, sheet.TotalsRow));
        return rows.ToImmutable();

        ImmutableArray<SheetCell> Cells(Row row, int index, int number)
        {
            var cells = ImmutableArray.CreateBuilder<SheetCell>(row.Cells.Length);
            for (int column = 0; column < row.Cells.Length; column++)
            {
                var cell = row.Cells[column];
                cells.Add(cell switch
                {
                    Cell.Words words => TextCell(words.Value, $"{where}, {row.Key}, {table.Columns[column].Heading}", cell.Place, notices),
                    Cell.Live live => new SheetCell(figures[table.Key, index, column], writer.Of(live.Formula, table, number), Style: cell.Style),
                    _ => new SheetCell(figures[table.Key, index, column], IsDate: cell is Cell.Date, Style: cell.Style),
                });
            }
            return cells.MoveToImmutable();
        }
    }

    private static SheetCell TextCell(string text, string where, Core.Text.Span? place, List<WorkbookNotice> notices)
    {
        if (text.Length == 0) return new SheetCell(CellValue.Blank);
        string clean = SheetText.ForCell(text, out bool replaced, out bool cut);
        if (replaced) notices.Add(new($"Characters that a workbook can't hold were replaced {where}.", place));
        if (cut) notices.Add(new($"A text of {text.Length:N0} characters was cut {where}: a cell holds {SheetLimits.CellText:N0}.", place));
        return new SheetCell(CellValue.Of(clean));
    }
}
