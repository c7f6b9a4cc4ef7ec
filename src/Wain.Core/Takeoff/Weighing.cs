using System.Collections.Immutable;
using Wain.Core.Methods;
using Wain.Core.Model;
using Wain.Core.Units;

namespace Wain.Core.Takeoff;

/// <summary>
/// Weights of lines, with the spread of each material's figure as a cause of its own: one board's density is every board's density, so what
/// shares a figure is high or low together.
/// </summary>
internal static class Weighing
{
    /// <summary>A quantity times a figure of its material.</summary>
    /// <param name="name">Name of the figure that holds the quantity.</param>
    /// <param name="quantity">In base units.</param>
    /// <param name="property">The figure by whose value it is multiplied to give kg.</param>
    public static LineWeight Times(string name, double quantity, Material material, string property)
    {
        if (material.Figure(property) is not { } figure) return LineWeight.Missing(property);
        string input = material.Name + "." + property;
        return new LineWeight([new CausedSpread(input, SpreadOf(figure).Times(quantity))], $"{name} * {input}", [name, input], null);
    }

    /// <summary>
    /// What is left of sheets or boards (m3): by mass by area where the material states that, since it was weighed that way, which holds for its full
    /// thickness; otherwise by density.
    /// </summary>
    public static LineWeight OfSheet(SheetMaterial sheet, string key, double volume)
    {
        if (sheet.Figure("weight") is not { } byArea) return Times(key + ".volume", volume, sheet, "density");
        string input = sheet.Name + ".weight", thickness = sheet.Name + ".thickness";
        return new LineWeight([new CausedSpread(input, SpreadOf(byArea).Times(volume / (sheet.Thickness / 1000)))], $"{key}.volume * {input} / {thickness}", [key + ".volume", input, thickness], null);
    }

    /// <summary>So many of a thing that states its weight.</summary>
    public static LineWeight Each(string name, double count, Material material) => Times(name, count, material, "weight");

    /// <summary>Resin that wets a dry weight of glass: glass (1 - g) / g for a glass content g by weight, spread both by the glass's own weight and by the content.</summary>
    /// <param name="dry">The dry glass's own weight by cause.</param>
    /// <param name="content">Name and figure of the glass content.</param>
    public static (double Likely, ImmutableArray<CausedSpread> Parts) WetOut(LineWeight dry, string contentName, MaterialFigure content)
    {
        double Ratio(double g) => (1 - g) / g;
        double likely = Ratio(content.Value.Value);
        var parts = dry.Parts.Select(p => p with { Value = p.Value.Times(likely) }).ToList();
        // More glass means less resin, so the high content gives the low weight.
        double low = Ratio(content.High?.Value ?? content.Value.Value) - likely, high = Ratio(content.Low?.Value ?? content.Value.Value) - likely;
        if (low != 0 || high != 0) parts.Add(new CausedSpread(contentName, new Spread(low * dry.Likely, 0, high * dry.Likely)));
        return (likely * dry.Likely, [.. parts]);
    }

    public static Spread SpreadOf(MaterialFigure figure)
    {
        double likely = figure.Value.Value;
        // A low value above the likely one is reported where materials are read; here it must not turn a spread round.
        return new Spread(Math.Min(likely, figure.Low?.Value ?? likely), likely, Math.Max(likely, figure.High?.Value ?? likely));
    }

    public static Quantity Area(double mm2) => new(mm2 / 1e6, Dimension.OfArea);

    public static Quantity Volume(double mm3) => new(mm3 / 1e9, Dimension.OfVolume);

    public static Quantity Mass(double kg) => new(kg, Dimension.OfMass);
}
