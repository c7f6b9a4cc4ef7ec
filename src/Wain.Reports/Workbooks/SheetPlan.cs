using System.Collections.Immutable;
using Wain.Core.Reporting;

namespace Wain.Reports.Workbooks;

/// <summary>What one cell of a sheet will hold: a value and, if live, the formula that gives it.</summary>
internal readonly record struct SheetCell(CellValue Value, string? Formula = null, bool IsDate = false, NumberStyle? Style = null);

/// <summary>One sheet, laid out but in no file format yet. Rows and columns count from one, as in a spreadsheet.</summary>
internal sealed record SheetPlan(string Name, ImmutableArray<ImmutableArray<SheetCell>> Rows)
{
    /// <summary>Rows above the data of every table sheet: title, note, headings.</summary>
    public const int HeadRow = 3;

    /// <summary>The table that the sheet shows; null for the first sheet.</summary>
    public Table? Table { get; init; }

    /// <summary>How a table is laid out for print; null for the first sheet.</summary>
    public PrintLayout? Print { get; init; }

    /// <summary>True for a sheet with headings in its third row.</summary>
    public bool IsTable { get; init; }

    public int FirstDataRow => HeadRow + 1;

    /// <summary>A table with no rows keeps one empty row, so that its names and sums have a range.</summary>
    public int LastDataRow => HeadRow + Math.Max(1, Table?.Rows.Length ?? 0);

    public int TotalsRow => LastDataRow + 1;
}

/// <summary>Something that a person should know about how a workbook came out.</summary>
public sealed record WorkbookNotice(string Message, Core.Text.Span? Place = null);

/// <summary>Limits of the file format and of the programs that read it (ECMA-376 part 1, 18.3 and 18.18; published limits of spreadsheet programs).</summary>
public static class SheetLimits
{
    public const int Rows = 1_048_576;
    public const int Columns = 16_384;
    public const int CellText = 32_767;
    public const int Formula = 8_192;
    public const int SheetName = 31;
    public const string CutMark = " ... (cut: a cell holds 32,767 characters)";
}
