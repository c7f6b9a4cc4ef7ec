namespace Wain.Cutting;

/// <summary>A foam board of a thickness, that can be ripped into thinner ones of the same face.</summary>
/// <param name="Thickness">In the problem's unit.</param>
public sealed record StockBoard(string Id, long Width, long Height, long Thickness, long Cost, int? Count = null);

/// <summary>A piece of a thickness.</summary>
public sealed record FoamPiece(string Id, long Width, long Height, long Thickness, int Count = 1, bool MayTurn = true);

/// <summary>Pieces to cut from boards that are first ripped to thickness.</summary>
/// <param name="Kerf">Width of a cut across the face.</param>
/// <param name="RipKerf">What a rip takes from the thickness.</param>
public sealed record FoamProblem(IReadOnlyList<StockBoard> Stock, IReadOnlyList<FoamPiece> Pieces, long Kerf, long RipKerf, bool Guillotine = true, OffcutRule Offcuts = default);

/// <summary>A layer of a board: pieces of its thickness laid out on it.</summary>
/// <param name="Sheet">Its layout; the pieces' indexes are those of the problem.</param>
public sealed record FoamLayer(long Thickness, CutSheet Sheet);

/// <summary>A board as it is ripped.</summary>
/// <param name="Board">Index into the problem's stock.</param>
/// <param name="Layers">Thicknesses in order of ripping, from one face.</param>
/// <param name="Left">Thickness of the whole board that is left over, 0 if none.</param>
public sealed record RippedBoard(int Board, int Times, IReadOnlyList<long> Layers, long Left);

/// <summary>A plan for foam.</summary>
/// <param name="LowerBound">No plan costs less: the fewest layers of each thickness, ripped at least cost.</param>
public sealed record FoamPlan(IReadOnlyList<RippedBoard> Boards, IReadOnlyList<FoamLayer> Layers, long Cost, long LowerBound, bool Proven, IReadOnlyList<CuttingIssue> Issues);

/// <summary>
/// Plans foam in two stages: pieces of one thickness are laid out on layers of the board's face, then the layers are ripped from boards as pieces are cut
/// from sticks, the thickness being the length. Each face size is planned alone and the cheapest whole plan is taken; with one face size the
/// bound is exact, with several it is the bound by volume.
/// </summary>
public static class FoamPlanner
{
    public static FoamPlan Plan(FoamProblem problem, StepBudget budget)
    {
        FoamPlan? best = null;
        var faces = problem.Stock.Where(b => b.Width > 0 && b.Height > 0 && b.Thickness > 0).Select(b => (b.Width, b.Height)).Distinct().ToArray();
        if (faces.Length == 0)
            return new FoamPlan([], [], 0, 0, false, [new CuttingIssue(IssueKind.BadValue, "stock", 0, "There is no foam board with a size.")]);
        foreach (var (width, height) in faces)
        {
            var plan = OnFace(problem, width, height, budget);
            if (best is null || plan.Issues.Count < best.Issues.Count || (plan.Issues.Count == best.Issues.Count && plan.Cost < best.Cost))
                best = plan;
        }

        var bound = faces.Length == 1 ? best!.LowerBound : VolumeBound(problem, best!);
        return best! with { LowerBound = bound, Proven = best.Issues.Count == 0 && best.Cost == bound };
    }

    /// <summary>Foam is never cheaper than by the board that costs least for its volume. 0 where some pieces could not be placed.</summary>
    private static long VolumeBound(FoamProblem problem, FoamPlan plan)
    {
        if (plan.Issues.Count > 0)
            return 0;
        var volume = problem.Pieces.Sum(p => (decimal)p.Width * p.Height * p.Thickness * p.Count);
        var sound = problem.Stock.Where(b => b.Width > 0 && b.Height > 0 && b.Thickness > 0 && b.Cost >= 0 && b.Count != 0);
        // Truncated, so that rounding cannot raise the bound above what holds.
        return sound.Min(b => (long)Math.Truncate(volume * b.Cost / ((decimal)b.Width * b.Height * b.Thickness)));
    }

    private static FoamPlan OnFace(FoamProblem problem, long width, long height, StepBudget budget)
    {
        var issues = new List<CuttingIssue>();
        var layers = new List<FoamLayer>();
        var boards = Enumerable.Range(0, problem.Stock.Count).Where(b => problem.Stock[b].Width == width && problem.Stock[b].Height == height).ToArray();
        var needed = new List<(long Thickness, long Layers, long Least)>();
        foreach (var group in Enumerable.Range(0, problem.Pieces.Count).GroupBy(p => problem.Pieces[p].Thickness).OrderBy(g => g.Key))
        {
            var pieces = group.ToArray();
            if (group.Key <= 0)
            {
                issues.AddRange(pieces.Select(p => new CuttingIssue(IssueKind.BadValue, problem.Pieces[p].Id, problem.Pieces[p].Count, $"Piece {problem.Pieces[p].Id} has no thickness.")));
                continue;
            }

            var nest = SheetPlanner.Plan(new SheetProblem(
                [new StockSheet("layer", width, height, 1)],
                [.. pieces.Select(p => problem.Pieces[p]).Select(p => new SheetPiece(p.Id, p.Width, p.Height, p.Count, p.MayTurn))],
                problem.Kerf, problem.Guillotine, problem.Offcuts), budget.Part(LayerSteps));
            issues.AddRange(nest.Issues);
            foreach (var sheet in nest.Sheets)
                layers.Add(new FoamLayer(group.Key, sheet with { Pieces = [.. sheet.Pieces.Select(p => p with { Piece = pieces[p.Piece] })] }));
            if (nest.SheetCount > 0)
                needed.Add((group.Key, nest.SheetCount, nest.LowerBound));
        }

        var sticks = new StickProblem(
            [.. boards.Select(b => problem.Stock[b]).Select(b => new StockStick(b.Id, b.Thickness, b.Cost, b.Count))],
            [.. needed.Select(n => new StickPiece($"layer {n.Thickness}", n.Thickness, (int)Math.Min(int.MaxValue, n.Layers)))], problem.RipKerf);
        var rip = StickPlanner.Plan(sticks, budget.Part(LayerSteps));
        issues.AddRange(rip.Issues);
        var least = needed.TrueForAll(n => n.Layers == n.Least) ? rip.LowerBound
            : StickPlanner.Plan(sticks with { Pieces = [.. sticks.Pieces.Zip(needed, (p, n) => p with { Count = (int)n.Least })] }, budget.Part(LayerSteps)).LowerBound;
        var ripped = rip.Sticks.Select(s => new RippedBoard(boards[s.Stock], s.Times, [.. s.Pieces.Select(p => needed[p.Piece].Thickness)], s.Offcuts.Select(o => o.Length).DefaultIfEmpty().Max()));
        return new FoamPlan([.. ripped], layers, rip.Cost, least, issues.Count == 0 && rip.Cost == least, issues);
    }

    private const long LayerSteps = 400_000;
}
