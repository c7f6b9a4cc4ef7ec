using Wain.Core.Findings;

namespace Wain.Core.Figures;

/// <summary>What can be wrong with a figure that a spec asks for by name.</summary>
public static class FigureFindings
{
    public static readonly FindingInfo Missing = new("WN5010", "figure-missing", Level.Error, "A figure that the spec asks for can't be had",
        "A requirement or a size depends on a figure, and a fact that the figure needs is not stated. Nothing is put in its place.");

    public static readonly FindingInfo Incomplete = new("WN5011", "figure-not-whole", Level.Warning, "A sum that the spec asks for lacks a part",
        "The sum is too small by what is missing, so a limit that it seems to keep may be passed.");
}
