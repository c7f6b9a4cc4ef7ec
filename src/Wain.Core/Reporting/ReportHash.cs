using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text;

namespace Wain.Core.Reporting;

/// <summary>A short name for a set of values, printed on every output so that two papers can be told apart without a clock or a commit.</summary>
public static class ReportHash
{
    /// <summary>Twelve hexadecimal digits over keys and figures of all tables, taken before a builder's notes are carried in: a note is no change of design.</summary>
    public static string Of(ImmutableArray<Table> tables) => Of(tables, tables, withMoney: true);

    /// <summary>The same over what drawings show: shapes, places, weights. A price or another way of buying is no reason to print a drawing again.</summary>
    public static string OfDesign(ImmutableArray<Table> tables) => Of(tables, [.. tables.Where(t => t.Key is not ("summary" or "buy" or "costs" or "sources"))], withMoney: false);

    private static string Of(ImmutableArray<Table> tables, ImmutableArray<Table> shown, bool withMoney)
    {
        var figures = new Figures(tables);
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        foreach (var table in shown)
        {
            var text = new StringBuilder().Append(table.Key).Append('\n');
            foreach (var column in table.Columns) text.Append(column.Key).Append('\t').Append(column.FullHeading).Append('\n');
            int rows = table.Rows.Length + (table.Totals is null ? 0 : 1);
            for (int row = 0; row < rows; row++)
            {
                for (int column = 0; column < table.Columns.Length; column++)
                {
                    if (!withMoney && table.Columns[column].Kind == ColumnKind.Money) continue;
                    var value = figures[table.Key, row, column];
                    // Lengths stand before texts, so that no two different tables read as the same bytes.
                    text.Append((int)value.Kind).Append(':').Append(value.ToString().Length).Append(':').Append(value).Append('\n');
                }
            }
            hash.AppendData(Encoding.UTF8.GetBytes(text.ToString()));
        }
        return Convert.ToHexStringLower(hash.GetHashAndReset())[..12];
    }
}
