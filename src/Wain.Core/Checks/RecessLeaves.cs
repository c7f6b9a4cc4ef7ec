using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Model;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>A recess must leave a skin behind it, and members that are still sticks.</summary>
public static class RecessLeaves
{
    private static readonly string Text = Examples.Wall(60, 30, "opening vent {\n    size 20 in by 10 in\n    lower left at (20 in, 10 in)\n    recessed DEPTH, margin 1 1/2 in\n}");

    public static readonly FindingInfo Info = new("WN4109", "recess-leaves-nothing", Level.Error, "A recess leaves nothing to hold the window",
        "A recess is cut into the wall. At least one whole skin has to stay behind it, or a zone with a stack of its own takes its place; foam alone holds no window and keeps no water out.",
        Text.With("DEPTH", "28 mm"), Text.With("DEPTH", "10 mm"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        foreach (var panel in input.Structure.Panels)
            foreach (var o in panel.Openings)
            {
                if (o.Recess is not { } recess || o.Fact.Find("recessed") is not { } recessed) continue;
                var stack = StackAt(panel, o);
                double deepest = Deepest(panel, o, recess.FromOutside);
                if (recess.Depth <= deepest + 0.01) continue;
                double left = stack.Thickness - recess.Depth;
                string leaves = left <= 0 ? "goes through the wall" : $"leaves {input.Say.Length(left)} and no whole skin";
                yield return new Finding(Info, $"The recess of opening {o.Name} in {panel.Name} is {input.Say.Length(recess.Depth)} deep in {input.Say.Length(stack.Thickness)} and {leaves}.", input.Spec.Evaluator.SlotSpan(recessed, "depth"))
                {
                    Subject = $"{panel.Name}.{o.Name}",
                    Hint = deepest > 0 ? $"At most {input.Say.AtMost(deepest)} leaves a whole skin." : "This stack has no skin on the far side to leave.",
                    Fixes = deepest > 25.4 / 16 ? [Fixing.Write(input.Spec, recessed, "depth", input.Say.AtMost(deepest))] : [],
                };
            }
    }

    private static Stack StackAt(PlacedPanel panel, PlacedOpening opening) => panel.Zones.FirstOrDefault(z => !z.Added && z.Region.Contains(opening.Hole.Bounds.Centre))?.Stack ?? panel.Stack;

    /// <summary>The deepest recess that leaves a whole skin (mm): down to the last sheet on the far side.</summary>
    internal static double Deepest(PlacedPanel panel, PlacedOpening opening, bool fromOutside)
    {
        var layers = StackAt(panel, opening).Layers;
        double depth = 0, deepest = 0;
        foreach (var layer in fromOutside ? layers : [.. layers.Reverse()])
        {
            if (layer.Kind == LayerKind.Sheet) deepest = depth;
            depth += layer.Thickness;
        }
        return deepest;
    }
}
