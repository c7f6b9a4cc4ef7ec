using System.Collections.Immutable;
using System.Globalization;
using ClosedXML.Excel;
using Wain.Core.Reporting;

namespace Wain.Reports.Workbooks;

/// <summary>Reads back a workbook that the program wrote and that a spreadsheet program may have saved since.</summary>
internal static class WorkbookReader
{
    /// <exception cref="InvalidDataException">The bytes are not a readable workbook.</exception>
    public static WorkbookPlan Read(byte[] workbook) => OwnWorkbook.Read(workbook) ?? ReadAny(workbook);

    /// <summary>Whatever program saved it.</summary>
    /// <exception cref="InvalidDataException">The bytes are not a readable workbook.</exception>
    internal static WorkbookPlan ReadAny(byte[] workbook)
    {
        try
        {
            using var stream = new MemoryStream(workbook, writable: false);
            using var book = new XLWorkbook(stream);
            return new(book.Worksheets.OrderBy(page => page.Position).Select(Read).ToImmutableArray(), []);
        }
        catch (Exception fault) when (fault is not OutOfMemoryException)
        {
            // The package throws many kinds on a damaged file; to a person they all mean the same.
            throw new InvalidDataException("This is not a workbook that can be read.", fault);
        }
    }

    private static SheetPlan Read(IXLWorksheet page, int index)
    {
        var rows = new List<ImmutableArray<SheetCell>>();
        int last = page.LastCellUsed()?.Address.RowNumber ?? 0;
        int width = page.LastCellUsed()?.Address.ColumnNumber ?? 0;
        var grid = new Dictionary<(int, int), SheetCell>();
        foreach (var cell in page.CellsUsed(XLCellsUsedOptions.Contents)) grid[(cell.Address.RowNumber, cell.Address.ColumnNumber)] = Read(cell);
        for (int row = 1; row <= last; row++)
        {
            int used = width;
            while (used > 0 && !grid.ContainsKey((row, used))) used--;
            rows.Add(Enumerable.Range(1, used).Select(column => grid.GetValueOrDefault((row, column), new SheetCell(CellValue.Blank))).ToImmutableArray());
        }
        return new SheetPlan(page.Name, rows.ToImmutableArray()) { IsTable = index > 0 };
    }

    private static SheetCell Read(IXLCell cell)
    {
        if (cell.HasFormula) return new SheetCell(Cached(cell.CachedValue), cell.FormulaA1.TrimStart('='));
        return new SheetCell(Value(cell.Value), IsDate: cell.DataType == XLDataType.DateTime);
    }

    // The package hands on a cached number as the text that it stood as, with no word of its kind.
    internal static CellValue Cached(object? value) =>
        value is string text && double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double number) && (text[0] != '0' || text.Length == 1 || text[1] == '.')
            ? CellValue.Of(number)
            : Value(value);

    private static CellValue Value(object? value) => value switch
    {
        null => CellValue.Blank,
        double number => CellValue.Of(number),
        DateTime date => CellValue.Of(date.ToOADate()),
        TimeSpan span => CellValue.Of(span.TotalDays),
        bool truth => CellValue.Of(truth ? "TRUE" : "FALSE"),
        string text => CellValue.Of(text.ReplaceLineEndings("\n")),
        _ => CellValue.Of(value.ToString() ?? ""),
    };
}
