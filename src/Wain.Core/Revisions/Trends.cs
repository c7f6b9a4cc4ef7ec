using System.Collections.Immutable;
using Wain.Core.Drawing;
using Wain.Core.Text;

namespace Wain.Core.Revisions;

/// <summary>Weight, cost, balance and findings over something, as one picture of plots under each other.</summary>
public static class Trends
{
    private const double Width = 190, Height = 70, Gap = 4;

    /// <summary>A row of figures at one x.</summary>
    /// <param name="Line">The line of the plot that it belongs to; empty if there is one line only.</param>
    public sealed record Point(string Line, double X, KeyFigures Figures);

    public static Picture Draw(string title, string x, IReadOnlyList<Point> points, Say say, bool countsX = false)
    {
        string currency = points.Select(p => p.Figures.Currency).FirstOrDefault(c => c.Length > 0) ?? "";
        var plots = new List<LinePlot>
        {
            Plot("Weight without loads", say.WeightUnit, f => f.Weight is { } kg ? say.Weighed(kg) : null),
            Plot("Cost", currency, f => f.Cost),
        };
        if (points.Any(p => p.Figures.Balance is not null)) plots.Add(Plot("Centre of gravity, forward of the bed's front edge", say.LengthUnit, f => f.Balance is { } mm ? say.Measured(mm) : null));
        plots.Add(new LinePlot("Open findings", x, "count",
            [.. points.GroupBy(p => p.Line).SelectMany(g => new[] { Line(Named("errors", g.Key), g, f => f.Errors), Line(Named("warnings", g.Key), g, f => f.Warnings) })])
        {
            CountsY = true, CountsX = countsX,
        });
        double height = plots.Count * (Height + Gap);
        var marks = plots.SelectMany((p, i) => p.Marks(new Box(0, height - (i + 1) * (Height + Gap), Width, height - i * (Height + Gap) - Gap)));
        return new Picture(title, "Weight, cost, balance and open findings", Width, height, [.. marks]);

        LinePlot Plot(string name, string unit, Func<KeyFigures, double?> of) => new(name, x, unit, [.. points.GroupBy(p => p.Line).Select(g => Line(g.Key, g, of))]) { CountsX = countsX };

        static string Named(string what, string line) => line.Length == 0 ? what : $"{what}, {line}";

        static PlotSeries Line(string name, IEnumerable<Point> points, Func<KeyFigures, double?> of) => new(name, [.. points.OrderBy(p => p.X).Select(p => (p.X, of(p.Figures) ?? double.NaN))], Dots: true);
    }
}
