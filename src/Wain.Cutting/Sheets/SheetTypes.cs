namespace Wain.Cutting;

/// <summary>What is cut off each edge of a sheet before it is used, its saw cut included.</summary>
public readonly record struct SheetTrim(long Left, long Right, long Bottom, long Top);

/// <summary>A sheet that can be bought, or an offcut that is there.</summary>
/// <param name="Width">Across, in whole units of the caller's choice, the same for all of a problem; up to 2^30.</param>
/// <param name="Height">Up, in the same unit; the grain of a sheet runs this way.</param>
/// <param name="Cost">Price of one, in whole units of money; 0 for what is owned.</param>
/// <param name="Count">How many there are; null for as many as wanted.</param>
public sealed record StockSheet(string Id, long Width, long Height, long Cost, int? Count = null, bool IsOffcut = false, SheetTrim Trim = default);

/// <summary>A corner of an outline, measured from the lower left corner of the piece's bounding rectangle.</summary>
public readonly record struct OutlinePoint(long X, long Y);

/// <summary>A piece to cut from a sheet.</summary>
/// <param name="Width">Width of the bounding rectangle.</param>
/// <param name="Height">Height of the bounding rectangle, along the grain.</param>
/// <param name="MayTurn">True if the piece may lie turned by a quarter.</param>
/// <param name="Outline">Corners in order for a piece that is no rectangle, else null. Two that taper are nested where they pair.</param>
public sealed record SheetPiece(string Id, long Width, long Height, int Count = 1, bool MayTurn = true, IReadOnlyList<OutlinePoint>? Outline = null);

/// <summary>Which remainders of a sheet are worth keeping.</summary>
/// <param name="ShortSide">Least length of the shorter side.</param>
/// <param name="LongSide">Least length of the longer side.</param>
/// <param name="ValuePerArea">What a kept offcut of a paid sheet is worth, in money for each unit of area; 0 for nothing. No offcut is worth more than its share of the sheet's price.</param>
public readonly record struct OffcutRule(long ShortSide, long LongSide, decimal ValuePerArea = 0)
{
    /// <summary>The rule as it holds for a stock: what is owned cost nothing, and no part of a sheet is worth more than the whole.</summary>
    /// <param name="kerf">Counted to the sheet, as it is to the pieces.</param>
    public OffcutRule For(StockSheet stock, long kerf)
    {
        var usable = (decimal)(stock.Width - stock.Trim.Left - stock.Trim.Right + kerf) * (stock.Height - stock.Trim.Bottom - stock.Trim.Top + kerf);
        return this with { ValuePerArea = stock.Cost <= 0 || usable <= 0 ? 0 : Math.Clamp(ValuePerArea, 0, stock.Cost / usable) };
    }

    /// <summary>What a remainder of a size is worth, in whole units of money; 0 if it is not worth keeping.</summary>
    public long Worth(long width, long height) => ValuePerArea > 0 && Keeps(width, height) ? (long)decimal.Floor(ValuePerArea * ((decimal)width * height)) : 0;

    /// <summary>Whether a remainder is worth keeping.</summary>
    public bool Keeps(long width, long height) => width > 0 && height > 0 && Math.Min(width, height) >= ShortSide && Math.Max(width, height) >= LongSide;
}

/// <summary>Pieces to cut from sheets.</summary>
/// <param name="Kerf">Least distance between two pieces; none is needed at a sheet's edge.</param>
/// <param name="Guillotine">True if every cut goes from edge to edge of what lies on the saw.</param>
public sealed record SheetProblem(IReadOnlyList<StockSheet> Stock, IReadOnlyList<SheetPiece> Pieces, long Kerf, bool Guillotine, OffcutRule Offcuts = default);

/// <summary>A piece in its place, its bounding rectangle measured from the sheet's lower left corner, trim included.</summary>
/// <param name="Piece">Index into the problem's pieces.</param>
/// <param name="Turned">True if width and height are exchanged: the piece is turned by a quarter to the left.</param>
/// <param name="HeadToFoot">True if the piece is turned by half a turn besides, as the second of a nested pair; bounding rectangles of a pair overlap.</param>
public sealed record SheetPlacement(int Piece, long X, long Y, long Width, long Height, bool Turned, bool HeadToFoot = false);

/// <summary>What is left of a sheet and worth keeping.</summary>
public sealed record SheetOffcut(long X, long Y, long Width, long Height)
{
    public long Area => Width * Height;
}

/// <summary>A straight cut, from edge to edge of one part of the sheet unless its level says that it stops inside.</summary>
/// <param name="Upright">True for a cut along the height at x = <paramref name="At"/>, false for a cut across at y = <paramref name="At"/>.</param>
/// <param name="From">Start of the cut along its own direction.</param>
/// <param name="To">End of the cut.</param>
/// <param name="Level">0 for the trim of edges, 1 for cuts of the whole sheet, 2 for cuts of what these give, and so on; <see cref="Stopped"/> for one that a jigsaw or a router makes.</param>
public sealed record SheetCut(bool Upright, long At, long From, long To, int Level)
{
    /// <summary>The level of cuts inside a part that no cut from edge to edge divides; where such a cut ends, it may stop short of the edge.</summary>
    public const int Stopped = -1;
}

/// <summary>A sheet as it is to be cut.</summary>
/// <param name="Stock">Index into the problem's stock.</param>
/// <param name="Times">How many sheets are cut so.</param>
/// <param name="Cuts">In the order of cutting; they free every piece and every offcut.</param>
public sealed record CutSheet(int Stock, int Times, IReadOnlyList<SheetPlacement> Pieces, IReadOnlyList<SheetCut> Cuts, IReadOnlyList<SheetOffcut> Offcuts);

/// <summary>A plan for sheets with the proof of how good it is.</summary>
/// <param name="Kept">What the kept offcuts of paid sheets are worth by the problem's rule; 0 where it states no value.</param>
/// <param name="LowerBound">No plan for all pieces that fit costs less than this, what it keeps taken off, of those that lay pieces by their bounding rectangles and nest tapers by twos.</param>
/// <param name="Proven">True if the plan's cost less what it keeps is the lower bound, so no plan is cheaper. Fewest sheets, largest offcut and fewest cuts are best effort.</param>
/// <param name="Certificate">From this <see cref="SheetPlanner.CheckBound"/> re-derives the bound; null if there was nothing to plan.</param>
/// <param name="Issues">What could not be planned, and why; empty for a whole plan.</param>
public sealed record SheetPlan(
    IReadOnlyList<CutSheet> Sheets, long Cost, long LowerBound, bool Proven, SheetCertificate? Certificate, IReadOnlyList<CuttingIssue> Issues, long StepsDone, long Kept = 0)
{
    public long SheetCount => Sheets.Sum(s => (long)s.Times);
}
