namespace Wain.Core.Methods;

/// <summary>Glue and coatings by area, m2, volume m3, film thickness m. A film is its volume over its area: 1 US gallon covers 1604 ft2 one mil thick.</summary>
public static class Coatings
{
    /// <summary>Glue, kg: area x spread rate x faces spread x (1 + waste).</summary>
    /// <param name="rate">kg/m2 for one face.</param>
    /// <param name="faces">1, or 2 where both faces are spread.</param>
    public static Result<double> Glue(double area, double rate, int faces = 1, double waste = 0) =>
        Need.All(Need.NotNegative(area, "the area"), Need.Positive(rate, "the spread rate"), Need.Between(faces, 1, 2, "the number of faces spread"), Need.Between(waste, 0, 2, "the waste")) is { } why
            ? new Missing(why)
            : area * rate * faces * (1 + waste);

    /// <summary>Coating, m3: area x coats x wet film x (1 + waste). Also fill and flood coats of resin.</summary>
    public static Result<double> ByFilm(double area, int coats, double wetFilm, double waste = 0) =>
        Need.All(Need.NotNegative(area, "the area"), Need.Some(coats, "coat"), Need.Positive(wetFilm, "the film thickness"), Need.Between(waste, 0, 2, "the waste")) is { } why
            ? new Missing(why)
            : area * coats * wetFilm * (1 + waste);

    /// <summary>Coating, m3, from the coverage on its label.</summary>
    /// <param name="coverage">m2 covered once by one m3 (1 m2/l is 1000).</param>
    public static Result<double> ByCoverage(double area, int coats, double coverage, double waste = 0) =>
        Need.Positive(coverage, "the coverage") is { } why ? new Missing(why) : ByFilm(area, coats, 1 / coverage, waste);

    /// <summary>Area that a volume covers at a wet film, m2.</summary>
    public static Result<double> Coverage(double volume, double wetFilm) =>
        Need.All(Need.NotNegative(volume, "the volume"), Need.Positive(wetFilm, "the film thickness")) is { } why ? new Missing(why) : volume / wetFilm;

    /// <summary>Film left when it has dried, m: wet film x solids by volume.</summary>
    public static Result<double> DryFilm(double wetFilm, double solids) =>
        Need.All(Need.Positive(wetFilm, "the film thickness"), Need.Between(solids, 0.01, 1, "the solids by volume")) is { } why ? new Missing(why) : wetFilm * solids;
}
