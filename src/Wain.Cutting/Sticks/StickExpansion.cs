namespace Wain.Cutting;

/// <summary>Turns bare patterns back into the caller's pieces: a pattern splits where one piece's count ends and the next begins.</summary>
internal sealed class StickExpansion
{
    private readonly StickProblem _problem;
    private readonly StickPlanner.Reduced _reduced;
    private readonly List<(int Piece, int Left)>[] _left;

    public StickExpansion(StickProblem problem, StickPlanner.Reduced reduced)
    {
        _problem = problem;
        _reduced = reduced;
        _left = [.. reduced.PiecesOfKind.Select(ps => ps.Select(p => (p, problem.Pieces[p].Count)).ToList())];
    }

    public IEnumerable<CutStick> Expand(StickPattern pattern)
    {
        var used = pattern.Parts.SelectMany(p => p).GroupBy(k => k).Select(g => (Kind: g.Key, Count: g.Count())).ToArray();
        for (var times = pattern.Times; times > 0;)
        {
            // As many sticks as the first piece of every kind allows; a stick that two pieces of a kind share is cut alone.
            var batch = times;
            foreach (var (kind, n) in used)
                batch = Math.Min(batch, _left[kind][0].Left / n);
            batch = Math.Max(1, batch);
            times -= batch;
            yield return Build(pattern, batch, [.. pattern.Parts.Select(part => part.Select(k => Take(k, batch)).ToArray())]);
        }
    }

    private int Take(int kind, int batch)
    {
        var (piece, n) = _left[kind][0];
        if (n <= batch)
            _left[kind].RemoveAt(0);
        else
            _left[kind][0] = (piece, n - batch);
        return piece;
    }

    private CutStick Build(StickPattern pattern, int times, int[][] parts)
    {
        var stock = _problem.Stock[_reduced.StockOf[pattern.Stock]];
        var placements = new List<StickPlacement>();
        var cuts = new List<StickCut>();
        var offcuts = new List<StickOffcut>();
        for (var g = 0; g < parts.Length; g++)
        {
            var (start, length) = _reduced.Clear[pattern.Stock][g];
            var rest = start;
            if (parts[g].Length > 0)
            {
                var laid = StickAngles.Arrange(_problem, parts[g]).ConvertAll(p => p with { From = p.From + start, To = p.To + start });
                placements.AddRange(laid);
                AddCuts(laid, start, stock.Length, cuts);
                rest = laid[^1].To + StickAngles.KerfAlong(_problem, RightRun(laid[^1]), _problem.Pieces[laid[^1].Piece].Depth);
            }

            if (start + length - rest >= Math.Max(1, _problem.SmallestOffcut))
                offcuts.Add(new StickOffcut(rest, start + length));
        }

        return new CutStick(_reduced.StockOf[pattern.Stock], times, placements, cuts, offcuts);
    }

    private void AddCuts(List<StickPlacement> laid, long start, long stockLength, List<StickCut> cuts)
    {
        for (var i = 0; i < laid.Count; i++)
        {
            var p = laid[i];
            var nested = i > 0 && p.From < laid[i - 1].To;
            var piece = _problem.Pieces[p.Piece];
            var leftRun = p.TurnedEnd ? piece.RightRun : piece.LeftRun;
            if ((leftRun > 0 && !nested) || (i == 0 && start > 0))
                cuts.Add(new StickCut(p.From, leftRun, true));
            if (p.To < stockLength || RightRun(p) > 0)
                cuts.Add(new StickCut(p.To, RightRun(p), false));
        }
    }

    private long RightRun(StickPlacement p) => p.TurnedEnd ? _problem.Pieces[p.Piece].LeftRun : _problem.Pieces[p.Piece].RightRun;
}
