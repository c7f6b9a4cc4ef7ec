using System.Numerics;
using Wain.Cutting;

namespace Wain.Tests.Cutting;

/// <summary>The checker believes no certificate that proves nothing.</summary>
public sealed class ProofTests
{
    // Our own instance: three pieces of 34 fill a stick of 100 but for the kerf, so each stick holds two; counted by hand.
    private static readonly StickProblem Sticks = new([new StockStick("s", 100, 7)], [new StickPiece("a", 34, 6)], 1);

    [Fact]
    public void A_kerf_that_spoils_the_third_piece_is_proven_to_cost_a_stick_more()
    {
        var plan = StickPlanner.Plan(Sticks, new StepBudget(1000));
        Assert.Equal((21, 21, true), (plan.Cost, plan.LowerBound, plan.Proven));
    }

    [Fact]
    public void Raised_prices_prove_nothing_for_sticks()
    {
        var c = StickPlanner.Plan(Sticks, new StepBudget(1000)).Certificate!;
        Assert.Equal(21, StickPlanner.CheckBound(Sticks, c));
        Assert.Null(StickPlanner.CheckBound(Sticks, c with { Prices = [.. c.Prices.Select(p => p + p / 2 + 1)] }));
        Assert.Null(StickPlanner.CheckBound(Sticks, c with { Scale = c.Scale / 2 }));
        Assert.Null(StickPlanner.CheckBound(Sticks, c with { Scale = 0 }));
        Assert.Null(StickPlanner.CheckBound(Sticks, c with { Prices = [] }));
        Assert.Null(StickPlanner.CheckBound(Sticks, c with { Prices = [.. c.Prices.Select(p => -p)] }));
    }

    // Our own instance: sticks at 7 and 12 add up to 7, 12, 14 and so on, never to 8 or 11; counted by hand.
    [Theory]
    [InlineData(23, 7)]
    [InlineData(24, 12)]
    [InlineData(36, 12)]
    [InlineData(40, 12)]
    public void A_bound_is_a_cost_that_sticks_add_up_to(long price, long bound)
    {
        var problem = new StickProblem([new StockStick("a", 100, 7), new StockStick("b", 200, 12)], [new StickPiece("p", 60, 3)]);
        Assert.Equal(bound, StickPlanner.CheckBound(problem, new StickCertificate([price], 10)));
    }

    // Our own instances: the lengths add up to less than this many sticks, but however the pieces are laid one stick more is needed.
    public static TheoryData<int, int[], int, int> NeedOneMore => new()
    {
        { 69, [11, 12, 17, 19, 23, 25, 30], 2, 4 },
        { 172, [30, 33, 41, 48, 49, 60, 62, 66, 67, 68, 73, 75, 80, 84, 85, 86, 90, 93], 1, 7 },
    };

    [Theory]
    [MemberData(nameof(NeedOneMore))]
    public void Where_prices_leave_a_gap_a_tree_proves_the_stick_more(int stick, int[] lengths, int each, int toFew)
    {
        var problem = new StickProblem([new StockStick("s", stick, 10)], [.. lengths.Select(l => new StickPiece($"p{l}", l, each))]);
        Assert.False(Fits([.. lengths.SelectMany(l => Enumerable.Repeat(l, each)).OrderDescending()], 0, Enumerable.Repeat(stick, toFew).ToArray()));
        var plan = StickPlanner.Plan(problem, new StepBudget(2_000_000));
        var c = plan.Certificate!;
        Assert.Equal((10 * (toFew + 1), true), (plan.Cost, plan.Proven));
        Assert.Equal(plan.Cost, StickPlanner.CheckBound(problem, c));
        Assert.Equal(10 * toFew, StickPlanner.CheckBound(problem, c with { Closure = null }));

        var nodes = c.Closure!.Nodes;
        Assert.True(nodes.Count >= 3);
        // A tree with a branch left out, one too many, or for a higher target proves nothing.
        Assert.Null(Check(nodes.Take(nodes.Count - 1)));
        Assert.Null(Check(nodes.Append(nodes[^1])));
        Assert.Null(StickPlanner.CheckBound(problem, c with { Closure = c.Closure with { Target = plan.Cost } }));
        Assert.Null(StickPlanner.CheckBound(problem, c with { Closure = c.Closure with { Target = 10 * toFew - 10 } }));
        for (var n = 0; n < nodes.Count; n++)
        {
            var node = nodes[n];
            if (node.Prices is { } prices)
            {
                // Prices that do not hold, or do not close what they should.
                Assert.Null(With(n, node with { Prices = [.. prices.Select(p => p * 2)] }));
                Assert.Null(With(n, node with { Prices = [.. prices.Take(1)] }));
                Assert.Null(With(n, node with { Prices = [.. prices.Select(_ => long.MaxValue)] }));
                Assert.Null(With(n, node with { Prices = [.. prices.Take(lengths.Length), -1] }));
                if (node is { Kind: < 0, Pattern: < 0 })
                    Assert.Null(With(n, node with { Prices = [.. prices.Select(_ => 0L)] }));
            }

            if (node.Kind < 0 && node.Pattern < 0)
                continue;
            Assert.Null(With(n, new ClosureNode()));
            Assert.Null(With(n, new ClosureNode(Kind: 0, Other: 0)));
            Assert.Null(With(n, new ClosureNode(Kind: 0, Other: 99)));
            Assert.Null(With(n, new ClosureNode(Pattern: 999_999, Times: 1)));
            Assert.Null(With(n, new ClosureNode(Pattern: 0, Times: -1)));
        }

        long? With(int at, ClosureNode other) => Check(nodes.Select((node, n) => n == at ? other : node));

        long? Check(IEnumerable<ClosureNode> tree) => StickPlanner.CheckBound(problem, c with { Closure = c.Closure with { Nodes = [.. tree] } });
    }

    /// <summary>Tries every way, the longest piece first; sticks with the same room are the same.</summary>
    private static bool Fits(int[] lengths, int next, int[] rooms)
    {
        if (next == lengths.Length)
            return true;
        for (var s = 0; s < rooms.Length; s++)
        {
            if (rooms[s] < lengths[next] || Array.IndexOf(rooms, rooms[s]) < s)
                continue;
            rooms[s] -= lengths[next];
            var fits = Fits(lengths, next + 1, rooms);
            rooms[s] += lengths[next];
            if (fits)
                return true;
        }

        return false;
    }

    // Our own instance: a square of 6 cannot share a sheet of 10 with another, whatever the area says (4 x 36 = 144 would fill two sheets).
    private static readonly SheetProblem Sheets = new([new StockSheet("s", 10, 10, 3)], [new SheetPiece("a", 6, 6, 4)], 0, true);

    [Fact]
    public void Pieces_larger_than_half_a_sheet_are_proven_to_need_one_each()
    {
        var plan = SheetPlanner.Plan(Sheets, new StepBudget(1000));
        Assert.Equal((12, 12, true), (plan.Cost, plan.LowerBound, plan.Proven));
    }

    [Fact]
    public void Raised_prices_prove_nothing_for_sheets()
    {
        var c = SheetPlanner.Plan(Sheets, new StepBudget(1000)).Certificate!;
        Assert.Equal(12, SheetPlanner.CheckBound(Sheets, c));
        Assert.Null(SheetPlanner.CheckBound(Sheets, c with { Scale = c.Scale / 2 }));
        Assert.Null(SheetPlanner.CheckBound(Sheets, c with { Terms = [.. c.Terms.Select(t => t with { Weight = t.Weight * 2 })] }));
        Assert.Null(SheetPlanner.CheckBound(Sheets, c with { Terms = [.. c.Terms.Select(t => t with { Across = [.. t.Across.Select(p => -p)] })] }));
        Assert.Null(SheetPlanner.CheckBound(Sheets, c with { Sizes = [5] }));
        Assert.Null(SheetPlanner.CheckBound(Sheets, c with { Scale = BigInteger.Zero }));
    }
}
