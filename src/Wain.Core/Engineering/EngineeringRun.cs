using System.Collections.Immutable;
using Wain.Core.Clearance;
using Wain.Core.Drawing;
using Wain.Core.Figures;
using Wain.Core.Findings;
using Wain.Core.Framing;
using Wain.Core.Geometry;
using Wain.Core.Pieces;
using Wain.Core.Reporting;
using Wain.Core.Takeoff;

namespace Wain.Core.Engineering;

/// <summary>What engineering reads: the placed design with its frames, pieces and solids, what it uses and weighs, and the figures so far.</summary>
public sealed record EngineeringInput(Structure Structure, Frames Frames, PieceList Pieces, ClearanceResult Clearance, TakeoffResult Takeoff, FigureBook Figures);

/// <summary>A picture with the name of the file that it belongs in.</summary>
/// <param name="Name">Lower-case letters, digits and underscores.</param>
public sealed record NamedPicture(string Name, Picture Picture);

/// <summary>All that engineering gives.</summary>
/// <param name="Figures">The book of the input with the figures of this pass.</param>
/// <param name="Cautions">What a person must read before relying on any of it.</param>
public sealed record EngineeringResult(
    MassModel Masses,
    BalanceResult? Balance,
    ImmutableArray<LiftResult> Lifts,
    ImmutableArray<StrengthRow> Strength,
    WarmthResult Warmth,
    ImmutableArray<MixRow> Mixes,
    WorkPlan Work,
    FigureBook Figures,
    ImmutableArray<Finding> Findings,
    ImmutableArray<string> Cautions)
{
    public required EngineeringInput Input { get; init; }

    /// <summary>Tables without a format, made when they are asked for: a check has no use for them.</summary>
    public ImmutableArray<Table> Tables => EngineeringTables.Of(this);

    /// <summary>Plots, made when they are asked for.</summary>
    public ImmutableArray<NamedPicture> Pictures => EngineeringPictures.Of(this);
}

/// <summary>Weight, balance, lift, strength, warmth, mixes and order of work from one placed design.</summary>
public static class EngineeringRun
{
    /// <summary>Never throws on user text; what a figure lacks is told, and that figure alone is missing.</summary>
    public static EngineeringResult Run(EngineeringInput input)
    {
        var ledger = new Ledger(input);
        ImpossibleValues.Tell(ledger);
        var masses = MassModel.Of(ledger);
        var balance = Balance.Of(ledger, masses);
        var lifts = Lifting.Of(ledger, masses);
        var strength = Strength.Of(ledger);
        var warmth = WarmRoom.Of(ledger);
        var mixes = Mixes.Of(ledger);
        var work = WorkOrder.Of(ledger, masses);
        return new EngineeringResult(masses, balance, lifts, strength, warmth, mixes, work,
            input.Figures.With(ledger.Figures, ledger.MissingFigures), ledger.FindingsWithLacks(), Cautions.Of(balance, lifts, strength, mixes)) { Input = input };
    }
}
