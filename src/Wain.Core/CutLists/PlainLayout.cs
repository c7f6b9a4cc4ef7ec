using System.Collections.Immutable;
using Wain.Core.Takeoff;

namespace Wain.Core.CutLists;

/// <summary>
/// What a builder would buy who lays parts out by hand, for as long as no cutting plan is kept: sheets in rows across, the longest parts first, each into the first row with room for it
/// (first fit by decreasing height, Coffman, Garey, Johnson and Tarjan 1980); sticks the longest first. Every count can be cut, and a plan is seldom worse.
/// </summary>
public static class PlainLayout
{
    /// <summary>More parts than this are left to an estimate by area.</summary>
    private const int Most = 500_000;

    /// <summary>One count for each list whose parts all fit one size that is sold: the size that comes cheapest. Boards that are ripped to layers, and cloth, are bought by amount.</summary>
    /// <param name="planned">What a plan stands for already.</param>
    public static ImmutableArray<CuttingCount> Of(ImmutableArray<CutList> lists, ImmutableArray<CuttingCount> planned = default) =>
        [.. lists.Where(l => planned.IsDefault || !planned.Any(p => p.Material == l.Material)).Select(One).OfType<CuttingCount>()];

    private static CuttingCount? One(CutList list)
    {
        if (list.Kind == CutKind.Roll || list.Parts.IsEmpty || list.Parts.Sum(p => (long)p.Count) > Most || list.CanRip) return null;
        var ways = list.Stock.Where(s => !s.Owned && s.Count is null).Select(s => (Stock: s, Count: Counted(list, s))).Where(w => w.Count is not null).ToList();
        if (ways.Count == 0) return null;
        var (stock, count) = ways.MinBy(w => (w.Stock.Cost * w.Count!.Value, w.Count.Value));
        return new CuttingCount(list.Material, stock.Width / CutList.UnitsPerMillimetre, stock.Length / CutList.UnitsPerMillimetre, count!.Value);
    }

    /// <summary>How many of one size; null if a part does not fit it.</summary>
    private static int? Counted(CutList list, CutStock stock)
    {
        if (list.Kind == CutKind.Stick) return Sticks(list, stock.Length);
        long width = stock.Width - 2 * list.Trim, length = stock.Length - 2 * list.Trim;
        return (Sheets(list, width, length, turned: false), Sheets(list, length, width, turned: true)) is ({ } rows, { } columns) ? Math.Min(rows, columns) : null;
    }

    private static int? Sticks(CutList list, long length)
    {
        var sticks = new FirstFit();
        foreach (var part in list.Parts.OrderByDescending(p => p.Length))
        {
            if (part.Length > length) return null;
            for (int i = 0; i < part.Count; i++) if (sticks.Take(part.Length + list.Kerf) < 0) sticks.Open(length - part.Length);
        }
        return sticks.Count;
    }

    /// <param name="turned">True where the rows run along the sheet's length.</param>
    private static int? Sheets(CutList list, long across, long along, bool turned)
    {
        var parts = new List<(long Across, long Along, int Count)>(list.Parts.Length);
        foreach (var part in list.Parts)
        {
            var (w, l) = turned ? (part.Length, part.Width) : (part.Width, part.Length);
            bool stays = w <= across && l <= along, turns = part.MayTurn && l <= across && w <= along;
            if (!stays && !turns) return null;
            // Low rows leave most over.
            parts.Add(turns && (!stays || w < l) ? (l, w, part.Count) : (w, l, part.Count));
        }
        var (rows, sheets) = (new FirstFit(), new FirstFit());
        foreach (var (w, l, count) in parts.OrderByDescending(p => p.Along).ThenByDescending(p => p.Across))
        {
            for (int i = 0; i < count; i++)
            {
                // Parts come by their length along the sheet, so every row that is open is long enough.
                if (rows.Take(w + list.Kerf) >= 0) continue;
                if (sheets.Take(l + list.Kerf) < 0) sheets.Open(along - l);
                rows.Open(across - w);
            }
        }
        return sheets.Count;
    }

    /// <summary>Rows or sticks in the order that they were begun, each with the room that is left; the first with enough is found in the logarithm of their number.</summary>
    private sealed class FirstFit
    {
        // A heap-shaped tree of the greatest room: the leaves are the rows, and those that are not begun have none.
        private long[] _room = [0, -1];

        private int Leaves => _room.Length / 2;

        public int Count { get; private set; }

        public void Open(long room)
        {
            if (Count == Leaves) Grow();
            Set(Count++, room);
        }

        /// <summary>Takes some of the first that has it; -1 if none has.</summary>
        public int Take(long size)
        {
            if (_room[1] < size) return -1;
            int at = 1;
            while (at < Leaves) at = _room[2 * at] >= size ? 2 * at : 2 * at + 1;
            Set(at - Leaves, _room[at] - size);
            return at - Leaves;
        }

        private void Set(int row, long room)
        {
            int at = row + Leaves;
            _room[at] = room;
            for (at /= 2; at >= 1; at /= 2) _room[at] = Math.Max(_room[2 * at], _room[2 * at + 1]);
        }

        private void Grow()
        {
            var (old, leaves) = (_room, Leaves);
            _room = new long[4 * leaves];
            Array.Fill(_room, -1);
            for (int i = 0; i < Count; i++) Set(i, old[leaves + i]);
        }
    }
}
