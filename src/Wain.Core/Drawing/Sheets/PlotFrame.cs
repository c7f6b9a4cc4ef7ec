using Wain.Core.Geometry.Kernel;

namespace Wain.Core.Drawing;

/// <summary>What all plots share: titles, ticks outside the axes, thin lines to read values by.</summary>
internal static class PlotFrame
{
    private static readonly Pen Grid = new(LineType.Dotted, 0.13);

    public static IEnumerable<Mark> Titles(Box box, string title, Vec2 quantityAt, string quantity)
    {
        yield return new TextMark(new(box.Left + 4, box.Top - 4 - TextMark.Medium), Lettering.Shorten(title, TextMark.Medium, box.Width - 8, true), TextMark.Medium, Bold: true);
        // Level, above its axis: nobody has to turn the page to read it.
        yield return new TextMark(quantityAt, quantity);
    }

    public static IEnumerable<Mark> Upright(Box plot, PlotAxis axis)
    {
        foreach (double tick in axis.Ticks)
        {
            double y = plot.Bottom + plot.Height * axis.Share(tick);
            yield return new PathMark(Contour.Line(new(plot.Left, y), new(plot.Right, y)), Grid);
            yield return Arrows.Line(new(plot.Left - 1.2, y), new(plot.Left, y));
            yield return new TextMark(new(plot.Left - 2, y - TextMark.Small / 2), axis.Text(tick), Anchor: Anchor.End);
        }
        yield return new PathMark(Contour.Line(new(plot.Left, plot.Bottom), new(plot.Left, plot.Top)), Pen.Edge);
    }

    public static IEnumerable<Mark> Level(Box plot, PlotAxis axis, string quantity)
    {
        double room = plot.Width / Math.Max(1, (axis.High - axis.Low) / axis.Step);
        double widest = axis.Ticks.Max(t => Lettering.Width(axis.Text(t), TextMark.Small)) + 2;
        int every = (int)Math.Ceiling(widest / room);
        int i = 0;
        foreach (double tick in axis.Ticks)
        {
            double x = plot.Left + plot.Width * axis.Share(tick);
            yield return new PathMark(Contour.Line(new(x, plot.Bottom), new(x, plot.Top)), Grid);
            yield return Arrows.Line(new(x, plot.Bottom - 1.2), new(x, plot.Bottom));
            if (i++ % every == 0) yield return new TextMark(new(x, plot.Bottom - 2.2 - TextMark.Small), axis.Text(tick), Anchor: Anchor.Middle);
        }
        yield return new PathMark(Contour.Line(new(plot.Left, plot.Bottom), new(plot.Right, plot.Bottom)), Pen.Edge);
        yield return new TextMark(new(plot.Centre.X, plot.Bottom - 9), quantity, Anchor: Anchor.Middle);
    }
}
