using System.Collections.Immutable;
using Wain.Core.Takeoff;

namespace Wain.Core.CutLists;

/// <summary>A part in its place: its bounding rectangle from the lower left corner of the sheet, or from the left end of the stick as X.</summary>
/// <param name="Outline">Where it lies on the sheet; empty for a rectangle.</param>
/// <param name="Turned">True if it lies across the grain of the sheet, or end for end on a stick.</param>
public sealed record PlacedPart(string Mark, long X, long Y, long Width, long Length, long Thickness, bool Turned, ImmutableArray<CutPoint> Outline);

/// <summary>A cut in its order.</summary>
/// <param name="Upright">True for a cut along the length at X, false for a cut across at Y. On a stick every cut is upright.</param>
/// <param name="At">Hundredths of a millimetre from the left or lower edge, from the left end of a stick.</param>
/// <param name="Level">1 for cuts of the whole sheet, 2 for cuts of what these give.</param>
/// <param name="Run">How far a cut leans along a stick.</param>
public sealed record PlannedCut(bool Upright, long At, long From, long To, int Level, long Run);

/// <summary>A remainder that is worth keeping.</summary>
public sealed record KeptOffcut(long X, long Y, long Width, long Length);

/// <summary>A sheet, board, length or stick as it is to be cut.</summary>
/// <param name="Times">How many are cut so.</param>
/// <param name="UnitCost">Of one, in the unit of cost of its list; 0 if it is owned.</param>
/// <param name="Note">Such as what it is ripped to.</param>
public sealed record CutPlanSheet(
    string Stock, long Width, long Length, bool Owned, int Times, long UnitCost, ImmutableArray<PlacedPart> Parts, ImmutableArray<PlannedCut> Cuts, ImmutableArray<KeptOffcut> Offcuts, ImmutableArray<CutFault> Faults, string Note);

/// <summary>The plan of one material.</summary>
/// <param name="Cost">In the unit of cost of its list.</param>
/// <param name="Bound">No plan costs less: proven, and confirmed in exact arithmetic.</param>
/// <param name="Bought">How many of each size are bought.</param>
/// <param name="Problems">What could not be planned, in words.</param>
public sealed record MaterialPlan(string Material, string Called, CutKind Kind, string CostUnit, long Cost, long Bound, ImmutableArray<CutPlanSheet> Sheets, ImmutableArray<BoughtStock> Bought, ImmutableArray<string> Problems)
{
    public bool IsProven => Problems.IsEmpty && Cost == Bound;

    /// <summary>By what share of the bound a better plan could be cheaper, at most.</summary>
    public double Gap => Cost <= Bound ? 0 : Bound > 0 ? (double)(Cost - Bound) / Bound : 1;
}

/// <summary>How many of a size are bought.</summary>
public sealed record BoughtStock(long Width, long Length, int Count);

/// <summary>The plan of all materials.</summary>
/// <param name="Key">A hash of the cut lists that it was made for.</param>
/// <param name="Steps">Budget of search for each material.</param>
/// <param name="Interrupted">True if the search was stopped before its budget was spent.</param>
public sealed record CuttingPlan(string Key, long Steps, bool Interrupted, ImmutableArray<MaterialPlan> Materials)
{
    /// <summary>What to buy. A material that is not wholly planned, or that the design uses for more than its parts, is left to the estimate.</summary>
    public ImmutableArray<CuttingCount> Counts(ImmutableArray<CutList> lists) =>
        [.. Materials.Where(m => m.Kind != CutKind.Roll && m.Problems.IsEmpty && lists.Any(l => l.Material == m.Material && !l.UsedElsewhere))
            .SelectMany(m => m.Bought.Select(b => new CuttingCount(m.Material, b.Width / CutList.UnitsPerMillimetre, b.Length / CutList.UnitsPerMillimetre, b.Count)))];
}
