using Wain.Core.Binding;
using Wain.Core.Text;
using Wain.Core.Units;

namespace Wain.Core.Reporting;

/// <summary>The units that a report shows, as the spec's camper block says; inches and pounds where it says nothing.</summary>
/// <param name="Denominator">Of the fraction of an inch that lengths are shown to.</param>
public sealed record ReportUnits(Say Say, int Denominator)
{
    public static ReportUnits Read(Spec spec)
    {
        int denominator = 16;
        foreach (var camper in spec.All("camper"))
        {
            if (camper.Find("lengths") is not { } lengths) continue;
            if (lengths.Has("fraction") && spec.Evaluator.Number(lengths, "fraction") is > 0 and <= 1 and var fraction) denominator = Halved(1 / fraction);
        }
        return new ReportUnits(spec.Say, denominator);
    }

    // A tape's inch is halved over and over: the coarsest of its parts that is as fine as what is asked.
    private static int Halved(double parts)
    {
        int halved = 1;
        while (halved < 64 && halved < parts - 1e-9) halved *= 2;
        return halved;
    }

    public bool Metric => Say.Metric;

    public bool Kilograms => Say.Kilograms;

    public string LengthUnit => Say.LengthUnit;

    public NumberStyle LengthStyle => Metric ? new NumberStyle.Decimals(1) : new NumberStyle.Fraction(Denominator);

    /// <summary>Of a thickness, finer than the tape.</summary>
    public NumberStyle FineStyle => Metric ? new NumberStyle.Decimals(1) : new NumberStyle.Fraction(Math.Max(32, Denominator));

    public double Length(double mm) => Say.Measured(mm);

    public string AreaUnit => Metric ? "m2" : "ft2";

    public double Area(double m2) => In(m2, AreaUnit);

    public string WeightUnit => Say.WeightUnit;

    public double Weight(double kg) => Say.Weighed(kg);

    /// <summary>A quantity of a takeoff or of a pack, in the unit that this report shows its kind in.</summary>
    public (double Value, string Unit) Of(Quantity quantity)
    {
        string unit = UnitOf(quantity.Dimension);
        return (unit.Length == 0 ? quantity.Value : In(quantity.Value, unit), unit);
    }

    /// <summary>Empty for what is counted and for kinds that a takeoff does not have.</summary>
    public string UnitOf(Dimension kind) =>
        kind == Dimension.OfArea ? AreaUnit
        : kind == Dimension.OfLength ? Metric ? "m" : "ft"
        : kind == Dimension.OfVolume ? Metric ? "l" : "gal"
        : kind == Dimension.OfMass ? WeightUnit
        : "";

    private static double In(double value, string unit) => value / UnitTable.Find(unit)!.Factor.ToDouble();
}
