using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Text;

namespace Wain.Core.Geometry;

/// <summary>Reads the lifts: what each carries, which way and how far.</summary>
internal static class LiftPlacer
{
    /// <summary>How far one corner may be behind where the spec says nothing: 1 in.</summary>
    public const double DefaultLag = 25.4;

    public static ImmutableArray<PlacedLift> Place(Resolver resolver)
    {
        var lifts = ImmutableArray.CreateBuilder<PlacedLift>();
        foreach (var fact in resolver.Spec.All("lift"))
        {
            var e = resolver.Evaluator;
            if (fact.Name is null) continue;
            ImmutableArray<string> carries = [.. (fact.Find("carries")?.Body ?? []).Select(i => e.Thing(i, "item")?.Name).OfType<string>()];
            if (carries.IsEmpty && (fact.Find("carries")?.Body.Length ?? 0) == 0)
            {
                resolver.Report(new Finding(BindingFindings.OutOfRange, $"Lift {fact.Name} carries nothing.", fact.Find("carries")?.HeadSpan ?? fact.NameSpan) { Subject = fact.Path, Hint = "Name what rises, one panel a line: carries { roof }" });
                continue;
            }
            var travel = fact.Find("travel");
            if (fact.Find("hinged") is { } hinged)
            {
                if (travel is not null) resolver.Report(new Finding(BindingFindings.OutOfRange, $"Lift {fact.Name} turns about its hinge, so it has no travel of its own.", travel.HeadSpan) { Subject = fact.Path, Hint = "Leave the line out; how far it turns is said with: opens 80 deg" });
                else if (Hinge(resolver, fact, hinged, carries) is { } hinge) lifts.Add(new PlacedLift(fact.Name, fact, carries, Vec3.UnitZ, 0, 0, hinge));
                continue;
            }
            double distance = travel is null ? 0 : e.Length(travel, "value") ?? 0;
            if (distance <= 0)
            {
                resolver.Report(new Finding(BindingFindings.OutOfRange, travel is not null && distance < 0 ? $"Lift {fact.Name} has a travel of {resolver.Spec.Say.Length(distance)}." : $"Lift {fact.Name} has no travel.", travel?.HeadSpan ?? fact.NameSpan) { Subject = fact.Path, Hint = $"Write: travel {resolver.Spec.Say.Such("24 in", "600 mm")}" });
                continue;
            }
            var direction = travel!.Word("toward") switch
            {
                "down" => new Vec3(0, 0, -1),
                "forward" => new Vec3(1, 0, 0),
                "aft" => new Vec3(-1, 0, 0),
                "left" => new Vec3(0, 1, 0),
                "right" => new Vec3(0, -1, 0),
                _ => new Vec3(0, 0, 1),
            };
            double lag = fact.Find("lag") is { } l ? e.Length(l, "value") ?? DefaultLag : DefaultLag;
            lifts.Add(new PlacedLift(fact.Name, fact, carries, direction, distance, lag));
        }
        return lifts.ToImmutable();
    }

    // Opening is the turn that raises what it carries.
    private static Hinge? Hinge(Resolver resolver, BoundFact lift, BoundFact hinged, ImmutableArray<string> carries)
    {
        var e = resolver.Evaluator;
        if (e.Place(hinged, "first") is not { } a || e.Place(hinged, "second") is not { } b) return null;
        Vec3 from = new(a[0], a[1], a[2]), axis = (new Vec3(b[0], b[1], b[2]) - from).Unit;
        double angle = hinged.Has("angle") ? e.Angle(hinged, "angle") ?? 0 : Math.PI / 2;
        if (axis.Length == 0 || angle <= 0 || angle > 2 * Math.PI)
        {
            string why = axis.Length == 0 ? "is hinged at one point; a hinge is a line between two" : $"opens {Say.Angle(angle)}; a swing is above 0 and at most 360 deg";
            resolver.Report(new Finding(BindingFindings.OutOfRange, $"Lift {lift.Name} {why}.", hinged.HeadSpan) { Subject = lift.Path, Hint = $"Write: hinged at {resolver.Spec.Say.Such("(0 in, -30 in, 60 in) to (0 in, 30 in, 60 in)", "(0 mm, -750 mm, 1500 mm) to (0 mm, 750 mm, 1500 mm)")}, opens 80 deg" });
            return null;
        }
        Vec3[] corners = [.. carries.Select(resolver.Panel).OfType<PlacedPanel>().SelectMany(p => PanelShapes.Corners(p) is var (outside, inside) ? outside.Concat(inside) : [])];
        if (corners.Length > 0 && axis.Cross(corners.Aggregate((s, c) => s + c) / corners.Length - from).Z < 0) axis = -axis;
        return new Hinge(from, axis, angle);
    }
}
