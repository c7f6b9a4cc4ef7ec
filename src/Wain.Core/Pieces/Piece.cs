using System.Collections.Immutable;
using Wain.Core.Framing;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Model;

namespace Wain.Core.Pieces;

/// <summary>Which way the length of the stock, and so the grain, must run on the panel.</summary>
public enum Grain
{
    Free,
    Along,
    Up,
}

/// <summary>Something routed off one side of a piece: a lap, a rabbet, a shallow recess.</summary>
/// <param name="Depth">mm, as a mean where the cut slopes (a scarf).</param>
public sealed record Rout(Outline Region, double Depth, bool FromOutside, string What)
{
    /// <summary>What the laps of splices are called.</summary>
    public const string Lap = "lap";
}

/// <summary>A piece that someone cuts. Outlines in the panel's axes (mm), on the layer's outer side.</summary>
/// <param name="Key">What it is called within its panel, such as <c>ply_6mm.a</c>.</param>
/// <param name="Finished">As it ends up, net of holes: what weight and fit count. Edges carry the bevels.</param>
/// <param name="Rough">As cut: with long points of bevels and what is trimmed after glueing; what cutting uses. A trapezoid stays one.</param>
/// <param name="Thickness">mm, ripped where the stock is thicker.</param>
/// <param name="Count">How many are cut alike for this place: plies of cloth, or layers of thin board.</param>
public sealed record Piece(
    string PartMark, string Key, PlacedPanel Panel, PlacedZone? Zone, StackLayer Layer, Material Material, Outline Finished, ImmutableArray<Outline> Holes, Outline Rough,
    double Thickness, double Below, Grain Grain, int Count)
{
    public ImmutableArray<Rout> Routs { get; init; } = [];

    /// <summary>What rounding the panel's edges over takes off one (mm3).</summary>
    public double RoundedOff { get; init; }

    /// <summary>The cavity that it fills, or null.</summary>
    public Cavity? Cavity { get; init; }

    /// <summary>Length of the blank along the stock's length (mm): along the grain, or the longer side where that is free.</summary>
    public double BlankLength => Grain switch { Grain.Along => Rough.Bounds.Width, Grain.Up => Rough.Bounds.Height, _ => Math.Max(Rough.Bounds.Width, Rough.Bounds.Height) };

    /// <summary>Width of the blank (mm).</summary>
    public double BlankWidth => Grain switch { Grain.Along => Rough.Bounds.Height, Grain.Up => Rough.Bounds.Width, _ => Math.Min(Rough.Bounds.Width, Rough.Bounds.Height) };

    /// <summary>Net area of one (mm2).</summary>
    public double Area => Finished.Area() - Holes.Sum(h => h.Area());

    /// <summary>Net volume of one (mm3): bevels, laps, recesses and roundings counted.</summary>
    public double Volume => Math.Max(0, Solids.Volume(Finished, Thickness) - Holes.Sum(h => h.Area()) * Thickness - Routs.Sum(r => (r.Region.Area() - Holes.Sum(h => Overlap.Area(h, r.Region))) * r.Depth) + RoutedTwice - RoundedOff);

    // Where a rabbet crosses a lap, or is stated and follows from a joint as well, the wood is taken once; from both faces no more than there is.
    private double RoutedTwice
    {
        get
        {
            double twice = 0;
            for (int i = 0; i < Routs.Length; i++)
                for (int j = 0; j < i; j++)
                {
                    var (a, b) = (Routs[i], Routs[j]);
                    // Laps that cross each other share their depths already.
                    if (a.What == Rout.Lap && b.What == Rout.Lap) continue;
                    double depth = a.FromOutside == b.FromOutside ? Math.Min(a.Depth, b.Depth) : Math.Max(0, a.Depth + b.Depth - Thickness);
                    if (depth > 0 && a.Region.Bounds.Touches(b.Region.Bounds)) twice += depth * a.Region.Part(b.Region).Inside.Sum(o => o.Area() - Holes.Sum(h => Overlap.Area(h, o)));
                }
            return twice;
        }
    }

    /// <summary>The figure that its weight comes from: mass by area if the spec states that, else density; null if it states neither.</summary>
    public MaterialFigure? MassFigure => Material.Figure("weight") ?? Material.Figure("density");

    /// <summary>Of all that are alike (kg); for cloth dry. Null if no figure is stated. Mass by area holds for the stock's full thickness.</summary>
    public double? Mass => Material.Figure("weight")?.Value.Value is { } byArea
        ? Count * byArea * (Thickness > 0 && Material is SheetMaterial sheet ? Volume / sheet.Thickness : Area) / 1e6
        : Material.Density is { } density ? Count * density * Volume / 1e9 : null;

    public override string ToString() => PartMark;
}

public enum SpliceKind
{
    Lap,
    Scarf,
    Butt,
}

/// <summary>A line along which two pieces of a layer are joined.</summary>
/// <param name="AlongU">True if positions count along the panel (U), so that the joint itself runs up.</param>
/// <param name="At">Middle of the lap, from the panel's lowest U or V (mm).</param>
/// <param name="Overlap">How far the pieces lap (mm); 0 for a butt.</param>
/// <param name="Length">Of the joint (mm).</param>
/// <param name="OverMember">The framing member that it lies over, or null.</param>
public sealed record Splice(PlacedPanel Panel, StackLayer Layer, SpliceRule Rule, bool AlongU, double At, double Overlap, double Length, string? OverMember)
{
    /// <summary>Area of the glue line (mm2): the lap, or the strip behind a butt.</summary>
    public double GlueArea => Length * (Rule.Kind == SpliceKind.Butt ? Rule.Backing : Overlap);
}

public enum PieceProblemKind
{
    TooLarge,
    NoStockSize,
    PiecesDoNotAdd,
    PieceTooLong,
    PieceTooShort,
    NotOverMember,
    NotStaggered,
    FoamThin,
}

/// <summary>Something about the pieces that did not go as the spec asks; the checks tell it. Has and Needs in mm.</summary>
/// <param name="Advice">What would do, in words.</param>
public sealed record PieceProblem(PieceProblemKind Kind, PlacedPanel Panel, StackLayer Layer, SpliceRule? Rule, double Has, double Needs, string Advice);

/// <summary>A splice of a skin that one sheet covers.</summary>
/// <param name="Along">The longer side of the skin before it is trimmed (mm).</param>
/// <param name="Size">The smallest size of sheet that covers it.</param>
public sealed record IdleSplice(PlacedPanel Panel, SpliceRule Rule, SheetMaterial Sheet, double Along, double Across, StockSize Size);

/// <summary>All pieces of a structure, with the splices between them.</summary>
public sealed record PieceList(ImmutableArray<Piece> All, ImmutableArray<Splice> Splices, ImmutableArray<PieceProblem> Problems)
{
    private readonly ILookup<string, Piece> _byPanel = All.ToLookup(p => p.Panel.Name, StringComparer.Ordinal);

    /// <summary>Splices that no skin of any panel needs, each once.</summary>
    public ImmutableArray<IdleSplice> IdleSplices { get; init; } = [];

    /// <summary>Rows of pieces whose splices the rules leave free.</summary>
    public ImmutableArray<SpliceRow> Rows { get; init; } = [];

    public IEnumerable<Piece> Of(PlacedPanel panel) => _byPanel[panel.Name];
}
