using System.Globalization;

namespace Wain.Core.Reporting;

public enum CellValueKind
{
    Blank,
    Number,
    Text,
    Error,
}

/// <summary>The figure in a cell: nothing, a number, a text or a spreadsheet error such as #DIV/0!.</summary>
public readonly record struct CellValue(CellValueKind Kind, double Number, string Text)
{
    public static readonly CellValue Blank = new(CellValueKind.Blank, 0, "");
    public static readonly CellValue DivisionByZero = Error("#DIV/0!");
    public static readonly CellValue NotFound = Error("#N/A");
    public static readonly CellValue WrongKind = Error("#VALUE!");
    public static readonly CellValue OutOfRange = Error("#NUM!");

    /// <summary>A number; one that is not finite is a spreadsheet's #NUM!, which has no other way to hold it.</summary>
    public static CellValue Of(double number) => double.IsFinite(number) ? new(CellValueKind.Number, number == 0 ? 0 : number, "") : OutOfRange;

    public static CellValue Of(string text) => new(CellValueKind.Text, 0, text);

    public static CellValue Error(string code) => new(CellValueKind.Error, 0, code);

    /// <summary>For keys and for diffs: the shortest text that reads back as the same number.</summary>
    public override string ToString() => Kind == CellValueKind.Number ? Number.ToString("R", CultureInfo.InvariantCulture) : Text;

    /// <summary>A value at 12 significant digits.</summary>
    public static double Rounded(double value) =>
        double.IsFinite(value) ? double.Parse(value.ToString("E11", CultureInfo.InvariantCulture), CultureInfo.InvariantCulture) : value;

    /// <summary>The day count that spreadsheets use from 1 March 1900 on (ECMA-376 part 1, 18.17.4.1, the 1900 date base).</summary>
    public static double Serial(DateOnly date) => date.DayNumber - new DateOnly(1899, 12, 30).DayNumber;

    /// <summary>The day of such a count, as it is written in a spec: 2026-05-02.</summary>
    public static string Day(double serial) => new DateOnly(1899, 12, 30).AddDays((int)serial).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
