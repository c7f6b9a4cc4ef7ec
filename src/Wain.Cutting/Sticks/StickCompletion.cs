namespace Wain.Cutting;

/// <summary>
/// Tries everything for the last few sticks: the longest piece left must lie somewhere, so its stick is filled in every way that wastes no more than the sticks
/// still to come allow, the fullest first (bin completion: Korf 2002). For one stock of one clear stretch.
/// </summary>
internal sealed class StickCompletion
{
    private readonly int[] _lengths;
    private readonly int _capacity;
    private readonly int[] _left;
    private readonly List<int[]> _taken = [];
    private readonly int[]? _reach; // row k: the most of every room that kinds up to k can fill
    private readonly long _tableWork;
    private long _nodes;
    private long _room;

    private StickCompletion(StickCore core, int[] demand)
    {
        _lengths = core.Lengths;
        _capacity = core.Segments[0][0];
        _left = (int[])demand.Clone();
        var size = _capacity + 1;
        if ((long)demand.Length * size > 1_000_000)
            return;
        _reach = new int[demand.Length * size];
        for (var k = 0; k < demand.Length; k++)
        {
            var here = _reach.AsSpan(k * size, size);
            if (k > 0)
                _reach.AsSpan((k - 1) * size, size).CopyTo(here);
            for (var n = 0; n < demand[k] && n * (long)_lengths[k] < size; n++)
            {
                for (var c = size - 1; c >= _lengths[k]; c--)
                    here[c] = Math.Max(here[c], here[c - _lengths[k]] + _lengths[k]);
            }
        }

        _tableWork = demand.Sum(d => (long)d) * size;
    }

    /// <summary>Patterns, as kinds, that hold the demand on no more than so many sticks; null if there are none or the work ran out.</summary>
    public static List<int[]>? Try(StickCore core, int[] demand, long sticks, long mostNodes, StepBudget budget)
    {
        var search = new StickCompletion(core, demand) { _nodes = mostNodes };
        long sum = 0;
        for (var k = 0; k < demand.Length; k++)
            sum += (long)demand[k] * core.Lengths[k];
        search._room = sticks * core.Segments[0][0] - sum;
        var found = search._room >= 0 && search.Fill(sum);
        budget.Spend((mostNodes - search._nodes) * 30 + search._tableWork);
        return found ? search._taken : null;
    }

    private bool Fill(long sum)
    {
        if (sum == 0)
            return true;
        var first = _left.Length - 1;
        while (_left[first] == 0)
            first--;
        _left[first]--;
        var part = new List<int> { first };
        var ways = new List<(int Waste, int[] Part)>();
        Ways(first, _capacity - _lengths[first], part, ways);
        var done = false;
        foreach (var (waste, way) in ways.OrderBy(w => w.Waste).ThenByDescending(w => w.Part.Length > 1 ? w.Part[1] : -1))
        {
            if (_nodes <= 0 || done)
                break;
            foreach (var k in way.AsSpan(1))
                _left[k]--;
            _taken.Add(way);
            _room -= waste;
            done = _room >= 0 && Fill(sum - (_capacity - waste));
            if (done)
                break;
            _room += waste;
            _taken.RemoveAt(_taken.Count - 1);
            foreach (var k in way.AsSpan(1))
                _left[k]++;
        }

        _left[first]++;
        return done;
    }

    private void Ways(int from, int room, List<int> part, List<(int, int[])> ways)
    {
        if (--_nodes <= 0 || ways.Count > 400)
            return;
        var extended = false;
        for (var k = Math.Min(from, _left.Length - 1); k >= 0; k--)
        {
            // Below here not enough can come to fill the stick as it must be filled.
            if (_reach is not null && room - _reach[k * (_capacity + 1) + room] > _room)
                return;
            if (_left[k] == 0 || _lengths[k] > room)
                continue;
            extended = true;
            _left[k]--;
            part.Add(k);
            Ways(k, room - _lengths[k], part, ways);
            part.RemoveAt(part.Count - 1);
            _left[k]++;
        }

        // A stick that a piece still fits is no better than one that holds it too.
        if (!extended && room <= _room && !Fits(room))
            ways.Add((room, [.. part]));
    }

    private bool Fits(int room)
    {
        for (var k = 0; k < _left.Length && _lengths[k] <= room; k++)
        {
            if (_left[k] > 0)
                return true;
        }

        return false;
    }
}
