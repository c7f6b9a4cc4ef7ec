using System.Collections.Immutable;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;

namespace Wain.Core.Clearance;

/// <summary>How near one moving thing comes to one standing thing.</summary>
/// <param name="Distance">mm; negative by the depth where they pass through each other.</param>
/// <param name="Travel">mm of travel at which it is least; for a lift that turns, radians of its swing, and so are From and To.</param>
/// <param name="At">The nearest point of the moving thing there (mm).</param>
/// <param name="Away">Unit direction in which the moving thing would have to be shifted for more room.</param>
/// <param name="From">Travel (mm) between which they collide, or null.</param>
/// <param name="Low">For the racked roof, the corner that hangs low, as a word; null for straight travel.</param>
/// <param name="Seat">True if the two come to rest on each other: they touch at the lower end of the travel alone and part along it. Those that touch at rest and turn against each other at a hinge without biting count as well.</param>
public sealed record Approach(Body Moving, Body Standing, double Distance, double Travel, Vec3 At, Vec3 Away, double? From, double? To, string? Low, bool Seat);

/// <summary>A moving wall beside a standing one (mm).</summary>
/// <param name="Gap">Between the two faces that look at each other, square to the moving one, where it is least while they lap at rest or raised.</param>
/// <param name="Widest">The same where it is most: of a wall that leans toward or away from the other, at the other end of what they share.</param>
/// <param name="LapAtRest">Along the travel; negative if they have parted.</param>
/// <param name="LapRaised">The same when raised.</param>
public sealed record FacingWalls(PlacedPanel Moving, PlacedPanel Standing, double Gap, double Widest, double LapAtRest, double LapRaised);

/// <summary>What a lift leaves clear.</summary>
/// <param name="Straight">Each near pair over the whole straight travel, nearest first.</param>
/// <param name="Racked">The same for the roof with a corner low, each pair once with its worst corner.</param>
/// <param name="Overlap">The moving wall that laps the standing walls least when raised, or null if none stand beside it.</param>
/// <param name="Headroom">mm from the floor to the lowest point of the roof above it when raised, with the two panels; or null.</param>
public sealed record LiftClearance(PlacedLift Lift, ImmutableArray<Approach> Straight, ImmutableArray<Approach> Racked, ImmutableArray<FacingWalls> Walls, FacingWalls? Overlap, (double Height, PlacedPanel Floor, PlacedPanel Roof)? Headroom)
{
    /// <summary>Pairs farther apart than this (mm) over the whole travel are not listed, unless nothing is nearer.</summary>
    public const double Near = 50.8;

    public static LiftClearance Of(Structure structure, PlacedLift lift, ImmutableArray<Body> bodies)
    {
        var carried = lift.Carries.ToHashSet(StringComparer.Ordinal);
        ImmutableArray<Body> moving = [.. bodies.Where(b => carried.Contains(b.Panel.Name) && b.Parts.Length > 0)];
        ImmutableArray<Body> standing = [.. bodies.Where(b => !carried.Contains(b.Panel.Name) && b.Parts.Length > 0)];
        var walls = Facing(lift, moving, standing);
        // Walls that have parted at rest already do not lap; a wall laps by the best of those beside it.
        var overlap = walls.Where(w => w.LapAtRest > 0).GroupBy(w => w.Moving.Name, StringComparer.Ordinal).Select(g => g.MaxBy(w => w.LapRaised)!).MinBy(w => w.LapRaised);
        return new LiftClearance(lift, lift.Hinge is { } hinge ? Turning(hinge, moving, standing) : Straightly(lift, moving, standing), Rackedly(structure, lift, moving, standing), walls, overlap, Room(lift, moving, standing));
    }

    private static ImmutableArray<Approach> Turning(Hinge hinge, ImmutableArray<Body> moving, ImmutableArray<Body> standing)
    {
        if (moving.IsEmpty || standing.IsEmpty) return [];
        ImmutableArray<ConvexPolyhedron>[] m = [.. moving.Select(b => b.Parts)], s = [.. standing.Select(b => b.Parts)];
        for (double within = Near; ; within *= 4)
        {
            var found = TurningClearance.Find(m, s, hinge, within);
            if (!found.IsEmpty || within > 20_000) return [.. found.Select(f => new Approach(moving[f.Moving], standing[f.Standing], f.Distance, f.Travel, f.OnMoving, f.Away, f.From, f.To, null, Rests(f)))];
        }

        bool Rests(PairClearance f) => Math.Abs(f.Distance) <= 2 * TurningClearance.Error && MovingClearance.Find([m[f.Moving]], [s[f.Standing]], Vec3.UnitZ, 0, 0, 1e-3) is [{ Distance: > -1e-3 }];
    }

    private static ImmutableArray<Approach> Straightly(PlacedLift lift, ImmutableArray<Body> moving, ImmutableArray<Body> standing)
    {
        if (moving.IsEmpty || standing.IsEmpty) return [];
        ImmutableArray<ConvexPolyhedron>[] m = [.. moving.Select(b => b.Parts)], s = [.. standing.Select(b => b.Parts)];
        for (double within = Near; ; within *= 4)
        {
            var found = MovingClearance.Find(m, s, lift.Direction, 0, lift.Travel, within);
            if (!found.IsEmpty || within > 20_000) return [.. found.Select(f => ToApproach(lift, moving[f.Moving], standing[f.Standing], f, 0, null))];
        }
    }

    /// <summary>The corners of what rises, in the order of <see cref="Feet"/>.</summary>
    internal static readonly ImmutableArray<string> Corners = ["rear right", "front right", "front left", "rear left"];

    internal static Vec3[] Feet(Box3 box, double z) => [new(box.Min.X, box.Min.Y, z), new(box.Max.X, box.Min.Y, z), new(box.Max.X, box.Max.Y, z), new(box.Min.X, box.Max.Y, z)];

    // No corner can be lower than at rest, so the roof that hangs low travels from where its low corner still rests.
    private static ImmutableArray<Approach> Rackedly(Structure structure, PlacedLift lift, ImmutableArray<Body> moving, ImmutableArray<Body> standing)
    {
        if (moving.IsEmpty || standing.IsEmpty || lift.Lag <= 0 || lift.Lag >= lift.Travel || lift.Hinge is not null || Math.Abs(lift.Direction.Z) < 0.99) return [];
        var box = moving.Select(b => b.Bounds).Aggregate((a, b) => a.Union(b));
        double z = Pushed(structure, lift) ?? box.Max.Z;
        var feet = Feet(box, z);
        ImmutableArray<ConvexPolyhedron>[] s = [.. standing.Select(b => b.Parts)];
        var worst = new Dictionary<(int, int), Approach>();
        for (int low = 0; low < 4; low++)
        {
            if (Racking.LowCorner(feet, low, lift.Lag, lift.Direction) is not { } move) continue;
            ImmutableArray<ConvexPolyhedron>[] m = [.. moving.Select(b => b.Parts.Select(p => p.Transformed(move)).ToImmutableArray())];
            foreach (var f in MovingClearance.Find(m, s, lift.Direction, lift.Lag, lift.Travel, Near))
            {
                var found = ToApproach(lift, moving[f.Moving], standing[f.Standing], f, lift.Lag, Corners[low]);
                if (!worst.TryGetValue((f.Moving, f.Standing), out var known) || found.Distance < known.Distance) worst[(f.Moving, f.Standing)] = found;
            }
        }
        return [.. worst.OrderBy(w => Math.Round(w.Value.Distance, 6)).ThenBy(w => w.Key.Item1).ThenBy(w => w.Key.Item2).Select(w => w.Value)];
    }

    /// <summary>Mean height of the points at which the roof is pushed up (mm): it turns about them; null if none is stated.</summary>
    private static double? Pushed(Structure structure, PlacedLift lift)
    {
        var heights = lift.Fact.All("lifted").Select(p => structure.Spec.Evaluator.Place(p, "at")).OfType<ImmutableArray<double>>().Select(p => p[2]).ToList();
        return heights.Count == 0 ? null : heights.Average();
    }

    private static Approach ToApproach(PlacedLift lift, Body moving, Body standing, PairClearance pair, double start, string? low)
    {
        bool seat = pair.Distance > -1e-3 && pair.Travel <= start + 1e-3 && pair.Distance <= 1e-3;
        // Two that touch have no direction between them, so the way they part is asked of a hair of travel.
        if (seat) seat = MovingClearance.Find([moving.Parts], [standing.Parts], lift.Direction, 1, lift.Travel, 0.99).IsEmpty;
        return new Approach(moving, standing, pair.Distance, pair.Travel, pair.OnMoving, pair.Away, pair.From, pair.To, low, seat);
    }

    private static ImmutableArray<FacingWalls> Facing(PlacedLift lift, ImmutableArray<Body> moving, ImmutableArray<Body> standing)
    {
        // Walls of a lid that turns leave those beside them with the first degree: they have no lap to speak of.
        if (lift.Hinge is not null) return [];
        bool Upright(Body b) => b.Kind == BodyKind.Panel && Math.Abs(b.Panel.Face.N.Dot(lift.Direction)) < Leaning;
        Body[] stand = [.. standing.Where(Upright)];
        var tree = new BoxTree([.. stand.Select(b => b.Bounds)]);
        var walls = ImmutableArray.CreateBuilder<FacingWalls>();
        foreach (var m in moving.Where(Upright))
            foreach (int i in tree.Touching(m.Bounds.Swept(lift.Direction * lift.Travel).Grown(Near)).Order())
            {
                var (a, b) = (m.Panel, stand[i].Panel);
                var across = a.Face.N.Cross(lift.Direction).Unit;
                // One may lean to the other; seen along the travel they run within about 2 degrees of parallel.
                if (Math.Abs(across.Dot(b.Face.N.Cross(lift.Direction).Unit)) < 0.9994) continue;
                var (a0, a1) = Extent(m, across);
                var (b0, b1) = Extent(stand[i], across);
                var (from, to) = (Math.Max(a0, b0), Math.Min(a1, b1));
                if (to - from <= a.Thickness) continue;
                var (t0, t1) = Extent(m, lift.Direction);
                var (u0, u1) = Extent(stand[i], lift.Direction);
                (double Low, double High) Shared(double travel) => (Math.Max(t0 + travel, u0), Math.Min(t1 + travel, u1));
                double Lap(double travel) => Shared(travel).High - Shared(travel).Low;
                double[] laps = [.. new[] { 0, lift.Travel }.Where(t => Lap(t) > 0)];
                // Two that never lap have no gap of their own; how far they stand apart is told at rest.
                var gaps = (laps.Length > 0 ? laps : [0]).SelectMany(travel => new[] { Shared(travel).Low, Shared(travel).High }.SelectMany(up => new[] { from, to }
                    .Select(at => GapAt(a, b, across * at + lift.Direction * up, across.Cross(lift.Direction), lift.Direction * travel)))).ToList();
                if (gaps.Min() is not (>= -1 and <= Near)) continue;
                walls.Add(new FacingWalls(a, b, gaps.Min(), gaps.Max(), Lap(0), Lap(lift.Travel)));
            }
        return walls.ToImmutable();
    }

    /// <summary>Walls may lean by less than this, as the sine of the angle: about 20 degrees.</summary>
    private const double Leaning = 0.35;

    // From the face of the wall that moves to the face of the other that looks at it, where the one has been shifted, at a place told across and along the travel.
    private static double GapAt(PlacedPanel moving, PlacedPanel standing, Vec3 place, Vec3 level, Vec3 shift)
    {
        var n = moving.Face.N;
        Vec3 On(Plane plane) => place - level * (plane.SignedDistance(place - shift) / plane.Normal.Dot(level));
        static Plane Face(PlacedPanel panel, double depth) => panel.Face.AtDepth(depth).Plane;
        static double Ahead(Vec3 from, Vec3 way, Plane to) => -to.SignedDistance(from) / to.Normal.Dot(way);
        var way = Ahead(On(Face(moving, moving.Thickness / 2)), n, Face(standing, standing.Thickness / 2)) >= 0 ? n : -n;
        return Ahead(On(Face(moving, way == n ? 0 : moving.Thickness)), way, Face(standing, standing.Face.N.Dot(way) < 0 ? 0 : standing.Thickness));
    }

    // The panel's own slab alone: an added zone is no wall of its own.
    private static (double Min, double Max) Extent(Body body, Vec3 direction)
    {
        var (outside, inside) = PanelShapes.Corners(body.Panel);
        var along = outside.Concat(inside).Select(c => c.Dot(direction)).ToList();
        return (along.Min(), along.Max());
    }

    private static (double, PlacedPanel, PlacedPanel)? Room(PlacedLift lift, ImmutableArray<Body> moving, ImmutableArray<Body> standing)
    {
        static double Top(PlacedPanel p) => PanelShapes.Bounds(p).High.Z;
        var floor = standing.Where(b => b.Kind == BodyKind.Panel && b.Panel.IsLevel).Select(b => b.Panel).MinBy(Top);
        if (floor is null || lift.Direction.Z < 0.99) return null;
        var (outside, inside) = PanelShapes.Corners(floor);
        var feet = floor.Face.N.Z > 0 ? outside : inside;
        (double Height, PlacedPanel Floor, PlacedPanel Roof)? least = null;
        foreach (var roof in moving.Where(b => b.Kind == BodyKind.Panel && b.Panel.IsLevel).Select(b => b.Panel))
        {
            var at = roof.Face.N.Z > 0 ? roof.Face.AtDepth(roof.Thickness).Plane : roof.Face.Plane;
            var under = Plane.Through(lift.Raised.Apply(at.Project(roof.Face.Origin)), lift.Raised.Turn(at.Normal));
            // A lid that has turned up on edge covers nothing.
            if (Math.Abs(under.Normal.Z) < 0.05) continue;
            var (top, bottom) = PanelShapes.Corners(roof);
            var over = Box3.Of(top.Concat(bottom).Select(lift.Raised.Apply));
            foreach (var foot in feet)
            {
                if (foot.X < over.Min.X - 1 || foot.X > over.Max.X + 1 || foot.Y < over.Min.Y - 1 || foot.Y > over.Max.Y + 1) continue;
                double height = (under.Offset - under.Normal.X * foot.X - under.Normal.Y * foot.Y) / under.Normal.Z - foot.Z;
                if (height > 0 && (least is null || height < least.Value.Height)) least = (height, floor, roof);
            }
        }
        return least;
    }
}
