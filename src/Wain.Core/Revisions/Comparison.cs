using System.Collections.Immutable;
using Wain.Core.Findings;
using Wain.Core.Geometry;

namespace Wain.Core.Revisions;

public enum ChangeKind
{
    New,
    Gone,
    Recut,
    Moved,
    Changed,
    Renamed,
}

/// <summary>A line of a spec as it stands in one revision.</summary>
/// <param name="Text">Without its indent.</param>
public sealed record SpecLine(string Path, int Line, string Text);

/// <summary>A place of the spec that says something else than before.</summary>
/// <param name="Subject">Where it stands in the model, such as <c>left_wall.vent.size</c>.</param>
/// <param name="Old">Null if the line is new.</param>
/// <param name="New">Null if the line is gone.</param>
public sealed record Cause(string Subject, SpecLine? Old, SpecLine? New);

/// <summary>One measure of a thing, before and after, as shown.</summary>
public sealed record Detail(string What, string Old, string New, string Difference = "");

/// <summary>What became of a thing.</summary>
/// <param name="Thing">"panel", "stack", "opening", "joint" or "part".</param>
/// <param name="Name">As it is called now; for what is gone, as it was called.</param>
public sealed record Change(string Thing, string Name, ChangeKind Kind)
{
    /// <summary>What it was called, if that differs.</summary>
    public string? OldName { get; init; }

    /// <summary>The panel that it belongs to; empty for stacks and joints.</summary>
    public string Panel { get; init; } = "";

    /// <summary>What is built of it already, such as "cut on 2026-10-17"; null for nothing.</summary>
    public string? Built { get; init; }

    /// <summary>Mirrored things that changed alike and are not told again.</summary>
    public ImmutableArray<string> Mirrors { get; init; } = [];

    public ImmutableArray<Detail> Details { get; init; } = [];

    public ImmutableArray<Cause> Causes { get; init; } = [];

    /// <summary>The panel as it was and as it is, for a drawing; null for other things.</summary>
    public PlacedPanel? Before { get; init; }

    public PlacedPanel? After { get; init; }
}

/// <summary>A figure that differs at the resolution it is shown in. A side is empty where the figure is not there.</summary>
public sealed record FigureChange(string Name, string Old, string New, string Difference)
{
    /// <summary>The values in the unit shown; NaN where there is none.</summary>
    public double OldValue { get; init; } = double.NaN;

    public double NewValue { get; init; } = double.NaN;

    public string Unit { get; init; } = "";

    /// <summary>"649.3 lb to 699.7 lb"; empty where a figure has no spread.</summary>
    public string OldSpread { get; init; } = "";

    public string NewSpread { get; init; } = "";

    /// <summary>What it is measured between, such as "between the faces of shell_left and left_wall"; empty for figures of the whole.</summary>
    public string OldBetween { get; init; } = "";

    public string NewBetween { get; init; } = "";

    public ImmutableArray<Cause> Causes { get; init; } = [];
}

/// <summary>A line of the buying list that differs.</summary>
/// <param name="OldPacks">Null if it was not bought or the number is not known.</param>
public sealed record BuyChange(string Mark, int? OldPacks, int? NewPacks, double? OldCost, double? NewCost, string Currency)
{
    public string Pack { get; init; } = "";

    public ImmutableArray<Cause> Causes { get; init; } = [];
}

/// <summary>A finding that appeared (no old), went (no new), or speaks of other figures now (both).</summary>
public sealed record FindingChange(Finding? Old, Finding? New)
{
    /// <summary>Mirrored things of which the same is said.</summary>
    public ImmutableArray<string> Mirrors { get; init; } = [];

    public ImmutableArray<Cause> Causes { get; init; } = [];
}

/// <summary>What differs in meaning between two revisions of a spec.</summary>
/// <param name="Old">How the old side is called.</param>
/// <param name="Limits">Why parts could not be compared, one sentence each; empty if both sides compile whole.</param>
public sealed record Comparison(string Old, string New, ImmutableArray<string> Limits)
{
    /// <summary>Panels, stacks, openings, joints and parts; what is built already first.</summary>
    public ImmutableArray<Change> Changes { get; init; } = [];

    public ImmutableArray<BuyChange> Buying { get; init; } = [];

    /// <summary>Weight, cost, balance, clearances.</summary>
    public ImmutableArray<FigureChange> Figures { get; init; } = [];

    /// <summary>All other figures that differ.</summary>
    public ImmutableArray<FigureChange> OtherFigures { get; init; } = [];

    public ImmutableArray<FindingChange> Findings { get; init; } = [];

    /// <summary>Every place of the spec that says something else, whether or not it changes a part.</summary>
    public ImmutableArray<Cause> Lines { get; init; } = [];

    /// <summary>The folder that each side's paths begin with, which goes without saying; with its last slash or colon.</summary>
    public string OldFolder { get; init; } = "";

    public string NewFolder { get; init; } = "";

    public int UntouchedPanels { get; init; }

    public int UntouchedParts { get; init; }

    public bool IsSame => Changes.IsEmpty && Buying.IsEmpty && Figures.IsEmpty && OtherFigures.IsEmpty && Findings.IsEmpty && Lines.IsEmpty;

    /// <summary>True if nothing differs as far as could be seen, and not all could be seen.</summary>
    public bool IsUndecided => IsSame && !Limits.IsEmpty;
}
