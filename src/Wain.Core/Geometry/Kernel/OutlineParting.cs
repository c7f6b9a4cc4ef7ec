using System.Collections.Immutable;

namespace Wain.Core.Geometry.Kernel;

/// <summary>One outline parted by another of any shape. Names, bevels and arcs of both stay with the sides that come of them.</summary>
internal static class OutlineParting
{
    // Arcs go into the overlay as chords this near (mm); a side belongs to the one that its middle lies on.
    private const double Sagitta = 0.001, On = 2 * Sagitta;

    // What is thinner than this all along is left over by chords and no wood (mm).
    private const double Hair = 0.02;

    /// <summary>What of an outline lies within a region, and what outside it in pieces without holes: where the region lies in the midst, cuts up and down its two sides open the ring.</summary>
    public static (ImmutableArray<Outline> Inside, ImmutableArray<Outline> Outside) Part(this Outline outline, Outline region)
    {
        if (!outline.Bounds.Touches(region.Bounds) || outline.Clip(region.Bounds.Sides()).IsEmpty) return ([], [outline]);
        var (whole, gone) = (Region.Of(outline), Region.Of(region));
        var inside = Named(whole.Intersection(gone, Sagitta), outline, region);
        if (inside.IsEmpty) return ([], [outline]);
        var rest = whole.Minus(gone, Sagitta);
        if (rest.Parts.All(p => p.Holes.IsEmpty)) return (inside, Named(rest, outline, region));
        var (middle, beside) = outline.Split(region.Bounds.Sides()[..2]);
        return (inside, [.. beside, .. middle.SelectMany(m => Named(Region.Of(m).Minus(gone, Sagitta), m, region))]);
    }

    /// <summary>What is left of an outline where a part is cut away, with the holes that it leaves in it.</summary>
    public static (ImmutableArray<Outline> Parts, ImmutableArray<Outline> Holes) Less(this Outline outline, Outline gone)
    {
        var rest = Region.Of(outline).Minus(Region.Of(gone), Sagitta);
        return (Named(rest, outline, gone), [.. rest.Parts.SelectMany(p => p.Holes).Select(h => Restored(h.CounterClockwise, outline, gone))]);
    }

    private static ImmutableArray<Outline> Named(Region made, Outline first, Outline second) =>
        [.. made.Parts.Where(p => p.Outer.Area() > Hair * p.Outer.Perimeter / 2).Select(p => Restored(p.Outer, first, second))];

    // Combining areas makes chords of arcs and forgets names and bevels: each side takes those of the side that it lies on, and chords of one arc are that arc again.
    private static Outline Restored(Outline made, Outline first, Outline second)
    {
        // Edges of the second are counted on from those of the first; -1 for a side that is of neither.
        int[] sources = [.. made.Segments.Select(s => s.At(0.5)).Select(p => Lies(first, p) ?? first.Count + Lies(second, p) ?? -1)];
        Segment Source(int i) => sources[i] < first.Count ? first.Segment(sources[i]) : second.Segment(sources[i] - first.Count);
        bool GoesOn(int i) => sources[i] >= 0 && sources[i] == sources[made.Previous(i)] && Source(i).IsArc;
        int start = Enumerable.Range(0, made.Count).FirstOrDefault(i => !GoesOn(i));
        var edges = ImmutableArray.CreateBuilder<OutlineEdge>();
        for (int k = 0; k < made.Count; k++)
        {
            int i = (start + k) % made.Count;
            var s = made.Segment(i);
            if (sources[i] < 0)
            {
                edges.Add(new OutlineEdge(s.From));
                continue;
            }
            double sweep = Source(i) is { IsArc: true, Centre: var centre } ? Math.Atan2((s.From - centre).Cross(s.To - centre), (s.From - centre).Dot(s.To - centre)) : 0;
            var (name, tilt) = sources[i] < first.Count ? (first.Edges[sources[i]].Name, first.Edges[sources[i]].Tilt) : (null, second.Edges[sources[i] - first.Count].Tilt);
            if (k > 0 && GoesOn(i)) edges[^1] = edges[^1] with { Sweep = edges[^1].Sweep + sweep };
            else edges.Add(new OutlineEdge(s.From, sweep, name, tilt));
        }
        return new Outline(edges.ToImmutable());
    }

    private static int? Lies(Outline outline, Vec2 p)
    {
        for (int i = 0; i < outline.Count; i++)
            if (outline.Segment(i).DistanceTo(p) < On) return i;
        return null;
    }
}
