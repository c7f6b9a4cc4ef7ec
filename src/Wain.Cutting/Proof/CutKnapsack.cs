namespace Wain.Cutting;

/// <summary>
/// The most valuable pieces within a capacity where rounding cuts take off value, in whole numbers. What is still to come is judged without the cuts,
/// so only sets of pieces that could be worth more than asked are looked at.
/// </summary>
internal sealed class CutKnapsack
{
    /// <summary>Cells of the table of what is still to come; a larger problem is not looked at.</summary>
    public const int MaxCells = 1 << 23;

    private readonly IReadOnlyList<int> _lengths;
    private readonly IReadOnlyList<int> _counts;
    private readonly IReadOnlyList<long> _prices;
    private readonly IReadOnlyList<RoundingCut> _cuts;
    private readonly List<(int Cut, int Weight)>[] _cutsOf;
    private readonly int[] _order;
    private readonly int _size;
    private readonly long[] _rest; // row i: most value of the kinds from i on, for every capacity
    private readonly long[] _sums;
    private readonly int[] _amounts;
    private readonly long _mostNodes;
    private long _best;
    private Action<int[], long>? _found;

    private CutKnapsack(IReadOnlyList<int> lengths, IReadOnlyList<int> counts, IReadOnlyList<long> prices, IReadOnlyList<RoundingCut> cuts, int capacity, long mostNodes)
    {
        (_lengths, _counts, _prices, _cuts, _mostNodes) = (lengths, counts, prices, cuts, mostNodes);
        _order = [.. Enumerable.Range(0, lengths.Count).Where(i => prices[i] > 0 && counts[i] > 0 && lengths[i] <= capacity).OrderByDescending(i => lengths[i]).ThenBy(i => i)];
        _size = capacity + 1;
        _cutsOf = [.. lengths.Select(_ => new List<(int, int)>())];
        for (var c = 0; c < cuts.Count; c++)
        {
            for (var i = 0; i < cuts[c].Kinds.Count; i++)
                _cutsOf[cuts[c].Kinds[i]].Add((c, cuts[c].Weights[i]));
        }

        _sums = new long[cuts.Count];
        _amounts = new int[lengths.Count];
        _rest = new long[(_order.Length + 1) * _size];
        for (var i = _order.Length - 1; i >= 0; i--)
        {
            var after = _rest.AsSpan((i + 1) * _size, _size);
            var here = _rest.AsSpan(i * _size, _size);
            var (length, price) = (lengths[_order[i]], prices[_order[i]]);
            after.CopyTo(here);
            for (var n = 1; n <= counts[_order[i]] && n * (long)length < _size; n++)
            {
                for (var c = n * length; c < _size; c++)
                    here[c] = Math.Max(here[c], after[c - n * length] + n * price);
            }
        }
    }

    /// <summary>Sets looked at so far.</summary>
    public long Nodes { get; private set; }

    public static bool Suits(int kinds, int capacity) => (kinds + 1L) * (capacity + 1L) <= MaxCells;

    /// <summary>
    /// The most value above <paramref name="floor"/> that fits each capacity, or the floor where nothing is worth more; null if more than
    /// <paramref name="mostNodes"/> sets would have to be looked at or the table would be too large.
    /// </summary>
    /// <param name="found">Told of each set of pieces that is worth more than all before, with its capacity's place and its value.</param>
    public static long[]? Values(IReadOnlyList<int> capacities, IReadOnlyList<int> lengths, IReadOnlyList<int> counts, IReadOnlyList<long> prices,
        IReadOnlyList<RoundingCut> cuts, IReadOnlyList<long> floor, long mostNodes, out long nodes, Action<int, int[], long>? found = null)
    {
        nodes = 0;
        var longest = capacities.Max();
        // No sum below may leave the range of its type.
        var top = Math.Max(prices.Max(), cuts.Sum(c => (double)c.Price * c.Weights.Max()));
        if (!Suits(lengths.Count, longest) || top * (longest / lengths.Min() + 1.0) > long.MaxValue / 4.0 || floor.Any(f => f > long.MaxValue / 4))
            return null;
        var search = new CutKnapsack(lengths, counts, prices, cuts, longest, mostNodes);
        var result = new long[capacities.Count];
        for (var s = 0; s < result.Length; s++)
        {
            var place = s;
            search._best = floor[s];
            search._found = found is null ? null : (amounts, value) => found(place, amounts, value);
            var whole = search.Look(0, capacities[s], 0);
            nodes = search.Nodes + search._rest.Length / 8;
            if (!whole)
                return null;
            result[s] = search._best;
        }

        return result;
    }

    private bool Look(int from, int room, long value)
    {
        if (++Nodes > _mostNodes)
            return false;
        if (value > _best)
        {
            _best = value;
            _found?.Invoke(_amounts, value);
        }

        for (var i = from; i < _order.Length && value + _rest[i * _size + room] > _best; i++)
        {
            var kind = _order[i];
            var length = _lengths[kind];
            if (length > room)
                continue;
            var most = Math.Min(_counts[kind], room / length);
            var (worth, left) = (value, room);
            var n = 0;
            var whole = true;
            while (n < most && whole)
            {
                n++;
                left -= length;
                worth += _prices[kind];
                foreach (var (c, weight) in _cutsOf[kind])
                {
                    worth -= _cuts[c].Price * ((_sums[c] + weight) / _cuts[c].Divisor - _sums[c] / _cuts[c].Divisor);
                    _sums[c] += weight;
                }

                _amounts[kind] = n;
                whole = worth + _rest[(i + 1) * _size + left] <= _best || Look(i + 1, left, worth);
            }

            foreach (var (c, weight) in _cutsOf[kind])
                _sums[c] -= n * weight;
            _amounts[kind] = 0;
            if (!whole)
                return false;
        }

        return true;
    }
}
