namespace Wain.Cutting;

/// <summary>
/// Pieces that are no rectangles: two that taper are laid head to foot where the pair's bounding rectangle is smaller than both their own, and
/// the largest rectangle inside each serves the bound. Outlines are taken as convex; hollows are filled.
/// </summary>
internal static class TaperPairs
{
    /// <summary>Two pieces side by side as one: the second is turned by half a turn.</summary>
    /// <param name="Offset">How far the second lies to the right of the first.</param>
    internal sealed record Pair(int First, int Second, int Count, long Width, long Height, long Offset);

    /// <summary>The pairs that save most, each piece in at most one; what stays single is the rest of each count.</summary>
    public static List<Pair> Find(SheetProblem problem, Func<SheetPiece, bool> usable)
    {
        var shaped = Enumerable.Range(0, problem.Pieces.Count)
            .Where(p => problem.Pieces[p].Outline is { Count: >= 3 } && problem.Pieces[p].Count > 0 && usable(problem.Pieces[p])).ToArray();
        var found = new List<(long Saved, Pair Pair)>();
        foreach (var a in shaped)
        {
            foreach (var b in shaped)
            {
                if (a > b || problem.Pieces[a].MayTurn != problem.Pieces[b].MayTurn)
                    continue;
                if (Beside(problem.Pieces[a], problem.Pieces[b], problem.Kerf) is { } pair)
                    found.Add((pair.Saved, new Pair(a, b, 0, pair.Width, pair.Height, pair.Offset)));
            }
        }

        var left = problem.Pieces.Select(p => p.Count).ToArray();
        var result = new List<Pair>();
        foreach (var (_, pair) in found.OrderByDescending(f => f.Saved).ThenBy(f => f.Pair.First).ThenBy(f => f.Pair.Second))
        {
            var n = pair.First == pair.Second ? left[pair.First] / 2 : Math.Min(left[pair.First], left[pair.Second]);
            if (n <= 0)
                continue;
            left[pair.First] -= n;
            left[pair.Second] -= n;
            result.Add(pair with { Count = n });
        }

        return result;
    }

    /// <summary>The least offset at which the second, turned by half a turn, clears the first by the kerf; null if that saves nothing.</summary>
    private static (long Saved, long Width, long Height, long Offset)? Beside(SheetPiece a, SheetPiece b, long kerf)
    {
        var height = Math.Max(a.Height, b.Height);
        var first = a.Outline!.Select(p => ((double)p.X, (double)p.Y)).ToArray();
        // The turned piece stands on the same line, so that a cut above both frees them.
        var second = b.Outline!.Select(p => ((double)(b.Width - p.X), (double)(b.Height - p.Y))).ToArray();
        var levels = first.Concat(second).Select(p => p.Item2).Where(y => y <= Math.Min(a.Height, b.Height)).Distinct().ToArray();
        var offset = 0.0;
        foreach (var y in levels)
        {
            if (Span(first, y) is { } f && Span(second, y) is { } s)
                offset = Math.Max(offset, f.Right - s.Left);
        }

        // Measured along the sheet an oblique cut is wider than the blade, by the steepest edge that may face it.
        var slope = Steepest(first).Concat(Steepest(second)).DefaultIfEmpty(0).Max();
        var gap = (long)Math.Ceiling(kerf * Math.Sqrt(1 + slope * slope) - 1e-9);
        var shift = (long)Math.Ceiling(offset - 1e-9) + gap;
        var width = Math.Max(a.Width, shift + b.Width);
        var apart = (a.Width + kerf) * (a.Height + kerf) + (b.Width + kerf) * (b.Height + kerf);
        var together = (width + kerf) * (height + kerf);
        return together < apart && shift >= 0 ? (apart - together, width, height, shift) : null;
    }

    private static IEnumerable<double> Steepest((double X, double Y)[] outline)
    {
        for (var i = 0; i < outline.Length; i++)
        {
            var (p, q) = (outline[i], outline[(i + 1) % outline.Length]);
            if (Math.Abs(q.Y - p.Y) > 1e-9)
                yield return Math.Abs((q.X - p.X) / (q.Y - p.Y));
        }
    }

    /// <summary>Leftmost and rightmost point of an outline at a height.</summary>
    private static (double Left, double Right)? Span((double X, double Y)[] outline, double y)
    {
        double left = double.MaxValue, right = double.MinValue;
        for (var i = 0; i < outline.Length; i++)
        {
            var (p, q) = (outline[i], outline[(i + 1) % outline.Length]);
            if (y < Math.Min(p.Y, q.Y) || y > Math.Max(p.Y, q.Y))
                continue;
            foreach (var x in p.Y == q.Y ? new[] { p.X, q.X } : [p.X + (q.X - p.X) * (y - p.Y) / (q.Y - p.Y)])
            {
                left = Math.Min(left, x);
                right = Math.Max(right, x);
            }
        }

        return left > right ? null : (left, right);
    }

    /// <summary>
    /// A rectangle inside the outline, rounded down. Whatever nesting places the outline places this rectangle too, so a bound for
    /// the rectangles holds for the pieces. An outline that is not convex gives a rectangle that a chord test at every corner bounds.
    /// </summary>
    public static (long Width, long Height) Inside(SheetPiece piece)
    {
        if (piece.Outline is not { Count: >= 3 } outline)
            return (piece.Width, piece.Height);
        var points = outline.Select(p => ((double)p.X, (double)p.Y)).ToArray();
        if (!IsConvex(points))
            return (1, 1);
        const int parts = 16;
        var levels = points.Select(p => p.Item2).Concat(Enumerable.Range(0, parts + 1).Select(i => piece.Height * i / (double)parts)).Distinct().Order().ToArray();
        var best = (Width: 1L, Height: 1L);
        foreach (var low in levels)
        {
            foreach (var high in levels)
            {
                if (high <= low || Span(points, low) is not { } a || Span(points, high) is not { } b)
                    continue;
                var w = (long)Math.Floor(Math.Min(a.Right, b.Right) - Math.Max(a.Left, b.Left) + 1e-9);
                var h = (long)Math.Floor(high - low + 1e-9);
                if (w > 0 && h > 0 && w * h > best.Width * best.Height)
                    best = (w, h);
            }
        }

        return best;
    }

    private static bool IsConvex((double X, double Y)[] p)
    {
        var sign = 0;
        for (var i = 0; i < p.Length; i++)
        {
            var (a, b, c) = (p[i], p[(i + 1) % p.Length], p[(i + 2) % p.Length]);
            var turn = Math.Sign((b.X - a.X) * (c.Y - b.Y) - (b.Y - a.Y) * (c.X - b.X));
            if (turn == 0)
                continue;
            if (sign != 0 && turn != sign)
                return false;
            sign = turn;
        }

        return true;
    }
}
