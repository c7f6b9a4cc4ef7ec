using System.Globalization;
using Wain.Core.Units;

namespace Wain.Core.Text;

/// <summary>Figures as messages say them, in the units that the spec's camper block shows results in; always exact enough to act on.</summary>
/// <param name="Metric">Lengths in millimetres, with the units that go with them; else in inches and their fractions.</param>
/// <param name="Kilograms">Weights in kilograms, else in pounds.</param>
public sealed record Say(bool Metric, bool Kilograms)
{
    private const double Inch = 25.4, Sixteenth = Inch / 16;

    /// <summary>Where a spec says nothing of units, or can't be asked yet.</summary>
    public static readonly Say Usual = new(false, false);

    public string LengthUnit => Metric ? "mm" : "in";

    public string WeightUnit => Kilograms ? "kg" : "lb";

    /// <summary>A length (mm) as a number of <see cref="LengthUnit"/>.</summary>
    public double Measured(double mm) => Metric ? mm : mm / Inch;

    /// <summary>A mass (kg) as a number of <see cref="WeightUnit"/>.</summary>
    public double Weighed(double kg) => Kilograms ? kg : In(kg, "lb");

    /// <summary>What a builder's tape tells apart (mm): 1/16 in, or a millimetre.</summary>
    public double Step => Metric ? 1 : Sixteenth;

    /// <summary>Millimetres with two decimals at most; or as inches, a fraction if it is one of 1/64 in or coarser, else three decimals.</summary>
    public string Length(double mm) => Metric ? Number(mm) + " mm" : Inches(mm);

    /// <summary>A length for the eye: to the nearest 1/16 in, and 1/64 in where it is small; to the nearest millimetre, and a tenth where it is small.</summary>
    public string Nearly(double mm)
    {
        double step = Math.Abs(mm) < Inch / 4 ? Metric ? 0.1 : Inch / 64 : Step;
        double rounded = Math.Round(mm / step, MidpointRounding.AwayFromZero) * step;
        return rounded == 0 && mm != 0 ? Length(mm) : Length(rounded);
    }

    /// <summary>A length to the nearest step of a tape, however small.</summary>
    public string ToTape(double mm) => Length(Math.Round(mm / Step, MidpointRounding.AwayFromZero) * Step);

    /// <summary>A length to write, at least as long (mm): up to the next 1/16 in, or millimetre.</summary>
    public string AtLeast(double mm) => Length(Up(mm));

    /// <summary>A length to write, at most as long (mm): down to the next 1/16 in, or millimetre.</summary>
    public string AtMost(double mm) => Length(Math.Floor(mm / Step + 1e-9) * Step);

    /// <summary>The least whole number of a tape's steps that is as long (mm).</summary>
    public double Up(double mm) => Math.Ceiling(mm / Step - 1e-9) * Step;

    /// <summary>A length between two (mm), a step of a tape if one of them lies between, else exact enough to fall between.</summary>
    public string Between(double low, double high)
    {
        double up = Up(low);
        return Length(up <= high + 1e-9 ? up : (low + high) / 2);
    }

    public string Weight(double kg) => Kilograms ? Number(kg, Math.Abs(kg) < 10 ? "0.##" : "0.#") + " kg" : Number(In(kg, "lb"), "0") + " lb";

    /// <summary>A weight to a tenth, for one that was weighed.</summary>
    public string Tenths(double kg) => Kilograms ? Number(kg, "0.#") + " kg" : Number(In(kg, "lb"), "0.#") + " lb";

    public string Force(double newton) => Metric ? Math.Abs(newton) < 10_000 ? Number(newton, "0") + " N" : Number(newton / 1000, "0.#") + " kN" : Number(In(newton, "lbf"), "0") + " lbf";

    public string Pressure(double pascal) => Metric ? Number(pascal / 1e6, pascal < 1e5 ? "0.000" : "0.00") + " MPa" : Number(In(pascal, "psi"), In(pascal, "psi") < 10 ? "0.0" : "0") + " psi";

    public string Temperature(double celsius) => Metric ? Number(celsius, "0") + " degC" : Number(celsius * 9 / 5 + 32, "0") + " degF";

    /// <summary>A difference of temperatures (K).</summary>
    public string Warmer(double kelvin) => Metric ? Number(kelvin, "0") + " degrees" : Number(kelvin * 1.8, "0") + " degrees F";

    /// <summary>A pressure over an area of floor or roof.</summary>
    public string Spread(double pascal) => Metric ? Number(pascal / 1000) + " kPa" : Number(In(pascal, "psf"), "0.#") + " lb/ft2";

    public string Speed(double metresPerSecond) => Metric ? Number(metresPerSecond, "0.#") + " m/s" : Number(In(metresPerSecond, "mph"), "0") + " mph";

    /// <summary>A length in a formula (mm): to a tenth of an inch, or a millimetre.</summary>
    public string Roughly(double mm) => Metric ? Number(mm, "0") + " mm" : Number(mm / Inch, "0.0") + " in";

    /// <summary>A measure that stands for any other, in an example of what to write.</summary>
    public string Such(string customary, string metric) => Metric ? metric : customary;

    /// <summary>A quantity in the unit that a person in the trade would use.</summary>
    public string Quantity(Quantity q)
    {
        if (q.Dimension == Dimension.OfLength) return Length(q.Millimetres);
        if (q.Dimension == Dimension.OfAngle) return Number(q.Value) + " deg";
        if (q.Dimension.Money == 1 && q.Dimension.Currency is { } currency && q.Dimension == Dimension.OfMoney(currency)) return Number(q.Value, "0.00") + " " + currency;
        foreach (string unit in Kilograms ? ["kg", .. Metric ? MetricUnits : TradeUnits] : Metric ? MetricUnits : TradeUnits)
        {
            var u = UnitTable.Find(unit)!;
            if (u.Dimension == q.Dimension) return Number(UnitTable.FromBase(q, u), "0.####") + " " + unit;
        }
        return Number(q.Value, "0.####") + (q.Dimension.IsNone ? "" : " (" + q.Dimension.Describe() + ")");
    }

    /// <summary>Radians as degrees with two decimals at most.</summary>
    public static string Angle(double radians) => Number(radians * 180 / Math.PI) + " deg";

    public static string Number(double value, string format = "0.##")
    {
        string text = value.ToString(format, CultureInfo.InvariantCulture);
        // What is rounded to nothing has no sign.
        return text.StartsWith('-') && text.AsSpan().IndexOfAnyInRange('1', '9') < 0 ? text[1..] : text;
    }

    public static string Percent(double share) => Number(share * 100, "0") + " %";

    public static string Grams(double kgPerSquareMetre) => Number(kgPerSquareMetre * 1000, kgPerSquareMetre < 0.01 ? "0.0" : "0") + " g/m2";

    private static readonly string[] TradeUnits = ["lb", "ft2", "ft3", "lb/ft3", "lbf", "psi", "h", "degF", "F_diff", "lb/ft2", "lb/ft", "W/m2/K", "W/m/K", "W", "Wh", "mph", "ft2/gal"];
    private static readonly string[] MetricUnits = ["lb", "m2", "m3", "kg/m3", "N", "MPa", "h", "degC", "K", "kg/m2", "kg/m", "W/m2/K", "W/m/K", "W", "Wh", "mph", "m2/l"];

    private static double In(double value, string unit) => value / UnitTable.Find(unit)!.Factor.ToDouble();

    private static string Inches(double mm)
    {
        double inches = mm / Inch;
        double sixtyFourths = Math.Round(inches * 64, MidpointRounding.AwayFromZero);
        if (Math.Abs(inches * 64 - sixtyFourths) > 0.002) return Number(inches, "0.###") + " in";
        string sign = sixtyFourths < 0 ? "-" : "";
        long n = (long)Math.Abs(sixtyFourths);
        long whole = n / 64, rest = n % 64, denominator = 64;
        while (rest > 0 && rest % 2 == 0)
        {
            rest /= 2;
            denominator /= 2;
        }
        string text = rest == 0 ? Number(whole) : whole == 0 ? $"{rest}/{denominator}" : $"{Number(whole)} {rest}/{denominator}";
        return sign + text + " in";
    }
}
