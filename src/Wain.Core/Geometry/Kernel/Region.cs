using System.Collections.Immutable;

namespace Wain.Core.Geometry.Kernel;

/// <summary>One connected area: a counter-clockwise outline with holes in it (also counter-clockwise, as outlines of what is missing).</summary>
public sealed record RegionPart(Outline Outer, ImmutableArray<Outline> Holes);

/// <summary>An area of any number of parts with holes (mm).</summary>
public sealed record Region(ImmutableArray<RegionPart> Parts)
{
    public static Region Empty => new([]);

    public static Region Of(Outline outer, params IEnumerable<Outline> holes) => new([new(outer.CounterClockwise, [.. holes.Select(h => h.CounterClockwise)])]);

    public bool IsEmpty => Parts.IsEmpty;

    public Moments Moments => Parts.Aggregate(default(Moments), (sum, part) => part.Holes.Aggregate(sum + part.Outer.Moments(), (s, h) => s - h.Moments()));

    public double Area => Moments.Area;
    public Vec2 Centroid => Moments.Centroid;

    public bool Contains(Vec2 p, double tolerance = Tolerance.Length) =>
        Parts.Any(part => part.Outer.Contains(p, tolerance) && !part.Holes.Any(h => h.Contains(p, 0) && h.DistanceToEdges(p) > tolerance));

    /// <summary>mm between two areas; 0 when they touch or overlap.</summary>
    public double DistanceTo(Region other)
    {
        if (Parts.Any(p => other.Contains(p.Outer.Edges[0].Start)) || other.Parts.Any(p => Contains(p.Outer.Edges[0].Start))) return 0;
        return (from a in Loops from b in other.Loops select a.EdgeDistance(b).Distance).DefaultIfEmpty(double.PositiveInfinity).Min();
    }

    public IEnumerable<Outline> Loops => Parts.SelectMany(p => p.Holes.Prepend(p.Outer));

    public Region Union(Region other, double sagitta = 0.01) => RegionOverlay.Combine(this, other, (a, b) => a || b, sagitta);
    public Region Intersection(Region other, double sagitta = 0.01) => RegionOverlay.Combine(this, other, (a, b) => a && b, sagitta);
    public Region Minus(Region other, double sagitta = 0.01) => RegionOverlay.Combine(this, other, (a, b) => a && !b, sagitta);
}
