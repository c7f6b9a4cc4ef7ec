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

    // Our own instance: a stick holds two of these five pieces and never three.
    private static readonly StickProblem Odd = new([new StockStick("s", 100, 1)], [.. new[] { 46, 47, 48, 49, 50 }.Select(l => new StickPiece($"p{l}", l))]);

    [Fact]
    public void A_rounding_cut_proves_more_than_prices_and_a_wrong_one_proves_nothing()
    {
        // Three pieces are worth a stick each; two of them on one stick are cut back to one, and of the three one such pair can be. So three need two sticks.
        const long Scale = 1000;
        var cut = new RoundingCut([0, 1, 2], [1, 1, 1], 2, Scale);
        var certificate = new StickCertificate([Scale, Scale, Scale, 0, 0], Scale, [cut]);
        Assert.Equal(2, StickPlanner.CheckBound(Odd, certificate));
        // Without the cut, or with a cheaper one, a stick with two pieces is worth more than it costs.
        Assert.Null(StickPlanner.CheckBound(Odd, certificate with { Cuts = [] }));
        Assert.Null(StickPlanner.CheckBound(Odd, certificate with { Cuts = [cut with { Price = Scale - 1 }] }));
        Assert.Null(StickPlanner.CheckBound(Odd, certificate with { Cuts = [cut with { Price = -Scale }] }));
        Assert.Null(StickPlanner.CheckBound(Odd, certificate with { Cuts = [cut with { Divisor = 0 }] }));
        Assert.Null(StickPlanner.CheckBound(Odd, certificate with { Cuts = [cut with { Kinds = [0, 1, 9] }] }));
        Assert.Null(StickPlanner.CheckBound(Odd, certificate with { Cuts = [cut with { Kinds = [0, 0, 1] }] }));
        Assert.Null(StickPlanner.CheckBound(Odd, certificate with { Cuts = [cut with { Weights = [1, 1, -1] }] }));
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
