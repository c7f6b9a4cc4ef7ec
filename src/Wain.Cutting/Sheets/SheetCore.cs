namespace Wain.Cutting;

/// <summary>
/// A sheet problem as bare whole numbers. The kerf is already in: every piece and every sheet carries one kerf more in both directions, so that
/// pieces may touch.
/// </summary>
/// <param name="Width">Width of each kind of piece.</param>
/// <param name="Height">Height of each kind.</param>
/// <param name="Demand">How many of each kind.</param>
/// <param name="MayTurn">Whether a kind may lie turned by a quarter.</param>
/// <param name="StockWidth">Width of each stock sheet.</param>
/// <param name="Counts">How many there are of each stock, -1 for as many as wanted.</param>
internal sealed record SheetCore(
    int[] Width, int[] Height, int[] Demand, bool[] MayTurn, int[] StockWidth, int[] StockHeight, long[] Costs, int[] Counts, bool Guillotine)
{
    public int Kinds => Width.Length;

    public int Stocks => StockWidth.Length;

    public long CostUnit { get; } = Math.Max(1, Costs.Aggregate(0L, StickCore.Gcd));

    public long Area(int kind) => (long)Width[kind] * Height[kind];

    public long StockArea(int stock) => (long)StockWidth[stock] * StockHeight[stock];

    public bool Fits(int kind, int stock) => (Width[kind] <= StockWidth[stock] && Height[kind] <= StockHeight[stock])
        || (MayTurn[kind] && Height[kind] <= StockWidth[stock] && Width[kind] <= StockHeight[stock]);
}

/// <summary>A piece in its place, measured with its kerf.</summary>
internal readonly record struct Placed(int Kind, int X, int Y, int Width, int Height);

/// <summary>One sheet as laid out, and how many sheets are laid out so.</summary>
/// <param name="LargestFree">Area of the largest free rectangle found.</param>
/// <param name="Cuts">Cuts that part the pieces and the rests from one another.</param>
internal sealed record SheetLayout(int Stock, Placed[] Pieces, int Times, long LargestFree, int Cuts);

/// <summary>Sheets that hold the demand, and what they cost.</summary>
internal sealed record SheetSolution(IReadOnlyList<SheetLayout> Layouts, long Cost, long Sheets, long LargestFree, long Cuts)
{
    public static SheetSolution Of(SheetCore core, IReadOnlyList<SheetLayout> layouts) => new(
        layouts, layouts.Sum(l => core.Costs[l.Stock] * l.Times), layouts.Sum(l => (long)l.Times), layouts.Select(l => l.LargestFree).DefaultIfEmpty().Max(), layouts.Sum(l => (long)l.Cuts * l.Times));

    /// <summary>Lower cost, then fewer sheets, then the larger rest, then fewer cuts.</summary>
    public bool IsBetterThan(SheetSolution? other) =>
        other is null || (Cost, Sheets, -LargestFree, Cuts).CompareTo((other.Cost, other.Sheets, -other.LargestFree, other.Cuts)) < 0;
}
