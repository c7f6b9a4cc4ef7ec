using System.Globalization;
using Wain.Core.Units;

namespace Wain.Core.Text;

/// <summary>Quantities as messages show them: in a unit that a person would write, to four figures that matter.</summary>
public static class QuantityText
{
    private static readonly string[] Customary =
        ["in", "in2", "in3", "lb", "min", "deg", "lbf", "psi", "lb/ft3", "oz/yd2", "lb/ft", "degF", "F_diff", "W/m/K", "W/m2/K", "mph", "ft2/gal", "Wh", "W", "lbf/in"];

    private static readonly string[] Metric =
        ["mm", "m2", "l", "lb", "min", "deg", "N", "MPa", "kg/m3", "g/m2", "kg/m", "degC", "K", "W/m/K", "W/m2/K", "m/s", "m2/l", "Wh", "W", "N/mm"];

    private static readonly Dictionary<Dimension, Unit> CustomaryByKind = ByKind(Customary), MetricByKind = ByKind(Metric);

    private static Dictionary<Dimension, Unit> ByKind(string[] units) => units.Select(u => UnitTable.Find(u)!).ToDictionary(u => u.Dimension);

    /// <summary>The quantity with its unit.</summary>
    /// <param name="unitText">A unit that stands beside it in the spec, taken if it is of the same kind.</param>
    /// <param name="say">The units that the spec shows results in; inches and pounds if it isn't given.</param>
    public static string Show(Quantity quantity, string? unitText = null, Say? say = null)
    {
        if (quantity.Dimension.IsNone) return Number(quantity.Value);
        var unit = unitText is not null && UnitTable.Find(unitText) is { } near && near.Dimension == quantity.Dimension ? near : Usual(quantity, say ?? Say.Usual);
        return unit is null ? $"{Number(quantity.Value)} ({quantity.Dimension.Describe()})" : $"{Number(UnitTable.FromBase(quantity, unit))} {unit.Name}";
    }

    private const double Hour = 3600;

    /// <summary>The unit in which a person in the trade would say it; null if there is none.</summary>
    public static Unit? Usual(Quantity quantity, Say say)
    {
        var kind = quantity.Dimension;
        if (kind == Dimension.OfTime && Math.Abs(quantity.Value) >= 2 * Hour) return UnitTable.Find("h");
        if (say.Kilograms && kind == Dimension.OfMass) return UnitTable.Find("kg");
        if ((say.Metric ? MetricByKind : CustomaryByKind).TryGetValue(kind, out var unit)) return unit;
        return kind.Currency is { } money && kind == Dimension.OfMoney(money) ? UnitTable.Find(money) : null;
    }

    private static string Number(double value)
    {
        double size = Math.Abs(value);
        if (size >= 1e9 || (size > 0 && size < 1e-3)) return value.ToString("0.###e+0", CultureInfo.InvariantCulture);
        return value.ToString(size >= 1000 ? "0.#" : size >= 10 ? "0.###" : "0.####", CultureInfo.InvariantCulture);
    }
}
