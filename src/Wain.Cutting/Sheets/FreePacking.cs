namespace Wain.Cutting;

/// <summary>
/// Ruin and recreate on sheets whose pieces may lie anywhere, as a jigsaw or a router cuts them: what lies round a place is taken out, and pieces are laid into
/// corners of the largest free rectangles.
/// </summary>
internal sealed class FreePacking(SheetCore core, StepBudget budget, ulong seed)
    : RuinRecreate<FreeSheet>(core, budget, seed, () => new FreeSheet(Math.Min(core.Width.Min(), core.Height.Min())), Cooling.Short)
{
    private readonly double _widest = core.StockWidth.Max();
    private readonly double _highest = core.StockHeight.Max();
    private int[] _chosen = new int[32];
    private double[] _distance = new double[32];
    private int _fit;

    protected override void ChooseRules() => _fit = Random.Below(4);

    protected override double AddRoom(double sum, FreeSheet sheet)
    {
        // Free rectangles overlap, so the largest stands for all.
        long largest = 0;
        for (var i = 0; i < sheet.FreeCount; i++)
        {
            ref readonly var f = ref sheet.Free(i);
            largest = Math.Max(largest, (long)f.Width * f.Height);
        }

        Work += sheet.FreeCount;
        var area = largest * Scale;
        return sum + area * area;
    }

    /// <summary>The pieces nearest to some point of the sheet.</summary>
    protected override void TakeOut(FreeSheet sheet, int most, int[] removed)
    {
        var n = sheet.Pieces;
        var count = 1 + Random.Below(Math.Min(most, n));
        if (_chosen.Length < n)
        {
            _chosen = new int[2 * n];
            _distance = new double[2 * n];
        }

        int x = Random.Below(sheet.Width), y = Random.Below(sheet.Height);
        for (var i = 0; i < n; i++)
        {
            ref readonly var p = ref sheet.Piece(i);
            _chosen[i] = i;
            _distance[i] = (double)Math.Max(0, Math.Max(p.X - x, x - p.X - p.Width)) + Math.Max(0, Math.Max(p.Y - y, y - p.Y - p.Height));
        }

        Array.Sort(_distance, _chosen, 0, n);
        Array.Sort(_chosen, 0, count);
        sheet.Remove(_chosen.AsSpan(0, count), removed, ref Work);
        Work += 10 * n;
    }

    protected override bool MakeRoom(int kind, int[] removed) => false;

    protected override bool PlaceOne(int kind, double blink)
    {
        var bestScore = double.MaxValue;
        var (bestPlace, bestFree, bestTurned) = (-1, -1, false);
        int w = Core.Width[kind], h = Core.Height[kind];
        var turns = Core.MayTurn[kind] && w != h ? 2 : 1;
        var (low, high) = turns == 2 ? (Math.Min(w, h), Math.Min(w, h)) : (w, h);
        var area = (long)w * h;
        for (var place = 0; place < Open.Count; place++)
        {
            var sheet = Open[place];
            Work += 2;
            if (sheet.Widest < low || sheet.Highest < high)
                continue;
            Work += sheet.FreeCount * 2;
            for (var i = 0; i < sheet.FreeCount; i++)
            {
                ref readonly var f = ref sheet.Free(i);
                for (var turn = 0; turn < turns; turn++)
                {
                    var dw = f.Width - (turn == 0 ? w : h);
                    var dh = f.Height - (turn == 0 ? h : w);
                    if (dw < 0 || dh < 0)
                        continue;
                    double score = _fit switch
                    {
                        0 => (long)f.Width * f.Height - area,
                        1 => Math.Min(dw, dh),
                        2 => Math.Max(dw, dh),
                        // Lowest, then leftmost, on the first sheet with room.
                        _ => (((double)place * _highest) + f.Y1) * _widest + f.X1,
                    };
                    if (score >= bestScore || (blink > 0 && Random.Unit() < blink))
                        continue;
                    bestScore = score;
                    (bestPlace, bestFree, bestTurned) = (place, i, turn == 1);
                }
            }
        }

        if (bestPlace < 0)
        {
            bestPlace = OpenSheet(kind, blink);
            if (bestPlace < 0)
                return false;
            bestFree = 0;
            bestTurned = LiesTurned(kind, Open[bestPlace].Stock);
        }

        var target = Open.Writable(bestPlace, ref Work);
        target.Insert(InCorner(target, target.Free(bestFree), kind, bestTurned ? h : w, bestTurned ? w : h), ref Work);
        Work += 20;
        return true;
    }

    /// <summary>The corner of a free rectangle where the piece touches most of its neighbours and of the sheet's edges.</summary>
    private Placed InCorner(FreeSheet sheet, in FreeSheet.Rectangle free, int kind, int width, int height)
    {
        var best = new Placed(kind, free.X1, free.Y1, width, height);
        var most = sheet.Touch(best);
        for (var corner = 1; corner < 4; corner++)
        {
            var other = best with { X = (corner & 1) == 0 ? free.X1 : free.X2 - width, Y = (corner & 2) == 0 ? free.Y1 : free.Y2 - height };
            var touch = sheet.Touch(other);
            if (touch > most)
                (best, most) = (other, touch);
        }

        Work += sheet.Pieces * 8;
        return best;
    }
}
