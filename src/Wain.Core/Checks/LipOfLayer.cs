using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Framing;
using Wain.Core.Model;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>A lip is a skin of the panel's own stack.</summary>
public static class LipOfLayer
{
    private static readonly string Text = Examples.Wall(60, 30, "lip top 1 in of SKIN");

    public static readonly FindingInfo Info = new("WN4134", "lip-of-no-layer", Level.Error, "A lip names a sheet that is no layer of its panel",
        "The skin that is named reaches to the edge and all others stand back. If it is none of the panel's layers, all stand back and nothing reaches there.",
        Text.With("SKIN", "ply_quarter"), Text.With("SKIN", "ply_6mm"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        foreach (var panel in input.Structure.Panels.Where(p => p.Mirrored is null))
            foreach (var lip in PanelFacts.All(panel, "lip"))
            {
                if (!lip.Has("layer") || input.Spec.Evaluator.Thing(lip, "layer") is not { Name: { } named }) continue;
                var skins = panel.Stack.Layers.Where(l => l.Kind == LayerKind.Sheet).Select(l => l.Material?.Name).OfType<string>().Distinct().ToList();
                if (skins.Contains(named)) continue;
                yield return new Finding(Info, $"The lip of {panel.Name} is to be of {named}, and {panel.Stack.Name} has no layer of it.", input.Spec.Evaluator.SlotSpan(lip, "layer"))
                {
                    Subject = panel.Name,
                    Hint = skins.Count > 0 ? $"Its skins are {string.Join(" and ", skins)}." : "It has no skin.",
                    Fixes = skins.Count > 0 ? [Fixing.Write(input.Spec, lip, "layer", skins[0])] : [],
                };
            }
    }
}
