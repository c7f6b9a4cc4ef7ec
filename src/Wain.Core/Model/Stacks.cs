using System.Collections.Immutable;
using Wain.Core.Binding;

namespace Wain.Core.Model;

public enum LayerKind
{
    Coating,
    Cloth,
    Sheet,
    Frame,
    Foam,
    Membrane,
    Air,
}

/// <summary>One layer of a stack. Thickness in mm; cloth and coatings have none in placing, since they go over finished edges.</summary>
/// <param name="Material">The sheet, stick, board, cloth, coating or membrane; null for air.</param>

public sealed record StackLayer(LayerKind Kind, Material? Material, double Thickness, BoundFact Fact)
{
    public Material? Fill { get; init; }

    public Material? Glue { get; init; }

    public Material? Resin { get; init; }

    /// <summary>Coats of a coating, or plies of cloth.</summary>
    public int Count { get; init; } = 1;

    public int FillCoats { get; init; }

    public int FloodCoats { get; init; }

    public bool GrainAcross { get; init; }

    /// <summary>For a frame: true if the stick lies flat, with its thickness through the wall.</summary>
    public bool Flat { get; init; }

    /// <summary>For a frame: how wide its members show on the face (mm).</summary>
    public double FaceWidth => Material is StickMaterial stick ? Flat ? stick.Width : stick.Thickness : 0;
}

/// <summary>Layers from the outside face to the inside face.</summary>
public sealed record Stack(string Name, ImmutableArray<StackLayer> Layers, BoundFact Fact)
{
    /// <summary>Through all layers, before cloth and coatings (mm): what placing uses.</summary>
    public double Thickness => Layers.Sum(l => l.Thickness);

    public StackLayer? Frame => Layers.FirstOrDefault(l => l.Kind == LayerKind.Frame);

    /// <summary>Depth of a layer's outer side below the outside face (mm).</summary>
    public double DepthOf(StackLayer layer) => Layers.TakeWhile(l => !ReferenceEquals(l, layer)).Sum(l => l.Thickness);

    public override string ToString() => Name;
}

/// <summary>Reads the stacks of a spec.</summary>
public static class Stacks
{
    public static ImmutableArray<Stack> Read(Spec spec, IReadOnlyDictionary<string, Material> materials)
    {
        var stacks = ImmutableArray.CreateBuilder<Stack>();
        foreach (var fact in spec.All("stack"))
        {
            if (fact.Name is null) continue;
            var layers = ImmutableArray.CreateBuilder<StackLayer>();
            bool whole = true;
            foreach (var inner in fact.Body)
            {
                if (ReadLayer(spec, inner, materials) is { } layer) layers.Add(layer);
                else whole = false;
            }
            if (whole) stacks.Add(new Stack(fact.Name, layers.ToImmutable(), fact));
        }
        return stacks.ToImmutable();
    }

    private static StackLayer? ReadLayer(Spec spec, BoundFact fact, IReadOnlyDictionary<string, Material> materials)
    {
        var e = spec.Evaluator;
        Material? Of(string slot) => fact.Has(slot) && e.Thing(fact, slot) is { Name: { } name } ? materials.GetValueOrDefault(name) : null;
        int Count(string slot, int otherwise) => (int)Math.Clamp(e.Number(fact, slot) ?? otherwise, 0, 100);
        switch (fact.Keyword)
        {
            case "coating": return Of("material") is { } coating ? new StackLayer(LayerKind.Coating, coating, 0, fact) { Count = Count("coats", 1) } : null;
            case "cloth": return Of("material") is { } cloth ? new StackLayer(LayerKind.Cloth, cloth, 0, fact) { Resin = Of("resin"), Count = Count("plies", 1), FillCoats = Count("fill", 0), FloodCoats = Count("flood", 0) } : null;
            case "sheet": return Of("material") is SheetMaterial sheet ? new StackLayer(LayerKind.Sheet, sheet, sheet.Thickness, fact) { Glue = Of("glue"), GrainAcross = fact.Word("grain") == "across" } : null;
            case "core":
                if (Of("stick") is not StickMaterial stick) return null;
                bool flat = !fact.Says("on edge");
                return new StackLayer(LayerKind.Frame, stick, flat ? stick.Thickness : stick.Width, fact) { Flat = flat, Fill = Of("fill"), Glue = Of("glue") };
            case "foam": return Of("material") is SheetMaterial board ? new StackLayer(LayerKind.Foam, board, fact.Has("thickness") ? Materials.Positive(spec, fact, "thickness") ?? board.Thickness : board.Thickness, fact) { Glue = Of("glue") } : null;
            case "membrane" or "lining": return Of("material") is { } film ? new StackLayer(LayerKind.Membrane, film, film.Fact.Find("thickness") is { } t ? e.Length(t, "true") ?? 0 : 0, fact) { Glue = Of("glue") } : null;
            case "air": return Materials.Positive(spec, fact, "thickness") is { } gap ? new StackLayer(LayerKind.Air, null, gap, fact) : null;
            default: return null;
        }
    }
}
