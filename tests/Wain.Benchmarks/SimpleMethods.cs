using Wain.Cutting;

namespace Wain.Benchmarks;

/// <summary>What a person would do with a pencil: the yardstick beside the plans.</summary>
public static class SimpleMethods
{
    /// <summary>First-fit decreasing: each piece, longest first, on the first stick that has room. Cost of the sticks, for one stock length.</summary>
    public static double FirstFitDecreasing(StickProblem problem)
    {
        var rooms = new List<long>();
        foreach (var length in problem.Pieces.SelectMany(p => Enumerable.Repeat(p.Length + problem.Kerf, p.Count)).OrderDescending())
        {
            var i = rooms.FindIndex(r => r >= length);
            if (i < 0)
                rooms.Add(problem.Stock[0].Length + problem.Kerf - length);
            else
                rooms[i] -= length;
        }

        return rooms.Count * (double)problem.Stock[0].Cost;
    }

    /// <summary>Shelves by decreasing height, best fit, then sheets filled with shelves first fit; on the stock that comes out cheapest. Infinite if none holds all.</summary>
    public static double Shelves(SheetProblem problem)
    {
        var best = double.PositiveInfinity;
        foreach (var stock in problem.Stock)
        {
            var sheets = Shelves(problem, stock);
            if (sheets <= (stock.Count ?? int.MaxValue))
                best = Math.Min(best, sheets * (double)stock.Cost);
        }

        return best;
    }

    private static double Shelves(SheetProblem problem, StockSheet stock)
    {
        var (width, height) = (stock.Width + problem.Kerf, stock.Height + problem.Kerf);
        var shelves = new List<(long Height, long Room)>();
        var pieces = problem.Pieces.SelectMany(p => Enumerable.Repeat(Lie(p), p.Count)).OrderByDescending(p => p.Height).ThenByDescending(p => p.Width);
        foreach (var (w, h) in pieces)
        {
            if (w > width || h > height)
                return double.PositiveInfinity;
            var best = -1;
            for (var i = 0; i < shelves.Count; i++)
            {
                if (shelves[i].Room >= w && (best < 0 || shelves[i].Room < shelves[best].Room))
                    best = i;
            }

            if (best < 0)
                shelves.Add((h, width - w));
            else
                shelves[best] = (shelves[best].Height, shelves[best].Room - w);
        }

        var rooms = new List<long>();
        foreach (var (h, _) in shelves)
        {
            var i = rooms.FindIndex(r => r >= h);
            if (i < 0)
                rooms.Add(height - h);
            else
                rooms[i] -= h;
        }

        return rooms.Count;

        (long Width, long Height) Lie(SheetPiece p)
        {
            var (w, h) = (p.Width + problem.Kerf, p.Height + problem.Kerf);
            // Lying flat makes low shelves, if the piece may and the sheet is wide enough.
            return p.MayTurn && (w < h ? h <= width : w > width) ? (h, w) : (w, h);
        }
    }
}
