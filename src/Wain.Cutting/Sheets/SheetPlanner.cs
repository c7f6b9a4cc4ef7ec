namespace Wain.Cutting;

/// <summary>Plans how pieces are cut from sheets.</summary>
public static class SheetPlanner
{
    private const long MostUnits = 1L << 30;

    /// <summary>
    /// Plans at least cost, the value of what is kept taken off, then with fewest sheets, then with the largest usable offcut, then with fewest cuts. Bad values and pieces that fit nothing
    /// become issues of the plan and the rest is planned. The same problem and budget give the same plan everywhere, and a larger budget
    /// never a worse one.
    /// </summary>
    public static SheetPlan Plan(SheetProblem problem, StepBudget budget)
    {
        var issues = new List<CuttingIssue>();
        if (Reduce(problem, Shape.Bounding, issues) is not { } plain)
            return new SheetPlan([], 0, 0, issues.Count == 0, null, issues, 0);
        var shaped = problem.Pieces.Any(p => p.Outline is { Count: >= 3 });
        // The prices of sizes stand on rectangles inside the outlines, which hold whatever nests; those of whole pieces on how pieces are laid here.
        var inner = shaped ? Reduce(problem, Shape.Inside, [])! : plain;
        var paired = shaped ? Reduce(problem, Shape.Pairs, [])! : plain;
        var (best, used, kept) = ((SheetSolution?)null, paired, 0L);
        // Where offcuts have a value, what is paid and what a sheet costs beyond the worth of its area lead to different plans, and the better of these is kept.
        var trades = OffcutWorth.Counts(problem);
        if (trades)
            Search(reduced => reduced, budget.Part(PaidSteps));
        var result = Search(reduced => OffcutWorth.Beyond(problem, reduced), budget);
        var bound = result.Bound + OffcutWorth.OfPieces(problem, plain);
        if (best is null)
        {
            issues.Add(new CuttingIssue(IssueKind.NotEnoughStock, "", plain.Core.Demand.Sum(d => (long)d), "No plan was found that places all pieces on the stock on hand and on sale."));
            return new SheetPlan([], 0, bound, false, result.Certificate, issues, budget.StepsDone);
        }

        return new SheetPlan(SheetExpansion.Expand(problem, used, best), best.Cost, bound, best.Cost - kept == bound, result.Certificate, issues, budget.StepsDone, kept);

        SheetResult Search(Func<Reduced, Reduced> priced, StepBudget steps)
        {
            var sharing = new SharingBound(problem, priced(plain), steps);
            var found = SheetSearch.Run(priced(inner).Core, priced(paired).Core, sharing, steps, s => Keep(s, paired));
            // Pairs are stiff; now and then the single pieces pack better.
            if (paired.HasPairs)
                SheetSearch.Run(priced(inner).Core, priced(plain).Core, sharing, steps, s => Keep(s, plain));
            return found;
        }

        void Keep(SheetSolution found, Reduced behind)
        {
            var solution = trades ? SheetSolution.Of(behind.Core, found.Layouts) : found;
            var worth = trades ? OffcutWorth.Kept(problem, SheetExpansion.Expand(problem, behind, solution)) : 0;
            var gain = best is null ? 1 : best.Cost - kept - (solution.Cost - worth);
            if (gain > 0 || (gain == 0 && solution.IsBetterThan(best)))
                (best, used, kept) = (solution, behind, worth);
        }
    }

    private const long PaidSteps = 200_000;

    /// <summary>The lower bound that a plan's certificate proves for a problem, in exact arithmetic; null if it proves none.</summary>
    public static long? CheckBound(SheetProblem problem, SheetCertificate certificate)
    {
        if (Reduce(problem, Shape.Inside, []) is not { } inner || Reduce(problem, Shape.Bounding, []) is not { } plain
            || SheetProof.Bound(OffcutWorth.Beyond(problem, inner).Core, certificate) is not { } bound)
            return null;
        if (certificate.Sharing is { } sharing)
        {
            if (SharingProof.Bound(problem, OffcutWorth.Beyond(problem, plain), sharing) is not { } own)
                return null;
            bound = Math.Max(bound, own);
        }

        return bound + OffcutWorth.OfPieces(problem, plain);
    }

    /// <summary>What stands for a piece that is no rectangle.</summary>
    internal enum Shape
    {
        Bounding,
        Inside,
        Pairs,
    }

    /// <summary>A number of equal pieces or nested pairs.</summary>
    internal sealed record Lot(int Piece, int Count, TaperPairs.Pair? Pair);

    /// <summary>A problem with kerf, trim and equal pieces worked in.</summary>
    /// <param name="Kinds">The pieces behind each kind of the core.</param>
    /// <param name="StockOf">Stock index behind each stock of the core.</param>
    internal sealed record Reduced(SheetCore Core, Lot[][] Kinds, int[] StockOf)
    {
        public bool HasPairs => Kinds.Any(lots => lots.Any(l => l.Pair is not null));

        /// <summary>How many of each of the problem's pieces are planned; 0 for those that are left out. Holds where each piece stands for itself alone.</summary>
        public int[] Counts(int pieces)
        {
            var counts = new int[pieces];
            foreach (var lot in Kinds.SelectMany(lots => lots))
                counts[lot.Piece] = lot.Count;
            return counts;
        }
    }

    internal static Reduced? Reduce(SheetProblem problem, Shape shape, List<CuttingIssue> issues)
    {
        if (problem.Kerf is < 0 or > MostUnits)
        {
            issues.Add(new CuttingIssue(IssueKind.BadValue, "kerf", 0, "The kerf must not be negative."));
            return null;
        }

        var stock = new List<(int Index, int Width, int Height)>();
        for (var s = 0; s < problem.Stock.Count; s++)
        {
            var sheet = problem.Stock[s];
            var trim = sheet.Trim;
            var width = sheet.Width - trim.Left - trim.Right;
            var height = sheet.Height - trim.Bottom - trim.Top;
            if (sheet.Width is <= 0 or > MostUnits || sheet.Height is <= 0 or > MostUnits || width <= 0 || height <= 0 || sheet.Cost is < 0 or > 1L << 40 || sheet.Count < 0
                || trim.Left < 0 || trim.Right < 0 || trim.Bottom < 0 || trim.Top < 0)
                issues.Add(new CuttingIssue(IssueKind.BadValue, sheet.Id, 0, $"Stock {sheet.Id} has a size, trim, price or count that cannot be; it is left out."));
            else if (sheet.Count != 0)
                stock.Add((s, (int)(width + problem.Kerf), (int)(height + problem.Kerf)));
        }

        var kinds = new SortedDictionary<(long Width, long Height, bool Turn), List<Lot>>();
        var left = problem.Pieces.Select(p => p.Count).ToArray();
        if (shape == Shape.Pairs)
        {
            foreach (var pair in TaperPairs.Find(problem, p => IsSound(p) && Fits(p.Width, p.Height, p.MayTurn)))
            {
                if (!Fits(pair.Width, pair.Height, problem.Pieces[pair.First].MayTurn))
                    continue;
                left[pair.First] -= pair.Count;
                left[pair.Second] -= pair.Count;
                Add(pair.Width, pair.Height, problem.Pieces[pair.First].MayTurn, new Lot(pair.First, pair.Count, pair));
            }
        }

        long total = 0;
        for (var p = 0; p < problem.Pieces.Count; p++)
        {
            var piece = problem.Pieces[p];
            if (!IsSound(piece) || total + piece.Count > int.MaxValue)
            {
                issues.Add(new CuttingIssue(IssueKind.BadValue, piece.Id, piece.Count, $"Piece {piece.Id} has a size, count or outline that cannot be; it is left out."));
                continue;
            }

            if (!Fits(piece.Width, piece.Height, piece.MayTurn))
            {
                if (piece.Count > 0)
                    issues.Add(new CuttingIssue(IssueKind.FitsNoStock, piece.Id, piece.Count, $"Piece {piece.Id} is larger than every sheet."));
                continue;
            }

            total += piece.Count;
            if (left[p] <= 0)
                continue;
            foreach (var (w, h) in shape == Shape.Inside ? InnerRectangles.Of(piece, problem.Kerf) : [(piece.Width, piece.Height)])
                Add(w, h, piece.MayTurn, new Lot(p, left[p], null));
        }

        if (kinds.Count == 0)
            return null;
        var core = new SheetCore(
            [.. kinds.Keys.Select(k => (int)k.Width)], [.. kinds.Keys.Select(k => (int)k.Height)],
            [.. kinds.Values.Select(lots => lots.Sum(l => l.Count))], [.. kinds.Keys.Select(k => k.Turn)],
            [.. stock.Select(s => s.Width)], [.. stock.Select(s => s.Height)],
            [.. stock.Select(s => problem.Stock[s.Index].Cost)], [.. stock.Select(s => problem.Stock[s.Index].Count ?? -1)], problem.Guillotine);
        return new Reduced(core, [.. kinds.Values.Select(l => l.ToArray())], [.. stock.Select(s => s.Index)]);

        bool Fits(long width, long height, bool turn)
        {
            var (w, h) = (width + problem.Kerf, height + problem.Kerf);
            return stock.Exists(s => (w <= s.Width && h <= s.Height) || (turn && h <= s.Width && w <= s.Height));
        }

        void Add(long width, long height, bool turn, Lot lot)
        {
            var (w, h) = (width + problem.Kerf, height + problem.Kerf);
            // A piece that may turn is the same kind either way up.
            var key = turn && w < h ? (h, w, true) : (w, h, turn);
            if (!kinds.TryGetValue(key, out var list))
                kinds[key] = list = [];
            list.Add(lot);
        }
    }

    private static bool IsSound(SheetPiece piece) => piece.Width is > 0 and <= MostUnits && piece.Height is > 0 and <= MostUnits && piece.Count >= 0
        && piece.Outline?.All(c => c.X >= 0 && c.X <= piece.Width && c.Y >= 0 && c.Y <= piece.Height) != false;
}
