using Wain.Core.Units;

namespace Wain.Core.Binding;

/// <summary>The kinds of quantity that slots ask for, by the name used in the tables of the language.</summary>
internal static class KindNames
{
    /// <summary>The dimension of a kind; null for kinds that take any, or that are no quantity.</summary>
    public static Dimension? Of(string kind) => kind switch
    {
        "length" or "extent" or "level" or "depths" or "lengths" or "bounds_length" => Dimension.OfLength,
        "area" => Dimension.OfArea,
        "volume" => Dimension.OfVolume,
        "mass" or "bounds_mass" => Dimension.OfMass,
        "time" => Dimension.OfTime,
        "temperature" => Dimension.OfTemperature,
        "angle" => Dimension.OfAngle,
        "force" => Dimension.OfForce,
        "pressure" => Dimension.OfPressure,
        "density" => Dimension.OfDensity,
        "massperarea" => Dimension.OfMassPerArea,
        "massperlength" => Dimension.OfMassPerLength,
        "conductivity" => Dimension.OfConductivity,
        "transmittance" => Dimension.OfTransmittance,
        "speed" => Dimension.OfSpeed,
        "coverage" => Dimension.OfCoverage,
        "count" or "some" or "ratio" => Dimension.None,
        _ => null,
    };

    /// <summary>Kinds of which there is never less than nothing. Lengths are not among them: a coordinate is one.</summary>
    public static bool NeverNegative(string kind) => kind is "area" or "volume" or "mass" or "bounds_mass" or "time" or "force" or "pressure" or "density" or "massperarea" or "massperlength" or "conductivity"
        or "transmittance" or "speed" or "coverage" or "count" or "some" or "ratio" or "money";

    /// <summary>Kinds of which there is something at all: a number of screws, the side of a gusset. What there is none of is left out.</summary>
    public static bool NeverNothing(string kind) => kind is "some" or "extent";

    /// <summary>Units in which a kind is most often written, for who left them out, those of the spec first; null for what has none.</summary>
    public static string? Units(string kind, Text.Say say)
    {
        if (Usual(kind) is not { } usual) return null;
        string[] units = usual.Replace(" or ", ", ", StringComparison.Ordinal).Split(", ");
        bool metric = Of(kind) == Dimension.OfMass ? say.Kilograms : say.Metric;
        if (metric && units.Length > 1) units = [units[^1], .. units[..^1]];
        return units.Length == 1 ? units[0] : $"{string.Join(", ", units[..^1])} or {units[^1]}";
    }

    // The metric unit stands last.
    private static string? Usual(string kind) => Of(kind) is not { } wanted ? null
        : wanted == Dimension.OfLength ? "in, ft or mm" : wanted == Dimension.OfArea ? "ft2 or m2" : wanted == Dimension.OfVolume ? "gal or l" : wanted == Dimension.OfMass ? "lb or kg" : wanted == Dimension.OfTime ? "h or min"
        : wanted == Dimension.OfTemperature ? "degF or degC" : wanted == Dimension.OfAngle ? "deg" : wanted == Dimension.OfForce ? "lbf or N" : wanted == Dimension.OfPressure ? "psi, lbf/ft2 or Pa" : wanted == Dimension.OfDensity ? "lb/ft3 or kg/m3"
        : wanted == Dimension.OfMassPerArea ? "oz/yd2, lb/ft2 or g/m2" : wanted == Dimension.OfMassPerLength ? "lb/ft or kg/m" : wanted == Dimension.OfSpeed ? "mph or m/s" : wanted == Dimension.OfConductivity ? "W/m/K" : wanted == Dimension.OfTransmittance ? "W/m2/K" : null;

    public static string Words(string kind) => kind == "money" ? "an amount of money" : Of(kind)?.Describe() ?? "a value";
}
