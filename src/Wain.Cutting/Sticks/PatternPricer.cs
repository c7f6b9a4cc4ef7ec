namespace Wain.Cutting;

/// <summary>
/// The most valuable patterns for sticks measured in fine units, where a table of every length would be slow: pieces are tried from the longest down, and
/// what may still come is judged by a table of lengths rounded down to a coarse unit, which never judges too low. One pattern is sought for each longest piece, so that
/// one pass gives many different ones.
/// </summary>
internal sealed class PatternPricer
{
    private const int Cells = 2048;
    private readonly int[] _lengths;
    private readonly int _unit;
    private readonly int _size;
    private readonly int[] _order;
    private double[] _rest = [];
    private readonly double[] _price;
    private readonly int[] _counts;
    private readonly int[] _amounts;
    private int _used;
    private double _best;
    private int[]? _pattern;
    private long _nodes;
    private long _most;

    public PatternPricer(int[] lengths, int longest)
    {
        _lengths = lengths;
        _unit = Math.Max(1, longest / Cells);
        _size = longest / _unit + 1;
        _order = new int[lengths.Length];
        _price = new double[lengths.Length];
        _counts = new int[lengths.Length];
        _amounts = new int[lengths.Length];
    }

    /// <summary>A pattern and its worth.</summary>
    public readonly record struct Found(double Worth, int[] Amounts);

    /// <summary>
    /// Patterns worth more than <paramref name="floor"/> on a stick of the given capacity. <paramref name="complete"/> says whether the best of all is among them,
    /// or that none is worth more; false if the work ran out.
    /// </summary>
    public List<Found> Find(int capacity, ReadOnlySpan<int> count, ReadOnlySpan<double> price, double floor, long mostNodes, out bool complete, out long work)
    {
        _used = 0;
        for (var k = 0; k < _lengths.Length; k++)
        {
            if (price[k] > 1e-12 && count[k] > 0 && _lengths[k] <= capacity)
                _order[_used++] = k;
        }

        // Lengths of a core ascend; the longest goes first.
        Array.Reverse(_order, 0, _used);
        Judge(count, price);
        var found = new List<Found>();
        complete = true;
        work = (long)_used * _size;
        for (var first = 0; first < _used; first++)
        {
            var kind = _order[first];
            if (_rest[first * _size + capacity / _unit] <= floor)
                break;
            (_best, _pattern, _nodes, _most) = (floor, null, 0, mostNodes);
            var whole = true;
            var worth = 0.0;
            var room = capacity;
            var most = Math.Min(_counts[first], capacity / _lengths[kind]);
            for (var n = 1; n <= most && whole; n++)
            {
                worth += _price[first];
                room -= _lengths[kind];
                _amounts[kind] = n;
                whole = Look(first + 1, room, worth);
            }

            _amounts[kind] = 0;
            complete &= whole;
            work += _nodes * 16;
            if (_pattern is not null)
                found.Add(new Found(_best, _pattern));
        }

        return found;
    }

    private void Judge(ReadOnlySpan<int> count, ReadOnlySpan<double> price)
    {
        if (_rest.Length < (_used + 1) * _size)
            _rest = new double[(_used + 1) * _size];
        Array.Clear(_rest, _used * _size, _size);
        for (var i = _used - 1; i >= 0; i--)
        {
            var kind = _order[i];
            (_price[i], _counts[i]) = (price[kind], count[kind]);
            var after = _rest.AsSpan((i + 1) * _size, _size);
            var here = _rest.AsSpan(i * _size, _size);
            after.CopyTo(here);
            var length = _lengths[kind] / _unit;
            if (length == 0)
            {
                // Shorter than a unit: all that there are.
                for (var c = 0; c < _size; c++)
                    here[c] += _counts[i] * _price[i];
                continue;
            }

            for (var n = 1; n <= _counts[i] && n * (long)length < _size; n++)
            {
                for (var c = n * length; c < _size; c++)
                    here[c] = Math.Max(here[c], after[c - n * length] + n * _price[i]);
            }
        }
    }

    private bool Look(int from, int room, double value)
    {
        if (++_nodes > _most)
            return false;
        if (value > _best)
        {
            _best = value;
            _pattern = (int[])_amounts.Clone();
        }

        var cell = room / _unit;
        for (var i = from; i < _used && value + _rest[i * _size + cell] > _best + 1e-12; i++)
        {
            var kind = _order[i];
            var length = _lengths[kind];
            if (length > room)
                continue;
            var most = Math.Min(_counts[i], room / length);
            // Many first: the best is met early.
            for (var n = most; n >= 1; n--)
            {
                var left = room - n * length;
                var worth = value + n * _price[i];
                if (worth + _rest[(i + 1) * _size + left / _unit] <= _best + 1e-12)
                    continue;
                _amounts[kind] = n;
                var whole = Look(i + 1, left, worth);
                _amounts[kind] = 0;
                if (!whole)
                    return false;
            }
        }

        return true;
    }
}
