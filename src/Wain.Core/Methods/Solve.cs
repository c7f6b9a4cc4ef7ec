namespace Wain.Core.Methods;

/// <summary>Small dense linear systems, by Gaussian elimination with partial pivoting.</summary>
internal static class Solve
{
    /// <summary>Solves A x = b in place of copies. Returns null if A is singular to working precision.</summary>
    public static double[]? Linear(double[,] a, double[] b)
    {
        var n = b.Length;
        var m = (double[,])a.Clone();
        var x = (double[])b.Clone();
        var scale = 0.0;
        foreach (var entry in m)
        {
            scale = Math.Max(scale, Math.Abs(entry));
        }

        for (var column = 0; column < n; column++)
        {
            var pivot = column;
            for (var row = column + 1; row < n; row++)
            {
                if (Math.Abs(m[row, column]) > Math.Abs(m[pivot, column]))
                {
                    pivot = row;
                }
            }

            if (!(Math.Abs(m[pivot, column]) > 1e-13 * scale))
            {
                return null;
            }

            if (pivot != column)
            {
                for (var k = 0; k < n; k++)
                {
                    (m[pivot, k], m[column, k]) = (m[column, k], m[pivot, k]);
                }

                (x[pivot], x[column]) = (x[column], x[pivot]);
            }

            for (var row = column + 1; row < n; row++)
            {
                var factor = m[row, column] / m[column, column];
                if (factor == 0)
                {
                    continue;
                }

                for (var k = column; k < n; k++)
                {
                    m[row, k] -= factor * m[column, k];
                }

                x[row] -= factor * x[column];
            }
        }

        for (var row = n - 1; row >= 0; row--)
        {
            for (var k = row + 1; k < n; k++)
            {
                x[row] -= m[row, k] * x[k];
            }

            x[row] /= m[row, row];
        }

        return x;
    }
}
