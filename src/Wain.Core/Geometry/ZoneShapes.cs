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
        return outline.Part(zone.Region);
    }

    /// <summary>The rectangle round a zone less the zone itself: what members that are set square round it leave, in the panel's axes. Empty for a zone that straight cuts along the axes bound.</summary>
    public static ImmutableArray<Outline> BesideIn(PlacedPanel panel, PlacedZone zone, Outline outline)
    {
        if (IsSquare(panel, zone)) return [];
        return [.. outline.Clip(zone.Region.Bounds.Sides()).SelectMany(o => o.Part(zone.Region).Outside)];
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
}
