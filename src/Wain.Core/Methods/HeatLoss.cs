using System.Collections.Immutable;

namespace Wain.Core.Methods;

/// <summary>An area that loses heat: U in W/(m2 K), area in m2.</summary>
public sealed record HeatArea(string Name, double U, double Area);

/// <summary>A thermal bridge by its length: psi in W/(m K), length in m.</summary>
public sealed record HeatLine(string Name, double Psi, double Length);

/// <summary>Share of the whole loss that one part takes, W/K.</summary>
public sealed record HeatShare(string Name, double Coefficient);

/// <summary>Heat loss of the whole camper, W/K.</summary>
/// <param name="Shares">Areas, bridges and air change, in the order given.</param>
public sealed record HeatLossReport(ImmutableArray<HeatShare> Shares, double Transmission, double Ventilation)
{
    public double Total => Transmission + Ventilation;
}

/// <summary>Heat loss, heater size and surface temperature (ISO 13789, EN 12831 in their simple forms). Steady state: a heater also has to warm the walls and people first.</summary>
public static class HeatLoss
{
    /// <summary>Heat capacity of air by volume, J/(m3 K): 1200, as ISO 13789 takes it.</summary>
    public const double AirHeat = 1200;

    /// <summary>H = sum(U A) + sum(psi l) + 1200 n V/3600.</summary>
    /// <param name="volume">Of air inside, m3.</param>
    /// <param name="airChanges">Of the whole volume in an hour.</param>
    public static Result<HeatLossReport> Coefficient(IReadOnlyCollection<HeatArea> areas, IReadOnlyCollection<HeatLine> bridges, double volume, double airChanges)
    {
        if (Need.All(
            Need.Each(areas, a => Need.All(Need.NotNegative(a.U, $"U of {a.Name}"), Need.NotNegative(a.Area, $"the area of {a.Name}"))),
            Need.Each(bridges, b => Need.All(Need.Finite(b.Psi, $"psi of {b.Name}"), Need.NotNegative(b.Length, $"the length of {b.Name}"))),
            Need.Positive(volume, "the volume of air"), Need.NotNegative(airChanges, "the air change")) is { } why)
        {
            return new Missing(why);
        }

        var ventilation = AirHeat * airChanges * volume / 3600;
        ImmutableArray<HeatShare> through = [.. areas.Select(a => new HeatShare(a.Name, a.U * a.Area)), .. bridges.Select(b => new HeatShare(b.Name, b.Psi * b.Length))];
        return new HeatLossReport(through.Add(new("air change", ventilation)), through.Sum(s => s.Coefficient), ventilation);
    }

    /// <summary>Heater output, W: H (inside - outside) times a margin, less what people and lamps give. Not below zero.</summary>
    /// <param name="margin">1 for steady state; 1.3 or more to warm up from cold, common practice.</param>
    /// <param name="gains">W, for example 70 W for each sleeper, common practice.</param>
    public static Result<double> Heater(double coefficient, double inside, double outside, double margin = 1, double gains = 0) =>
        Need.All(
            Need.Positive(coefficient, "the heat loss"), Temperature(inside), Temperature(outside), Need.Between(margin, 1, 10, "the margin"), Need.NotNegative(gains, "the heat gained")) is { } why
            ? new Missing(why)
            : Math.Max(0, coefficient * (inside - outside) * margin - gains);

    /// <summary>Inside surface temperature, degrees Celsius: inside - U Rsi (inside - outside). For a bridged part pass U of the path through the bridge.</summary>
    public static Result<double> SurfaceTemperature(double u, double insideSurface, double inside, double outside) =>
        Need.All(
            Need.NotNegative(u, "U"), Need.Positive(insideSurface, "the inside surface resistance"), Need.That(u * insideSurface <= 1 + 1e-9, "U is more than the surface resistance allows"),
            Temperature(inside), Temperature(outside)) is { } why
            ? new Missing(why)
            : inside - u * insideSurface * (inside - outside);

    /// <summary>
    /// Temperature factor fRsi = 1 - U Rsi, and the least one that keeps the surface at or below a stated humidity (0.8 against mould, 1 against dew): ISO 13788, 5.3.
    /// </summary>
    public static Result<double> LeastTemperatureFactor(double inside, double humidity, double outside, double surfaceHumidity = 0.8) =>
        Need.All(
            Temperature(inside), Temperature(outside), Need.That(inside > outside, "it is no warmer inside than outside"),
            Need.Between(humidity, 0.001, 1, "the humidity"), Need.Between(surfaceHumidity, 0.1, 1, "the humidity at the surface")) is { } why
            ? new Missing(why)
            : Vapour.Saturation(inside).Then(p => Vapour.DewPointOf(p * humidity / surfaceHumidity)).Map(surface => (surface - outside) / (inside - outside));

    private static string? Temperature(double value) => Need.Between(value, -80, 80, "the temperature");
}
