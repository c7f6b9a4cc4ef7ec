using System.Collections.Immutable;
using System.Globalization;
using Wain.Core.Drawing;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Reporting;
using Paper = Wain.Core.Drawing.Paper;

namespace Wain.Core.CutLists;

/// <summary>A sheet, board or run of a roll with its parts and cuts numbered, and lists of both beside it. The length of the stock lies from left to right.</summary>
internal static class SheetPicture
{
    private const double ListWidth = 90, Gap = 4, NameWidth = 43, Line = TextMark.Small * Lettering.Leading;

    public static IEnumerable<Sheet> Of(MaterialPlan plan, CutPlanSheet sheet, ReportUnits units, TitleBlock title, Paper paper)
    {
        var area = SheetFrame.Area(paper, title);
        var room = new Box(area.Left + 2, area.Bottom + 4 * Line + 8, area.Right - ListWidth - Gap, area.Top - 6);
        var drawing = new Bands(sheet, room);
        var marks = ImmutableArray.CreateBuilder<Mark>();
        Draw(marks, drawing, sheet, units);
        double y = drawing.Bottom - 9;
        foreach (string text in Caption(plan, sheet, units).SelectMany(c => Lettering.Wrap(c, TextMark.Small, room.Width)))
        {
            marks.Add(new TextMark(new(room.Left, y), text));
            y -= Line;
        }
        // The lists run down beside the drawing, then below it, then on pages of their own.
        var columns = new Queue<Box>([new Box(area.Right - ListWidth, area.Bottom, area.Right, area.Top), new Box(room.Left, area.Bottom, room.Left + ListWidth, y)]);
        var lists = new[] { PartList(plan.Material, sheet, units), CutOrder(sheet, units) }.Where(l => l.Rows.Length > 0);
        var open = new Queue<TableDrawing>(lists);
        while (true)
        {
            Fill(marks, columns, open);
            yield return new Sheet(paper, title, marks.ToImmutable());
            if (open.Count == 0) yield break;
            marks.Clear();
            columns = new Queue<Box>(Enumerable.Range(0, 3).Select(k => new Box(area.Left + k * ListWidth, area.Bottom, area.Left + (k + 1) * ListWidth, area.Top)));
        }
    }

    private static void Fill(ImmutableArray<Mark>.Builder marks, Queue<Box> columns, Queue<TableDrawing> open)
    {
        double? top = null;
        while (open.Count > 0 && columns.Count > 0)
        {
            var (column, table) = (columns.Peek(), open.Peek());
            double from = top ?? column.Top, least = table.Of(table.Rows[..1]).Height;
            if (from - column.Bottom < least)
            {
                columns.Dequeue();
                top = null;
                continue;
            }
            var pages = table.Pages(from - column.Bottom).ToList();
            marks.AddRange(pages[0].Marks(new(column.Left, from)));
            open.Dequeue();
            top = from - pages[0].Height - 4;
            if (pages.Count == 1) continue;
            var rest = open.ToList();
            open.Clear();
            open.Enqueue(table.Of(table.Rows[pages[0].Rows.Length..]));
            foreach (var next in rest) open.Enqueue(next);
            columns.Dequeue();
            top = null;
        }
    }

    private static IEnumerable<string> Caption(MaterialPlan plan, CutPlanSheet sheet, ReportUnits units)
    {
        string size = plan.Kind == CutKind.Roll ? $"{CuttingTables.Say(units, sheet.Length)} off a roll {CuttingTables.Say(units, sheet.Width)} wide" : $"{CuttingTables.Say(units, sheet.Width)} by {CuttingTables.Say(units, sheet.Length)}";
        yield return $"{(sheet.Owned ? $"Owned: {sheet.Stock}, " : "")}{size}{(sheet.Thickness > 0 ? $", ripped to {CuttingTables.Say(units, sheet.Thickness)}" : "")}. The length of the stock{(plan.Kind == CutKind.Sheet ? ", and its grain," : "")} runs from left to right.";
        string kerf = plan.Kind == CutKind.Roll ? "" : ", and the kerf lies beyond";
        yield return $"Bold numbers are parts{(sheet.Cuts.IsEmpty ? "" : $"; numbers in brackets are cuts in their order. A rip counts from the upper edge, a crosscut from the left end{kerf}")}. Grey is waste.";
        if (CuttingTables.HasStops(sheet)) yield return "A stopped cut begins or ends inside the sheet: it is made with a jigsaw or a router along its line, not with a saw that goes from edge to edge.";
        if (sheet.Parts.Any(p => !p.Outline.IsEmpty)) yield return "A part that is no rectangle is cut out along its lines last.";
    }

    private static TableDrawing PartList(string material, CutPlanSheet sheet, ReportUnits units) => new("", [new("", true), new("Part"), new("across", true), new("along", true)],
        [.. sheet.Parts.SelectMany((p, i) => Name(material, p.Mark).Select((line, k) => k == 0 ? ImmutableArray.Create(Number(i), line, CuttingTables.Say(units, p.Width), CuttingTables.Say(units, p.Length)) : ["", line, "", ""]))]);

    private static TableDrawing CutOrder(CutPlanSheet sheet, ReportUnits units) => new("", [new("", true), new("Cut"), new("at", true), new("from", true), new("to", true)],
        [.. sheet.Cuts.Select((c, i) => ImmutableArray.Create($"({Number(i)})", CuttingTables.Way(c), CuttingTables.Say(units, c.At), CuttingTables.Say(units, c.From), CuttingTables.Say(units, c.To)))]);

    // The title says the material, so a long mark may do without; what is longer still goes on in the next row, since marks that are cut short look alike.
    private static IReadOnlyList<string> Name(string material, string mark)
    {
        if (Lettering.Width(mark, TextMark.Small) <= NameWidth) return [mark];
        mark = mark.Replace("." + material, "", StringComparison.Ordinal);
        int at = mark.Length;
        while (at > 0 && Lettering.Width(mark[..at], TextMark.Small) > NameWidth) at = mark.LastIndexOfAny(['.', '_'], at - 1);
        return at == mark.Length ? [mark] : at > 0 ? [mark[..at], .. Lettering.Wrap(mark[at..], TextMark.Small, NameWidth)] : Lettering.Wrap(mark, TextMark.Small, NameWidth);
    }

    private static string Number(int index) => (index + 1).ToString(CultureInfo.InvariantCulture);

    /// <summary>A long run is drawn in bands under one another, so that its parts can be read.</summary>
    private sealed class Bands
    {
        private readonly CutPlanSheet _sheet;
        private readonly Box _room;
        private readonly double _perUnit, _pitch;

        public Bands(CutPlanSheet sheet, Box room)
        {
            (_sheet, _room) = (sheet, room);
            double Scale(int n) => Math.Min(room.Width / (sheet.Length / (double)n), (room.Height - (n - 1) * BandGap) / n / sheet.Width);
            Count = Enumerable.Range(1, 8).MaxBy(Scale);
            _perUnit = Scale(Count);
            _pitch = sheet.Width * _perUnit + BandGap;
        }

        private const double BandGap = 8;

        public int Count { get; }

        public double Each => _sheet.Length / (double)Count;

        public double Bottom => _room.Top - (Count - 1) * _pitch - _sheet.Width * _perUnit;

        /// <summary>The bands that a stretch of the length lies in.</summary>
        public IEnumerable<int> Over(double from, double to) => Enumerable.Range(0, Count).Where(b => from < (b + 1) * Each - 1 && to > b * Each + 1);

        // Across the stock runs down the paper: the picture is turned a quarter to the right and never mirrored.
        public Vec2 Lie(int band, double x, double y) => new(_room.Left + (Math.Clamp(y, band * Each, (band + 1) * Each) - band * Each) * _perUnit, _room.Top - band * _pitch - x * _perUnit);

        public Box Area(int band, double x, double y, double width, double length) => Box.Of([Lie(band, x, y), Lie(band, x + width, y + length)]);
    }

    private static void Draw(ImmutableArray<Mark>.Builder marks, Bands drawing, CutPlanSheet sheet, ReportUnits units)
    {
        var labels = new List<Box>();
        var outside = new List<(int Band, Vec2 From, string Text)>();
        foreach (int band in drawing.Over(0, sheet.Length)) marks.Add(new PathMark(Contour.Rectangle(drawing.Area(band, 0, 0, sheet.Width, sheet.Length)), Pen.Outline, 0.85));
        foreach (var o in sheet.Offcuts)
            foreach (int band in drawing.Over(o.Y, o.Y + o.Length))
            {
                var box = drawing.Area(band, o.X, o.Y, o.Width, o.Length);
                marks.Add(new PathMark(Contour.Rectangle(box), Pen.Hidden, 1));
                marks.Add(new PathMark(Contour.Line(new(box.Left, box.Bottom), new(box.Right, box.Top)), Pen.Hidden));
                marks.Add(new PathMark(Contour.Line(new(box.Left, box.Top), new(box.Right, box.Bottom)), Pen.Hidden));
            }
        foreach (var p in sheet.Parts)
            foreach (int band in drawing.Over(p.Y, p.Y + p.Length))
                marks.Add(new PathMark(p.Outline.IsEmpty ? Contour.Rectangle(drawing.Area(band, p.X, p.Y, p.Width, p.Length)) : Contour.Polygon([.. p.Outline.Select(c => drawing.Lie(band, c.X, c.Y))]), Pen.Outline, 1));
        foreach (var o in sheet.Offcuts)
            Label(drawing.Over(o.Y, o.Y + o.Length).Select(b => drawing.Area(b, o.X, o.Y, o.Width, o.Length)).MaxBy(b => b.Width), ["keep", $"{CuttingTables.Say(units, o.Width)} by {CuttingTables.Say(units, o.Length)}"], backed: true);
        for (int i = 0; i < sheet.Parts.Length; i++)
        {
            var p = sheet.Parts[i];
            int band = drawing.Over(p.Y, p.Y + p.Length).MaxBy(b => drawing.Area(b, p.X, p.Y, p.Width, p.Length).Width);
            var box = drawing.Area(band, p.X, p.Y, p.Width, p.Length);
            // Of two nested tapers each is marked in its own half, not where the rectangles around them lap.
            var at = p.Outline.IsEmpty ? box : Middle([.. p.Outline.Select(c => drawing.Lie(band, c.X, c.Y))], box);
            if (!Label(at, [Number(i), $"{CuttingTables.Say(units, p.Width)} by {CuttingTables.Say(units, p.Length)}"], backed: false)) outside.Add((band, box.Centre, Number(i)));
        }
        for (int i = 0; i < sheet.Cuts.Length; i++) CutLabel(sheet.Cuts[i], $"({Number(i)})");
        foreach (var group in outside.GroupBy(o => o.Band)) Lead(group.Key, [.. group.Select(g => (g.From, g.Text)).OrderBy(g => g.From.X).ThenBy(g => g.From.Y)]);

        // As many of the lines as have room, level or upright.
        bool Label(Box box, string[] lines, bool backed)
        {
            for (int count = lines.Length; count >= 1; count--)
            {
                double wide = lines.Take(count).Select((l, i) => Lettering.Width(l, TextMark.Small, i == 0)).Max() + 1.2, high = count * Line;
                bool level = wide <= box.Width && high <= box.Height, upright = wide <= box.Height && high <= box.Width;
                if (!level && !upright) continue;
                for (int i = 0; i < count; i++)
                {
                    double down = (count - 1) / 2.0 - i;
                    var at = box.Centre + (level ? new Vec2(0, down * Line - TextMark.Small / 2) : new Vec2(-down * Line + TextMark.Small / 2, 0));
                    var text = new TextMark(at, lines[i], Anchor: Anchor.Middle, Angle: level ? 0 : Math.PI / 2, Bold: i == 0);
                    if (backed) marks.Add(text.Backing);
                    marks.Add(text);
                    labels.Add(text.Bounds);
                }
                return true;
            }
            return false;
        }

        // Close by where the cut begins, unless another label stands there.
        void CutLabel(PlannedCut cut, string text)
        {
            foreach (double share in (double[])[0.06, 0.94, 0.25, 0.75, 0.4, 0.6])
            {
                double along = cut.From + (cut.To - cut.From) * share;
                int band = cut.Upright ? drawing.Over(along, along).FirstOrDefault() : drawing.Over(cut.At, cut.At).FirstOrDefault();
                var at = cut.Upright ? drawing.Lie(band, cut.At, along) : drawing.Lie(band, along, cut.At);
                var mark = new TextMark(at - new Vec2(0, TextMark.Small / 2), text, Anchor: Anchor.Middle);
                if (labels.Exists(l => l.Overlaps(mark.Bounds.Grow(0.3)))) continue;
                marks.Add(mark.Backing);
                marks.Add(mark);
                labels.Add(mark.Bounds);
                return;
            }
        }

        // Numbers that have no room in their parts stand in a row under the band, in the order of their parts.
        void Lead(int band, List<(Vec2 From, string Text)> numbers)
        {
            var whole = drawing.Area(band, 0, 0, sheet.Width, sheet.Length);
            double pitch = numbers.Max(n => Lettering.Width(n.Text, TextMark.Small, true)) + 1.2, right = whole.Right + 4;
            var places = new double[numbers.Count];
            for (int i = 0; i < places.Length; i++) places[i] = Math.Max(numbers[i].From.X, i == 0 ? whole.Left : places[i - 1] + pitch);
            for (int i = places.Length - 1; i >= 0; i--) places[i] = Math.Min(places[i], i == places.Length - 1 ? right : places[i + 1] - pitch);
            for (int i = 0; i < places.Length; i++)
            {
                var foot = new Vec2(places[i], whole.Bottom - 2);
                marks.Add(new PathMark(Contour.Line(numbers[i].From, foot), Pen.Narrow));
                marks.Add(new TextMark(foot - new Vec2(0, TextMark.Small + 0.6), numbers[i].Text, Anchor: Anchor.Middle, Bold: true));
            }
        }
    }

    /// <summary>The box round the centroid of a shape that lies evenly within its bounds.</summary>
    private static Box Middle(ImmutableArray<Vec2> points, Box bounds)
    {
        double area = 0, x = 0, y = 0;
        for (int i = 0; i < points.Length; i++)
        {
            var (a, b) = (points[i], points[(i + 1) % points.Length]);
            double cross = a.Cross(b);
            (area, x, y) = (area + cross, x + (a.X + b.X) * cross, y + (a.Y + b.Y) * cross);
        }
        if (Math.Abs(area) < 1e-9) return bounds;
        var centre = new Vec2(x / (3 * area), y / (3 * area));
        double wide = Math.Min(centre.X - bounds.Left, bounds.Right - centre.X), high = Math.Min(centre.Y - bounds.Bottom, bounds.Top - centre.Y);
        return new Box(centre.X - wide, centre.Y - high, centre.X + wide, centre.Y + high);
    }
}
