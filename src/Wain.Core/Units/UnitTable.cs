
namespace Wain.Core.Units;

/// <summary>A unit of the language: its spelling, its kind, and what one of it is in base units, exactly.</summary>
/// <param name="Offset">For scales of temperature: added before the factor, so that kelvin = (value + offset) * factor.</param>
public sealed record Unit(string Name, Dimension Dimension, Rational Factor, Rational Offset, string Words);

/// <summary>
/// Every unit that a spec may use. Factors are exact by definition: the inch and the avoirdupois pound of 1959 (25.4 mm; 0.45359237 kg),
/// standard gravity 9.80665 m/s2, the US gallon of 231 cubic inches; the Btu is that of the International Table.
/// </summary>
public static class UnitTable
{
    private static readonly Dictionary<string, Unit> Units = Build().ToDictionary(u => u.Name, StringComparer.Ordinal);

    public static IReadOnlyCollection<Unit> All => Units.Values;

    /// <summary>True for a single unit word and for three capital letters, which name a currency.</summary>
    public static bool IsUnit(string word) => Units.ContainsKey(word) || IsCurrency(word);

    /// <summary>The unit that a word which is none was probably meant to be: its name written out, or its letters in another case. Null if there is no such unit.</summary>
    public static string? Meant(string word) => SpokenUnits.Find(word);

    public static bool IsCurrency(string word) => word.Length == 3 && word.All(c => c is >= 'A' and <= 'Z');

    /// <summary>A unit by its text: one word, or words joined by / and * without blanks, such as oz/yd2 and Btu*in/h/ft2/degF. Null if unknown.</summary>
    public static Unit? Find(string text)
    {
        if (Units.TryGetValue(text, out var unit)) return unit;
        if (IsCurrency(text)) return new Unit(text, Dimension.OfMoney(text), Rational.One, Rational.Zero, text);
        if (text.IndexOfAny(['/', '*']) < 0) return null;
        var dimension = Dimension.None;
        Rational factor = 1;
        int start = 0;
        bool divide = false;
        for (int i = 0; i <= text.Length; i++)
        {
            if (i < text.Length && text[i] is not ('/' or '*')) continue;
            if (Find(text[start..i]) is not { } part) return null;
            var kind = part.Dimension.OnScale ? part.Dimension with { OnScale = false } : part.Dimension;
            if (Dimension.Multiply(dimension, divide ? kind.Inverse() : kind) is not { } product) return null;
            dimension = product;
            if (Rational.Multiply(factor, divide ? part.Factor.Inverse() ?? 1 : part.Factor) is not { } scaled) return null;
            factor = scaled;
            if (i < text.Length) divide = text[i] == '/';
            start = i + 1;
        }
        return new Unit(text, dimension, factor, Rational.Zero, text);
    }

    /// <summary>A number of a unit in base units.</summary>
    public static Quantity ToBase(Rational number, Unit unit) => ToBase(new Quantity(number, Dimension.None), unit);

    /// <summary>A number of a unit in base units.</summary>
    public static Quantity ToBase(Quantity number, Unit unit)
    {
        if (number.Exact is not { } exactNumber) return new Quantity((number.Value + unit.Offset.ToDouble()) * unit.Factor.ToDouble(), unit.Dimension);
        return ToBaseExact(exactNumber, unit);
    }

    private static Quantity ToBaseExact(Rational number, Unit unit)
    {
        var shifted = unit.Offset == Rational.Zero ? number : Rational.Add(number, unit.Offset) ?? number;
        return Rational.Multiply(shifted, unit.Factor) is { } exact
            ? new Quantity(exact, unit.Dimension)
            : new Quantity(shifted.ToDouble() * unit.Factor.ToDouble(), unit.Dimension);
    }

    /// <summary>How many of the unit a quantity is, exactly if that can be; the caller has checked the kind.</summary>
    public static Quantity NumberOf(Quantity quantity, Unit unit)
    {
        if (quantity.Exact is { } exact && Rational.Multiply(exact, unit.Factor.Inverse()!.Value) is { } scaled && Rational.Add(scaled, unit.Offset.Negate()) is { } number) return new Quantity(number, Dimension.None);
        return new Quantity(quantity.Value / unit.Factor.ToDouble() - unit.Offset.ToDouble(), Dimension.None);
    }

    /// <summary>How many of the unit a quantity is; the caller has checked the kind.</summary>
    public static double FromBase(Quantity quantity, Unit unit) => NumberOf(quantity, unit).Value;

    private static IEnumerable<Unit> Build()
    {
        static Rational Of(long numerator, long denominator) => Rational.Of(numerator, denominator)!.Value;
        static Rational Times(Rational a, Rational b) => Rational.Multiply(a, b)!.Value;
        static Rational Power(Rational a, int n) => n == 1 ? a : Times(a, Power(a, n - 1));
        static Unit Make(string name, Dimension kind, Rational factor, string words) => new(name, kind, factor, Rational.Zero, words);

        (string Name, Rational Metres, string Words)[] lengths =
        [
            ("in", Of(127, 5000), "inches"), ("ft", Of(381, 1250), "feet"), ("yd", Of(1143, 1250), "yards"),
            ("mm", Of(1, 1000), "millimetres"), ("cm", Of(1, 100), "centimetres"), ("m", 1, "metres"),
        ];
        foreach (var (name, metres, words) in lengths)
        {
            yield return Make(name, Dimension.OfLength, metres, words);
            yield return Make(name + "2", Dimension.OfArea, Power(metres, 2), "square " + words);
            yield return Make(name + "3", Dimension.OfVolume, Power(metres, 3), "cubic " + words);
            yield return Make(name + "4", Dimension.OfLength.ToPower(4), Power(metres, 4), words + " to the fourth");
        }
        var inch3 = Power(Of(127, 5000), 3);
        var gallon = Times(231, inch3);
        var pound = Of(45359237, 100000000);
        var gravity = Of(980665, 100000);
        var poundForce = Times(pound, gravity);
        var foot2 = Power(Of(381, 1250), 2);
        var inch2 = Power(Of(127, 5000), 2);
        var btu = Of(105505585262, 100000000);
        yield return Make("mil", Dimension.OfLength, Of(127, 5000000), "thousandths of an inch");
        yield return Make("mi", Dimension.OfLength, Of(1609344, 1000), "miles");
        yield return Make("km", Dimension.OfLength, 1000, "kilometres");
        yield return Make("gal", Dimension.OfVolume, gallon, "US gallons");
        yield return Make("qt", Dimension.OfVolume, Times(gallon, Of(1, 4)), "US quarts");
        yield return Make("pt", Dimension.OfVolume, Times(gallon, Of(1, 8)), "US pints");
        yield return Make("fl_oz", Dimension.OfVolume, Times(gallon, Of(1, 128)), "US fluid ounces");
        yield return Make("l", Dimension.OfVolume, Of(1, 1000), "litres");
        yield return Make("ml", Dimension.OfVolume, Of(1, 1000000), "millilitres");
        yield return Make("board_ft", Dimension.OfVolume, Times(144, inch3), "board feet");
        yield return Make("lb", Dimension.OfMass, pound, "pounds");
        yield return Make("oz", Dimension.OfMass, Times(pound, Of(1, 16)), "ounces");
        yield return Make("g", Dimension.OfMass, Of(1, 1000), "grams");
        yield return Make("kg", Dimension.OfMass, 1, "kilograms");
        yield return Make("t", Dimension.OfMass, 1000, "tonnes");
        yield return Make("lbf", Dimension.OfForce, poundForce, "pounds of force");
        yield return Make("N", Dimension.OfForce, 1, "newtons");
        yield return Make("kN", Dimension.OfForce, 1000, "kilonewtons");
        yield return Make("psi", Dimension.OfPressure, Times(poundForce, inch2.Inverse()!.Value), "pounds per square inch");
        yield return Make("psf", Dimension.OfPressure, Times(poundForce, foot2.Inverse()!.Value), "pounds per square foot");
        yield return Make("Pa", Dimension.OfPressure, 1, "pascals");
        yield return Make("kPa", Dimension.OfPressure, 1000, "kilopascals");
        yield return Make("MPa", Dimension.OfPressure, 1000000, "megapascals");
        yield return Make("GPa", Dimension.OfPressure, 1000000000, "gigapascals");
        yield return Make("s", Dimension.OfTime, 1, "seconds");
        yield return Make("s2", Dimension.OfTime.ToPower(2), 1, "seconds squared");
        yield return Make("min", Dimension.OfTime, 60, "minutes");
        yield return Make("h", Dimension.OfTime, 3600, "hours");
        yield return Make("days", Dimension.OfTime, 86400, "days");
        yield return Make("day", Dimension.OfTime, 86400, "days");
        yield return Make("mph", Dimension.OfSpeed, Of(1609344, 3600000), "miles per hour");
        yield return Make("deg", Dimension.OfAngle, 1, "degrees");
        yield return Make("rad", Dimension.OfAngle, Of(180000000000000000, 3141592653589793), "radians");
        yield return new Unit("degF", Dimension.OfTemperature, Of(5, 9), Of(45967, 100), "degrees Fahrenheit");
        yield return new Unit("degC", Dimension.OfTemperature, 1, Of(27315, 100), "degrees Celsius");
        yield return Make("F_diff", Dimension.OfTemperatureDifference, Of(5, 9), "Fahrenheit degrees of difference");
        yield return Make("K", Dimension.OfTemperatureDifference, 1, "kelvins of difference");
        yield return Make("J", Dimension.OfEnergy, 1, "joules");
        yield return Make("Wh", Dimension.OfEnergy, 3600, "watt hours");
        yield return Make("Btu", Dimension.OfEnergy, btu, "British thermal units");
        yield return Make("W", Dimension.OfPower, 1, "watts");
        yield return Make("kW", Dimension.OfPower, 1000, "kilowatts");
        yield return Make("perm", new Dimension(-1, 0, 1, 0, 0, 0, null, false), Of(572135, 10000000000000000), "US perms");
        yield return Make("%", Dimension.None, Of(1, 100), "percent");
    }
}
