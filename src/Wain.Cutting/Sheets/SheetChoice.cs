namespace Wain.Cutting;

/// <summary>
/// Which size of sheet comes next where there are several: what the limit of cost still allows is spent in a few ways at random, and the way that should hold
/// most begins. How full a size gets is learnt while the search goes on, since pieces fill some sizes better than others.
/// </summary>
internal sealed class SheetChoice<TSheet>(SheetCore core, OpenSheets<TSheet> open)
    where TSheet : class, IOpenSheet<TSheet>
{
    private const int Ways = 8;
    private const double Doubt = 0.01;
    private const double Learning = 0.01;
    private readonly double[] _fill = [.. Enumerable.Repeat(1.0, core.Stocks)];
    private readonly int[] _spent = new int[core.Stocks];

    /// <summary>The stock to open for a piece; -1 if the limit or the stock allows none.</summary>
    public int Next(int kind, long limit, ref FixedRandom random, ref long work)
    {
        var (best, most) = (-1, 0.0);
        for (var way = 0; way < Ways; way++)
        {
            Array.Clear(_spent);
            var (first, holds) = (-1, 0.0);
            for (var left = limit - open.Cost; ;)
            {
                var (pick, rivals) = (-1, 0);
                for (var s = 0; s < core.Stocks; s++)
                {
                    var there = open.Left(s);
                    if (core.Costs[s] <= left && (there < 0 || there > _spent[s]) && (first >= 0 || core.Fits(kind, s)) && random.Below(++rivals) == 0)
                        pick = s;
                }

                work += core.Stocks * 3;
                // What costs nothing would be spent for ever.
                if (pick < 0 || (first >= 0 && core.Costs[pick] == 0))
                    break;
                first = first < 0 ? pick : first;
                _spent[pick]++;
                left -= core.Costs[pick];
                holds += _fill[pick] * core.StockArea(pick);
            }

            if (first < 0)
                return -1;
            holds *= 1 + (Doubt * random.Unit());
            if (holds > most)
                (best, most) = (first, holds);
        }

        return best;
    }

    /// <summary>Looks at how full the sheets are.</summary>
    public void Learn()
    {
        for (var i = 0; i < open.Count; i++)
        {
            if (open[i].Pieces > 0)
                _fill[open[i].Stock] += Learning * (((double)open[i].UsedArea / core.StockArea(open[i].Stock)) - _fill[open[i].Stock]);
        }
    }
}
