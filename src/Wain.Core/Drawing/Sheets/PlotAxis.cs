using System.Globalization;

namespace Wain.Core.Drawing;

/// <summary>A scale of a plot: round steps of 1, 2 or 5 times a power of ten (Heckbert's "nice numbers").</summary>
/// <param name="Low">First tick.</param>
/// <param name="High">Last tick.</param>
/// <param name="Step">From tick to tick.</param>
public sealed record PlotAxis(double Low, double High, double Step)
{
    /// <param name="values">Finite; those that are not are left out.</param>
    /// <param name="ticks">About how many steps are wanted.</param>
    /// <param name="fromZero">True where the length of a bar stands for its value.</param>
    /// <param name="whole">True for a number of things: no tick between two of them.</param>
    public static PlotAxis Of(IEnumerable<double> values, int ticks = 6, bool fromZero = false, bool whole = false)
    {
        var finite = values.Where(double.IsFinite).Concat(fromZero ? [0.0] : []).DefaultIfEmpty(0).ToList();
        double low = finite.Min(), high = finite.Max();
        // Data without spread still needs an axis with some.
        if (high - low <= 1e-12 * Math.Max(Math.Abs(low), Math.Abs(high))) (low, high) = low == 0 ? (0, 1) : (Math.Min(0, 2 * low), Math.Max(0, 2 * low));
        double step = Nice((high - low) / ticks);
        if (whole) step = Math.Max(1, step);
        return new(Math.Floor(low / step + 1e-9) * step, Math.Ceiling(high / step - 1e-9) * step, step);
    }

    private static double Nice(double rough)
    {
        double power = Math.Pow(10, Math.Floor(Math.Log10(rough)));
        double share = rough / power;
        return power * (share <= 1 + 1e-9 ? 1 : share <= 2 + 1e-9 ? 2 : share <= 5 + 1e-9 ? 5 : 10);
    }

    public IEnumerable<double> Ticks => Enumerable.Range(0, (int)Math.Round((High - Low) / Step) + 1).Select(i => Low + i * Step);

    /// <summary>Where a value falls between 0 and 1.</summary>
    public double Share(double value) => (value - Low) / (High - Low);

    /// <summary>A tick's value with as many decimals as the step needs.</summary>
    public string Text(double value)
    {
        int decimals = Math.Clamp((int)-Math.Floor(Math.Log10(Step) + 1e-9), 0, 9);
        double rounded = Math.Round(value, decimals);
        return (rounded == 0 ? 0 : rounded).ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
    }
}
