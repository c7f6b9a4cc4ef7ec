using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Model;

namespace Wain.Core.Checks;

/// <summary>Glass cloth in a stack says what it is wet with.</summary>
public static class ClothDry
{
    private const string Text = """
        sheet ply {
            thickness 6 mm
            size 48 in by 96 in
        }
        cloth glass { weight 6 oz/yd2 }
        resin epoxy { density 1.1 g/cm3 }
        stack skin {
            cloth glassWET
            sheet ply
        }
        panel deck of skin { through (0 in, 20 in, 0 in) along (0 in, -20 in, 0 in) up (60 in, 20 in, 0 in) }
        """;

    public static readonly FindingInfo Info = new("WN4136", "cloth-dry", Level.Warning, "A cloth is laid without resin",
        "Half of a laid cloth and more is resin. Without it the panel comes out light, and nobody buys what wets it. A lining that stays dry is a membrane.",
        Text.With("WET", ""), Text.With("WET", " wet with epoxy"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        var layers = input.Structure.Panels.Select(p => p.Stack).Concat(input.Structure.Panels.SelectMany(p => p.Zones.Select(z => z.Stack))).DistinctBy(s => s.Name)
            .SelectMany(s => s.Layers.Select(l => (Stack: s, Layer: l))).Where(x => x.Layer.Kind == LayerKind.Cloth).ToList();
        string? usual = layers.Select(x => x.Layer.Resin?.Name).OfType<string>().GroupBy(n => n, StringComparer.Ordinal).MaxBy(g => g.Count())?.Key
            ?? (input.Spec.All("resin").Where(r => r.Span.Source == input.Spec.Main).ToList() is [{ Name: { } only }] ? only : null);
        foreach (var (stack, layer) in layers)
        {
            // A resin that is named and not found is told as such.
            if (layer.Resin is not null || layer.Material is not { } cloth || layer.Fact.Has("resin")) continue;
            var named = input.Spec.Evaluator.SlotSpan(layer.Fact, "material");
            yield return new Finding(Info, $"{cloth.Name} of {stack.Name} is laid without resin.", layer.Fact.Span)
            {
                Subject = $"{stack.Name}.{cloth.Name}", Hint = "State it: wet with <resin>.",
                Fixes = usual is null ? [] : [new Fix(named with { Start = named.End, Length = 0 }, $" wet with {usual}", $"write wet with {usual}")],
            };
        }
    }
}
