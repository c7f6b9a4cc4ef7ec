namespace Wain.Core.Methods;

public enum EdgeHold
{
    /// <summary>Does not move down, does not slide along itself, free to tilt.</summary>
    Simple,

    /// <summary>Built in.</summary>
    Clamped,

    Free,
}

/// <summary>The four edges, x = 0, x = a, y = 0, y = b.</summary>
public sealed record PlateEdges(EdgeHold X0, EdgeHold Xa, EdgeHold Y0, EdgeHold Yb)
{
    public static PlateEdges All(EdgeHold hold) => new(hold, hold, hold, hold);
}

/// <summary>Orthotropic plates with shear deformation and any mix of simple, clamped and free edges, by the Ritz method.</summary>
public static class PlateRitz
{
    /// <summary>
    /// Deflection and both rotations as products of Legendre polynomials times factors that meet the held edges; the coefficients make the energy of the Reissner-Mindlin
    /// plate least. High degree keeps thin plates from locking. A Ritz solution is on the
    /// whole too stiff, never too soft (the work of the load comes from below), and settles with the degree.
    /// Under a patch on a weak core deflection is within about half a per cent at the usual degree; stresses at a built-in corner or beside a small patch settle more slowly.
    /// </summary>
    /// <param name="a">Length along x, m.</param>
    /// <param name="b">Length along y, m.</param>
    /// <param name="degree">Functions in each direction, 3 to 14.</param>
    public static Result<PlateResponse> Respond(PlateStiffness s, double a, double b, PlateEdges edges, PlateLoad load, int degree = 9)
    {
        if (Need.All(Plates.Ask(s, a, b, load), Need.Between(degree, 3, 14, "the number of functions"), Need.That(Stands(edges), "the held edges leave the plate loose")) is { } why)
        {
            return new Missing(why);
        }

        var (x0, xa, y0, yb) = (edges.X0, edges.Xa, edges.Y0, edges.Yb);
        bool Held(EdgeHold e) => e != EdgeHold.Free;
        bool Fixed(EdgeHold e) => e == EdgeHold.Clamped;
        var n = degree;
        // Each field is a product of one set of functions of x and one of y: deflection, rotation along x, rotation along y.
        Functions[] inX = [new(n, Held(x0), Held(xa), a), new(n, Fixed(x0), Fixed(xa), a), new(n, Held(x0), Held(xa), a)];
        Functions[] inY = [new(n, Held(y0), Held(yb), b), new(n, Held(y0), Held(yb), b), new(n, Fixed(y0), Fixed(yb), b)];
        var size = 3 * n * n;
        var matrix = new double[size * size];

        void Add(int row, int column, double factor, int dRowX, int dRowY, int dColumnX, int dColumnY)
        {
            var alongX = Functions.Integrals(inX[row], dRowX, inX[column], dColumnX);
            var alongY = Functions.Integrals(inY[row], dRowY, inY[column], dColumnY);
            for (var r = 0; r < n * n; r++)
            {
                var (ri, rj) = (r / n, r % n);
                for (var c = 0; c < n * n; c++)
                {
                    var value = factor * alongX[ri, c / n] * alongY[rj, c % n];
                    matrix[(row * n * n + r) * size + column * n * n + c] += value;
                    if (row != column)
                    {
                        matrix[(column * n * n + c) * size + row * n * n + r] += value;
                    }
                }
            }
        }

        Add(0, 0, s.S1, 1, 0, 1, 0);
        Add(0, 0, s.S2, 0, 1, 0, 1);
        Add(0, 1, s.S1, 1, 0, 0, 0);
        Add(0, 2, s.S2, 0, 1, 0, 0);
        Add(1, 1, s.D11, 1, 0, 1, 0);
        Add(1, 1, s.D66, 0, 1, 0, 1);
        Add(1, 1, s.S1, 0, 0, 0, 0);
        Add(1, 2, s.D12, 1, 0, 0, 1);
        Add(1, 2, s.D66, 0, 1, 1, 0);
        Add(2, 2, s.D22, 0, 1, 0, 1);
        Add(2, 2, s.D66, 1, 0, 1, 0);
        Add(2, 2, s.S2, 0, 0, 0, 0);

        var right = new double[size];
        var loadX = inX[0].Over(load.X - load.Width / 2, load.X + load.Width / 2);
        var loadY = inY[0].Over(load.Y - load.Height / 2, load.Y + load.Height / 2);
        for (var i = 0; i < n; i++)
        {
            for (var j = 0; j < n; j++)
            {
                right[i * n + j] = load.Pressure * loadX[i] * loadY[j];
            }
        }

        return Cholesky(matrix, right, size) ? Plates.Look(a, b, load, (px, py) => At(s, inX, inY, right, n, px, py)) : new Missing("the equations of the plate could not be solved");
    }

    private static bool Stands(PlateEdges e)
    {
        EdgeHold[] all = [e.X0, e.Xa, e.Y0, e.Yb];
        return all.Contains(EdgeHold.Clamped) || all.Count(x => x == EdgeHold.Simple) >= 2;
    }

    private static PlateState At(PlateStiffness s, Functions[] inX, Functions[] inY, double[] c, int n, double px, double py)
    {
        // Value, slope along x, slope along y of each field.
        var field = new double[3, 3];
        for (var f = 0; f < 3; f++)
        {
            var (x, y) = (inX[f].At(px), inY[f].At(py));
            for (var i = 0; i < n; i++)
            {
                for (var j = 0; j < n; j++)
                {
                    var k = c[(f * n + i) * n + j];
                    field[f, 0] += k * x.Value[i] * y.Value[j];
                    field[f, 1] += k * x.Slope[i] * y.Value[j];
                    field[f, 2] += k * x.Value[i] * y.Slope[j];
                }
            }
        }

        return new(
            px, py, field[0, 0],
            s.D11 * -field[1, 1] - s.D12 * field[2, 2], -s.D12 * field[1, 1] - s.D22 * field[2, 2], s.D66 * (field[1, 2] + field[2, 1]),
            s.S1 * (field[0, 1] + field[1, 0]), s.S2 * (field[0, 2] + field[2, 0]));
    }

    /// <summary>Solves in place after scaling the diagonal to one, which the very different sizes of bending and shear terms call for.</summary>
    private static bool Cholesky(double[] m, double[] b, int n)
    {
        var scale = new double[n];
        for (var i = 0; i < n; i++)
        {
            scale[i] = 1 / Math.Sqrt(m[i * n + i]);
        }

        for (var i = 0; i < n; i++)
        {
            b[i] *= scale[i];
            for (var j = 0; j <= i; j++)
            {
                var sum = m[i * n + j] * scale[i] * scale[j];
                var rowI = m.AsSpan(i * n, j);
                var rowJ = m.AsSpan(j * n, j);
                for (var k = 0; k < rowI.Length; k++)
                {
                    sum -= rowI[k] * rowJ[k];
                }

                if (i != j)
                {
                    m[i * n + j] = sum / m[j * n + j];
                }
                else if (sum > 1e-15)
                {
                    m[i * n + i] = Math.Sqrt(sum);
                }
                else
                {
                    return false;
                }
            }

            for (var k = 0; k < i; k++)
            {
                b[i] -= m[i * n + k] * b[k];
            }

            b[i] /= m[i * n + i];
        }

        for (var i = n - 1; i >= 0; i--)
        {
            for (var k = i + 1; k < n; k++)
            {
                b[i] -= m[k * n + i] * b[k];
            }

            b[i] /= m[i * n + i];
        }

        for (var i = 0; i < n; i++)
        {
            b[i] *= scale[i];
        }

        return true;
    }
}
