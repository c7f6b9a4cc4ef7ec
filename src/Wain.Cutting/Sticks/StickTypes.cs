namespace Wain.Cutting;

/// <summary>A stretch of a stick that no piece may touch: a knot, a split, a dent.</summary>
/// <param name="From">Start, measured from the stick's left end, in the caller's unit.</param>
/// <param name="To">End, after <paramref name="From"/>.</param>
public readonly record struct FaultyStretch(long From, long To);

/// <summary>A stick, bar, tube or extrusion that can be bought or is there.</summary>
/// <param name="Length">Length in whole units of the caller's choice, the same for all of a problem; up to four million after common factors.</param>
/// <param name="Cost">Price of one, in whole units of money; 0 for what is owned.</param>
/// <param name="Count">How many there are; null for as many as wanted.</param>
public sealed record StockStick(string Id, long Length, long Cost, int? Count = null, bool IsOffcut = false, IReadOnlyList<FaultyStretch>? Faults = null);

/// <summary>A piece to cut from a stick.</summary>
/// <param name="Length">From long point to long point.</param>
/// <param name="LeftRun">For an angled end, how far the short point lies behind the long point, measured along the stick; 0 for a square end.</param>
/// <param name="RightRun">The same at the right end.</param>
/// <param name="RunsOpposed">True if the long points are on the same face (a mitred frame piece), false if on opposite faces (a leaning brace).</param>
/// <param name="Depth">Its depth in the plane of its angled ends, needed if there are any: an oblique cut is wider along the stick, and only ends of one lean share a cut.</param>
/// <param name="MayRoll">True if the piece may be rolled half a turn about its length or turned end for end, as plain stock allows.</param>
public sealed record StickPiece(string Id, long Length, int Count = 1, long LeftRun = 0, long RightRun = 0, bool RunsOpposed = true, long Depth = 0, bool MayRoll = true);

/// <summary>Pieces to cut from sticks.</summary>
/// <param name="Kerf">Width of a square cut; none is needed at a stick's own ends.</param>
/// <param name="SmallestOffcut">Remainders shorter than this are waste.</param>
public sealed record StickProblem(IReadOnlyList<StockStick> Stock, IReadOnlyList<StickPiece> Pieces, long Kerf = 0, long SmallestOffcut = 0);

/// <summary>A piece in its place on a stick.</summary>
/// <param name="Piece">Index into the problem's pieces.</param>
/// <param name="From">Leftmost point of the piece, from the stick's left end.</param>
/// <param name="To">Rightmost point.</param>
/// <param name="TurnedEnd">True if the piece lies end for end, its right end to the left.</param>
/// <param name="Rolled">True if it is rolled half a turn about its length besides.</param>
public sealed record StickPlacement(int Piece, long From, long To, bool TurnedEnd, bool Rolled);

/// <summary>What is left of a stick.</summary>
public sealed record StickOffcut(long From, long To)
{
    public long Length => To - From;
}

/// <summary>A cut across a stick.</summary>
/// <param name="At">The long point of the end that it makes.</param>
/// <param name="Run">How far it leans over the stick's depth; 0 for square.</param>
/// <param name="MakesLeftEnd">True if it makes the left end of the piece right of it; false if it makes the right end of the piece left of it, and also the next piece's left end where two nest.</param>
public sealed record StickCut(long At, long Run, bool MakesLeftEnd);

/// <summary>A stick as it is to be cut.</summary>
/// <param name="Stock">Index into the problem's stock.</param>
/// <param name="Times">How many sticks are cut so.</param>
/// <param name="Pieces">From left to right.</param>
/// <param name="Cuts">In the order of cutting, from left to right.</param>
public sealed record CutStick(int Stock, int Times, IReadOnlyList<StickPlacement> Pieces, IReadOnlyList<StickCut> Cuts, IReadOnlyList<StickOffcut> Offcuts);

/// <summary>A plan for sticks with the proof of how good it is.</summary>
/// <param name="LowerBound">No plan for all pieces that fit costs less than this.</param>
/// <param name="Proven">True if the plan's cost is the lower bound, so no plan is cheaper.</param>
/// <param name="Certificate">From this <see cref="StickPlanner.CheckBound"/> re-derives the bound; null if there was nothing to plan.</param>
/// <param name="Issues">What could not be planned, and why; empty for a whole plan.</param>
public sealed record StickPlan(
    IReadOnlyList<CutStick> Sticks, long Cost, long LowerBound, bool Proven, StickCertificate? Certificate, IReadOnlyList<CuttingIssue> Issues, long StepsDone)
{
    public long StickCount => Sticks.Sum(s => (long)s.Times);
}
