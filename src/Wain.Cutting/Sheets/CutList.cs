namespace Wain.Cutting;

/// <summary>A part of a sheet.</summary>
internal readonly record struct SheetRegion(long X1, long Y1, long X2, long Y2)
{
    public long Area => (X2 - X1) * (Y2 - Y1);
}

/// <summary>Finds the order of saw cuts that frees the pieces of a layout, and what is left over.</summary>
internal static class CutList
{
    /// <summary>The best that can be had of a part of the sheet: what its rests are worth, the largest of them and the cuts that takes; where to cut first, if at all,
    /// and whether it is to be cut with stops.</summary>
    private readonly record struct Way(bool Frees, long Worth, long Largest, int Cuts, bool Upright, long At, bool Stops = false);

    /// <summary>Beyond so many pieces on a sheet the ways to cut it are too many to look at all of them.</summary>
    private const int MostPieces = 60;

    /// <summary>
    /// Cuts from edge to edge, outermost first, that leave rests worth most, then leave the largest whole, and then are fewest. Where none parts what is left, it is cut with stops
    /// if the rules let it. All numbers of the layout carry the kerf at their far sides, as in <see cref="SheetCore"/>; cuts and offcuts come out in the
    /// sheet's own measure.
    /// </summary>
    /// <param name="guillotine">True if every cut must go from edge to edge.</param>
    public static (List<SheetCut> Cuts, List<SheetOffcut> Offcuts) Of(
        IReadOnlyList<Placed> pieces, long width, long height, long kerf, SheetTrim trim, OffcutRule rule, bool guillotine)
    {
        var cuts = new List<SheetCut>();
        var offcuts = new List<SheetOffcut>();
        var known = new Dictionary<SheetRegion, Way>();
        var whole = new SheetRegion(0, 0, width, height);
        if (!Best(whole, pieces).Frees)
            throw new InvalidOperationException("The layout can't be cut from edge to edge.");
        Divide(whole, pieces, 1, null);
        return (cuts, offcuts);

        Way Best(SheetRegion r, IReadOnlyList<Placed> inside)
        {
            if (inside.Count == 0)
                return new Way(true, Worth(r), r.Area, 0, false, -1);
            if (inside.Count == 1 && inside[0] is var p && p.X == r.X1 && p.Y == r.Y1 && p.X + p.Width == r.X2 && p.Y + p.Height == r.Y2)
                return new Way(true, 0, 0, 0, false, -1);
            if (known.TryGetValue(r, out var best))
                return best;
            foreach (var upright in new[] { true, false })
            {
                var lines = Lines(r, inside, upright);
                // Of too many, the middle one.
                foreach (var at in pieces.Count <= MostPieces || lines.Count == 0 ? lines : [lines[lines.Count / 2]])
                {
                    var way = new Way(true, 0, 0, 1, upright, at);
                    foreach (var (part, held) in Parts(r, inside, at, upright))
                    {
                        var own = Best(part, held);
                        way = way with { Frees = way.Frees && own.Frees, Worth = way.Worth + own.Worth, Largest = Math.Max(way.Largest, own.Largest), Cuts = way.Cuts + own.Cuts };
                    }

                    if (way.Frees && (!best.Frees || (-way.Worth, -way.Largest, way.Cuts).CompareTo((-best.Worth, -best.Largest, best.Cuts)) < 0))
                        best = way;
                    // A cut that can be made spoils none of the others.
                    if (!way.Frees || (best.Frees && pieces.Count > MostPieces))
                        return known[r] = best;
                }
            }

            if (!best.Frees && !guillotine)
            {
                var (free, rests) = Block(r, inside);
                best = new Way(true, free.Sum(Worth), free.Select(f => f.Area).DefaultIfEmpty().Max(), StoppedCuts.Of(r, [.. inside.Select(Place), .. rests], kerf).Count, false, -1, true);
            }

            return known[r] = best;
        }

        long Worth(SheetRegion r) => rule.Worth(r.X2 - r.X1 - kerf, r.Y2 - r.Y1 - kerf);

        // What is free of a part that is cut with stops, and of that what is kept.
        (List<SheetRegion> Free, List<SheetRegion> Kept) Block(SheetRegion r, IReadOnlyList<Placed> inside)
        {
            var free = FreeRectangles(r, inside);
            return (free, free.FindAll(f => IsKept(f, kerf, rule)));
        }

        void Divide(SheetRegion r, IReadOnlyList<Placed> inside, int level, bool? cutUpright)
        {
            var way = Best(r, inside);
            if (inside.Count == 0)
                Keep(r);
            if (way.Stops)
            {
                var (_, rests) = Block(r, inside);
                cuts.AddRange(StoppedCuts.Of(r, [.. inside.Select(Place), .. rests], kerf).Select(Moved));
                rests.ForEach(Keep);
                return;
            }

            if (way.Cuts == 0)
                return;
            // Cuts one beside another are of one level.
            if (cutUpright is { } before && before != way.Upright)
                level++;
            cuts.Add(Moved(way.Upright ? new SheetCut(true, way.At - kerf, r.Y1, r.Y2 - kerf, level) : new SheetCut(false, way.At - kerf, r.X1, r.X2 - kerf, level)));
            foreach (var (part, held) in Parts(r, inside, way.At, way.Upright))
                Divide(part, held, level, way.Upright);
        }

        SheetCut Moved(SheetCut c)
        {
            var (along, beside) = c.Upright ? (trim.Bottom, trim.Left) : (trim.Left, trim.Bottom);
            return c with { At = c.At + beside, From = c.From + along, To = c.To + along };
        }

        void Keep(SheetRegion r)
        {
            if (IsKept(r, kerf, rule))
                offcuts.Add(new SheetOffcut(trim.Left + r.X1, trim.Bottom + r.Y1, r.X2 - r.X1 - kerf, r.Y2 - r.Y1 - kerf));
        }
    }

    private static SheetRegion Place(Placed p) => new(p.X, p.Y, p.X + p.Width, p.Y + p.Height);

    /// <summary>What is free of a part that no saw frees edge to edge: the largest free rectangle, then the largest beside it, and so on.</summary>
    private static List<SheetRegion> FreeRectangles(SheetRegion r, IReadOnlyList<Placed> inside)
    {
        var (left, low) = ((int)r.X1, (int)r.Y1);
        var sheet = new FreeSheet(1);
        sheet.Reset(0, (int)(r.X2 - r.X1), (int)(r.Y2 - r.Y1));
        long work = 0;
        foreach (var p in inside)
            sheet.Insert(p with { X = p.X - left, Y = p.Y - low }, ref work);
        var result = new List<SheetRegion>();
        while (sheet.FreeCount > 0)
        {
            var largest = Enumerable.Range(0, sheet.FreeCount).Select(i => sheet.Free(i)).MaxBy(f => (long)f.Width * f.Height);
            result.Add(new SheetRegion(r.X1 + largest.X1, r.Y1 + largest.Y1, r.X1 + largest.X2, r.Y1 + largest.Y2));
            sheet.Insert(new Placed(-1, largest.X1, largest.Y1, largest.Width, largest.Height), ref work);
        }

        return result;
    }

    private static bool IsKept(SheetRegion r, long kerf, OffcutRule rule)
    {
        var (w, h) = (r.X2 - r.X1 - kerf, r.Y2 - r.Y1 - kerf);
        return rule.Keeps(w, h);
    }

    /// <summary>Where cuts in one direction may run: behind pieces that no piece reaches across.</summary>
    private static List<long> Lines(SheetRegion r, IReadOnlyList<Placed> inside, bool upright)
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

    private static IEnumerable<(SheetRegion Part, List<Placed> Held)> Parts(SheetRegion r, IReadOnlyList<Placed> inside, long at, bool upright)
    {
        foreach (var part in upright ? new[] { r with { X2 = at }, r with { X1 = at } } : [r with { Y2 = at }, r with { Y1 = at }])
            yield return (part, [.. inside.Where(p => p.X >= part.X1 && p.X < part.X2 && p.Y >= part.Y1 && p.Y < part.Y2)]);
    }
}
