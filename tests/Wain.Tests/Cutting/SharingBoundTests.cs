using CsCheck;
using Wain.Cutting;

namespace Wain.Tests.Cutting;

/// <summary>The bound by pieces that keep each other off a sheet: never above what trying everything finds, and not believed where two could share. All figures are our own.</summary>
public sealed class SharingBoundTests
{
    /// <summary>One to three stocks of up to 7 by 7, some limited, some free, and up to six pieces, more of them large than small.</summary>
    private static readonly Gen<SheetProblem> Tiny =
        from kerf in Gen.Long[0, 1]
        from stock in Gen.Select(Gen.Long[3, 7], Gen.Long[3, 7], Gen.Long[0, 9], Gen.Int[0, 2]).Array[0, 2]
        from whole in Gen.Select(Gen.Long[4, 7], Gen.Long[4, 7], Gen.Long[1, 9])
        from pieces in Gen.Select(Gen.Long[1, 6], Gen.Long[1, 6], Gen.Int[1, 2], Gen.Bool).Array[1, 4]
        select new SheetProblem(
            [new StockSheet("whole", whole.Item1, whole.Item2, whole.Item3), .. stock.Select((s, i) => new StockSheet($"s{i}", s.Item1, s.Item2, s.Item3, s.Item4 == 0 ? 1 : s.Item4))],
            [.. pieces.Select((p, i) => new SheetPiece($"p{i}", Math.Min(p.Item1, whole.Item1), Math.Min(p.Item2, whole.Item2), p.Item3, p.Item4))], kerf, false);

    private static readonly Gen<SheetProblem> Tapers =
        from problem in Tiny
        from cut in Gen.Select(Gen.Long[1, 3], Gen.Long[0, 2]).Array[4]
        select problem with
        {
            Pieces = [.. problem.Pieces.Select((p, i) => p.Width <= cut[i].Item1 + cut[i].Item2 ? p : p with
            {
                Outline = [new(0, 0), new(p.Width, 0), new(p.Width - cut[i].Item1, p.Height), new(cut[i].Item2, p.Height)],
            })],
        };

    [Fact]
    public void The_bound_is_never_above_the_optimum_of_rectangles() => Check(Tiny, 3000, 150);

    [Fact]
    public void The_bound_is_never_above_the_optimum_of_tapers() => Check(Tapers, 1500, 30);

    /// <param name="least">In so many problems at least it lies above the bound by the prices of widths and heights, so that it is tried where it counts.</param>
    private static void Check(Gen<SheetProblem> problems, int tries, int least)
    {
        var higher = 0;
        problems.Sample(problem =>
        {
            var optimum = Optimum(problem);
            var plain = SheetPlanner.Reduce(problem, SheetPlanner.Shape.Bounding, [])!;
            var plan = SheetPlanner.Plan(problem, new StepBudget(2_000));
            Assert.True(plan.LowerBound <= optimum, $"{plan.LowerBound} above {optimum}");
            Assert.True(plan.Issues.Count > 0 || plan.Cost >= optimum, $"planned at {plan.Cost}, tried at {optimum}");
            Assert.Equal(plan.LowerBound, SheetPlanner.CheckBound(problem, plan.Certificate!));
            if (new SharingBound(problem, plain, new StepBudget(2_000)).Best is not { } best)
                return;
            Assert.True(best.Bound <= optimum, $"{best.Bound} above {optimum}");
            Assert.Equal(best.Bound, SharingProof.Bound(problem, plain, best.Prices));
            if (best.Bound > SheetPlanner.CheckBound(problem, plan.Certificate! with { Sharing = null }))
                Interlocked.Increment(ref higher);
        }, iter: tries);
        Assert.True(higher >= least, $"higher in {higher}");
    }

    [Fact]
    public void Wide_and_tall_pieces_that_fit_no_sheet_together_are_counted()
    {
        // Two wide ones share a sheet of 10 by 10, two tall ones do, a wide and a tall one never: four sheets for four of each, where the area fills not quite three.
        var walls = new SheetProblem([new StockSheet("s", 10, 10, 3)], [new SheetPiece("wide", 9, 4, 4, false), new SheetPiece("tall", 4, 9, 4, false)], 0, true);
        var plan = SheetPlanner.Plan(walls, new StepBudget(20_000));
        Assert.Equal((12, 12, true), (plan.Cost, plan.LowerBound, plan.Proven));
        var plain = SheetPlanner.Reduce(walls, SheetPlanner.Shape.Bounding, [])!;
        Assert.Equal(12, new SharingBound(walls, plain, new StepBudget(2_000)).Best!.Value.Bound);
    }

    [Fact]
    public void Of_three_each_pair_may_go_together_and_not_all_three()
    {
        // Planks of 4 by 7: two fill 8 of 10, three need 12, and above them there is no room; so five need three sheets, though their area is that of 1.4.
        var planks = new SheetProblem([new StockSheet("s", 10, 10, 3)], [new SheetPiece("p", 4, 7, 5)], 0, true);
        var plain = SheetPlanner.Reduce(planks, SheetPlanner.Shape.Bounding, [])!;
        Assert.Equal(9, new SharingBound(planks, plain, new StepBudget(2_000)).Best!.Value.Bound);
    }

    [Fact]
    public void A_free_offcut_takes_one_piece_off_the_bill()
    {
        // Four squares of 6 on sheets of 10 need four sheets; one lies on the offcut, which is free, and a second offcut is too small for any.
        var squares = new SheetProblem([new StockSheet("s", 10, 10, 3), new StockSheet("o", 6, 7, 0, 1, true), new StockSheet("t", 5, 9, 0, 4, true)], [new SheetPiece("p", 6, 6, 4)], 0, true);
        var plain = SheetPlanner.Reduce(squares, SheetPlanner.Shape.Bounding, [])!;
        Assert.Equal(9, new SharingBound(squares, plain, new StepBudget(2_000)).Best!.Value.Bound);
    }

    [Fact]
    public void A_set_in_which_two_could_share_a_sheet_proves_nothing()
    {
        var squares = new SheetProblem([new StockSheet("s", 10, 10, 3)], [new SheetPiece("a", 6, 6), new SheetPiece("b", 6, 5), new SheetPiece("c", 6, 4), new SheetPiece("d", 20, 1)], 0, true);
        var plain = SheetPlanner.Reduce(squares, SheetPlanner.Shape.Bounding, [])!;
        // 6 by 6 and 6 by 5 add up to 11; 6 by 4 goes above either.
        Assert.Equal(6, Bound([0, 1], [1, 1]));
        Assert.Null(Bound([0, 1, 2], [1, 1, 1]));
        Assert.Null(Bound([0, 2], [1, 1]));
        Assert.Null(Bound([0, 1], [2, 2]));
        // What is no piece, one twice, one that fits nothing, prices without pieces, and values that are none.
        Assert.Null(Bound([0, 9], [1, 1]));
        Assert.Null(Bound([0, 0], [1, 1]));
        Assert.Null(Bound([0, -1], [1, 1]));
        Assert.Null(Bound([0, 3], [1, 1]));
        Assert.Null(Bound([0], [1, 1]));
        Assert.Null(Bound([0], [-1]));
        Assert.Null(Bound([0], [long.MaxValue]));
        Assert.Null(SharingProof.Bound(squares, plain, new SharingPrices([0, 1], [1, 1], 3, 0)));
        Assert.Null(SharingProof.Bound(squares, plain, new SharingPrices([0, 1], [1, 1], -3, 1)));

        long? Bound(int[] pieces, long[] prices) => SharingProof.Bound(squares, plain, new SharingPrices(pieces, prices, 3, 1));
    }

    [Fact]
    public void A_thousand_of_a_kind_and_hundreds_of_kinds_take_little_work()
    {
        var random = new FixedRandom(7);
        var many = new SheetProblem([new StockSheet("s", 1000, 1000, 3)], [.. Enumerable.Range(0, 400).Select(i => new SheetPiece($"p{i}", 100 + random.Below(600), 100 + random.Below(600), 1 + random.Below(9)))], 3, true);
        var thousand = new SheetProblem([new StockSheet("s", 1000, 1000, 3)], [new SheetPiece("p", 300, 200, 1000)], 3, true);
        foreach (var problem in new[] { many, thousand })
        {
            var budget = new StepBudget(1_000_000);
            var plain = SheetPlanner.Reduce(problem, SheetPlanner.Shape.Bounding, [])!;
            if (new SharingBound(problem, plain, budget).Best is { } best)
                Assert.Equal(best.Bound, SharingProof.Bound(problem, plain, best.Prices));
            Assert.InRange(budget.StepsDone, 0, 50_000);
        }
    }

    /// <summary>The least cost of all ways to nest tapers, share blocks out to sheets and place them at whole measures.</summary>
    private static long Optimum(SheetProblem problem)
    {
        var pieces = problem.Pieces.SelectMany(p => Enumerable.Repeat(p with { Count = 1 }, p.Count)).ToArray();
        return Nested([], pieces);

        long Nested(List<(long Width, long Height, bool Turn)> blocks, SheetPiece[] left)
        {
            if (left.Length == 0)
                return Cheapest(problem, blocks);
            var best = Nested([.. blocks, (left[0].Width, left[0].Height, left[0].MayTurn)], left[1..]);
            for (var j = 1; j < left.Length; j++)
            {
                foreach (var pair in new[] { (left[0], left[j]), (left[j], left[0]) }.SelectMany(p => TaperPairs.Find(problem with { Pieces = [p.Item1, p.Item2] }, _ => true)))
                    best = Math.Min(best, Nested([.. blocks, (pair.Width, pair.Height, left[0].MayTurn)], [.. left[1..j], .. left[(j + 1)..]]));
            }

            return best;
        }
    }

    private static long Cheapest(SheetProblem problem, List<(long Width, long Height, bool Turn)> blocks)
    {
        var k = problem.Kerf;
        var fits = problem.Stock.Select(s => new bool[1 << blocks.Count]).ToArray();
        for (var s = 0; s < fits.Length; s++)
        {
            for (var set = 0; set < 1 << blocks.Count; set++)
                fits[s][set] = Packs([.. blocks.Where((_, b) => (set >> b & 1) != 0).Select(b => (b.Width + k, b.Height + k, b.Turn)).OrderByDescending(b => b.Item1 * b.Item2)], problem.Stock[s].Width + k, problem.Stock[s].Height + k);
        }

        return Share((1 << blocks.Count) - 1, [.. problem.Stock.Select(s => s.Count ?? 99)]);

        long Share(int left, int[] counts)
        {
            if (left == 0)
                return 0;
            var best = long.MaxValue / 2;
            var first = left & -left;
            for (var set = left; set > 0; set = (set - 1) & left)
            {
                for (var s = 0; (set & first) != 0 && s < counts.Length; s++)
                {
                    if (counts[s]-- > 0 && fits[s][set])
                        best = Math.Min(best, problem.Stock[s].Cost + Share(left & ~set, counts));
                    counts[s]++;
                }
            }

            return best;
        }
    }

    /// <summary>Whether rectangles fit a sheet of at most 8 by 8 without lapping, at whole places.</summary>
    private static bool Packs((long Width, long Height, bool Turn)[] blocks, long width, long height)
    {
        return blocks.Sum(b => b.Width * b.Height) <= width * height && Place(0, 0);

        bool Place(int next, ulong taken)
        {
            if (next == blocks.Length)
                return true;
            var (w, h, turn) = blocks[next];
            foreach (var (a, b) in turn && w != h ? new[] { (w, h), (h, w) } : [(w, h)])
            {
                for (var y = 0; y + b <= height; y++)
                {
                    for (var x = 0; x + a <= width; x++)
                    {
                        ulong mask = 0;
                        for (var r = 0; r < b; r++)
                            mask |= ((1UL << (int)a) - 1) << ((y + r) * 8 + x);
                        if ((taken & mask) == 0 && Place(next + 1, taken | mask))
                            return true;
                    }
                }
            }

            return false;
        }
    }
}
