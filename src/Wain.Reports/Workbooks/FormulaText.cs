using System.Globalization;
using Wain.Core.Reporting;

namespace Wain.Reports.Workbooks;

/// <summary>Writes a formula as spreadsheet programs read it.</summary>
/// <param name="sheets">The sheet of each table by the table's key.</param>
internal sealed class FormulaText(IReadOnlyDictionary<string, SheetPlan> sheets)
{
    private readonly Dictionary<string, Dictionary<string, int>> _rows = new(StringComparer.Ordinal);

    /// <summary>The formula without its leading equals sign, for a cell in the given row (from one) of a table's sheet.</summary>
    public string Of(Formula formula, Table table, int row) => Write(formula, table, row, 0);

    /// <summary>The defined name of a column's data, such as <c>buy_price</c>. The underscore keeps it from being read as a cell address.</summary>
    public static string ColumnName(string table, string column) => $"{table}_{column}";

    public static string Letters(int column)
    {
        string letters = "";
        for (; column > 0; column = (column - 1) / 26) letters = (char)('A' + (column - 1) % 26) + letters;
        return letters;
    }

    public static string Quoted(string sheet) => "'" + sheet.Replace("'", "''") + "'";

    // Keys are compared with EXACT: SUMIF and MATCH take * and ? for any text, "<5" for a comparison and "mar1" for a day in March, and know no case.
    private string Write(Formula formula, Table table, int row, int binding)
    {
        switch (formula)
        {
            case Formula.Constant constant:
                string number = CellValue.Rounded(constant.Value).ToString("R", CultureInfo.InvariantCulture);
                return constant.Value < 0 ? $"({number})" : number;
            case Formula.Text text:
                // A text constant in a formula holds at most 255 characters.
                var parts = text.Value.Chunk(200).Select(part => "\"" + new string(part).Replace("\"", "\"\"") + "\"");
                return text.Value.Length <= 200 ? parts.SingleOrDefault("\"\"") : $"({string.Join('&', parts)})";
            case Formula.Here here:
                int index = table.ColumnIndex(here.Column);
                string address = Letters(index + 1) + row.ToString(CultureInfo.InvariantCulture);
                return table.Columns[index].Kind == ColumnKind.Builder ? $"N({address})" : address;
            case Formula.At at:
                var sheet = sheets[at.Table];
                return $"{Quoted(sheet.Name)}!${Letters(sheet.Table!.ColumnIndex(at.Column) + 1)}${RowOf(sheet, at.Row).ToString(CultureInfo.InvariantCulture)}";
            case Formula.Sum sum:
                return $"SUM({ColumnName(sum.Table ?? table.Key, sum.Column)})";
            case Formula.SumIf sumIf:
                return $"SUMPRODUCT(--EXACT({ColumnName(sumIf.Table, sumIf.KeyColumn)},{Write(sumIf.Key, table, row, 0)}),{ColumnName(sumIf.Table, sumIf.Column)})";
            case Formula.CountIf countIf:
                return $"SUMPRODUCT(--EXACT({ColumnName(countIf.Table, countIf.KeyColumn)},{Write(countIf.Key, table, row, 0)}))";
            case Formula.Lookup lookup:
                return $"LOOKUP(2,1/EXACT({ColumnName(lookup.Table, lookup.KeyColumn)},{Write(lookup.Key, table, row, 0)}),{ColumnName(lookup.Table, lookup.Column)})";
            case Formula.Binary binary:
                int own = binary.Sign is Formula.Operator.Add or Formula.Operator.Subtract ? 1 : 2;
                string sign = binary.Sign switch { Formula.Operator.Add => "+", Formula.Operator.Subtract => "-", Formula.Operator.Multiply => "*", _ => "/" };
                // The right side is bracketed even where mathematics would not need it, so that both readings add up in the same order.
                string written = Write(binary.Left, table, row, own) + sign + Write(binary.Right, table, row, own + 1);
                return own < binding ? $"({written})" : written;
            case Formula.RoundUp up:
                return $"ROUNDUP({Write(up.Value, table, row, 0)},0)";
            case Formula.Round round:
                return $"ROUND({Write(round.Value, table, row, 0)},{round.Digits.ToString(CultureInfo.InvariantCulture)})";
            case Formula.Extreme extreme:
                return $"{(extreme.Largest ? "MAX" : "MIN")}({Write(extreme.Left, table, row, 0)},{Write(extreme.Right, table, row, 0)})";
            case Formula.If choice:
                string test = choice.Holds switch
                {
                    Formula.Test.Equal => "=",
                    Formula.Test.NotEqual => "<>",
                    Formula.Test.Less => "<",
                    Formula.Test.LessOrEqual => "<=",
                    Formula.Test.Greater => ">",
                    _ => ">=",
                };
                return $"IF({Write(choice.Left, table, row, 1)}{test}{Write(choice.Right, table, row, 1)},{Write(choice.Then, table, row, 0)},{Write(choice.Else, table, row, 0)})";
            default:
                throw new ArgumentException($"No spreadsheet form for {formula.GetType().Name}.");
        }
    }

    private int RowOf(SheetPlan sheet, string key)
    {
        if (!_rows.TryGetValue(sheet.Table!.Key, out var rows))
        {
            rows = new Dictionary<string, int>(StringComparer.Ordinal);
            for (int i = 0; i < sheet.Table.Rows.Length; i++) rows[sheet.Table.Rows[i].Key] = sheet.FirstDataRow + i;
            rows.TryAdd(Table.TotalsKey, sheet.TotalsRow);
            _rows[sheet.Table.Key] = rows;
        }
        return rows[key];
    }
}
