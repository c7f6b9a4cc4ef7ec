using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Model;
using Wain.Core.Text;

namespace Wain.Core.Geometry;

/// <summary>Places openings on their panel, as told from outside.</summary>
internal static class OpeningPlacer
{
    public static ImmutableArray<PlacedOpening> Place(Resolver resolver, PlacedPanel panel) =>
        [.. panel.Fact.All("opening").Where(o => o.Name is not null).Select(o => Place(resolver, panel, o)).OfType<PlacedOpening>()];

    /// <summary>The unit of the other hand, for a mirrored panel.</summary>
    public static UnitMaterial? OtherHand(Resolver resolver, UnitMaterial? unit)
    {
        if (unit?.Fact.Find("handed") is not { } handed) return unit;
        return resolver.Evaluator.Thing(handed, "other") is { Name: { } name } && resolver.Materials.GetValueOrDefault(name) is UnitMaterial other ? other : unit;
    }

    private static PlacedOpening? Place(Resolver resolver, PlacedPanel panel, BoundFact fact)
    {
        var e = resolver.Evaluator;
        UnitMaterial? unit = null;
        if (fact.Find("unit") is { } unitFact)
        {
            if (e.Thing(unitFact, "unit") is not { Name: { } name } || resolver.Materials.GetValueOrDefault(name) is not UnitMaterial found) return null;
            unit = found;
        }
        var size = fact.Find("size");
        double? width = size is null ? unit?.CutOutWidth : e.Length(size, "width"), height = size is null ? unit?.CutOutHeight : e.Length(size, "height");
        // A size without a corner leaves the unit's.
        double corner = (size is null ? null : e.Length(size, "corner")) ?? unit?.CutOutCorner ?? 0;
        if (width is not > 0 || height is not > 0)
        {
            resolver.Report(new Finding(PlacingFindings.OpeningPlace, width is { } w && height is { } h ? $"Opening {fact.Name} is {resolver.Spec.Say.Length(w)} by {resolver.Spec.Say.Length(h)}: there is nothing to cut." : $"Opening {fact.Name} has no size.", fact.NameSpan) { Subject = fact.Path, Hint = $"Name its unit, or write: size {resolver.Spec.Say.Such("18 in by 10 in", "450 mm by 250 mm")}" });
            return null;
        }
        if (LowerLeft(resolver, panel, fact, width.Value, height.Value) is not { } at) return null;
        var high = at + new Vec2(width.Value, height.Value);
        var hole = OutlineShapes.RoundedRectangle(at, high, corner);
        if (hole.Outline is null)
        {
            double largest = Math.Min(width.Value, height.Value) / 2;
            resolver.Report(new Finding(PlacingFindings.Rounding, $"Opening {fact.Name}: a corner of {resolver.Spec.Say.Length(corner)} does not fit a hole of {resolver.Spec.Say.Length(width.Value)} by {resolver.Spec.Say.Length(height.Value)}; at most {resolver.Spec.Say.Length(largest)} does.", fact.NameSpan) { Subject = fact.Path, Fixes = size?.Has("corner") == true ? [Fixing.Write(resolver.Spec, size, "corner", resolver.Spec.Say.AtMost(largest))] : [] });
            return null;
        }
        PlacedRecess? recess = null;
        if (fact.Find("recessed") is { } recessed && e.Length(recessed, "depth") is { } depth)
        {
            double margin = e.Length(recessed, "margin") ?? unit?.Flange ?? 0;
            if (depth <= 0 || margin < 0)
            {
                resolver.Report(new Finding(BindingFindings.OutOfRange, $"The recess of opening {fact.Name} is {resolver.Spec.Say.Length(depth)} deep with a margin of {resolver.Spec.Say.Length(margin)}; a recess goes in, and round the hole.", recessed.Span) { Subject = fact.Path });
                return null;
            }
            var grown = new Vec2(margin, margin);
            double recessCorner = e.Length(recessed, "corner") ?? (corner > 0 ? corner + margin : 0);
            double most = Math.Min(width.Value, height.Value) / 2 + margin;
            if (recessed.Has("corner") && recessCorner > most + 0.01)
                resolver.Report(new Finding(PlacingFindings.Rounding, $"The recess of opening {fact.Name}: a corner of {resolver.Spec.Say.Length(recessCorner)} does not fit {resolver.Spec.Say.Length(width.Value + 2 * margin)} by {resolver.Spec.Say.Length(height.Value + 2 * margin)}; at most {resolver.Spec.Say.Length(most)} does.", recessed.Span) { Subject = fact.Path, Fixes = [Fixing.Write(resolver.Spec, recessed, "corner", resolver.Spec.Say.AtMost(most))] });
            var region = OutlineShapes.RoundedRectangle(at - grown, high + grown, Math.Min(recessCorner, most));
            recess = new PlacedRecess(region.Outline ?? Outline.Rectangle(at - grown, high + grown), depth, recessed.Word("from") != "inside");
        }
        bool framed = fact.Find("unframed") is null;
        fact.Find("framed");
        return new PlacedOpening(fact.Name!, fact, unit, hole.Outline, width.Value, height.Value, corner, recess, framed, fact.Find("proud") is { } proud ? e.Bounds(proud, "value")?.High?.Millimetres ?? e.Length(proud, "value") : null);
    }

    private static Vec2? LowerLeft(Resolver resolver, PlacedPanel panel, BoundFact fact, double width, double height)
    {
        var e = resolver.Evaluator;
        double across = panel.Outline.Bounds.Max.X;
        var places = fact.Body.Where(f => f.Keyword is "lower" or "upper" or "centred").ToList();
        if (places.Count != 1)
        {
            resolver.Report(new Finding(PlacingFindings.OpeningPlace, $"Opening {fact.Name} has {(places.Count == 0 ? "no place" : "more than one place")}.", fact.NameSpan)
            {
                Subject = fact.Path,
                Hint = places.Count == 0 ? $"Panel {panel.Name} is {resolver.Spec.Say.Length(panel.Width)} along and {resolver.Spec.Say.Length(panel.Height)} up. Write where the hole's corner is, such as: lower left at {resolver.Spec.Say.Such("(14 in, 8 in)", "(350 mm, 200 mm)")}" : "Leave one of them in.",
                Related = [.. places.Skip(1).Select(p => new Related(p.HeadSpan, "placed here as well"))],
            });
            return null;
        }
        var place = places[0];
        place.Used = true;
        if (place.Keyword == "centred" && place.Has("up")) return e.Length(place, "up") is { } up ? new Vec2((across - width) / 2, up - height / 2) : null;
        if (e.Place(place, "at") is not { } at) return null;
        // A mirrored panel states nothing of its own here, so left and right are those of this panel.
        return (place.Keyword, place.Word("corner")) switch
        {
            ("lower", "left") => new Vec2(at[0], at[1]),
            ("lower", _) => new Vec2(across - at[0] - width, at[1]),
            ("upper", "left") => new Vec2(at[0], at[1] - height),
            ("upper", _) => new Vec2(across - at[0] - width, at[1] - height),
            _ => new Vec2(at[0] - width / 2, at[1] - height / 2),
        };
    }
}
