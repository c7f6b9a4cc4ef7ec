using System.Collections.Immutable;
using Wain.Core.Geometry.Kernel;

namespace Wain.Core.Drawing;

/// <summary>One line of a plot.</summary>
/// <param name="Points">x and y in the units of the axes, in order of x; a y that is not finite leaves a gap.</param>
/// <param name="Stepped">True where a value holds until the next.</param>
/// <param name="Dots">True to mark each point, where they were computed or measured one by one.</param>
public sealed record PlotSeries(string Name, ImmutableArray<(double X, double Y)> Points, bool Stepped = false, bool Dots = false);

/// <summary>A value to compare with, across the plot.</summary>
public sealed record PlotLimit(string Name, double Value);

/// <summary>A stretch of the x axis with a name, such as a layer of a wall.</summary>
public sealed record PlotBand(string Name, double From, double To);

/// <summary>Lines over a common x. Read in black and white: lines differ by type and carry their names at their ends.</summary>
/// <param name="X">Quantity and unit, such as "Travel, mm".</param>
/// <param name="Y">Likewise.</param>
public sealed record LinePlot(string Title, string X, string Y, ImmutableArray<PlotSeries> Series)
{
    public ImmutableArray<PlotLimit> Limits { get; init; } = [];

    public ImmutableArray<PlotBand> Bands { get; init; } = [];

    /// <summary>True where y is a number of things.</summary>
    public bool CountsY { get; init; }

    /// <summary>True where x numbers things, such as revisions.</summary>
    public bool CountsX { get; init; }

    private static readonly Pen[] Pens =
    [
        Pen.Outline, new(LineType.Dashed, 0.5), Pen.CuttingPlane, new(LineType.Dotted, 0.7), new(LineType.LongDashDoubleDot, 0.5), Pen.Narrow, Pen.Hidden, Pen.Centre,
    ];

    private const double Pad = 4, Gap = 1.5;

    /// <param name="width">mm.</param>
    /// <param name="height">mm.</param>
    public Picture Draw(double width, double height, string description = "") => new(Title, description.Length > 0 ? description : $"{Y} over {X}", width, height, Marks(new(0, 0, width, height)));

    /// <summary>The plot within a box, paper mm.</summary>
    public ImmutableArray<Mark> Marks(Box box)
    {
        var xs = PlotAxis.Of(Series.SelectMany(s => s.Points).Select(p => p.X).Concat(Bands.SelectMany(b => new[] { b.From, b.To })), 8, whole: CountsX);
        var values = Series.SelectMany(s => s.Points).Select(p => p.Y).Concat(Limits.Select(l => l.Value)).Where(double.IsFinite).DefaultIfEmpty(0).ToList();
        // A limit on the edge of the plot would pass for its axis.
        double clear = 0.02 * (values.Max() - values.Min());
        var ys = PlotAxis.Of(values.Concat(Limits.SelectMany(l => new[] { l.Value - clear, l.Value + clear })), 6, whole: CountsY);
        double names = Series.Select(s => s.Name).Concat(Limits.Select(l => l.Name)).Select(n => Lettering.Width(n, TextMark.Small)).DefaultIfEmpty(0).Max();
        double bandRoom = Bands.IsEmpty ? 0 : Bands.Max(b => Lettering.Width(b.Name, TextMark.Small)) + 8;
        var plot = new Box(
            box.Left + Pad + ys.Ticks.Max(t => Lettering.Width(ys.Text(t), TextMark.Small)) + 3, box.Bottom + Pad + 10,
            box.Right - Pad - names - 6, box.Top - Pad - 13 - bandRoom);
        Vec2 At(double x, double y) => new(plot.Left + plot.Width * xs.Share(x), plot.Bottom + plot.Height * ys.Share(y));

        var marks = ImmutableArray.CreateBuilder<Mark>();
        marks.AddRange(PlotFrame.Titles(box, Title, new(box.Left + Pad, plot.Top + bandRoom + 3), Y));
        marks.AddRange(PlotFrame.Upright(plot, ys));
        marks.AddRange(PlotFrame.Level(plot, xs, X));
        marks.AddRange(BandMarks(plot, x => At(x, 0).X));

        var ends = new List<(double Y, Vec2 From, string Name)>();
        foreach (var limit in Limits)
        {
            double y = At(xs.Low, limit.Value).Y;
            marks.Add(new PathMark(Contour.Line(new(plot.Left, y), new(plot.Right, y)), Pen.Edge));
            ends.Add((y, new(plot.Right, y), limit.Name));
        }
        for (int i = 0; i < Series.Length; i++)
        {
            var series = Series[i];
            foreach (var run in Runs(series))
            {
                Vec2[] points = [.. run.SelectMany((p, k) => series.Stepped && k > 0 ? [At(p.X, run[k - 1].Y), At(p.X, p.Y)] : new[] { At(p.X, p.Y) })];
                if (points.Length > 1) marks.Add(new PathMark(Contour.Open(points), Pens[i % Pens.Length]));
                // A single point has no line to show it.
                if (series.Dots || points.Length == 1) marks.AddRange(run.Select(p => new PathMark(Contour.Circle(At(p.X, p.Y), 0.8), Pen.Narrow, i % 2 == 0 ? 0 : 1)));
            }
            var last = series.Points.LastOrDefault(p => double.IsFinite(p.X) && double.IsFinite(p.Y), (X: double.NaN, Y: double.NaN));
            if (double.IsFinite(last.Y) && series.Name.Length > 0) ends.Add((At(last.X, last.Y).Y, At(last.X, last.Y), series.Name));
        }
        marks.AddRange(Names(plot, box, ends));
        return marks.ToImmutable();
    }

    private static List<List<(double X, double Y)>> Runs(PlotSeries series)
    {
        var runs = new List<List<(double X, double Y)>> { new() };
        foreach (var p in series.Points)
        {
            if (double.IsFinite(p.X) && double.IsFinite(p.Y)) runs[^1].Add(p);
            else if (runs[^1].Count > 0) runs.Add([]);
        }
        return runs.Where(r => r.Count > 0).ToList();
    }

    private static IEnumerable<Mark> Names(Box plot, Box box, List<(double Y, Vec2 From, string Name)> ends)
    {
        var sorted = ends.OrderBy(e => e.Y).ThenBy(e => e.Name, StringComparer.Ordinal).ToList();
        var places = Spreading.Place([.. sorted.Select(e => e.Y)], _ => TextMark.Small * 1.6, plot.Bottom, box.Top - Pad);
        for (int i = 0; i < sorted.Count; i++)
        {
            yield return Arrows.Line(sorted[i].From, new(plot.Right + Gap, sorted[i].Y), new(plot.Right + 4, places[i]));
            yield return new TextMark(new(plot.Right + 5, places[i] - TextMark.Small / 2), sorted[i].Name);
        }
    }

    /// <summary>Bands: dashed uprights where they meet, and their names above, moved apart where they are narrow.</summary>
    private IEnumerable<Mark> BandMarks(Box plot, Func<double, double> x)
    {
        var sorted = Bands.OrderBy(b => b.From).ToList();
        var places = Spreading.Place([.. sorted.Select(b => x((b.From + b.To) / 2))], _ => TextMark.Small * 1.6, plot.Left, plot.Right);
        foreach (double edge in sorted.SelectMany(b => new[] { b.From, b.To }).Distinct().Order())
        {
            yield return new PathMark(Contour.Line(new(x(edge), plot.Bottom), new(x(edge), plot.Top)), Pen.Hidden);
        }
        for (int i = 0; i < sorted.Count; i++)
        {
            double middle = x((sorted[i].From + sorted[i].To) / 2);
            yield return Arrows.Line(new(middle, plot.Top - 2), new(middle, plot.Top + 1), new(places[i], plot.Top + 4));
            yield return new TextMark(new(places[i] + TextMark.Small / 2, plot.Top + 5), sorted[i].Name, Angle: Math.PI / 2);
        }
    }
}
