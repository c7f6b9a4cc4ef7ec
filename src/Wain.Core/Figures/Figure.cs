using System.Collections.Immutable;
using Wain.Core.Text;
using Wain.Core.Units;

namespace Wain.Core.Figures;

/// <summary>A number that a person may rely on, with all that is needed to check it.</summary>
/// <param name="Name">Thing first, then what of it: <c>rear_wall.area</c>; sums over the whole camper begin with <c>total.</c></param>
/// <param name="From">The line of the spec that states it or gives rise to it; null for sums over many lines.</param>
/// <param name="Formula">Where it has inputs, an expression of the language over their names or a sentence that says how they combine.</param>
/// <param name="Inputs">The names of the figures that it comes from, in the order of the formula.</param>
/// <param name="Source">Where a stated figure was found, as the spec says it.</param>
/// <param name="Low">The low value, if the figure has a spread.</param>
/// <param name="High">The high value, if the figure has a spread.</param>
public sealed record Figure(string Name, Quantity Value, Span? From, string Formula, ImmutableArray<string> Inputs, string? Source = null, Quantity? Low = null, Quantity? High = null)
{
    /// <summary>Names of the figures that belong into this sum and are missing: it is then too small, and says so wherever it shows.</summary>
    public ImmutableArray<string> Lacks { get; init; } = [];

    public bool IsComplete => Lacks.IsEmpty;

    /// <summary>What it lacks in the words of a table; model.json names all.</summary>
    public string LacksInShort => InShort(Lacks);

    /// <summary>Up to four names, or the first three and how many more.</summary>
    public static string InShort(ImmutableArray<string> names) => names.Length <= 4 ? string.Join(", ", names) : $"{string.Join(", ", names.Take(3))} and {names.Length - 3} more";
}

/// <summary>A figure that has a name and could not be had.</summary>
/// <param name="Reason">What is lacking, as part of a sentence: "ply_6mm states no density".</param>
/// <param name="From">The line where the lacking fact belongs.</param>
public sealed record MissingFigure(string Name, string Reason, Span? From);

/// <summary>How a figure came about: itself, and the same for each of its inputs.</summary>
/// <param name="Figure">Null where the figure is missing.</param>
/// <param name="Missing">Null where the figure is there.</param>
public sealed record TraceNode(string Name, Figure? Figure, MissingFigure? Missing, ImmutableArray<TraceNode> Inputs);
