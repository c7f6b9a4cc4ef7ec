namespace Wain.Core.Methods;

/// <summary>Ground roughness upwind (ASCE 7, 26.7.3).</summary>
public enum Exposure
{
    /// <summary>Towns, suburbs, woods.</summary>
    B,

    /// <summary>Open country.</summary>
    C,

    /// <summary>Flat shore and open water.</summary>
    D,
}

/// <summary>Wind and snow pressures, Pa, speeds m/s, heights m. ASCE 7 is written for buildings: on a parked camper its figures are estimates.</summary>
public static class WindAndSnow
{
    /// <summary>Stagnation pressure of standard air (1.225 kg/m3, 15 degrees Celsius at sea level): 0.613 V2 (half of rho V2). Acts in full only where the wind is brought to rest.</summary>
    public static Result<double> StagnationPressure(double speed) => VelocityPressure(speed, 1, 1, 1);

    /// <summary>q = 0.613 Kz Kzt Kd V2, ASCE 7-10 eq. 27.3-1 in SI (0.00256 in psf and mph; the two constants differ by 0.06 %).</summary>
    public static Result<double> VelocityPressure(double speed, double exposureFactor, double topography, double directionality) =>
        Need.All(
            Need.NotNegative(speed, "the wind speed"), Need.Positive(exposureFactor, "Kz"), Need.Positive(topography, "Kzt"),
            Need.Between(directionality, 0, 1, "Kd")) is { } why
            ? new Missing(why)
            : 0.613 * exposureFactor * topography * directionality * speed * speed;

    /// <summary>
    /// Kz = 2.01 (z/zg)^(2/alpha) with z not below 15 ft: alpha and zg 7.0 and 1200 ft (B), 9.5 and 900 ft (C), 11.5 and 700 ft (D).
    /// ASCE 7-10 Tables 26.9-1 and 27.3-1, from memory.
    /// </summary>
    public static Result<double> ExposureFactor(double height, Exposure exposure)
    {
        var (alpha, gradient) = exposure switch
        {
            Exposure.B => (7.0, 1200.0),
            Exposure.C => (9.5, 900.0),
            _ => (11.5, 700.0),
        };
        return Need.All(Need.NotNegative(height, "the height"), Need.That(height <= gradient * Customary.Foot, "the height is above the gradient height")) is { } why
            ? new Missing(why)
            : 2.01 * Math.Pow(Math.Max(height / Customary.Foot, 15) / gradient, 2 / alpha);
    }

    /// <summary>
    /// Drag or pressure force on a flat area, N: q C A. A flat upright panel in the open has C about 1.2 (ASCE 7-10 fig. 29.4-1 gives 1.2 to 2.0 by its
    /// proportions, from memory).
    /// </summary>
    public static Result<double> Force(double pressure, double coefficient, double area) =>
        Need.All(Need.NotNegative(pressure, "the pressure"), Need.Finite(coefficient, "the coefficient"), Need.NotNegative(area, "the area")) is { } why
            ? new Missing(why)
            : pressure * coefficient * area;

    /// <summary>Flat-roof snow load, Pa: pf = 0.7 Ce Ct Is pg. ASCE 7-10 eq. 7.3-1, from memory.</summary>
    public static Result<double> FlatRoofSnow(double ground, double exposure, double thermal, double importance) =>
        Need.All(
            Need.NotNegative(ground, "the ground snow load"), Need.Positive(exposure, "Ce"), Need.Positive(thermal, "Ct"), Need.Positive(importance, "Is")) is { } why
            ? new Missing(why)
            : 0.7 * exposure * thermal * importance * ground;

    /// <summary>Unit weight of snow, N/m3: 0.13 pg + 14 pcf with pg in psf, at most 30 pcf. ASCE 7-10 eq. 7.7-1, from memory.</summary>
    public static Result<double> SnowUnitWeight(double ground) =>
        Need.NotNegative(ground, "the ground snow load") is { } why
            ? new Missing(why)
            : Math.Min(0.13 * ground / Customary.Psf + 14, 30) * Customary.Psf / Customary.Foot;

    /// <summary>Load of a stated depth of snow, Pa: depth, density and standard gravity.</summary>
    public static Result<double> SnowByDepth(double depth, double density) =>
        Need.All(Need.NotNegative(depth, "the depth of snow"), Need.Positive(density, "the density of snow")) is { } why
            ? new Missing(why)
            : depth * density * Customary.Gravity;
}
