namespace Wain.Core.Reporting;

/// <summary>
/// A small expression over cells. It has two readings that must agree: <see cref="Figures"/> gives the program's figure and the workbook writes it as
/// a spreadsheet formula. Empty cells count as zero, as they do in a spreadsheet.
/// </summary>
public abstract record Formula
{
    public static implicit operator Formula(double value) => new Constant(value);

    public static implicit operator Formula(string value) => new Text(value);

    public static Formula operator +(Formula left, Formula right) => new Binary(Operator.Add, left, right);

    public static Formula operator -(Formula left, Formula right) => new Binary(Operator.Subtract, left, right);

    public static Formula operator *(Formula left, Formula right) => new Binary(Operator.Multiply, left, right);

    public static Formula operator /(Formula left, Formula right) => new Binary(Operator.Divide, left, right);

    /// <summary>Whole packs that cover a need. The quotient is first rounded at the 9th decimal, so that a need of three packs and one last bit buys three.</summary>
    public static Formula Packs(Formula need, Formula pack) => new RoundUp(new Round(need / pack, 9));

    public static Formula Larger(Formula left, Formula right) => new Extreme(true, left, right);

    public static Formula Smaller(Formula left, Formula right) => new Extreme(false, left, right);

    public enum Operator
    {
        Add,
        Subtract,
        Multiply,
        Divide,
    }

    public enum Test
    {
        Equal,
        NotEqual,
        Less,
        LessOrEqual,
        Greater,
        GreaterOrEqual,
    }

    public sealed record Constant(double Value) : Formula;

    public sealed record Text(string Value) : Formula;

    /// <summary>The cell of a column in the formula's own row. A builder's column counts as zero where it holds text.</summary>
    public sealed record Here(string Column) : Formula;

    /// <summary>One cell of a table by row key; <see cref="Table.TotalsKey"/> for its totals.</summary>
    public sealed record At(string Table, string Row, string Column) : Formula;

    /// <summary>The sum of a column over all rows but the totals; <paramref name="Table"/> null for the formula's own table.</summary>
    public sealed record Sum(string? Table, string Column) : Formula;

    /// <summary>The sum of a column over the rows whose key column equals the key exactly.</summary>
    public sealed record SumIf(string Table, string KeyColumn, Formula Key, string Column) : Formula;

    public sealed record CountIf(string Table, string KeyColumn, Formula Key) : Formula;

    /// <summary>The cell of a column in the row whose key column equals the key exactly: the last if there are several, #N/A if there is none.</summary>
    public sealed record Lookup(string Table, string KeyColumn, Formula Key, string Column) : Formula;

    public sealed record Binary(Operator Sign, Formula Left, Formula Right) : Formula;

    /// <summary>Up to the next whole number away from zero, as ROUNDUP(x,0).</summary>
    public sealed record RoundUp(Formula Value) : Formula;

    /// <summary>Halves away from zero, as ROUND.</summary>
    public sealed record Round(Formula Value, int Digits) : Formula;

    public sealed record Extreme(bool Largest, Formula Left, Formula Right) : Formula;

    /// <summary>A choice on a comparison of two numbers.</summary>
    public sealed record If(Test Holds, Formula Left, Formula Right, Formula Then, Formula Else) : Formula;
}
