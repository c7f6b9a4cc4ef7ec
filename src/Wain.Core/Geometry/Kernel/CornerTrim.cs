namespace Wain.Core.Geometry.Kernel;

/// <summary>How two panels meet at a corner.</summary>
public enum CornerStyle { FirstRunsThrough, SecondRunsThrough, Mitre }

/// <summary>
/// Where a panel's edge goes at a corner: <paramref name="SetBack"/> mm on its outside face from the line in which the two outside faces meet (negative
/// reaches past it), and the tilt of the edge.
/// </summary>
public readonly record struct EdgeTrim(double SetBack, double Tilt);

/// <summary>
/// A plane cut as a panel sees it: on the outside face it keeps Normal . (u, v) &lt;= Offset (mm, Normal of length 1), and the edge has this tilt.
/// </summary>
public readonly record struct FaceCut(Vec2 Normal, double Offset, double Tilt)
{
    /// <summary>The trace of a plane on a panel that keeps the plane's negative side; null when the plane runs parallel to the panel.</summary>
    public static FaceCut? Of(Frame panel, Plane keepBelow)
    {
        var local = panel.ToLocal(keepBelow);
        var trace = new Vec2(local.Normal.X, local.Normal.Y);
        var length = trace.Length;
        return length <= Tolerance.Angle ? null : new(trace / length, local.Offset / length, Math.Atan2(local.Normal.Z, length));
    }

    /// <summary>The cut through a straight edge of a panel: a half-space that keeps the panel. Null for an arc.</summary>
    public static Plane? Through(Frame panel, Outline outline, int edge)
    {
        var s = outline.Segment(edge);
        if (s.IsArc) return null;
        var (sin, cos) = Math.SinCos(outline.Edges[edge].Tilt);
        return Plane.Through(panel.ToWorld(s.From), panel.DirectionToWorld(s.Chord.Unit.Right) * cos + panel.N * sin);
    }
}

/// <summary>
/// Trims two panels at their corner so that their solids neither overlap nor leave a gap. Seen along the edge, both outside faces start at the outer
/// corner. The one that runs through reaches the other's outside face and is bevelled flush with it; the one that stops ends on the other's inside
/// face. At an inward corner the roles of the faces are exchanged. A mitre joins the outer to the inner corner, for unequal thicknesses too.
/// </summary>
public static class CornerTrim
{
    /// <summary>
    /// The trims from the dihedral angle (radians, through the inside, 0 to 2 pi) and the thicknesses (mm). Null when the panels are parallel, so that
    /// there is no corner: except for a mitre of equal thicknesses in one plane, which is a square butt.
    /// </summary>
    public static (EdgeTrim First, EdgeTrim Second)? Between(double dihedral, double first, double second, CornerStyle style)
    {
        var (sin, cos) = Math.SinCos(dihedral);
        if (Math.Abs(sin) <= Tolerance.Angle)
            return style == CornerStyle.Mitre && cos < 0 && Math.Abs(first - second) <= Tolerance.Length ? (default, default) : null;
        if (style == CornerStyle.Mitre)
            return (new(0, MitreTilt(first, second)), new(0, MitreTilt(second, first)));
        // Both edges lie along a face of the other panel, so both have the same tilt.
        var tilt = Math.Atan(-cos / sin);
        var (throughThickness, stopThickness) = style == CornerStyle.FirstRunsThrough ? (first, second) : (second, first);
        var through = new EdgeTrim(sin > 0 ? 0 : stopThickness / sin, tilt);
        var stop = new EdgeTrim(sin > 0 ? throughThickness / sin : 0, tilt);
        return style == CornerStyle.FirstRunsThrough ? (through, stop) : (stop, through);

        // The inner corner lies (other + own cos) / sin along the panel, at its full depth.
        double MitreTilt(double own, double other) => Math.Atan2(-(other + own * cos) / sin, own);
    }

    /// <summary>
    /// The same as planes in space: each keeps its negative side. <paramref name="reflex"/> is true at an inward corner.
    /// Null when the faces are parallel.
    /// </summary>
    public static (Plane First, Plane Second)? Planes(Plane outsideA, double a, Plane outsideB, double b, CornerStyle style, bool reflex = false)
    {
        if (outsideA.Meet(outsideB) is not { } outer) return null;
        if (style == CornerStyle.SecondRunsThrough)
            return Planes(outsideB, b, outsideA, a, CornerStyle.FirstRunsThrough, reflex) is { } swapped ? (swapped.Second, swapped.First) : null;
        if (style == CornerStyle.FirstRunsThrough)
            return reflex ? (outsideB.Moved(-b).Flipped, outsideA.Flipped) : (outsideB, outsideA.Moved(-a));
        if (outsideA.Moved(-a).Meet(outsideB.Moved(-b)) is not { } inner) return null;
        // A direction across the mitre, from panel A's side to B's.
        var across = outer.Direction.Cross(inner.Point - outer.Point);
        var towardsB = reflex ? outsideA.Normal - outsideB.Normal : outsideB.Normal - outsideA.Normal;
        var cut = Plane.Through(outer.Point, across.Dot(towardsB) >= 0 ? across : -across);
        return (cut, cut.Flipped);
    }

    /// <summary>An outline with one straight edge set back and tilted.</summary>
    public static OffsetResult Apply(Outline outline, int edge, EdgeTrim trim)
    {
        var moved = outline.Offset(i => i == edge ? -trim.SetBack : 0);
        var at = moved.Outline is null ? -1 : moved.Sources.IndexOf(edge);
        return at < 0 ? moved : moved with { Outline = moved.Outline!.WithEdge(at, e => e with { Tilt = trim.Tilt }) };
    }

    /// <summary>
    /// An outline with one straight edge laid on a cut: its neighbours are lengthened or shortened to meet it. Null when a neighbour runs parallel to
    /// the cut or the edge is an arc. The caller checks the result for crossings.
    /// </summary>
    public static Outline? OnCut(Outline outline, int edge, FaceCut cut)
    {
        if (outline.Segment(edge).IsArc) return null;
        var line = new Segment(cut.Normal * cut.Offset, cut.Normal * cut.Offset + cut.Normal.Left);
        var (before, after) = (outline.Segment(outline.Previous(edge)), outline.Segment(outline.Next(edge)));
        if (Corner(before, before.To) is not { } start || Corner(after, after.From) is not { } end) return null;
        var result = outline
            .WithEdge(edge, e => e with { Start = start, Tilt = cut.Tilt })
            .WithEdge(outline.Next(edge), e => e with { Start = end, Sweep = Sweep(after, end, after.To) });
        return result.WithEdge(outline.Previous(edge), e => e with { Sweep = Sweep(before, before.From, start) });

        Vec2? Corner(Segment neighbour, Vec2 near) =>
            SegmentPair.CarrierMeet(line, neighbour) is { Length: > 0 } meets ? meets.MinBy(m => m.DistanceTo(near)) : null;

        static double Sweep(Segment old, Vec2 from, Vec2 to)
        {
            if (!old.IsArc) return 0;
            var turned = Math.Atan2((from - old.Centre).Cross(to - old.Centre), (from - old.Centre).Dot(to - old.Centre));
            return old.Sweep > 0 == turned > 0 ? turned : turned + Math.Sign(old.Sweep) * 2 * Math.PI;
        }
    }
}
