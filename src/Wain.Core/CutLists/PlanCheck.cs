using System.Collections.Immutable;

namespace Wain.Core.CutLists;

/// <summary>Judges a plan by the cut lists alone, with none of the planner's code.</summary>
public static class PlanCheck
{
    /// <summary>What is wrong with a plan, in words; null if every part is placed as often as it is needed, inside the stock, a kerf apart, and the cost is as stated.</summary>
    public static string? FirstProblem(CuttingPlan plan, ImmutableArray<CutList> lists)
    {
        if (plan.Materials.Length != lists.Length) return "The plan has other materials.";
        return plan.Materials.Zip(lists).Select(p => p.First.Material == p.Second.Material ? Of(p.First, p.Second) : "The plan has other materials.").FirstOrDefault(p => p is not null);
    }

    private static string? Of(MaterialPlan plan, CutList list)
    {
        var parts = list.Parts.ToDictionary(p => p.Mark, StringComparer.Ordinal);
        var placed = new Dictionary<string, long>(StringComparer.Ordinal);
        foreach (var sheet in plan.Sheets)
        {
            if (sheet.Times <= 0) return $"A sheet of {list.Material} is cut no times.";
            foreach (var p in sheet.Parts)
            {
                if (!parts.TryGetValue(p.Mark, out var part)) return $"{p.Mark} is no part of {list.Material}.";
                placed[p.Mark] = placed.GetValueOrDefault(p.Mark) + sheet.Times;
                if (list.Kind == CutKind.Stick ? p.Length != part.Length : (p.Width, p.Length) != (p.Turned ? (part.Length, part.Width) : (part.Width, part.Length))) return $"{p.Mark} has another size in the plan.";
                if (list.Kind != CutKind.Stick && p.Turned && !part.MayTurn) return $"{p.Mark} lies across the grain.";
                if (!Inside(p, sheet, list)) return $"{p.Mark} lies beyond the edge of its stock, or on a fault.";
            }
            for (int i = 0; i < sheet.Parts.Length; i++)
                for (int j = 0; j < i; j++)
                    if (TooClose(sheet.Parts[i], sheet.Parts[j], parts, list)) return $"{sheet.Parts[i].Mark} and {sheet.Parts[j].Mark} are less than a kerf apart.";
        }
        if (plan.Problems.IsEmpty && list.Parts.FirstOrDefault(p => placed.GetValueOrDefault(p.Mark) != p.Count) is { } missing) return $"{missing.Mark} is placed {placed.GetValueOrDefault(missing.Mark)} times and needed {missing.Count} times.";
        long cost = plan.Bought.Sum(b => b.Count * (list.Stock.FirstOrDefault(s => !s.Owned && s.Width == b.Width && s.Length == b.Length)?.Cost ?? 0));
        return cost != plan.Cost ? $"The cost of {list.Material} is not that of what is bought." : plan.Bound > plan.Cost ? $"The bound of {list.Material} lies above its cost." : null;
    }

    private static bool Inside(PlacedPart p, CutPlanSheet sheet, CutList list)
    {
        if (list.Kind == CutKind.Stick) return p.X >= 0 && p.X + p.Length <= sheet.Length && !sheet.Faults.Any(f => p.X < f.To && f.From < p.X + p.Length);
        long trim = sheet.Owned || list.Kind == CutKind.Roll ? 0 : list.Trim;
        return p.X >= trim && p.Y >= trim && p.X + p.Width <= sheet.Width - trim && p.Y + p.Length <= sheet.Length - trim;
    }

    private static bool TooClose(PlacedPart a, PlacedPart b, Dictionary<string, CutPart> parts, CutList list)
    {
        if (list.Kind == CutKind.Stick)
        {
            // Two slanted ends may overlap along the stick by the shorter of what they run.
            long Run(PlacedPart p) => Math.Max(parts[p.Mark].LeftRun, parts[p.Mark].RightRun);
            long gap = Math.Max(a.X, b.X) - Math.Min(a.X + a.Length, b.X + b.Length);
            return gap < list.Kerf - Math.Min(Run(a), Run(b));
        }
        bool apart = a.X + a.Width + list.Kerf <= b.X || b.X + b.Width + list.Kerf <= a.X || a.Y + a.Length + list.Kerf <= b.Y || b.Y + b.Length + list.Kerf <= a.Y;
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
