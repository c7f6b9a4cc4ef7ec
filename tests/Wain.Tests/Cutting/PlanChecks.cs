using Wain.Cutting;

namespace Wain.Tests.Cutting;

/// <summary>Judges plans by the problem alone, with no code of the planner.</summary>
internal static class PlanChecks
{
    /// <summary>Every piece placed as often as asked, all inside clear stretches, a kerf apart; and the cost as stated.</summary>
    public static void IsWhole(StickProblem problem, StickPlan plan)
    {
        Assert.Empty(plan.Issues);
        var placed = new long[problem.Pieces.Count];
        foreach (var stick in plan.Sticks)
        {
            var stock = problem.Stock[stick.Stock];
            foreach (var p in stick.Pieces)
            {
                placed[p.Piece] += stick.Times;
                Assert.Equal(problem.Pieces[p.Piece].Length, p.To - p.From);
                Assert.True(p.From >= 0 && p.To <= stock.Length);
                Assert.DoesNotContain(stock.Faults ?? [], f => p.From < f.To && f.From < p.To);
            }

            foreach (var (a, b) in stick.Pieces.Zip(stick.Pieces.Skip(1)))
                Assert.True(b.From - a.To >= problem.Kerf - Math.Min(SharedRun(problem.Pieces[a.Piece], problem.Pieces[b.Piece]), problem.Pieces[b.Piece].Length + problem.Kerf));
        }

        Assert.Equal(problem.Pieces.Select(p => (long)p.Count), placed);
        Assert.Equal(plan.Cost, plan.Sticks.Sum(s => problem.Stock[s.Stock].Cost * s.Times));
        foreach (var used in plan.Sticks.GroupBy(s => s.Stock))
            Assert.True(used.Sum(s => (long)s.Times) <= (problem.Stock[used.Key].Count ?? long.MaxValue));
        Assert.True(plan.LowerBound <= plan.Cost);
        Assert.Equal(plan.Proven, plan.LowerBound == plan.Cost);
        Assert.Equal(plan.LowerBound, StickPlanner.CheckBound(problem, plan.Certificate!));
    }

    private static long SharedRun(StickPiece a, StickPiece b) =>
        new[] { a.LeftRun, a.RightRun }.Intersect([b.LeftRun, b.RightRun]).DefaultIfEmpty(0).Max();

    /// <summary>Every piece placed as often as asked, inside the trimmed sheet, a kerf apart, turned only where it may be; and the cost as stated.</summary>
    public static void IsWhole(SheetProblem problem, SheetPlan plan)
    {
        Assert.Empty(plan.Issues);
        var placed = new long[problem.Pieces.Count];
        foreach (var sheet in plan.Sheets)
        {
            var stock = problem.Stock[sheet.Stock];
            foreach (var p in sheet.Pieces)
            {
                var piece = problem.Pieces[p.Piece];
                placed[p.Piece] += sheet.Times;
                Assert.Equal(p.Turned ? (piece.Height, piece.Width) : (piece.Width, piece.Height), (p.Width, p.Height));
                Assert.True(piece.MayTurn || !p.Turned);
                Assert.True(p.X >= stock.Trim.Left && p.Y >= stock.Trim.Bottom);
                Assert.True(p.X + p.Width <= stock.Width - stock.Trim.Right && p.Y + p.Height <= stock.Height - stock.Trim.Top);
            }

            for (var i = 0; i < sheet.Pieces.Count; i++)
            {
                for (var j = 0; j < i; j++)
                {
                    var (a, b) = (sheet.Pieces[i], sheet.Pieces[j]);
                    Assert.True(a.X + a.Width + problem.Kerf <= b.X || b.X + b.Width + problem.Kerf <= a.X
                        || a.Y + a.Height + problem.Kerf <= b.Y || b.Y + b.Height + problem.Kerf <= a.Y);
                }
            }

            if (problem.Guillotine)
                Assert.True(IsGuillotine([.. sheet.Pieces.Select(p => (p.X, p.Y, p.X + p.Width + problem.Kerf, p.Y + p.Height + problem.Kerf))]));
        }

        Assert.Equal(problem.Pieces.Select(p => (long)p.Count), placed);
        Assert.Equal(plan.Cost, plan.Sheets.Sum(s => problem.Stock[s.Stock].Cost * s.Times));
        foreach (var used in plan.Sheets.GroupBy(s => s.Stock))
            Assert.True(used.Sum(s => (long)s.Times) <= (problem.Stock[used.Key].Count ?? long.MaxValue));
        Assert.True(plan.LowerBound <= plan.Cost - plan.Kept);
        Assert.Equal(plan.Proven, plan.LowerBound == plan.Cost - plan.Kept);
        Assert.Equal(plan.LowerBound, SheetPlanner.CheckBound(problem, plan.Certificate!));
    }

    /// <summary>Whether cuts from edge to edge free every rectangle. Any valid cut may be made first: it never spoils the others.</summary>
    public static bool IsGuillotine(IReadOnlyList<(long X1, long Y1, long X2, long Y2)> parts)
    {
        if (parts.Count <= 1)
            return true;
        foreach (var upright in new[] { true, false })
        {
            var sorted = parts.OrderBy(p => upright ? p.X1 : p.Y1).ToList();
            var end = long.MinValue;
            for (var i = 0; i < sorted.Count; i++)
            {
                if (i > 0 && (upright ? sorted[i].X1 : sorted[i].Y1) >= end)
                    return IsGuillotine(sorted[..i]) && IsGuillotine(sorted[i..]);
                end = Math.Max(end, upright ? sorted[i].X2 : sorted[i].Y2);
            }
        }

        return false;
    }
}
