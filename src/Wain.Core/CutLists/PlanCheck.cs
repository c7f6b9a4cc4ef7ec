using System.Collections.Immutable;

namespace Wain.Core.CutLists;

/// <summary>Judges a plan by the cut lists alone, with none of the planner's code.</summary>
public static class PlanCheck
{
    /// <summary>
    /// What is wrong with a plan, in words; null if every part is placed as often as it is needed, inside stock that there is, a kerf apart, freed by the cuts
    /// in their order, and the cost is that of what is bought.
    /// </summary>
    public static string? FirstProblem(MaterialPlan plan, CutList list)
    {
        var parts = list.Parts.ToDictionary(p => p.Mark, StringComparer.Ordinal);
        var placed = new Dictionary<string, long>(StringComparer.Ordinal);
        foreach (var sheet in plan.Sheets)
        {
            if (OfSheet(sheet, list, parts, placed) is { } problem) return problem;
        }
        if (list.Parts.FirstOrDefault(p => placed.GetValueOrDefault(p.Mark) > p.Count || plan.Problems.IsEmpty && placed.GetValueOrDefault(p.Mark) != p.Count) is { } wrong)
            return $"{wrong.Mark} is placed {placed.GetValueOrDefault(wrong.Mark)} times and needed {wrong.Count} times.";
        if (Used(plan, list) is { } problemOfStock) return problemOfStock;
        long cost = plan.Bought.Sum(b => b.Count * (Bought(list, b)?.Cost ?? 0));
        if (plan.Kept != Worth(plan, list)) return $"What is kept of {list.Material} is not worth what the plan says.";
        return cost != plan.Cost ? $"The cost of {list.Material} is not that of what is bought." : plan.Bound > plan.Net ? $"The bound of {list.Material} lies above its cost." : null;
    }

    /// <summary>What the kept offcuts of bought sheets are worth: no more than their share of the sheet's price, each rounded down to whole units. Nothing where boards are ripped, and of rolls.</summary>
    private static long Worth(MaterialPlan plan, CutList list)
    {
        if (list.OffcutValue <= 0 || list.Kind is not (CutKind.Sheet or CutKind.Board) || !plan.Rips.IsEmpty) return 0;
        long worth = 0;
        foreach (var s in plan.Sheets.Where(s => !s.Owned && s.UnitCost > 0))
        {
            decimal area = (decimal)(s.Width - 2 * list.Trim + list.Kerf) * (s.Length - 2 * list.Trim + list.Kerf);
            decimal value = area <= 0 ? 0 : Math.Min(list.OffcutValue, s.UnitCost / area);
            worth += s.Times * s.Offcuts.Sum(o => (long)decimal.Floor(value * ((decimal)o.Width * o.Length)));
        }
        return worth;
    }

    /// <summary>Offcuts are clear of parts and of one another by a kerf, and lie on the sheet.</summary>
    private static bool AreOffcuts(CutPlanSheet sheet, CutList list)
    {
        long k = list.Kerf, trim = sheet.Owned ? 0 : list.Trim;
        bool Apart(long x, long y, long width, long length, KeptOffcut o) => x + width + k <= o.X || o.X + o.Width + k <= x || y + length + k <= o.Y || o.Y + o.Length + k <= y;
        for (int i = 0; i < sheet.Offcuts.Length; i++)
        {
            var o = sheet.Offcuts[i];
            if (o.Width <= 0 || o.Length <= 0 || o.X < trim || o.Y < trim || o.X + o.Width > sheet.Width - trim || o.Y + o.Length > sheet.Length - trim) return false;
            if (sheet.Parts.Any(p => !Apart(p.X, p.Y, p.Width, p.Length, o)) || sheet.Offcuts.Take(i).Any(other => !Apart(other.X, other.Y, other.Width, other.Length, o))) return false;
        }
        return true;
    }

    private static CutStock? Bought(CutList list, BoughtStock b) => list.Stock.FirstOrDefault(s => !s.Owned && s.Width == b.Width && s.Length == b.Length);

    private static string? OfSheet(CutPlanSheet sheet, CutList list, Dictionary<string, CutPart> parts, Dictionary<string, long> placed)
    {
        if (sheet.Times <= 0) return $"A sheet of {list.Material} is cut no times.";
        foreach (var p in sheet.Parts)
        {
            if (!parts.TryGetValue(p.Mark, out var part)) return $"{p.Mark} is no part of {list.Material}.";
            placed[p.Mark] = placed.GetValueOrDefault(p.Mark) + sheet.Times;
            if (list.Kind == CutKind.Stick ? p.Length != part.Length : (p.Width, p.Length) != (p.Turned ? (part.Length, part.Width) : (part.Width, part.Length))) return $"{p.Mark} has another size in the plan.";
            if (list.Kind != CutKind.Stick && p.Turned && !part.MayTurn) return $"{p.Mark} lies across the grain.";
            if (sheet.Thickness > 0 && part.Thickness != sheet.Thickness) return $"{p.Mark} lies on a layer of another thickness.";
            if (!HasItsOutline(p, part, list)) return $"{p.Mark} has another outline in the plan.";
            if (!Inside(p, sheet, list)) return $"{p.Mark} lies beyond the edge of its stock, or on a fault.";
        }
        for (int i = 0; i < sheet.Parts.Length; i++)
            for (int j = 0; j < i; j++)
                if (TooClose(sheet.Parts[i], sheet.Parts[j], list)) return $"{sheet.Parts[i].Mark} and {sheet.Parts[j].Mark} are less than a kerf apart.";
        if (list.Kind is not (CutKind.Sheet or CutKind.Board)) return null;
        return CutFollower.FirstProblem(sheet, list.Kerf, list.Guillotine) ?? (AreOffcuts(sheet, list) ? null : $"An offcut of {list.Material} lies where it can't be cut.");
    }

    /// <summary>Stock that the plan uses against stock that there is.</summary>
    private static string? Used(MaterialPlan plan, CutList list)
    {
        var used = new Dictionary<CutStock, long>();
        string? Take(string name, long width, long length, bool owned, ImmutableArray<CutFault> faults, int times)
        {
            // An owned offcut may be listed twice under one name; what there is in all is what counts.
            var alike = list.Stock.Where(s => s.Owned == owned && s.Width == width && s.Length == length && (!owned || s.Name == name) && s.Faults.SequenceEqual(faults)).ToList();
            if (alike.Count == 0) return $"There is no stock {name} of that size.";
            long sum = used[alike[0]] = used.GetValueOrDefault(alike[0]) + times;
            return alike.TrueForAll(s => s.Count is not null) && sum > alike.Sum(s => (long)s.Count!.Value) ? $"The plan takes {sum} of {name}, and there are {alike.Sum(s => (long)s.Count!.Value)}." : null;
        }
        if (list.Kind == CutKind.Roll && plan.Bought is [{ } roll])
            return Bought(list, roll) is null ? "There is no roll of that size." : plan.Sheets.Any(s => s.Width > roll.Width || s.Length > (long)roll.Length * Math.Max(1, roll.Count)) ? $"More is cut off {list.Material} than is bought." : null;
        if (!plan.Rips.IsEmpty)
        {
            foreach (var r in plan.Rips)
            {
                if (Take(r.Stock, r.Width, r.Length, false, [], r.Times) is { } problem) return problem;
                if (r.Layers.Sum() + (r.Layers.Length - 1L) * list.Kerf > list.Thickness) return $"A board of {list.Material} is ripped into more than its thickness.";
            }
            foreach (var group in plan.Sheets.GroupBy(s => (s.Width, s.Length, s.Thickness)))
            {
                long there = plan.Rips.Where(r => (r.Width, r.Length) == (group.Key.Width, group.Key.Length)).Sum(r => (long)r.Times * r.Layers.Count(l => l == group.Key.Thickness));
                if (group.Sum(s => (long)s.Times) > there) return $"More layers of {list.Material} are used than are ripped.";
            }
            return Tally(plan, list, plan.Rips.Select(r => (r.Width, r.Length, r.Times)));
        }
        foreach (var s in plan.Sheets)
            if (Take(s.Stock, s.Width, s.Length, s.Owned, s.Faults, s.Times) is { } problem) return problem;
        return Tally(plan, list, plan.Sheets.Where(s => !s.Owned).Select(s => (s.Width, s.Length, s.Times)));
    }

    private static string? Tally(MaterialPlan plan, CutList list, IEnumerable<(long Width, long Length, int Times)> used)
    {
        var needed = used.GroupBy(u => (u.Width, u.Length)).ToDictionary(g => g.Key, g => g.Sum(u => (long)u.Times));
        bool all = needed.All(n => plan.Bought.Where(b => (b.Width, b.Length) == n.Key).Sum(b => (long)b.Count) == n.Value);
        return all && plan.Bought.Sum(b => (long)b.Count) == needed.Values.Sum() ? null : $"What is bought of {list.Material} is not what is cut.";
    }

    /// <summary>The part's own outline, in one of the positions that leave it the right side up.</summary>
    private static bool HasItsOutline(PlacedPart p, CutPart part, CutList list)
    {
        if (list.Kind == CutKind.Stick)
        {
            if (p.Outline.IsEmpty) return part.LeftRun == 0 && part.RightRun == 0;
            return StickShape.Positions(part).Any(o => Same(p.Outline, o.Select(c => new CutPoint(c.X + p.X, c.Y))));
        }
        if (part.Outline.IsEmpty) return p.Outline.IsEmpty;
        IEnumerable<CutPoint> laid = part.Outline.Select(c => p.Turned ? new CutPoint(part.Length - c.Y, c.X) : c);
        return Same(p.Outline, laid.Select(c => new CutPoint(p.X + c.X, p.Y + c.Y))) || Same(p.Outline, laid.Select(c => new CutPoint(p.X + p.Width - c.X, p.Y + p.Length - c.Y)));
    }

    private static bool Same(ImmutableArray<CutPoint> outline, IEnumerable<CutPoint> other) => outline.SequenceEqual(other);

    private static bool Inside(PlacedPart p, CutPlanSheet sheet, CutList list)
    {
        if (list.Kind == CutKind.Stick) return p.X >= 0 && p.X + p.Length <= sheet.Length && !sheet.Faults.Any(f => p.X < f.To && f.From < p.X + p.Length);
        long trim = sheet.Owned || list.Kind == CutKind.Roll ? 0 : list.Trim;
        return p.X >= trim && p.Y >= trim && p.X + p.Width <= sheet.Width - trim && p.Y + p.Length <= sheet.Length - trim;
    }

    private static bool TooClose(PlacedPart a, PlacedPart b, CutList list)
    {
        bool apart = list.Kind == CutKind.Stick
            ? a.X + a.Length + list.Kerf <= b.X || b.X + b.Length + list.Kerf <= a.X
            : a.X + a.Width + list.Kerf <= b.X || b.X + b.Width + list.Kerf <= a.X || a.Y + a.Length + list.Kerf <= b.Y || b.Y + b.Length + list.Kerf <= a.Y;
        return !apart && (a.Outline.IsEmpty || b.Outline.IsEmpty || !Separated(Hull(a.Outline), Hull(b.Outline), list.Kerf) && !Separated(Hull(b.Outline), Hull(a.Outline), list.Kerf));
    }

    /// <summary>The outline with its hollows filled: a straight cut between two parts frees their hulls.</summary>
    private static ImmutableArray<CutPoint> Hull(ImmutableArray<CutPoint> outline)
    {
        var points = outline.Distinct().OrderBy(p => p.X).ThenBy(p => p.Y).ToList();
        if (points.Count < 3) return [.. points];
        static List<CutPoint> Chain(IEnumerable<CutPoint> points)
        {
            var chain = new List<CutPoint>();
            foreach (var p in points)
            {
                while (chain.Count > 1 && (double)(chain[^1].X - chain[^2].X) * (p.Y - chain[^2].Y) - (double)(chain[^1].Y - chain[^2].Y) * (p.X - chain[^2].X) <= 0) chain.RemoveAt(chain.Count - 1);
                chain.Add(p);
            }
            return chain[..^1];
        }
        return [.. Chain(points), .. Chain(Enumerable.Reverse(points))];
    }

    /// <summary>True if a side of the first, moved out by the kerf, has all of the second beyond it. A hair is left for corners in whole units.</summary>
    private static bool Separated(ImmutableArray<CutPoint> first, ImmutableArray<CutPoint> second, long kerf)
    {
        for (int i = 0; i < first.Length; i++)
        {
            var (p, q) = (first[i], first[(i + 1) % first.Length]);
            double dx = q.X - p.X, dy = q.Y - p.Y, length = Math.Sqrt(dx * dx + dy * dy);
            if (length == 0) continue;
            double Beyond(CutPoint c) => (dy * (c.X - p.X) - dx * (c.Y - p.Y)) / length;
            if (first.All(c => Beyond(c) <= 2) && second.All(c => Beyond(c) >= kerf - 2)) return true;
        }
        return false;
    }
}
