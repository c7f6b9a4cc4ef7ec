namespace Wain.Cutting;

/// <summary>
/// How much worse a change may be and still be kept (simulated annealing, Kirkpatrick and others 1983): much at first, then less and less. When it has grown
/// cold the search is heated again for twice as long, so that a plan comes soon and a long search loses nothing by it.
/// </summary>
/// <param name="hot">A rise that is kept about once in three at first.</param>
/// <param name="first">How many changes it takes to grow cold the first time.</param>
internal sealed class Cooling(double hot, long first)
{
    /// <summary>Enough for a first plan that is not bad.</summary>
    public const long Short = 5_000;
    private const long Longest = 400_000;
    private const double LnColdest = -2.8;      // so it ends at six per cent of what it began with
    private readonly double _hot = hot;
    private double _temperature = hot;
    private double _step = Step(first);
    private long _length = first;
    private long _done;

    /// <summary>Heats again, for as long as before.</summary>
    public void Heat()
    {
        _temperature = _hot;
        _done = 0;
    }

    /// <summary>The rise that the next change may bring.</summary>
    public double Allowed(ref FixedRandom random)
    {
        var allowed = _temperature * random.Waiting();
        _temperature *= _step;
        if (++_done == _length)
        {
            _length = Math.Min(2 * _length, Longest);
            _step = Step(_length);
            Heat();
        }

        return allowed;
    }

    /// <summary>What the temperature falls by at each of so many changes: e to a small number, by sums and products alone, which are the same on every machine.</summary>
    private static double Step(long length)
    {
        var x = LnColdest / length;
        return 1 + (x * (1 + (x / 2 * (1 + (x / 3)))));
    }
}
