using System.Collections.Immutable;
using Wain.Core.Methods;
using Wain.Core.Model;
using Wain.Core.Text;
using Wain.Core.Units;

namespace Wain.Core.Takeoff;

/// <summary>What a line of the takeoff is for.</summary>
public enum LineKind
{
    Skin,
    FoamBoard,
    Member,
    Fill,
    Cloth,
    Resin,
    Coating,
    Membrane,
    Glue,
    Screws,
    Fillet,
    Filler,
    Tape,
    Sealant,
    Seal,
    Trim,
    Gusset,
    Hardware,
    Unit,
    Item,
}

/// <summary>A figure of a line beside its own quantity, such as the exact volume of a skin.</summary>
public sealed record Measured(string Name, Quantity Value, string Formula, ImmutableArray<string> Inputs);

/// <summary>What a line weighs, in kg, by the causes of its spread.</summary>
/// <param name="Parts">The likely values add up to the likely weight; empty if it is missing.</param>
/// <param name="Lacks">The material's property that is not stated; null if the weight is known.</param>
public sealed record LineWeight(ImmutableArray<CausedSpread> Parts, string Formula, ImmutableArray<string> Inputs, string? Lacks)
{
    public bool IsKnown => Lacks is null;

    /// <summary>kg.</summary>
    public double Likely => Parts.Sum(p => p.Value.Likely);

    public static LineWeight Missing(string property) => new([], "", [], property);
}

/// <summary>One thing that the design uses, with how its quantity came about.</summary>
/// <param name="Key">Unique; the names of its figures begin with it: <c>rear_wall.ply_6mm</c>.</param>
/// <param name="Subject">The panel, zone, opening, joint, lift or load that it belongs to.</param>
/// <param name="Panels">The panel, or both panels of a joint; empty for what belongs to none.</param>
/// <param name="Measure">What the net quantity is called: "area", "length", "volume", "mass" or "count".</param>
/// <param name="Net">What stays in the camper.</param>
/// <param name="Waste">What is bought on top of it, as a share of the net quantity.</param>
public sealed record TakeoffLine(
    string Key, string Subject, ImmutableArray<string> Panels, LineKind Kind, Material Material, string Measure, Quantity Net, double Waste, string Formula, ImmutableArray<string> Inputs, Span From)
{
    /// <summary>What must be bought.</summary>
    public Quantity Gross => Waste == 0 ? Net : new Quantity(Net.Value * (1 + Waste), Net.Dimension);

    public ImmutableArray<Measured> Also { get; init; } = [];

    /// <summary>Sizes of its single pieces in the measure of the net quantity (base units), where it is cut from sheets or sticks.</summary>
    public ImmutableArray<double> Pieces { get; init; } = [];

    public required LineWeight Weight { get; init; }

    /// <summary>True for what makes the bare panel: not its windows, nor what its joints take.</summary>
    public bool IsOfBarePanel => Panels.Length == 1 && Kind is not (LineKind.Unit or LineKind.Hardware or LineKind.Item);

    public string Name(string figure) => Key + "." + figure;
}

/// <summary>A quantity that has no line because a material does not state what it takes to compute it.</summary>
/// <param name="Key">The key that the line would have had.</param>
public sealed record MissingLine(string Key, string Subject, ImmutableArray<string> Panels, LineKind Kind, Material? Material, string Lacks, Span From);
