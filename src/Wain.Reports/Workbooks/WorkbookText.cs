using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using Wain.Core.Reporting;

namespace Wain.Reports.Workbooks;

/// <summary>A value that a person changed in a workbook since it was written.</summary>
/// <param name="Was">The row as the program wrote it; empty for a new row.</param>
/// <param name="Now">The row as it stands; empty for a row that is gone.</param>
/// <param name="Places">The spec lines that the changed values come from, where that is known.</param>
public sealed record WorkbookEdit(string Sheet, string Was, string Now, ImmutableArray<Core.Text.Span> Places);

/// <summary>
/// The text form of a workbook: one line a row, cells parted by bars, a formula with the headings of its own row in place of addresses and the figure
/// behind an arrow. Row numbers stand nowhere, so that a new row is one new line in a diff.
/// </summary>
public static partial class WorkbookText
{
    private const string Arrow = " -> ";

    internal static string Of(WorkbookPlan plan)
    {
        var text = new StringBuilder();
        foreach (var sheet in plan.Sheets)
        {
            if (text.Length > 0) text.Append('\n');
            text.Append("== ").Append(sheet.Name).Append(" ==\n");
            foreach (string line in Lines(sheet, withFigures: true)) text.Append(line).Append('\n');
        }
        return text.ToString();
    }

    /// <summary>The text form of any workbook that the program wrote, as it stands now: for version control's text conversion.</summary>
    /// <exception cref="InvalidDataException">The bytes are not a readable workbook.</exception>
    public static string Of(byte[] workbook) => Of(WorkbookReader.Read(workbook));

    /// <summary>A text that changes when anything but a builder's column, the order of rows or the look of a workbook is changed.</summary>
    /// <exception cref="InvalidDataException">The bytes are not a readable workbook.</exception>
    public static string Essence(byte[] workbook) => Essence(WorkbookReader.Read(workbook));

    internal static string Essence(WorkbookPlan plan)
    {
        var text = new StringBuilder();
        foreach (var sheet in plan.Sheets)
        {
            text.Append("== ").Append(sheet.Name).Append(" ==\n");
            foreach (string line in Lines(sheet, withFigures: false).Order(StringComparer.Ordinal)) text.Append(line).Append('\n');
        }
        return text.ToString();
    }

    /// <summary>What differs between a workbook as the program wrote it and as it stands now, builder's columns aside.</summary>
    /// <exception cref="InvalidDataException">Either is not a readable workbook.</exception>
    public static ImmutableArray<WorkbookEdit> Edits(byte[] written, byte[] now, Report report)
    {
        var before = WorkbookReader.Read(written);
        var after = WorkbookReader.Read(now);
        var edits = ImmutableArray.CreateBuilder<WorkbookEdit>();
        var names = before.Sheets.Concat(after.Sheets).Select(sheet => sheet.Name).Distinct(StringComparer.Ordinal);
        foreach (string name in names)
        {
            var old = LinesOf(before, name);
            var current = LinesOf(after, name);
            var gone = new List<string>(old);
            var fresh = current.Where(line => !gone.Remove(line)).ToList();
            var table = report.Tables.FirstOrDefault(t => SheetText.SheetName(t.Title, new HashSet<string>()) == name);
            foreach (string line in gone)
            {
                int match = fresh.FindIndex(other => First(other) == First(line));
                string now1 = match < 0 ? "" : fresh[match];
                if (match >= 0) fresh.RemoveAt(match);
                edits.AddRange(CellsOf(name, table, line, now1));
            }
            edits.AddRange(fresh.Select(line => new WorkbookEdit(name, "", line, [])));
        }
        return edits.ToImmutable();
    }

    private static List<string> LinesOf(WorkbookPlan plan, string name) =>
        plan.Sheets.Where(sheet => sheet.Name == name).SelectMany(sheet => Lines(sheet, withFigures: false)).Where(line => line.Length > 0).ToList();

    private static string First(string line) => Split(line)[0];

    /// <summary>Cell by cell where the row is still there, so that one changed price is not lost in a line of formulas.</summary>
    private static IEnumerable<WorkbookEdit> CellsOf(string sheet, Table? table, string was, string now)
    {
        string[] before = Split(was), after = Split(now);
        var row = table?.Rows.FirstOrDefault(r => r.Key == before[0]);
        if (table is null || row is null || now.Length == 0)
        {
            yield return new(sheet, was, now, row is null ? [] : [.. row.Cells.Select(c => c.Place).OfType<Core.Text.Span>().Distinct()]);
            yield break;
        }
        for (int i = 0; i < row.Cells.Length; i++)
        {
            string old = before.ElementAtOrDefault(i) ?? "", fresh = after.ElementAtOrDefault(i) ?? "";
            if (old != fresh) yield return new($"{sheet}, {row.Key}, {table.Columns[i].FullHeading}", old, fresh, row.Cells[i].Place is { } place ? [place] : []);
        }
    }

    // A bar inside a text is written \| so that " | " parts cells and nothing else.
    private static string[] Split(string line) => line.Split(" | ");

    private static IEnumerable<string> Lines(SheetPlan sheet, bool withFigures)
    {
        bool isTable = sheet.Rows.Length >= SheetPlan.HeadRow && sheet.IsTable;
        string[] headings = isTable ? sheet.Rows[SheetPlan.HeadRow - 1].Select(cell => cell.Value.Text).ToArray() : [];
        // A table without rows ends in a blank line, which no file keeps.
        int last = sheet.Rows.Length;
        while (last > 0 && sheet.Rows[last - 1].All(c => c.Value.Kind == CellValueKind.Blank && c.Formula is null)) last--;
        for (int row = 1; row <= last; row++)
        {
            var cells = sheet.Rows[row - 1];
            var parts = new List<string>(cells.Length);
            for (int column = 1; column <= cells.Length; column++)
            {
                bool isBuilders = column <= headings.Length && headings[column - 1].EndsWith(Column.BuilderMark, StringComparison.Ordinal);
                parts.Add(isBuilders && row > SheetPlan.HeadRow ? "" : Shown(cells[column - 1], row, headings, withFigures));
            }
            yield return string.Join(" | ", parts).TrimEnd(' ', '|');
        }
    }

    private static string Shown(SheetCell cell, int row, string[] headings, bool withFigure)
    {
        // Twelve digits, so that a program that saves fifteen does not look like a person who changed a figure.
        string value = cell.IsDate ? DateTime.FromOADate(cell.Value.Number).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)
            : cell.Value.Kind == CellValueKind.Number ? CellValue.Rounded(cell.Value.Number).ToString("R", CultureInfo.InvariantCulture)
            : Escaped(cell.Value.Text);
        if (cell.Formula is not { } formula) return cell.Value.Kind == CellValueKind.Text && value.StartsWith('=') ? "'" + value : value;
        // Spreadsheet programs write the name of a sheet without the quotes that it doesn't need.
        string named = OwnRow().Replace(Quotes().Replace(formula, "${text}${name}"), match =>
        {
            if (match.Groups["text"].Success || match.Groups["far"].Success) return match.Value;
            int column = 0;
            foreach (char letter in match.Groups["column"].Value) column = column * 26 + letter - 'A' + 1;
            bool own = match.Groups["row"].Value == row.ToString(CultureInfo.InvariantCulture) && column <= headings.Length;
            return own ? $"[{headings[column - 1]}]" : match.Value;
        });
        named = Escaped(FarRow().Replace(named, "!${column}"));
        return "=" + (withFigure ? named + Arrow + value : named);
    }

    private static string Escaped(string text) => text.Replace("\\", "\\\\").Replace("|", "\\|").Replace("\n", "\\n").Replace("\t", "\\t");

    [GeneratedRegex("(?<text>\"(?:[^\"]|\"\")*\")|'(?<name>[A-Za-z_][A-Za-z0-9_.]*)'(?=!)")]
    private static partial Regex Quotes();

    // Texts and addresses on other sheets are matched first, so that nothing inside them is taken for an address.
    [GeneratedRegex("(?<text>\"(?:[^\"]|\"\")*\")|(?<far>(?:'(?:[^']|'')*'|[A-Za-z0-9_.]+)!\\$?[A-Z]+\\$?[0-9]+)|(?<![A-Za-z0-9_.$])(?<column>[A-Z]{1,3})(?<row>[0-9]+)(?![A-Za-z0-9_.(])")]
    private static partial Regex OwnRow();

    [GeneratedRegex("!\\$?(?<column>[A-Z]+)\\$?[0-9]+")]
    private static partial Regex FarRow();
}
