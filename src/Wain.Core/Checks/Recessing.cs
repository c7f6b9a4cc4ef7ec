using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Geometry;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>How deep a unit sits below the face of its panel, in a recess of its own or in a zone that is recessed, and how to set it deeper.</summary>
internal static class Recessing
{
    private static double Own(PlacedOpening o, bool fromOutside) => o.Recess is { } recess && recess.FromOutside == fromOutside ? recess.Depth : 0;

    private static double OfZone(PlacedPanel panel, PlacedOpening o, bool fromOutside) => panel.FacesAt(o) is var (outside, inside) && fromOutside ? outside : panel.Thickness - inside;

    /// <summary>mm below the face of the panel that the unit's flange lies on; less than nothing where something is added under it.</summary>
    public static double Depth(PlacedPanel panel, PlacedOpening o, bool fromOutside) => Own(o, fromOutside) + OfZone(panel, o, fromOutside);

    /// <summary>A zone that says how deep it is recessed is set deeper itself, as far as the panel is thick; elsewhere the recess may go down to the last skin.</summary>
    private static BoundFact? ZoneFact(PlacedPanel panel, PlacedOpening o, bool fromOutside) =>
        OfZone(panel, o, fromOutside) > 0 && o.Recess is null && panel.ZoneOf(o)?.Fact is { } fact && fact.Has("recess") && (fact.Word("face") != "inside") == fromOutside ? fact : null;

    /// <summary>The deepest that it may sit below the face of the panel (mm).</summary>
    public static double Deepest(PlacedPanel panel, PlacedOpening o, bool fromOutside) =>
        ZoneFact(panel, o, fromOutside) is not null ? panel.Thickness - panel.ZoneOf(o)!.Stack.Thickness : OfZone(panel, o, fromOutside) + RecessLeaves.Deepest(panel, o, fromOutside);

    /// <summary>What to write so that it sits at least so deep below the face of the panel (mm); nothing if that leaves no whole skin.</summary>
    public static ImmutableArray<Fix> To(Spec spec, PlacedPanel panel, PlacedOpening o, bool fromOutside, double depth)
    {
        double deepest = Deepest(panel, o, fromOutside);
        if (depth > deepest + 0.01) return [];
        if (ZoneFact(panel, o, fromOutside) is { } zone) return [Fixing.Write(spec, zone, "recess", spec.Say.Between(depth, deepest))];
        double here = OfZone(panel, o, fromOutside);
        string own = spec.Say.Between(depth - here, deepest - here);
        if (o.Fact.Find("recessed") is not { } recessed) return Fixing.One(Fixing.AddLine(o.Fact, $"recessed {own}{(fromOutside ? "" : ", from inside")}"));
        return o.Recess?.FromOutside == fromOutside ? [Fixing.Write(spec, recessed, "depth", own)] : [];
    }
}
