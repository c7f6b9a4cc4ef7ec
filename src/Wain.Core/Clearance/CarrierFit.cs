using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;

namespace Wain.Core.Clearance;

public enum FitKind
{
    BedSide,
    WheelWell,
    Tailgate,
    BedFront,
    Floor,
    Cab,
    CabPitched,
    TieDown,
    Jack,
}

/// <summary>What lacks room on the carrier.</summary>
/// <param name="Room">mm that there are; negative where the two pass through each other.</param>
/// <param name="Needed">mm that the carrier asks for.</param>
/// <param name="Fact">The line of the carrier that asks.</param>
public sealed record TightFit(FitKind Kind, Body Body, double Room, double Needed, BoundFact Fact, string? Name = null);

/// <summary>The camper going straight into its carrier, and standing there.</summary>
public static class CarrierFit
{
    // Low enough and far enough to stand for the ground and the open end.
    private const double Far = 5000;

    /// <summary>The worst body of each kind and place. Empty where all has the room that the carrier states.</summary>
    public static ImmutableArray<TightFit> Of(Structure structure, ImmutableArray<Body> bodies)
    {
        var found = ImmutableArray.CreateBuilder<TightFit>();
        foreach (var carrier in structure.Spec.All("carrier").Where(c => c.Name is not null))
        {
            var e = structure.Spec.Evaluator;
            double Length(BoundFact? fact, string slot, double otherwise) => fact is null ? otherwise : e.Length(fact, slot) ?? otherwise;
            double side = Length(carrier.Find("side_clearance"), "value", 0);
            if (carrier.Find("kind")?.Word("kind") == "bed" && carrier.Find("bed") is { } bed && Length(bed, "length", 0) is > 0 and var length && Length(bed, "width", 0) is > 0 and var width)
            {
                double depth = Length(bed, "depth", 0);
                // The camper comes from behind, so what ends up forward of a place has passed it.
                found.AddRange(Beside(FitKind.BedSide, bodies, -length, depth, width / 2, side, bed));
                if (Worst(FitKind.BedFront, Clipped(bodies, [new Plane(Vec3.UnitZ, depth), new Plane(Vec3.UnitY, width / 2), new Plane(-Vec3.UnitY, width / 2)]).Select(p => (p.Body, -p.Part.Bounds.Max.X)), 0, bed) is { } front) found.Add(front);
                if (carrier.Find("wheel_well") is { } well && well.Has("between") && well.Has("high"))
                    found.AddRange(Beside(FitKind.WheelWell, bodies, Math.Min(Length(well, "from", -length), Length(well, "to", 0)), Length(well, "high", 0), Length(well, "between", width) / 2, side, well));
                if (carrier.Find("tailgate") is { } gate)
                {
                    if (gate.Has("width")) found.AddRange(Beside(FitKind.Tailgate, bodies, -length, depth, Length(gate, "width", width) / 2, side, gate));
                    if (gate.Word("state") == "closed" && Worst(FitKind.Tailgate, Clipped(bodies, [new Plane(Vec3.UnitZ, depth)]).Select(p => (p.Body, p.Part.Bounds.Min.X + length)), 0, gate) is { } rear) found.Add(rear);
                }
            }
            // Nothing of the camper is lower than the floor that it stands on, where that floor is.
            if (carrier.Find("kind")?.Word("kind") is "bed" or "flatbed" && carrier.Find("bed") is { } deck && Length(deck, "length", 0) is > 0 and var along && Length(deck, "width", 0) is > 0 and var across
                && Worst(FitKind.Floor, Clipped(bodies, [new Plane(Vec3.UnitX, 0), new Plane(-Vec3.UnitX, along), new Plane(Vec3.UnitY, across / 2), new Plane(-Vec3.UnitY, across / 2)]).Select(p => (p.Body, p.Part.Bounds.Min.Z)), 0, deck) is { } sunk) found.Add(sunk);
            if (carrier.Find("cab") is { } cab && carrier.Find("cab_clearance") is { } clearance && CabOf(e, cab) is { } block)
            {
                double needed = Length(clearance, "value", 0);
                if (Nearest(FitKind.Cab, bodies, block, needed, RigidMove.Straight(Vec3.Zero), clearance) is { } rest) found.Add(rest);
                // The frame of the truck twists and bends: the camper rocks about the front edge of the bed floor, nose down or nose up.
                if (e.Angle(clearance, "angle") is > 0 and var pitch)
                    if (new[] { pitch, -pitch }.Select(p => Nearest(FitKind.CabPitched, bodies, block, needed, new RigidMove(Vec3.Zero, Vec3.UnitY, p, Vec3.Zero), clearance)).OfType<TightFit>().MinBy(f => f.Room) is { } pitched) found.Add(pitched);
            }
            double tieRoom = Length(carrier.Find("tie_down_room"), "value", 0);
            foreach (var (fact, kind) in carrier.All("tie_down").Select(f => (f, FitKind.TieDown)).Concat(carrier.All("jack").Select(f => (f, FitKind.Jack))))
            {
                double needed = kind == FitKind.TieDown ? tieRoom : Length(fact, "room", 0);
                // What stands further off than the whole carrier is near nothing.
                if (needed <= 0 || e.Place(fact, "at") is not { } at || at.Any(v => Math.Abs(v) > 10 * Far)) continue;
                var point = new Vec3(at[0], at[1], at[2]);
                var speck = ConvexPolyhedron.Block(point - new Vec3(0.1, 0.1, 0.1), point + new Vec3(0.1, 0.1, 0.1));
                if (Nearest(kind, bodies, speck, needed, RigidMove.Straight(Vec3.Zero), fact) is { } tight) found.Add(tight with { Name = fact.Name });
            }
        }
        return found.ToImmutable();
    }

    /// <summary>The cab as one block from the ground to its roof; null if the spec does not say how high that is.</summary>
    internal static ConvexPolyhedron? CabOf(Evaluator e, BoundFact cab)
    {
        if (e.Length(cab, "roof") is not { } roof || roof <= 0) return null;
        double start = cab.Has("rear") ? e.Length(cab, "rear") ?? 0 : 0, half = (cab.Has("width") ? e.Length(cab, "width") ?? 2000 : 2000) / 2, length = cab.Has("length") ? e.Length(cab, "length") ?? 1500 : 1500;
        return ConvexPolyhedron.Block(new Vec3(start, -half, -Far), new Vec3(start + length, half, roof));
    }

    private static IEnumerable<TightFit> Beside(FitKind kind, ImmutableArray<Body> bodies, double from, double high, double half, double needed, BoundFact fact)
    {
        var low = Clipped(bodies, [new Plane(Vec3.UnitZ, high), new Plane(-Vec3.UnitX, -from)]);
        if (Worst(kind, low.Select(p => (p.Body, half - Math.Max(p.Part.Bounds.Max.Y, -p.Part.Bounds.Min.Y))), needed, fact) is { } tight) yield return tight;
    }

    // What of the bodies is on the negative side of every plane.
    private static IEnumerable<(Body Body, ConvexPolyhedron Part)> Clipped(ImmutableArray<Body> bodies, ImmutableArray<Plane> planes) =>
        from body in bodies from part in body.Parts let cut = part.Below(planes.AsSpan()) where cut is not null select (body, cut);

    private static TightFit? Worst(FitKind kind, IEnumerable<(Body Body, double Room)> rooms, double needed, BoundFact fact)
    {
        TightFit? worst = null;
        foreach (var (body, room) in rooms)
            if (room < needed - 0.01 && room < (worst?.Room ?? double.PositiveInfinity)) worst = new TightFit(kind, body, room, needed, fact);
        return worst;
    }

    private static TightFit? Nearest(FitKind kind, ImmutableArray<Body> bodies, ConvexPolyhedron block, double needed, RigidMove move, BoundFact fact)
    {
        ImmutableArray<ConvexPolyhedron>[] moved = [.. bodies.Select(b => b.Parts.Select(p => p.Transformed(move)).ToImmutableArray())];
        return MovingClearance.Find(moved, [[block]], Vec3.UnitZ, 0, 0, needed) is [var first, ..] && first.Distance < needed - 0.01 ? new TightFit(kind, bodies[first.Moving], first.Distance, needed, fact) : null;
    }
}
