namespace Wain.Cutting;

/// <summary>Plans how pieces are cut from sticks.</summary>
public static class StickPlanner
{
    internal const int MostUnits = 4_000_000;

    /// <summary>
    /// Plans at least cost, then with fewest sticks, then with the longest remainder. Bad values and pieces that fit nothing become issues of the
    /// plan and the rest is planned. The same problem and budget give the same plan everywhere, and a larger budget never a worse one.
    /// </summary>
    public static StickPlan Plan(StickProblem problem, StepBudget budget)
    {
        var issues = new List<CuttingIssue>();
        if (Reduce(problem, false, issues) is not { } apart)
            return new StickPlan([], 0, 0, issues.Count == 0, null, issues, 0);
        var angled = StickAngles.HasAngles(problem);
        var nested = angled ? Reduce(problem, true, [])! : apart;
        var (best, used) = ((StickSolution?)null, apart);
        var relaxed = angled
            // The relaxation shares every end by half; each of its plans is mended into one that can be cut.
            ? StickSearch.Run(nested.Core, budget.Part(NestingSteps), s => Keep(StickNesting.Mend(problem, nested, s, budget), nested))
            : null;
        var result = relaxed is not null && best is not null && best.Cost <= relaxed.Bound ? null : StickSearch.Run(apart.Core, budget);
        Keep(result?.Best, apart);
        var (bound, certificate) = relaxed is null ? (result!.Bound, result.Certificate) : (relaxed.Bound, relaxed.Certificate);
        if (best is null)
        {
            issues.Add(new CuttingIssue(IssueKind.NotEnoughStock, "", apart.Core.Demand.Sum(d => (long)d), "The stock on hand and on sale is too little for all pieces."));
            return new StickPlan([], 0, bound, false, certificate, issues, budget.StepsDone);
        }

        var expansion = new StickExpansion(problem, used);
        return new StickPlan([.. best.Patterns.SelectMany(expansion.Expand)], best.Cost, bound, best.Cost == bound, certificate, issues, budget.StepsDone);

        void Keep(StickSolution? solution, Reduced behind)
        {
            if (solution is not null && (best is null || solution.Cost < best.Cost || (solution.Cost == best.Cost && solution.Sticks < best.Sticks)))
                (best, used) = (solution, behind);
        }
    }

    private const long NestingSteps = 200_000;

    /// <summary>The lower bound that a plan's certificate proves for a problem, in exact arithmetic; null if it proves none.</summary>
    public static long? CheckBound(StickProblem problem, StickCertificate certificate) =>
        Reduce(problem, StickAngles.HasAngles(problem), []) is { } reduced ? StickProof.Bound(reduced.Core, certificate) : null;

    /// <summary>A problem with kerf, faults and equal pieces worked in.</summary>
    /// <param name="PiecesOfKind">Piece indexes behind each kind of the core.</param>
    /// <param name="StockOf">Stock index behind each stock of the core.</param>
    /// <param name="Clear">The clear stretches of each stock of the core.</param>
    internal sealed record Reduced(StickCore Core, int[][] PiecesOfKind, int[] StockOf, (long Start, long Length)[][] Clear);

    /// <param name="nested">
    /// False to keep whole pieces apart by the cuts of both their ends, which always can be cut; true to let every angled end give half its run away, which no plan can beat.
    /// </param>
    internal static Reduced? Reduce(StickProblem problem, bool nested, List<CuttingIssue> issues)
    {
        var angled = StickAngles.HasAngles(problem);
        if (problem.Kerf is < 0 or > 1L << 40)
        {
            issues.Add(new CuttingIssue(IssueKind.BadValue, "kerf", 0, "The kerf must be neither negative nor beyond all measure."));
            return null;
        }

        var stretches = new List<(int Stock, List<(long Start, long Length)> Clear)>();
        for (var s = 0; s < problem.Stock.Count; s++)
        {
            var stock = problem.Stock[s];
            if (stock.Length <= 0 || stock.Cost < 0 || stock.Count < 0 || stock.Cost > 1L << 40 || stock.Length > 1L << 40
                || stock.Faults?.Any(f => f.From < 0 || f.To <= f.From || f.To > stock.Length) == true)
            {
                issues.Add(new CuttingIssue(IssueKind.BadValue, stock.Id, 0, $"Stock {stock.Id} has a length, price, count or fault that cannot be; it is left out."));
                continue;
            }

            if (stock.Count == 0)
                continue;
            var clear = ClearStretches(stock, problem.Kerf);
            if (clear.Count > 0)
                stretches.Add((s, clear));
        }

        var kerf = problem.Kerf;
        var shared = nested ? StickAngles.MostShared(problem, stretches.SelectMany(s => s.Clear).Select(c => c.Length).DefaultIfEmpty().Max()) : [];
        var scale = angled ? 2 : 1;
        var kinds = new SortedDictionary<(long Taken, long Length, long Left, long Right, long Depth), List<int>>();
        long total = 0;
        for (var p = 0; p < problem.Pieces.Count; p++)
        {
            var piece = problem.Pieces[p];
            if (piece.Length <= 0 || piece.Count < 0 || piece.LeftRun < 0 || piece.RightRun < 0 || piece.Depth is < 0 or > 1L << 40 || piece.Depth == 0 && piece.LeftRun + piece.RightRun > 0 || Math.Max(piece.LeftRun, piece.RightRun) > piece.Length || total + piece.Count > int.MaxValue)
                issues.Add(new CuttingIssue(IssueKind.BadValue, piece.Id, piece.Count, $"Piece {piece.Id} has a length, count or end that cannot be; it is left out."));
            else if (piece.Count > 0 && !stretches.Any(s => s.Clear.Any(c => c.Length >= piece.Length)))
                issues.Add(new CuttingIssue(IssueKind.FitsNoStock, piece.Id, piece.Count, $"Piece {piece.Id} is longer than every clear length of stock."));
            else if (piece.Count > 0)
            {
                total += piece.Count;
                var key = (nested ? scale * (piece.Length + kerf) - shared[p] : scale * (piece.Length + StickAngles.KerfApart(problem, piece)), piece.Length, Math.Min(piece.LeftRun, piece.RightRun), Math.Max(piece.LeftRun, piece.RightRun), piece.Depth);
                if (!kinds.TryGetValue(key, out var list))
                    kinds[key] = list = [];
                list.Add(p);
            }
        }

        if (kinds.Count == 0)
            return null;
        var lengths = kinds.Keys.Select(k => k.Taken).ToArray();
        var unit = lengths.Aggregate(0L, StickCore.Gcd);
        if (stretches.Max(s => s.Clear.Max(c => scale * (c.Length + kerf))) / unit > MostUnits)
        {
            issues.Add(new CuttingIssue(IssueKind.BadValue, "unit", 0, "The lengths are given in too fine a unit to plan with."));
            return null;
        }

        var core = new StickCore(
            [.. lengths.Select(l => (int)(l / unit))],
            [.. kinds.Values.Select(ps => ps.Sum(p => problem.Pieces[p].Count))],
            [.. stretches.Select(s => s.Clear.Select(c => (int)(scale * (c.Length + kerf) / unit)).ToArray())],
            [.. stretches.Select(s => problem.Stock[s.Stock].Cost)],
            [.. stretches.Select(s => problem.Stock[s.Stock].Count ?? -1)]);
        return new Reduced(core, [.. kinds.Values.Select(l => l.ToArray())], [.. stretches.Select(s => s.Stock)], [.. stretches.Select(s => s.Clear.ToArray())]);
    }

    /// <summary>Stretches between faults. The saw that frees a piece beside a fault runs in the fault, which is widened if it is thinner than the kerf.</summary>
    private static List<(long Start, long Length)> ClearStretches(StockStick stock, long kerf)
    {
        var clear = new List<(long, long)>();
        long at = 0;
        foreach (var fault in (stock.Faults ?? []).OrderBy(f => f.From))
        {
            if (fault.From > at)
                clear.Add((at, fault.From - at));
            at = Math.Max(at, Math.Max(fault.To, fault.From + kerf));
        }

        if (at < stock.Length)
            clear.Add((at, stock.Length - at));
        return clear;
    }
}
