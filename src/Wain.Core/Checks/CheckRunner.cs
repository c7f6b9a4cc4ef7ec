using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Clearance;
using Wain.Core.CutLists;
using Wain.Core.Findings;
using Wain.Core.Framing;
using Wain.Core.Geometry;
using Wain.Core.Pieces;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>What a check may read. A check changes nothing.</summary>
public sealed record CheckInput(Spec Spec, Structure Structure, Frames Frames, PieceList Pieces, ClearanceResult Clearance)
{
    public required ImmutableArray<CutList> CutLists { get; init; }

    /// <summary>Figures in the units that the spec shows results in.</summary>
    public Say Say => Spec.Say;

    /// <summary>What of the kept cutting plan holds.</summary>
    public required PlanReading Cutting { get; init; }

    /// <summary>Where a material is named in the text.</summary>
    public Span PlaceOf(string material) => Structure.Materials.First(m => m.Name == material).Fact.NameSpan;
}

/// <summary>The list of checks, in the order of the reference page. One file each.</summary>
public static class CheckRunner
{
    private static readonly ImmutableArray<Func<CheckInput, IEnumerable<Finding>>> All =
    [
        TaperCloses.Check,
        TapeFraction.Check,
        OutsideLooks.Check,
        JointMeets.Check,
        MitreIsCut.Check,
        JointHeld.Check,
        FrameFits.Check,
        NarrowBays.Check,
        StudsFit.Check,
        MembersOnPanel.Check,
        OpeningInsideFrame.Check,
        OpeningMembersRoom.Check,
        OpeningOnPanel.Check,
        OpeningsApart.Check,
        RecessesApart.Check,
        OpeningAcrossZone.Check,
        ZonesFit.Check,
        UnitWallRange.Check,
        UnitCutOut.Check,
        UnitSeat.Check,
        UnitHands.Check,
        TrimProud.Check,
        RecessLeaves.Check,
        OpeningCutsMember.Check,
        StackMakeable.Check,
        ClothDry.Check,
        EdgeRadius.Check,
        StepsOnPanel.Check,
        LipOfLayer.Check,
        ScrewLength.Check,
        ScrewSide.Check,
        ScrewSpacing.Check,
        ScrewsAtCorners.Check,
        ScrewsMeetPockets.Check,
        PocketHead.Check,
        PocketBreaksOut.Check,
        PocketsOfBothEnds.Check,
        BevelLeavesMember.Check,
        SawTilt.Check,
        HeaderFits.Check,
        LapDepths.Check,
        LapWidth.Check,
        LapsClose.Check,
        StepsOutOfSquare.Check,
        PiecesAdd.Check,
        SpliceOnPanel.Check,
        SpliceIdle.Check,
        PanelAgainstStock.Check,
        PieceLengths.Check,
        SplicePlaces.Check,
        StockSizes.Check,
        CutDesign.Check,
        FoamThickness.Check,
        FoamThicker.Check,
        PanelsClash.Check,
        NearlyMeet.Check,
        CornerOpen.Check,
        TouchesNothing.Check,
        MeetUnjoined.Check,
        MirrorForgotten.Check,
        LiftClears.Check,
        LiftWalls.Check,
        LiftRoom.Check,
        LiftPointsOff.Check,
        StrutsAndStraps.Check,
        RoofSheds.Check,
        FitsCarrier.Check,
        RearWindow.Check,
        SubframeFits.Check,
        ItemsFit.Check,
        LoadsAboard.Check,
        PartFitsStock.Check,
        UnlikelySizes.Check,
        UnlikelyValues.Check,
        KerfSize.Check,
        OwnedSizes.Check,
        FaultPlaces.Check,
        StockSuffices.Check,
        PlanIsStale.Check,
        PlanIsBroken.Check,
        PlanLacksParts.Check,
        PlanCouldCostLess.Check,
        PlanWithoutPrices.Check,
        PlanLeavesOwned.Check,
    ];

    public static ImmutableArray<Finding> Run(CheckInput input) => [.. All.SelectMany(check => check(input))];
}
