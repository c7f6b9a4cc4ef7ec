using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Framing;
using Wain.Core.Geometry;
using Wain.Core.Model;
using Wain.Core.Pieces;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>What is routed off the two pieces of a lap must add up to the sheet's true thickness.</summary>
public static class LapDepths
{
    private const double Warned = 25.4 / 64, Refused = 25.4 / 16;

    private static readonly string Text = Examples.Deck("splice across length {\n    lap width 1 1/2 in\n    lap depth DEPTH\n}");

    public static readonly FindingInfo Info = new("WN4201", "lap-depths-do-not-add", Level.Warning, "Lap depths do not add up to the sheet's thickness",
        "Where the two depths come to less than the true thickness, a step stands out at the joint; where they come to more, there is a gap under the lap that glue has to fill. The true thickness counts, not what the sheet is called. Half of it off each piece always adds up.",
        Text.With("DEPTH", "1/10 in and 1/10 in"), Text.With("DEPTH", "half"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        var spliced = input.Pieces.Splices.Where(s => s.Rule.Kind == SpliceKind.Lap && !s.Rule.Depths.IsEmpty).Select(s => (s.Panel, s.Layer, s.Rule)).Distinct();
        foreach (var ((panel, layer, rule), others) in OfSkins.Worst(spliced.Where(s => Math.Abs(Off(s.Layer, s.Rule)) > Warned), s => (s.Panel, s.Rule.Fact), s => s.Layer.Material!.Name, s => Math.Abs(Off(s.Layer, s.Rule))))
        {
            double thickness = ((SheetMaterial)layer.Material!).Thickness;
            var (first, second) = rule.LapDepths(thickness);
            double off = Off(layer, rule);
            var depth = rule.Fact.All("lap").First(l => l.Has("depths"));
            yield return new Finding(Info, $"Lap depths {input.Say.Length(first)} and {input.Say.Length(second)} of {panel.Name} come to {input.Say.Length(first + second)}; {layer.Material.Name} is {input.Say.Length(thickness)} thick, which leaves {(off < 0 ? "a step" : "a gap")} of {input.Say.Length(Math.Abs(off))}{others}.", depth.Span)
            {
                Level = Math.Abs(off) > Refused ? Level.Error : Level.Warning,
                Subject = panel.Name,
                Hint = "Half of the true thickness off each piece always adds up.",
                Fixes = [Fixing.Write(input.Spec, depth, "depths", "half")],
            };
        }
        foreach (var joint in input.Structure.Joints)
        {
            if (joint.Kind != JointKind.Lap || JointFit.Of(input.Spec, joint) is not { Parallel: true } fit || joint.Fact.Find("lap") is not { } lap || !lap.Has("depths")) continue;
            double off = fit.First + fit.Second - fit.Thickness;
            if (Math.Abs(off) <= Warned) continue;
            yield return new Finding(Info, $"Lap depths {input.Say.Length(fit.First)} and {input.Say.Length(fit.Second)} of joint {joint.Name} come to {input.Say.Length(fit.First + fit.Second)}; the two panels share {input.Say.Length(fit.Thickness)} of thickness, which leaves {(off < 0 ? "a step" : "a gap")} of {input.Say.Length(Math.Abs(off))}.", lap.Span)
            {
                Level = Math.Abs(off) > Refused ? Level.Error : Level.Warning,
                Subject = joint.Name,
                Hint = "Half of the true thickness off each panel always adds up.",
                Fixes = fit.Thickness > 0 ? [Fixing.Write(input.Spec, lap, "depths", "half")] : [],
            };
        }
    }

    // What the two depths come to beyond the sheet's thickness (mm).
    private static double Off(StackLayer layer, SpliceRule rule)
    {
        double thickness = ((SheetMaterial)layer.Material!).Thickness;
        var (first, second) = rule.LapDepths(thickness);
        return first + second - thickness;
    }
}
