namespace Wain.Core.Methods;

/// <summary>Water vapour in air by ISO 13788. Temperatures in degrees Celsius, pressures in Pa, humidity as a fraction (0.5 is 50 %).</summary>
public static class Vapour
{
    /// <summary>Vapour permeability of still air, kg/(m s Pa): 2e-10, ISO 13788, 4.3.</summary>
    public const double AirPermeability = 2e-10;

    /// <summary>610.5 exp(17.269 t/(237.3 + t)) at and above 0, 610.5 exp(21.875 t/(265.5 + t)) below. ISO 13788 annex E.</summary>
    public static Result<double> Saturation(double temperature) =>
        Need.Between(temperature, -100, 100, "the temperature") is { } why ? new Missing(why) : SaturationUnchecked(temperature);

    /// <summary>Temperature at which a vapour pressure is saturation, the inverse of both branches.</summary>
    public static Result<double> DewPointOf(double pressure)
    {
        if (Need.All(Need.Positive(pressure, "the vapour pressure"), Need.That(pressure <= 101400, "the vapour pressure is above that of boiling water")) is { } why)
        {
            return new Missing(why);
        }

        var log = Math.Log(pressure / 610.5);
        return log >= 0 ? 237.3 * log / (17.269 - log) : 265.5 * log / (21.875 - log);
    }

    public static Result<double> DewPoint(double temperature, double humidity) => Pressure(temperature, humidity).Then(DewPointOf);

    public static Result<double> Pressure(double temperature, double humidity) =>
        Need.That(humidity is > 0 and <= 1, "the humidity must be above 0 and at most 100 %") is { } why ? new Missing(why) : Saturation(temperature).Map(p => p * humidity);

    /// <summary>Permeance in kg/(m2 s Pa), as perm ratings give it, as equivalent air layer sd, m: permeability of air over permeance.</summary>
    public static Result<double> EquivalentAir(double permeance) =>
        Need.Positive(permeance, "the permeance") is { } why ? new Missing(why) : AirPermeability / permeance;

    /// <summary>
    /// Humidity inside from moisture given off, as vapour pressure, Pa: outside pressure + G Rv T/(n V) with G in kg/s. ISO 13788 annex A; a sleeper gives off about 0.04 kg
    /// in an hour (common practice).
    /// </summary>
    /// <param name="airChanges">In an hour.</param>
    /// <param name="temperature">Inside, degrees Celsius.</param>
    public static Result<double> InsidePressure(double outsidePressure, double source, double airChanges, double volume, double temperature) =>
        Need.All(
            Need.NotNegative(outsidePressure, "the vapour pressure outside"), Need.NotNegative(source, "the moisture given off"), Need.Positive(airChanges, "the air change"),
            Need.Positive(volume, "the volume of air"), Need.Between(temperature, -80, 80, "the temperature")) is { } why
            ? new Missing(why)
            : outsidePressure + source * 3600 / (airChanges * volume) * 461.5 * (temperature + Customary.IcePoint);

    internal static double SaturationUnchecked(double t) => 610.5 * Math.Exp(t >= 0 ? 17.269 * t / (237.3 + t) : 21.875 * t / (265.5 + t));
}
