using System.Collections.Immutable;
using Wain.Core.Findings;
using Wain.Core.Text;

namespace Wain.Core.Reporting;

/// <summary>
/// Everything that a workbook shows, without a format. A report holds no line number, path, clock or commit: a comment or a reordering of the
/// spec must change no byte of an output, so findings appear by subject and the rows come in an order of their own.
/// </summary>
/// <param name="Title">The camper's name.</param>
/// <param name="Revision">The spec's own revision, as written there.</param>
/// <param name="ValuesHash">A short hash of the values shown; see <see cref="ReportHash"/>.</param>
public sealed record Report(string Title, string Revision, string ValuesHash)
{
    /// <summary>A short hash of what drawings show; see <see cref="ReportHash.OfDesign"/>.</summary>
    public string DesignHash { get; init; } = "";

    /// <summary>True if errors stand that the spec has not accepted; every sheet then says DRAFT.</summary>
    public bool IsDraft { get; init; }

    /// <summary>The spec's own remark for the first page; empty if it has none.</summary>
    public string Remark { get; init; } = "";

    /// <summary>What a person must read before building from it; shown first.</summary>
    public ImmutableArray<string> Cautions { get; init; } = [];

    public ImmutableArray<Finding> Findings { get; init; } = [];

    public ImmutableArray<Table> Tables { get; init; } = [];

    /// <summary>What the workbook is set up to be printed on: what lies in the drawer where its lengths are read.</summary>
    public Paper Paper { get; init; } = Paper.Letter;
}

public enum Paper
{
    Letter,
    A4,
}

/// <summary>Rows of one kind. The first column is text and holds each row's key, so that a person can find a part and a builder's note follows it.</summary>
/// <param name="Key">Lower-case letters, digits and underscores; formulas and defined names use it.</param>
/// <param name="Title">The sheet's name and heading.</param>
/// <param name="Columns">At least one; the first shows the row keys.</param>
/// <param name="Rows">In the order that they are shown in, which must not follow from the order of the spec.</param>
public sealed record Table(string Key, string Title, ImmutableArray<Column> Columns, ImmutableArray<Row> Rows)
{
    /// <summary>The row key by which <see cref="Formula.At"/> reaches <see cref="Totals"/>.</summary>
    public const string TotalsKey = "total";

    /// <summary>One or two sentences under the heading.</summary>
    public string Note { get; init; } = "";

    /// <summary>A last row, outside the range that sums run over; null for none.</summary>
    public Row? Totals { get; init; }

    public int ColumnIndex(string key)
    {
        for (int i = 0; i < Columns.Length; i++)
        {
            if (Columns[i].Key == key) return i;
        }
        throw new ArgumentException($"Table {Key} has no column {key}.");
    }
}

public enum ColumnKind
{
    Text,
    Number,
    Money,
    Date,

    /// <summary>Filled in by the builder, never by the program; carried over by row key from the workbook that it replaces.</summary>
    Builder,
}

/// <summary>One column of a table.</summary>
/// <param name="Key">Lower-case letters, digits and underscores.</param>
/// <param name="Heading">Unique in its table.</param>
/// <param name="Kind">What stands in its cells.</param>
/// <param name="Unit">Shown in brackets behind the heading.</param>
/// <param name="Style">How its numbers are written; null for the usual way of its kind.</param>
/// <param name="Width">In characters; 0 to fit what it shows.</param>
/// <param name="Printed">False for what is read on a screen alone, such as how a figure comes about; such columns are the last of their table.</param>
public sealed record Column(string Key, string Heading, ColumnKind Kind = ColumnKind.Text, string? Unit = null, NumberStyle? Style = null, int Width = 0, bool Printed = true)
{
    /// <summary>Ends the headings of the columns that belong to the builder: told to a person, and the mark by which a workbook read back is understood.</summary>
    public const string BuilderMark = "(yours)";

    public string FullHeading => (Unit is null ? Heading : $"{Heading} ({Unit})") + (Kind == ColumnKind.Builder ? " " + BuilderMark : "");

    /// <summary>How its numbers are written: its own style or the usual one of its kind.</summary>
    public NumberStyle NumberStyle => Style ?? Kind switch
    {
        ColumnKind.Money => new NumberStyle.Decimals(2, Thousands: true),
        ColumnKind.Date => new NumberStyle.Date(),
        _ => new NumberStyle.General(),
    };
}

/// <summary>How a number is shown. It never changes the value.</summary>
public abstract record NumberStyle
{
    public sealed record General : NumberStyle;

    public sealed record Decimals(int Places, bool Thousands = false) : NumberStyle;

    /// <summary>Whole and fraction over a fixed denominator, as on a tape measure.</summary>
    public sealed record Fraction(int Denominator) : NumberStyle;

    public sealed record Percent(int Places) : NumberStyle;

    public sealed record Date : NumberStyle;
}

/// <summary>One row: as many cells as the table has columns.</summary>
/// <param name="Key">The same text as the first cell shows; unique in its table.</param>
/// <param name="Cells">In the order of the columns.</param>
public sealed record Row(string Key, ImmutableArray<Cell> Cells);

/// <summary>What stands in one cell. The conversions let a row be written as a plain list.</summary>
public abstract record Cell
{
    /// <summary>Where in the spec the value comes from. Never written to an output; used to say where a hand-made change belongs.</summary>
    public Span? Place { get; init; }

    public Cell From(Span? place) => this with { Place = place };

    /// <summary>How its number is written where its column's way does not suit; null for the column's.</summary>
    public NumberStyle? Style { get; init; }

    /// <summary>A number of things, written without decimals among figures that have some; any other cell as it is.</summary>
    public Cell AsCount(bool isCount = true) => isCount ? this with { Style = new NumberStyle.Decimals(0) } : this;

    public static readonly Cell Empty = new Blank();

    public static implicit operator Cell(string text) => new Words(text);

    public static implicit operator Cell(double number) => new Number(number);

    public static implicit operator Cell(DateOnly date) => new Date(date);

    public static implicit operator Cell(Formula formula) => new Live(formula);

    public sealed record Blank : Cell;

    public sealed record Words(string Value) : Cell;

    /// <summary>A figure of the program, taken at 12 significant digits so that the last bits of trigonometry, which differ between machines, show nowhere.</summary>
    public sealed record Number(double Value) : Cell;

    public sealed record Date(DateOnly Value) : Cell;

    /// <summary>A live formula: the program evaluates it itself, and a spreadsheet again whenever an input changes.</summary>
    public sealed record Live(Formula Formula) : Cell;
}
