using System.Collections.Immutable;

namespace Wain.Core.Geometry.Kernel;

/// <summary>
/// A panel or one of its layers as a solid: an outline on the outside face of a frame, with bevelled edges, less its openings, between two depths (mm)
/// below that face. An opening's positive tilt makes it wider with depth.
/// </summary>
public sealed record Slab(Frame Frame, Outline Outline, ImmutableArray<Outline> Openings, double FromDepth, double ToDepth)
{
    public double Thickness => ToDepth - FromDepth;
}

public static class SlabSolids
{
    /// <summary>
    /// Volume and centroid, exact: the area at a depth is quadratic in the depth between places where an edge ends, so three Gauss points integrate it and
    /// its first moments without error. An outline that comes to a point before the full depth ends there. Null when an edge runs into another part of
    /// the outline at some depth.
    /// </summary>
    public static SolidMeasures? Measures(this Slab slab)
    {
        if (Integrate(slab.Outline, slab.FromDepth, slab.ToDepth) is not { } total) return null;
        foreach (var opening in slab.Openings)
        {
            if (Integrate(opening, slab.FromDepth, slab.ToDepth) is not { } hole) return null;
            total = new(total.Volume - hole.Volume, total.First - hole.First);
        }
        if (total.Volume == 0) return default(SolidMeasures);
        var local = total.First / total.Volume;
        return new(total.Volume, slab.Frame.ToWorld(new Vec2(local.X, local.Y), local.Z));
    }

    /// <summary>mm3 and first moments in (u, v, depth).</summary>
    private static (double Volume, Vec3 First)? Integrate(Outline outline, double from, double to)
    {
        if (to <= from) return (0, default);
        if (outline.Edges.All(e => e.Tilt == 0)) return Over(outline, from, to);
        (double Volume, Vec3 First) sum = (0, default);
        var at = from;
        for (var guard = 0; at < to && guard <= 2 * outline.Count + 2; guard++)
        {
            var key = outline.AtDepth(at);
            if (key.Failure == OffsetFailure.MeetsItself) return null;
            if (key.Failure == OffsetFailure.Collapsed) return sum;
            var end = EndOfSameShape(outline, at, to);
            if (Over(outline, at, end) is not { } part) return null;
            sum = (sum.Volume + part.Volume, sum.First + part.First);
            if (end < to && outline.AtDepth(to).Failure == OffsetFailure.MeetsItself && outline.AtDepth(Beyond(end)).Failure == OffsetFailure.MeetsItself) return null;
            at = end < to ? Beyond(end) : to;
        }
        return sum;

        // A hair past the place where an edge ends; the sliver left out is under a billionth of a millimetre thick.
        static double Beyond(double depth) => depth + 1e-9;
    }

    private static double EndOfSameShape(Outline outline, double from, double to)
    {
        var shape = Shape(outline, from);
        if (shape == Shape(outline, to)) return to;
        var (good, bad) = (from, to);
        while (bad - good > 1e-10)
        {
            var middle = (good + bad) / 2;
            if (middle == good || middle == bad) break;
            if (Shape(outline, middle) == shape) good = middle; else bad = middle;
        }
        return good;

        static string Shape(Outline outline, double depth)
        {
            var result = outline.AtDepth(depth);
            return result.Failure is { } failure ? failure.ToString() : string.Join(',', result.Sources);
        }
    }

    private static (double Volume, Vec3 First)? Over(Outline outline, double from, double to)
    {
        // Gauss's three points on [-1, 1]: exact to the fifth power.
        ReadOnlySpan<(double At, double Weight)> rule = [(-Math.Sqrt(0.6), 5.0 / 9), (0, 8.0 / 9), (Math.Sqrt(0.6), 5.0 / 9)];
        // Arcs between edges of unlike tilt have corners on circles, which no polynomial follows: finer pieces there.
        var pieces = outline.HasArcs && outline.Edges.Any(e => e.Tilt != outline.Edges[0].Tilt) ? 16 : 1;
        double volume = 0;
        var first = Vec3.Zero;
        for (var k = 0; k < pieces; k++)
        {
            var (a, b) = (from + (to - from) * k / pieces, from + (to - from) * (k + 1) / pieces);
            foreach (var (x, weight) in rule)
            {
                var depth = (a + b) / 2 + x * (b - a) / 2;
                if (outline.AtDepth(depth) is not { Outline: { } cut } result) return null;
                var m = cut.Moments();
                var w = weight * (b - a) / 2;
                volume += m.Area * w;
                first += new Vec3(m.Sx, m.Sy, m.Area * depth) * w;
            }
        }
        return (volume, first);
    }

    /// <summary>
    /// The slab as convex solids that share no volume. Arcs become chords within a sagitta (mm); cuts at inward corners follow the tilted edge planes, so
    /// straight-edged slabs are exact. Null when the outline crosses itself, runs into itself at some depth, or comes to nothing.
    /// </summary>
    public static ImmutableArray<ConvexPolyhedron>? ConvexParts(this Slab slab, double sagitta = 0.01)
    {
        if (Parts(slab.Frame, slab.Outline.Flattened(sagitta), slab.FromDepth, slab.ToDepth) is not { } parts) return null;
        foreach (var opening in slab.Openings)
        {
            // The cutter stands out of both faces, so that no film is left on them.
            if (Parts(slab.Frame, opening.Flattened(sagitta), slab.FromDepth - 1, slab.ToDepth + 1) is not { } cutters) return null;
            foreach (var cutter in cutters) parts = [.. parts.SelectMany(p => p.Minus(cutter))];
        }
        return parts.Count == 0 ? null : [.. parts];
    }

    // Where a cut from an inward corner lands may pass from one edge to the next on the way down, so the depth is taken in stretches over which every
    // part keeps its edges. Places move linearly with depth: a stretch that has the same parts at both ends has them throughout.
    private static List<ConvexPolyhedron>? Parts(Frame frame, Outline outline, double from, double to)
    {
        var parts = new List<ConvexPolyhedron>();
        if (outline.Edges.All(e => e.Tilt == 0))
        {
            if (outline.ConvexParts() is not { } straight) return null;
            foreach (var part in straight) if ((ConvexPolyhedron.Upright(frame, part, from, to) ?? Prism(frame, part, from, from, to)) is { } prism) parts.Add(prism);
            return parts;
        }
        var named = new Outline([.. outline.Edges.Select((e, i) => e with { Name = $"{i}" })]);
        const double hair = 2e-6;
        // Two places that drift apart very slowly could make stretches without number; one of a two-hundredth costs nothing that can be measured.
        var least = (to - from) / 200;
        for (var at = from; at < to - hair;)
        {
            var start = at == from ? at : at + hair;
            if (named.AtDepth(start).Failure is { } failure) return failure == OffsetFailure.Collapsed ? parts : null;
            var shape = Shape(named, start);
            // Just where a cut grazes another corner no clean parting may exist: take the shape a little further down.
            if (shape is null) shape = Shape(named, start = Math.Min(to, at + least));
            if (shape is null) return null;
            var (good, bad) = (start, to);
            if (Shape(named, to) != shape)
                while (bad - good > hair / 4)
                {
                    var middle = (good + bad) / 2;
                    if (Shape(named, middle) == shape) good = middle; else bad = middle;
                }
            else good = to;
            good = Math.Max(good, Math.Min(to, at + least));
            var depth = (start + good) / 2;
            if (named.AtDepth(depth).Outline?.ConvexParts() is not { } outlines) return null;
            parts.AddRange(outlines.Select(o => Prism(frame, o, depth, at, good)).OfType<ConvexPolyhedron>());
            at = good;
        }
        return parts;

        static string? Shape(Outline outline, double depth) =>
            outline.AtDepth(depth).Outline?.ConvexParts() is { } parts ? string.Join(';', parts.Select(p => string.Join(',', p.Edges.Select(e => e.Name)))) : null;
    }

    private static ConvexPolyhedron? Prism(Frame frame, Outline outline, double depth, double from, double to)
    {
        var (face, cut) = (frame.Plane, frame.AtDepth(depth));
        List<Plane> planes = [face.Moved(-from), face.Moved(-to).Flipped];
        for (var i = 0; i < outline.Count; i++)
            if (FaceCut.Through(cut, outline, i) is { } plane) planes.Add(plane);
        return ConvexPolyhedron.FromHalfSpaces(planes);
    }
}
