namespace Wain.Cutting;

/// <summary>Lays pieces with angled ends one after another, so that ends of the same lean share one cut.</summary>
internal static class StickAngles
{
    /// <summary>Width of a cut along the stick, for an end that leans by a run over the piece's depth.</summary>
    public static long KerfAlong(StickProblem problem, long run, long depth) => run == 0 || problem.Kerf == 0 ? problem.Kerf
        : (long)Math.Ceiling(problem.Kerf * Math.Sqrt((double)depth * depth + (double)run * run) / depth - 1e-9);

    /// <summary>
    /// Kerf that a piece takes along with its length where no ends nest. Two ends stand apart by the wider of their cuts, which is no more than a square cut and what
    /// each is wider than that; so pieces that fit with these can be cut in any order.
    /// </summary>
    public static long KerfApart(StickProblem problem, StickPiece piece) => KerfAlong(problem, piece.LeftRun, piece.Depth) + KerfAlong(problem, piece.RightRun, piece.Depth) - problem.Kerf;

    /// <summary>
    /// What each piece can share at most at its two ends together. Two ends that nest share no more than the shorter of their runs, and only if one stretch holds both pieces;
    /// if each gives half of the most that it could share with any other, no two give less than they share.
    /// </summary>
    /// <param name="longest">The longest clear stretch.</param>
    public static long[] MostShared(StickProblem problem, long longest)
    {
        var ends = Enumerable.Range(0, problem.Pieces.Count).Where(p => problem.Pieces[p].MayRoll && problem.Pieces[p].Count > 0)
            .SelectMany(p => new[] { problem.Pieces[p].LeftRun, problem.Pieces[p].RightRun }.Where(run => run > 0).Distinct().Select(run => (Piece: p, Run: run))).ToArray();
        return [.. problem.Pieces.Select((piece, p) => piece.MayRoll ? Most(p, piece.LeftRun) + Most(p, piece.RightRun) : 0)];

        long Most(int p, long run)
        {
            if (ends.Length > MostEnds)
                return run;
            long most = 0;
            foreach (var end in run > 0 ? ends : [])
            {
                var share = Math.Min(run, end.Run);
                if (share > most && (end.Piece != p || problem.Pieces[p].Count > 1) && problem.Pieces[p].Length + problem.Pieces[end.Piece].Length - share + problem.Kerf <= longest)
                    most = share;
            }

            return most;
        }
    }

    /// <summary>Of more ends not every two are looked at.</summary>
    private const int MostEnds = 3000;

    public static bool HasAngles(StickProblem problem) => problem.Pieces.Any(p => p.LeftRun > 0 || p.RightRun > 0);

    /// <summary>A sequence as short as a greedy search from several first pieces finds, starting at 0. Without angles the order stays.</summary>
    public static List<StickPlacement> Arrange(StickProblem problem, IReadOnlyList<int> pieces)
    {
        if (!pieces.Any(p => problem.Pieces[p].LeftRun > 0 || problem.Pieces[p].RightRun > 0))
            return Follow(problem, pieces, -1, false);
        List<StickPlacement>? best = null;
        foreach (var first in pieces.Distinct().Take(12))
        {
            foreach (var turned in new[] { false, true })
            {
                var tried = Follow(problem, pieces, first, turned);
                if (best is null || tried[^1].To < best[^1].To)
                    best = tried;
            }
        }

        return best!;
    }

    private static List<StickPlacement> Follow(StickProblem problem, IReadOnlyList<int> pieces, int first, bool turned)
    {
        var left = pieces.ToList();
        var result = new List<StickPlacement>();
        var slope = 1;      // of the last right end, +1 or -1
        long run = 0;       // of the last right end
        long depth = 0;     // of the last piece
        var rollable = false;
        while (left.Count > 0)
        {
            var (pick, turn, share) = (0, false, 0L);
            if (result.Count == 0 && first >= 0)
                (pick, turn) = (left.IndexOf(first), turned);
            else if (rollable && run > 0)
            {
                for (var i = 0; i < left.Count && share == 0; i++)
                {
                    var next = problem.Pieces[left[i]];
                    if (!CanShare(next))
                        continue;
                    if (next.Depth == depth && (next.LeftRun == run || next.RightRun == run))
                        (pick, turn, share) = (i, next.LeftRun != run, run);
                }
            }

            var index = left[pick];
            var piece = problem.Pieces[index];
            left.RemoveAt(pick);
            var (leftRun, rightRun) = turn ? (piece.RightRun, piece.LeftRun) : (piece.LeftRun, piece.RightRun);
            // Turning in the plane keeps the lean of both ends and exchanges them; rolling reverses both.
            var opposed = piece.RunsOpposed ? -1 : 1;
            var leftSlope = turn ? opposed : 1;
            var rolled = share > 0 && leftSlope != slope;
            var from = result.Count == 0 ? 0
                : share > 0 ? result[^1].To - share + KerfAlong(problem, share, depth)
                : result[^1].To + Math.Max(KerfAlong(problem, run, depth), KerfAlong(problem, leftRun, piece.Depth));
            result.Add(new StickPlacement(index, from, from + piece.Length, turn, rolled));
            slope = leftSlope * opposed * (rolled ? -1 : 1);
            (run, depth) = (rightRun, piece.Depth);
            rollable = CanShare(piece);
        }

        return result;
    }

    /// <summary>A piece so short that its ends overlap is left to stand alone.</summary>
    private static bool CanShare(StickPiece piece) => piece.MayRoll && piece.Length >= piece.LeftRun + piece.RightRun;
}
