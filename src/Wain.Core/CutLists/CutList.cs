using System.Collections.Immutable;

namespace Wain.Core.CutLists;

/// <summary>How a material is cut up.</summary>
public enum CutKind
{
    Sheet,

    /// <summary>A foam board, which can be ripped to thickness as well.</summary>
    Board,
    Stick,

    /// <summary>Cloth or film off a roll.</summary>
    Roll,
}

/// <summary>A corner of an outline, or a place on a sheet.</summary>
public readonly record struct CutPoint(long X, long Y);

/// <summary>A stretch of a stick that no part may touch.</summary>
public readonly record struct CutFault(long From, long To);

/// <summary>Something to cut from. Lengths in hundredths of a millimetre.</summary>
/// <param name="Width">0 for a stick.</param>
/// <param name="Length">The grain and the warp run along it.</param>
/// <param name="Cost">Of one, in the list's unit of cost; 0 if it is owned.</param>
/// <param name="Count">How many there are; null for as many as wanted.</param>
public sealed record CutStock(string Name, long Width, long Length, long Cost, int? Count, bool Owned, ImmutableArray<CutFault> Faults);

/// <summary>A part to cut. Lengths in hundredths of a millimetre, rounded up.</summary>
/// <param name="Width">0 for a stick.</param>
/// <param name="Thickness">Of a piece of a sheet or board; of a stick its depth in the plane of its angled ends.</param>
/// <param name="Outline">From the lower left corner of its bounding rectangle, length upwards; empty for a rectangle.</param>
/// <param name="LeftRun">How far an angled end of a stick runs along it.</param>
/// <param name="RunsOpposed">True if the long points of both ends lie on one side.</param>
public sealed record CutPart(string Mark, long Width, long Length, long Thickness, int Count, bool MayTurn, ImmutableArray<CutPoint> Outline, long LeftRun = 0, long RightRun = 0, bool RunsOpposed = true);

/// <summary>All parts of one material with what they can be cut from: what a plan follows from, and all that it follows from.</summary>
/// <param name="Kerf">Hundredths of a millimetre, as all lengths.</param>
/// <param name="Trim">Cut off each edge of a bought sheet.</param>
/// <param name="Thickness">Of a sheet or board; 0 for a stick, whose parts have depths of their own.</param>
/// <param name="CostUnit">Currency that costs count hundredths of; empty where a price is missing, and costs count square centimetres or millimetres of stock.</param>
/// <param name="OffcutValue">What a kept offcut is worth by its area, in the unit of cost.</param>
/// <param name="UsedElsewhere">True if the design uses the material for more than these parts, such as gussets.</param>
public sealed record CutList(
    string Material, string Called, CutKind Kind, long Kerf, long Trim, bool Guillotine, long Thickness, string CostUnit, decimal OffcutValue, bool UsedElsewhere,
    ImmutableArray<CutStock> Stock, ImmutableArray<CutPart> Parts)
{
    public const double UnitsPerMillimetre = 100;

    /// <summary>The greatest amount that every cost is a multiple of; 1 where a kept offcut has a value, which is no multiple of anything.</summary>
    public long CostStep => OffcutValue != 0 ? 1 : Math.Max(1, Stock.Aggregate(0L, (a, s) => Gcd(a, s.Cost)));

    /// <summary>The same list with costs in lowest terms. What is cut from what hangs on how prices stand to each other, so a plan outlives a rise of all of them, and of the one price where one size is sold.</summary>
    public CutList InLowestTerms()
    {
        long step = CostStep;
        return OffcutValue != 0 ? this : this with { CostUnit = "", Stock = [.. Stock.Select(s => s with { Cost = s.Cost / step })] };
    }

    /// <summary>True if a bought board gives more than one layer of the thinnest part.</summary>
    public bool CanRip =>
        Kind == CutKind.Board && Stock.Any(s => !s.Owned) && Parts.Length > 0 && Parts.All(p => p.Thickness > 0) && 2 * Parts.Min(p => p.Thickness) + Kerf <= Thickness;

    private static long Gcd(long a, long b) => b == 0 ? a : Gcd(b, a % b);

    /// <summary>Whether a part fits a stock of this list in a position that it may take.</summary>
    public bool Fits(CutPart part) => Stock.Any(s => s.Count != 0 && Fits(part, s));

    private bool Fits(CutPart part, CutStock stock)
    {
        if (Kind == CutKind.Stick) return Clear(stock).Any(c => c >= part.Length);
        long trim = stock.Owned ? 0 : 2 * Trim, width = stock.Width - trim, length = stock.Length - trim;
        return part.Width <= width && part.Length <= length || part.MayTurn && part.Length <= width && part.Width <= length;
    }

    private static IEnumerable<long> Clear(CutStock stock)
    {
        long at = 0;
        foreach (var fault in stock.Faults.OrderBy(f => f.From))
        {
            yield return fault.From - at;
            at = Math.Max(at, fault.To);
        }
        yield return stock.Length - at;
    }
}
