using System.Collections.Immutable;

namespace Wain.Core.Methods;

/// <summary>A share of the area with the layers that heat meets on its way there, warm side first.</summary>
/// <param name="Fraction">Of the area, 0 to 1.</param>
/// <param name="Resistances">m2 K/W, one for each layer; all sections have the same layers.</param>
public sealed record HeatPath(double Fraction, ImmutableArray<double> Resistances);

/// <summary>A layer with what bridges it: one resistance for each material and the share of the area it takes.</summary>
public sealed record BridgedLayer(ImmutableArray<(double Fraction, double Resistance)> Parts)
{
    public static BridgedLayer Plain(double resistance) => new([(1, resistance)]);

    public static BridgedLayer With(double fraction, double bridge, double between) => new([(1 - fraction, between), (fraction, bridge)]);
}

/// <summary>Thermal transmittance by the combined method.</summary>
/// <param name="Upper">Upper limit of total resistance, m2 K/W, heat flowing straight through.</param>
/// <param name="Lower">Lower limit, each layer at one temperature.</param>
/// <param name="Resistance">Their mean.</param>
/// <param name="U">W/(m2 K), with corrections if they come to 3 % or more.</param>
/// <param name="Correction">What was added to U.</param>
/// <param name="ErrorBound">Largest relative error of the mean, (upper - lower)/(2 R).</param>
/// <param name="Applicable">ISO 6946 allows the method up to an upper limit of 1.5 times the lower.</param>
public sealed record Transmittance(double Upper, double Lower, double Resistance, double U, double Correction, double ErrorBound, bool Applicable);

/// <summary>Which way heat flows through a surface.</summary>
public enum HeatFlow
{
    Up,
    Horizontal,
    Down,
}

/// <summary>Thermal resistance and transmittance of building parts by ISO 6946. Resistances in m2 K/W, lengths m, temperatures in degrees Celsius.</summary>
public static class Warmth
{
    /// <summary>External surface resistance, ISO 6946 Table 7.</summary>
    public const double OutsideSurface = 0.04;

    /// <summary>R = d/lambda.</summary>
    public static Result<double> Resistance(double thickness, double conductivity) =>
        Need.All(Need.Positive(thickness, "the thickness of a layer"), Need.Positive(conductivity, "the conductivity of a layer")) is { } why ? new Missing(why) : thickness / conductivity;

    /// <summary>Internal surface resistance, ISO 6946 Table 7: 0.10 up, 0.13 horizontal, 0.17 down.</summary>
    public static double InsideSurface(HeatFlow flow) => flow switch { HeatFlow.Up => 0.10, HeatFlow.Horizontal => 0.13, _ => 0.17 };

    /// <summary>
    /// Direction of heat flow through a part by the elevation of the flow: within 30 degrees of the horizontal counts as horizontal (ISO 6946, 6.8).
    /// </summary>
    /// <param name="elevation">Of the direction from warm to cold, rad: +pi/2 through a flat roof, 0 through a wall, -pi/2 through a floor.</param>
    public static Result<HeatFlow> Flow(double elevation) =>
        Need.Between(elevation, -Math.PI / 2 - 1e-9, Math.PI / 2 + 1e-9, "the direction of heat flow") is { } why
            ? new Missing(why)
            : elevation > Math.PI / 6 + 1e-9 ? HeatFlow.Up : elevation < -Math.PI / 6 - 1e-9 ? HeatFlow.Down : HeatFlow.Horizontal;

    /// <summary>
    /// Surface resistance from convection and radiation, R = 1/(hc + hr), hr = 4 e s T^3; outside hc = 4 + 4 v. ISO 6946 annex C. Wind cools a shell more than the table's 4 m/s.
    /// </summary>
    /// <param name="wind">m/s at the surface.</param>
    /// <param name="emissivity">0 to 1.</param>
    /// <param name="temperature">Mean of surface and surroundings, K.</param>
    public static Result<double> OutsideInWind(double wind, double emissivity, double temperature) =>
        Need.All(Need.NotNegative(wind, "the wind speed"), Need.Between(emissivity, 0, 1, "the emissivity"), Need.Positive(temperature, "the temperature")) is { } why
            ? new Missing(why)
            : 1 / (4 + 4 * wind + emissivity * 4 * 5.67e-8 * Math.Pow(temperature, 3));

    /// <summary>Unventilated airspace with ordinary surfaces, ISO 6946 Table 8; straight lines between entries, 300 mm at most. From memory.</summary>
    public static Result<double> Airspace(double thickness, HeatFlow flow) =>
        Need.Between(thickness, 0, 0.3, "the thickness of the airspace") is { } why
            ? new Missing(why)
            : Tables.Interpolate(
                flow switch
                {
                    HeatFlow.Up => [(0, 0), (0.005, 0.11), (0.007, 0.13), (0.010, 0.15), (0.015, 0.16), (0.3, 0.16)],
                    HeatFlow.Horizontal => [(0, 0), (0.005, 0.11), (0.007, 0.13), (0.010, 0.15), (0.015, 0.17), (0.025, 0.18), (0.3, 0.18)],
                    _ => [(0, 0), (0.005, 0.11), (0.007, 0.13), (0.010, 0.15), (0.015, 0.17), (0.025, 0.19), (0.050, 0.21), (0.100, 0.22), (0.3, 0.23)],
                },
                thickness);

    /// <summary>Paths through layers that are bridged independently of each other (battens across studs): every combination, its share the product of the shares.</summary>
    public static Result<ImmutableArray<HeatPath>> Paths(IReadOnlyList<BridgedLayer> layers)
    {
        if (Need.All(
            Need.Some(layers.Count, "layer"),
            Need.Each(layers, l => Need.All(
                Need.Each(l.Parts, p => Need.All(Need.Between(p.Fraction, 0, 1, "the share of a part"), Need.NotNegative(p.Resistance, "the resistance of a layer"))),
                Need.That(Math.Abs(l.Parts.Sum(p => p.Fraction) - 1) < 1e-6, "the shares of a layer must add to one"))),
            Need.That(layers.Aggregate(1.0, (n, l) => n * l.Parts.Length) <= 4096, "too many layers are bridged")) is { } why)
        {
            return new Missing(why);
        }

        return layers.Aggregate(
            ImmutableArray.Create(new HeatPath(1, [])),
            (paths, layer) => [.. from path in paths from part in layer.Parts where part.Fraction > 0 select new HeatPath(path.Fraction * part.Fraction, path.Resistances.Add(part.Resistance))]);
    }

    /// <summary>
    /// Combined method, ISO 6946 6.7.2: 1/R' = sum(f/R of the path), 1/Rj = sum(f/Rj), R'' = Rsi + sum(Rj) + Rse, R = (R' + R'')/2, U = 1/R. Not for metal that bridges insulation.
    /// </summary>
    /// <param name="corrections">W/(m2 K) added to U (see <see cref="GapCorrection"/>, <see cref="FixingCorrection"/>); left out if below 3 % of U, as the standard allows.</param>
    public static Result<Transmittance> Combined(IReadOnlyList<HeatPath> paths, double inside, double outside, double corrections = 0)
    {
        if (Need.All(
            Need.Some(paths.Count, "path"), Need.NotNegative(inside, "the inside surface resistance"), Need.NotNegative(outside, "the outside surface resistance"), Need.NotNegative(corrections, "the correction"),
            Need.Each(paths, p => Need.All(Need.Between(p.Fraction, 0, 1, "the share of a path"), Need.Each(p.Resistances, r => Need.NotNegative(r, "the resistance of a layer")))),
            Need.That(Math.Abs(paths.Sum(p => p.Fraction) - 1) < 1e-6, "the shares of the paths must add to one"),
            Need.That(paths.All(p => p.Resistances.Length == paths[0].Resistances.Length), "the paths do not have the same layers"),
            Need.That(inside + outside + paths.Min(p => p.Resistances.Sum()) > 0, "a path has no resistance at all")) is { } why)
        {
            return new Missing(why);
        }

        var upper = 1 / paths.Sum(p => p.Fraction / (inside + p.Resistances.Sum() + outside));
        var lower = inside + outside + Enumerable.Range(0, paths[0].Resistances.Length).Sum(j => Layer(paths, j));
        var resistance = (upper + lower) / 2;
        var added = corrections >= 0.03 / resistance ? corrections : 0;
        return new Transmittance(upper, lower, resistance, 1 / resistance + added, added, (upper - lower) / (2 * resistance), upper <= 1.5 * lower);
    }

    /// <summary>
    /// Correction of U for air gaps in insulation: dU = level (R1/R)^2, level 0, 0.01 or 0.04 W/(m2 K) for gaps of degree 0, 1, 2. ISO 6946 annex F.
    /// </summary>
    /// <param name="insulation">Resistance of the layer with gaps.</param>
    /// <param name="total">Total resistance.</param>
    public static Result<double> GapCorrection(int degree, double insulation, double total) =>
        Need.All(Need.Between(degree, 0, 2, "the degree of the air gaps"), Need.NotNegative(insulation, "the resistance of the insulation"), Need.Positive(total, "the total resistance")) is { } why
            ? new Missing(why)
            : (degree switch { 0 => 0, 1 => 0.01, _ => 0.04 }) * Math.Pow(insulation / total, 2);

    /// <summary>
    /// Correction of U for metal fixings through insulation: dU = a lambda A n/d (R1/R)^2 with a = 0.8 d1/d of the insulation, d1 how deep the fixing goes. ISO 6946 annex F, from memory.
    /// </summary>
    /// <param name="conductivity">Of the fixing, W/(m K).</param>
    /// <param name="area">Section of one, m2.</param>
    /// <param name="perArea">Fixings on each m2.</param>
    public static Result<double> FixingCorrection(double conductivity, double area, double perArea, double thickness, double depth, double insulation, double total) =>
        Need.All(
            Need.Positive(conductivity, "the conductivity of the fixing"), Need.Positive(area, "the section of the fixing"), Need.NotNegative(perArea, "the number of fixings"),
            Need.Positive(thickness, "the thickness of the insulation"), Need.Between(depth, 0, thickness, "the depth of the fixing"),
            Need.NotNegative(insulation, "the resistance of the insulation"), Need.Positive(total, "the total resistance")) is { } why
            ? new Missing(why)
            : 0.8 * depth / thickness * conductivity * area * perArea / thickness * Math.Pow(insulation / total, 2);

    private static double Layer(IReadOnlyList<HeatPath> paths, int j) =>
        paths.Any(p => p.Fraction > 0 && p.Resistances[j] == 0) ? 0 : 1 / paths.Sum(p => p.Fraction / p.Resistances[j]);
}
