using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Model;

namespace Wain.Core.Geometry;

/// <summary>One tube of the frame under the camper. Its ends are those of its centre line as cut, square (mm); the longer side of its section stands upright.</summary>
public sealed record SubframeMember(string Carrier, string Name, BoundFact Fact, StickMaterial Stick, Vec3 From, Vec3 To)
{
    public double Length => From.DistanceTo(To);

    public Vec3 Middle => From.Lerp(To, 0.5);

    /// <summary>As its part is marked and its figures begin: truck.rail_left.</summary>
    public string PartMark => $"{Carrier}.{Name}";

    /// <summary>The tube over all, its hollow filled.</summary>
    public ConvexPolyhedron Solid
    {
        get
        {
            Vec3 along = (To - From).Unit, up = Upright(along), side = up.Cross(along);
            double high = Math.Max(Stick.Thickness, Stick.Width) / 2, wide = Math.Min(Stick.Thickness, Stick.Width) / 2;
            return ConvexPolyhedron.FromHalfSpaces([
                Plane.Through(To, along), Plane.Through(From, -along), Plane.Through(From + up * high, up), Plane.Through(From - up * high, -up),
                Plane.Through(From + side * wide, side), Plane.Through(From - side * wide, -side)])!;
        }
    }

    // Of a post that stands upright the longer side runs along the truck.
    private static Vec3 Upright(Vec3 along)
    {
        var up = Math.Abs(along.Z) < 0.99 ? Vec3.UnitZ : Vec3.UnitX;
        return (up - along * up.Dot(along)).Unit;
    }
}

/// <summary>Reads the members of every carrier's subframe.</summary>
internal static class SubframePlacer
{
    public static ImmutableArray<SubframeMember> Place(Resolver resolver)
    {
        var members = ImmutableArray.CreateBuilder<SubframeMember>();
        foreach (var carrier in resolver.Spec.All("carrier").Where(c => c.Name is not null))
        {
            var common = carrier.Find("subframe");
            foreach (var fact in carrier.All("member").Where(f => f.Name is not null))
            {
                var named = fact.Has("stick") ? fact : common;
                if (named is null)
                {
                    resolver.Report(new Finding(PlacingFindings.NoStack, $"Member {fact.Name} of {carrier.Name} does not say what tube it is.", fact.HeadSpan) { Subject = $"{carrier.Name}.{fact.Name}", Hint = "Write: member rail of TUBE from ... to ..., or name the tube of all in a line such as: subframe TUBE" });
                    continue;
                }
                if (resolver.Evaluator.Thing(named, "stick") is not { Name: { } name } || resolver.Materials.GetValueOrDefault(name) is not StickMaterial stick) continue;
                if (resolver.Evaluator.Place(fact, "from") is not { } a || resolver.Evaluator.Place(fact, "to") is not { } b) continue;
                var (from, to) = (new Vec3(a[0], a[1], a[2]), new Vec3(b[0], b[1], b[2]));
                if (from.DistanceTo(to) < 1)
                {
                    resolver.Report(new Finding(BindingFindings.OutOfRange, $"Member {fact.Name} of {carrier.Name} has no length.", fact.HeadSpan) { Subject = $"{carrier.Name}.{fact.Name}" });
                    continue;
                }
                if (Math.Max(from.Length, to.Length) > Resolver.MostSide || Math.Max(stick.Thickness, stick.Width) > Resolver.MostThickness)
                {
                    bool far = Math.Max(from.Length, to.Length) > Resolver.MostSide;
                    resolver.Report(new Finding(PlacingFindings.TooLarge, far ? $"Member {fact.Name} of {carrier.Name} ends {resolver.Spec.Say.Length(Math.Max(from.Length, to.Length))} from the origin." : $"Member {fact.Name} of {carrier.Name} is {resolver.Spec.Say.Length(Math.Max(stick.Thickness, stick.Width))} thick.", fact.HeadSpan)
                    {
                        Subject = $"{carrier.Name}.{fact.Name}", Hint = $"Look for the size that went wrong: {(far ? "one of its ends" : $"the section of {stick.Name}")}.",
                    });
                    continue;
                }
                members.Add(new SubframeMember(carrier.Name!, fact.Name!, fact, stick, from, to));
            }
        }
        return members.ToImmutable();
    }
}
