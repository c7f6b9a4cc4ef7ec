using System.Collections.Immutable;
using Wain.Core.Framing;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Model;

namespace Wain.Core.Pieces;

/// <summary>One layer of a panel or zone as a whole, before it is cut into pieces. Outlines in the panel's axes on the layer's outer side (mm).</summary>
/// <param name="Finished">One outline, or several where zones part it.</param>
internal sealed record LayerShape(
    PlacedPanel Panel, PlacedZone? Zone, StackLayer Layer, int Index, double Below, ImmutableArray<Outline> Finished, ImmutableArray<Outline> Holes, ImmutableArray<Rout> Routs,
    IReadOnlyDictionary<string, double> TrimByEdge)
{
    public double Thickness => Layer.Thickness;

    /// <summary>The panel's edges that are rounded over.</summary>
    public ImmutableArray<EdgeRounding> Roundings { get; init; } = [];

    /// <summary>What they take off a part of it (mm3) beyond what steps have taken already: of two pieces that lap, each gives what it has there.</summary>
    public double RoundedOff(Outline part, IEnumerable<Rout> routs) => Roundings.IsEmpty ? 0
        : EdgeRounding.TakenOff(Panel, Roundings, part, Below, Thickness) - routs.Sum(r => EdgeRounding.TakenOff(Panel, Roundings, r.Region, r.FromOutside ? Below : Below + Thickness - r.Depth, r.Depth));

    /// <summary>What is cut for a finished outline: long points where the far side of a bevel is the larger, and what is trimmed flush after glueing.</summary>
    public Outline Rough(Outline finished)
    {
        double Out(int i)
        {
            var edge = finished.Edges[i];
            return Math.Max(0, Thickness * Math.Tan(edge.Tilt)) + (edge.Name is { } name ? TrimByEdge.GetValueOrDefault(name) : 0);
        }
        var rough = finished.Offset(Out).Outline ?? finished;
        return rough.Edges.All(e => e.Tilt == 0) ? rough : new Outline([.. rough.Edges.Select(e => e with { Tilt = 0 })]);
    }
}

/// <summary>From panels and stacks to the shape of each layer: what edges, openings, recesses, rabbets and zones leave of it.</summary>
internal static class LayerShapes
{
    /// <summary>Trimmed off after glueing where the spec states no allowance (mm): 1/8 in, common practice for a flush-trimmed edge.</summary>
    public const double UsualAllowance = 25.4 / 8;

    public static IEnumerable<LayerShape> Of(Structure structure, PlacedPanel panel)
    {
        var (trims, steps, roundings) = (Trims(structure, panel), PanelStep.Of(structure, panel), EdgeRounding.Of(structure, panel));
        for (int k = 0; k < panel.Stack.Layers.Length; k++) yield return OfPanel(structure, panel, steps, k, trims) with { Roundings = roundings };
        foreach (var zone in panel.Zones)
            for (int k = 0; k < zone.Stack.Layers.Length; k++)
                if (OfZone(panel, zone, k, trims) is { } shape) yield return shape with { Roundings = roundings };
    }

    private static LayerShape OfPanel(Structure structure, PlacedPanel panel, ImmutableArray<PanelStep> steps, int index, IReadOnlyDictionary<string, double> trims)
    {
        var e = structure.Spec.Evaluator;
        var layer = panel.Stack.Layers[index];
        double below = panel.Stack.DepthOf(layer), thickness = layer.Thickness;
        var outline = panel.OutlineAt(below);
        var back = new double[outline.Count];
        var routs = ImmutableArray.CreateBuilder<Rout>();
        void Edge(Binding.BoundFact fact, Action<int> with)
        {
            if (fact.Word("edge") is not { } word) return;
            foreach (int i in PanelFacts.Edges(outline, PanelFacts.IsTurnedRound(panel, fact) && PanelFacts.Direction(word) is not null ? PanelFacts.OtherHand(word) : word)) with(i);
        }
        // A lip is a skin that reaches to the panel's edge while the others stand back: the one that the spec names, else the outermost.
        foreach (var lip in PanelFacts.All(panel, "lip"))
        {
            if (e.Length(lip, "width") is not { } width) continue;
            var named = lip.Has("layer") ? e.Thing(lip, "layer")?.Name : null;
            var lipped = panel.Stack.Layers.FirstOrDefault(l => l.Kind == LayerKind.Sheet && (named is null || l.Material?.Name == named));
            if (!ReferenceEquals(lipped, layer) && layer.Kind is not (LayerKind.Coating or LayerKind.Cloth)) Edge(lip, i => back[i] = Math.Max(back[i], width));
        }
        var gone = new List<Outline>();
        foreach (var step in steps)
        {
            double into = step.Into(below, thickness, panel.Thickness);
            if (into <= 0) continue;
            bool through = into >= thickness - Tolerance.Length;
            if (through && step is { IsWholeEdge: true, Edge: { } edge } && edge < back.Length) back[edge] = Math.Max(back[edge], step.Width);
            else foreach (var region in step.Taken(outline))
                if (through) gone.Add(region);
                else routs.Add(new Rout(region, into, step.FromOutside, step.What));
        }
        if (Array.Exists(back, b => b > 0)) outline = outline.Offset(i => -back[i]).Outline ?? outline;
        var zones = panel.Zones.Where(z => !z.Added && !GoesOn(panel, layer, below, z)).ToList();
        IEnumerable<Outline> parts = [outline];
        var holes = ImmutableArray.CreateBuilder<Outline>();
        foreach (var region in gone)
        {
            var left = parts.Select(p => p.Less(region)).ToList();
            parts = [.. left.SelectMany(l => l.Parts)];
            holes.AddRange(left.SelectMany(l => l.Holes));
        }
        foreach (var zone in zones)
        {
            if (outline.Contains(zone.Region) && zone.Region.EdgeDistance(outline).Distance > Tolerance.Length) holes.Add(zone.Region);
            else parts = [.. parts.SelectMany(p => ZoneShapes.Split(panel, zone, p).Outside)];
        }
        foreach (var opening in panel.Openings)
        {
            if (zones.Exists(z => z.Region.Contains(opening.Hole.Bounds.Centre))) continue;
            AddOpening(opening, below, thickness, panel.Thickness, holes, routs);
        }
        return Sorted(new LayerShape(panel, null, layer, index, below, [.. parts], holes.ToImmutable(), routs.ToImmutable(), trims));
    }

    private static LayerShape? OfZone(PlacedPanel panel, PlacedZone zone, int index, IReadOnlyDictionary<string, double> trims)
    {
        var layer = zone.Stack.Layers[index];
        double below = zone.Offset + zone.Stack.DepthOf(layer);
        // A skin that the panel has at the same depth runs through under the zone: it is the panel's piece.
        if (!zone.Added && panel.Stack.Layers.Any(l => SameSkin(l, panel.Stack.DepthOf(l), layer, below))) return null;
        ImmutableArray<Outline> parts = zone.Added ? [zone.Region] : ZoneShapes.Split(panel, zone, panel.OutlineAt(Math.Max(0, below))).Inside;
        var holes = ImmutableArray.CreateBuilder<Outline>();
        var routs = ImmutableArray.CreateBuilder<Rout>();
        foreach (var opening in panel.Openings)
            if (zone.Region.Contains(opening.Hole.Bounds.Centre)) AddOpening(opening, below - zone.Offset, layer.Thickness, zone.Stack.Thickness, holes, routs);
        return Sorted(new LayerShape(panel, zone, layer, index, below, parts, holes.ToImmutable(), routs.ToImmutable(), trims));
    }

    private static LayerShape Sorted(LayerShape shape) =>
        shape with { Finished = [.. shape.Finished.OrderBy(o => Math.Round(o.Bounds.Min.X, 3)).ThenBy(o => Math.Round(o.Bounds.Min.Y, 3))] };

    private static bool GoesOn(PlacedPanel panel, StackLayer layer, double below, PlacedZone zone) =>
        zone.Stack.Layers.Any(l => SameSkin(layer, below, l, zone.Offset + zone.Stack.DepthOf(l)));

    private static bool SameSkin(StackLayer a, double aBelow, StackLayer b, double bBelow) =>
        a.Kind == b.Kind && a.Kind != LayerKind.Frame && a.Material?.Name == b.Material?.Name && Math.Abs(aBelow - bBelow) < 0.05 && Math.Abs(a.Thickness - b.Thickness) < 0.05;

    // How far a step of this depth goes into a layer.
    private static double Into(double depth, bool fromOutside, double below, double thickness, double whole) =>
        Math.Clamp(fromOutside ? depth - below : depth - (whole - below - thickness), 0, thickness);

    private static void AddOpening(PlacedOpening opening, double below, double thickness, double whole, ImmutableArray<Outline>.Builder holes, ImmutableArray<Rout>.Builder routs)
    {
        if (opening.Recess is { } recess)
        {
            double into = Into(recess.Depth, recess.FromOutside, below, thickness, whole);
            // Cloth and coatings are as deep as the face that they lie on.
            bool gone = thickness > 0 ? into >= thickness - Tolerance.Length : recess.FromOutside ? recess.Depth > below && below < whole / 2 : recess.Depth > whole - below && below > whole / 2;
            if (gone) { holes.Add(recess.Region); return; }
            if (into > 0) routs.Add(new Rout(recess.Region, into, recess.FromOutside, opening.Name));
        }
        holes.Add(opening.Hole);
    }

    private static Dictionary<string, double> Trims(Structure structure, PlacedPanel panel)
    {
        var trims = new Dictionary<string, double>(StringComparer.Ordinal);
        foreach (var fact in PanelFacts.All(panel, "trimmed_flush"))
        {
            if (fact.Word("edge") is not { } word) continue;
            double allowance = structure.Spec.Evaluator.Length(fact, "value") ?? UsualAllowance;
            string mine = PanelFacts.IsTurnedRound(panel, fact) ? PanelFacts.OtherHand(word) : word;
            foreach (int i in PanelFacts.Edges(panel.Outline, mine)) if (panel.Outline.Edges[i].Name is { } name) trims[name] = Math.Max(allowance, trims.GetValueOrDefault(name));
        }
        return trims;
    }
}
