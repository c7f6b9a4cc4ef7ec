using System.Globalization;

namespace Wain.Core.Drawing;

/// <summary>How the lengths of a sheet are written.</summary>
public enum LengthStyle
{
    /// <summary>70 1/2 in</summary>
    Inches,

    /// <summary>5 ft 10 1/2 in</summary>
    FeetAndInches,

    /// <summary>1791 mm</summary>
    Millimetres,

    /// <summary>70 1/2 in [1791 mm]</summary>
    InchesWithMillimetres,

    /// <summary>1791 mm [70 1/2 in]</summary>
    MillimetresWithInches,
}

/// <param name="Denominator">The finest part of an inch: 2, 4, 8, 16, 32 or 64.</param>
/// <param name="MillimetreStep">1, or less where parts of a millimetre matter.</param>
/// <param name="WithUnit">False where a note on the sheet says the unit once; feet always carry theirs.</param>
public sealed record LengthFormat(LengthStyle Style = LengthStyle.Inches, int Denominator = 16, double MillimetreStep = 1, bool WithUnit = true);

/// <summary>Lengths as a person reads them off a tape. Halves round up (away from zero); the value itself is never changed.</summary>
public static class LengthText
{
    private const double Inch = 25.4;

    /// <param name="mm">The length, any finite number.</param>
    public static string Of(double mm, LengthFormat? format = null)
    {
        format ??= new();
        string Inches() => OfInches(mm, format.Denominator, format.Style == LengthStyle.FeetAndInches, format.WithUnit);
        string Millimetres() => OfMillimetres(mm, format.MillimetreStep, format.WithUnit);
        return format.Style switch
        {
            LengthStyle.Millimetres => Millimetres(),
            LengthStyle.InchesWithMillimetres => $"{Inches()} [{Millimetres()}]",
            LengthStyle.MillimetresWithInches => $"{Millimetres()} [{Inches()}]",
            _ => Inches(),
        };
    }

    /// <summary>Whole inches and the nearest fraction, in lowest terms: <c>14 1/2 in</c>, <c>5/16 in</c>, <c>5 ft 10 in</c>.</summary>
    public static string OfInches(double mm, int denominator = 16, bool feet = false, bool unit = true)
    {
        if (denominator < 1 || (denominator & (denominator - 1)) != 0) throw new ArgumentOutOfRangeException(nameof(denominator), denominator, "A tape's inch is halved: 2, 4, 8, 16, 32, 64.");
        double parts = HalfUp(mm / Inch * denominator);
        double whole = Math.Floor(parts / denominator);
        int part = (int)(parts - whole * denominator);
        double foot = feet ? Math.Floor(whole / 12) : 0;
        double inches = whole - foot * 12;

        var words = new List<string>();
        if (foot > 0) words.Add(Number(foot) + " ft");
        bool anyInches = inches > 0 || part > 0 || foot == 0;
        if (inches > 0 || (part == 0 && anyInches)) words.Add(Number(inches));
        if (part > 0)
        {
            int divisor = (int)System.Numerics.BigInteger.GreatestCommonDivisor(part, denominator);
            words.Add($"{Number(part / divisor)}/{Number(denominator / divisor)}");
        }
        if (anyInches && (unit || foot > 0)) words.Add("in");
        return Sign(mm, parts) + string.Join(' ', words);
    }

    /// <summary>The nearest step of a millimetre: <c>1778 mm</c>, <c>2.5 mm</c>.</summary>
    public static string OfMillimetres(double mm, double step = 1, bool unit = true)
    {
        if (!(step > 0)) throw new ArgumentOutOfRangeException(nameof(step), step, "A step is more than zero.");
        double steps = HalfUp(mm / step);
        return Sign(mm, steps) + (steps * step).ToString("0.###", CultureInfo.InvariantCulture) + (unit ? " mm" : "");
    }

    /// <summary>The angle to the nearest half degree: <c>22.5°</c>.</summary>
    public static string OfAngle(double radians)
    {
        double halves = HalfUp(Math.Abs(radians) * 360 / Math.PI + AngleHair);
        return Sign(radians, halves) + (halves / 2).ToString("0.#", CultureInfo.InvariantCulture) + "\u00B0";
    }

    /// <summary>How far off a cut runs at its far end when it is set to the angle as written and not to the true one: mm.</summary>
    /// <param name="radians">The true angle.</param>
    /// <param name="length">Of the cut, mm.</param>
    public static double FarEndError(double radians, double length)
    {
        double written = Math.CopySign(HalfUp(Math.Abs(radians) * 360 / Math.PI + AngleHair) * Math.PI / 360, radians);
        return length * Math.Abs(Math.Sin(written - radians));
    }

    /// <summary>In half degrees: by how little an angle may be short of a tie and still go up as the tie does, so that 4.25 degrees and the same on a roof of some pitch, 4.249, are cut alike. No saw tells 0.005 degrees apart.</summary>
    internal const double AngleHair = 0.01;

    // A hair is added so that a tie which the division put just under the half still counts as one.
    private static double HalfUp(double value)
    {
        if (!double.IsFinite(value)) throw new ArgumentOutOfRangeException(nameof(value), value, "A length on a sheet is a finite number.");
        return Math.Floor(Math.Abs(value) + 0.5 + 1e-9);
    }

    private static string Sign(double value, double rounded) => value < 0 && rounded > 0 ? "-" : "";

    private static string Number(double value) => value.ToString("0", CultureInfo.InvariantCulture);
}
