using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Framing;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>A rabbet is cut out of the panel that it is stated for, and leaves some of it.</summary>
public static class StepsOnPanel
{
    private static readonly string Text = Examples.Wall(60, 30, "rabbet top STEP");

    public static readonly FindingInfo Info = new("WN4121", "rabbet-off-panel", Level.Error, "A rabbet takes more than the panel has",
        "A rabbet as deep as the panel is thick, or as wide as it is high, leaves no edge; one that runs past its edge, or from a place to one before it, was measured from the wrong end.",
        Text.With("STEP", "1/2 in by 1 1/2 in"), Text.With("STEP", "1/2 in by 1/2 in"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        var e = input.Spec.Evaluator;
        foreach (var panel in input.Structure.Panels)
            foreach (var fact in PanelFacts.All(panel, "rabbet"))
            {
                if (fact.Word("edge") is not { } word || e.Length(fact, "width") is not { } width || e.Length(fact, "depth") is not { } depth) continue;
                var edges = PanelFacts.Edges(panel.Outline, PanelFacts.IsTurnedRound(panel, fact) ? PanelFacts.OtherHand(word) : word).ToList();
                if (edges.Count == 0) continue;
                Finding Tell(string what, string hint, Fix? fix = null) => new(Info, $"The rabbet along {word} of {panel.Name} {what}.", fact.Span) { Subject = panel.Name, Hint = hint, Fixes = Fixing.One(fix) };
                double across = edges.Min(i => Across(panel.Outline, i)), length = edges.Min(i => panel.Outline.Segment(i).Length);
                if (width <= 0 || depth <= 0) yield return Tell($"is {input.Say.Length(width)} wide and {input.Say.Length(depth)} deep", "A rabbet takes some width and some depth.");
                else if (depth >= panel.Thickness - 0.01) yield return Tell($"is {input.Say.Length(depth)} deep in {input.Say.Length(panel.Thickness)}", $"Half of the thickness is {input.Say.AtMost(panel.Thickness / 2)}.", Fixing.Write(input.Spec, fact, "depth", input.Say.AtMost(panel.Thickness / 2)));
                else if (width >= across - 0.01) yield return Tell($"is {input.Say.Length(width)} wide, and the panel is {input.Say.Nearly(across)} across there", "Make it narrower.");
                else if (e.Length(fact, "start") is { } start && e.Length(fact, "end") is { } end && (start < -0.01 || end > length + 0.01 || end - start < 1))
                    yield return Tell($"runs from {input.Say.Length(start)} to {input.Say.Length(end)} of an edge of {input.Say.Nearly(length)}", end < start ? "Write the lesser place first." : $"It lies between {input.Say.Length(0)} and {input.Say.Nearly(length)}.",
                        end < start && start <= length + 0.01 && end >= -0.01 ? null : end - start >= 1 && start < length - 1 ? Fixing.Write(input.Spec, fact, "end", input.Say.AtMost(length)) : null);
            }
    }

    // How far the panel reaches back from an edge.
    private static double Across(Outline outline, int edge)
    {
        var s = outline.Segment(edge);
        return outline.Flattened(0.1).Corners.Max(c => (c - s.From).Dot(s.Chord.Unit.Left));
    }
}
