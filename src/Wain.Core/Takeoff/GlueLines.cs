using System.Collections.Immutable;
using Wain.Core.Framing;
using Wain.Core.Geometry;
using Wain.Core.Model;

namespace Wain.Core.Takeoff;

/// <summary>
/// The glue between layers, by the faces that touch. A skin on a frame touches the members, and the boards between them if boards fill the bays; foam
/// that is poured sticks by itself and takes no glue.
/// </summary>
internal static class GlueLines
{
    public static void Add(LineList lines, PlacedPanel panel, ImmutableArray<LayerSlice> slices, IReadOnlyList<PanelFrame> frames)
    {
        foreach (var part in slices.GroupBy(s => s.Zone?.Name))
        {
            var solid = part.Where(s => s.Layer.Kind is LayerKind.Sheet or LayerKind.Frame or LayerKind.Foam or LayerKind.Membrane or LayerKind.Air).ToList();
            string subject = part.Key is null ? panel.Name : panel.Name + "." + part.Key;
            for (int i = 0; i + 1 < solid.Count; i++) AddBetween(lines, subject, panel, solid[i], solid[i + 1], frames);
        }
        foreach (var zone in panel.Zones) if (zone.Added) AddUnder(lines, panel, zone, slices);
    }

    private static void AddBetween(LineList lines, string subject, PlacedPanel panel, LayerSlice outer, LayerSlice inner, IReadOnlyList<PanelFrame> frames)
    {
        if (GlueOf(outer.Layer, inner.Layer) is not { } glue) return;
        double whole = Math.Min(outer.InnerArea, inner.OuterArea);
        double area = Math.Min(Touching(outer, whole, frames), Touching(inner, whole, frames));
        Fastenings.AddGlue(lines, subject, [panel.Name], glue, area, $"where {Say(outer.Layer)} lies on {Say(inner.Layer)}", (outer.Layer.Glue == glue ? outer : inner).Layer.Fact.Span);
    }

    /// <summary>A skin says its own glue; between two layers of a kind the inner one's counts first. No glue is laid across an air space.</summary>
    internal static Material? GlueOf(StackLayer outer, StackLayer inner)
    {
        if (outer.Kind == LayerKind.Air || inner.Kind == LayerKind.Air) return null;
        static bool IsSkin(StackLayer layer) => layer.Kind is LayerKind.Sheet or LayerKind.Membrane;
        return IsSkin(outer) && !IsSkin(inner) ? outer.Glue ?? inner.Glue : inner.Glue ?? outer.Glue;
    }

    /// <summary>What of a layer's side is solid and takes glue (mm2).</summary>
    private static double Touching(LayerSlice slice, double whole, IReadOnlyList<PanelFrame> frames)
    {
        if (slice.Layer.Kind != LayerKind.Frame) return whole;
        var frame = frames.FirstOrDefault(f => ReferenceEquals(f.Layer, slice.Layer) && f.Zone?.Name == slice.Zone?.Name);
        if (frame is null) return 0;
        double members = frame.Members.Sum(m => m.Area);
        return members + frame.Cavities.Where(c => c.Fill is SheetMaterial).Sum(c => c.Area);
    }

    // A zone that lies on a face is glued to it by the glue of its layer that touches.
    private static void AddUnder(LineList lines, PlacedPanel panel, PlacedZone zone, ImmutableArray<LayerSlice> slices)
    {
        bool outside = zone.Offset < 0;
        var touching = slices.Where(s => s.Zone == zone && s.Layer.Thickness > 0).ToList();
        if (touching.Count == 0) return;
        var slice = outside ? touching[^1] : touching[0];
        if (slice.Layer.Glue is not { } glue) return;
        Fastenings.AddGlue(lines, panel.Name + "." + zone.Name, [panel.Name], glue, outside ? slice.InnerArea : slice.OuterArea, "where it lies on the panel", slice.Layer.Fact.Span);
    }

    private static string Say(StackLayer layer) => layer.Kind == LayerKind.Frame ? "the frame" : layer.Material?.Name ?? "the layer";
}
