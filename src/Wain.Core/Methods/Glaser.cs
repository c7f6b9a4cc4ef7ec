using System.Collections.Immutable;

namespace Wain.Core.Methods;

/// <summary>A layer as heat and vapour see it, warm (inside) first: resistance m2 K/W, equivalent air layer sd = mu d, m.</summary>
public sealed record MoistLayer(string Name, double Resistance, double Sd);

/// <summary>A spell of steady weather: temperatures in degrees Celsius, vapour pressures in Pa, length in s.</summary>
public sealed record ClimateSpell(string Name, double Inside, double InsidePressure, double Outside, double OutsidePressure, double Seconds)
{
    /// <summary>The same from humidities as fractions.</summary>
    public static Result<ClimateSpell> Of(string name, double inside, double insideHumidity, double outside, double outsideHumidity, double seconds) =>
        Vapour.Pressure(inside, insideHumidity).Then(pi => Vapour.Pressure(outside, outsideHumidity).Map(pe => new ClimateSpell(name, inside, pi, outside, pe, seconds)));
}

/// <summary>One plane at the start of a spell: temperature, saturation and vapour pressure (Pa), depth as equivalent air, m.</summary>
public sealed record VapourPlane(string Name, double Depth, double Temperature, double Saturation, double Pressure);

/// <summary>Water at one plane in one spell, kg/m2: what came (negative: what left) and what is there at its end.</summary>
public sealed record PlaneWater(string Plane, double Change, double Held);

/// <param name="Planes">The profile, from the inside surface to the outside surface.</param>
/// <param name="Water">Planes where something changed or is held.</param>
/// <param name="WetSurface">The inside surface is at or below the dew point of the air inside.</param>
public sealed record SpellResult(string Name, ImmutableArray<VapourPlane> Planes, ImmutableArray<PlaneWater> Water, bool WetSurface)
{
    public double Held => Water.Sum(w => w.Held);
}

/// <param name="Spells">In the order they were run; a year begins with the first spell that condenses.</param>
/// <param name="Peak">Most water held at the end of any spell, kg/m2, all planes together.</param>
/// <param name="PeakPlane">The plane that held the most at any time; null if none ever held any.</param>
/// <param name="DriesOut">Nothing is held at the end.</param>
public sealed record MoistureReport(ImmutableArray<SpellResult> Spells, double Peak, string? PeakPlane, bool DriesOut);

/// <summary>
/// Condensation inside a layered part by ISO 13788 (the Glaser method): steady diffusion, no capillary flow, no air leaking through. The vapour pressure is the taut string between the two
/// sides that nowhere passes above saturation: the lower convex hull, which finds any number of condensation planes at once. A kink in the string is where water gathers.
/// </summary>
public static class Glaser
{
    /// <summary>Layers thicker than this in resistance are cut into equal sub-layers (ISO 13788, 6.4), m2 K/W.</summary>
    public const double ThickLayer = 0.25;

    private const int MostParts = 200;

    /// <summary>Block climate of DIN 4108-3 (2001): 90 days of -5 degrees and 80 % against 20 degrees and 50 %, then 90 days of 12 degrees and 70 % on both sides.</summary>
    public static ImmutableArray<ClimateSpell> BlockClimate { get; } =
    [
        Block("condensing", 20, 0.5, -5, 0.8), Block("drying", 12, 0.7, 12, 0.7),
    ];

    /// <summary>Surface resistances that DIN 4108-3 uses with it, m2 K/W.</summary>
    public static (double Inside, double Outside) BlockSurfaces => (0.25, 0.04);

    /// <summary>Most water that DIN 4108-3 lets gather, kg/m2: 1.0, or 0.5 where a layer at the plane takes up no water by capillarity.</summary>
    public static double BlockLimit(bool capillary) => capillary ? 1.0 : 0.5;

    /// <summary>A year: begins with the first spell that condenses after one that does not, and goes once round (ISO 13788, 6.4.5).</summary>
    public static Result<MoistureReport> Year(IReadOnlyList<MoistLayer> layers, double insideSurface, double outsideSurface, IReadOnlyList<ClimateSpell> spells, bool cutThickLayers = true) =>
        Ask(layers, insideSurface, outsideSurface, spells) is { } why ? new Missing(why) : Run(Cut(layers, cutThickLayers), insideSurface, outsideSurface, FromFirstWet(Cut(layers, cutThickLayers), insideSurface, outsideSurface, spells));

    /// <summary>Spells one after another from a dry start: one night, or a trip.</summary>
    public static Result<MoistureReport> Spells(IReadOnlyList<MoistLayer> layers, double insideSurface, double outsideSurface, IReadOnlyList<ClimateSpell> spells, bool cutThickLayers = true) =>
        Ask(layers, insideSurface, outsideSurface, spells) is { } why ? new Missing(why) : Run(Cut(layers, cutThickLayers), insideSurface, outsideSurface, spells);

    private static ClimateSpell Block(string name, double inside, double insideHumidity, double outside, double outsideHumidity) =>
        new(name, inside, insideHumidity * Vapour.SaturationUnchecked(inside), outside, outsideHumidity * Vapour.SaturationUnchecked(outside), 90 * 86400);

    private static string? Ask(IReadOnlyList<MoistLayer> layers, double inside, double outside, IReadOnlyList<ClimateSpell> spells) => Need.All(
        Need.Some(layers.Count, "layer"), Need.Some(spells.Count, "spell of weather"), Need.NotNegative(inside, "the inside surface resistance"), Need.NotNegative(outside, "the outside surface resistance"),
        Need.Each(layers, l => Need.All(Need.NotNegative(l.Resistance, $"the resistance of {l.Name}"), Need.NotNegative(l.Sd, $"sd of {l.Name}"))),
        Need.Positive(layers.Sum(l => l.Resistance) + inside + outside, "the total resistance"), Need.Positive(layers.Sum(l => l.Sd), "the total sd"),
        Need.Each(spells, s => Need.All(
            Need.Between(s.Inside, -80, 80, "the temperature inside"), Need.Between(s.Outside, -80, 80, "the temperature outside"), Need.NotNegative(s.Seconds, "the length of a spell"),
            Need.NotNegative(s.InsidePressure, "the vapour pressure inside"), Need.NotNegative(s.OutsidePressure, "the vapour pressure outside"),
            Need.That(s.InsidePressure <= Vapour.SaturationUnchecked(s.Inside) * 1.001, "the humidity inside is above 100 %"),
            Need.That(s.OutsidePressure <= Vapour.SaturationUnchecked(s.Outside) * 1.001, "the humidity outside is above 100 %"))));

    private static MoistLayer[] Cut(IReadOnlyList<MoistLayer> layers, bool cut) => [.. layers.SelectMany(l =>
    {
        // More than these no wall of any use has; what states more is cut coarser.
        var parts = cut ? (int)Math.Clamp(Math.Ceiling(l.Resistance / ThickLayer - 1e-9), 1, MostParts) : 1;
        return Enumerable.Range(0, parts).Select(i => new MoistLayer(i + 1 < parts ? $"within {l.Name}" : l.Name, l.Resistance / parts, l.Sd / parts));
    })];

    private static IReadOnlyList<ClimateSpell> FromFirstWet(MoistLayer[] layers, double inside, double outside, IReadOnlyList<ClimateSpell> spells)
    {
        var wet = spells.Select(s => Rates(Profile(layers, inside, outside, s), s, new double[layers.Length + 1]).Rate.Any(r => r > 1e-20)).ToArray();
        var first = Enumerable.Range(0, spells.Count).FirstOrDefault(i => wet[i] && !wet[(i + spells.Count - 1) % spells.Count]);
        return [.. spells.Skip(first), .. spells.Take(first)];
    }

    private static MoistureReport Run(MoistLayer[] layers, double inside, double outside, IReadOnlyList<ClimateSpell> spells)
    {
        var held = new double[layers.Length + 1];
        var results = ImmutableArray.CreateBuilder<SpellResult>();
        var most = new double[held.Length];
        foreach (var spell in spells)
        {
            var profile = Profile(layers, inside, outside, spell);
            var before = (double[])held.Clone();
            var shown = Rates(profile, spell, held).Pressure;
            var left = spell.Seconds;
            // A plane that dries within the spell changes the string from then on, so the spell is run in pieces; each piece but the last dries at least one plane.
            for (var piece = 0; left > 0 && piece < 1000; piece++)
            {
                var rate = Rates(profile, spell, held).Rate;
                var time = Enumerable.Range(0, held.Length).Where(k => rate[k] < 0).Select(k => held[k] / -rate[k]).Append(left).Min();
                for (var k = 0; k < held.Length; k++)
                {
                    var now = held[k] + rate[k] * time;
                    held[k] = now > 1e-12 ? now : 0;
                    most[k] = Math.Max(most[k], held[k]);
                }

                left -= time;
            }

            string Name(int k) => k == 0 ? "inside surface" : k == layers.Length ? "outside surface" : layers[k - 1].Name.StartsWith("within ", StringComparison.Ordinal) ? layers[k - 1].Name : $"{layers[k - 1].Name} to {layers[k].Name.Replace("within ", "", StringComparison.Ordinal)}";
            results.Add(new(
                spell.Name,
                [.. Enumerable.Range(0, held.Length).Select(k => new VapourPlane(Name(k), profile.Depth[k], profile.Temperature[k], profile.Saturation[k], shown[k]))],
                [.. Enumerable.Range(0, held.Length).Where(k => held[k] > 0 || before[k] > 0).Select(k => new PlaneWater(Name(k), held[k] - before[k], held[k]))],
                spell.InsidePressure >= profile.Saturation[0]));
        }

        var wettest = Array.IndexOf(most, most.Max());
        return new(results.ToImmutable(), results.Max(r => r.Held), most.Max() > 0 ? results[0].Planes[wettest].Name : null, held.All(h => h == 0));
    }

    private sealed record Planes(double[] Depth, double[] Temperature, double[] Saturation);

    private static Planes Profile(MoistLayer[] layers, double inside, double outside, ClimateSpell spell)
    {
        var total = inside + outside + layers.Sum(l => l.Resistance);
        var (resistance, depth) = (inside, 0.0);
        var planes = new Planes(new double[layers.Length + 1], new double[layers.Length + 1], new double[layers.Length + 1]);
        for (var k = 0; k <= layers.Length; k++)
        {
            planes.Depth[k] = depth;
            planes.Temperature[k] = spell.Inside - (spell.Inside - spell.Outside) * resistance / total;
            planes.Saturation[k] = Vapour.SaturationUnchecked(planes.Temperature[k]);
            if (k < layers.Length)
            {
                resistance += layers[k].Resistance;
                // Airspaces have no vapour resistance; a film of nothing keeps the planes on its two sides apart.
                depth += Math.Max(layers[k].Sd, 1e-7);
            }
        }

        return planes;
    }

    /// <summary>The string through all planes that hold water (there the pressure is saturation), under all others; and the water that comes to each plane, kg/(m2 s).</summary>
    private static (double[] Pressure, double[] Rate) Rates(Planes planes, ClimateSpell spell, double[] held)
    {
        var last = planes.Depth.Length - 1;
        var pressure = (double[])planes.Saturation.Clone();
        pressure[0] = Math.Min(pressure[0], spell.InsidePressure);
        pressure[last] = Math.Min(pressure[last], spell.OutsidePressure);
        double Slope(int i, int j) => (pressure[j] - pressure[i]) / (planes.Depth[j] - planes.Depth[i]);
        var hull = new List<int> { 0 };
        var fixedFrom = 0;
        for (var k = 1; k <= last; k++)
        {
            // Points before the last plane that holds water are settled; after it the string is pulled tight from below.
            while (hull.Count - 1 > fixedFrom && Slope(hull[^2], hull[^1]) >= Slope(hull[^1], k))
            {
                hull.RemoveAt(hull.Count - 1);
            }

            hull.Add(k);
            if (held[k] > 0)
            {
                fixedFrom = hull.Count - 1;
            }
        }

        var rate = new double[last + 1];
        for (var h = 1; h < hull.Count - 1; h++)
        {
            rate[hull[h]] = Vapour.AirPermeability * (Slope(hull[h], hull[h + 1]) - Slope(hull[h - 1], hull[h]));
        }

        for (var h = 0; h + 1 < hull.Count; h++)
        {
            for (var k = hull[h] + 1; k < hull[h + 1]; k++)
            {
                pressure[k] = pressure[hull[h]] + Slope(hull[h], hull[h + 1]) * (planes.Depth[k] - planes.Depth[hull[h]]);
            }
        }

        return (pressure, rate);
    }
}
