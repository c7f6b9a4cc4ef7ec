using System.Collections.Immutable;
using Wain.Core.Geometry.Kernel;

namespace Wain.Core.Geometry;

/// <summary>What a zone takes of a layer of its panel, and what it leaves of it.</summary>
internal static class ZoneShapes
{
    /// <summary>
    /// An outline of the panel at some depth (mm, panel axes), parted by a zone. A side of the zone that lies on the panel's own edge cuts nothing, so a zone
    /// follows the panel's bevels down. A convex zone parts by straight cuts, as a saw does; one of any other shape is cut along its own outline.
    /// </summary>
    public static (ImmutableArray<Outline> Inside, ImmutableArray<Outline> Outside) Split(PlacedPanel panel, PlacedZone zone, Outline outline)
    {
        if (Cuts(panel.Outline, zone.Region) is { } cuts) return outline.Split(cuts);
        if (zone.Region.Bounds.Sides() is var box && outline.Clip(box).IsEmpty) return ([], [outline]);
        var (whole, region) = (Region.Of(outline), Region.Of(zone.Region));
        ImmutableArray<Outline> Named(Region made) => [.. made.Parts.Select(p => Restored(p.Outer, outline, zone.Region))];
        var rest = whole.Minus(region);
        if (rest.Parts.All(p => p.Holes.IsEmpty)) return (Named(whole.Intersection(region)), Named(rest));
        // A zone in the midst of it: straight cuts from its corners open the ring.
        IEnumerable<Outline> around = [outline];
        foreach (var part in zone.Region.Flattened(0.01).ConvexParts() ?? []) around = around.SelectMany(o => o.Split(Sides(part)).Outside).ToList();
        return (Named(whole.Intersection(region)), [.. around]);
    }

    /// <summary>The rectangle round a zone less the zone itself: what members that are set square round it leave, in the panel's axes. Empty for a zone that its straight cuts along the axes bound.</summary>
    public static ImmutableArray<Outline> BesideIn(PlacedPanel panel, PlacedZone zone, Outline outline)
    {
        if (IsSquare(panel, zone)) return [];
        return [.. outline.Clip(zone.Region.Bounds.Sides()).SelectMany(o => Split(panel, zone, o).Outside)];
    }

    /// <summary>What is left of an outline where a part is cut away, with the holes that it leaves in it.</summary>
    public static (ImmutableArray<Outline> Parts, ImmutableArray<Outline> Holes) Less(Outline outline, Outline gone)
    {
        var rest = Region.Of(outline).Minus(Region.Of(gone));
        return ([.. rest.Parts.Select(p => Restored(p.Outer, outline, gone))], [.. rest.Parts.SelectMany(p => p.Holes).Select(h => h.CounterClockwise)]);
    }

    /// <summary>True if cuts along the panel's axes bound the zone.</summary>
    public static bool IsSquare(PlacedPanel panel, PlacedZone zone) => Cuts(panel.Outline, zone.Region) is { } cuts && cuts.All(c => Math.Abs(c.Keep.X * c.Keep.Y) < 1e-9);

    // The straight cuts that bound a zone, or null if it takes more than straight cuts.
    private static HalfPlane[]? Cuts(Outline panel, Outline zone)
    {
        var own = Enumerable.Range(0, zone.Count).Where(i => panel.DistanceToEdges(zone.Segment(i).At(0.5)) > 0.01).ToList();
        if (own.Exists(i => zone.Segment(i).IsArc)) return null;
        HalfPlane[] cuts = [.. own.Select(i => HalfPlane.LeftOf(zone.Segment(i).From, zone.Segment(i).Chord))];
        if (!zone.Corners.All(c => cuts.All(cut => cut.Height(c) > -0.01))) return null;
        // Those along the axes in the order that leaves what is above and below in one piece.
        return cuts.All(c => Math.Abs(c.Keep.X * c.Keep.Y) < 1e-9) ? zone.Bounds.Sides() : cuts;
    }

    private static HalfPlane[] Sides(Outline convex) => [.. Enumerable.Range(0, convex.Count).Select(i => HalfPlane.LeftOf(convex.Segment(i).From, convex.Segment(i).Chord))];

    // Combining areas forgets names and bevels: each side takes those of the side that it lies on.
    private static Outline Restored(Outline made, Outline panel, Outline zone) => new([.. made.Edges.Select((e, i) =>
    {
        var middle = made.Segment(i).At(0.5);
        return Lies(panel, middle) is { } source ? e with { Name = source.Name, Tilt = source.Tilt } : Lies(zone, middle) is { } cut ? e with { Tilt = cut.Tilt } : e;
    })]);

    private static OutlineEdge? Lies(Outline outline, Vec2 p)
    {
        for (int i = 0; i < outline.Count; i++)
            if (outline.Segment(i).DistanceTo(p) < 0.02) return outline.Edges[i];
        return null;
    }
}
