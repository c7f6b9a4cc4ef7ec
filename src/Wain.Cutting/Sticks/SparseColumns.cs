using System.Runtime.InteropServices;

namespace Wain.Cutting;

/// <summary>Columns of a linear program, the rows that they touch one after another, because pricing runs over all of them again and again.</summary>
internal sealed class SparseColumns
{
    private readonly List<int> _starts = [0];
    private readonly List<int> _rows = [];
    private readonly List<double> _amounts = [];

    public int Count => _starts.Count - 1;

    public void Add(ReadOnlySpan<int> rows, ReadOnlySpan<int> amounts)
    {
        for (var i = 0; i < rows.Length; i++)
            Put(rows[i], amounts[i]);
        _starts.Add(_rows.Count);
    }

    /// <summary>Adds a row to the column added last.</summary>
    public void Extend(int row, double amount)
    {
        Put(row, amount);
        _starts[^1] = _rows.Count;
    }

    public ReadOnlySpan<int> Rows(int column) => CollectionsMarshal.AsSpan(_rows)[_starts[column].._starts[column + 1]];

    public ReadOnlySpan<double> Amounts(int column) => CollectionsMarshal.AsSpan(_amounts)[_starts[column].._starts[column + 1]];

    /// <summary>The sum of a column's amounts, each times the value of its row.</summary>
    public double Times(int column, ReadOnlySpan<double> values)
    {
        var rows = Rows(column);
        var amounts = Amounts(column);
        var sum = 0.0;
        for (var i = 0; i < rows.Length; i++)
            sum += values[rows[i]] * amounts[i];
        return sum;
    }

    private void Put(int row, double amount)
    {
        _rows.Add(row);
        _amounts.Add(amount);
    }
}
