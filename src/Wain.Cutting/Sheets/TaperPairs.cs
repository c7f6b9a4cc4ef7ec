namespace Wain.Cutting;

/// <summary>
/// Pieces that are no rectangles: two that taper are laid head to foot where the pair's bounding rectangle is smaller than both their own.
/// A straight cut between two pieces can free no more than their convex hulls, so hollows are filled.
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
        var first = Hull(a.Outline!.Select(p => ((double)p.X, (double)p.Y)));
        // The turned piece stands on the same line, so that a cut above both frees them.
        var second = Hull(b.Outline!.Select(p => ((double)(b.Width - p.X), (double)(b.Height - p.Y))));
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

    /// <summary>The convex hull of points, counter-clockwise (Andrew's monotone chain).</summary>
    private static (double X, double Y)[] Hull(IEnumerable<(double X, double Y)> points)
    {
        var sorted = points.Distinct().Order().ToArray();
        return sorted.Length < 3 ? sorted : [.. Chain(sorted), .. Chain(sorted.Reverse())];

        static IEnumerable<(double X, double Y)> Chain(IEnumerable<(double X, double Y)> along)
        {
            var chain = new List<(double X, double Y)>();
            foreach (var p in along)
            {
                while (chain.Count > 1 && (chain[^1].X - chain[^2].X) * (p.Y - chain[^2].Y) - (chain[^1].Y - chain[^2].Y) * (p.X - chain[^2].X) <= 0)
                    chain.RemoveAt(chain.Count - 1);
                chain.Add(p);
            }

            return chain.SkipLast(1);
        }
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
}
