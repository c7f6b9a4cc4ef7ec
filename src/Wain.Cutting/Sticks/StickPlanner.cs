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
        if (Reduce(problem, issues) is not { } reduced)
            return new StickPlan([], 0, 0, issues.Count == 0, null, issues, 0);
        var core = reduced.Core;
        var result = StickSearch.Run(core, budget);
        if (result.Best is null)
        {
            issues.Add(new CuttingIssue(IssueKind.NotEnoughStock, "", core.Demand.Sum(d => (long)d), "The stock on hand and on sale is too little for all pieces."));
            return new StickPlan([], 0, result.Bound, false, result.Certificate, issues, budget.StepsDone);
        }

        var spread = new PieceSpread(reduced);
        var sticks = new List<CutStick>();
        foreach (var pattern in result.Best.Patterns)
            spread.Expand(problem, pattern, sticks);
        return new StickPlan(sticks, result.Best.Cost, result.Bound, result.Best.Cost == result.Bound, result.Certificate, issues, budget.StepsDone);
    }

    /// <summary>The lower bound that a plan's certificate proves for a problem, in exact arithmetic; null if it proves none.</summary>
    public static long? CheckBound(StickProblem problem, StickCertificate certificate) =>
        Reduce(problem, []) is { } reduced ? StickProof.Bound(reduced.Core, certificate) : null;

    /// <summary>A problem with kerf, faults and equal pieces worked in.</summary>
    /// <param name="PiecesOfKind">Piece indexes behind each kind of the core.</param>
    /// <param name="StockOf">Stock index behind each stock of the core.</param>
    /// <param name="Starts">Where each clear stretch starts.</param>
    internal sealed record Reduced(StickCore Core, int[][] PiecesOfKind, int[] StockOf, long[][] Starts);

    internal static Reduced? Reduce(StickProblem problem, List<CuttingIssue> issues)
    {
        if (problem.Kerf < 0)
        {
            issues.Add(new CuttingIssue(IssueKind.BadValue, "kerf", 0, "The kerf must not be negative."));
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
            var clear = Clear(stock, problem.Kerf);
            if (clear.Count > 0)
                stretches.Add((s, clear));
        }

        var kinds = new SortedDictionary<long, List<int>>();
        long total = 0;
        for (var p = 0; p < problem.Pieces.Count; p++)
        {
            var piece = problem.Pieces[p];
            if (piece.Length <= 0 || piece.Count < 0 || piece.LeftRun < 0 || piece.RightRun < 0 || total + piece.Count > int.MaxValue)
                issues.Add(new CuttingIssue(IssueKind.BadValue, piece.Id, piece.Count, $"Piece {piece.Id} has a length, count or end that cannot be; it is left out."));
            else if (piece.Count > 0 && !stretches.Any(s => s.Clear.Any(c => c.Length >= piece.Length)))
                issues.Add(new CuttingIssue(IssueKind.FitsNoStock, piece.Id, piece.Count, $"Piece {piece.Id} is longer than every clear length of stock."));
            else if (piece.Count > 0)
            {
                total += piece.Count;
                if (!kinds.TryGetValue(piece.Length, out var list))
                    kinds[piece.Length] = list = [];
                list.Add(p);
            }
        }

        if (kinds.Count == 0)
            return null;
        var lengths = kinds.Keys.Select(l => l + problem.Kerf).ToArray();
        var unit = lengths.Aggregate(0L, StickCore.Gcd);
        if (stretches.Max(s => s.Clear.Max(c => c.Length + problem.Kerf)) / unit > MostUnits)
        {
            issues.Add(new CuttingIssue(IssueKind.BadValue, "unit", 0, "The lengths are given in too fine a unit to plan with."));
            return null;
        }

        var core = new StickCore(
            [.. lengths.Select(l => (int)(l / unit))],
            [.. kinds.Values.Select(ps => ps.Sum(p => problem.Pieces[p].Count))],
            [.. stretches.Select(s => s.Clear.Select(c => (int)((c.Length + problem.Kerf) / unit)).ToArray())],
            [.. stretches.Select(s => problem.Stock[s.Stock].Cost)],
            [.. stretches.Select(s => problem.Stock[s.Stock].Count ?? -1)]);
        return new Reduced(core, [.. kinds.Values.Select(l => l.ToArray())], [.. stretches.Select(s => s.Stock)],
            [.. stretches.Select(s => s.Clear.Select(c => c.Start).ToArray())]);
    }

    /// <summary>Stretches between faults. The saw that frees a piece beside a fault runs in the fault, which is widened if it is thinner than the kerf.</summary>
    private static List<(long Start, long Length)> Clear(StockStick stock, long kerf)
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

    /// <summary>Hands the pieces behind each kind out to the patterns, in order; a pattern splits where one piece's count ends and the next begins.</summary>
    private sealed class PieceSpread(Reduced reduced)
    {
        private readonly Queue<(int Piece, int Left)>[] _left =
            [.. reduced.PiecesOfKind.Select(_ => new Queue<(int, int)>())];
        private bool _filled;

        public void Expand(StickProblem problem, StickPattern pattern, List<CutStick> sticks)
        {
            if (!_filled)
            {
                for (var k = 0; k < _left.Length; k++)
                {
                    foreach (var p in reduced.PiecesOfKind[k])
                        _left[k].Enqueue((p, problem.Pieces[p].Count));
                }

                _filled = true;
            }

            var used = pattern.Parts.SelectMany(p => p).GroupBy(k => k).ToDictionary(g => g.Key, g => g.Count());
            for (var times = pattern.Times; times > 0;)
            {
                // As many sticks as the pieces at the head of every queue allow; a stick across two pieces of a kind is cut alone.
                var batch = times;
                foreach (var (kind, n) in used)
                    batch = Math.Min(batch, _left[kind].Peek().Left / n);
                batch = Math.Max(1, batch);
                var take = used.ToDictionary(u => u.Key, u => Take(u.Key, u.Value, batch));
                sticks.Add(Build(problem, pattern, batch, take));
                times -= batch;
            }
        }

        private Queue<int> Take(int kind, int perStick, int batch)
        {
            var result = new Queue<int>();
            while (result.Count < perStick)
            {
                var (piece, left) = _left[kind].Dequeue();
                var n = batch > 1 || left >= perStick ? perStick : Math.Min(left, perStick - result.Count);
                n = Math.Min(n, perStick - result.Count);
                for (var i = 0; i < n; i++)
                    result.Enqueue(piece);
                left -= n * batch;
                if (left > 0)
                    Requeue(kind, piece, left);
            }

            return result;
        }

        private void Requeue(int kind, int piece, int left)
        {
            var rest = _left[kind].ToArray();
            _left[kind].Clear();
            _left[kind].Enqueue((piece, left));
            foreach (var r in rest)
                _left[kind].Enqueue(r);
        }

        private CutStick Build(StickProblem problem, StickPattern pattern, int times, Dictionary<int, Queue<int>> take)
        {
            var stock = problem.Stock[reduced.StockOf[pattern.Stock]];
            var placements = new List<StickPlacement>();
            var cuts = new List<StickCut>();
            var offcuts = new List<StickOffcut>();
            for (var g = 0; g < pattern.Parts.Length; g++)
            {
                var start = reduced.Starts[pattern.Stock][g];
                var end = ClearEnd(stock, start);
                var at = start;
                if (start > 0 && pattern.Parts[g].Length > 0)
                    cuts.Add(new StickCut(start, 0));
                foreach (var kind in pattern.Parts[g])
                {
                    var piece = take[kind].Dequeue();
                    var to = at + problem.Pieces[piece].Length;
                    placements.Add(new StickPlacement(piece, at, to, false));
                    if (to < stock.Length)
                        cuts.Add(new StickCut(to, 0));
                    at = to + problem.Kerf;
                }

                if (end - at >= Math.Max(1, problem.SmallestOffcut))
                    offcuts.Add(new StickOffcut(at, end));
            }

            return new CutStick(reduced.StockOf[pattern.Stock], times, placements, cuts, offcuts);
        }

        private static long ClearEnd(StockStick stock, long start) =>
            (stock.Faults ?? []).Where(f => f.From >= start).Select(f => f.From).DefaultIfEmpty(stock.Length).Min();
    }
}
