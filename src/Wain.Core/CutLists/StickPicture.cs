using System.Collections.Immutable;
using Wain.Core.Drawing;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Reporting;
using Paper = Wain.Core.Drawing.Paper;

namespace Wain.Core.CutLists;

/// <summary>Sticks under one another, each with its parts by letter. Lengths are to scale; the depth is drawn alike for all, so a slant is true in where it lies along the stick.</summary>
internal static class StickPicture
{
    private const double High = 4.6, Left = 32, Least = 13.2, Line = TextMark.Small * 1.3;

    /// <summary>On as many pages as they take: a stick with many parts has as many lines of marks under it.</summary>
    public static IEnumerable<Sheet> Of(MaterialPlan plan, ReportUnits units, Paper paper, Func<string, string, TitleBlock> title)
    {
        const string view = "side that slanted ends lean in";
        var area = SheetFrame.Area(paper, title(plan.Material, view));
        double scale = (area.Width - Left - 2) / plan.Sheets.Max(s => s.Length);
        var all = plan.Sheets.Select((s, i) => One(s, i, area, scale, units)).ToList();
        for (int from = 0, to; from < all.Count; from = to)
        {
            double top = area.Top;
            var marks = ImmutableArray.CreateBuilder<Mark>();
            for (to = from; to < all.Count && (to == from || top - all[to].High >= area.Bottom); top -= all[to++].High)
            {
                var below = new View(1, new Vec2(0, top));
                marks.AddRange(all[to].Marks.Select(m => m.Map(below)));
            }
            yield return new Sheet(paper, title($"{plan.Material}, sticks", $"{(from + 1 == to ? "" : FormattableString.Invariant($"{from + 1} to "))}{to} of {all.Count}, {view}"), marks.ToImmutable());
        }
    }

    /// <summary>A stick under the height 0.</summary>
    private static (ImmutableArray<Mark> Marks, double High) One(CutPlanSheet stick, int index, Box area, double scale, ReportUnits units)
    {
        var marks = ImmutableArray.CreateBuilder<Mark>();
        double top = 0, left = area.Left + Left, foot = -High;
        double X(long at) => left + at * scale;
        Box Bar(long from, long to) => new(X(from), foot, X(to), top);
        marks.Add(new TextMark(new(area.Left, foot + 1), $"{index + 1}{(stick.Times > 1 ? $" ({stick.Times} so)" : "")}", Bold: true));
        marks.Add(new TextMark(new(area.Left, foot - 2.6), (stick.Owned ? "owned " : "") + CuttingTables.Say(units, stick.Length)));
        marks.Add(new PathMark(Contour.Rectangle(Bar(0, stick.Length)), Pen.Edge, 0.85));
        foreach (var fault in stick.Faults) marks.Add(new PathMark(Contour.Rectangle(Bar(fault.From, fault.To)), Pen.Edge, 0.3));
        foreach (var o in stick.Offcuts)
        {
            marks.Add(new PathMark(Contour.Rectangle(Bar(o.X, o.X + o.Length)), Pen.Hidden, 1));
            Label(Bar(o.X, o.X + o.Length), [$"keep {CuttingTables.Say(units, o.Length)}", "keep"]);
        }
        var words = new List<string>();
        for (int i = 0; i < stick.Parts.Length; i++)
        {
            var p = stick.Parts[i];
            string letter = Text.Letters.Of(i, 'A'), size = CuttingTables.Say(units, p.Length);
            long depth = p.Outline.IsEmpty ? 1 : Math.Max(1, p.Outline.Max(c => c.Y));
            var body = p.Outline.IsEmpty ? Contour.Rectangle(Bar(p.X, p.X + p.Length)) : Contour.Polygon([.. p.Outline.Select(c => new Vec2(X(c.X), foot + High * c.Y / depth))]);
            marks.Add(new PathMark(body, Pen.Edge, 1));
            bool sized = Label(Bar(p.X, p.X + p.Length), [$"{letter} {size}", letter]) == 0;
            string ends = CuttingTables.Ends(p);
            words.Add($"{letter} {p.Mark}{(sized ? "" : " " + size)}{(ends.Length > 0 ? $" ({ends})" : "")}");
        }
        double y = foot - 3.8;
        foreach (string line in Lettering.Wrap(string.Join(", ", words), TextMark.Small, area.Right - left))
        {
            marks.Add(new TextMark(new(left, y), line));
            y -= Line;
        }
        return (marks.ToImmutable(), Math.Max(Least, 2 - y));

        // The first text that has room; its index, or -1 where none has.
        int Label(Box box, string[] texts)
        {
            int fits = Array.FindIndex(texts, t => Lettering.Width(t, TextMark.Small, true) + 1 <= box.Width);
            if (fits >= 0) marks.Add(new TextMark(box.Centre - new Vec2(0, TextMark.Small / 2), texts[fits], Anchor: Anchor.Middle, Bold: true));
            return fits;
        }
    }
}
