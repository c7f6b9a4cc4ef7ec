using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Framing;
using Wain.Core.Geometry;
using Wain.Core.Model;

namespace Wain.Core.Pieces;

/// <summary>How a spec joins the pieces of a skin (mm).</summary>
/// <param name="AcrossLength">The pieces follow each other along the panel's longer side; else along its shorter one.</param>
/// <param name="Depths">Routed off each piece; empty for half of the true thickness.</param>
/// <param name="Slope">Of a scarf: run for one of thickness.</param>
/// <param name="Backing">Width of the strip behind a butt.</param>
/// <param name="Lengths">The pieces as cut, in order from the left or the bottom, if stated.</param>
public sealed record SpliceRule(
    BoundFact Fact, bool AcrossLength, double? At, Material? Of, SpliceKind Kind, double LapWidth, ImmutableArray<double> Depths, double Slope, double Backing,
    bool OverStud, double? Stagger, double LeastPiece, ImmutableArray<double> Lengths, Material? Glue)
{
    /// <summary>How far two pieces lap in a sheet of this thickness.</summary>
    public double Overlap(double thickness) => Kind switch { SpliceKind.Lap => LapWidth, SpliceKind.Scarf => Slope * thickness, _ => 0 };

    /// <summary>What is routed off the first and the second piece (mm).</summary>
    public (double First, double Second) LapDepths(double thickness) => Depths.Length switch
    {
        0 => (thickness / 2, thickness / 2),
        1 => (Depths[0], Depths[0]),
        _ => (Depths[0], Depths[1]),
    };

    /// <summary>True if it speaks of this layer: of its material, or of every sheet.</summary>
    public bool IsFor(StackLayer layer) => Of is null || ReferenceEquals(Of, layer.Material) || Of.Name == layer.Material?.Name;

    /// <summary>The splices that a panel's facts ask for, in the order written.</summary>
    public static ImmutableArray<SpliceRule> Read(Structure structure, PlacedPanel panel, IReadOnlyDictionary<string, Material> materials) =>
        [.. PanelFacts.All(panel, "splice").Select(f => Read(structure, f, materials))];

    private static SpliceRule Read(Structure structure, BoundFact fact, IReadOnlyDictionary<string, Material> materials)
    {
        var e = structure.Spec.Evaluator;
        Material? Of(BoundFact? from, string slot) => from is not null && from.Has(slot) && e.Thing(from, slot) is { Name: { } name } ? materials.GetValueOrDefault(name) : null;
        var laps = fact.All("lap").ToList();
        double width = laps.Find(l => l.Has("value")) is { } w ? e.Length(w, "value") ?? 0 : 0;
        var depth = laps.Find(l => l.Has("depths"));
        var scarf = fact.Find("scarf");
        var butt = fact.Find("butt");
        var kind = scarf is not null ? SpliceKind.Scarf : laps.Count > 0 || butt is null ? SpliceKind.Lap : SpliceKind.Butt;
        return new SpliceRule(
            fact, fact.Word("axis") != "width", e.Length(fact, "at"), Of(fact, "material"), kind, width, depth is null || depth.Word("depths") == "half" ? [] : e.Lengths(depth, "depths"),
            scarf is null ? 0 : e.Number(scarf, "slope") ?? 0, butt is null ? 0 : e.Length(butt, "width") ?? 0, fact.Find("over") is not null,
            fact.Find("staggered") is { } s ? e.Length(s, "value") : null, fact.Find("least") is { } l2 ? e.Length(l2, "value") ?? 0 : 0,
            fact.Find("pieces") is { } p ? e.Lengths(p, "lengths") : [], Of(fact.Find("glue"), "glue"));
    }
}
