using Wain.Core.Binding;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;

namespace Wain.Core.Clearance;

public enum SubframeFaultKind
{
    /// <summary>A tube and the camper in one place.</summary>
    Camper,

    /// <summary>Two tubes in one place.</summary>
    Tubes,

    /// <summary>A tube too near to the cab.</summary>
    Cab,

    /// <summary>A tube lower than the chassis that it stands on.</summary>
    Chassis,

    /// <summary>A mount away from every tube.</summary>
    Mount,

    /// <summary>The camper's underside off the tubes.</summary>
    Bearing,
}

/// <summary>What does not fit about a subframe.</summary>
/// <param name="What">The tube or mount.</param>
/// <param name="Other">What it meets or misses.</param>
/// <param name="Amount">mm by which.</param>
/// <param name="Member">The tube that it is about.</param>
public sealed record SubframeFault(SubframeFaultKind Kind, string What, string Other, double Amount, BoundFact Fact, SubframeMember? Member = null);

/// <summary>A frame of tube between camper and chassis: against the camper, the cab, the chassis and itself.</summary>
public static class SubframeFit
{
    /// <summary>1 in: a mount's own size, within which it still touches the tube that it holds.</summary>
    public const double MountReach = 25.4;

    /// <summary>1/16 in: what a bedding strip takes up between camper and tubes.</summary>
    public const double BearingTolerance = 25.4 / 16;

    public static IEnumerable<SubframeFault> Of(Structure structure, IReadOnlyList<Body> bodies)
    {
        var e = structure.Spec.Evaluator;
        foreach (var group in structure.Subframe.GroupBy(m => m.Carrier, StringComparer.Ordinal))
        {
            var carrier = structure.Spec.Find(group.Key)!;
            var members = group.ToList();
            var solids = members.ConvertAll(m => m.Solid);
            for (int i = 0; i < members.Count; i++)
            {
                for (int j = i + 1; j < members.Count; j++)
                    if (Deep(solids[i], solids[j]) is { } shared) yield return new(SubframeFaultKind.Tubes, members[j].Name, members[i].Name, shared, members[j].Fact);
                var worst = bodies.Select(b => (Body: b, Deep: b.Parts.Select(p => Deep(solids[i], p)).Max())).Where(b => b.Deep is not null).DefaultIfEmpty().MaxBy(b => b.Deep);
                if (worst.Deep is { } deep) yield return new(SubframeFaultKind.Camper, members[i].Name, worst.Body.Name, deep, members[i].Fact, members[i]);
            }
            if (carrier.Find("cab") is { } cab && CarrierFit.CabOf(e, cab) is { } block)
            {
                double needed = carrier.Find("cab_clearance") is { } c ? e.Length(c, "value") ?? 0 : 0;
                foreach (var (member, solid) in members.Zip(solids))
                    if (ConvexPair.Nearest(solid, block, default).Distance is var room && room < needed - 0.01 || Deep(solid, block) is not null)
                        yield return new(SubframeFaultKind.Cab, member.Name, "the cab", needed + (Deep(solid, block) ?? -ConvexPair.Nearest(solid, block, default).Distance), member.Fact);
            }
            if (carrier.Find("subframe") is { } frame && frame.Has("height") && e.Length(frame, "height") is { } high)
                foreach (var (member, solid) in members.Zip(solids))
                    if (-high - solid.Bounds.Min.Z is > 0.01 and var low) yield return new(SubframeFaultKind.Chassis, member.Name, "the chassis", low, member.Fact, member);
            foreach (var mount in carrier.All("mount"))
            {
                if (e.Place(mount, "at") is not { } at) continue;
                var point = new Vec3(at[0], at[1], at[2]);
                // So far off that no solid is made there: from the middle of the nearest tube.
                if (point.Length > Resolver.MostSide)
                {
                    var nearest = members.MinBy(m => m.Middle.DistanceTo(point))!;
                    yield return new(SubframeFaultKind.Mount, mount.Name ?? "mount", nearest.Name, nearest.Middle.DistanceTo(point), mount, nearest);
                    continue;
                }
                var speck = ConvexPolyhedron.Block(point - new Vec3(0.01, 0.01, 0.01), point + new Vec3(0.01, 0.01, 0.01));
                var (member, away) = members.Zip(solids).Select(m => (m.First, ConvexPair.Nearest(speck, m.Second, default).Distance)).MinBy(m => m.Distance);
                if (away > MountReach) yield return new(SubframeFaultKind.Mount, mount.Name ?? "mount", member.Name, away, mount, member);
            }
            var under = bodies.Where(b => b.Kind == BodyKind.Panel).SelectMany(b => b.Parts.Select(p => (Body: b, Part: p))).ToList();
            if (under.Count == 0) continue;
            var (lowest, near, gap) = under.SelectMany(u => members.Zip(solids).Select(m => (u.Body, m.First, ConvexPair.Nearest(u.Part, m.Second, default).Distance))).MinBy(n => n.Distance);
            if (gap > BearingTolerance) yield return new(SubframeFaultKind.Bearing, near.Name, lowest.Name, gap, near.Fact, near);
        }
    }

    // Welds and saw cuts are not exact: what shares less than 1/64 in is fitted.
    private static double? Deep(ConvexPolyhedron a, ConvexPolyhedron b) => a.Bounds.Touches(b.Bounds) && ConvexPair.Penetrates(a, b, default) is { } deep && deep.Depth > ClearancePass.ClashTolerance ? deep.Depth : null;
}
