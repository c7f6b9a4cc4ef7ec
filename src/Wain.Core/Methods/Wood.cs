namespace Wain.Core.Methods;

/// <summary>Density and conductivity of wood by moisture content (FPL-GTR-190, Wood Handbook). Moisture as a fraction of ovendry mass: 0.12 is 12 %.</summary>
public static class Wood
{
    /// <summary>Above this moisture content (fibre saturation, about 30 %) wood no longer swells; Wood Handbook ch. 4.</summary>
    public const double FibreSaturation = 0.30;

    /// <summary>Density, kg/m3: 1000 G (1 + M), with G the specific gravity on volume at that moisture. Wood Handbook eq. 4-12.</summary>
    public static Result<double> Density(double specificGravity, double moisture) =>
        Bad(specificGravity, moisture, 2) is { } why ? new Missing(why) : 1000 * specificGravity * (1 + moisture);

    /// <summary>
    /// Specific gravity on volume at moisture M from basic specific gravity (green volume): G = Gb/(1 - 0.265 a Gb), a = (30 - M%)/30, no change above
    /// fibre saturation. Wood Handbook ch. 4, from memory.
    /// </summary>
    public static Result<double> FromBasic(double basic, double moisture) =>
        Bad(basic, moisture, 2) is { } why ? new Missing(why) : basic / (1 - 0.265 * DryFraction(moisture) * basic);

    /// <summary>The inverse of <see cref="FromBasic"/>: Gb = G/(1 + 0.265 a G).</summary>
    public static Result<double> ToBasic(double specificGravity, double moisture) =>
        Bad(specificGravity, moisture, 2) is { } why ? new Missing(why) : specificGravity / (1 + 0.265 * DryFraction(moisture) * specificGravity);

    /// <summary>
    /// Thermal conductivity across the grain, W/(m K): k = G (B + C x) + A with A = 0.01864, B = 0.1941, C = 0.004064 and x in per cent; for G above 0.3, near
    /// 24 degrees Celsius and below 25 % moisture; scatter up to 20 %. Wood Handbook eq. 4-15.
    /// </summary>
    /// <param name="specificGravity">On ovendry mass and volume at that moisture.</param>
    public static Result<double> Conductivity(double specificGravity, double moisture) =>
        (Bad(specificGravity, moisture, 0.25) ?? Need.That(specificGravity > 0.3, "the formula holds for a specific gravity above 0.3")) is { } why
            ? new Missing(why)
            : specificGravity * (0.1941 + 0.004064 * 100 * moisture) + 0.01864;

    private static double DryFraction(double moisture) => Math.Max(0, 1 - moisture / FibreSaturation);

    private static string? Bad(double specificGravity, double moisture, double wettest) => Need.All(
        Need.Positive(specificGravity, "the specific gravity"), Need.That(specificGravity <= 1.54, "no wood is denser than its cell walls (specific gravity 1.54)"),
        Need.Between(moisture, 0, wettest, "the moisture content"));
}
