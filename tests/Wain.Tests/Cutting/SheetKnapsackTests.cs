using Wain.Cutting;

namespace Wain.Tests.Cutting;

/// <summary>The best filling of one sheet, against a plain recursion over every cut (independent method).</summary>
public sealed class SheetKnapsackTests
{
    [Fact]
    public void With_plenty_of_every_kind_it_is_worth_what_trying_every_cut_finds()
    {
        var random = new Random(3);
        for (var n = 0; n < 200; n++)
        {
            var (core, worth) = Problem(random, plenty: true);
            var knapsack = SheetKnapsack.For(core)!;
            long work = 0;
            knapsack.Solve(core.Demand, worth, ref work);
            for (var s = 0; s < core.Stocks; s++)
                Assert.Equal(Best(core, worth, core.StockWidth[s], core.StockHeight[s], []), knapsack.Value(s), 9);
        }
    }

    [Fact]
    public void It_lays_what_it_counts_and_no_more_of_a_kind_than_is_wanted()
    {
        var random = new Random(4);
        var limited = 0;
        for (var n = 0; n < 300; n++)
        {
            var (core, worth) = Problem(random, plenty: false);
            var knapsack = SheetKnapsack.For(core)!;
            long work = 0;
            var wanted = core.Demand.Select(d => random.Next(d + 1)).ToArray();
            knapsack.Solve(wanted, worth, ref work);
            for (var s = 0; s < core.Stocks; s++)
            {
                var tree = new GuillotineTree();
                tree.Reset(s, core.StockWidth[s], core.StockHeight[s]);
                var left = (int[])wanted.Clone();
                knapsack.Lay(tree, left);
                Assert.DoesNotContain(left, l => l < 0);
                var placed = tree.Layout().Pieces;
                Assert.Equal(wanted.Sum() - left.Sum(), placed.Length);
                Assert.Equal(placed.Sum(p => worth[p.Kind]), knapsack.Value(s), 9);
                foreach (var p in placed)
                {
                    Assert.True(p.X >= 0 && p.Y >= 0 && p.X + p.Width <= core.StockWidth[s] && p.Y + p.Height <= core.StockHeight[s]);
                    Assert.True((p.Width, p.Height) == (core.Width[p.Kind], core.Height[p.Kind]) || (core.MayTurn[p.Kind] && (p.Height, p.Width) == (core.Width[p.Kind], core.Height[p.Kind])));
                    Assert.DoesNotContain(placed, q => q != p && p.X < q.X + q.Width && q.X < p.X + p.Width && p.Y < q.Y + q.Height && q.Y < p.Y + p.Height);
                }

                var unlimited = Best(core, worth, core.StockWidth[s], core.StockHeight[s], []);
                Assert.True(knapsack.Value(s) <= unlimited + 1e-9);
                limited += knapsack.Value(s) < unlimited - 1e-9 ? 1 : 0;
            }
        }

        // The limits must have mattered, or nothing was tested.
        Assert.InRange(limited, 50, int.MaxValue);
    }

    [Fact]
    public void A_sheet_that_can_be_filled_in_too_many_ways_is_left_to_others()
    {
        var core = new SheetCore([7, 11], [5, 13], [1, 1], [true, true], [4000], [3000], [1], [-1], true);
        Assert.Null(SheetKnapsack.For(core));
    }

    private static (SheetCore Core, double[] Worth) Problem(Random random, bool plenty)
    {
        var kinds = random.Next(1, 6);
        var stocks = random.Next(1, 4);
        int[] Numbers(int n, int from, int to) => [.. Enumerable.Range(0, n).Select(_ => random.Next(from, to))];
        var core = new SheetCore(Numbers(kinds, 1, 8), Numbers(kinds, 1, 8), plenty ? [.. Enumerable.Repeat(500, kinds)] : Numbers(kinds, 1, 4),
            [.. Enumerable.Range(0, kinds).Select(_ => random.Next(2) == 0)], Numbers(stocks, 3, 14), Numbers(stocks, 3, 14), [.. Enumerable.Repeat(1L, stocks)],
            [.. Enumerable.Repeat(-1, stocks)], true);
        return (core, [.. Enumerable.Range(0, kinds).Select(k => core.Area(k) * (0.5 + random.NextDouble()))]);
    }

    private static double Best(SheetCore core, double[] worth, int width, int height, Dictionary<(int, int), double> known)
    {
        if (known.TryGetValue((width, height), out var best))
            return best;
        for (var k = 0; k < core.Kinds; k++)
        {
            if ((core.Width[k] <= width && core.Height[k] <= height) || (core.MayTurn[k] && core.Height[k] <= width && core.Width[k] <= height))
                best = Math.Max(best, worth[k]);
        }

        for (var cut = 1; cut < width; cut++)
            best = Math.Max(best, Best(core, worth, cut, height, known) + Best(core, worth, width - cut, height, known));
        for (var cut = 1; cut < height; cut++)
            best = Math.Max(best, Best(core, worth, width, cut, known) + Best(core, worth, width, height - cut, known));
        return known[(width, height)] = best;
    }
}
