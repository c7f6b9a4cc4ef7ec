using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Geometry.Kernel;

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
            var travel = fact.Find("travel");
            double distance = travel is null ? 0 : e.Length(travel, "value") ?? 0;
            if (distance <= 0)
            {
                resolver.Report(new Finding(BindingFindings.OutOfRange, $"Lift {fact.Name} has no travel.", travel?.HeadSpan ?? fact.NameSpan) { Subject = fact.Path, Hint = "Write: travel 24 in" });
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
            lifts.Add(new PlacedLift(fact.Name, fact, [.. (fact.Find("carries")?.Body ?? []).Select(i => e.Thing(i, "item")?.Name).OfType<string>()], direction, distance, lag));
        }
        return lifts.ToImmutable();
    }
}
