using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Model;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>A frame that is filled with a board thicker than it is deep, while the spec has a board of just that depth.</summary>
public static class FoamThicker
{
    private static readonly string Text = Examples.Wall(60, 30, "", "board fitting { thickness 3/4 in\n    size 48 in by 96 in }\nstack cold_stack {\n    sheet ply_6mm\n    core frame of strip_1x2 flat, filled with BOARD\n    sheet ply_4mm\n}\n").With("of wall_stack", "of cold_stack");

    public static readonly FindingInfo Info = new("WN4140", "foam-thicker-than-frame", Level.Note, "A frame is filled with a thicker board than it needs",
        "Blocks are ripped down to the frame's depth, and what comes off is lost. Where the spec has a board of just that depth, the other one is most often a slip of the name.",
        Text.With("BOARD", "foam_board"), Text.With("BOARD", "fitting"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        var boards = input.Structure.Materials.OfType<SheetMaterial>().Where(b => b.Kind == "board").OrderBy(b => b.Name, StringComparer.Ordinal).ToList();
        foreach (var stack in input.Structure.Panels.SelectMany(p => p.Zones.Select(z => z.Stack).Prepend(p.Stack)).DistinctBy(s => s.Name))
            foreach (var layer in stack.Layers)
            {
                if (layer is not { Kind: LayerKind.Frame, Fill: SheetMaterial fill } || fill.Thickness < layer.Thickness + 1) continue;
                if (boards.Find(b => Math.Abs(b.Thickness - layer.Thickness) < 0.1) is not { } fitting) continue;
                yield return new Finding(Info, $"{fill.Name} is {input.Say.Length(fill.Thickness)} thick and the frame of {stack.Name} {input.Say.Length(layer.Thickness)} deep: {input.Say.Length(fill.Thickness - layer.Thickness)} is ripped off every block.", layer.Fact.Span)
                {
                    Subject = stack.Name,
                    Hint = $"{fitting.Name} is as thick as the frame is deep.",
                    Fixes = [Fixing.Write(input.Spec, layer.Fact, "fill", fitting.Name)],
                };
            }
    }
}
