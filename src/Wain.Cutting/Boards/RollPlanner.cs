namespace Wain.Cutting;

/// <summary>Pieces and strips to cut from a roll of cloth or sheet goods that is sold by its running length.</summary>
/// <param name="Width">Usable width of the roll.</param>
/// <param name="Longest">Most that can be taken in one length.</param>
/// <param name="Increment">Lengths are sold in whole multiples of this.</param>
/// <param name="CostPerIncrement">Price of one multiple.</param>
/// <param name="Pieces">Height runs along the roll, as the warp does.</param>
/// <param name="Kerf">Least distance between two pieces; 0 for shears.</param>
/// <param name="Offcuts">Which remainders of the length are worth keeping; all, where nothing is said.</param>
public sealed record RollProblem(long Width, long Longest, long Increment, long CostPerIncrement, IReadOnlyList<SheetPiece> Pieces, long Kerf = 0, bool Guillotine = true, OffcutRule Offcuts = default);

/// <summary>A plan for a roll.</summary>
/// <param name="Layout">The pieces on the length, null if there are none or not all fit.</param>
/// <param name="Length">Length to buy, in whole increments.</param>
/// <param name="LowerBound">No plan does with less length.</param>
/// <param name="Certificate">Proves that one increment less than <paramref name="LowerBound"/> is too short; null where the bound is one increment.</param>
public sealed record RollPlan(CutSheet? Layout, long Length, long Cost, long LowerBound, bool Proven, SheetCertificate? Certificate, IReadOnlyList<CuttingIssue> Issues);

/// <summary>Finds the shortest length of a roll that holds all pieces: a search over lengths, each planned as one sheet.</summary>
public static class RollPlanner
{
    private const long LengthSteps = 150_000;

    public static RollPlan Plan(RollProblem problem, StepBudget budget)
    {
        if (problem.Width <= 0 || problem.Longest <= 0 || problem.Increment <= 0 || problem.CostPerIncrement < 0 || problem.Longest / problem.Increment is 0 or > 1 << 30)
            return new RollPlan(null, 0, 0, 0, false, null, [new CuttingIssue(IssueKind.BadValue, "roll", 0, "The roll has a width, length or price that cannot be.")]);
        var most = problem.Longest / problem.Increment;
        var longest = Try(most);
        if (longest.Issues.Count > 0 || longest.SheetCount == 0)
            return new RollPlan(null, 0, 0, 0, longest.Issues.Count == 0, null, longest.Issues);
        if (longest.SheetCount > 1)
            return new RollPlan(null, 0, 0, 0, false, null, [new CuttingIssue(IssueKind.NotEnoughStock, "roll", 0, "No plan was found on the longest length that can be had.")]);
        // The least length that the bound does not refute; the bound only grows as the length shrinks.
        var (refuted, open) = (0L, most);
        SheetCertificate? certificate = null;
        while (open - refuted > 1)
        {
            var middle = (refuted + open) / 2;
            var plan = Try(middle, 2_000);
            if (plan.Issues.Count > 0 || plan.LowerBound > 1)
                (refuted, certificate) = (middle, plan.Certificate);
            else
                open = middle;
        }

        // Between the bound and the best length so far every try may succeed or fail; a failure of the search proves nothing, so the walk is from the short end by halves.
        var (length, layout) = (Used(longest.Sheets[0], problem), longest.Sheets[0]);
        var low = open;
        while (low < length && !budget.IsSpent)
        {
            var middle = (low + length) / 2;
            var plan = Try(middle);
            if (plan.Issues.Count == 0 && plan.SheetCount == 1)
                (length, layout) = (Math.Min(middle, Used(plan.Sheets[0], problem)), plan.Sheets[0]);
            else
                low = middle + 1;
        }

        return new RollPlan(Within(layout, length * problem.Increment, problem.Offcuts), length * problem.Increment, length * problem.CostPerIncrement, open * problem.Increment, length == open, certificate, []);

        SheetPlan Try(long increments, long steps = LengthSteps) => SheetPlanner.Plan(
            new SheetProblem([Sheet(problem, increments)], problem.Pieces, problem.Kerf, problem.Guillotine), budget.Part(steps));
    }

    /// <summary>Whether a plan's certificate proves that one increment less than the bound is too short.</summary>
    public static bool CheckBound(RollProblem problem, RollPlan plan) => CheckBound(problem, plan.LowerBound, plan.Certificate);

    /// <summary>Whether a certificate proves that one increment less than a length is too short.</summary>
    public static bool CheckBound(RollProblem problem, long lowerBound, SheetCertificate? certificate)
    {
        var shorter = lowerBound / problem.Increment - 1;
        if (shorter <= 0)
            return true;
        var sheet = new SheetProblem([Sheet(problem, shorter)], problem.Pieces, problem.Kerf, problem.Guillotine);
        var tooLong = problem.Pieces.Any(p => p.Count > 0 && !((p.Width <= problem.Width && p.Height <= shorter * problem.Increment)
            || (p.MayTurn && p.Height <= problem.Width && p.Width <= shorter * problem.Increment)));
        return tooLong || (certificate is not null && SheetPlanner.CheckBound(sheet, certificate) > 1);
    }

    private static StockSheet Sheet(RollProblem problem, long increments) => new("roll", problem.Width, increments * problem.Increment, 1);

    /// <summary>A layout that was found on a greater length, as cut from what is bought: cuts and offcuts end where the length does, and what is then too small to keep is none.</summary>
    private static CutSheet Within(CutSheet layout, long length, OffcutRule rule) => layout with
    {
        Cuts = [.. layout.Cuts.Select(c => c.Upright ? c with { To = Math.Min(c.To, length) } : c).Where(c => c.Upright ? c.From < c.To : c.At < length)],
        Offcuts = [.. layout.Offcuts.Select(o => o with { Height = Math.Min(o.Height, length - o.Y) }).Where(o => rule.Keeps(o.Width, o.Height)).OrderByDescending(o => o.Area)],
    };

    private static long Used(CutSheet sheet, RollProblem problem) =>
        (sheet.Pieces.Max(p => p.Y + p.Height) + problem.Increment - 1) / problem.Increment;
}
