namespace Wain.Core.Methods;

/// <summary>Foam for one cavity, both parts together, kg; <see cref="Mixing"/> parts it.</summary>
/// <param name="Pours">Layers, one after another has risen and cooled.</param>
public sealed record FoamPour(double Mass, int Pours)
{
    public double EachPour => Mass / Pours;
}

/// <summary>Whether foam flows through a cavity.</summary>
/// <param name="Ratio">Longest way to flow over the thickness.</param>
/// <param name="Spaces">How many spaces to divide it into across that way so that each fills; 1 if it fills as it is.</param>
public sealed record CavityFlow(double Ratio, double Limit, int Spaces)
{
    public bool Fills => Ratio <= Limit;
}

/// <summary>
/// Two-part pour foam. Volumes m3, densities kg/m3, lengths m. Isocyanate: respirator, gloves, air; rising foam pushes thin skins apart, so they are braced; a deep pour overheats.
/// </summary>
public static class PourFoam
{
    /// <summary>
    /// Mass = volume x free-rise density x over-pack / temperature factor: over-pack above 1 since a closed cavity holds back the rise (common practice 1.1 to 1.3); the factor
    /// below 1 since cold parts rise less. Both are given data.
    /// </summary>
    /// <param name="depth">In the direction of rise.</param>
    /// <param name="deepest">Deepest pour after its rise; infinite if none is stated.</param>
    public static Result<FoamPour> Cavity(double volume, double freeRise, double overPack, double temperatureFactor, double depth, double deepest)
    {
        if (Need.All(
            Need.Positive(volume, "the volume of the cavity"), Need.Positive(freeRise, "the free-rise density"), Need.Between(overPack, 1, 3, "the over-pack"),
            Need.Between(temperatureFactor, 0.2, 1.5, "the temperature factor"),
            Need.Positive(depth, "the depth of the cavity"), Need.That(deepest > 0, "the deepest pour must be above zero")) is { } why)
        {
            return new Missing(why);
        }

        var mass = volume * freeRise * overPack / temperatureFactor;
        return new FoamPour(mass, Math.Max(1, (int)Math.Ceiling(depth / deepest - 1e-9)));
    }

    /// <summary>Volume that a kit fills, m3: mass/(density x over-pack). Free rise with an over-pack of 1.</summary>
    public static Result<double> KitYield(double mass, double freeRise, double overPack = 1) =>
        Need.All(Need.Positive(mass, "the mass of the kit"), Need.Positive(freeRise, "the free-rise density"), Need.Between(overPack, 1, 3, "the over-pack")) is { } why
            ? new Missing(why)
            : mass / (freeRise * overPack);

    /// <summary>A cavity too wide and shallow does not fill: the way from the pour hole to the farthest corner over the thickness, against a limit of the material (common practice, given data).</summary>
    /// <param name="farthest">From the pour hole to the farthest point.</param>
    public static Result<CavityFlow> Flow(double thickness, double farthest, double limit) =>
        Need.All(Need.Positive(thickness, "the thickness of the cavity"), Need.Positive(farthest, "the way to flow"), Need.Positive(limit, "the limit of flow"), Need.That(farthest / thickness / limit <= 10000, "the cavity is far too thin to fill")) is { } why
            ? new Missing(why)
            : new CavityFlow(farthest / thickness, limit, Math.Max(1, (int)Math.Ceiling(farthest / thickness / limit - 1e-9)));
}
