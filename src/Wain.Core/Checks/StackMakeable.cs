using Wain.Core.Findings;
using Wain.Core.Model;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>The layers of a stack must be such that someone can make it.</summary>
public static class StackMakeable
{
    private const string Text = """
        cloth glass { weight 6 oz/yd2 }
        resin epoxy { density 1.1 g/cm3 }
        sheet ply { thickness 6 mm
            size 48 in by 96 in }
        stick strip { section 3/4 in by 1 1/2 in }
        stack wall {
            sheet ply
            core frame of strip flat
        SKIN
            cloth glass wet with epoxy
        }
        """;

    public static readonly FindingInfo Info = new("WN4111", "stack-not-makeable", Level.Error, "A stack can't be made in this order",
        "Cloth and coatings lie on something whole: on a skin or a foam board, never on the open bays of a frame. A frame has a skin on each side, or what fills it falls out. Layers are listed from the outside face to the inside face.",
        Text.With("SKIN", ""), Text.With("SKIN", "    sheet ply"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        foreach (var stack in input.Structure.Stacks)
        {
            var layers = stack.Layers;
            bool Solid(int k) => layers[k].Kind is not (LayerKind.Cloth or LayerKind.Coating);
            Finding Tell(int k, string message, string hint, Level level = Level.Error) => new(Info, message, layers[k].Fact.Span) { Level = level, Subject = stack.Name, Hint = hint };
            var solids = Enumerable.Range(0, layers.Length).Where(Solid).ToList();
            if (solids.Count == 0)
            {
                yield return new Finding(Info, $"Stack {stack.Name} has no layer with a thickness.", stack.Fact.NameSpan) { Subject = stack.Name, Hint = "A stack needs a skin, a frame or a core." };
                continue;
            }
            for (int k = 0; k < layers.Length; k++)
            {
                var layer = layers[k];
                if (layer.Kind is LayerKind.Cloth or LayerKind.Coating)
                {
                    bool before = k < solids[0], after = k > solids[^1];
                    if (layer.Kind == LayerKind.Coating && !before && !after)
                        yield return Tell(k, $"{layer.Material?.Name} lies inside of stack {stack.Name}, where no brush gets to once it is closed.", "Coatings belong first or last.");
                    // What it lies on: the next layer with a thickness toward the middle; between two, either will do.
                    int next = solids.FirstOrDefault(s => s > k, -1), last = solids.LastOrDefault(s => s < k, -1);
                    var ground = (before ? [next] : after ? new[] { last } : [last, next]).Select(s => layers[s]).ToList();
                    if (ground.All(g => g.Kind is LayerKind.Frame or LayerKind.Air))
                        yield return Tell(k, $"{layer.Material?.Name} of stack {stack.Name} lies on {(ground[0].Kind == LayerKind.Air ? "air" : "the open frame")}, with no skin under it.", "Put a sheet between, or move it outside of the skin.");
                }
                if (layer.Kind != LayerKind.Frame) continue;
                int at = solids.IndexOf(k);
                bool Skin(int s) => s >= 0 && s < solids.Count && layers[solids[s]].Kind is LayerKind.Sheet or LayerKind.Frame or LayerKind.Foam or LayerKind.Membrane;
                bool poured = layer.Fill?.Kind == "foam";
                if (!Skin(at - 1) || !Skin(at + 1))
                    yield return Tell(k, $"The frame of stack {stack.Name} has no skin on its {(Skin(at - 1) ? "inside" : "outside")}{(poured ? ", so poured foam runs out" : "")}.", "Add a sheet on that side.", poured ? Level.Error : Level.Warning);
            }
            if (layers[solids[0]].Kind == LayerKind.Air || layers[solids[^1]].Kind == LayerKind.Air)
                yield return Tell(layers[solids[0]].Kind == LayerKind.Air ? solids[0] : solids[^1], $"Stack {stack.Name} ends in air.", "An air space lies between two layers.");
        }
    }
}
