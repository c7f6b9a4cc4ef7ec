using Wain.Core.Text;
using System.Globalization;
using Wain.Core.Binding;
using Wain.Core.Drawing;
using Wain.Core.Units;

namespace Wain.Core.Revisions;

/// <summary>
/// Figures as the outputs of a spec show them. Two figures differ only if they are shown differently, and not by the last bits of a sum that fell on
/// either side of a half.
/// </summary>
public sealed class ShownFigures
{
    private readonly LengthFormat _lengths;
    private readonly bool _kilograms;

    public ShownFigures(Spec spec)
    {
        var camper = spec.All("camper").FirstOrDefault();
        var lengths = camper?.Find("lengths");
        double fraction = lengths is null ? 0 : spec.Evaluator.Number(lengths, "fraction") ?? 0;
        int denominator = fraction is > 0 and <= 0.5 ? (int)Math.Round(1 / fraction) : 16;
        _lengths = new LengthFormat(lengths?.Word("style") switch { "feet" => LengthStyle.FeetAndInches, "millimetres" => LengthStyle.Millimetres, _ => LengthStyle.Inches },
            denominator is 2 or 4 or 8 or 16 or 32 or 64 ? denominator : 16);
        _kilograms = camper?.Find("weights")?.Word("style") == "kilograms";
    }

    /// <param name="mm">A length.</param>
    public string Length(double mm) => double.IsFinite(mm) && Math.Abs(mm) < 1e12 ? LengthText.Of(mm, _lengths) : "unknown";

    public static string Angle(double radians) => (radians * 180 / Math.PI).ToString("0.0", CultureInfo.InvariantCulture) + " deg";

    public bool LengthsDiffer(double a, double b) => Math.Abs(a - b) > 1e-5 && Length(a) != Length(b);

    public static bool AnglesDiffer(double a, double b) => Math.Abs(a - b) > 1e-7 && Angle(a) != Angle(b);

    public string Of(Quantity q)
    {
        if (q.Dimension == Dimension.OfLength) return Length(q.Millimetres);
        var (value, unit, places) = In(q);
        return unit.Length == 0 && places < 0 ? QuantityText.Show(q) : Number(value, places) + (unit.Length == 0 ? "" : " " + unit);
    }

    public bool Differ(Quantity a, Quantity b) => a.Dimension != b.Dimension || (a.CompareTo(b) != 0 && Of(a) != Of(b));

    /// <summary>The difference of what is shown, so that it adds up for a reader; empty where both are shown alike.</summary>
    public string Difference(Quantity old, Quantity now)
    {
        if (old.Dimension != now.Dimension) return "";
        double difference = Rounded(now) - Rounded(old);
        string shown = Of(new Quantity(Math.Abs(difference), now.Dimension));
        return Math.Abs(difference) <= 1e-9 * Math.Abs(now.Value) ? "" : (difference < 0 ? "-" : "+") + shown;
    }

    private double Rounded(Quantity q)
    {
        if (q.Dimension == Dimension.OfLength)
        {
            double step = _lengths.Style == LengthStyle.Millimetres ? _lengths.MillimetreStep : 25.4 / _lengths.Denominator;
            return Math.Round(q.Millimetres / step, MidpointRounding.AwayFromZero) * step / 1000;
        }
        var (value, _, places) = In(q);
        return places < 0 || value == 0 ? q.Value : Math.Round(value, places, MidpointRounding.AwayFromZero) * (q.Value / value);
    }

    /// <summary>The value in the unit that it is shown in, that unit, and decimals; decimals below zero where four figures that matter are shown.</summary>
    public (double Value, string Unit, int Places) In(Quantity q)
    {
        if (q.Dimension == Dimension.OfLength) return _lengths.Style == LengthStyle.Millimetres ? (q.Millimetres, "mm", 0) : (q.Millimetres / 25.4, "in", 4);
        if (q.Dimension == Dimension.OfMass) return _kilograms ? (q.Value, "kg", 1) : (q.Value / 0.45359237, "lb", 1);
        if (q.Dimension == Dimension.OfArea) return _lengths.Style == LengthStyle.Millimetres ? (q.Value, "m2", 2) : (q.Value / 0.09290304, "ft2", 1);
        if (q.Dimension == Dimension.OfVolume) return _lengths.Style == LengthStyle.Millimetres ? (q.Value, "m3", 3) : (q.Value / 0.028316846592, "ft3", 1);
        if (q.Dimension == Dimension.OfTime) return (q.Value / 3600, "h", 1);
        if (q.Dimension == Dimension.OfAngle) return (q.Value, "deg", 1);
        if (q.Dimension.Currency is { } currency && q.Dimension == Dimension.OfMoney(currency)) return (q.Value, currency, 2);
        return (q.Value, "", -1);
    }

    private static string Number(double value, int places) => places < 0
        ? value.ToString("0.####", CultureInfo.InvariantCulture)
        : (value == 0 ? 0 : value).ToString("F" + places.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
}
