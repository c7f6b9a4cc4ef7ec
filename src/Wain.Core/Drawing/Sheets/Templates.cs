using System.Collections.Immutable;
using System.Globalization;
using Wain.Core.Geometry.Kernel;

namespace Wain.Core.Drawing;

/// <summary>A drawing to be glued to the work or pricked through, at full size.</summary>
/// <param name="Marks">mm, at 1:1, anywhere.</param>
/// <param name="Note">What it is for and which side shows.</param>
public sealed record Template(string Name, string PartMark, string Note, ImmutableArray<Mark> Marks);

/// <summary>
/// One-to-one templates tiled over pages. Neighbouring pages share a strip: cut one along its dashed line, lay it over the other's strip so that the crosses meet.
/// Every page carries its place in the grid and a check bar, because one page printed "to fit" spoils them all.
/// </summary>
public static class Templates
{
    private const double Margin = 12, Foot = 16, Overlap = 15, Cross = 3;
    private const string Warning = "Print at actual size (100 percent, no scaling). Measure the check bar before you cut.";

    /// <summary>A key page, then the pages that hold any of the drawing, row by row from the top. A template that fits one page has no key.</summary>
    /// <param name="metric">True for a check bar in millimetres alone.</param>
    public static ImmutableArray<Picture> Tile(Template template, Paper paper, bool metric = false)
    {
        var bounds = new GroupMark(null, template.Marks).Bounds;
        if (bounds.IsEmpty) return [];
        bounds = bounds.Grow(2);
        var window = new Box(Margin, Margin + Foot, paper.Width - Margin, paper.Height - Margin);
        double across = window.Width - Overlap, down = window.Height - Overlap;
        int columns = Count(bounds.Width, window.Width, across), rows = Count(bounds.Height, window.Height, down);
        // The drawing stands in the middle of the grid, so that no page holds a sliver of it.
        double left = bounds.Centre.X - ((columns - 1) * across + window.Width) / 2, top = bounds.Centre.Y + ((rows - 1) * down + window.Height) / 2;

        var tiles = new List<(int Row, int Column, Box Shown)>();
        for (int row = 0; row < rows; row++)
        {
            for (int column = 0; column < columns; column++)
            {
                double x = left + column * across, y = top - row * down;
                var shown = new Box(x, y - window.Height, x + window.Width, y);
                if (template.Marks.Any(m => Touches(m, shown))) tiles.Add((row, column, shown));
            }
        }
        var pages = tiles.Select(t => Page(template, paper, window, tiles, t, metric));
        return tiles.Count == 1 ? [.. pages] : [Key(template, paper, window, bounds, tiles, metric), .. pages];
    }

    private static int Count(double length, double window, double step) => length <= window ? 1 : 1 + (int)Math.Ceiling((length - window) / step - 1e-9);

    /// <summary>Rows are letters from the top, columns are numbers.</summary>
    private static string Label(int row, int column)
    {
        string letters = "";
        for (int r = row; r >= 0; r = r / 26 - 1) letters = (char)('A' + r % 26) + letters;
        return letters + (column + 1).ToString(CultureInfo.InvariantCulture);
    }

    private static bool Touches(Mark mark, Box box) => mark switch
    {
        PathMark path => path.Contours.Any(c => c.Flatten() is var p && p.Zip(p.Skip(1)).Any(s => box.Crosses(s.First, s.Second))),
        GroupMark group => group.Marks.Any(m => Touches(m, box)),
        _ => mark.Bounds.Overlaps(box),
    };

    private static Picture Page(Template template, Paper paper, Box window, List<(int Row, int Column, Box Shown)> tiles, (int Row, int Column, Box Shown) tile, bool metric)
    {
        var view = new View(1, new Vec2(window.Left - tile.Shown.Left, window.Bottom - tile.Shown.Bottom));
        string label = Label(tile.Row, tile.Column);
        var marks = ImmutableArray.CreateBuilder<Mark>();
        marks.Add(new GroupMark(template.Name, [.. template.Marks.Select(m => m.Map(view))], window));
        marks.Add(new PathMark(Contour.Rectangle(window), Pen.Narrow));
        (int Row, int Column, bool Level, double At, string Word)[] sides =
        [
            (tile.Row, tile.Column + 1, false, window.Right - Overlap, "right"), (tile.Row, tile.Column - 1, false, window.Left + Overlap, "left"),
            (tile.Row + 1, tile.Column, true, window.Bottom + Overlap, "below"), (tile.Row - 1, tile.Column, true, window.Top - Overlap, "above"),
        ];
        var neighbours = new List<string>();
        foreach (var side in sides)
        {
            if (!tiles.Any(t => t.Row == side.Row && t.Column == side.Column)) continue;
            neighbours.Add($"{side.Word}: {Label(side.Row, side.Column)}");
            var line = side.Level ? Contour.Line(new(window.Left, side.At), new(window.Right, side.At)) : Contour.Line(new(side.At, window.Bottom), new(side.At, window.Top));
            marks.Add(new PathMark(line, Pen.Hidden));
            // The crosses stand in the middle of the strip, at the same place of the drawing on both pages.
            double centre = side.Word is "right" or "above" ? side.At + Overlap / 2 : side.At - Overlap / 2;
            foreach (double share in (double[])[0.25, 0.75]) marks.AddRange(Register(side.Level ? new(window.Left + window.Width * share, centre) : new(centre, window.Bottom + window.Height * share)));
        }
        string joins = neighbours.Count == 0 ? "" : "  Joins " + string.Join(", ", neighbours) + ". Cut along a dashed line, lay it on the neighbour's strip until the crosses meet.";
        marks.AddRange(FootOf(template, window, tiles.Count == 1 ? "" : label, joins, metric));
        return new($"{template.PartMark} {template.Name} {(tiles.Count == 1 ? "" : label)}".Trim(), $"Full-size template. {template.Note}", paper.Width, paper.Height, marks.ToImmutable());
    }

    private static IEnumerable<Mark> Register(Vec2 at)
    {
        yield return Arrows.Line(at - new Vec2(Cross, 0), at + new Vec2(Cross, 0));
        yield return Arrows.Line(at - new Vec2(0, Cross), at + new Vec2(0, Cross));
        yield return new PathMark(Contour.Circle(at, Cross / 2), Pen.Narrow);
    }

    private static IEnumerable<Mark> FootOf(Template template, Box window, string label, string joins, bool metric)
    {
        double top = window.Bottom - 1.5, right = window.Right;
        if (label.Length > 0)
        {
            var big = new TextMark(new(right, top - 7), label, 7, Anchor.End, Bold: true);
            yield return big;
            right -= big.Width + 4;
        }
        foreach (var mark in SheetFrame.Bar(new(window.Left, top - 3), 100, "100 mm", 2.6)) yield return mark;
        if (!metric) foreach (var mark in SheetFrame.Bar(new(window.Left, top - 6.6), 101.6, "4 in", 2.6)) yield return mark;
        double x = window.Left + 118;
        yield return new TextMark(new(x, top - 3), Lettering.Shorten($"{template.PartMark}  {template.Name}  1:1", TextMark.Small, right - x, true), Bold: true);
        yield return new TextMark(new(x, top - 7), Lettering.Shorten(template.Note, TextMark.Small, right - x));
        double y = top - 11;
        foreach (string line in Lettering.Wrap(Warning + joins, TextMark.Small, right - window.Left))
        {
            yield return new TextMark(new(window.Left, y), line);
            y -= TextMark.Small * 1.5;
        }
    }

    private static Picture Key(Template template, Paper paper, Box window, Box bounds, List<(int Row, int Column, Box Shown)> tiles, bool metric)
    {
        var all = tiles.Aggregate(bounds, (b, t) => b.Union(t.Shown));
        var view = View.Fit(all, new(window.Left + 5, window.Bottom + 8, window.Right - 5, window.Top - 14));
        var marks = ImmutableArray.CreateBuilder<Mark>();
        string title = $"{template.PartMark} {template.Name}".Trim();
        marks.Add(new TextMark(new(window.Left, window.Top - TextMark.Large), Lettering.Shorten(title, TextMark.Large, window.Width, true), TextMark.Large, Bold: true));
        marks.Add(new TextMark(new(window.Left, window.Top - 11), $"Key to {tiles.Count} template pages, {Scales.Text(view.Scale)}. The pages themselves are full size."));
        // Lettering has a fixed height and would drown a small key.
        marks.AddRange(template.Marks.Where(m => m is not TextMark).Select(m => m.Map(view)));
        foreach (var (row, column, shown) in tiles)
        {
            var box = view.ToPaper(shown);
            marks.Add(new PathMark(Contour.Rectangle(box), Pen.Hidden));
            var label = new TextMark(box.Centre - new Vec2(0, TextMark.Large / 2), Label(row, column), TextMark.Large, Anchor.Middle, Bold: true);
            marks.Add(label.Backing);
            marks.Add(label);
        }
        marks.AddRange(FootOf(template, window, "", "", metric));
        return new($"{title} key", $"Key to the pages of a full-size template. {template.Note}", paper.Width, paper.Height, marks.ToImmutable());
    }
}
