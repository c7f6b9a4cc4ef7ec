using System.Collections.Immutable;
using Wain.Core.Framing;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Model;

namespace Wain.Core.Drawing.Panels;

/// <summary>A plane cut across a joint: paper's right and up in space, with the origin on the joint (mm).</summary>
internal sealed record CutPlane(Vec3 Origin, Vec3 Along, Vec3 Right, Vec3 Up)
{
    /// <summary>Across the joint in the middle of its length. A level joint is seen with up as up; an upright one from above, the front to the left,
    /// or upwards where its panels run on in line: lying along the paper they would leave no room for names beside them.</summary>
    public static CutPlane Across(PlacedJoint joint)
    {
        var along = (joint.To - joint.From).Unit;
        var middle = joint.From.Lerp(joint.To, 0.5);
        var want = Math.Abs(along.Z) > 0.7 ? new Vec3(0, -1, 0) : Vec3.UnitZ;
        var up = (want - along * want.Dot(along)).Unit;
        var right = along.Cross(up);
        var left = Math.Abs(right.X) > Math.Abs(right.Y) ? new Vec3(-1, 0, 0) : new Vec3(0, -1, 0);
        if (right.Dot(left) < 0) right = -right;
        bool inLine = Math.Abs(along.Z) > 0.7 && new[] { joint.First.Panel, joint.Second.Panel }.All(p => Math.Abs(p.Face.N.Cross(along).Dot(right)) > 0.9);
        return inLine ? new(middle, along, up, -right) : new(middle, along, right, up);
    }

    public Vec2 ToPlane(Vec3 p) => new((p - Origin).Dot(Right), (p - Origin).Dot(Up));

    public Vec2 Direction(Vec3 d) => new(d.Dot(Right), d.Dot(Up));
}

/// <summary>A cut area of one material, in the plane's mm.</summary>
internal sealed record CutArea(Contour Contour, CutMaterial Material, StackLayer Layer);

/// <summary>A panel where a plane cuts it: lines along the panel at each depth.</summary>
internal sealed class PanelCut
{
    private readonly PlacedPanel _panel;
    private readonly Vec2 _at, _run;
    private readonly CutPlane _plane;
    private readonly double _reach;
    private readonly ImmutableArray<PanelStep> _steps;

    public PanelCut(PlacedPanel panel, CutPlane plane, double reach, ImmutableArray<PanelStep> steps)
    {
        (_panel, _plane, _reach, _steps) = (panel, plane, reach, steps);
        var run = panel.Face.N.Cross(plane.Along).Unit;
        Run = run;
        _run = new Vec2(panel.Face.U.Dot(run), panel.Face.V.Dot(run)).Unit;
        var local = panel.Face.ToLocal(plane.Origin);
        _at = new(local.X, local.Y);
    }

    /// <summary>In the panel and in the plane, unit.</summary>
    public Vec3 Run { get; }

    public Vec2 Normal => _plane.Direction(_panel.Face.N);

    public Vec2 Point(double s, double depth) => _plane.ToPlane(_panel.Face.ToWorld(_at + _run * s, depth));

    /// <summary>From where to where the panel reaches at a depth, not clipped; null if the plane passes it by.</summary>
    public (double Low, double High)? Span(double depth) => Spans(_panel.OutlineAt(depth)).Select(s => ((double, double)?)s).MinBy(s => Math.Max(s!.Value.Item1, -s.Value.Item2));

    /// <summary>True if the panel is there at a place of the plane, on either of its faces.</summary>
    public bool Reaches(Vec2 place)
    {
        double s = (place - Point(0, 0)).Dot(Point(1, 0) - Point(0, 0));
        return Span(_panel.Thickness / 2) is { } span && s > span.Low - 1e-6 && s < span.High + 1e-6;
    }

    private IEnumerable<(double Low, double High)> Spans(Outline outline)
    {
        var hits = new List<double>();
        foreach (var s in outline.Flattened(0.05).Segments)
        {
            double a = (s.From - _at).Dot(_run.Left), b = (s.To - _at).Dot(_run.Left);
            if (a > 0 == b > 0) continue;
            hits.Add((s.From + s.Chord * (a / (a - b)) - _at).Dot(_run));
        }
        hits.Sort();
        for (int i = 0; i + 1 < hits.Count; i += 2) yield return (hits[i], hits[i + 1]);
    }

    private double Clip(double s) => Math.Clamp(s, -_reach, _reach);

    /// <summary>Layer by layer, sticks and what fills the bays between them apart, without what steps take off.</summary>
    public IEnumerable<CutArea> Areas(Frames frames)
    {
        // Cut as rectangles along the panel and into its depth, then brought to the plane.
        Contour Placed(Outline area) => Contour.Polygon([.. area.Segments.Select(s => Point(s.From.X, s.From.Y))]);
        foreach (var (area, material, layer) in Whole(frames))
        {
            var left = Region.Of(area);
            foreach (var step in _steps)
                foreach (var (low, high) in Taken(step)) left = left.Minus(Region.Of(step.FromOutside ? Box(low, high, -1, step.Depth) : Box(low, high, _panel.Thickness - step.Depth, _panel.Thickness + 1)));
            foreach (var part in left.Parts) yield return new(Placed(part.Outer), material, layer);
        }

        static Outline Box(double low, double high, double top, double bottom) => Outline.Rectangle(new(low, top), new(high, bottom));
    }

    /// <summary>From where to where a step is cut along the panel; at the panel's own end it goes out past it, since a bevel may reach on.</summary>
    private IEnumerable<(double Low, double High)> Taken(PanelStep step)
    {
        var outline = _panel.OutlineAt(step.FromOutside ? step.Depth / 2 : _panel.Thickness - step.Depth / 2);
        var ends = Spans(outline).ToList();
        foreach (var (low, high) in step.Taken(outline).SelectMany(Spans))
            if (high - low > 1e-6) yield return (ends.Exists(e => Math.Abs(e.Low - low) < 0.1) ? -2 * _reach : low, ends.Exists(e => Math.Abs(e.High - high) < 0.1) ? 2 * _reach : high);
    }

    // Across the panel from the outside to the inside, as if no step were cut.
    private IEnumerable<(Outline Area, CutMaterial Material, StackLayer Layer)> Whole(Frames frames)
    {
        foreach (var layer in _panel.Stack.Layers.Where(l => l.Thickness > 0))
        {
            double top = _panel.Stack.DepthOf(layer), bottom = top + layer.Thickness;
            if (Span(top) is not { } upper || Span(bottom) is not { } lower) continue;
            Outline Area(double lowTop, double highTop, double lowBottom, double highBottom) =>
                Outline.Polygon([new(Clip(lowTop), top), new(Clip(highTop), top), new(Clip(highBottom), bottom), new(Clip(lowBottom), bottom)]);
            if (layer.Kind != LayerKind.Frame)
            {
                yield return (Area(upper.Low, upper.High, lower.Low, lower.High), LayerHatch.Of(layer.Kind), layer);
                continue;
            }
            // A stick at the panel's edge takes the edge's bevel; those within are square.
            var sticks = frames.Of(_panel).Where(f => f.Zone is null && ReferenceEquals(f.Layer, layer)).SelectMany(f => f.Members).SelectMany(m => Spans(m.Outline))
                .Where(s => s.High > -_reach && s.Low < _reach).OrderBy(s => s.Low).ToList();
            var fill = layer.Fill is null ? CutMaterial.Air : CutMaterial.Foam;
            double at = upper.Low, atBottom = lower.Low;
            foreach (var (low, high) in sticks)
            {
                bool first = low - upper.Low < 0.5, last = upper.High - high < 0.5;
                double lowBottom = first ? lower.Low : low, highBottom = last ? lower.High : high;
                if (low - at > 0.5 && low > -_reach) yield return (Area(at, low, atBottom, lowBottom), fill, layer);
                yield return (Area(low, high, lowBottom, highBottom), CutMaterial.Wood, layer);
                (at, atBottom) = (high, highBottom);
            }
            if (upper.High - at > 0.5 && at < _reach) yield return (Area(at, upper.High, atBottom, lower.High), fill, layer);
        }
    }

    /// <summary>Ends that are not the panel's own, where the drawing breaks off.</summary>
    public IEnumerable<double> Breaks()
    {
        if (Span(_panel.Thickness / 2) is not { } span) yield break;
        if (span.Low < -_reach) yield return -_reach;
        if (span.High > _reach) yield return _reach;
    }
}
