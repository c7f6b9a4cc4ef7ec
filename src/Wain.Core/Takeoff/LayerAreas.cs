using System.Collections.Immutable;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Model;

namespace Wain.Core.Takeoff;

/// <summary>One layer of a panel or of a zone, net of openings and recesses.</summary>
/// <param name="Zone">The zone whose stack it belongs to; null for the panel's own.</param>
/// <param name="Index">Its place in its stack.</param>
/// <param name="From">Depth of its outer side below the panel's outside face (mm).</param>
/// <param name="To">Depth of its inner side (mm).</param>
/// <param name="OuterArea">Of its outer side (mm2).</param>
/// <param name="InnerArea">Of its inner side (mm2).</param>
/// <param name="Volume">Exact, bevels and recesses counted (mm3).</param>
public sealed record LayerSlice(PlacedPanel Panel, PlacedZone? Zone, StackLayer Layer, int Index, double From, double To, double OuterArea, double InnerArea, double Volume)
{
    /// <summary>The larger side: what the saw must leave of a bevelled piece (mm2).</summary>
    public double Area => Math.Max(OuterArea, InnerArea);

    /// <summary>Area times thickness is the volume (mm2).</summary>
    public double MeanArea => To > From ? Volume / (To - From) : OuterArea;
}

/// <summary>Areas and volumes of the layers of placed panels.</summary>
public static class LayerAreas
{
    // Gauss-Legendre, three points: exact for what bevelled straight edges give (a square law) and close for tilted arcs. It never looks at the ends,
    // where a recess begins.
    private static readonly (double At, double Weight)[] Rule = [(-0.774596669241483377, 5.0 / 9), (0, 8.0 / 9), (0.774596669241483377, 5.0 / 9)];

    /// <summary>Every layer of a panel and of its zones.</summary>
    public static ImmutableArray<LayerSlice> Of(PlacedPanel panel)
    {
        var slices = ImmutableArray.CreateBuilder<LayerSlice>();
        Add(slices, panel, null, panel.Stack, 0);
        foreach (var zone in panel.Zones) Add(slices, panel, zone, zone.Stack, zone.Offset);
        return slices.ToImmutable();
    }

    private static void Add(ImmutableArray<LayerSlice>.Builder slices, PlacedPanel panel, PlacedZone? zone, Stack stack, double offset)
    {
        double depth = offset;
        bool plain = IsPrism(panel, zone);
        double area = plain ? AreaAt(panel, zone, depth) : 0;
        for (int i = 0; i < stack.Layers.Length; i++)
        {
            var layer = stack.Layers[i];
            double to = depth + layer.Thickness;
            slices.Add(plain
                ? new LayerSlice(panel, zone, layer, i, depth, to, area, area, area * layer.Thickness)
                : new LayerSlice(panel, zone, layer, i, depth, to, Side(panel, zone, depth, to), Side(panel, zone, to, depth), Volume(panel, zone, depth, to)));
            depth = to;
        }
    }

    /// <summary>True if every depth has the same area, as in most panels.</summary>
    private static bool IsPrism(PlacedPanel panel, PlacedZone? zone) =>
        panel.Outline.Edges.All(e => e.Tilt == 0) && panel.Openings.All(o => o.Recess is null) && (zone is null || zone.Region.Edges.All(e => e.Tilt == 0)) && panel.Zones.All(z => z.Region.Edges.All(e => e.Tilt == 0));

    // Just inside the layer: a recess that ends at this very depth belongs to the layer on its other side.
    private static double Side(PlacedPanel panel, PlacedZone? zone, double depth, double other) => AreaAt(panel, zone, depth + Math.Clamp(other - depth, -1e-6, 1e-6));

    /// <summary>Net area (mm2) of the panel's own layers, or of a zone, at a depth below the outside face.</summary>
    public static double AreaAt(PlacedPanel panel, PlacedZone? zone, double depth)
    {
        var outline = panel.OutlineAt(depth);
        double area;
        if (zone is null)
        {
            area = outline.Area();
            foreach (var other in panel.Zones) if (!other.Added) area -= Overlap.Area(outline, RegionAt(other, depth));
        }
        else area = zone.Added ? RegionAt(zone, depth).Area() : Overlap.Area(outline, RegionAt(zone, depth));
        foreach (var opening in panel.Openings)
        {
            var hole = HoleAt(panel, opening, depth);
            if (zone is not null)
            {
                area -= Overlap.Area(RegionAt(zone, depth), hole);
                continue;
            }
            area -= Overlap.Area(outline, hole);
            // What a zone has taken away already can't be cut out again.
            foreach (var other in panel.Zones) if (!other.Added) area += Overlap.Area(RegionAt(other, depth), hole);
        }
        return Math.Max(0, area);
    }

    /// <summary>mm3 between two depths.</summary>
    public static double Volume(PlacedPanel panel, PlacedZone? zone, double from, double to)
    {
        if (to <= from) return 0;
        var breaks = new SortedSet<double> { from, to };
        foreach (var opening in panel.Openings)
        {
            if (opening.Recess is not { } recess) continue;
            var (outside, inside) = panel.FacesAt(opening);
            double at = recess.FromOutside ? outside + recess.Depth : inside - recess.Depth;
            if (at > from && at < to) breaks.Add(at);
        }
        double volume = 0, last = from;
        foreach (double at in breaks.Skip(1))
        {
            volume += Rule.Sum(r => r.Weight * AreaAt(panel, zone, (last + at) / 2 + r.At * (at - last) / 2)) * (at - last) / 2;
            last = at;
        }
        return volume;
    }

    private static Outline RegionAt(PlacedZone zone, double depth) => zone.Region.AtDepth(depth).Outline ?? zone.Region;

    private static Outline HoleAt(PlacedPanel panel, PlacedOpening opening, double depth) =>
        opening.Recess is { } recess && panel.FacesAt(opening) is var (outside, inside) && (recess.FromOutside ? depth < outside + recess.Depth : depth > inside - recess.Depth) ? recess.Region : opening.Hole;
}
