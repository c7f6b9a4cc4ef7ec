namespace Wain.Core.Reporting;

/// <summary>What must hold of every table before anything reads it. A breach is a fault of the pass that made the table, never of a spec.</summary>
public static class TableRules
{
    /// <exception cref="ArgumentException">Names the table and what is wrong with it.</exception>
    public static void Check(Table table)
    {
        Require(IsKey(table.Key), table, $"{table.Key} is not a key");
        Require(table.Columns.Length > 0 && table.Columns[0].Kind == ColumnKind.Text, table, "its first column must be text: it shows the row's key");
        var columns = new HashSet<string>(StringComparer.Ordinal);
        var headings = new HashSet<string>(StringComparer.OrdinalIgnoreCase);
        foreach (var column in table.Columns)
        {
            Require(IsKey(column.Key), table, $"{column.Key} is not a key");
            Require(columns.Add(column.Key), table, $"column {column.Key} stands twice");
            Require(headings.Add(column.FullHeading), table, $"heading {column.FullHeading} stands twice");
        }
        var rows = new HashSet<string>(StringComparer.Ordinal);
        foreach (var row in table.Rows)
        {
            Require(rows.Add(row.Key), table, $"row {row.Key} stands twice");
            Require(row.Cells.Length == table.Columns.Length, table, $"row {row.Key} has {row.Cells.Length} cells for {table.Columns.Length} columns");
            Require(row.Cells[0] is Cell.Words words && words.Value == row.Key, table, $"row {row.Key} does not show its key in the first column");
        }
        if (table.Totals is { } totals) Require(totals.Cells.Length == table.Columns.Length, table, $"the totals have {totals.Cells.Length} cells for {table.Columns.Length} columns");
    }

    private static bool IsKey(string key) =>
        key.Length is > 0 and <= 100 && char.IsAsciiLetterLower(key[0]) && key.All(c => char.IsAsciiLetterLower(c) || char.IsAsciiDigit(c) || c == '_');

    private static void Require(bool holds, Table table, string what)
    {
        if (!holds) throw new ArgumentException($"Table {table.Key}: {what}.");
    }
}
