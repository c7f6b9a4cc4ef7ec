using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Geometry;
using Wain.Core.Syntax;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>Values that put a panel where it was meant to be, written where a builder would write them: at a face, at an offset, at a height.</summary>
internal static class Reaching
{
    private const double Same = 0.1;

    /// <summary>
    /// The height of an upright panel that misses the face of a level one, written as that face. Null where neither of the two heights is off by just this
    /// much (mm), so that something else is amiss, and where the level panel itself is placed by the upright one.
    /// </summary>
    public static Fix? ToFace(Spec spec, PlacedPanel upright, PlacedPanel level, double off)
    {
        if (upright.Mirrored is not null || Math.Abs(level.Face.N.Z) < 1 - 1e-9 || upright.Fact.Body.FirstOrDefault(f => f.Keyword is "stands" or "spans") is not { } way) return null;
        if (level.Fact.Find("covers") is { } covers && covers.Span.Text.Contains(upright.Name + ".", StringComparison.Ordinal)) return null;
        var (low, high) = PanelShapes.Bounds(upright);
        var (under, over) = PanelShapes.Bounds(level);
        bool stands = way.Keyword == "stands";
        if (Math.Abs(Math.Abs(low.Z - over.Z) - off) < Same) return Fixing.WriteOf(spec, way, stands ? "from" : "bottom", level.Name, "top");
        return Math.Abs(Math.Abs(high.Z - under.Z) - off) < Same ? Fixing.WriteOf(spec, way, stands ? "to" : "top", level.Name, "bottom") : null;
    }

    /// <summary>Either of two panels run to the other, if one is upright and the other level.</summary>
    public static Fix? Meet(Spec spec, PlacedPanel a, PlacedPanel b, double off) =>
        a.IsLevel == b.IsLevel ? null : a.IsLevel ? ToFace(spec, b, a, off) : ToFace(spec, a, b, off);

    /// <summary>The foot or the head of an upright panel that runs through level ones, written as the face of the farthest of them. Null where they are not all at one of its ends.</summary>
    public static Fix? Clear(Spec spec, PlacedPanel upright, IReadOnlyCollection<PlacedPanel> levels)
    {
        var (low, high) = PanelShapes.Bounds(upright);
        double end = (high.Z - low.Z) / 4;
        if (upright.IsLevel || levels.Any(l => !l.IsLevel)) return null;
        PlacedPanel over = levels.MaxBy(l => PanelShapes.Bounds(l).High.Z)!, under = levels.MinBy(l => PanelShapes.Bounds(l).Low.Z)!;
        double foot = PanelShapes.Bounds(over).High.Z - low.Z, head = high.Z - PanelShapes.Bounds(under).Low.Z;
        return foot < end && over.Mirrored is null ? ToFace(spec, upright, over, foot) : head < end && under.Mirrored is null ? ToFace(spec, upright, under, head) : null;
    }

    /// <summary>More space between a wall and one that it stands outside of (mm; less than nothing for less), by the offset of its plan from the other's. Null if its plan does not derive from that.</summary>
    public static Fix? Outward(Spec spec, PlacedPanel outer, PlacedPanel inner, double by)
    {
        if (PlanOf(spec, outer) is not { } own || PlanOf(spec, inner) is not { } other) return null;
        if (spec.Evaluator.Thing(own.Plan, "base") == other.Plan) return Offset(own, "outward", by) ?? Offset(own, "inward", -by);
        return spec.Evaluator.Thing(other.Plan, "base") == own.Plan ? Offset(other, "inward", by) ?? Offset(other, "outward", -by) : null;

        // The offset of the leg itself comes before that of the whole plan.
        Fix? Offset((BoundFact Plan, string Leg) of, string slot, double more) =>
            (of.Plan.All("side").FirstOrDefault(s => s.Name == of.Leg) ?? of.Plan) is var fact && fact.Has(slot) ? Fixing.Longer(spec, fact, slot, more) : null;
    }

    private static (BoundFact Plan, string Leg)? PlanOf(Spec spec, PlacedPanel panel) =>
        (panel.Fact.MirrorOf ?? panel.Fact).Find("stands") is { } way && spec.Evaluator.PathOf(way, "leg") is ({ Keyword: "plan" } plan, [var leg]) ? (plan, leg) : null;

    /// <summary>A deck that lies at a height of its own, higher by this much (mm) at least. Null for one that is placed by another panel's face or in another way.</summary>
    public static Fix? Higher(Spec spec, PlacedPanel deck, double by)
    {
        if (deck.Mirrored is not null || deck.Fact.Find("covers") is not { } way) return null;
        string slot = way.Has("top") ? "top" : "underside";
        return way.Slots.TryGetValue(slot, out var text) && text.Terms[0] is MeasureExpression or NameExpression { SingleWord: not null } ? Fixing.Longer(spec, way, slot, by) : null;
    }

    /// <summary>A deck laid on the top of another panel, or hung under its lower end, in place of the height that it states. Null for one that is placed by another's face already.</summary>
    /// <param name="by">How much higher that is (mm), less than nothing for lower; written as such where the deck is pitched, since its height is that of one end.</param>
    public static Fix? Level(Spec spec, PlacedPanel deck, PlacedPanel other, double by)
    {
        if (deck.Mirrored is not null || deck.Fact.Find("covers") is not { } way) return null;
        if (way.Has("pitch")) return Higher(spec, deck, by);
        bool onTop = by > 0;
        var (has, wants) = (way.Has("top") ? "top" : "underside", onTop ? "underside" : "top");
        if (way.Scope.NameFor(other.Name) is not { } name || !way.Slots.TryGetValue(has, out var text) || text.Terms[0] is not (MeasureExpression or NameExpression { SingleWord: not null })) return null;
        var value = spec.Evaluator.SlotSpan(way, has);
        int at = value.Source.Text.LastIndexOf(has, value.Start, StringComparison.Ordinal);
        string written = $"{wants} at {name}.{(onTop ? "top" : "bottom")}";
        return at < way.Span.Start ? null : new Fix(new Span(value.Source, at, value.End - at), written, $"write {written}");
    }
}
