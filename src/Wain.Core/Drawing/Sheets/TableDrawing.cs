using System.Collections.Immutable;
using Wain.Core.Geometry.Kernel;

namespace Wain.Core.Drawing;

/// <summary>A column of a drawn table.</summary>
/// <param name="Right">True for numbers, which line up at their last digit.</param>
public sealed record TableColumn(string Head, bool Right = false);

/// <summary>Small tables on sheets and in plots: the steps of a sweep, the members of a frame. Measured once, when it is made.</summary>
public sealed class TableDrawing
{
    private const double Row = TextMark.Small * 1.7, Air = 1.2;

    /// <param name="rows">Texts, as many in a row as there are columns.</param>
    public TableDrawing(string title, ImmutableArray<TableColumn> columns, ImmutableArray<ImmutableArray<string>> rows)
        : this(title, columns, rows, [.. columns.Select((c, i) => rows.Select(r => Lettering.Width(r[i], TextMark.Small)).Append(Lettering.Width(c.Head, TextMark.Small, true)).Max() + 2 * Air)]) { }

    private TableDrawing(string title, ImmutableArray<TableColumn> columns, ImmutableArray<ImmutableArray<string>> rows, ImmutableArray<double> widths) => (Title, Columns, Rows, Widths) = (title, columns, rows, widths);

    public string Title { get; }

    public ImmutableArray<TableColumn> Columns { get; }

    public ImmutableArray<ImmutableArray<string>> Rows { get; }

    /// <summary>Each column as wide as its widest text, mm.</summary>
    public ImmutableArray<double> Widths { get; }

    public double Width => Math.Max(Widths.Sum(), Title.Length > 0 ? Lettering.Width(Title, TextMark.Medium, true) : 0);

    /// <summary>Other rows under the same heads.</summary>
    public TableDrawing Of(ImmutableArray<ImmutableArray<string>> rows) => new(Title, Columns, rows);

    /// <summary>With the rows of another table of the same columns below.</summary>
    public TableDrawing Joined(TableDrawing more) => new(Title, Columns, Rows.AddRange(more.Rows), [.. Widths.Select((w, i) => Math.Max(w, more.Widths[i]))]);

    public double Height => HeightOf(Rows.Length);

    private double HeightOf(int rows) => (Title.Length > 0 ? TextMark.Medium + 2.5 : 0) + (rows + 1) * Row + 1;

    public Picture Draw() => new(Title, string.Join(", ", Columns.Select(c => c.Head)), Width + 8, Height + 8, Marks(new(4, Height + 4)));

    /// <summary>Cut into tables that are no higher than a page leaves room for; each has the heads.</summary>
    public IEnumerable<TableDrawing> Pages(double height)
    {
        int fit = Math.Max(1, (int)((height - HeightOf(0)) / Row));
        return Rows.Length == 0 ? [this] : Rows.Chunk(fit).Select(rows => Of([.. rows]));
    }

    /// <param name="corner">Upper left, paper mm.</param>
    public ImmutableArray<Mark> Marks(Vec2 corner)
    {
        var marks = ImmutableArray.CreateBuilder<Mark>();
        var widths = Widths;
        double y = corner.Y, right = corner.X + widths.Sum();
        if (Title.Length > 0)
        {
            marks.Add(new TextMark(new(corner.X, y - TextMark.Medium), Title, TextMark.Medium, Bold: true));
            y -= TextMark.Medium + 2.5;
        }
        Rule(y, Pen.Outline);
        Line(y, [.. Columns.Select(c => c.Head)], true);
        y -= Row;
        Rule(y, Pen.Edge);
        foreach (var row in Rows)
        {
            Line(y, row, false);
            y -= Row;
            Rule(y, Pen.Narrow);
        }
        Rule(y, Pen.Outline);
        return marks.ToImmutable();

        void Rule(double at, Pen pen) => marks.Add(new PathMark(Contour.Line(new(corner.X, at), new(right, at)), pen));

        void Line(double top, ImmutableArray<string> texts, bool bold)
        {
            double x = corner.X;
            for (int i = 0; i < Columns.Length; i++)
            {
                bool atRight = Columns[i].Right;
                if (texts[i].Length > 0) marks.Add(new TextMark(new(atRight ? x + widths[i] - Air : x + Air, top - (Row + TextMark.Small) / 2), texts[i], Anchor: atRight ? Anchor.End : Anchor.Start, Bold: bold));
                x += widths[i];
            }
        }
    }
}
