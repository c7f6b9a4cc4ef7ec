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
