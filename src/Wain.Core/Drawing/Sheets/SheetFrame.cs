using System.Collections.Immutable;
using Wain.Core.Geometry.Kernel;

namespace Wain.Core.Drawing;

/// <summary>The border, the block at the foot and the draft band of a sheet. The block is two rows: what the part is, and what the sheet is.</summary>
public static class SheetFrame
{
    private const double Margin = 10, Row = 11, Pad = 1.6, Air = 3, Line = TextMark.Small * Lettering.Leading;
    private const int ErrorLines = 6;
    private static readonly Pen Heavy = new(LineType.Continuous, 0.7);

    private static Box Border(Paper paper) => new(Margin, Margin, paper.Width - Margin, paper.Height - Margin);

    /// <summary>Where the drawing may stand.</summary>
    public static Box Area(Paper paper, TitleBlock title)
    {
        var border = Border(paper);
        return new(border.Left + Air, BlockTop(border, title) + Air, border.Right - Air, DraftBottom(border, title) - Air);
    }

    public static Picture Compose(Sheet sheet)
    {
        var border = Border(sheet.Paper);
        var marks = ImmutableArray.CreateBuilder<Mark>();
        marks.Add(new GroupMark(sheet.Title.Name, sheet.Marks));
        if (sheet.Title.IsDraft) marks.Add(Watermark(Area(sheet.Paper, sheet.Title)));
        marks.Add(new PathMark(Contour.Rectangle(border), Heavy));
        marks.AddRange(Draft(border, sheet.Title));
        marks.AddRange(Block(border, sheet.Title));
        string description = sheet.Description.Length > 0 ? sheet.Description : string.Join(", ", new[] { sheet.Title.Name, sheet.Title.View, sheet.Title.Weight }.Where(t => t.Length > 0));
        string draft = sheet.Title.IsDraft ? "DRAFT: " : "";
        return new($"{draft}{sheet.Title.PartMark} {sheet.Title.Name}".Trim(), description, sheet.Paper.Width, sheet.Paper.Height, marks.ToImmutable());
    }

    private static List<(string Text, bool Bold)> Foot(Box border, TitleBlock title) =>
    [
        .. Lettering.Wrap(title.Caution.Length > 0 ? "Caution: " + title.Caution : "", TextMark.Small, border.Width - 2 * Pad, true).Select(l => (l, true)),
        .. Lettering.Wrap(title.Units, TextMark.Small, border.Width - 2 * Pad).Select(l => (l, false)),
    ];

    private static double BlockTop(Box border, TitleBlock title) =>
        border.Bottom + 2 * Row + (Foot(border, title).Count is var lines && lines > 0 ? lines * Line + Pad : 0);

    private static List<string> Errors(Box border, TitleBlock title)
    {
        if (!title.IsDraft) return [];
        var lines = title.DraftErrors.Select(e => Lettering.Shorten(e, TextMark.Small, border.Width - 2 * Pad)).ToList();
        if (lines.Count <= ErrorLines) return lines;
        int more = lines.Count - (ErrorLines - 1);
        return [.. lines.Take(ErrorLines - 1), $"and {more} more errors"];
    }

    private static double DraftBottom(Box border, TitleBlock title) =>
        title.IsDraft ? border.Top - (TextMark.Large + 2.5 * Pad + Errors(border, title).Count * Line) : border.Top;

    private static IEnumerable<Mark> Draft(Box border, TitleBlock title)
    {
        if (!title.IsDraft) yield break;
        double bottom = DraftBottom(border, title), y = border.Top - Pad - TextMark.Large;
        yield return new PathMark(Contour.Line(new(border.Left, bottom), new(border.Right, bottom)), Heavy);
        var word = new TextMark(new(border.Left + Pad, y), "DRAFT", TextMark.Large, Bold: true);
        yield return word;
        string note = title.DraftErrors.Length == 1 ? "Do not cut from this sheet. The spec has an error:" : "Do not cut from this sheet. The spec has errors:";
        yield return new TextMark(new(border.Left + Pad + word.Width + 3, y), note, TextMark.Medium);
        foreach (string error in Errors(border, title))
        {
            y -= Line;
            yield return new TextMark(new(border.Left + Pad, y), error);
        }
    }

    private static TextMark Watermark(Box area)
    {
        double angle = Math.Atan2(area.Height, area.Width);
        double height = Math.Min(area.Height, area.Width) / 4;
        var down = Vec2.FromAngle(angle - Math.PI / 2) * (height / 2);
        return new(area.Centre + down, "DRAFT", height, Anchor.Middle, angle, Bold: true, Hollow: true);
    }

    private static IEnumerable<Mark> Block(Box border, TitleBlock title)
    {
        double middle = border.Bottom + Row, top = border.Bottom + 2 * Row, y = BlockTop(border, title) - Line;
        foreach (var (line, bold) in Foot(border, title))
        {
            yield return new TextMark(new(border.Left + Pad, y), line, Bold: bold);
            y -= Line;
        }
        yield return new PathMark(Contour.Line(new(border.Left, top), new(border.Right, top)), Heavy);
        yield return new PathMark(Contour.Line(new(border.Left, middle), new(border.Right, middle)), Pen.Edge);

        // Upper row: the part mark stands at the right edge in the largest type, where a thumb leafs through a pile of sheets.
        double right = border.Right;
        if (title.PartMark.Length > 0)
        {
            // Two marks that differ at their ends must not look alike, so a long one is set smaller before it is cut.
            double height = new[] { 7, TextMark.Large, TextMark.Medium }.First(h => h == TextMark.Medium || Lettering.Width(title.PartMark, h, true) <= border.Width * 0.4);
            double markWidth = Math.Min(Lettering.Width(title.PartMark, height, true), border.Width * 0.4);
            string mark = Lettering.Shorten(title.PartMark, height, markWidth + 1e-6, true);
            yield return new TextMark(new(right - 2 * Pad, middle + (Row - height) / 2), mark, height, Anchor.End, Bold: true);
            right -= markWidth + 4 * Pad;
            yield return Upright(right, middle, top);
        }
        if (title.View.Length > 0)
        {
            // Two lines, and on a narrow sheet three smaller ones.
            double height = Lettering.Wrap(title.View, TextMark.Medium, border.Width * 0.3).Count <= 2 ? TextMark.Medium : TextMark.Small, leading = height * 1.45;
            var lines = Lettering.Wrap(title.View, height, border.Width * 0.3).Take(3).ToList();
            double width = lines.Max(l => Lettering.Width(l, height));
            double first = middle + (Row - height + (lines.Count - 1) * leading) / 2;
            for (int i = 0; i < lines.Count; i++) yield return new TextMark(new(right - 2 * Pad - width, first - i * leading), lines[i], height);
            right -= width + 4 * Pad;
            yield return Upright(right, middle, top);
        }
        yield return Name(title.Name, border.Left + 2 * Pad, middle, right - border.Left - 4 * Pad);

        double left = border.Left;
        if (title.Scale is { } scale)
        {
            foreach (var mark in ScaleBar(new(left + 2 * Pad, border.Bottom), scale, title.Metric)) yield return mark;
            left += ScaleCell;
            yield return Upright(left, border.Bottom, middle);
        }
        (string Caption, string Value)[] all =
        [
            ("Weight", title.Weight),
            ("Revision", title.Revision),
            ("Values", title.ValuesHash.Length > 12 ? title.ValuesHash[..12] : title.ValuesHash),
            ("Sheet", title.Number),
        ];
        var cells = all.Where(c => c.Value.Length > 0).ToList();
        List<double> Needed(double height) => [.. cells.Select(c => Math.Max(Lettering.Width(c.Value, height), Lettering.Width(c.Caption, TextMark.Small)) + 2 * Pad)];
        double valueHeight = Needed(TextMark.Medium).Sum() <= border.Right - left ? TextMark.Medium : TextMark.Small;
        var needed = Needed(valueHeight);
        double share = (border.Right - left - needed.Sum()) / Math.Max(1, cells.Count);
        for (int i = 0; i < cells.Count; i++)
        {
            double width = Math.Max(needed[i] + share, 4 * Pad);
            yield return new TextMark(new(left + Pad, middle - Pad - TextMark.Small), cells[i].Caption);
            yield return new TextMark(new(left + Pad, border.Bottom + Pad), Lettering.Shorten(cells[i].Value, valueHeight, width - 2 * Pad + 1e-6), valueHeight);
            left += width;
            if (i + 1 < cells.Count) yield return Upright(left, border.Bottom, middle);
        }
    }

    private static TextMark Name(string name, double left, double bottom, double width)
    {
        double height = new[] { TextMark.Large, TextMark.Medium, TextMark.Small }.First(h => h == TextMark.Small || Lettering.Width(name, h, true) <= width);
        return new(new(left, bottom + (Row - height) / 2), Lettering.Shorten(name, height, width, true), height, Bold: true);
    }

    private static PathMark Upright(double x, double bottom, double top) => new(Contour.Line(new(x, bottom), new(x, top)), Pen.Edge);

    private const double BarLength = 36, ScaleCell = 72;

    /// <summary>Bars of four parts each, inches over millimetres, or millimetres alone: they still tell the truth when a copier does not.</summary>
    private static IEnumerable<Mark> ScaleBar(Vec2 corner, double scale, bool metric)
    {
        yield return new TextMark(corner + new Vec2(0, (Row - TextMark.Medium) / 2), Scales.Text(scale), TextMark.Medium, Bold: true);
        double left = corner.X + 17;
        double inches = Largest([1, 2, 4, 6, 12, 24, 48, 96, 144, 240, 480, 960, 1200, 2400, 4800], BarLength * scale / 25.4);
        double mm = Largest([10, 20, 40, 100, 200, 400, 1000, 2000, 4000, 10000, 20000, 40000, 100000], BarLength * scale);
        if (!metric) foreach (var mark in Bar(new(left, corner.Y + 6.2), inches * 25.4 / scale, LengthText.OfInches(inches * 25.4))) yield return mark;
        foreach (var mark in Bar(new(left, corner.Y + (metric ? 4 : 1.8)), mm / scale, LengthText.OfMillimetres(mm))) yield return mark;
    }

    private static double Largest(ReadOnlySpan<double> steps, double limit)
    {
        double best = steps[0];
        foreach (double step in steps)
        {
            if (step <= limit) best = step;
        }
        return best;
    }

    internal static IEnumerable<Mark> Bar(Vec2 at, double length, string label, double thick = 2.2)
    {
        for (int i = 0; i < 4; i++)
        {
            var part = new Box(at.X + length * i / 4, at.Y, at.X + length * (i + 1) / 4, at.Y + thick);
            yield return new PathMark(Contour.Rectangle(part), Pen.Narrow, i % 2 == 0 ? 0 : 1);
        }
        yield return new TextMark(new(at.X + length + 1.5, at.Y + (thick - TextMark.Small) / 2), label);
    }
}
