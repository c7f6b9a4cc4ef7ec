using System.Collections.Immutable;
using Wain.Core.Geometry.Kernel;

namespace Wain.Core.Drawing;

/// <summary>The side of a part that a chain of dimensions or a column of notes stands on.</summary>
public enum Side
{
    Below,
    Above,
    Left,
    Right,
}

/// <summary>One value of a running dimension.</summary>
/// <param name="At">Where, along the edge: paper mm, x for Below and Above, y for Left and Right.</param>
/// <param name="From">How far in the extension line begins: paper mm, the other coordinate.</param>
/// <param name="Label">As written.</param>
public readonly record struct DimensionPoint(double At, double From, string Label);

/// <summary>A label as laid out, for who must keep clear of it.</summary>
public readonly record struct LabelBox(string Text, Box Bounds);

/// <param name="Marks">What to draw.</param>
/// <param name="Labels">The boxes of its texts.</param>
/// <param name="Bounds">All the space taken.</param>
public sealed record DimensionLayout(ImmutableArray<Mark> Marks, ImmutableArray<LabelBox> Labels, Box Bounds);

/// <summary>
/// Running dimensions (ISO 129-1): every value is measured from one datum edge, so that what rounding takes from one never adds to the next.
/// Labels stand in line with their extension lines. Where these are too close, labels move apart along the edge, joined by a slanted leader;
/// where one row can't hold them, every second label moves to an outer row. Labels never overlap and no leader runs through a label.
/// </summary>
public static class RunningDimensions
{
    // Along the edge a label takes its capitals, its descender and a little air.
    private const double Pitch = 1.45, LeaderAir = 0.6, Stub = 1.8, RowGap = 2, TextGap = 0.8;

    /// <param name="side">Where the dimension line stands.</param>
    /// <param name="datum">The edge that all is measured from; its label is "0".</param>
    /// <param name="points">In any order; those at one place (within 0.01 mm of paper) with one label are drawn once.</param>
    /// <param name="line">Paper coordinate of the dimension line, outside the part.</param>
    /// <param name="low">Labels stay between <paramref name="low"/> and <paramref name="high"/> (paper mm along the edge) if they fit there at all;
    /// the bounds of the result tell if they did not.</param>
    /// <param name="high">See <paramref name="low"/>.</param>
    /// <param name="height">Of the capitals, mm.</param>
    public static DimensionLayout Layout(Side side, DimensionPoint datum, IEnumerable<DimensionPoint> points, double line, double low, double high, double height = TextMark.Small)
    {
        var sorted = points.Append(datum).OrderBy(p => p.At).ThenBy(p => p.Label, StringComparer.Ordinal).ToList();
        var shown = sorted.Where((p, i) => i == 0 || p.At - sorted[i - 1].At > 0.01 || p.Label != sorted[i - 1].Label).ToList();

        double pitch = height * Pitch;
        double room = high - low - pitch;
        bool twoRows = (shown.Count - 1) * pitch > room;
        // In two rows a leader passes between two labels of the inner row, which must leave it air on both sides.
        double gap = twoRows ? pitch / 2 + LeaderAir : pitch;
        var places = Spreading.Place([.. shown.Select(p => p.At)], _ => gap, low + pitch / 2, high - pitch / 2);
        double shift = shown.Select((p, i) => Math.Abs(p.At - places[i])).DefaultIfEmpty(0).Max();
        double inner = Stub + (shift < 1e-6 ? 0 : Math.Clamp(shift * 0.5, 1.5, 16));
        double innerDepth = shown.Where((_, i) => !twoRows || i % 2 == 0).Max(p => Lettering.Width(p.Label, height));
        double outer = inner + TextGap + innerDepth + RowGap;

        // Local axes: a along the edge, d away from the part, from the dimension line.
        Vec2 Place(double a, double d) => side switch
        {
            Side.Below => new(a, line - d),
            Side.Above => new(a, line + d),
            Side.Left => new(line - d, a),
            _ => new(line + d, a),
        };
        double Depth(double from) => side is Side.Below or Side.Left ? line - from : from - line;

        var marks = ImmutableArray.CreateBuilder<Mark>();
        var labels = ImmutableArray.CreateBuilder<LabelBox>();
        double first = shown[0].At, last = shown[^1].At;
        if (last > first) marks.Add(Arrows.Line(Place(first, 0), Place(last, 0)));
        marks.Add(new PathMark(Contour.Circle(Place(datum.At, 0), Arrows.OriginRadius), Pen.Narrow, 1));

        for (int i = 0; i < shown.Count; i++)
        {
            var p = shown[i];
            double textAt = twoRows && i % 2 == 1 ? outer : inner;
            marks.Add(Arrows.Line(Place(p.At, Depth(p.From)), Place(p.At, Stub), Place(places[i], inner), Place(places[i], textAt)));
            if (p.At != datum.At) marks.AddRange(EndMark(p.At));

            bool upright = side is Side.Below or Side.Above;
            double d = textAt + TextGap;
            var middle = Place(places[i], d);
            var at = upright ? middle + new Vec2(height / 2, 0) : middle - new Vec2(0, height / 2);
            var text = new TextMark(at, p.Label, height, side is Side.Above or Side.Right ? Anchor.Start : Anchor.End, upright ? Math.PI / 2 : 0);
            marks.Add(text);
            labels.Add(new(p.Label, text.Bounds));
        }
        var all = marks.ToImmutable();
        return new(all, labels.ToImmutable(), all.Aggregate(Box.Empty, (b, m) => b.Union(m.Bounds)));

        ImmutableArray<Mark> EndMark(double a)
        {
            // The value runs from the datum; its arrow points away from it, if it does not sit on its neighbour's.
            double sign = Math.Sign(a - datum.At);
            double nearest = shown.Where(q => Math.Sign(a - q.At) == sign).Select(q => Math.Abs(a - q.At)).DefaultIfEmpty(0).Min();
            var direction = Place(sign, 0) - Place(0, 0);
            return Arrows.End(nearest > Arrows.Length * 1.3 ? LineEnd.Arrow : LineEnd.Dot, Place(a, 0), direction);
        }
    }

    /// <summary>The same with values in the part's own mm: measures from the datum edge, writes each in the format, draws through the view.</summary>
    /// <param name="datum">Model coordinate of the datum edge along the side.</param>
    /// <param name="features">Model coordinates: along the side, and where the extension line begins.</param>
    /// <param name="offset">From the outermost feature to the dimension line, mm on paper.</param>
    public static DimensionLayout OfFeatures(View view, Side side, double datum, IReadOnlyCollection<(double At, double From)> features, LengthFormat format, double offset, double low, double high)
    {
        bool level = side is Side.Below or Side.Above;
        Vec2 Paper(double at, double from) => view.ToPaper(level ? new Vec2(at, from) : new Vec2(from, at));
        DimensionPoint Make(double at, double from)
        {
            var p = Paper(at, from);
            string label = at == datum ? "0" : LengthText.Of(Math.Abs(at - datum), format);
            return level ? new(p.X, p.Y, label) : new(p.Y, p.X, label);
        }
        var points = features.Select(f => Make(f.At, f.From)).ToList();
        bool outward = side is Side.Above or Side.Right;
        double edge = points.Count == 0 ? Make(datum, 0).From : outward ? points.Max(p => p.From) : points.Min(p => p.From);
        double line = outward ? edge + offset : edge - offset;
        double datumFrom = features.Where(f => f.At == datum).Select(f => Make(f.At, f.From).From).Append(edge).First();
        var zero = new DimensionPoint(Make(datum, 0).At, datumFrom, "0");
        return Layout(side, zero, points.Where(p => p.At != zero.At), line, low, high);
    }
}
