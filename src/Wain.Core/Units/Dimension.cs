using System.Text;

namespace Wain.Core.Units;

/// <summary>
/// The kind of a quantity as exponents of length, mass, time, temperature, angle and money. An angle is a kind of its own, so that
/// degrees never pass for a count; a temperature on a scale is another kind than a difference of temperatures; two currencies are two kinds.
/// </summary>
public readonly record struct Dimension(sbyte Length, sbyte Mass, sbyte Time, sbyte Temperature, sbyte Angle, sbyte Money, string? Currency, bool OnScale)
{
    public static readonly Dimension None = default;
    public static readonly Dimension OfLength = new(1, 0, 0, 0, 0, 0, null, false);
    public static readonly Dimension OfArea = OfLength.ToPower(2);
    public static readonly Dimension OfVolume = OfLength.ToPower(3);
    public static readonly Dimension OfMass = new(0, 1, 0, 0, 0, 0, null, false);
    public static readonly Dimension OfTime = new(0, 0, 1, 0, 0, 0, null, false);
    public static readonly Dimension OfTemperatureDifference = new(0, 0, 0, 1, 0, 0, null, false);
    public static readonly Dimension OfTemperature = new(0, 0, 0, 1, 0, 0, null, true);
    public static readonly Dimension OfAngle = new(0, 0, 0, 0, 1, 0, null, false);
    public static readonly Dimension OfForce = new(1, 1, -2, 0, 0, 0, null, false);
    public static readonly Dimension OfPressure = new(-1, 1, -2, 0, 0, 0, null, false);
    public static readonly Dimension OfDensity = new(-3, 1, 0, 0, 0, 0, null, false);
    public static readonly Dimension OfMassPerArea = new(-2, 1, 0, 0, 0, 0, null, false);
    public static readonly Dimension OfMassPerLength = new(-1, 1, 0, 0, 0, 0, null, false);
    public static readonly Dimension OfEnergy = new(2, 1, -2, 0, 0, 0, null, false);
    public static readonly Dimension OfPower = new(2, 1, -3, 0, 0, 0, null, false);
    public static readonly Dimension OfConductivity = new(1, 1, -3, -1, 0, 0, null, false);
    public static readonly Dimension OfTransmittance = new(0, 1, -3, -1, 0, 0, null, false);
    public static readonly Dimension OfResistance = new(0, -1, 3, 1, 0, 0, null, false);
    public static readonly Dimension OfSpeed = new(1, 0, -1, 0, 0, 0, null, false);
    public static readonly Dimension OfCoverage = new(-1, 0, 0, 0, 0, 0, null, false);
    public static readonly Dimension OfForcePerLength = new(0, 1, -2, 0, 0, 0, null, false);

    public static Dimension OfMoney(string currency) => new(0, 0, 0, 0, 0, 1, currency, false);

    public bool IsNone => this == None;

    /// <summary>The kind of a product; null if two currencies would multiply or an exponent leaves its range.</summary>
    public static Dimension? Multiply(Dimension a, Dimension b)
    {
        if (a.Currency is not null && b.Currency is not null && a.Currency != b.Currency) return null;
        // Twice 70 degF is no temperature that anyone means.
        if (a.OnScale || b.OnScale) return null;
        int l = a.Length + b.Length, m = a.Mass + b.Mass, t = a.Time + b.Time, k = a.Temperature + b.Temperature, n = a.Angle + b.Angle, c = a.Money + b.Money;
        if (Math.Max(Math.Max(Math.Max(Math.Abs(l), Math.Abs(m)), Math.Max(Math.Abs(t), Math.Abs(k))), Math.Max(Math.Abs(n), Math.Abs(c))) > 24) return null;
        return new Dimension((sbyte)l, (sbyte)m, (sbyte)t, (sbyte)k, (sbyte)n, (sbyte)c, c == 0 ? null : a.Currency ?? b.Currency, false);
    }

    public Dimension Inverse() => new((sbyte)-Length, (sbyte)-Mass, (sbyte)-Time, (sbyte)-Temperature, (sbyte)-Angle, (sbyte)-Money, Currency, false);

    public Dimension ToPower(int n) => new((sbyte)(Length * n), (sbyte)(Mass * n), (sbyte)(Time * n), (sbyte)(Temperature * n), (sbyte)(Angle * n), (sbyte)(Money * n), n == 0 ? null : Currency, false);

    /// <summary>As a person says it: "a length", "a mass per area", "a plain number".</summary>
    public string Describe()
    {
        if (Money == 1 && this == OfMoney(Currency!)) return $"an amount of {Currency}";
        foreach (var (kind, words) in Named) if (kind == this) return words;
        if (Money == 1) foreach (var (per, words) in new[] { (OfLength, "length"), (OfArea, "area"), (OfVolume, "volume"), (OfMass, "mass"), (OfTime, "time") }) if (Multiply(this, per) == OfMoney(Currency!)) return $"an amount of {Currency} per {words}";
        var text = new StringBuilder("a quantity in");
        Append(text, "m", Length); Append(text, "kg", Mass); Append(text, "s", Time); Append(text, "K", Temperature); Append(text, "deg", Angle); Append(text, Currency ?? "money", Money);
        return text.ToString();
    }

    private static readonly (Dimension Kind, string Words)[] Named =
    [
        (None, "a plain number"), (OfLength, "a length"), (OfArea, "an area"), (OfVolume, "a volume"), (OfMass, "a mass"), (OfTime, "a time"),
        (OfTemperatureDifference, "a difference of temperatures"), (OfTemperature, "a temperature"), (OfAngle, "an angle"), (OfForce, "a force"),
        (OfPressure, "a pressure"), (OfDensity, "a density"), (OfMassPerArea, "a mass per area"), (OfMassPerLength, "a mass per length"),
        (OfEnergy, "an energy"), (OfPower, "a power"), (OfConductivity, "a heat conductivity"), (OfTransmittance, "a heat transmittance"),
        (OfResistance, "a heat resistance"), (OfSpeed, "a speed"), (OfCoverage, "a coverage (area per volume)"), (OfForcePerLength, "a force per length"),
    ];

    private static void Append(StringBuilder text, string unit, int power)
    {
        if (power == 0) return;
        text.Append(' ').Append(unit);
        if (power != 1) text.Append('^').Append(power.ToString(System.Globalization.CultureInfo.InvariantCulture));
    }
}
