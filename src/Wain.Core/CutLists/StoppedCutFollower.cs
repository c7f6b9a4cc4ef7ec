namespace Wain.Core.CutLists;

/// <summary>What comes out of a board that is cut along lines inside it, with a jigsaw or a router.</summary>
internal static class StoppedCutFollower
{
    // Far more than a thousand parts on a board give.
    private const long MostCells = 64_000_000;

    /// <summary>What is wrong with the cuts, in words; null if each part comes out as its own rectangle, and so does what is to be kept. A part with an outline may keep waste, which goes when that is cut.</summary>
    /// <param name="board">Its sides: left, lower, right, upper.</param>
    public static string? FirstProblem(CutPlanSheet sheet, List<PlacedPart> parts, (long X1, long Y1, long X2, long Y2) board, List<PlannedCut> cuts, long kerf)
    {
        var kept = sheet.Offcuts.Where(o => o.X >= board.X1 && o.Y >= board.Y1 && o.X + o.Width <= board.X2 && o.Y + o.Length <= board.Y2).ToList();
        // Between two lines of this grid nothing begins or ends, so each of its cells is of one piece.
        long[] Lines(long low, long high, bool upright) =>
        [
            .. parts.SelectMany(p => upright ? new[] { p.X, p.X + p.Width } : [p.Y, p.Y + p.Length])
                .Concat(kept.SelectMany(o => upright ? new[] { o.X, o.X + o.Width } : [o.Y, o.Y + o.Length]))
                .Concat(cuts.SelectMany(c => c.Upright == upright ? new[] { c.At, c.At + kerf } : [c.From, c.To])).Where(x => x > low && x < high).Append(low).Append(high).Distinct().Order(),
        ];
        var (xs, ys) = (Lines(board.X1, board.X2, true), Lines(board.Y1, board.Y2, false));
        var (across, up) = (xs.Length - 1, ys.Length - 1);
        if ((long)across * up > MostCells) return "The cuts of a board are too many to follow.";
        // A cut bars the way over both edges of its kerf.
        var bars = cuts.SelectMany(c => new[] { c, c with { At = c.At + kerf } }).ToLookup(c => (c.Upright, c.At));
        bool Barred(bool upright, long at, long along) => bars[(upright, at)].Any(c => c.From <= along && along < c.To);
        var piece = new int[across, up];
        int pieces = 0;
        var area = new List<long> { 0 };
        var todo = new Stack<(int X, int Y)>();
        for (int x0 = 0; x0 < across; x0++)
            for (int y0 = 0; y0 < up; y0++)
            {
                if (piece[x0, y0] != 0) continue;
                piece[x0, y0] = ++pieces;
                area.Add(0);
                todo.Push((x0, y0));
                while (todo.TryPop(out var c))
                {
                    area[pieces] += (xs[c.X + 1] - xs[c.X]) * (ys[c.Y + 1] - ys[c.Y]);
                    Into(c.X > 0 && !Barred(true, xs[c.X], ys[c.Y]), c.X - 1, c.Y);
                    Into(c.X + 1 < across && !Barred(true, xs[c.X + 1], ys[c.Y]), c.X + 1, c.Y);
                    Into(c.Y > 0 && !Barred(false, ys[c.Y], xs[c.X]), c.X, c.Y - 1);
                    Into(c.Y + 1 < up && !Barred(false, ys[c.Y + 1], xs[c.X]), c.X, c.Y + 1);
                }
            }
        void Into(bool open, int x, int y)
        {
            if (!open || piece[x, y] != 0) return;
            piece[x, y] = pieces;
            todo.Push((x, y));
        }
        int PieceAt(long x, long y) => piece[Array.BinarySearch(xs, x), Array.BinarySearch(ys, y)];
        var groups = parts.GroupBy(p => PieceAt(p.X, p.Y)).Select(g => (Piece: g.Key, Parts: g.ToList())).ToList();
        foreach (var (key, together) in groups)
        {
            if (CutFollower.Together(together, kerf) is { } problem) return problem;
            if (together is [{ Outline.IsEmpty: true } part] && area[key] != part.Width * part.Length) return $"The cuts leave waste on {part.Mark}.";
        }
        var taken = groups.Select(g => g.Piece).ToHashSet();
        return kept.TrueForAll(o => taken.Add(PieceAt(o.X, o.Y)) && area[PieceAt(o.X, o.Y)] == o.Width * o.Length) ? null : "The cuts do not free what is to be kept.";
    }
}
