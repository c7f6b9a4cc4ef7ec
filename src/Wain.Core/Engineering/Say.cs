using System.Globalization;
using Wain.Core.Methods;

namespace Wain.Core.Engineering;

/// <summary>Figures in messages, in the units of the trade.</summary>
internal static class Say
{
    public static string Number(double value, string format = "0.##") => value.ToString(format, CultureInfo.InvariantCulture);

    public static string Pounds(double kg) => Number(kg / Customary.Pound, "0") + " lb";

    public static string PoundsForce(double newton) => Number(newton / Customary.PoundForce, "0") + " lbf";

    public static string Psi(double pascal) => Number(pascal / Customary.Psi, pascal / Customary.Psi < 10 ? "0.0" : "0") + " psi";

    public static string Percent(double share) => Number(share * 100, "0") + " %";

    public static string Grams(double kgPerSquareMetre) => Number(kgPerSquareMetre * 1000, kgPerSquareMetre < 0.01 ? "0.0" : "0") + " g/m2";

    public static string Fahrenheit(double celsius) => Number(celsius * 9 / 5 + 32, "0") + " degF";
}
