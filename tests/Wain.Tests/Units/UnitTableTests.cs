using UnitsNet;
using Wain.Core.Units;
using Wain.Tests.Parsing;

namespace Wain.Tests.Units;

/// <summary>Factors against UnitsNet, which carries its own tables; and what exactness means.</summary>
public class UnitTableTests
{
    // Ours on the left, the referee's base value of one on the right.
    public static readonly Dictionary<string, double> Referee = new()
    {
        ["in"] = Length.FromInches(1).Meters, ["ft"] = Length.FromFeet(1).Meters, ["yd"] = Length.FromYards(1).Meters, ["mm"] = Length.FromMillimeters(1).Meters, ["cm"] = Length.FromCentimeters(1).Meters,
        ["m"] = Length.FromMeters(1).Meters, ["km"] = Length.FromKilometers(1).Meters, ["mi"] = Length.FromMiles(1).Meters, ["mil"] = Length.FromMils(1).Meters,
        ["in2"] = Area.FromSquareInches(1).SquareMeters, ["ft2"] = Area.FromSquareFeet(1).SquareMeters, ["yd2"] = Area.FromSquareYards(1).SquareMeters, ["mm2"] = Area.FromSquareMillimeters(1).SquareMeters,
        ["cm2"] = Area.FromSquareCentimeters(1).SquareMeters, ["m2"] = 1,
        ["in3"] = Volume.FromCubicInches(1).CubicMeters, ["ft3"] = Volume.FromCubicFeet(1).CubicMeters, ["yd3"] = Volume.FromCubicYards(1).CubicMeters, ["mm3"] = Volume.FromCubicMillimeters(1).CubicMeters,
        ["cm3"] = Volume.FromCubicCentimeters(1).CubicMeters, ["m3"] = 1, ["gal"] = Volume.FromUsGallons(1).CubicMeters, ["qt"] = Volume.FromUsQuarts(1).CubicMeters, ["pt"] = Volume.FromUsPints(1).CubicMeters,
        ["fl_oz"] = Volume.FromUsOunces(1).CubicMeters, ["l"] = Volume.FromLiters(1).CubicMeters, ["ml"] = Volume.FromMilliliters(1).CubicMeters, ["board_ft"] = Volume.FromBoardFeet(1).CubicMeters,
        ["in4"] = AreaMomentOfInertia.FromInchesToTheFourth(1).MetersToTheFourth, ["ft4"] = AreaMomentOfInertia.FromFeetToTheFourth(1).MetersToTheFourth, ["mm4"] = AreaMomentOfInertia.FromMillimetersToTheFourth(1).MetersToTheFourth,
        ["cm4"] = AreaMomentOfInertia.FromCentimetersToTheFourth(1).MetersToTheFourth, ["m4"] = 1,
        ["lb"] = Mass.FromPounds(1).Kilograms, ["oz"] = Mass.FromOunces(1).Kilograms, ["g"] = Mass.FromGrams(1).Kilograms, ["kg"] = 1, ["t"] = Mass.FromTonnes(1).Kilograms,
        ["lbf"] = Force.FromPoundsForce(1).Newtons, ["N"] = 1, ["kN"] = Force.FromKilonewtons(1).Newtons,
        ["psi"] = Pressure.FromPoundsForcePerSquareInch(1).Pascals, ["psf"] = Pressure.FromPoundsForcePerSquareFoot(1).Pascals, ["Pa"] = 1, ["kPa"] = Pressure.FromKilopascals(1).Pascals,
        ["MPa"] = Pressure.FromMegapascals(1).Pascals, ["GPa"] = Pressure.FromGigapascals(1).Pascals,
        ["s"] = 1, ["min"] = Duration.FromMinutes(1).Seconds, ["h"] = Duration.FromHours(1).Seconds, ["day"] = Duration.FromDays(1).Seconds, ["days"] = Duration.FromDays(1).Seconds,
        ["mph"] = Speed.FromMilesPerHour(1).MetersPerSecond, ["deg"] = 1, ["rad"] = Angle.FromRadians(1).Degrees,
        ["degC"] = Temperature.FromDegreesCelsius(1).Kelvins, ["degF"] = Temperature.FromDegreesFahrenheit(1).Kelvins, ["F_diff"] = TemperatureDelta.FromDegreesFahrenheit(1).Kelvins, ["K"] = 1,
        ["J"] = 1, ["Wh"] = Energy.FromWattHours(1).Joules, ["Btu"] = Energy.FromBritishThermalUnits(1).Joules, ["W"] = 1, ["kW"] = (double)Power.FromKilowatts(1).Watts, ["%"] = Ratio.FromPercent(1).DecimalFractions,
        ["oz/yd2"] = AreaDensity.FromGramsPerSquareMeter(1).KilogramsPerSquareMeter * Mass.FromOunces(1).Grams / Area.FromSquareYards(1).SquareMeters,
        ["lb/ft3"] = Density.FromPoundsPerCubicFoot(1).KilogramsPerCubicMeter, ["lb/ft"] = LinearDensity.FromPoundsPerFoot(1).KilogramsPerMeter,
        ["lbf/in"] = ForcePerLength.FromPoundsForcePerInch(1).NewtonsPerMeter, ["Btu/h/ft2/F_diff"] = HeatTransferCoefficient.FromBtusPerHourSquareFootDegreeFahrenheit(1).WattsPerSquareMeterKelvin,
        ["Btu/h/ft/F_diff"] = ThermalConductivity.FromBtusPerHourFootFahrenheit(1).WattsPerMeterKelvin, ["Btu/h"] = (double)Power.FromBritishThermalUnitsPerHour(1).Watts,
        ["m/s2"] = 1, ["s2"] = 1,
    };

    public static TheoryData<string> Units => [.. Referee.Keys];

    [Theory, MemberData(nameof(Units))]
    public void A_factor_is_that_of_the_referee(string name)
    {
        double ours = UnitTable.ToBase(Rational.One, UnitTable.Find(name)!).Value;
        Assert.True(Math.Abs(ours - Referee[name]) <= 1e-7 * Math.Abs(ours), $"{name}: {ours:R} and {Referee[name]:R}");
    }

    [Fact]
    public void Every_unit_has_a_referee_but_two()
    {
        Assert.Equal(Math.Pow(0.9144, 4), UnitTable.Find("yd4")!.Factor.ToDouble(), 1e-15);
        // The perm is in no library at hand. From memory, ASTM E96: 1 perm (US) is 5.72135e-11 kg/(Pa s m2).
        Assert.Equal(["perm", "yd4"], UnitTable.All.Select(u => u.Name).Except(Referee.Keys).Order(StringComparer.Ordinal));
        Assert.Equal(5.72135e-11, UnitTable.Find("perm")!.Factor.ToDouble(), 1e-16);
    }

    [Fact]
    public void No_keyword_is_spelled_like_a_unit()
    {
        var words = Core.Language.SettingBlocks.Spec.Facts.SelectMany(f => f.Body?.Facts ?? []).Concat(Core.Language.SettingBlocks.Spec.Facts).Select(f => f.Keyword);
        Assert.Empty(words.Where(UnitTable.IsUnit));
    }

    [Theory]
    [InlineData("3/16 in + 5/16 in", "1/2 in")]
    [InlineData("1/3 in + 1/3 in + 1/3 in", "1 in")]
    [InlineData("0.1 in + 0.2 in", "0.3 in")]
    [InlineData("6 ft 3 1/2 in - 6 ft", "3 1/2 in")]
    [InlineData("7 * (1/7 in)", "1 in")]
    [InlineData("1 ft2 / (1 in)", "144 in")]
    [InlineData("25.4 mm", "1 in")]
    [InlineData("1 gal", "231 in3")]
    [InlineData("5 % * 20 in", "1 in")]
    [InlineData("(2 in) ^ 3", "8 in3")]
    [InlineData("70 degF - 50 degF", "20 F_diff")]
    [InlineData("68 degF", "20 degC")]
    [InlineData("-40 degF", "-40 degC")]
    [InlineData("50 degF + 18 F_diff", "20 degC")]
    [InlineData("round(5.3 in, 1/8 in)", "5 1/4 in")]
    public void Literals_and_their_sums_are_exact_to_the_last_bit(string left, string right)
    {
        var a = Told.Value($"let a = {left}", "a");
        var b = Told.Value($"let b = {right}", "b");
        Assert.Equal(b.Dimension, a.Dimension);
        Assert.NotNull(a.Exact);
        Assert.Equal(b.Exact, a.Exact);
        Assert.Equal(BitConverter.DoubleToInt64Bits(b.Value), BitConverter.DoubleToInt64Bits(a.Value));
    }

    [Fact]
    public void Half_an_inch_is_12_7_mm_to_the_last_bit() => Assert.Equal(12.7, Told.Value("let a = 3/16 in + 5/16 in", "a").Millimetres);

    [Theory]
    [InlineData("6 mm + 2 lb", "A mass can't be added to a length.")]
    [InlineData("6 mm - 2", "A plain number can't be subtracted from a length.")]
    [InlineData("70 degF + 20 degF", "A temperature can't be added to a temperature.")]
    [InlineData("20 F_diff - 70 degF", "A temperature can't be subtracted from a difference of temperatures.")]
    [InlineData("70 degF * 2", "A temperature and a plain number can't be multiplied or divided. Multiply a difference of temperatures instead, such as 10 F_diff.")]
    [InlineData("3 USD + 4 EUR", "An amount of EUR can't be added to an amount of USD. Two currencies add only at a stated rate and date.")]
    [InlineData("2 lb + 2 lbf", "A force can't be added to a mass.")]
    [InlineData("2 oz + 2 fl_oz", "A volume can't be added to a mass.")]
    [InlineData("if 1 > 2 then 3 in else 2 lb", "One way of this choice gives a length, another a mass.")]
    [InlineData("if 1 < 2 then 3 in else 2 lb", "One way of this choice gives a length, another a mass.")]
    [InlineData("min(1 in, 2 lb)", "min(a, b, ...) takes values of one kind; these are a length and a mass.")]
    [InlineData("tan(8)", "tan(angle) takes an angle, such as 8 deg; this is a plain number.")]
    [InlineData("sqrt(2 in)", "The root of a length is no quantity.")]
    [InlineData("2 ^ (1 in)", "An exponent is a whole number, at most 1000; use sqrt( ) for roots.")]
    [InlineData("(2 in) ^ 9", "A quantity with a unit may be raised to the sixth power at most.")]
    [InlineData("1 in / (3 - 3)", "\"3 - 3\" is zero, and nothing can be divided by it.")]
    [InlineData("10 ^ 900", "This grows too large to be held.")]
    [InlineData("tan(90 deg)", "The tangent of a right angle has no value.")]
    public void Kinds_are_checked_through_every_expression(string expression, string message)
    {
        var errors = Told.Errors($"let a = {expression}\nrequire a == a\n");
        Assert.Equal([message], errors.Select(e => e.Message));
        Assert.Equal(1, errors[0].Place.Line);
    }

    [Fact]
    public void Two_currencies_add_at_a_stated_rate()
    {
        // 1 EUR is 1.25 USD: 3 USD and 4 EUR are 8 USD. The rate is invented.
        Told.Bound("camper \"C\" { exchange 1 EUR is 1.25 USD on 2026-01-02 }\nlet a = 3 USD + 4 EUR\nlet b = 4 EUR + 3 USD\nrequire a == 8 USD\nrequire b == 6.4 EUR\nrequire a == b\n");
    }

    [Fact]
    public void A_mass_stands_for_its_weight_where_a_force_is_asked_and_that_is_told()
    {
        string text = "hardware strut {\n    force 50 lb\n}\n";
        var spec = Told.Bound(text);
        var note = Assert.Single(spec.Findings, f => f.Code == "WN2010");
        Assert.Equal(Level(note), (Core.Findings.Level.Note, 2, 11));
        var force = spec.Evaluator.Quantity(spec.Find("strut")!.Find("force")!, "value")!.Value;
        Assert.Equal(Told.Value("let a = 50 lbf", "a"), force);
    }

    private static (Core.Findings.Level, int, int) Level(Core.Findings.Finding f) => (f.Level, f.Place.Line, f.Place.Column);
}
