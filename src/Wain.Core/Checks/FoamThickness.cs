using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Model;
using Wain.Core.Pieces;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>Foam board must be at least as thick as the frame that it fills, or the layer that it makes; it is ripped down, never up.</summary>
public static class FoamThickness
{
    private static readonly string Text = "board thin_board { thickness BOARD\n    size 48 in by 96 in }\nstack cold_stack {\n    sheet ply_6mm\n    core frame of strip_1x2 on edge, filled with thin_board\n    sheet ply_4mm\n}\n";

    public static readonly FindingInfo Info = new("WN4208", "foam-thinner-than-frame", Level.Warning, "Foam board is thinner than what it fills",
        "Blocks are ripped to the frame's depth from a thicker board. A thinner one leaves an air space behind the skin, where it is not glued to the foam and moisture gathers, or has to be laid in layers.",
        Examples.Wall(60, 30, "", Text.With("BOARD", "1 in")).With("of wall_stack", "of cold_stack"), Examples.Wall(60, 30, "", Text.With("BOARD", "1 1/2 in")).With("of wall_stack", "of cold_stack"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        foreach (var group in input.Pieces.Problems.Where(p => p.Kind == PieceProblemKind.FoamThin).GroupBy(p => p.Layer))
        {
            var p = group.First();
            bool filled = p.Layer.Fill is not null;
            var board = p.Layer.Fill ?? p.Layer.Material!;
            yield return new Finding(Info, $"{board.Name} is {input.Say.Length(p.Has)} thick and the {(filled ? "frame" : "layer of foam")} {input.Say.Length(p.Needs)} {(filled ? "deep" : "thick")} ({string.Join(", ", group.Select(g => g.Panel.Name).Distinct())}); each {(filled ? "block" : "piece")} is counted as {p.Advice}.", p.Layer.Fact.Span)
            {
                Subject = p.Layer.Fact.Parent?.Name ?? p.Panel.Name,
                Hint = $"Use a board at least {input.Say.AtLeast(p.Needs)} thick.",
            };
        }
    }
}
