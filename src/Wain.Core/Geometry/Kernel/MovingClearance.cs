using System.Collections.Immutable;

namespace Wain.Core.Geometry.Kernel;

/// <summary>
/// The clearance of one moving body from one standing body over a travel. <see cref="Distance"/> is mm, negative by the depth when they pass through each
/// other; <see cref="Travel"/> is the travel (mm) at which it is least, and the two points are the nearest there (in a collision both are in the common
/// volume). <see cref="Away"/> is the unit direction in which the moving body would have to be shifted for more room. <see cref="From"/> and
/// <see cref="To"/> are the travel between which they collide.
/// </summary>
public sealed record PairClearance(
    int Moving, int Standing, double Distance, double Travel, Vec3 OnMoving, Vec3 OnStanding, Vec3 Away, double? From = null, double? To = null);

/// <summary>Clearance of bodies that move straight together past bodies that stand. A body is convex solids that share no volume.</summary>
public static class MovingClearance
{
    /// <summary>
    /// Every pair that comes nearer than <paramref name="within"/> (mm) anywhere between the travels <paramref name="from"/> and <paramref name="to"/>
    /// (mm along the direction), least distance first. Exact for straight travel. Equal travels give the clearance at rest there.
    /// </summary>
    public static ImmutableArray<PairClearance> Find(
        IReadOnlyList<ImmutableArray<ConvexPolyhedron>> moving, IReadOnlyList<ImmutableArray<ConvexPolyhedron>> standing,
        Vec3 direction, double from, double to, double within)
    {
        var (start, by) = (direction.Unit * from, direction.Unit * (to - from));
        var parts = Enumerable.Range(0, standing.Count).SelectMany(body => standing[body].Select(part => (Body: body, Part: part))).ToArray();
        var tree = new BoxTree([.. parts.Select(p => p.Part.Bounds)]);
        var best = new Dictionary<(int, int), PairClearance>();
        for (var m = 0; m < moving.Count; m++)
            foreach (var atRest in moving[m])
            {
                var solid = from == 0 ? atRest : atRest.Transformed(RigidMove.Straight(start));
                var swept = solid.Bounds.Swept(by);
                foreach (var i in tree.Touching(swept.Grown(within)))
                {
                    var (s, part) = parts[i];
                    var known = best.GetValueOrDefault((m, s));
                    if (swept.DistanceTo(part.Bounds) > Math.Min(within, known?.Distance ?? within)) continue;
                    var found = Between(m, s, solid, part, by, from);
                    if (found.Distance <= within) best[(m, s)] = known is null ? found : Worse(known, found);
                }
            }
        return [.. best.Values.OrderBy(p => Math.Round(p.Distance, 6)).ThenBy(p => p.Moving).ThenBy(p => p.Standing)];
    }

    private static PairClearance Between(int m, int s, ConvexPolyhedron solid, ConvexPolyhedron part, Vec3 by, double from)
    {
        var nearest = ConvexPair.Nearest(solid, part, by);
        if (nearest.Distance <= 1e-5 && ConvexPair.Penetrates(solid, part, by) is { } deep && ConvexPair.Collision(solid, part, by) is { } span)
        {
            var middle = (span.From + span.To) / 2;
            var there = solid.Transformed(RigidMove.Straight(by * middle));
            var at = ConvexPolyhedron.Intersection(there, part)?.Measures.Centroid ?? nearest.OnStanding;
            return new(m, s, -deep.Depth, from + middle * by.Length, at, at, deep.Direction, from + span.From * by.Length, from + span.To * by.Length);
        }
        return new(m, s, nearest.Distance, from + nearest.Part * by.Length, nearest.OnMoving, nearest.OnStanding, (nearest.OnMoving - nearest.OnStanding).Unit);
    }

    // The deeper or nearer of two, with the travel over which either collides.
    private static PairClearance Worse(PairClearance a, PairClearance b) => (b.Distance < a.Distance ? b : a) with
    {
        From = Least(a.From, b.From, Math.Min),
        To = Least(a.To, b.To, Math.Max),
    };

    private static double? Least(double? a, double? b, Func<double, double, double> pick) => a is { } x && b is { } y ? pick(x, y) : a ?? b;

    /// <summary>Bodies that pass through each other where they stand, deepest first: the pair, the depth (mm) and the common volume (mm3).</summary>
    public static ImmutableArray<(int A, int B, double Depth, double Volume)> Overlaps(IReadOnlyList<ImmutableArray<ConvexPolyhedron>> bodies)
    {
        var parts = Enumerable.Range(0, bodies.Count).SelectMany(body => bodies[body].Select(part => (Body: body, Part: part))).ToArray();
        var tree = new BoxTree([.. parts.Select(p => p.Part.Bounds)]);
        var found = new Dictionary<(int A, int B), (double Depth, double Volume)>();
        foreach (var (body, part) in parts)
            foreach (var i in tree.Touching(part.Bounds))
            {
                var (other, otherPart) = parts[i];
                if (other <= body || ConvexPair.Penetrates(part, otherPart, default) is not { } deep) continue;
                var volume = ConvexPolyhedron.Intersection(part, otherPart)?.Measures.Volume ?? 0;
                var known = found.GetValueOrDefault((body, other));
                found[(body, other)] = (Math.Max(known.Depth, deep.Depth), known.Volume + volume);
            }
        return [.. found.Select(f => (f.Key.A, f.Key.B, f.Value.Depth, f.Value.Volume)).OrderByDescending(f => Math.Round(f.Depth, 6)).ThenBy(f => f.A).ThenBy(f => f.B)];
    }
}

/// <summary>A lifted roof that hangs low at a corner.</summary>
public static class Racking
{
    /// <summary>
    /// The small turn that lowers one corner of a four-cornered footprint by a lag (mm along <paramref name="up"/>): the opposite corner keeps its height and
    /// the two between them sink by half, as a rigid body must when no corner rises. Null when the lag is longer than the footprint's diagonal.
    /// </summary>
    public static RigidMove? LowCorner(IReadOnlyList<Vec3> footprint, int low, double lag, Vec3 up)
    {
        var (corner, pivot, along) = (footprint[low], footprint[(low + 2) % 4], up.Unit);
        var diagonal = corner - pivot - along * (corner - pivot).Dot(along);
        if (lag >= diagonal.Length) return null;
        return new(pivot, along.Cross(diagonal.Unit), Math.Asin(lag / diagonal.Length), default);
    }
}
