namespace Wain.Cutting;

/// <summary>The few columns with the least reduced costs of all that were offered; of equals the first.</summary>
internal sealed class ShortList(int most)
{
    private readonly int[] _columns = new int[most];
    private readonly double[] _costs = new double[most];
    private int _count;
    private int _weakest;

    public ReadOnlySpan<int> Columns => _columns.AsSpan(0, _count);

    public void Clear() => _count = 0;

    public void Offer(int column, double reducedCost)
    {
        if (_count == most && reducedCost >= _costs[_weakest])
            return;
        var at = _count < most ? _count++ : _weakest;
        (_columns[at], _costs[at]) = (column, reducedCost);
        _weakest = 0;
        for (var i = 1; i < _count; i++)
        {
            if (_costs[i] > _costs[_weakest])
                _weakest = i;
        }
    }
}
