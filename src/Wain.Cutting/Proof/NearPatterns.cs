namespace Wain.Cutting;

/// <summary>A way to cut one stick, as a list of kinds.</summary>
/// <param name="Kinds">In ascending order.</param>
/// <param name="Amounts">How many of each, at least 1.</param>
internal sealed record NearPattern(int Stock, int[] Kinds, int[] Amounts);

/// <summary>
/// All patterns that a plan of a wanted cost could use, by prices: what the pieces of a stick are worth less than the stick costs is lost, and no stick may lose
/// more than the wanted cost exceeds what all pieces are worth. In whole numbers: what both the maker and the checker of a proof stand on.
/// </summary>
internal sealed class NearPatterns
{
    public const int MostPatterns = 20_000;
    private const int MostNodes = 1_500_000;
    private const int MostCells = 1 << 21;
    private const int MostPieces = 1 << 15; // on a stick
    private const long MostWork = 50_000_000;
    private readonly StickCore _core;
    private readonly IReadOnlyList<long> _prices;
    private readonly int[] _kinds; // those with a price, longest last
    private readonly int _unit;
    private readonly int _size;
    private readonly long[] _rest; // row i: an upper bound of what the first i kinds are worth in every room
    private readonly int[] _amounts;
    private readonly List<NearPattern> _found = [];
    private int _stock;
    private long _least;
    private long _nodes;

    private NearPatterns(StickCore core, IReadOnlyList<long> prices)
    {
        (_core, _prices) = (core, prices);
        _kinds = [.. Enumerable.Range(0, core.Kinds).Where(k => prices[k] > 0)];
        _amounts = new int[_kinds.Length];
        // Lengths and room rounded down together judge no pattern too low.
        _unit = (int)((_kinds.Length + 1L) * (core.Longest + 1L) / MostCells) + 1;
        _size = core.Longest / _unit + 1;
        _rest = new long[(_kinds.Length + 1) * _size];
        for (var i = 0; i < _kinds.Length; i++)
        {
            var before = _rest.AsSpan(i * _size, _size);
            var here = _rest.AsSpan((i + 1) * _size, _size);
            before.CopyTo(here);
            var (length, price, most) = (core.Lengths[_kinds[i]] / _unit, prices[_kinds[i]], core.Demand[_kinds[i]]);
            for (var n = 1; n <= most && (length == 0 || n * (long)length < _size); n++)
            {
                for (var c = n * length; c < _size; c++)
                    here[c] = Math.Max(here[c], before[c - n * length] + n * price);
            }
        }
    }

    /// <summary>Whether the patterns can be listed at all: of sticks without faults, in numbers that the table can hold.</summary>
    public static bool Suits(StickCore core)
    {
        if (core.Segments.Any(s => s.Length != 1) || core.Longest / core.Lengths.Min() > MostPieces)
            return false;
        var size = Math.Min(core.Longest + 1L, MostCells / core.Kinds);
        long work = 0;
        for (var k = 0; k < core.Kinds; k++)
            work += Math.Min(core.Demand[k], core.Longest / core.Lengths[k]) * size;
        return work <= MostWork;
    }

    /// <summary>The patterns, of kinds that have a price; null if there are too many of them or finding them takes too long.</summary>
    /// <param name="scale">What one unit of cost is in the prices.</param>
    /// <param name="spare">For each stock the most that a stick may lose, in the same scale, on what it costs.</param>
    /// <param name="work">Sets looked at.</param>
    public static IReadOnlyList<NearPattern>? List(StickCore core, IReadOnlyList<long> prices, long scale, IReadOnlyList<long> spare, out long work)
    {
        var search = new NearPatterns(core, prices);
        work = search._rest.Length;
        for (search._stock = 0; search._stock < core.Costs.Length; search._stock++)
        {
            search._least = core.Costs[search._stock] * scale - spare[search._stock];
            if (!search.Look(search._kinds.Length, core.Segments[search._stock][0], 0))
                return null;
        }

        work += search._nodes * 8;
        return search._found;
    }

    private bool Look(int below, int room, long worth)
    {
        if (++_nodes > MostNodes)
            return false;
        if (below == 0)
        {
            var used = Enumerable.Range(0, _kinds.Length).Where(i => _amounts[i] > 0).ToArray();
            if (used.Length > 0)
                _found.Add(new NearPattern(_stock, used, [.. used.Select(i => _amounts[i])]));
            return _found.Count <= MostPatterns;
        }

        var i = below - 1;
        var length = _core.Lengths[_kinds[i]];
        for (var n = Math.Min(_core.Demand[_kinds[i]], room / length); n >= 0; n--)
        {
            var (left, value) = (room - n * length, worth + n * _prices[_kinds[i]]);
            if (value + _rest[i * _size + left / _unit] < _least)
                continue;
            _amounts[i] = n;
            var whole = Look(i, left, value);
            _amounts[i] = 0;
            if (!whole)
                return false;
        }

        return true;
    }
}
