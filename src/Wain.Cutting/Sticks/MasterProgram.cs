namespace Wain.Cutting;

/// <summary>
/// The linear program of cutting stock over the patterns known so far: least cost so that each kind is covered and limited stock is not exceeded.
/// A revised simplex with a dense inverse: patterns come one by one from the pricing, and demands change while patterns are fixed.
/// Rows are the kinds of pieces (amount at least the demand), then one row for each limited stock (minus the number used at least minus the count).
/// </summary>
internal sealed class MasterProgram
{
    private const double Eps = 1e-9;
    private const int MostWantedAtOnce = 24;
    private readonly int _rows;
    private readonly int _kinds;
    private readonly int[] _rowOfStock;
    private readonly double _artificialCost;
    private readonly double _surplusCost;
    private readonly List<Column> _columns = [];
    private readonly SparseColumns _sparse = new();
    private readonly HashSet<string> _keys = [];
    private readonly List<int> _where = [];        // place in the basis, -1 outside
    private readonly BasisInverse _inverse;
    private readonly int[] _basis;                 // >= 0 pattern; -1 - r slack of row r; -1 - rows - r artificial of row r
    private readonly double[] _x;
    private readonly double[] _dual;
    private readonly double[] _rhs;
    private readonly double[] _work;
    private readonly int[] _slackWhere;
    private readonly ShortList _wanted = new(MostWantedAtOnce);
    private bool[]? _costly;
    private int _sinceRefactor;

    /// <param name="artificialCost">Cost of a piece that no pattern gives, above that of any pattern.</param>
    /// <param name="surplusCost">Cost of a piece too many.</param>
    public MasterProgram(int kinds, IReadOnlyList<int> limitedStocks, int stocks, double artificialCost, double surplusCost = 0)
    {
        (_kinds, _artificialCost, _surplusCost) = (kinds, artificialCost, surplusCost);
        _rowOfStock = new int[stocks];
        Array.Fill(_rowOfStock, -1);
        for (var i = 0; i < limitedStocks.Count; i++)
            _rowOfStock[limitedStocks[i]] = kinds + i;
        _rows = kinds + limitedStocks.Count;
        _inverse = new BasisInverse(_rows);
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
        _sparse.Add(column.Kinds, column.Amounts);
        if (_rowOfStock[column.Stock] >= 0)
            _sparse.Extend(_rowOfStock[column.Stock], -1);
        _where.Add(-1);
        return true;
    }

    /// <summary>Makes patterns so dear that no best solution uses them if it can do without.</summary>
    public void SetCostly(bool[] costly) => _costly = costly;

    /// <summary>Starts from artificial columns, which no solution may keep.</summary>
    public void Reset(ReadOnlySpan<int> demand, ReadOnlySpan<int> limits)
    {
        SetRhs(demand, limits);
        for (var i = 0; i < _where.Count; i++)
            _where[i] = -1;
        Array.Fill(_slackWhere, -1);
        for (var r = 0; r < _rows; r++)
        {
            _basis[r] = r < _kinds ? -1 - _rows - r : -1 - r;
            _work[r] = r < _kinds ? 1 : -1;
            if (r >= _kinds)
                _slackWhere[r] = r;
        }

        _inverse.Reset(_work);
        _sinceRefactor = 0;
        Recompute();
    }

    /// <summary>Starts from artificial columns, for amounts that need not be whole.</summary>
    public void Reset(ReadOnlySpan<double> demand, ReadOnlySpan<int> limits)
    {
        Reset(new int[_kinds], limits);
        SetDemand(demand);
    }

    /// <summary>Goes on from the present basis with amounts that need not be whole.</summary>
    public void SetDemand(ReadOnlySpan<double> demand)
    {
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

    /// <summary>Amounts and duals of the present basis, after a change of right sides or costs.</summary>
    public void Recompute()
    {
        Array.Clear(_dual);
        for (var r = 0; r < _rows; r++)
        {
            var row = _inverse.Row(r);
            var x = 0.0;
            for (var k = 0; k < _rows; k++)
                x += row[k] * _rhs[k];
            _x[r] = x;
            var cost = CostOf(_basis[r]);
            if (cost != 0)
                DenseRows.AddScaled(_dual, row, cost);
        }

        Work += _rows * (long)_rows / 2;
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

    /// <summary>Primal simplex over the known patterns for which <paramref name="allowed"/> holds, until none improves.</summary>
    public void Primal(bool[] allowed, StepBudget budget)
    {
        // All are priced now and then; in between only those few that were most wanted.
        _wanted.Clear();
        for (var guard = 0; guard < 200_000; guard++)
        {
            var (enter, best) = MostWanted();
            if (enter == int.MinValue)
            {
                PriceAll(allowed);
                (enter, best) = MostWanted();
            }

            if (enter == int.MinValue || !Enter(enter, best))
                return;
            if (!budget.Spend(TakeWork()))
                return;
        }
    }

    /// <summary>Of the listed patterns and the slacks the one that saves most, with its reduced cost.</summary>
    private (int Column, double ReducedCost) MostWanted()
    {
        var (enter, best) = (int.MinValue, -1e-8);
        foreach (var j in _wanted.Columns)
        {
            if (_where[j] >= 0)
                continue;
            var rc = ReducedCost(j);
            if (rc < best)
                (enter, best) = (j, rc);
        }

        for (var r = 0; r < _rows; r++)
        {
            if (_slackWhere[r] < 0 && _dual[r] + SlackCost(r) < best)
                (enter, best) = (-1 - r, _dual[r] + SlackCost(r));
        }

        Work += _wanted.Columns.Length * 4L + _rows;
        return (enter, best);
    }

    private void PriceAll(bool[] allowed)
    {
        _wanted.Clear();
        for (var j = 0; j < _columns.Count; j++)
        {
            if (_where[j] >= 0 || !allowed[j])
                continue;
            var rc = ReducedCost(j);
            if (rc < -1e-8)
                _wanted.Offer(j, rc);
        }

        Work += _columns.Count * 4L;
    }

    /// <summary>Brings a column in by the ratio test. False if the program is unbounded, which only rounding can make it seem.</summary>
    private bool Enter(int column, double reducedCost)
    {
        Ftran(column);
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
            var row = _inverse.Row(leave);
            var best = double.MaxValue;
            var bestAlpha = 0.0;
            var enter = int.MinValue;
            for (var j = 0; j < _columns.Count; j++)
            {
                if (_where[j] >= 0 || !allowed[j])
                    continue;
                var alpha = _sparse.Times(j, row);
                if (alpha < -1e-7)
                    Consider(j, alpha, Math.Max(0, ReducedCost(j)));
            }

            for (var r = 0; r < _rows; r++)
            {
                if (_slackWhere[r] < 0 && -row[r] < -1e-7)
                    Consider(-1 - r, -row[r], Math.Max(0, _dual[r] + SlackCost(r)));
                if (r < _kinds && row[r] < -1e-7)
                    Consider(-1 - _rows - r, row[r], Math.Max(0, _artificialCost - _dual[r]));
            }

            Work += _columns.Count * 6L;
            if (enter == int.MinValue)
                return;
            Ftran(enter);
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

    private double ReducedCost(int column) => _columns[column].Cost - _sparse.Times(column, _dual);

    private double TrueReducedCost(int column) => column >= 0 ? ReducedCost(column)
        : column >= -_rows ? _dual[-1 - column] + SlackCost(-1 - column)
        : _artificialCost - _dual[-1 - _rows - column];

    private double CostOf(int column) => column >= 0 ? (_costly is not null && _costly[column] ? _artificialCost : _columns[column].Cost)
        : column < -_rows ? _artificialCost : SlackCost(-1 - column);

    private double SlackCost(int row) => row < _kinds ? _surplusCost : 0;

    /// <summary>The column in terms of the basis.</summary>
    private void Ftran(int column)
    {
        if (column >= 0)
            _inverse.Times(_sparse.Rows(column), _sparse.Amounts(column), _work);
        else if (column >= -_rows)
            _inverse.Times([-1 - column], [-1.0], _work);
        else
            _inverse.Times([-1 - _rows - column], [1.0], _work);
        Work += _rows * 3L;
    }

    private void Pivot(int leave, int enter, double reducedCost)
    {
        _x[leave] /= _work[leave];
        for (var r = 0; r < _rows; r++)
        {
            if (r == leave || Math.Abs(_work[r]) < 1e-12)
                continue;
            _x[r] -= _work[r] * _x[leave];
            if (_x[r] is < 0 and > -Eps)
                _x[r] = 0;
        }

        Work += _inverse.Pivot(leave, _work) * (_rows / 8L + 4);
        DenseRows.AddScaled(_dual, _inverse.Row(leave), reducedCost);
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
        if (!_inverse.Invert(_basis, _sparse))
            return;
        Work += (long)_rows * _rows * _rows / 4;
        Recompute();
    }
}
