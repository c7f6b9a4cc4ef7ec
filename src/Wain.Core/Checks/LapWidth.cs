using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Framing;
using Wain.Core.Geometry;
using Wain.Core.Model;
using Wain.Core.Pieces;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>A lap needs width for its glue: eight times the thickness that is left, unless the spec sets another ratio.</summary>
public static class LapWidth
{
    /// <summary>Common practice for scarfs and laps in plywood, after the scarf slopes of boat and aircraft building (1 to 8).</summary>
    public const double UsualRatio = 8;

    private static readonly string Text = Examples.Deck("splice across length {\n    lap width WIDTH\n    lap depth half\n}");

    public static readonly FindingInfo Info = new("WN4202", "lap-too-narrow", Level.Warning, "A lap or scarf is short for its thickness",
        "The glue line has to carry what the thinned sheet carries. Common practice is a lap at least 8 times as wide as the wood left in it, and a scarf no steeper than 8 to 1. Set another ratio with lap_ratio in the camper block.",
        Text.With("WIDTH", "1/2 in"), Text.With("WIDTH", "1 1/2 in"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        double ratio = input.Spec.All("camper").Select(c => c.Find("lap_ratio")).OfType<Binding.BoundFact>().Select(f => input.Spec.Evaluator.Number(f, "value")).OfType<double>().FirstOrDefault(UsualRatio);
        // The thickest skin asks for the widest lap.
        var spliced = input.Pieces.Splices.Where(s => s.Rule.Kind != SpliceKind.Butt).Select(s => (s.Panel, s.Layer, s.Rule)).Distinct();
        foreach (var ((panel, layer, rule), others) in OfSkins.Worst(spliced.Where(s => s.Rule.Kind == SpliceKind.Scarf || s.Rule.LapWidth < ratio * Left(s.Layer, s.Rule) - 0.01), s => (s.Panel, s.Rule.Fact), s => s.Layer.Material!.Name, s => Left(s.Layer, s.Rule)))
        {
            if (rule.Kind == SpliceKind.Scarf)
            {
                if (rule.Slope >= ratio - 1e-6) continue;
                var scarf = rule.Fact.Find("scarf")!;
                string slope = ratio.ToString("0.###", System.Globalization.CultureInfo.InvariantCulture);
                yield return new Finding(Info, $"The scarf of {panel.Name} in {layer.Material!.Name}{others} is cut {rule.Slope.ToString("0.###", System.Globalization.CultureInfo.InvariantCulture)} to 1; {slope} to 1 is the least.", scarf.Span)
                {
                    Subject = panel.Name, Hint = $"Write scarf {slope}.", Fixes = [Fixing.Write(input.Spec, scarf, "slope", slope)],
                };
                continue;
            }
            double left = Left(layer, rule), needs = ratio * left;
            var width = rule.Fact.All("lap").FirstOrDefault(l => l.Has("value"));
            // A width that could not be read is told already.
            if (width is not null && input.Spec.Evaluator.Length(width, "value") is null) continue;
            yield return new Finding(Info, $"The lap of {panel.Name} in {layer.Material!.Name}{others} is {input.Say.Length(rule.LapWidth)} wide and leaves {input.Say.Length(left)} of wood; {input.Say.Length(needs)} is the least.", (width ?? rule.Fact).HeadSpan)
            {
                Subject = panel.Name,
                Hint = $"Make it at least {input.Say.AtLeast(needs)} wide.",
                // A width that is usual in another unit is a slip of the unit.
                Fixes = width is null ? [] : [UnitSlips.Other(width, ["value"], "value", UnitSlips.Lengths, v => v >= needs - 0.01 && v <= 6 * 25.4) ?? Fixing.Write(input.Spec, width, "value", input.Say.AtLeast(needs))],
            };
        }
        foreach (var joint in input.Structure.Joints)
        {
            if (joint.Kind != JointKind.Lap || JointFit.Of(input.Spec, joint) is not { Parallel: true } fit) continue;
            double left = Math.Max(joint.First.Panel.Thickness - fit.First, joint.Second.Panel.Thickness - fit.Second), needs = ratio * left, wide = fit.Asked ?? fit.Reach;
            if (wide <= 0 || wide >= needs - 0.01) continue;
            yield return new Finding(Info, $"The lap of joint {joint.Name} is {input.Say.Nearly(wide)} wide and leaves {input.Say.Length(left)} of wood; {input.Say.Length(needs)} is the least.", joint.Fact.Find("lap")!.Span)
            {
                Subject = joint.Name,
                // The panels must reach over each other by as much, so that no one value mends it.
                Hint = $"Make it at least {input.Say.AtLeast(needs)} wide, and run the panels over each other by as much.",
            };
        }
    }

    /// <summary>Wood that the lap leaves in the thicker of the two pieces (mm).</summary>
    private static double Left(StackLayer layer, SpliceRule rule)
    {
        double thickness = ((SheetMaterial)layer.Material!).Thickness;
        var (first, second) = rule.LapDepths(thickness);
        return thickness - Math.Min(first, second);
    }
}
