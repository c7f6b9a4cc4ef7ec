using Wain.Core.Units;

namespace Wain.Core.Binding;

/// <summary>The kinds of quantity that slots ask for, by the name used in the tables of the language.</summary>
internal static class KindNames
{
    /// <summary>The dimension of a kind; null for kinds that take any, or that are no quantity.</summary>
    public static Dimension? Of(string kind) => kind switch
    {
        "length" or "level" or "depths" or "lengths" or "bounds_length" => Dimension.OfLength,
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
        "count" or "ratio" => Dimension.None,
        _ => null,
    };

    /// <summary>Kinds of which there is never less than nothing. Lengths are not among them: a coordinate is one.</summary>
    public static bool NeverNegative(string kind) => kind is "area" or "volume" or "mass" or "bounds_mass" or "time" or "force" or "pressure" or "density" or "massperarea" or "massperlength" or "conductivity"
        or "transmittance" or "speed" or "coverage" or "count" or "ratio" or "money";

    public static string Words(string kind) => kind == "money" ? "an amount of money" : Of(kind)?.Describe() ?? "a value";
}
