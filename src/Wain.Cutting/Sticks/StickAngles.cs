namespace Wain.Cutting;

/// <summary>Lays pieces with angled ends one after another, so that ends of the same lean share one cut.</summary>
internal static class StickAngles
{
    /// <summary>Width of a cut along the stick, for an end that leans by a run over the depth.</summary>
    public static long KerfAlong(StickProblem problem, long run) => run == 0 || problem.Kerf == 0 ? problem.Kerf
        : (long)Math.Ceiling(problem.Kerf * Math.Sqrt((double)problem.Depth * problem.Depth + (double)run * run) / problem.Depth - 1e-9);

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
                    if (next.LeftRun == run || next.RightRun == run)
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
                : share > 0 ? result[^1].To - share + KerfAlong(problem, share)
                : result[^1].To + Math.Max(KerfAlong(problem, run), KerfAlong(problem, leftRun));
            result.Add(new StickPlacement(index, from, from + piece.Length, turn, rolled));
            slope = leftSlope * opposed * (rolled ? -1 : 1);
            run = rightRun;
            rollable = CanShare(piece);
        }

        return result;
    }

    /// <summary>A piece so short that its ends overlap is left to stand alone.</summary>
    private static bool CanShare(StickPiece piece) => piece.MayRoll && piece.Length >= piece.LeftRun + piece.RightRun;
}
