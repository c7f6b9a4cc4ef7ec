namespace Wain.Cutting;

/// <summary>The inverse of a simplex basis, dense: patterns come one by one and the basis stays small, so nothing is gained by keeping it in factors.</summary>
/// <param name="size">Rows, and columns.</param>
internal sealed class BasisInverse(int size)
{
    private double[] _inverse = new double[size * size];

    public ReadOnlySpan<double> Row(int row) => _inverse.AsSpan(row * size, size);

    /// <summary>Starts from a basis that has one number in each row, and it in the diagonal.</summary>
    /// <param name="diagonal">1 or -1 each.</param>
    public void Reset(ReadOnlySpan<double> diagonal)
    {
        Array.Clear(_inverse);
        for (var r = 0; r < size; r++)
            _inverse[r * size + r] = diagonal[r];
    }

    /// <summary>The inverse times a column.</summary>
    public void Times(ReadOnlySpan<int> rows, ReadOnlySpan<double> amounts, Span<double> to)
    {
        for (var r = 0; r < size; r++)
        {
            var row = _inverse.AsSpan(r * size, size);
            var sum = 0.0;
            for (var k = 0; k < rows.Length; k++)
                sum += row[rows[k]] * amounts[k];
            to[r] = sum;
        }
    }

    /// <summary>Takes a column into the basis for the one in a row.</summary>
    /// <param name="column">The inverse times the column.</param>
    /// <returns>Rows that changed.</returns>
    public int Pivot(int leave, ReadOnlySpan<double> column)
    {
        var row = _inverse.AsSpan(leave * size, size);
        DenseRows.Scale(row, 1 / column[leave]);
        var changed = 1;
        for (var r = 0; r < size; r++)
        {
            if (r == leave || Math.Abs(column[r]) < 1e-12)
                continue;
            DenseRows.AddScaled(_inverse.AsSpan(r * size, size), row, -column[r]);
            changed++;
        }

        return changed;
    }

    /// <summary>Computes the inverse of a basis anew, to shed rounding errors. False, and no change, if it is singular by rounding.</summary>
    /// <param name="basis">What is basic in each row, in the code of <see cref="MasterProgram"/>.</param>
    public bool Invert(ReadOnlySpan<int> basis, SparseColumns columns)
    {
        var matrix = new double[size * size];
        for (var c = 0; c < size; c++)
        {
            var column = basis[c];
            if (column >= 0)
            {
                var rows = columns.Rows(column);
                var amounts = columns.Amounts(column);
                for (var k = 0; k < rows.Length; k++)
                    matrix[rows[k] * size + c] = amounts[k];
            }
            else if (column >= -size)
            {
                matrix[(-1 - column) * size + c] = -1;
            }
            else
            {
                matrix[(-1 - size - column) * size + c] = 1;
            }
        }

        if (DenseRows.Invert(matrix, size) is not { } inverse)
            return false;
        _inverse = inverse;
        return true;
    }
}
