using System.Collections.Immutable;

namespace Wain.Core.Methods;

/// <summary>Two parts of a mix, kg and m3.</summary>
/// <param name="VolumeA">Not a number where the density of the part isn't known; likewise B.</param>
public sealed record TwoParts(double MassA, double MassB, double VolumeA, double VolumeB);

/// <summary>A mix split into equal batches.</summary>
/// <param name="Each">kg.</param>
/// <param name="Because">What limits a batch: the pot, the pot life, the working time, or nothing.</param>
public sealed record BatchPlan(int Count, double Each, string Because);

/// <summary>Filler for a consistency: volumes of loose filler to one of mixed epoxy.</summary>
public sealed record FillerRatio(string Consistency, double Low, double Likely, double High, string Source);

/// <summary>Resin and filler for a stated volume of paste.</summary>
public sealed record FilledMix(double ResinMass, double FillerMass, double LooseFillerVolume);

/// <summary>Hardener, batches and fillers. Mass kg, volume m3, time s, temperature degrees Celsius. Epoxy sensitises skin and a large batch in one pot can boil: small batches, gloves, air.</summary>
public static class Mixing
{
    /// <summary>Fumed silica by loose volume. From memory, low confidence: mix by eye to the consistency, the figure is for buying.</summary>
    public static ImmutableArray<FillerRatio> FumedSilica { get; } =
    [
        new("ketchup", 0.4, 0.5, 0.7, "from memory, low confidence"), new("mayonnaise", 0.8, 1.2, 1.5, "from memory, low confidence"), new("peanut butter", 1.5, 2, 2.5, "from memory, low confidence"),
    ];

    /// <summary>Parts by weight a : b of a total mass. Grams need no density; a part whose density is null has no volume.</summary>
    public static Result<TwoParts> ByWeight(double total, double a, double b, double? densityA, double? densityB) =>
        Ask(total, a, b, densityA ?? 1, densityB ?? 1) is { } why ? new Missing(why) : Parts(total * a / (a + b), total * b / (a + b), densityA ?? double.NaN, densityB ?? double.NaN);

    /// <summary>Parts by volume a : b of a total mass.</summary>
    public static Result<TwoParts> ByVolume(double total, double a, double b, double densityA, double densityB)
    {
        if (Ask(total, a, b, densityA, densityB) is { } why)
        {
            return new Missing(why);
        }

        var unit = total / (a * densityA + b * densityB);
        return Parts(unit * a * densityA, unit * b * densityB, densityA, densityB);
    }

    /// <summary>Pot life at another temperature: halved for each 10 K warmer, doubled for each 10 K colder. Common practice.</summary>
    public static Result<double> PotLifeAt(double potLife, double statedAt, double temperature) =>
        Need.All(Need.Positive(potLife, "the pot life"), Need.Finite(statedAt, "the stated temperature"), Need.Between(temperature, -20, 60, "the temperature")) is { } why
            ? new Missing(why)
            : potLife * Math.Pow(2, (statedAt - temperature) / 10);

    /// <summary>
    /// Equal batches that fit the pot, are used up within the pot life and can still be worked when the last of them is on: count = ceiling of total over the smallest of the largest
    /// batch, rate times usable pot life, and rate times working time.
    /// </summary>
    /// <param name="largest">Largest batch that is safe in the pot used, kg.</param>
    /// <param name="rate">How fast it is spread, kg/s.</param>
    /// <param name="usable">Share of the pot life that is used, common practice 0.5 to 0.7.</param>
    /// <param name="workingTime">How long a wet surface can be worked; infinite if that isn't known.</param>
    public static Result<BatchPlan> Batches(double total, double largest, double rate, double potLife, double usable = 0.6, double workingTime = double.PositiveInfinity)
    {
        if (Need.All(
            Need.Positive(total, "the mass of the mix"), Need.Positive(largest, "the largest batch"), Need.Positive(rate, "the rate of spreading"), Need.Positive(potLife, "the pot life"),
            Need.Between(usable, 0.05, 1, "the share of the pot life used"), Need.That(workingTime > 0, "the working time must be above zero")) is { } why)
        {
            return new Missing(why);
        }

        var byLife = rate * Math.Min(potLife * usable, workingTime);
        var limit = Math.Min(largest, byLife);
        if (total / limit > 10000)
        {
            return new Missing("the mix would need more than ten thousand batches");
        }

        var count = Math.Max(1, (int)Math.Ceiling(total / limit - 1e-9));
        return new BatchPlan(count, total / count, count == 1 ? "nothing" : byLife >= largest ? "pot" : workingTime < potLife * usable ? "working time" : "pot life");
    }

    /// <summary>What must go on wet in wet: the whole of it in s against the working time; how many pairs of hands it takes.</summary>
    public static Result<int> Hands(double total, double rate, double workingTime) =>
        Need.All(Need.Positive(total, "the mass of the mix"), Need.Positive(rate, "the rate of spreading"), Need.Positive(workingTime, "the working time"), Need.That(total / rate / workingTime <= 1000, "no number of hands is enough")) is { } why
            ? new Missing(why)
            : Math.Max(1, (int)Math.Ceiling(total / rate / workingTime - 1e-9));

    /// <summary>Paste of a stated volume: resin and filler by loose-volume ratio. Loose filler packs down to its own solid volume, so V = resin (1 + ratio loose/solid).</summary>
    public static Result<FilledMix> Filled(double volume, double ratio, double resinDensity, double looseDensity, double solidDensity)
    {
        if (Need.All(
            Need.NotNegative(volume, "the volume of paste"), Need.NotNegative(ratio, "the ratio of filler"), Need.Positive(resinDensity, "the density of resin"),
            Need.Positive(looseDensity, "the density of loose filler"), Need.That(solidDensity >= looseDensity, "loose filler is denser than solid filler")) is { } why)
        {
            return new Missing(why);
        }

        var resin = volume / (1 + ratio * looseDensity / solidDensity);
        return new FilledMix(resin * resinDensity, resin * ratio * looseDensity, resin * ratio);
    }

    private static TwoParts Parts(double a, double b, double densityA, double densityB) => new(a, b, a / densityA, b / densityB);

    private static string? Ask(double total, double a, double b, double densityA, double densityB) => Need.All(
        Need.NotNegative(total, "the mass of the mix"), Need.Positive(a, "a part of the mix"), Need.Positive(b, "a part of the mix"), Need.Positive(densityA, "the density of a part"), Need.Positive(densityB, "the density of a part"));
}
