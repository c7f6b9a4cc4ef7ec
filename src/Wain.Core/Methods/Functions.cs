namespace Wain.Core.Methods;

/// <summary>Legendre polynomials over a length, times a factor that is zero at each held end.</summary>
internal sealed class Functions(int count, bool heldAtStart, bool heldAtEnd, double length)
{
    private readonly int count = count;
    private readonly double length = length;

    private static readonly (double[] At, double[] Weight) Gauss = GaussLegendre(24);

    /// <summary>Values and slopes of all functions at one place, m.</summary>
    public (double[] Value, double[] Slope) At(double place)
    {
        var t = 2 * place / length - 1;
        var (value, slope) = (new double[count], new double[count]);
        var (p, before, dp, dBefore) = (1.0, 0.0, 0.0, 0.0);
        var factor = (heldAtStart ? 1 + t : 1) * (heldAtEnd ? 1 - t : 1);
        var dFactor = (heldAtStart, heldAtEnd) switch { (true, true) => -2 * t, (true, false) => 1.0, (false, true) => -1.0, _ => 0.0 };
        for (var k = 0; k < count; k++)
        {
            value[k] = factor * p;
            slope[k] = (dFactor * p + factor * dp) * 2 / length;
            var next = ((2 * k + 1) * t * p - k * before) / (k + 1);
            var dNext = ((2 * k + 1) * (p + t * dp) - k * dBefore) / (k + 1);
            (before, p, dBefore, dp) = (p, next, dp, dNext);
        }

        return (value, slope);
    }

    /// <summary>Integral of each function over a part of the length.</summary>
    public double[] Over(double from, double to)
    {
        var sum = new double[count];
        for (var g = 0; g < Gauss.At.Length; g++)
        {
            var (value, _) = At((from + to) / 2 + (to - from) / 2 * Gauss.At[g]);
            for (var k = 0; k < count; k++)
            {
                sum[k] += Gauss.Weight[g] * (to - from) / 2 * value[k];
            }
        }

        return sum;
    }

    /// <summary>Integrals over the length of each function of one set (or its slope) times each of another; exact, since all are polynomials.</summary>
    public static double[,] Integrals(Functions left, int leftSlope, Functions right, int rightSlope)
    {
        var sum = new double[left.count, right.count];
        for (var g = 0; g < Gauss.At.Length; g++)
        {
            var place = left.length * (1 + Gauss.At[g]) / 2;
            var weight = Gauss.Weight[g] * left.length / 2;
            var (l, r) = (left.At(place), right.At(place));
            var (a, b) = (leftSlope == 1 ? l.Slope : l.Value, rightSlope == 1 ? r.Slope : r.Value);
            for (var i = 0; i < a.Length; i++)
            {
                for (var j = 0; j < b.Length; j++)
                {
                    sum[i, j] += weight * a[i] * b[j];
                }
            }
        }

        return sum;
    }

    /// <summary>Places and weights by Newton's iteration on the Legendre polynomial.</summary>
    private static (double[] At, double[] Weight) GaussLegendre(int n)
    {
        var (at, weight) = (new double[n], new double[n]);
        for (var i = 0; i < n; i++)
        {
            var t = Math.Cos(Math.PI * (i + 0.75) / (n + 0.5));
            var slope = 0.0;
            for (var iteration = 0; iteration < 20; iteration++)
            {
                var (p, before) = (1.0, 0.0);
                for (var k = 0; k < n; k++)
                {
                    (before, p) = (p, ((2 * k + 1) * t * p - k * before) / (k + 1));
                }

                slope = n * (t * p - before) / (t * t - 1);
                t -= p / slope;
            }

            (at[i], weight[i]) = (t, 2 / ((1 - t * t) * slope * slope));
        }

        return (at, weight);
    }
}
