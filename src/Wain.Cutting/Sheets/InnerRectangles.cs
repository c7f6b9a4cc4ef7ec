namespace Wain.Cutting;

/// <summary>Rectangles inside pieces that are no rectangles, which stand for them in the bound.</summary>
internal static class InnerRectangles
{
    private const int Parts = 8, MostLevels = 32, Most = 4;
    private const double LargeShare = 0.75;

    /// <summary>
    /// Rectangles inside the outline that share no area, as the bound counts pieces: a kerf is added to each side later. Whatever nesting places
    /// the outlines a kerf apart places these too, so a bound for them holds for the pieces. That is so if several rectangles of a piece get no kerf at
    /// all, and one alone no more than a kerf over the root of two: two slanted edges a kerf apart may be no further than that along either axis.
    /// </summary>
    public static IReadOnlyList<(long Width, long Height)> Of(SheetPiece piece, long kerf)
    {
        if (piece.Outline is not { Count: >= 3 } outline)
            return [(piece.Width, piece.Height)];
        var (xs, ys) = (Levels(outline.Select(p => p.X), piece.Width), Levels(outline.Select(p => p.Y), piece.Height));
        var free = new bool[ys.Length - 1, xs.Length - 1];
        for (var r = 0; r < ys.Length - 1; r++)
        {
            for (var c = 0; c < xs.Length - 1; c++)
                free[r, c] = IsInside(outline, xs[c], ys[r], xs[c + 1], ys[r + 1]);
        }

        var found = new List<(long Width, long Height)>();
        double whole = (double)piece.Width * piece.Height, sum = 0;
        while (found.Count < Most && Largest(free, xs, ys) is { } best && (double)best.Width * best.Height > 0.02 * whole)
        {
            found.Add(best);
            sum += (double)best.Width * best.Height;
        }

        if (found.Count == 0)
            return [(1 - kerf, 1 - kerf)];
        var share = (long)Math.Floor(kerf * 0.7071);
        var (w, h) = (found[0].Width + share, found[0].Height + share);
        // One large rectangle keeps others off a sheet by its width alone; parts of it do not.
        return found.Count == 1 || (double)w * h >= LargeShare * sum ? [(w - kerf, h - kerf)] : [.. found.Select(f => (f.Width - kerf, f.Height - kerf))];
    }

    private static long[] Levels(IEnumerable<long> corners, long size)
    {
        var distinct = corners.Distinct().Order().ToArray();
        var every = Math.Max(1, (distinct.Length + MostLevels - 1) / MostLevels);
        return [.. distinct.Where((_, i) => i % every == 0).Concat(Enumerable.Range(0, Parts + 1).Select(i => size * i / Parts)).Distinct().Order()];
    }

    /// <summary>The largest rectangle of free cells, which are then taken; null if none is free.</summary>
    private static (long Width, long Height)? Largest(bool[,] free, long[] xs, long[] ys)
    {
        var (rows, columns) = (free.GetLength(0), free.GetLength(1));
        (int Top, int Bottom, int Left, int Right, double Area) best = default;
        for (var low = 0; low < rows; low++)
        {
            var open = Enumerable.Repeat(true, columns).ToArray();
            for (var high = low; high < rows; high++)
            {
                var from = 0;
                for (var c = 0; c < columns; c++)
                {
                    open[c] &= free[high, c];
                    if (!open[c])
                    {
                        from = c + 1;
                        continue;
                    }

                    var area = (double)(xs[c + 1] - xs[from]) * (ys[high + 1] - ys[low]);
                    if (area > best.Area)
                        best = (low, high, from, c, area);
                }
            }
        }

        if (best.Area == 0)
            return null;
        for (var r = best.Top; r <= best.Bottom; r++)
        {
            for (var c = best.Left; c <= best.Right; c++)
                free[r, c] = false;
        }

        return (xs[best.Right + 1] - xs[best.Left], ys[best.Bottom + 1] - ys[best.Top]);
    }

    /// <summary>True if no edge runs through the open rectangle and its middle is inside. Whole numbers below 2^31, so that products are exact.</summary>
    private static bool IsInside(IReadOnlyList<OutlinePoint> outline, long x1, long y1, long x2, long y2)
    {
        var (x, y) = ((x1 + x2) / 2.0, (y1 + y2) / 2.0);
        var inside = false;
        for (var i = 0; i < outline.Count; i++)
        {
            var (a, b) = (outline[i], outline[(i + 1) % outline.Count]);
            if (Strikes(a, b, x1, y1, x2, y2))
                return false;
            if (a.Y > y != b.Y > y && x < a.X + (y - a.Y) / (b.Y - a.Y) * (b.X - a.X))
                inside = !inside;
        }

        return inside;
    }

    private static bool Strikes(OutlinePoint a, OutlinePoint b, long x1, long y1, long x2, long y2)
    {
        if (Math.Max(a.X, b.X) <= x1 || Math.Min(a.X, b.X) >= x2 || Math.Max(a.Y, b.Y) <= y1 || Math.Min(a.Y, b.Y) >= y2)
            return false;
        long Side(long x, long y) => (b.X - a.X) * (y - a.Y) - (b.Y - a.Y) * (x - a.X);
        var (p, q, r, s) = (Side(x1, y1), Side(x2, y1), Side(x2, y2), Side(x1, y2));
        return !(p >= 0 && q >= 0 && r >= 0 && s >= 0) && !(p <= 0 && q <= 0 && r <= 0 && s <= 0);
    }
}
