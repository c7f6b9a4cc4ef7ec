using System.Collections.Immutable;
using Wain.Core.Geometry.Kernel;

namespace Wain.Core.Drawing;

/// <summary>A bar.</summary>
/// <param name="Label">The value as written at its end, with its unit if the reader needs it there.</param>
public sealed record PlotBar(string Name, double Value, string Label);

/// <summary>Lying bars from zero, in the order given, names at the left where they have room to be read.</summary>
/// <param name="X">Quantity and unit.</param>
public sealed record BarPlot(string Title, string X, ImmutableArray<PlotBar> Bars)
{
    private const double Pad = 4, Pitch = 6;

    /// <summary>Height in mm that shows all bars at a comfortable pitch.</summary>
    public double ComfortableHeight => 24 + Bars.Length * Pitch;

    /// <param name="width">mm.</param>
    /// <param name="height">mm; null for <see cref="ComfortableHeight"/>.</param>
    public Picture Draw(double width, double? height = null, string description = "") =>
        new(Title, description.Length > 0 ? description : X, width, height ?? ComfortableHeight, Marks(new(0, 0, width, height ?? ComfortableHeight)));

    /// <summary>The plot within a box, paper mm.</summary>
    public ImmutableArray<Mark> Marks(Box box)
    {
        var axis = PlotAxis.Of(Bars.Select(b => b.Value), 6, fromZero: true);
        double widest = Bars.Select(b => Lettering.Width(b.Name, TextMark.Small)).DefaultIfEmpty(0).Max();
        double names = Math.Min(widest, box.Width / 3);
        double Room(bool negative) => Bars.Where(b => b.Value < 0 == negative).Select(b => Lettering.Width(b.Label, TextMark.Small) + 2).DefaultIfEmpty(0).Max();
        double before = Room(negative: true), labels = Room(negative: false);
        var plot = new Box(box.Left + Pad + names + 2 + before, box.Bottom + Pad + 10, box.Right - Pad - labels, box.Top - Pad - 7);
        double X0(double value) => plot.Left + plot.Width * axis.Share(value);

        var marks = ImmutableArray.CreateBuilder<Mark>();
        marks.AddRange(PlotFrame.Titles(box, Title, default, ""));
        marks.AddRange(PlotFrame.Level(plot, axis, X));
        double pitch = plot.Height / Math.Max(1, Bars.Length), thick = Math.Min(pitch * 0.7, 5);
        for (int i = 0; i < Bars.Length; i++)
        {
            var bar = Bars[i];
            double y = plot.Top - pitch * (i + 0.5), from = X0(0), to = double.IsFinite(bar.Value) ? X0(bar.Value) : from;
            marks.Add(new PathMark(Contour.Rectangle(new(Math.Min(from, to), y - thick / 2, Math.Max(from, to), y + thick / 2)), Pen.Edge, 0.8));
            marks.Add(new TextMark(new(box.Left + Pad + names, y - TextMark.Small / 2), Lettering.Shorten(bar.Name, TextMark.Small, names + 1e-6), Anchor: Anchor.End));
            bool left = bar.Value < 0;
            var label = new TextMark(new(left ? to - 1 : to + 1, y - TextMark.Small / 2), bar.Label, Anchor: left ? Anchor.End : Anchor.Start);
            marks.Add(label.Backing);
            marks.Add(label);
        }
        marks.Add(new PathMark(Contour.Line(new(X0(0), plot.Bottom), new(X0(0), plot.Top)), Pen.Edge));
        return marks.ToImmutable();
    }
}
