using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Text;

namespace Wain.Core.Geometry;

/// <summary>Places zones on their panel.</summary>
internal static class ZonePlacer
{
    public static ImmutableArray<PlacedZone> Place(Resolver resolver, PlacedPanel panel)
    {
        var zones = ImmutableArray.CreateBuilder<PlacedZone>();
        foreach (var fact in panel.Fact.All("zone"))
        {
            var stackFact = fact.Has("stack") ? fact : fact.Find("leaves");
            if (stackFact is null)
            {
                resolver.Report(new Finding(PlacingFindings.NoStack, $"Zone {fact.Name} does not say what it is made of.", fact.HeadSpan) { Subject = fact.Path, Hint = $"Write after its name: of STACK. {resolver.StackNames}" });
                continue;
            }
            if (resolver.Evaluator.Thing(stackFact, "stack") is not { Name: { } stackName } || resolver.Stack(stackName) is not { } stack) continue;
            if (Region(resolver, panel, fact) is not { } region) continue;
            if (region.Area() < 1)
            {
                if ((Reversed(resolver, fact, "from", "to") ?? Reversed(resolver, fact, "low", "high")) is { } told) resolver.Report(told);
                else resolver.Report(new Finding(PlacingFindings.NoOutline, $"Zone {fact.Name} lies outside of panel {panel.Name}, which is {resolver.Spec.Say.Length(panel.Width)} along and {resolver.Spec.Say.Length(panel.Height)} up.", fact.HeadSpan) { Subject = fact.Path });
                continue;
            }
            string? side = fact.Word("side");
            bool? onOutside = side switch { "outside" => true, "inside" => false, "top" => panel.Face.N.Z > 0, "bottom" => panel.Face.N.Z < 0, _ => null };
            double recess = fact.Has("recess") ? resolver.Evaluator.Length(fact, "recess") ?? 0 : 0;
            double offset = onOutside switch
            {
                true => -stack.Thickness,
                false => panel.Thickness,
                // The step is as deep as stated on the face that it is seen from.
                _ => fact.Word("face") == "inside" ? panel.Thickness - recess - stack.Thickness : recess,
            };
            zones.Add(new PlacedZone(fact.Name!, fact, stack, region, offset, onOutside is not null));
        }
        return zones.ToImmutable();
    }

    private static Finding? Reversed(Resolver resolver, BoundFact fact, string begins, string ends)
    {
        if (!fact.Has(begins) || !fact.Has(ends) || resolver.Evaluator.Length(fact, begins) is not { } from || resolver.Evaluator.Length(fact, ends) is not { } to || from < to) return null;
        var (first, last) = (resolver.Evaluator.SlotSpan(fact, begins), resolver.Evaluator.SlotSpan(fact, ends));
        return new Finding(PlacingFindings.NoOutline, $"Zone {fact.Name} ends at {resolver.Spec.Say.Length(to)} and begins at {resolver.Spec.Say.Length(from)}.", fact.HeadSpan)
        {
            Subject = fact.Path,
            Hint = "The lesser place comes first.",
            Fixes = from > to && first.End < last.Start ? [new Fix(first.To(last), last.Text + first.Source.Text[first.End..last.Start] + first.Text, $"write {last.Text} to {first.Text}")] : [],
        };
    }

    private static Outline? Region(Resolver resolver, PlacedPanel panel, BoundFact fact)
    {
        var e = resolver.Evaluator;
        var region = panel.Outline;
        if (fact.Has("plan"))
        {
            if (e.Thing(fact, "plan") is not { Name: { } name } || resolver.Plan(name) is not { } plan || !panel.IsLevel) return null;
            // Seen along a pitched face an arc is none. On a level one it stays an arc, which turns the other way on a face that looks down.
            double turn = Math.Abs(panel.Face.N.Z) > 1 - 1e-12 ? Math.Sign(panel.Face.N.Z) : 0;
            region = new Outline([.. (turn == 0 ? plan.Outline.Flattened(0.1) : plan.Outline).Edges.Select(edge => edge with { Start = PanelShapes.OnFace(panel, edge.Start), Sweep = turn * edge.Sweep })]).CounterClockwise;
        }
        if (e.Length(fact, "from") is { } from && e.Length(fact, "to") is { } to)
        {
            region = PanelShapes.Clip(PanelShapes.Clip(region, new Vec2(-1, 0), -from), new Vec2(1, 0), to);
        }
        if (e.Length(fact, "low") is { } low && e.Length(fact, "high") is { } high)
        {
            region = PanelShapes.Clip(PanelShapes.Clip(region, new Vec2(0, -1), -low), new Vec2(0, 1), high);
        }
        if (fact.Find("lower") is { } corner && e.Place(corner, "at") is { } at && e.Length(corner, "width") is { } width && e.Length(corner, "height") is { } height)
        {
            region = Outline.Rectangle(new Vec2(at[0], at[1]), new Vec2(at[0] + width, at[1] + height));
        }
        return region;
    }
}
