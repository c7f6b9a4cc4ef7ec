using System.Collections.Immutable;
using Wain.Core.Drawing;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Reporting;
using Paper = Wain.Core.Drawing.Paper;

namespace Wain.Core.CutLists;

/// <summary>A picture with the name of its file.</summary>
public sealed record CuttingPicture(string Name, Picture Picture);

/// <summary>
/// Each sheet and stick as it is cut. Black on white: parts have no area, what is kept is hatched by its diagonals, waste is grey. A mark that is
/// too long for its part becomes a number, and a list beside the sheet says what it stands for.
/// </summary>
public static class CuttingPictures
{
    private const double Line = TextMark.Small * 1.7;

    /// <summary>One picture for each different sheet, and one for every twelve different sticks.</summary>
    public static IEnumerable<CuttingPicture> Of(CuttingPlan plan, ReportUnits units, Func<string, string, TitleBlock> title)
    {
        foreach (var m in plan.Materials)
        {
            if (m.Kind == CutKind.Stick)
            {
                int page = 0;
                foreach (var some in m.Sheets.Select((s, i) => (Sheet: s, Index: i)).Chunk(12))
                    yield return new($"{File(m)}_{++page}", Sticks(m, some, units, title($"{m.Material}, sticks", $"{some[0].Index + 1} to {some[^1].Index + 1} of {m.Sheets.Length}")).ToPicture());
                continue;
            }
            for (int i = 0; i < m.Sheets.Length; i++)
                yield return new($"{File(m)}_{i + 1}", OneSheet(m.Sheets[i], units, title(CuttingTables.Mark(m, i), $"{i + 1} of {m.Sheets.Length}")).ToPicture());
        }
    }

    private static string File(MaterialPlan plan) => string.Concat(plan.Material.Select(c => char.IsAsciiLetterOrDigit(c) ? c : '_'));

    private static Sheet OneSheet(CutPlanSheet sheet, ReportUnits units, TitleBlock title)
    {
        // What is narrow and long lies down, so that it fills the page.
        var area = SheetFrame.Area(Paper.A4, title);
        double listWidth = 92;
        var room = new Box(area.Left + 6, area.Bottom + 8, area.Right - listWidth, area.Top - 6);
        Vec2 Lie(double x, double y) => new(y / CutList.UnitsPerMillimetre, (sheet.Width - x) / CutList.UnitsPerMillimetre);
        var model = Box.Of([Lie(0, 0), Lie(sheet.Width, sheet.Length)]);
        var view = View.Fit(model, room);
        Box Area(long x, long y, long width, long length) => view.ToPaper(Box.Of([Lie(x, y), Lie(x + width, y + length)]));
        var marks = ImmutableArray.CreateBuilder<Mark>();
        var whole = Area(0, 0, sheet.Width, sheet.Length);
        marks.Add(new PathMark(Contour.Rectangle(whole), Pen.Outline, 0.85));
        foreach (var offcut in sheet.Offcuts)
        {
            var box = Area(offcut.X, offcut.Y, offcut.Width, offcut.Length);
            marks.Add(new PathMark(Contour.Rectangle(box), Pen.Hidden, 1));
            marks.Add(new PathMark(Contour.Line(new(box.Left, box.Bottom), new(box.Right, box.Top)), Pen.Hidden));
            marks.Add(new PathMark(Contour.Line(new(box.Left, box.Top), new(box.Right, box.Bottom)), Pen.Hidden));
            Label(marks, box, ["keep", $"{CuttingTables.Say(units, offcut.Width)} by {CuttingTables.Say(units, offcut.Length)}"]);
        }
        var rows = ImmutableArray.CreateBuilder<ImmutableArray<string>>();
        for (int i = 0; i < sheet.Parts.Length; i++)
        {
            var p = sheet.Parts[i];
            var box = Area(p.X, p.Y, p.Width, p.Length);
            marks.Add(new PathMark(p.Outline.IsEmpty ? Contour.Rectangle(box) : Contour.Polygon([.. p.Outline.Select(c => view.ToPaper(Lie(c.X, c.Y)))]), Pen.Outline, 1));
        }
        for (int i = 0; i < sheet.Parts.Length; i++)
        {
            var p = sheet.Parts[i];
            string number = (i + 1).ToString(System.Globalization.CultureInfo.InvariantCulture), size = $"{CuttingTables.Say(units, p.Width)} by {CuttingTables.Say(units, p.Length)}";
            // Of two nested tapers each is marked in its own half, not where the rectangles around them lap.
            var at = p.Outline.IsEmpty ? Area(p.X, p.Y, p.Width, p.Length) : Middle(p, Area(p.X, p.Y, p.Width, p.Length), c => view.ToPaper(Lie(c.X, c.Y)));
            Label(marks, at, [number, size]);
            rows.Add([number, Lettering.Shorten(p.Mark, TextMark.Small, 50), CuttingTables.Say(units, p.Width), CuttingTables.Say(units, p.Length)]);
        }
        var arrow = new TextMark(new(whole.Left, whole.Bottom - 5), "Length of the stock, and its grain, runs from left to right. Places of cuts count from its left and its upper edge.");
        marks.Add(arrow);
        double rowsHeight = area.Height - 4;
        var table = new TableDrawing("", [new("", true), new("Part"), new("across", true), new("along", true)], rows.ToImmutable());
        foreach (var page in table.Pages(rowsHeight).Take(1)) marks.AddRange(page.Marks(new(area.Right - listWidth + 4, area.Top)));
        return new Sheet(Paper.A4, title, marks.ToImmutable());
    }

    private static Box Middle(PlacedPart part, Box bounds, Func<CutPoint, Vec2> toPaper)
    {
        double area = 0, x = 0, y = 0;
        var points = part.Outline.Select(toPaper).ToList();
        for (int i = 0; i < points.Count; i++)
        {
            var (a, b) = (points[i], points[(i + 1) % points.Count]);
            double cross = a.Cross(b);
            (area, x, y) = (area + cross, x + (a.X + b.X) * cross, y + (a.Y + b.Y) * cross);
        }
        if (Math.Abs(area) < 1e-9) return bounds;
        var centre = new Vec2(x / (3 * area), y / (3 * area));
        double wide = Math.Min(centre.X - bounds.Left, bounds.Right - centre.X), high = Math.Min(centre.Y - bounds.Bottom, bounds.Top - centre.Y);
        return new Box(centre.X - wide, centre.Y - high, centre.X + wide, centre.Y + high);
    }

    /// <summary>As many of the lines as have room, level or upright; the first at least, which the list explains.</summary>
    private static void Label(ImmutableArray<Mark>.Builder marks, Box box, string[] lines)
    {
        for (int count = lines.Length; count >= 1; count--)
        {
            double wide = lines.Take(count).Max(l => Lettering.Width(l, TextMark.Small)) + 1.5, high = count * Line;
            bool level = wide <= box.Width && high <= box.Height, upright = wide <= box.Height && high <= box.Width;
            if (!level && !upright && count > 1) continue;
            for (int i = 0; i < count; i++)
            {
                double down = (count - 1) / 2.0 - i;
                var at = box.Centre + (level || !upright ? new Vec2(0, down * Line - TextMark.Small / 2) : new Vec2(-down * Line + TextMark.Small / 2, 0));
                var text = new TextMark(at, lines[i], Anchor: Anchor.Middle, Angle: level || !upright ? 0 : Math.PI / 2, Bold: i == 0);
                marks.Add(text.Backing);
                marks.Add(text);
            }
            return;
        }
    }

    private static Sheet Sticks(MaterialPlan plan, (CutPlanSheet Sheet, int Index)[] some, ReportUnits units, TitleBlock title)
    {
        var area = SheetFrame.Area(Paper.A4, title);
        double longest = some.Max(s => s.Sheet.Length), scale = (area.Width - 34) / longest, pitch = area.Height / 12;
        var marks = ImmutableArray.CreateBuilder<Mark>();
        for (int k = 0; k < some.Length; k++)
        {
            var (stick, index) = some[k];
            double top = area.Top - k * pitch, left = area.Left + 32, high = 4.4;
            double X(long at) => left + at * scale;
            Box Bar(long from, long to) => new(X(from), top - high, X(to), top);
            marks.Add(new TextMark(new(area.Left, top - high + 1), $"{index + 1}{(stick.Times > 1 ? $" ({stick.Times} so)" : "")}", Bold: true));
            marks.Add(new TextMark(new(area.Left, top - high - 2.6), (stick.Owned ? "owned " : "") + CuttingTables.Say(units, stick.Length)));
            marks.Add(new PathMark(Contour.Rectangle(Bar(0, stick.Length)), Pen.Outline, 0.85));
            foreach (var fault in stick.Faults) marks.Add(new PathMark(Contour.Rectangle(Bar(fault.From, fault.To)), Pen.Edge, 0.3));
            foreach (var o in stick.Offcuts)
            {
                marks.Add(new PathMark(Contour.Rectangle(Bar(o.X, o.X + o.Length)), Pen.Hidden, 1));
                Label(marks, Bar(o.X, o.X + o.Length), [$"keep {CuttingTables.Say(units, o.Length)}"]);
            }
            var words = new List<string>();
            for (int i = 0; i < stick.Parts.Length; i++)
            {
                var p = stick.Parts[i];
                string letter = ((char)('A' + i % 26)).ToString();
                marks.Add(new PathMark(Contour.Rectangle(Bar(p.X, p.X + p.Length)), Pen.Outline, 1));
                Label(marks, Bar(p.X, p.X + p.Length), Lettering.Width($"{letter} {CuttingTables.Say(units, p.Length)}", TextMark.Small) + 2 < p.Length * scale ? [$"{letter} {CuttingTables.Say(units, p.Length)}"] : [letter]);
                words.Add($"{letter} {p.Mark}");
            }
            double y = top - high - 3.6;
            foreach (string line in Lettering.Wrap(string.Join(", ", words), TextMark.Small, area.Right - left).Take(2))
            {
                marks.Add(new TextMark(new(left, y), line));
                y -= TextMark.Small * 1.3;
            }
        }
        return new Sheet(Paper.A4, title, marks.ToImmutable());
    }
}
