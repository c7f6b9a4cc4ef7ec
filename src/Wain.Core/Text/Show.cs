using System.Globalization;
using Wain.Core.Units;

namespace Wain.Core.Text;

/// <summary>Figures as messages show them. Reports have a style of their own that the spec sets; a message is always exact enough to act on.</summary>
public static class Show
{
    /// <summary>Millimetres as inches: a fraction if it is one of 1/64 in or coarser, else three decimals.</summary>
    public static string Length(double mm)
    {
        double inches = mm / 25.4;
        double sixtyFourths = Math.Round(inches * 64, MidpointRounding.AwayFromZero);
        if (Math.Abs(inches * 64 - sixtyFourths) > 0.002) return inches.ToString("0.###", CultureInfo.InvariantCulture) + " in";
        string sign = sixtyFourths < 0 ? "-" : "";
        long n = (long)Math.Abs(sixtyFourths);
        long whole = n / 64, rest = n % 64, denominator = 64;
        while (rest > 0 && rest % 2 == 0)
        {
            rest /= 2;
            denominator /= 2;
        }
        string text = rest == 0 ? whole.ToString(CultureInfo.InvariantCulture) : whole == 0 ? $"{rest}/{denominator}" : $"{whole} {rest}/{denominator}";
        return sign + text + " in";
    }

    /// <summary>Radians as degrees with two decimals at most.</summary>
    public static string Angle(double radians) => (radians * 180 / Math.PI).ToString("0.##", CultureInfo.InvariantCulture) + " deg";

    /// <summary>A quantity in the unit that a person in the trade would use.</summary>
    public static string Quantity(Quantity q)
    {
        if (q.Dimension == Dimension.OfLength) return Length(q.Millimetres);
        if (q.Dimension == Dimension.OfAngle) return q.Value.ToString("0.##", CultureInfo.InvariantCulture) + " deg";
        if (q.Dimension.Money == 1 && q.Dimension.Currency is { } currency && q.Dimension == Dimension.OfMoney(currency)) return q.Value.ToString("0.00", CultureInfo.InvariantCulture) + " " + currency;
        foreach (string unit in Preferred)
        {
            var u = UnitTable.Find(unit)!;
            if (u.Dimension == q.Dimension) return UnitTable.FromBase(q, u).ToString("0.####", CultureInfo.InvariantCulture) + " " + unit;
        }
        return q.Value.ToString("0.####", CultureInfo.InvariantCulture) + (q.Dimension.IsNone ? "" : " (" + q.Dimension.Describe() + ")");
    }

    private static readonly string[] Preferred = ["lb", "ft2", "ft3", "lb/ft3", "lbf", "psi", "h", "degF", "F_diff", "lb/ft2", "lb/ft", "W/m2/K", "W/m/K", "W", "Wh", "mph", "ft2/gal"];
}
