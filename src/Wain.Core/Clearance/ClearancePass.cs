using System.Collections.Immutable;
using Wain.Core.Figures;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Units;

namespace Wain.Core.Clearance;

/// <summary>Two panels whose solids share volume where they are placed.</summary>
/// <param name="Depth">mm, the least shift that would free them.</param>
/// <param name="At">The middle of what they share (mm).</param>
public sealed record Clash(PlacedPanel First, PlacedPanel Second, double Depth, Vec3 At);

/// <summary>All that is known of room between things.</summary>
public sealed record ClearanceResult(ImmutableArray<Body> Bodies, ImmutableArray<Clash> Clashes, ImmutableArray<LiftClearance> Lifts, ImmutableArray<Figure> Figures);

/// <summary>Room between what is placed and between what moves and what stands.</summary>
public static class ClearancePass
{
    /// <summary>1/64 in: panels that share less than this are cut to fit.</summary>
    public const double ClashTolerance = 25.4 / 64;

    public static ClearanceResult Of(Structure structure)
    {
        var bodies = Bodies.Of(structure);
        ImmutableArray<LiftClearance> lifts = [.. structure.Lifts.Select(l => LiftClearance.Of(structure, l, bodies))];
        return new ClearanceResult(bodies, Clashes(bodies), lifts, [.. lifts.SelectMany(Figures)]);
    }

    private static ImmutableArray<Clash> Clashes(ImmutableArray<Body> bodies)
    {
        Body[] panels = [.. Near([.. bodies.Where(b => b.Kind == BodyKind.Panel)]).Where(b => b.Parts.Length > 0)];
        return [.. MovingClearance.Overlaps([.. panels.Select(b => b.Parts)]).Where(o => o.Depth > ClashTolerance)
            .Select(o => new Clash(panels[o.A].Panel, panels[o.B].Panel, o.Depth, Middle(panels[o.A], panels[o.B])))];
    }

    // Those that have another near them: the rest needs no solids.
    private static IEnumerable<Body> Near(Body[] bodies)
    {
        var tree = new BoxTree([.. bodies.Select(b => b.Around)]);
        return bodies.Where(b => tree.Touching(b.Around).Count > 1);
    }

    private static Vec3 Middle(Body a, Body b) =>
        a.Parts.SelectMany(p => b.Parts.Where(q => p.Bounds.Touches(q.Bounds)).Select(q => ConvexPolyhedron.Intersection(p, q))).OfType<ConvexPolyhedron>()
            .Select(c => c.Measures).Aggregate(default(SolidMeasures), (x, y) => x + y).Centroid;

    private static IEnumerable<Figure> Figures(LiftClearance lift)
    {
        string name = lift.Lift.Name;
        var at = lift.Lift.Fact.HeadSpan;
        Figure Length(string what, double mm, string formula, params ImmutableArray<string> inputs) => new($"{name}.{what}", Quantity.FromMillimetres(Math.Round(mm, 6)), at, formula, inputs);
        static string Say(Approach a) => $"least distance between {a.Moving.Name} and {a.Standing.Name} over the whole travel";
        if (lift.Straight.FirstOrDefault(a => !a.Seat) is { } straight) yield return Length("clearance", straight.Distance, Say(straight));
        if (lift.Racked.FirstOrDefault(a => !a.Seat) is { } racked) yield return Length("clearance_racked", racked.Distance, $"{Say(racked)}, with the {racked.Low} corner low");
        if (lift.Overlap is { } overlap) yield return Length("overlap", overlap.LapRaised, $"top of {overlap.Standing.Name} less bottom of {overlap.Moving.Name} when raised");
        if (lift.Headroom is { } room) yield return Length("headroom", room.Height, $"from {room.Floor.Name} to the lowest underside of {room.Roof.Name} above it when raised");
        var lapping = lift.Walls.Where(w => w.LapAtRest > 0 || w.LapRaised > 0).ToList();
        if (lapping.Count == 0) yield break;
        // Of two sides that are alike but for the last bits the first is named.
        var (least, most) = (lapping.MinBy(w => Math.Round(w.Gap, 6))!, lapping.MaxBy(w => Math.Round(w.Widest, 6))!);
        yield return Length("gap_least", least.Gap, $"between the faces of {least.Moving.Name} and {least.Standing.Name}");
        yield return Length("gap_most", most.Widest, $"between the faces of {most.Moving.Name} and {most.Standing.Name}");
    }
}
