using System.Collections.Immutable;
using Wain.Core.Reporting;

namespace Wain.Reports.Workbooks;

/// <summary>
/// Brings the builder's own columns (what is owned, what was paid, notes) from the workbook that is about to be replaced into the new report, by sheet,
/// row key and heading. What has lost its part is not lost: it goes to a sheet of its own, and back to its part should that return.
/// </summary>
internal sealed record CarryOver(Report Report, string? Error, ImmutableArray<WorkbookNotice> Notices)
{
    private const string KeptKey = "kept_notes";
    private const string KeptTitle = "Kept notes";

    private sealed record Entry(string Sheet, string Part, string Heading, SheetCell Cell);

    public static CarryOver Into(Report report, WorkbookPlan plan, byte[] previous)
    {
        WorkbookPlan old;
        try
        {
            old = WorkbookReader.Read(previous);
        }
        catch (InvalidDataException fault)
        {
            return new(report, $"The workbook that is to be replaced can't be read, so the notes in it would be lost. {fault.Message} Move it away to go on without them.", []);
        }
        var entries = Entries(old).ToList();
        if (entries.Count == 0) return new(report, null, []);
        var tables = ImmutableArray.CreateBuilder<Table>();
        foreach (var sheet in plan.Sheets)
        {
            if (sheet.Table is { } table) tables.Add(Filled(table, sheet.Name, entries));
        }
        if (entries.Count == 0) return new(report with { Tables = tables.ToImmutable() }, null, []);
        tables.Add(Kept(entries));
        var notices = entries.Select(entry => new WorkbookNotice($"Your entry \"{Text(entry.Cell)}\" ({entry.Heading}) was for {entry.Part} on the sheet \"{entry.Sheet}\", which is not there any more; it stands on the sheet \"{KeptTitle}\" now."));
        return new(report with { Tables = tables.ToImmutable() }, null, notices.ToImmutableArray());
    }

    private static IEnumerable<Entry> Entries(WorkbookPlan old)
    {
        foreach (var sheet in old.Sheets)
        {
            if (sheet.Rows.Length < SheetPlan.HeadRow) continue;
            var head = sheet.Rows[SheetPlan.HeadRow - 1];
            for (int row = SheetPlan.HeadRow; row < sheet.Rows.Length; row++)
            {
                var cells = sheet.Rows[row];
                if (cells.IsEmpty) continue;
                if (sheet.Name == KeptTitle && cells.Length >= 5)
                {
                    yield return new(cells[1].Value.Text, cells[2].Value.Text, cells[3].Value.Text, cells[4]);
                    continue;
                }
                for (int column = 1; column < Math.Min(cells.Length, head.Length); column++)
                {
                    string heading = head[column].Value.Text;
                    bool isFilled = cells[column].Value.Kind != CellValueKind.Blank && cells[column].Formula is null;
                    // A formula that the builder typed is carried as the figure it gave.
                    bool gaveFigure = cells[column].Formula is not null && cells[column].Value.Kind is CellValueKind.Number or CellValueKind.Text;
                    bool isBuilders = heading.EndsWith(Column.BuilderMark, StringComparison.Ordinal);
                    if (isBuilders && (isFilled || gaveFigure) && Text(cells[0]) is { Length: > 0 } part) yield return new(sheet.Name, part, heading, cells[column] with { Formula = null });
                }
            }
        }
    }

    private static Table Filled(Table table, string sheet, List<Entry> entries)
    {
        if (!table.Columns.Any(column => column.Kind == ColumnKind.Builder)) return table;
        var waiting = new Dictionary<(string, string), Entry>();
        foreach (var entry in entries.Where(entry => entry.Sheet == sheet)) waiting.TryAdd((entry.Part, entry.Heading), entry);
        var rows = table.Rows.Select(row =>
        {
            var cells = row.Cells.ToBuilder();
            for (int i = 0; i < cells.Count; i++)
            {
                var column = table.Columns[i];
                if (column.Kind != ColumnKind.Builder || !waiting.TryGetValue((row.Key, column.FullHeading), out var entry)) continue;
                cells[i] = CellOf(entry.Cell);
                entries.Remove(entry);
            }
            return row with { Cells = cells.MoveToImmutable() };
        }).ToImmutableArray();
        // Totals of a builder's column are the program's formulas, read back as if they were notes.
        entries.RemoveAll(entry => entry.Sheet == sheet && table.Totals is { } totals && totals.Cells[0] is Cell.Words words && words.Value == entry.Part);
        return table with { Rows = rows };
    }

    private static Table Kept(IEnumerable<Entry> entries)
    {
        ImmutableArray<Column> columns = [new("entry", "Entry"), new("sheet", "Sheet"), new("part", "Part"), new("heading", "Column"), new("value", "What you wrote", ColumnKind.Builder)];
        var rows = entries.OrderBy(e => e.Sheet, StringComparer.Ordinal).ThenBy(e => e.Part, StringComparer.Ordinal).ThenBy(e => e.Heading, StringComparer.Ordinal)
            .Select((entry, i) => new Row($"Entry {i + 1}", [$"Entry {i + 1}", entry.Sheet, entry.Part, entry.Heading, CellOf(entry.Cell)]));
        return new Table(KeptKey, KeptTitle, columns, rows.ToImmutableArray()) { Note = "What you wrote for parts that are not in the design any more. It goes back to its part should that return." };
    }

    private static Cell CellOf(SheetCell cell) => cell switch
    {
        { IsDate: true } => new Cell.Date(DateOnly.FromDateTime(DateTime.FromOADate(cell.Value.Number))),
        { Value.Kind: CellValueKind.Number } => new Cell.Number(cell.Value.Number),
        _ => new Cell.Words(cell.Value.Text),
    };

    private static string Text(SheetCell cell) => cell.Value.ToString();
}
