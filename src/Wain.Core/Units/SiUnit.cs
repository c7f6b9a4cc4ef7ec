using System.Globalization;
using System.Text;

namespace Wain.Core.Units;

/// <summary>The name of the base unit of a kind, for files that programs read.</summary>
public static class SiUnit
{
    /// <summary>"m2", "kg/m3", "degree", "USD", "1"; temperatures on a scale are in kelvin.</summary>
    public static string Of(Dimension kind)
    {
        var over = new StringBuilder();
        var under = new StringBuilder();
        foreach (var (unit, power) in new[] { ("kg", kind.Mass), ("m", kind.Length), ("s", kind.Time), ("K", kind.Temperature), ("degree", kind.Angle), (kind.Currency ?? "money", kind.Money) })
        {
            if (power == 0) continue;
            var side = power > 0 ? over : under;
            if (side.Length > 0) side.Append('*');
            side.Append(unit);
            if (Math.Abs(power) != 1) side.Append(Math.Abs(power).ToString(CultureInfo.InvariantCulture));
        }
        if (over.Length == 0) over.Append('1');
        return under.Length == 0 ? over.ToString() : $"{over}/{under.ToString().Replace('*', '/')}";
    }
}
