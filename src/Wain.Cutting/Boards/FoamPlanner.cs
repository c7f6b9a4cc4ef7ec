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

/// <summary>The proof that the pieces of one thickness take so many layers.</summary>
public sealed record LayerCertificate(long Thickness, SheetCertificate Layers);

/// <summary>The proof of a lower bound of cost for foam boards of one face: how many layers of each thickness it takes at least, and what it costs at least to rip these.</summary>
public sealed record FoamCertificate(IReadOnlyList<LayerCertificate> Layers, StickCertificate Rip);

/// <summary>A plan for foam.</summary>
/// <param name="LowerBound">No plan costs less: the fewest layers of each thickness, ripped at least cost.</param>
/// <param name="Certificate">From this <see cref="FoamPlanner.CheckBound"/> re-derives the bound; null with several faces, where the bound is by volume and needs none.</param>
public sealed record FoamPlan(
    IReadOnlyList<RippedBoard> Boards, IReadOnlyList<FoamLayer> Layers, long Cost, long LowerBound, bool Proven, FoamCertificate? Certificate, IReadOnlyList<CuttingIssue> Issues);

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
            return new FoamPlan([], [], 0, 0, false, null, [new CuttingIssue(IssueKind.BadValue, "stock", 0, "There is no foam board with a size.")]);
        foreach (var (width, height) in faces)
        {
            var plan = OnFace(problem, width, height, budget);
            if (best is null || plan.Issues.Count < best.Issues.Count || (plan.Issues.Count == best.Issues.Count && plan.Cost < best.Cost))
                best = plan;
        }

        var bound = faces.Length == 1 ? best!.LowerBound : best!.Issues.Count > 0 ? 0 : VolumeBound(problem);
        return best! with { LowerBound = bound, Proven = best.Issues.Count == 0 && best.Cost == bound, Certificate = faces.Length == 1 ? best.Certificate : null };
    }

    /// <summary>The lower bound that a plan's certificate proves for a problem, in exact arithmetic; null if it proves none. Without one, the bound by volume.</summary>
    public static long? CheckBound(FoamProblem problem, FoamCertificate? certificate)
    {
        var faces = problem.Stock.Where(b => b.Width > 0 && b.Height > 0 && b.Thickness > 0).Select(b => (b.Width, b.Height)).Distinct().ToArray();
        if (faces.Length == 0)
            return null;
        if (certificate is null)
            return VolumeBound(problem);
        if (faces.Length > 1)
            return null;
        var needed = new List<(long Thickness, long Least)>();
        foreach (var group in Thicknesses(problem))
        {
            if (certificate.Layers.FirstOrDefault(l => l.Thickness == group.Key) is not { } proof || SheetPlanner.CheckBound(Layer(problem, group, faces[0].Width, faces[0].Height), proof.Layers) is not { } least)
                return null;
            needed.Add((group.Key, least));
        }

        return StickPlanner.CheckBound(Rip(problem, [.. Enumerable.Range(0, problem.Stock.Count)], needed), certificate.Rip);
    }

    private static IEnumerable<IGrouping<long, int>> Thicknesses(FoamProblem problem) =>
        Enumerable.Range(0, problem.Pieces.Count).GroupBy(p => problem.Pieces[p].Thickness).Where(g => g.Key > 0).OrderBy(g => g.Key);

    private static SheetProblem Layer(FoamProblem problem, IEnumerable<int> pieces, long width, long height) => new(
        [new StockSheet("layer", width, height, 1)],
        [.. pieces.Select(p => problem.Pieces[p]).Select(p => new SheetPiece(p.Id, p.Width, p.Height, p.Count, p.MayTurn))],
        problem.Kerf, problem.Guillotine, problem.Offcuts);

    private static StickProblem Rip(FoamProblem problem, int[] boards, IEnumerable<(long Thickness, long Layers)> needed) => new(
        [.. boards.Select(b => problem.Stock[b]).Select(b => new StockStick(b.Id, b.Thickness, b.Cost, b.Count))],
        [.. needed.Select(n => new StickPiece($"layer {n.Thickness}", n.Thickness, (int)Math.Min(int.MaxValue, n.Layers)))], problem.RipKerf);

    /// <summary>Foam is never cheaper than by the board that costs least for its volume.</summary>
    private static long VolumeBound(FoamProblem problem)
    {
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
        var proofs = new List<LayerCertificate>();
        issues.AddRange(problem.Pieces.Where(p => p.Thickness <= 0).Select(p => new CuttingIssue(IssueKind.BadValue, p.Id, p.Count, $"Piece {p.Id} has no thickness.")));
        foreach (var group in Thicknesses(problem))
        {
            var pieces = group.ToArray();
            var layer = Layer(problem, pieces, width, height);
            var nest = SheetPlanner.Plan(layer, budget.Part(LayerSteps));
            issues.AddRange(nest.Issues);
            foreach (var sheet in nest.Sheets)
                layers.Add(new FoamLayer(group.Key, sheet with { Pieces = [.. sheet.Pieces.Select(p => p with { Piece = pieces[p.Piece] })] }));
            if (nest.Certificate is null)
                continue;
            proofs.Add(new LayerCertificate(group.Key, nest.Certificate));
            needed.Add((group.Key, nest.SheetCount, SheetPlanner.CheckBound(layer, nest.Certificate) ?? 0));
        }

        var rip = StickPlanner.Plan(Rip(problem, boards, needed.Select(n => (n.Thickness, n.Layers))), budget.Part(LayerSteps));
        issues.AddRange(rip.Issues);
        var least = needed.TrueForAll(n => n.Layers == n.Least) ? rip
            : StickPlanner.Plan(Rip(problem, boards, needed.Select(n => (n.Thickness, n.Least))), budget.Part(LayerSteps));
        var ripped = rip.Sticks.Select(s => new RippedBoard(boards[s.Stock], s.Times, [.. s.Pieces.Select(p => needed[p.Piece].Thickness)], s.Offcuts.Select(o => o.Length).DefaultIfEmpty().Max()));
        return new FoamPlan([.. ripped], layers, rip.Cost, least.LowerBound, issues.Count == 0 && rip.Cost == least.LowerBound,
            least.Certificate is { } certificate ? new FoamCertificate(proofs, certificate) : null, issues);
    }

    private const long LayerSteps = 400_000;
}
