namespace Wain.Cutting;

/// <summary>How a piece that is larger than every sheet may be made of parts.</summary>
/// <param name="AcrossWidth">True if a seam may run upright, so that parts lie side by side.</param>
/// <param name="AcrossHeight">True if a seam may run level, so that parts lie above one another.</param>
/// <param name="Lap">How much longer the parts are together at each seam: the scarf or lap; 0 for a butt joint.</param>
/// <param name="LeastPart">Least width or height of a part, lap included.</param>
/// <param name="MostParts">Most parts that the piece may have.</param>
public sealed record SpliceRule(bool AcrossWidth, bool AcrossHeight, long Lap, long LeastPart, int MostParts = 4);

/// <summary>A way to split a piece.</summary>
/// <param name="Upright">True if the seams run upright.</param>
/// <param name="Parts">Widths (or heights, for level seams) of the parts in order, laps included.</param>
public sealed record Splice(string Piece, bool Upright, IReadOnlyList<long> Parts);

/// <summary>The splices that cost least together with the plan that shows it.</summary>
public sealed record SplicedPlan(IReadOnlyList<Splice> Splices, SheetProblem Problem, SheetPlan Plan);

/// <summary>Chooses where pieces larger than every sheet are spliced: the split whose cutting plan costs least.</summary>
public static class SpliceChoice
{
    /// <summary>
    /// Plans a problem in which pieces may be too large, each with its rule. Splits are tried one piece after another in rounds of growing work, so a
    /// larger budget never gives a worse plan. A piece without a rule, or that no allowed split makes fit, stays whole and becomes an issue of the plan.
    /// </summary>
    public static SplicedPlan Choose(SheetProblem problem, IReadOnlyDictionary<string, SpliceRule> rules, StepBudget budget)
    {
        var options = problem.Pieces
            .Where(p => rules.ContainsKey(p.Id) && p.Width > 0 && p.Height > 0 && p.Count > 0 && !Fits(problem, p.Width, p.Height, p.MayTurn))
            .Select(p => Splits(problem, p, rules[p.Id])).Where(o => o.Count > 0).ToArray();
        var chosen = options.Select(o => o[0]).ToArray();
        var best = Evaluate(problem, chosen, budget.Part(2_000));
        var steps = 4_000L;
        for (var round = 0; round < 6 && options.Length > 0 && !budget.IsSpent && !best.Plan.Proven; round++, steps *= 4)
        {
            for (var i = 0; i < options.Length; i++)
            {
                foreach (var option in options[i])
                {
                    if (budget.IsSpent)
                        return best;
                    Splice[] trial = [.. chosen];
                    trial[i] = option;
                    var result = Evaluate(problem, trial, budget.Part(steps));
                    if (!IsBetter(result, best))
                        continue;
                    best = result;
                    chosen = trial;
                }
            }
        }

        return best;
    }

    private static bool IsBetter(SplicedPlan a, SplicedPlan b)
    {
        var (ia, ib) = (a.Plan.Issues.Count, b.Plan.Issues.Count);
        var (pa, pb) = (a.Splices.Sum(s => s.Parts.Count), b.Splices.Sum(s => s.Parts.Count));
        return (ia, a.Plan.Cost, a.Plan.SheetCount, pa).CompareTo((ib, b.Plan.Cost, b.Plan.SheetCount, pb)) < 0;
    }

    private static SplicedPlan Evaluate(SheetProblem problem, Splice[] splices, StepBudget budget)
    {
        var split = Apply(problem, splices);
        return new SplicedPlan(splices, split, SheetPlanner.Plan(split, budget));
    }

    /// <summary>The problem with spliced pieces replaced by their parts, which are named after the piece and numbered from 1.</summary>
    public static SheetProblem Apply(SheetProblem problem, IReadOnlyList<Splice> splices)
    {
        var pieces = new List<SheetPiece>();
        foreach (var piece in problem.Pieces)
        {
            if (splices.FirstOrDefault(s => s.Piece == piece.Id) is not { } splice)
            {
                pieces.Add(piece);
                continue;
            }

            for (var i = 0; i < splice.Parts.Count; i++)
            {
                var (w, h) = splice.Upright ? (splice.Parts[i], piece.Height) : (piece.Width, splice.Parts[i]);
                pieces.Add(new SheetPiece($"{piece.Id}/{i + 1}", w, h, piece.Count, piece.MayTurn));
            }
        }

        return problem with { Pieces = pieces };
    }

    /// <summary>Splits worth trying: into even parts, whole sheets first with the rest last, and the least last part; fewest parts first.</summary>
    private static List<Splice> Splits(SheetProblem problem, SheetPiece piece, SpliceRule rule)
    {
        var splits = new List<Splice>();
        foreach (var upright in new[] { true, false })
        {
            if (!(upright ? rule.AcrossWidth : rule.AcrossHeight) || rule.Lap < 0)
                continue;
            var whole = upright ? piece.Width : piece.Height;
            var other = upright ? piece.Height : piece.Width;
            foreach (var parts in Divisions(problem, piece, whole, other, upright, rule))
            {
                if (parts.Count <= rule.MostParts && parts.TrueForAll(p => p > rule.Lap && p >= rule.LeastPart && Fits(problem, upright ? p : other, upright ? other : p, piece.MayTurn))
                    && !splits.Exists(s => s.Upright == upright && s.Parts.SequenceEqual(parts)))
                    splits.Add(new Splice(piece.Id, upright, parts));
            }
        }

        return [.. splits.OrderBy(s => s.Parts.Count)];
    }

    private static IEnumerable<List<long>> Divisions(SheetProblem problem, SheetPiece piece, long whole, long other, bool upright, SpliceRule rule)
    {
        for (var n = 2; n <= rule.MostParts; n++)
        {
            // Every seam needs the lap once more.
            var material = whole + (n - 1) * rule.Lap;
            var even = material / n;
            yield return [.. Enumerable.Range(0, n).Select(i => i < n - 1 ? even : material - even * (n - 1))];
        }

        foreach (var longest in Longest(problem, piece, other, upright).Distinct())
        {
            if (longest <= rule.Lap)
                continue;
            foreach (var last in new[] { 0, rule.LeastPart })
            {
                var parts = new List<long>();
                var left = whole;
                while (left > longest && parts.Count < rule.MostParts)
                {
                    var part = last > 0 && left - (longest - rule.Lap) <= longest ? Math.Min(longest, left + rule.Lap - last) : longest;
                    parts.Add(part);
                    left -= part - rule.Lap;
                }

                parts.Add(left);
                if (parts[^1] < rule.LeastPart && parts.Count > 1)
                {
                    // Too small a rest borrows from its neighbour.
                    var missing = rule.LeastPart - parts[^1];
                    parts[^2] -= missing;
                    parts[^1] += missing;
                }

                yield return parts;
                yield return [.. Enumerable.Reverse(parts)];
            }
        }
    }

    /// <summary>How long a part can be on each sheet in each position.</summary>
    private static IEnumerable<long> Longest(SheetProblem problem, SheetPiece piece, long other, bool upright)
    {
        foreach (var sheet in problem.Stock)
        {
            var w = sheet.Width - sheet.Trim.Left - sheet.Trim.Right;
            var h = sheet.Height - sheet.Trim.Bottom - sheet.Trim.Top;
            var (along, across) = upright ? (w, h) : (h, w);
            if (other <= across)
                yield return along;
            if (piece.MayTurn && other <= along)
                yield return across;
        }
    }

    private static bool Fits(SheetProblem problem, long width, long height, bool mayTurn) => problem.Stock.Any(s =>
    {
        var w = s.Width - s.Trim.Left - s.Trim.Right;
        var h = s.Height - s.Trim.Bottom - s.Trim.Top;
        return s.Count != 0 && ((width <= w && height <= h) || (mayTurn && height <= w && width <= h));
    });
}
