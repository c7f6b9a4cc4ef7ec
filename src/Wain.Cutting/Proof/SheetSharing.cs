namespace Wain.Cutting;

/// <summary>
/// Which pieces can lie on one sheet, in whole numbers, and what a sheet then can be worth at most: what both the maker and the checker of a proof stand on.
/// Two pieces share a sheet side by side or one above the other by their bounding rectangles, or nested as <see cref="TaperPairs"/> nests; three, if one lies so beside two. However many
/// others lie there too, any two and any three lie so: up to four rectangles that share no area are always parted by a straight line, and then again.
/// </summary>
internal sealed class SheetSharing
{
    /// <summary>Sets of more pieces are not looked at.</summary>
    private const int MostDepth = 64;

    private readonly SheetProblem _problem;
    private readonly SheetCore _core;
    private readonly int[] _pieces;
    private readonly long[] _area;
    private readonly int[][] _most;
    private readonly (long Width, long Height)[][][] _together;
    private readonly sbyte[]?[] _three;

    /// <param name="pieces">Pieces that stand for kinds, by their index in the problem.</param>
    /// <param name="counts">How many of each kind there are.</param>
    public SheetSharing(SheetProblem problem, SheetCore core, int[] pieces, int[] counts)
    {
        (_problem, _core, _pieces) = (problem, core, pieces);
        _area = [.. pieces.Select(p => Area(problem.Pieces[p], problem.Kerf))];
        _three = new sbyte[core.Stocks][];
        _together = new (long, long)[pieces.Length][][];
        for (var i = 0; i < pieces.Length; i++)
        {
            _together[i] = new (long, long)[pieces.Length][];
            for (var j = 0; j <= i; j++)
                _together[i][j] = _together[j][i] = [.. Together(problem.Pieces[pieces[i]], problem.Pieces[pieces[j]])];
        }

        _most = [.. Enumerable.Range(0, core.Stocks).Select(s => Enumerable.Range(0, pieces.Length).Select(i => !Ways(problem.Pieces[pieces[i]]).Any(w => Fits(w, s)) ? 0
            : !Pair(i, i, s) ? 1 : (int)Math.Min(counts[i], core.StockArea(s) / _area[i])).ToArray())];
    }

    /// <summary>Work of making the tables.</summary>
    public long Work => (long)_pieces.Length * _pieces.Length * 30;

    /// <summary>Area that a piece takes of a sheet at least: a rectangle with its kerf; of what may nest only what lies inside its outline.</summary>
    public static long Area(SheetPiece p, long kerf)
    {
        if (p.Outline is not { Count: >= 3 } outline)
            return (p.Width + kerf) * (p.Height + kerf);
        Int128 twice = 0;
        for (var i = 0; i < outline.Count; i++)
        {
            var (a, b) = (outline[i], outline[(i + 1) % outline.Count]);
            twice += (Int128)a.X * b.Y - (Int128)b.X * a.Y;
        }

        return Math.Max(1, (long)(Int128.Abs(twice) / 2));
    }

    private bool Fits((long Width, long Height) box, int stock) => box.Width + _problem.Kerf <= _core.StockWidth[stock] && box.Height + _problem.Kerf <= _core.StockHeight[stock];

    /// <summary>Rectangles around two boxes side by side and one above the other.</summary>
    private IEnumerable<(long Width, long Height)> Beside((long Width, long Height) a, (long Width, long Height) b) =>
        [(a.Width + _problem.Kerf + b.Width, Math.Max(a.Height, b.Height)), (Math.Max(a.Width, b.Width), a.Height + _problem.Kerf + b.Height)];

    /// <summary>Rectangles around two pieces in every way that they can lie together.</summary>
    private IEnumerable<(long Width, long Height)> Together(SheetPiece p, SheetPiece q)
    {
        foreach (var way in Ways(p).SelectMany(a => Ways(q).SelectMany(b => Beside(a, b))))
            yield return way;
        if (p.Outline is not { Count: >= 3 } first || q.Outline is not { Count: >= 3 } second || p.MayTurn != q.MayTurn)
            yield break;
        foreach (var width in new[] { Math.Max(p.Width, LeastOffset(first, second, q) + _problem.Kerf + q.Width), Math.Max(q.Width, LeastOffset(second, first, p) + _problem.Kerf + p.Width) })
        {
            var height = Math.Max(p.Height, q.Height);
            yield return (width, height);
            if (p.MayTurn)
                yield return (height, width);
        }
    }

    private bool Pair(int a, int b, int stock) => Array.Exists(_together[a][b], box => Fits(box, stock));

    private bool Three(int a, int b, int c, int stock)
    {
        if (a > b)
            (a, b) = (b, a);
        if (b > c)
            (b, c) = (c, b);
        if (a > b)
            (a, b) = (b, a);
        ref var known = ref (_three[stock] ??= new sbyte[_pieces.Length * _pieces.Length * _pieces.Length])[(a * _pieces.Length + b) * _pieces.Length + c];
        if (known == 0)
            known = (sbyte)(BesideTwo(a, b, c, stock) || BesideTwo(b, a, c, stock) || BesideTwo(c, a, b, stock) ? 1 : -1);
        return known > 0;
    }

    private bool BesideTwo(int one, int a, int b, int stock) => Ways(_problem.Pieces[_pieces[one]]).Any(way => _together[a][b].Any(two => Beside(way, two).Any(box => Fits(box, stock))));

    private static (long Width, long Height)[] Ways(SheetPiece p) => p.MayTurn && p.Width != p.Height ? [(p.Width, p.Height), (p.Height, p.Width)] : [(p.Width, p.Height)];

    /// <summary>How far at least the second, turned by half a turn and on the same line, lies to the right of the first, without a kerf. Rounded so that it is never too much.</summary>
    private static long LeastOffset(IReadOnlyList<OutlinePoint> first, IReadOnlyList<OutlinePoint> second, SheetPiece other)
    {
        OutlinePoint[] turned = [.. second.Select(c => new OutlinePoint(other.Width - c.X, other.Height - c.Y))];
        long offset = 0;
        foreach (var y in first.Concat(turned).Select(c => c.Y).Distinct())
        {
            if (Reach(first, y, 1) is { } right && Reach(turned, y, -1) is { } left)
                offset = Math.Max(offset, right + left);
        }

        return offset;
    }

    /// <summary>The furthest whole number that an outline reaches at a height, to the right (sign 1) or, counted negative, to the left (sign -1).</summary>
    private static long? Reach(IReadOnlyList<OutlinePoint> outline, long y, int sign)
    {
        long? reach = null;
        for (var i = 0; i < outline.Count; i++)
        {
            var (p, q) = (outline[i], outline[(i + 1) % outline.Count]);
            if (y < Math.Min(p.Y, q.Y) || y > Math.Max(p.Y, q.Y))
                continue;
            var (rise, run) = (Math.Abs(q.Y - p.Y), p.Y < q.Y ? q.X - p.X : p.X - q.X);
            var x = rise == 0 ? Math.Max(sign * p.X, sign * q.X) : sign * (p.Y < q.Y ? p.X : q.X) + Floor(sign * run * (y - Math.Min(p.Y, q.Y)), rise);
            reach = Math.Max(reach ?? long.MinValue, x);
        }

        return reach;
    }

    private static long Floor(long over, long under) => over >= 0 ? over / under : -((under - 1 - over) / under);

    /// <summary>
    /// The most that pieces on one sheet of a stock are worth, of which any two and any three could lie on it, and which have room by their area; null if that takes more work than
    /// there is. By branch and bound, the pieces that are worth most for their area first.
    /// </summary>
    /// <param name="prices">What one piece of each kind is worth.</param>
    /// <param name="amounts">Receives how many of each kind are worth that.</param>
    /// <param name="work">Work that may be done; what is done is taken off.</param>
    public long? MostWorth(int stock, IReadOnlyList<long> prices, int[] amounts, ref long work)
    {
        int[] order = [.. Enumerable.Range(0, _pieces.Length).Where(k => prices[k] > 0 && _most[stock][k] > 0).OrderByDescending(k => (double)prices[k] / _area[k]).ThenBy(k => k)];
        Array.Clear(amounts);
        var search = new Search(this, stock, prices, amounts) { Work = work };
        search.Look(order, _core.StockArea(stock), 0, 0);
        work = search.Work;
        return work < 0 ? null : search.Best;
    }

    private sealed class Search(SheetSharing sharing, int stock, IReadOnlyList<long> prices, int[] amounts)
    {
        private readonly int[] _now = new int[amounts.Length];
        private readonly int[] _chosen = new int[MostDepth];

        public long Work;

        public long Best { get; private set; }

        public void Look(int[] open, long room, long worth, int depth)
        {
            if (worth > Best)
            {
                Best = worth;
                _now.CopyTo(amounts, 0);
            }

            for (var i = 0; i < open.Length && Reach(open, i, room) > Best - worth; i++)
            {
                if (depth == MostDepth)
                    Work = -1;
                if (Work < 0)
                    return;
                var kind = open[i];
                _now[kind]++;
                var left = room - sharing._area[kind];
                Look(Array.FindAll(open[i..], k => IsOpen(k, kind, left, depth)), left, worth + prices[kind], depth + 1);
                _now[kind]--;
            }
        }

        /// <summary>Whether one more of a kind goes with all that is chosen, of which one was chosen last.</summary>
        private bool IsOpen(int kind, int last, long room, int depth)
        {
            Work -= 2 + depth;
            _chosen[depth] = last;
            if (sharing._area[kind] > room || _now[kind] >= sharing._most[stock][kind] || !sharing.Pair(kind, last, stock))
                return false;
            for (var i = 0; i < depth; i++)
            {
                if (!sharing.Three(kind, last, _chosen[i], stock))
                    return false;
            }

            return true;
        }

        /// <summary>The most that the room can still be worth, the last piece counted by the part of it that has room, rounded up.</summary>
        private Int128 Reach(int[] open, int from, long room)
        {
            Int128 worth = 0;
            for (var i = from; i < open.Length && room > 0; i++)
            {
                Work -= 4;
                var (area, most) = (sharing._area[open[i]], sharing._most[stock][open[i]] - _now[open[i]]);
                if ((Int128)area * most > room)
                    return worth + ((Int128)prices[open[i]] * room + area - 1) / area;
                worth += (Int128)prices[open[i]] * most;
                room -= area * most;
            }

            return worth;
        }
    }
}
