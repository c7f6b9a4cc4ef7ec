namespace Wain.Core.Methods;

/// <summary>Cloth and resin by area. Masses in kg/m2, densities kg/m3, thickness m; glass content is the share of glass by weight, above 0 and at most 0.8.</summary>
public static class Laminates
{
    /// <summary>Resin that wets a cloth, kg/m2: w (1 - c)/c.</summary>
    public static Result<double> Resin(double cloth, double glassContent) => Ask(cloth, glassContent) is { } why ? new Missing(why) : cloth * (1 - glassContent) / glassContent;

    /// <summary>Thickness from what is in it: w/glass density + resin/resin density, no voids.</summary>
    public static Result<double> Thickness(double cloth, double glassContent, double glassDensity = 2560, double resinDensity = 1200) =>
        Need.All(Ask(cloth, glassContent), Need.Positive(glassDensity, "the density of glass"), Need.Positive(resinDensity, "the density of resin")) is { } why
            ? new Missing(why)
            : cloth / glassDensity + cloth * (1 - glassContent) / glassContent / resinDensity;

    /// <summary>Thickness by the boat-building standard ISO 12215-5: t mm = (w/3.072)(2.56/c - 1.36), w in kg/m2. From memory; the same as <see cref="Thickness"/> with 2560 and 1200 kg/m3.</summary>
    public static Result<double> StandardThickness(double cloth, double glassContent) =>
        Ask(cloth, glassContent) is { } why ? new Missing(why) : cloth / 3.072 * (2.56 / glassContent - 1.36) / 1000;

    /// <summary>Share of glass by volume.</summary>
    public static Result<double> VolumeContent(double glassContent, double glassDensity = 2560, double resinDensity = 1200) =>
        Thickness(1, glassContent, glassDensity, resinDensity).Map(t => 1 / glassDensity / t);

    /// <summary>
    /// Mixed epoxy for cloth at half glass by weight with three rolled fill coats, m3, about 15 % waste included: ft2 (0.00085 oz/yd2 + 0.0075) gallons. Published estimate of a resin maker's magazine.
    /// </summary>
    /// <param name="cloth">All layers together.</param>
    public static Result<double> WithFillCoats(double area, double cloth) =>
        Need.All(Need.NotNegative(area, "the area"), Need.NotNegative(cloth, "the weight of the cloth")) is { } why
            ? new Missing(why)
            : area / Customary.SquareFoot * (cloth / Customary.OuncePerSquareYard * 0.00085 + 0.0075) * Customary.Gallon;

    private static string? Ask(double cloth, double glassContent) => Need.All(
        Need.Positive(cloth, "the weight of the cloth"), Need.Positive(glassContent, "the glass content"),
        Need.That(glassContent <= 0.8, "no laminate holds more than 0.8 glass by weight: there would be no resin between the fibres"));
}
