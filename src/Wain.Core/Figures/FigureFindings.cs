using Wain.Core.Findings;

namespace Wain.Core.Figures;

/// <summary>What can be wrong with a figure that a spec asks for by name.</summary>
public static class FigureFindings
{
    private static string Deck(string skins, string asked) => $$"""
        sheet ply {
            thickness 6 mm
            size 48 in by 96 in
            density 600 kg/m3
        }
        sheet bare {
            thickness 6 mm
            size 48 in by 96 in
        }
        stack skin {
        {{skins}}}
        panel deck of skin { through (0 in, 20 in, 0 in) along (0 in, -20 in, 0 in) up (40 in, 20 in, 0 in) }
        require {{asked}}

        """;

    public static readonly FindingInfo Missing = new("WN5010", "figure-missing", Level.Error, "A figure that the spec asks for can't be had",
        "A requirement or a size depends on a figure, and a fact that the figure needs is not stated. Nothing is put in its place.",
        Deck("    sheet bare\n", "deck.bare.weight < 10 lb"), Deck("    sheet ply\n", "deck.ply.weight < 10 lb"));

    public static readonly FindingInfo Incomplete = new("WN5011", "figure-not-whole", Level.Warning, "A sum that the spec asks for lacks a part",
        "The sum is too small by what is missing, so a limit that it seems to keep may be passed.",
        Deck("    sheet ply\n    sheet bare\n", "total.weight < 50 lb"), Deck("    sheet ply\n    sheet ply\n", "total.weight < 50 lb"));
}
