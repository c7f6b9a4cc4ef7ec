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

    public static string Words(string kind) => kind == "money" ? "an amount of money" : Of(kind)?.Describe() ?? "a value";
}
