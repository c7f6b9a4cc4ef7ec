using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Framing;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>A splice that is stated with its place lies on the panel.</summary>
public static class SpliceOnPanel
{
    private static readonly string Text = Examples.Deck("splice across length at PLACE {\n    lap width 1 1/2 in\n    lap depth half\n}").With("up (90 in,", "up (LONG in,");

    public static readonly FindingInfo Info = new("WN4211", "splice-off-panel", Level.Error, "A splice is told a place off the panel",
        "Places of splices are measured from the panel's left or lower end. One past the other end joins nothing, and the skin would be cut from one piece that may not be had.",
        Text.With("PLACE", "200 in").With("LONG", "46"), Text.With("PLACE", "20 in").With("LONG", "46"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        var e = input.Spec.Evaluator;
        foreach (var panel in input.Structure.Panels)
            foreach (var fact in PanelFacts.All(panel, "splice"))
            {
                if (e.Length(fact, "at") is not { } at) continue;
                bool length = fact.Word("axis") != "width";
                double reach = length ? Math.Max(panel.Width, panel.Height) : Math.Min(panel.Width, panel.Height);
                if (at > 0.01 && at < reach - 0.01) continue;
                yield return new Finding(Info, $"A splice of {panel.Name} is told to lie at {input.Say.Length(at)}; the panel is {input.Say.Nearly(reach)} {(length ? "long" : "wide")}.", fact.HeadSpan)
                {
                    Subject = panel.Name, Hint = $"Its middle is at {input.Say.Nearly(reach / 2)}; without a place it is laid where the rules want it.", Fixes = [Fixing.Write(input.Spec, fact, "at", input.Say.AtMost(reach / 2))],
                };
            }
    }
}
