namespace Wain.Cutting;

/// <summary>Finds the order of saw cuts that frees the pieces of a layout, and what is left over.</summary>
internal static class CutList
{
    private readonly record struct Region(long X1, long Y1, long X2, long Y2);

    /// <summary>
    /// Cuts from edge to edge, outermost first; null if there is no such order. All numbers of the layout carry the kerf at their far sides, as in
    /// <see cref="SheetCore"/>; cuts and offcuts come out in the sheet's own measure.
    /// </summary>
    public static (List<SheetCut> Cuts, List<SheetOffcut> Offcuts)? Guillotine(
        IReadOnlyList<Placed> pieces, long width, long height, long kerf, SheetTrim trim, OffcutRule rule)
    {
        var cuts = new List<SheetCut>();
        var offcuts = new List<SheetOffcut>();
        return Divide(new Region(0, 0, width, height), pieces, 1) ? (cuts, offcuts) : null;

        bool Divide(Region r, IReadOnlyList<Placed> inside, int level)
        {
            if (inside.Count == 0)
            {
                Keep(r, kerf, trim, rule, offcuts);
                return true;
            }

            if (inside.Count == 1 && inside[0] is var p && p.X == r.X1 && p.Y == r.Y1 && p.X + p.Width == r.X2 && p.Y + p.Height == r.Y2)
                return true;
            var upright = Lines(r, inside, true);
            var across = Lines(r, inside, false);
            if (upright.Count == 0 && across.Count == 0)
                return false;
            // The direction that frees the larger single rectangle goes first: it keeps the better offcut whole.
            var byUpright = across.Count == 0 || (upright.Count > 0 && LargestFree(r, inside, upright, true) >= LargestFree(r, inside, across, false));
            var lines = byUpright ? upright : across;
            foreach (var at in lines)
            {
                cuts.Add(byUpright
                    ? new SheetCut(true, trim.Left + at - kerf, trim.Bottom + r.Y1, trim.Bottom + r.Y2 - kerf, level)
                    : new SheetCut(false, trim.Bottom + at - kerf, trim.Left + r.X1, trim.Left + r.X2 - kerf, level));
            }

            foreach (var (part, held) in Parts(r, inside, lines, byUpright))
            {
                if (!Divide(part, held, level + 1))
                    return false;
            }

            return true;
        }
    }

    /// <summary>Offcuts of a layout that no saw frees edge to edge: the largest free rectangle, then the largest beside it, and so on.</summary>
    public static List<SheetOffcut> FreeRectangles(IReadOnlyList<Placed> pieces, long width, long height, long kerf, SheetTrim trim, OffcutRule rule)
    {
        var free = new List<Region> { new(0, 0, width, height) };
        foreach (var p in pieces)
            free = Without(free, new Region(p.X, p.Y, p.X + p.Width, p.Y + p.Height));
        var offcuts = new List<SheetOffcut>();
        while (free.Count > 0)
        {
            var best = free.MaxBy(r => (r.X2 - r.X1) * (r.Y2 - r.Y1));
            var before = offcuts.Count;
            Keep(best, kerf, trim, rule, offcuts);
            if (offcuts.Count == before)
                break;
            free = Without(free, best);
        }

        return offcuts;
    }

    private static List<Region> Without(List<Region> free, Region taken)
    {
        var result = new List<Region>();
        foreach (var f in free)
        {
            if (taken.X1 >= f.X2 || taken.X2 <= f.X1 || taken.Y1 >= f.Y2 || taken.Y2 <= f.Y1)
            {
                result.Add(f);
                continue;
            }

            if (taken.X1 > f.X1)
                result.Add(f with { X2 = taken.X1 });
            if (taken.X2 < f.X2)
                result.Add(f with { X1 = taken.X2 });
            if (taken.Y1 > f.Y1)
                result.Add(f with { Y2 = taken.Y1 });
            if (taken.Y2 < f.Y2)
                result.Add(f with { Y1 = taken.Y2 });
        }

        return [.. result.Distinct().Where(a => !result.Exists(b => a != b && b.X1 <= a.X1 && b.Y1 <= a.Y1 && b.X2 >= a.X2 && b.Y2 >= a.Y2))];
    }

    private static void Keep(Region r, long kerf, SheetTrim trim, OffcutRule rule, List<SheetOffcut> offcuts)
    {
        var (w, h) = (r.X2 - r.X1 - kerf, r.Y2 - r.Y1 - kerf);
        if (w > 0 && h > 0 && Math.Min(w, h) >= rule.ShortSide && Math.Max(w, h) >= rule.LongSide)
            offcuts.Add(new SheetOffcut(trim.Left + r.X1, trim.Bottom + r.Y1, w, h));
    }

    /// <summary>Where cuts in one direction may run: behind pieces that no piece reaches across.</summary>
    private static List<long> Lines(Region r, IReadOnlyList<Placed> inside, bool upright)
    {
        var (start, end) = upright ? (r.X1, r.X2) : (r.Y1, r.Y2);
        var lines = new List<long>();
        long reach = start;
        foreach (var (from, to) in inside.Select(p => upright ? ((long)p.X, (long)p.X + p.Width) : (p.Y, (long)p.Y + p.Height)).Order())
        {
            if (from >= reach)
            {
                if (reach > start)
                    lines.Add(reach);
                if (from > reach)
                    lines.Add(from);
            }

            reach = Math.Max(reach, to);
        }

        if (reach < end)
            lines.Add(reach);
        return [.. lines.Distinct()];
    }

    private static IEnumerable<(Region Part, List<Placed> Held)> Parts(Region r, IReadOnlyList<Placed> inside, List<long> lines, bool upright)
    {
        var from = upright ? r.X1 : r.Y1;
        foreach (var to in lines.Append(upright ? r.X2 : r.Y2))
        {
            var part = upright ? r with { X1 = from, X2 = to } : r with { Y1 = from, Y2 = to };
            yield return (part, [.. inside.Where(p => p.X >= part.X1 && p.X < part.X2 && p.Y >= part.Y1 && p.Y < part.Y2)]);
            from = to;
        }
    }

    private static long LargestFree(Region r, IReadOnlyList<Placed> inside, List<long> lines, bool upright) =>
        Parts(r, inside, lines, upright).Where(p => p.Held.Count == 0).Select(p => (p.Part.X2 - p.Part.X1) * (p.Part.Y2 - p.Part.Y1)).DefaultIfEmpty().Max();
}
