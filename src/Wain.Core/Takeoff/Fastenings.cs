using System.Collections.Immutable;
using Wain.Core.Methods;
using Wain.Core.Model;
using Wain.Core.Text;
using Wain.Core.Units;

namespace Wain.Core.Takeoff;

/// <summary>What is counted, and what is spread over a glue line.</summary>
internal static class Fastenings
{
    public static void AddCount(LineList lines, string subject, ImmutableArray<string> panels, LineKind kind, Material material, int count, string formula, Span from)
    {
        if (count <= 0) return;
        string key = lines.Key(subject, material.Name);
        lines.Add(new TakeoffLine(key, subject, panels, kind, material, "count", Quantity.Count(count), material.Waste, formula, [], from)
        {
            Weight = Weighing.Each(key + ".count", count, material),
        });
    }

    /// <summary>A glue line of an area (mm2): by the spread rate of a glue, or as a seal coat and no more of a resin that serves as one.</summary>
    public static void AddGlue(LineList lines, string subject, ImmutableArray<string> panels, Material glue, double mm2, string formula, Span from)
    {
        if (mm2 <= 0) return;
        string key = lines.Key(subject, glue.Name);
        string property = glue.Kind == "resin" ? "seal_coat" : "spread";
        if (glue.Figure(property) is not { } rate)
        {
            lines.Lack(key, subject, panels, LineKind.Glue, glue, property, from);
            return;
        }
        var area = Weighing.Area(mm2);
        var (squeezeName, squeeze) = lines.SqueezeOut;
        string figure = $"{glue.Name}.{property}";
        var spread = Weighing.SpreadOf(rate).Times(area.Value);
        lines.Add(new TakeoffLine(key, subject, panels, LineKind.Glue, glue, "mass", Weighing.Mass(spread.Likely), (1 + squeeze) * (1 + glue.Waste) - 1, $"{key}.area * {figure}", [key + ".area", figure], from)
        {
            Also = [new Measured("area", area, formula, []), new Measured("squeezed_out", new Quantity(spread.Likely * squeeze, Dimension.OfMass), $"{key}.mass * {squeezeName}", [key + ".mass", squeezeName])],
            Weight = new LineWeight([new CausedSpread(figure, spread)], key + ".mass", [key + ".mass"], null),
        });
    }

    /// <summary>A run of something sold by length (mm).</summary>
    public static void AddRun(LineList lines, string subject, ImmutableArray<string> panels, LineKind kind, Material material, double mm, string formula, Span from)
    {
        if (mm <= 0) return;
        string key = lines.Key(subject, material.Name);
        var length = Quantity.FromMillimetres(mm);
        lines.Add(new TakeoffLine(key, subject, panels, kind, material, "length", length, material.Waste, formula, [], from)
        {
            Weight = Weighing.Times(key + ".length", length.Value, material, "weight"),
        });
    }
}
