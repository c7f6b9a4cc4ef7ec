namespace Wain.Cutting;

/// <summary>Mends solutions of the relaxation in which angled ends nest by halves: what a real sequence cannot hold goes to further sticks.</summary>
internal static class StickNesting
{
    /// <summary>A solution that can be cut, in the kinds of the relaxation; null if the stock does not suffice.</summary>
    public static StickSolution? Mend(StickProblem problem, StickPlanner.Reduced nested, StickSolution solution, StepBudget budget)
    {
        var core = nested.Core;
        var patterns = new List<StickPattern>();
        var homeless = new int[core.Kinds];
        var counts = (int[])core.Counts.Clone();
        foreach (var pattern in solution.Patterns)
        {
            var parts = new int[pattern.Parts.Length][];
            for (var g = 0; g < parts.Length; g++)
            {
                var part = pattern.Parts[g].ToList();
                while (part.Count > 0 && Length(problem, nested, part) > nested.Clear[pattern.Stock][g].Length)
                {
                    // The shortest piece is the easiest to place elsewhere.
                    var shortest = part.MinBy(k => core.Lengths[k]);
                    part.Remove(shortest);
                    homeless[shortest] += pattern.Times;
                }

                parts[g] = [.. part];
                budget.Spend(part.Count * part.Count * 20L);
            }

            patterns.Add(pattern with { Parts = parts });
            if (counts[pattern.Stock] > 0)
                counts[pattern.Stock] -= pattern.Times;
        }

        if (homeless.All(n => n == 0))
            return StickSolution.Of(core, patterns);
        // Placed at full length, apart by their own cuts, they always can be cut.
        var apart = new StickCore(
            [.. nested.PiecesOfKind.Select(ps => Clamp(problem.Pieces[ps[0]].Length + StickAngles.KerfApart(problem, problem.Pieces[ps[0]])))], homeless,
            [.. nested.Clear.Select(c => c.Select(s => Clamp(s.Length + problem.Kerf)).ToArray())], core.Costs, counts);
        return StickGreedy.Fill(apart, homeless, counts, false, budget) is { } rest ? StickSolution.Of(core, [.. patterns, .. rest]) : null;
    }

    private static int Clamp(long length) => (int)Math.Min(int.MaxValue, length);

    private static long Length(StickProblem problem, StickPlanner.Reduced nested, List<int> part) =>
        StickAngles.Arrange(problem, [.. part.Select(k => nested.PiecesOfKind[k][0])])[^1].To;
}
