using System.Numerics;

namespace Wain.Cutting;

/// <summary>Row operations on dense matrices. They go element by element, so the width of a machine's vectors cannot change a result.</summary>
internal static class DenseRows
{
    public static void Scale(Span<double> row, double factor)
    {
        for (var k = 0; k < row.Length; k++)
            row[k] *= factor;
    }

    public static void AddScaled(Span<double> to, ReadOnlySpan<double> row, double factor)
    {
        var f = new Vector<double>(factor);
        var k = 0;
        for (; k + Vector<double>.Count <= to.Length; k += Vector<double>.Count)
            (new Vector<double>(to[k..]) + new Vector<double>(row[k..]) * f).CopyTo(to[k..]);
        for (; k < to.Length; k++)
            to[k] += row[k] * factor;
    }

    /// <summary>The inverse of an n by n matrix given by rows, which is destroyed; null if it is singular.</summary>
    public static double[]? Invert(double[] matrix, int n)
    {
        var inverse = new double[n * n];
        for (var i = 0; i < n; i++)
            inverse[i * n + i] = 1;
        for (var c = 0; c < n; c++)
        {
            var p = c;
            for (var r = c + 1; r < n; r++)
            {
                if (Math.Abs(matrix[r * n + c]) > Math.Abs(matrix[p * n + c]))
                    p = r;
            }

            if (Math.Abs(matrix[p * n + c]) < 1e-11)
                return null;
            if (p != c)
            {
                SwapRows(matrix, p, c);
                SwapRows(inverse, p, c);
            }

            var q = 1 / matrix[c * n + c];
            Scale(matrix.AsSpan(c * n, n), q);
            Scale(inverse.AsSpan(c * n, n), q);
            for (var r = 0; r < n; r++)
            {
                var f = matrix[r * n + c];
                if (r == c || f == 0)
                    continue;
                AddScaled(matrix.AsSpan(r * n, n), matrix.AsSpan(c * n, n), -f);
                AddScaled(inverse.AsSpan(r * n, n), inverse.AsSpan(c * n, n), -f);
            }
        }

        return inverse;

        void SwapRows(double[] m, int a, int b)
        {
            for (var k = 0; k < n; k++)
                (m[a * n + k], m[b * n + k]) = (m[b * n + k], m[a * n + k]);
        }
    }
}
