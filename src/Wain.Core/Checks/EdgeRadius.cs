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
            foreach (var fact in PanelFacts.All(panel, "rounded"))
            {
                if (fact.Word("edge") is not { } word || e.Length(fact, "radius") is not { } radius) continue;
                string mine = PanelFacts.IsTurnedRound(panel, fact) ? PanelFacts.OtherHand(word) : word;
                var cloths = panel.Stack.Layers.Where(l => l.Kind == LayerKind.Cloth).Select(l => (Cloth: l.Material!.Name, Least: l.Material.Fact.Find("bend_radius") is { } b ? e.Length(b, "value") ?? 0 : 0)).ToList();
                if (cloths.Count > 0 && cloths.MaxBy(c => c.Least) is var stiff && radius < stiff.Least - 0.01)
                    yield return new Finding(Info, $"The {mine} edge of {panel.Name} is rounded {input.Say.Length(radius)}; {stiff.Cloth} lies over no less than {input.Say.Length(stiff.Least)}.", fact.Span)
                    {
                        Subject = panel.Name,
                        Hint = $"Round it at least {input.Say.AtLeast(stiff.Least)}.",
                        Fixes = [Fixing.Write(input.Spec, fact, "radius", input.Say.AtLeast(stiff.Least))],
                    };
                if (Wood(input, panel, mine) is { } wood && radius > wood.Deep + 0.01)
                    yield return new Finding(Info, $"The {mine} edge of {panel.Name} is rounded {input.Say.Length(radius)}, and {input.Say.Length(wood.Deep)} in lies {wood.Behind}.", fact.Span)
                    {
                        Subject = panel.Name,
                        Hint = $"Round it at most {input.Say.AtMost(wood.Deep)}, or put wood there.",
                        Fixes = wood.Deep >= 25.4 / 16 ? [Fixing.Write(input.Spec, fact, "radius", input.Say.AtMost(wood.Deep))] : [],
                    };
            }
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
