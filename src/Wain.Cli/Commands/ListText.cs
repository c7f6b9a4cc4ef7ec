using System.Globalization;
using System.Text;
using System.Text.Json;
using Wain.Core.Findings.Renderers;
using Wain.Core.Reporting;

namespace Wain.Cli.Commands;

/// <summary>Tables as text, JSON and CSV.</summary>
public static class ListText
{
    public static string Of(Table table, IReadOnlyList<Table> all, string form)
    {
        var figures = new Core.Reporting.Figures([.. all]);
        var columns = table.Columns.Where(c => c.Kind != ColumnKind.Builder).ToList();
        var rows = table.Rows.Select((_, r) => columns.Select(c => Shown(c, figures[table.Key, r, table.ColumnIndex(c.Key)])).ToList()).ToList();
        return form switch
        {
            "json" => Json(columns, rows),
            "csv" => string.Join(",", columns.Select(c => Csv(c.Heading + Unit(c)))) + "\n" + string.Concat(rows.Select(r => string.Join(",", r.Select(Csv)) + "\n")),
            _ => Text(columns, rows),
        };
    }

    // A count of days is a spreadsheet's way of holding a date; whoever reads a list wants the day.
    private static CellValue Shown(Column column, CellValue value) => column.Kind == ColumnKind.Date && value.Kind == CellValueKind.Number ? CellValue.Of(CellValue.Day(value.Number))
        : value.Kind == CellValueKind.Number ? CellValue.Of(CellValue.Rounded(value.Number)) : value;

    private static string Unit(Column column) => column.Unit is { Length: > 0 } unit ? $" ({unit})" : "";

    private static string Text(List<Column> columns, List<List<CellValue>> rows)
    {
        var texts = rows.Select(r => r.Select(v => Plain(v)).ToList()).ToList();
        texts.Insert(0, [.. columns.Select(c => c.Heading + Unit(c))]);
        var widths = columns.Select((_, i) => texts.Max(t => DisplayText.Width(t[i]))).ToList();
        var text = new StringBuilder();
        foreach (var row in texts)
        {
            var line = new StringBuilder();
            for (int i = 0; i < row.Count; i++)
            {
                string pad = new(' ', widths[i] - DisplayText.Width(row[i]));
                line.Append(columns[i].Kind is ColumnKind.Text ? row[i] + pad : pad + row[i]).Append("  ");
            }
            text.Append(line.ToString().TrimEnd()).Append('\n');
        }
        return text.ToString();
    }

    private static string Json(List<Column> columns, List<List<CellValue>> rows)
    {
        using var stream = new MemoryStream();
        using (var json = new Utf8JsonWriter(stream, new JsonWriterOptions { Indented = true, NewLine = "\n" }))
        {
            json.WriteStartArray();
            foreach (var row in rows)
            {
                json.WriteStartObject();
                for (int i = 0; i < columns.Count; i++)
                {
                    if (row[i].Kind == CellValueKind.Number) json.WriteNumber(columns[i].Key, row[i].Number);
                    else if (row[i].Kind == CellValueKind.Blank) json.WriteNull(columns[i].Key);
                    else json.WriteString(columns[i].Key, row[i].Text);
                }
                json.WriteEndObject();
            }
            json.WriteEndArray();
        }
        return Encoding.UTF8.GetString(stream.ToArray()) + "\n";
    }

    private static string Plain(CellValue value) => value.Kind == CellValueKind.Number ? value.Number.ToString("0.####", CultureInfo.InvariantCulture) : DisplayText.Plain(value.Text);

    private static string Csv(CellValue value) => value.Kind == CellValueKind.Number ? value.Number.ToString("R", CultureInfo.InvariantCulture) : Csv(value.Text);

    /// <summary>A field after RFC 4180. Text that a spreadsheet would take for a formula gets an apostrophe before it.</summary>
    public static string Csv(string text)
    {
        if (text.Length > 0 && text[0] is '=' or '+' or '-' or '@' or '\t' or '\r') text = "'" + text;
        return text.AsSpan().IndexOfAny(",\"\r\n") >= 0 ? "\"" + text.Replace("\"", "\"\"", StringComparison.Ordinal) + "\"" : text;
    }
}
