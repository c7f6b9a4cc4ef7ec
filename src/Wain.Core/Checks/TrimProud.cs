using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>A window that is recessed must not stand out of the face that it is recessed in by more than the spec allows.</summary>
public static class TrimProud
{
    private static readonly string Text = Examples.Wall(60, 30, "opening vent {\n    unit window\n    lower left at (20 in, 10 in)\n    recessed DEPTH, margin 1 1/2 in\n}");

    public static readonly FindingInfo Info = new("WN4108", "trim-stands-proud", Level.Error, "A window's trim stands out of the face it is recessed in",
        "A window is recessed so that something can slide or close past it. Trim that still stands proud catches there. What may stand out is stated with proud at most; nothing, unless the spec says so.",
        Text.With("DEPTH", "1/4 in"), Text.With("DEPTH", "1/2 in"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        foreach (var panel in input.Structure.Panels)
            foreach (var o in panel.Openings)
            {
                if (o.Unit is not { } unit) continue;
                bool fromOutside = o.Recess?.FromOutside ?? true;
                double proud = fromOutside ? unit.ProudOutside : unit.ProudInside, depth = Recessing.Depth(panel, o, fromOutside);
                if (o.Recess is null && o.ProudAtMost is null && depth <= 0) continue;
                double out_ = proud - depth, allowed = o.ProudAtMost ?? 0;
                if (out_ <= allowed + 0.01) continue;
                double needs = proud - allowed, deepest = Recessing.Deepest(panel, o, fromOutside);
                yield return new Finding(Info, $"The trim of {unit.Name} stands {input.Say.Length(out_)} out of {panel.Name} at opening {o.Name}; {(allowed > 0 ? $"{input.Say.Length(allowed)} is allowed" : "nothing is allowed")}.", o.Fact.NameSpan)
                {
                    Subject = $"{panel.Name}.{o.Name}",
                    Hint = needs <= deepest + 0.01 ? $"A recess {input.Say.Length(needs)} deep would do." : $"A recess would have to be {input.Say.Length(needs)} deep; {input.Say.Length(deepest)} is the most that leaves a whole skin. Use a thicker wall there, or a window with flatter trim.",
                    Fixes = Recessing.To(input.Spec, panel, o, fromOutside, needs),
                };
            }
    }
}
