using System.Collections.Immutable;
using Wain.Core.Geometry.Kernel;

namespace Wain.Core.Drawing.Panels;

/// <summary>A place along an edge that is measured: model mm along the side, where its extension line begins, and how it is written.</summary>
public readonly record struct Measured(double At, double From, LengthFormat Format);

/// <summary>Running dimensions of a panel's view from one corner.</summary>
internal sealed class PanelRuns(View view, Box part, DrawingOptions options)
{
    private readonly List<Measured> _x = [], _y = [], _above = [];

    /// <summary>Model coordinates of the datum corner: at the lower left of the paper.</summary>
    public Vec2 Datum { get; } = new(view.Mirrored ? part.Right : part.Left, part.Bottom);

    public void Corners(Outline outline)
    {
        foreach (var p in outline.Corners) Point(p, options.Plain);
        // The quadrants of an arc reach further than its ends.
        foreach (var s in outline.Segments.Where(s => s.IsArc)) Bounds(s.Bounds, options.Plain);
    }

    public void Point(Vec2 p, LengthFormat format)
    {
        _x.Add(new(p.X, p.Y, format));
        _y.Add(new(p.Y, p.X, format));
    }

    public void Bounds(Box2 b, LengthFormat format)
    {
        Point(b.Min, format);
        Point(b.Max, format);
        // The extension line to the far upright edge begins at its own foot.
        _x.Add(new(b.Max.X, b.Min.Y, format));
        _y.Add(new(b.Max.Y, view.Mirrored ? b.Max.X : b.Min.X, format));
    }

    public void AlongX(double x, double from) => _x.Add(new(x, from, options.Plain));

    public void AlongY(double y, double from) => _y.Add(new(y, from, options.Plain));

    public void Above(double x, double from) => _above.Add(new(x, from, options.Plain));

    public LengthFormat Plain => options.Plain;

    /// <summary>True if there are dimensions above the part.</summary>
    public bool HasAbove => _above.Count > 0;

    /// <summary>Heights on paper of the extension lines that run to the left.</summary>
    public IReadOnlyCollection<double> LevelLines => [.. _y.Select(m => view.ToPaper(new Vec2(0, m.At)).Y).Append(view.ToPaper(Datum).Y)];

    /// <param name="left">What stands between the part and the dimensions at its left, mm.</param>
    public ImmutableArray<DimensionLayout> Layout(Box area, double left)
    {
        var paper = view.ToPaper(part);
        var runs = ImmutableArray.CreateBuilder<DimensionLayout>();
        runs.Add(Run(Side.Below, _x, paper.Bottom - 5, area.Left, area.Right));
        runs.Add(Run(Side.Left, _y, paper.Left - left - 5, area.Bottom, area.Top));
        if (_above.Count > 0) runs.Add(Run(Side.Above, _above, paper.Top + 5, area.Left, area.Right));
        return runs.ToImmutable();
    }

    private DimensionLayout Run(Side side, IEnumerable<Measured> measured, double line, double low, double high)
    {
        bool level = side is Side.Below or Side.Above;
        double datum = level ? Datum.X : Datum.Y;
        Vec2 Paper(Measured m) => view.ToPaper(level ? new Vec2(m.At, m.From) : new Vec2(m.From, m.At));
        DimensionPoint Point(Measured m) => Paper(m) is var p && level ? new(p.X, p.Y, Label(m)) : new(p.Y, p.X, Label(m));
        string Label(Measured m) => LengthText.Of(Math.Abs(m.At - datum), m.Format);
        // Places that read alike are one; the one nearest to the line draws the shortest extension.
        var points = measured.Where(m => Math.Abs(m.At - datum) > 0.5).GroupBy(Alike)
            .Select(g => Point(g.OrderBy(m => m.Format.Style == options.Plain.Style).ThenBy(m => Math.Abs((Paper(m) is var p && level ? p.Y : p.X) - line)).First() with { From = g.MinBy(m => Math.Abs((Paper(m) is var p && level ? p.Y : p.X) - line)).From }));
        double origin = level ? view.ToPaper(new Vec2(datum, 0)).X : view.ToPaper(new Vec2(0, datum)).Y;
        var corner = view.ToPaper(part);
        double edge = side switch { Side.Below => corner.Bottom, Side.Above => corner.Top, Side.Left => corner.Left, _ => corner.Right };
        return RunningDimensions.Layout(side, new(origin, edge, "0"), points, line, low, high);

        string Alike(Measured m) => LengthText.Of(Math.Abs(m.At - datum), options.Plain);
    }
}

internal static class RunMarks
{
    public static IEnumerable<Mark> Lines(this IEnumerable<DimensionLayout> runs) => runs.SelectMany(r => r.Marks).Where(m => m is not TextMark);

    /// <summary>Over white, so that no leader runs through a value.</summary>
    public static IEnumerable<Mark> Values(this IReadOnlyCollection<DimensionLayout> runs)
    {
        var values = runs.SelectMany(r => r.Marks).OfType<TextMark>().ToList();
        return [.. values.Select(v => v.Backing), .. values];
    }
}
