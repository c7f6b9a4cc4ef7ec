using System.Collections.Immutable;
using System.Text.Json;
using System.Text.Json.Serialization;
using Wain.Core.Pieces;
using Wain.Core.Takeoff;

namespace Wain.Core.CutLists;

/// <summary>A part in its place: its bounding rectangle from the lower left corner of the sheet, or from the left end of the stick as X.</summary>
/// <param name="Outline">Where it lies on the sheet, or along and up the stick; empty for a rectangle.</param>
/// <param name="Turned">True if it lies across the grain of the sheet, or end for end on a stick.</param>
public sealed record PlacedPart(string Mark, long X, long Y, long Width, long Length, long Thickness, bool Turned, ImmutableArray<CutPoint> Outline);

/// <summary>A cut in its order. The kerf lies on the far side of its place, and at a trim of an edge on the side of the edge.</summary>
/// <param name="Upright">True for a cut along the length at X (a rip), false for one across at Y (a crosscut). On a stick every cut is upright.</param>
/// <param name="At">Hundredths of a millimetre from the edge where X or Y is 0, or from the left end of a stick.</param>
/// <param name="Level">0 for the trim of edges, 1 for cuts of the whole sheet, 2 for cuts of what these give; <see cref="Stopped"/> for one that a jigsaw or a router makes.</param>
/// <param name="Run">How far a cut leans along a stick.</param>
public sealed record PlannedCut(bool Upright, long At, long From, long To, int Level, long Run)
{
    /// <summary>The level of a cut that need not run from edge to edge of what lies on the bench.</summary>
    public const int Stopped = -1;
}

/// <summary>A remainder that is worth keeping.</summary>
public sealed record KeptOffcut(long X, long Y, long Width, long Length);

/// <summary>A sheet, layer of a board, length or stick as it is to be cut.</summary>
/// <param name="Thickness">What a board is ripped to for this layer; 0 where nothing is ripped.</param>
/// <param name="Times">How many are cut so.</param>
/// <param name="UnitCost">Of one, in the unit of cost of its list; 0 if it is owned.</param>
public sealed record CutPlanSheet(
    string Stock, long Width, long Length, long Thickness, bool Owned, int Times, long UnitCost, ImmutableArray<PlacedPart> Parts, ImmutableArray<PlannedCut> Cuts, ImmutableArray<KeptOffcut> Offcuts,
    ImmutableArray<CutFault> Faults);

/// <summary>Boards that are ripped alike.</summary>
/// <param name="Layers">Thicknesses in order from one face; a kerf lies between two.</param>
/// <param name="Left">Thickness of the whole board that the rip leaves; 0 for none.</param>
public sealed record RippedBoards(string Stock, long Width, long Length, int Times, ImmutableArray<long> Layers, long Left);

/// <summary>How many of a size are bought.</summary>
public sealed record BoughtStock(long Width, long Length, int Count);

/// <summary>The plan of one material.</summary>
/// <param name="Key">The mark of the cut list that it was made for.</param>
/// <param name="Steps">Budget of the search.</param>
/// <param name="Interrupted">True if the search was stopped before its budget was spent.</param>
/// <param name="CostStep">What all costs are multiples of, as in its list.</param>
/// <param name="Cost">In the unit of cost of its list.</param>
/// <param name="Bound">No plan costs less, what it keeps taken off.</param>
/// <param name="Bought">How many of each size are bought.</param>
/// <param name="Problems">What could not be planned, in words.</param>
/// <param name="Proof">What the bound is re-derived from, in exact arithmetic, whenever the plan is read; null where there was nothing to plan.</param>
/// <param name="Kept">What the kept offcuts are worth by the value that the spec states.</param>
public sealed record MaterialPlan(
    string Material, string Called, CutKind Kind, string Key, long Steps, bool Interrupted, string CostUnit, long CostStep, long Cost, long Bound,
    ImmutableArray<CutPlanSheet> Sheets, ImmutableArray<RippedBoards> Rips, ImmutableArray<BoughtStock> Bought, ImmutableArray<string> Problems, JsonElement? Proof,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingDefault)] long Kept = 0)
{
    /// <summary>The cost, what is kept taken off.</summary>
    [JsonIgnore]
    public long Net => Cost - Kept;

    public bool IsProven => Problems.IsEmpty && Net == Bound;

    /// <summary>The same plan at the prices of a list that stand to each other as those did that it was made for. A plan whose costs are no whole steps is left as it is.</summary>
    public MaterialPlan At(CutList list)
    {
        if ((CostStep, CostUnit) == (list.CostStep, list.CostUnit) || CostStep <= 0 || Cost % CostStep != 0 || Sheets.Any(s => s.UnitCost % CostStep != 0)) return this;
        try
        {
            return this with
            {
                CostUnit = list.CostUnit,
                CostStep = list.CostStep,
                Cost = checked(Cost / CostStep * list.CostStep),
                Bound = (long)((Int128)Bound * list.CostStep / CostStep),
                Sheets = [.. Sheets.Select(s => s with { UnitCost = checked(s.UnitCost / CostStep * list.CostStep) })],
            };
        }
        catch (OverflowException)
        {
            return this;
        }
    }

    /// <summary>By what share of the bound a better plan could be cheaper, at most.</summary>
    public double Gap => Net <= Bound ? 0 : Bound > 0 ? (double)(Net - Bound) / Bound : 1;
}

/// <summary>The plan of all materials that are cut, with the splices that were chosen for it.</summary>
public sealed record CuttingPlan(ImmutableArray<ChosenSplice> Splices, ImmutableArray<MaterialPlan> Materials)
{
    public MaterialPlan? Of(string material) => Materials.FirstOrDefault(m => m.Material == material);

    /// <summary>What to buy, at least. A material that is not wholly planned is left to the estimate.</summary>
    public ImmutableArray<CuttingCount> Counts(ImmutableArray<CutList> lists) =>
        [.. from m in Materials
            where m.Problems.IsEmpty
            from list in lists.Where(l => l.Material == m.Material)
            from b in m.Bought
            select new CuttingCount(m.Material, b.Width / CutList.UnitsPerMillimetre, b.Length / CutList.UnitsPerMillimetre, b.Count, list.UsedElsewhere)];
}
