using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Framing;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Model;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>A rounded edge must stay in skin and stick, and be large enough for the cloth that goes over it.</summary>
public static class EdgeRadius
{
    private static readonly string Text = Examples.Wall(60, 30, "rounded top RADIUS",
        "stack glassed_stack {\n    cloth glass wet with epoxy\n    sheet ply_6mm\n    core frame of strip_1x2 flat, filled with foam_board\n    sheet ply_4mm\n}\n").With("of wall_stack", "of glassed_stack");

    public static readonly FindingInfo Info = new("WN4112", "edge-radius", Level.Warning, "An edge is rounded too much or too little",
        "Rounding deeper than the wood at the edge cuts into foam, into a cavity or into screws, and leaves nothing to glass over. Cloth lifts off an edge that is too sharp: each weight has a least radius that it lies over.",
        Text.With("RADIUS", "1/16 in"), Text.With("RADIUS", "1/4 in"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        var e = input.Spec.Evaluator;
        foreach (var panel in input.Structure.Panels)
        {
            foreach (var zone in panel.Zones)
                if (zone.Fact.Find("edge") is { } step && step.Word("treatment") == "rounded" && IsStep(panel, zone) && e.Length(step, "size") is { } round
                    && Sharp(input, [.. panel.Stack.Layers, .. zone.Stack.Layers], step, "size", round, $"step of zone {zone.Name} of {panel.Name}", $"{panel.Name}.{zone.Name}") is { } told) yield return told;
            foreach (var fact in PanelFacts.All(panel, "rounded"))
            {
                if (fact.Word("edge") is not { } word || e.Length(fact, "radius") is not { } radius) continue;
                if (radius <= 0)
                {
                    yield return new Finding(Info, $"An edge of {panel.Name} is rounded {input.Say.Length(radius)}; an arc has a radius.", fact.Span) { Subject = panel.Name, Fixes = radius < 0 && fact.Slots.TryGetValue("radius", out var written) ? Fixing.WithoutMinus(written.Terms[0]) : [Fixing.TakeOut(fact)] };
                    continue;
                }
                string mine = PanelFacts.IsTurnedRound(panel, fact) ? PanelFacts.OtherHand(word) : word;
                if (Sharp(input, panel.Stack.Layers, fact, "radius", radius, $"{mine} edge of {panel.Name}", panel.Name) is { } sharp) yield return sharp;
                if (Wood(input, panel, mine) is { } wood && radius > wood.Deep + 0.01)
                    yield return new Finding(Info, $"The {mine} edge of {panel.Name} is rounded {input.Say.Length(radius)}, and {input.Say.Length(wood.Deep)} in lies {wood.Behind}.", fact.Span)
                    {
                        Subject = panel.Name,
                        Hint = $"Round it at most {input.Say.AtMost(wood.Deep)}, or put wood there.",
                        Fixes = wood.Deep >= 25.4 / 16 ? [Fixing.Write(input.Spec, fact, "radius", input.Say.AtMost(wood.Deep))] : [],
                    };
            }
        }
    }

    // A zone that is set deeper, added, or another thickness leaves a step at its border; one that is flush on both faces leaves none.
    private static bool IsStep(PlacedPanel panel, PlacedZone zone) => zone.Added || Math.Abs(zone.Offset) > 0.01 || Math.Abs(zone.Offset + zone.Stack.Thickness - panel.Thickness) > 0.01;

    private static Finding? Sharp(CheckInput input, IEnumerable<StackLayer> layers, BoundFact fact, string slot, double radius, string edge, string subject)
    {
        (string Cloth, double Least)? stiff = null;
        foreach (var layer in layers.Where(l => l.Kind == LayerKind.Cloth))
            if (layer.Material!.Fact.Find("bend_radius") is { } b && input.Spec.Evaluator.Length(b, "value") is { } least && least > (stiff?.Least ?? 0)) stiff = (layer.Material.Name, least);
        if (stiff is not var (cloth, needs) || radius >= needs - 0.01) return null;
        return new Finding(Info, $"The {edge} is rounded {input.Say.Length(radius)}; {cloth} lies over no less than {input.Say.Length(needs)}.", fact.Span)
        {
            Subject = subject,
            Hint = $"Round it at least {input.Say.AtLeast(needs)}.",
            Fixes = [Fixing.Write(input.Spec, fact, slot, input.Say.AtLeast(needs))],
        };
    }

    // How far a rounding may go before it leaves skin and stick: in from the face at the edge, or in from the edge to a margin.
    private static (double Deep, string Behind)? Wood(CheckInput input, PlacedPanel panel, string edge)
    {
        double skin = panel.Stack.Layers.TakeWhile(l => l.Kind is not (LayerKind.Frame or LayerKind.Foam or LayerKind.Air)).Sum(l => l.Thickness);
        var core = panel.Stack.Layers.FirstOrDefault(l => l.Kind is LayerKind.Frame or LayerKind.Foam or LayerKind.Air);
        if (core is null) return (panel.Thickness, "nothing");
        if (core.Kind != LayerKind.Frame) return (skin, core.Kind == LayerKind.Foam ? "foam" : "air");
        if (input.Frames.Of(panel).FirstOrDefault(f => f.Zone is null) is not { Clear: not null } frame) return null;
        // Behind a margin or a lip there is no stick at the edge itself.
        foreach (int i in PanelFacts.Edges(frame.Area, edge))
        {
            var outer = panel.OutlineAt(frame.Below);
            double back = -outer.SignedDistance(frame.Area.Segment(i).At(0.5));
            if (back > 0.5) return (skin, "the space beside the frame");
            double pocket = frame.Members.SelectMany(m => m.Holes).Where(h => h.Kind == HoleKind.Pocket).Select(h => frame.Area.Segment(i).DistanceTo(h.At) - h.Diameter / 2).DefaultIfEmpty(double.PositiveInfinity).Min();
            double wide = frame.Layer.FaceWidth;
            return pocket < wide && pocket < panel.Thickness ? (Math.Max(skin, pocket), "a screw") : (Math.Max(skin, wide), frame.Layer.Fill is null ? "a cavity" : "foam");
        }
        return null;
    }
}
