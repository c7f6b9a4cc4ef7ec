using System.Collections.Immutable;
using Wain.Core.Text;

namespace Wain.Core.Findings;

public enum Level
{
    Note,
    Warning,
    Error,
}

/// <summary>What a code means. A code is given once and never changes its meaning; a code that goes out of use is not given again.</summary>
/// <param name="Code">"WN" and four digits: 0 text and syntax, 1 names, 2 units and values, 3 placing, 4 checks, 5 takeoff, 6 engineering, 7 cutting, 8 files.</param>
/// <param name="Name">The same in words, in kebab case.</param>
/// <param name="Level">Its level; a finding may lower it, for a case that is only suspected, or raise it, for a case past a stated limit.</param>
/// <param name="Title">One line for lists.</param>
/// <param name="Why">Why it matters to the person who builds, in a few sentences.</param>
/// <param name="Bad">A spec that raises it, run as a test.</param>
/// <param name="Good">The same spec mended, run as a test.</param>
/// <param name="Kept">The cutting plan that is kept beside both examples; null for none.</param>
public sealed record FindingInfo(string Code, string Name, Level Level, string Title, string Why, string Bad, string Good, ExamplePlan? Kept = null);

/// <summary>A cutting plan as <c>wain cut</c> makes it, kept beside an example.</summary>
/// <param name="Steps">How long the search was for the bad example, in the steps that <c>wain cut</c> takes.</param>
/// <param name="OfMended">True if the plan beside the bad example is that of the good one.</param>
/// <param name="Was">What stood in the plan file before somebody edited it beside the bad example; empty if nobody did.</param>
/// <param name="Is">What stands there instead.</param>
public sealed record ExamplePlan(int Steps = 20_000, bool OfMended = false, string Was = "", string Is = "")
{
    /// <summary>What is kept beside the bad example, as part of a sentence that begins "Told for this".</summary>
    public string Beside => $", with the cutting plan kept that wain cut made of {(OfMended ? "the mended form" : "it")}{(Was.Length > 0 ? $", in whose file {Was} was written over with {Is}" : "")}";
}

/// <summary>A change of the spec text that would satisfy the finding.</summary>
/// <param name="Place">What to replace; of length zero to insert.</param>
/// <param name="Text">What to write there.</param>
/// <param name="Label">Said to the person, for example "write 14 1/2 in".</param>
public sealed record Fix(Span Place, string Text, string Label);

/// <summary>A second place that a finding speaks of.</summary>
public sealed record Related(Span Place, string Message);

/// <summary>One thing that a person should know about their spec: what is wrong, by how much, where, and what would satisfy it.</summary>
public sealed record Finding(FindingInfo Info, string Message, Span Place)
{
    public Level Level { get; init; } = Info.Level;

    /// <summary>The named thing it is about, such as <c>left_wall.vent</c>; what <c>accept</c> matches and what two revisions are compared by.</summary>
    public string Subject { get; init; } = "";

    /// <summary>What to do about it, one sentence.</summary>
    public string? Hint { get; init; }

    public ImmutableArray<Related> Related { get; init; } = [];

    public ImmutableArray<Fix> Fixes { get; init; } = [];

    /// <summary>The reason that the spec gives for accepting it; null if it is not accepted.</summary>
    public string? AcceptedBecause { get; init; }

    public string Code => Info.Code;
}

/// <summary>What a pass hands on: its value, as far as it got, and what it found. Passes never throw on user text.</summary>
public sealed record Stage<T>(T Value, ImmutableArray<Finding> Findings);

public static class FindingSequence
{
    /// <summary>True if any finding is an error that the spec has not accepted.</summary>
    public static bool HasErrors(this IEnumerable<Finding> findings) => findings.Any(f => f.Level == Level.Error && f.AcceptedBecause is null);

    /// <summary>Worst first, then by code and subject: an order that says nothing of where the text stands, for outputs that a move of lines must not change.</summary>
    public static ImmutableArray<Finding> InOwnOrder(this IEnumerable<Finding> findings) =>
        [.. findings.OrderByDescending(f => f.Level).ThenBy(f => f.Code, StringComparer.Ordinal).ThenBy(f => f.Subject, StringComparer.Ordinal).ThenBy(f => f.Message, StringComparer.Ordinal)];

    /// <summary>In the order of the text: path, place, code. The order that a person is told them in.</summary>
    public static ImmutableArray<Finding> InTextOrder(this IEnumerable<Finding> findings) =>
        findings.OrderBy(f => f.Place.Source.Path, StringComparer.Ordinal).ThenBy(f => f.Place.Start).ThenBy(f => f.Code, StringComparer.Ordinal)
            .ThenBy(f => f.Subject, StringComparer.Ordinal).ThenBy(f => f.Message, StringComparer.Ordinal).ToImmutableArray();
}
