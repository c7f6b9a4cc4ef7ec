namespace Wain.Cutting;

/// <summary>A way to cut one stock piece: how many of each kind it gives.</summary>
internal sealed record Column(int Stock, int[] Kinds, int[] Amounts, double Cost)
{
    public string Key => $"{Stock}:{string.Join(',', Kinds)}:{string.Join(',', Amounts)}";
}

/// <summary>
/// The linear program of cutting stock over the patterns known so far: least cost so that each kind is covered and limited stock is not exceeded.
/// A revised simplex with a dense inverse: patterns come one by one from the pricing, and demands change while patterns are fixed.
/// Rows are the kinds of pieces (amount at least the demand), then one row for each limited stock (minus the number used at least minus the count).
/// </summary>
internal sealed class MasterProgram
{
    private const double Eps = 1e-9;
    private int _rows;
    private readonly int _kinds;
    private readonly int[] _rowOfStock;
    private readonly double _artificialCost;
    private readonly List<Column> _columns = [];
    private readonly HashSet<string> _keys = [];
    private readonly List<int> _where = [];        // place in the basis, -1 outside
    private double[] _inverse;
    private int[] _basis;                 // >= 0 pattern; -1 - r slack of row r; -1 - rows - r artificial of row r
    private double[] _x;
    private double[] _dual;
    private double[] _rhs;
    private double[] _work;
    private int[] _slackWhere;
    private int _sinceRefactor;

    public MasterProgram(int kinds, IReadOnlyList<int> limitedStocks, int stocks, double artificialCost)
    {
        _kinds = kinds;
        _rowOfStock = new int[stocks];
        Array.Fill(_rowOfStock, -1);
        for (var i = 0; i < limitedStocks.Count; i++)
            _rowOfStock[limitedStocks[i]] = kinds + i;
        _rows = kinds + limitedStocks.Count;
        _artificialCost = artificialCost;
        _inverse = new double[_rows * _rows];
        _basis = new int[_rows];
        _x = new double[_rows];
        _dual = new double[_rows];
        _rhs = new double[_rows];
        _work = new double[_rows];
        _slackWhere = new int[_rows];
    }

    public IReadOnlyList<Column> Columns => _columns;

    public ReadOnlySpan<double> Dual => _dual;

    /// <summary>Work done since the last look.</summary>
    public long Work { get; private set; }

    public long TakeWork()
    {
        var w = Work;
        Work = 0;
        return w;
    }

    public double Objective
    {
        get
        {
            var sum = 0.0;
            for (var r = 0; r < _rows; r++)
                sum += CostOf(_basis[r]) * _x[r];
            return sum;
        }
    }

    public double StockDual(int stock) => _rowOfStock[stock] < 0 ? 0 : _dual[_rowOfStock[stock]];

    public bool Add(Column column)
    {
        if (!_keys.Add(column.Key))
            return false;
        _columns.Add(column);
        _where.Add(-1);
        return true;
    }

    /// <summary>Starts from artificial columns, which no solution may keep.</summary>
    public void Reset(ReadOnlySpan<int> demand, ReadOnlySpan<int> limits)
    {
        SetRhs(demand, limits);
        Array.Clear(_inverse);
        for (var i = 0; i < _where.Count; i++)
            _where[i] = -1;
        Array.Fill(_slackWhere, -1);
        for (var r = 0; r < _rows; r++)
        {
            if (r < _kinds)
            {
                _basis[r] = -1 - _rows - r;
                _inverse[r * _rows + r] = 1;
            }
            else
            {
                _basis[r] = -1 - r;
                _slackWhere[r] = r;
                _inverse[r * _rows + r] = -1;
            }
        }

        Recompute();
    }

    /// <summary>Starts from artificial columns, for amounts that need not be whole.</summary>
    public void Reset(ReadOnlySpan<double> demand, ReadOnlySpan<int> limits)
    {
        Reset(new int[_kinds], limits);
        demand.CopyTo(_rhs);
        Recompute();
    }

    public void SetRhs(ReadOnlySpan<int> demand, ReadOnlySpan<int> limits)
    {
        for (var i = 0; i < _kinds; i++)
            _rhs[i] = demand[i];
        for (var i = _kinds; i < _rows; i++)
            _rhs[i] = -limits[i - _kinds];
    }

    /// <summary>
    /// Adds rows that hold for every whole solution but not for the present one: minus an amount of each pattern at least the right side.
    /// The basis stays, with the slack of each new row in it; <see cref="RestoreFeasible"/> mends what they cut off.
    /// </summary>
    /// <param name="extend">Gives each known pattern its amounts in the new rows, which are numbered from <see cref="Rows"/> on.</param>
    public void AddRows(IReadOnlyList<double> rhs, Func<Column, Column> extend)
    {
        var (old, rows) = (_rows, _rows + rhs.Count);
        for (var j = 0; j < _columns.Count; j++)
            _columns[j] = extend(_columns[j]);
        Array.Resize(ref _basis, rows);
        Array.Resize(ref _slackWhere, rows);
        Array.Resize(ref _rhs, rows);
        for (var r = 0; r < old; r++)
        {
            // The code of an artificial column counts the rows.
            if (_basis[r] < -old)
                _basis[r] -= rhs.Count;
        }

        for (var r = old; r < rows; r++)
        {
            _basis[r] = -1 - r;
            _slackWhere[r] = r;
            _rhs[r] = rhs[r - old];
        }

        _rows = rows;
        (_x, _dual, _work, _inverse) = (new double[rows], new double[rows], new double[rows], new double[rows * rows]);
        Refactor();
    }

    public int Rows => _rows;

    /// <summary>A row of the basis inverse: how the amount that the row stands for depends on the right sides.</summary>
    public ReadOnlySpan<double> InverseRow(int row) => _inverse.AsSpan(row * _rows, _rows);

    /// <summary>The amount of what is basic in a row.</summary>
    public double Amount(int row) => _x[row];

    public void Recompute()
    {
        Array.Clear(_dual);
        for (var r = 0; r < _rows; r++)
        {
            var row = _inverse.AsSpan(r * _rows, _rows);
            var x = 0.0;
            for (var k = 0; k < _rows; k++)
                x += row[k] * _rhs[k];
            _x[r] = x;
            var cost = CostOf(_basis[r]);
            if (cost != 0)
                DenseRows.AddScaled(_dual, row, cost);
        }

        Work += 2L * _rows * _rows;
    }

    /// <summary>Value of a pattern that is in the basis, else 0.</summary>
    public double ValueOf(int column) => _where[column] < 0 ? 0 : _x[_where[column]];

    public double ArtificialLeft()
    {
        var sum = 0.0;
        for (var r = 0; r < _rows; r++)
        {
            if (_basis[r] < -_rows)
                sum += Math.Max(0, _x[r]);
        }

        return sum;
    }

    public double ReducedCost(Column c)
    {
        var rc = c.Cost;
        for (var k = 0; k < c.Kinds.Length; k++)
            rc -= _dual[c.Kinds[k]] * c.Amounts[k];
        if (_rowOfStock[c.Stock] >= 0)
            rc += _dual[_rowOfStock[c.Stock]];
        return rc;
    }

    /// <summary>Primal simplex over the known patterns for which <paramref name="allowed"/> holds, until none improves.</summary>
    public void Primal(bool[] allowed, StepBudget budget)
    {
        for (var guard = 0; guard < 200_000; guard++)
        {
            var best = -1e-8;
            var enter = int.MinValue;
            for (var j = 0; j < _columns.Count; j++)
            {
                if (_where[j] >= 0 || !allowed[j])
                    continue;
                var rc = ReducedCost(_columns[j]);
                if (rc < best)
                {
                    best = rc;
                    enter = j;
                }
            }

            for (var r = 0; r < _rows; r++)
            {
                if (_slackWhere[r] < 0 && _dual[r] < best)
                {
                    best = _dual[r];
                    enter = -1 - r;
                }
            }

            Work += _columns.Count * 6L + _rows;
            if (enter == int.MinValue || !Enter(enter, best))
                return;
            if (!budget.Spend(TakeWork()))
                return;
        }
    }

    /// <summary>Brings a column in by the ratio test. False if the program is unbounded, which only rounding can make it seem.</summary>
    private bool Enter(int column, double reducedCost)
    {
        Ftran(column, _work);
        var leave = -1;
        var ratio = double.MaxValue;
        for (var r = 0; r < _rows; r++)
        {
            if (_work[r] <= 1e-7)
                continue;
            var q = Math.Max(0, _x[r]) / _work[r];
            // Ties go to artificials, then to the larger pivot: fewer stalls and better numbers.
            if (q < ratio - 1e-10 || (q < ratio + 1e-10 && leave >= 0 && Rank(r) > Rank(leave)))
            {
                ratio = Math.Min(q, ratio);
                leave = r;
            }
        }

        if (leave < 0)
            return false;
        Pivot(leave, column, reducedCost);
        return true;
    }

    private double Rank(int r) => (_basis[r] < -_rows ? 1e6 : 0) + _work[r];

    /// <summary>Dual simplex after a change of the right side: back to non-negative amounts.</summary>
    public void RestoreFeasible(bool[] allowed, StepBudget budget)
    {
        for (var guard = 0; guard < 5_000; guard++)
        {
            var leave = -1;
            var worst = -1e-8;
            for (var r = 0; r < _rows; r++)
            {
                if (_x[r] < worst)
                {
                    worst = _x[r];
                    leave = r;
                }
            }

            if (leave < 0)
                return;
            var row = _inverse.AsSpan(leave * _rows, _rows);
            var best = double.MaxValue;
            var bestAlpha = 0.0;
            var enter = int.MinValue;
            for (var j = 0; j < _columns.Count; j++)
            {
                if (_where[j] >= 0 || !allowed[j])
                    continue;
                var c = _columns[j];
                var alpha = 0.0;
                for (var k = 0; k < c.Kinds.Length; k++)
                    alpha += row[c.Kinds[k]] * c.Amounts[k];
                if (_rowOfStock[c.Stock] >= 0)
                    alpha -= row[_rowOfStock[c.Stock]];
                if (alpha > -1e-7)
                    continue;
                Consider(j, alpha, Math.Max(0, ReducedCost(c)));
            }

            for (var r = 0; r < _rows; r++)
            {
                if (_slackWhere[r] < 0 && -row[r] < -1e-7)
                    Consider(-1 - r, -row[r], Math.Max(0, _dual[r]));
                if (r < _kinds && row[r] < -1e-7)
                    Consider(-1 - _rows - r, row[r], Math.Max(0, _artificialCost - _dual[r]));
            }

            Work += _columns.Count * 10L;
            if (enter == int.MinValue)
                return;
            Ftran(enter, _work);
            if (Math.Abs(_work[leave]) < 1e-9)
            {
                Refactor();
                continue;
            }

            Pivot(leave, enter, TrueReducedCost(enter));
            if (!budget.Spend(TakeWork()))
                return;

            void Consider(int column, double alpha, double rc)
            {
                var q = rc / -alpha;
                if (q < best - 1e-10 || (q < best + 1e-10 && alpha < bestAlpha))
                {
                    best = Math.Min(best, q);
                    bestAlpha = alpha;
                    enter = column;
                }
            }
        }
    }

    private double TrueReducedCost(int column) => column >= 0 ? ReducedCost(_columns[column])
        : column >= -_rows ? _dual[-1 - column]
        : _artificialCost - _dual[-1 - _rows - column];

    private double CostOf(int column) => column >= 0 ? _columns[column].Cost : column < -_rows ? _artificialCost : 0;

    private void Ftran(int column, double[] to)
    {
        Array.Clear(to);
        if (column >= 0)
        {
            var c = _columns[column];
            var stockRow = _rowOfStock[c.Stock];
            for (var r = 0; r < _rows; r++)
            {
                var row = _inverse.AsSpan(r * _rows, _rows);
                var sum = 0.0;
                for (var k = 0; k < c.Kinds.Length; k++)
                    sum += row[c.Kinds[k]] * c.Amounts[k];
                if (stockRow >= 0)
                    sum -= row[stockRow];
                to[r] = sum;
            }
        }
        else
        {
            var (row, sign) = column >= -_rows ? (-1 - column, -1.0) : (-1 - _rows - column, 1.0);
            for (var r = 0; r < _rows; r++)
                to[r] = sign * _inverse[r * _rows + row];
        }

        Work += _rows * 8L;
    }

    private void Pivot(int leave, int enter, double reducedCost)
    {
        var row = _inverse.AsSpan(leave * _rows, _rows);
        var pivot = _work[leave];
        DenseRows.Scale(row, 1 / pivot);
        _x[leave] /= pivot;
        for (var r = 0; r < _rows; r++)
        {
            if (r == leave || Math.Abs(_work[r]) < 1e-12)
                continue;
            DenseRows.AddScaled(_inverse.AsSpan(r * _rows, _rows), row, -_work[r]);
            _x[r] -= _work[r] * _x[leave];
            if (_x[r] is < 0 and > -Eps)
                _x[r] = 0;
            Work += _rows / 2;
        }

        DenseRows.AddScaled(_dual, row, reducedCost);
        SetWhere(_basis[leave], -1);
        _basis[leave] = enter;
        SetWhere(enter, leave);
        if (++_sinceRefactor >= 400)
            Refactor();
    }

    private void SetWhere(int column, int place)
    {
        if (column >= 0)
            _where[column] = place;
        else if (column >= -_rows)
            _slackWhere[-1 - column] = place;
    }

    /// <summary>Computes the inverse anew, to shed rounding errors.</summary>
    private void Refactor()
    {
        _sinceRefactor = 0;
        var n = _rows;
        var matrix = new double[n * n];
        for (var c = 0; c < n; c++)
        {
            var column = _basis[c];
            if (column >= 0)
            {
                var p = _columns[column];
                for (var k = 0; k < p.Kinds.Length; k++)
                    matrix[p.Kinds[k] * n + c] = p.Amounts[k];
                if (_rowOfStock[p.Stock] >= 0)
                    matrix[_rowOfStock[p.Stock] * n + c] = -1;
            }
            else if (column >= -n)
            {
                matrix[(-1 - column) * n + c] = -1;
            }
            else
            {
                matrix[(-1 - n - column) * n + c] = 1;
            }
        }

        if (DenseRows.Invert(matrix, n) is not { } inverse)
            return; // Singular by rounding: keep the inverse that there is.
        Work += (long)n * n * n / 2;
        _inverse = inverse;
        Recompute();
    }
}
