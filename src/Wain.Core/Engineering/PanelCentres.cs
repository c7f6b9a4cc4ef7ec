using System.Collections.Immutable;
using Wain.Core.Framing;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Model;
using Wain.Core.Takeoff;

namespace Wain.Core.Engineering;

/// <summary>Centres of what a panel is made of (mm), from the solids of its layers. Computed when first asked for.</summary>
internal sealed class PanelCentres(Ledger ledger, PlacedPanel panel)
{
    private readonly Dictionary<(string? Zone, double From, double To), Vec3> _slabs = [];
    private Vec3? _whole;
    private bool? _square;
    private ImmutableArray<EdgeRounding>? _roundings;

    private bool IsSquare => _square ??= panel.Outline.Edges.All(e => e.Tilt == 0) && panel.Zones.All(z => z.Region.Edges.All(e => e.Tilt == 0)) && panel.Openings.All(o => o.Hole.Edges.All(e => e.Tilt == 0));

    /// <summary>Of the whole panel as one solid.</summary>
    public Vec3 Whole => _whole ??= Slab(null, 0, panel.Thickness);

    private ImmutableArray<EdgeRounding> Roundings => _roundings ??= EdgeRounding.Of(ledger.Structure, panel);

    /// <summary>Of what a line of the takeoff stands for.</summary>
    public Vec3 Of(TakeoffLine line)
    {
        if (line.Kind is LineKind.Unit && panel.Openings.FirstOrDefault(o => panel.Name + "." + o.Name == line.Subject) is { } opening)
            return panel.Face.ToWorld(opening.Hole.Centroid(), panel.Thickness / 2);
        var zone = panel.Zones.FirstOrDefault(z => line.Subject == panel.Name + "." + z.Name);
        double depth = zone?.Offset ?? 0;
        foreach (var layer in (zone?.Stack ?? panel.Stack).Layers)
        {
            double to = depth + layer.Thickness;
            if (layer.Fact.Span == line.From) return layer.Kind == LayerKind.Frame ? InFrame(line, zone, layer, depth, to) : (line.Kind is LineKind.Skin or LineKind.FoamBoard ? OfPieces(zone, layer) : null) ?? Slab(zone, depth, to);
            depth = to;
        }
        return Whole;
    }

    private Vec3 InFrame(TakeoffLine line, PlacedZone? zone, StackLayer layer, double from, double to)
    {
        var frame = ledger.FramesOf(panel).FirstOrDefault(f => ReferenceEquals(f.Layer, layer) && f.Zone?.Name == zone?.Name);
        if (frame is null) return Slab(zone, from, to);
        return Sum(line.Kind is LineKind.Fill or LineKind.FoamBoard
            ? frame.Cavities.Where(c => c.Fill is not null).Select(c => Solid(c.Outline, c.Below, c.Depth, c.Holes, []))
            : frame.Members.Select(m => Solid(m.Outline, m.Below, m.Depth, [], m.Laps.Select(l => (l.Region, l.Depth, l.FromOutside))))) ?? Slab(zone, from, to);
    }

    // As cut: what recesses, rabbets, laps and rounded arrises take is missing where they are.
    private Vec3? OfPieces(PlacedZone? zone, StackLayer layer) =>
        Sum(ledger.Input.Pieces.Of(panel).Where(p => ReferenceEquals(p.Layer, layer) && p.Zone?.Name == zone?.Name && p.Cavity is null)
            .Select(p => Solid(p.Finished, p.Below, p.Thickness * p.Count, p.Holes, p.Routs.Select(r => (r.Region, r.Depth, r.FromOutside)))));

    private static Vec3? Sum(IEnumerable<(double Volume, Vec3 First)> solids)
    {
        var (volume, first) = (0.0, Vec3.Zero);
        foreach (var solid in solids) (volume, first) = (volume + solid.Volume, first + solid.First);
        return volume > 0 ? first / volume : null;
    }

    /// <summary>Volume (mm3) and its first moment of what lies under an outline on a plane that far below the face, less holes through it and cuts into one of its sides.</summary>
    private (double Volume, Vec3 First) Solid(Outline outline, double below, double thickness, ImmutableArray<Outline> holes, IEnumerable<(Outline Region, double Depth, bool FromOutside)> cuts)
    {
        var frame = panel.Face.AtDepth(below);
        var whole = new Slab(frame, outline, holes, 0, thickness).Measures() is { Volume: > 0 } solid ? (solid.Volume, Centre: solid.Centroid) : (Volume: outline.Area() * thickness, Centre: frame.ToWorld(outline.Centroid(), thickness / 2));
        var (volume, first) = (whole.Volume, whole.Centre * whole.Volume);
        foreach (var (region, depth, fromOutside) in cuts)
        {
            double middle = fromOutside ? depth / 2 : thickness - depth / 2;
            Take(region, region.Area());
            // What a hole has taken already can't be cut out again.
            foreach (var hole in holes) Take(hole, -Overlap.Area(hole, region));

            void Take(Outline part, double area) => (volume, first) = (volume - area * depth, first - frame.ToWorld(part.Centroid(), middle) * (area * depth));
        }
        if (Roundings.IsEmpty) return (volume, first);
        Round(outline, 0, thickness, 1);
        // What a cut has taken already can't be rounded off.
        foreach (var (region, depth, fromOutside) in cuts) Round(region, fromOutside ? 0 : thickness - depth, depth, -1);
        return (volume, first);

        void Round(Outline part, double from, double depth, int sign)
        {
            var taken = EdgeRounding.Moment(panel, Roundings, part, below + from, depth);
            (volume, first) = (volume - sign * taken.Volume, first - sign * (panel.Face.ToWorld(Vec3.Zero) * taken.Volume + panel.Face.DirectionToWorld(taken.First with { Z = -taken.First.Z })));
        }
    }

    private Vec3 Slab(PlacedZone? zone, double from, double to)
    {
        if (_slabs.TryGetValue((zone?.Name, from, to), out var known)) return known;
        // Cloth and coats have no thickness in placing; a hundredth of a millimetre stands for their face.
        double end = to > from ? to : from + 0.01;
        // Where no edge is bevelled all layers have one outline, and one centre serves them at their own depths.
        if (IsSquare && (from != 0 || end != 1)) return _slabs[(zone?.Name, from, to)] = Slab(zone, 0, 1) + panel.Face.N * (0.5 - (from + end) / 2);
        var outline = zone?.Region ?? panel.Outline;
        bool InZone(PlacedOpening o) => panel.Zones.Any(z => !z.Added && z.Region.Contains(o.Hole.Bounds.Centre));
        var cut = zone is null
            ? panel.Openings.Where(o => !InZone(o)).Select(o => o.Hole).Concat(panel.Zones.Where(z => !z.Added).Select(z => z.Region))
            : panel.Openings.Where(o => zone.Region.Contains(o.Hole.Bounds.Centre)).Select(o => o.Hole);
        var at = new Slab(panel.Face, outline, [.. cut], from, end).Measures() is { Volume: > 0 } solid ? solid.Centroid : panel.Face.ToWorld(outline.Centroid(), (from + end) / 2);
        return _slabs[(zone?.Name, from, to)] = at;
    }
}
