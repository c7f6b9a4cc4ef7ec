using Wain.Cutting;

namespace Wain.Tests.Cutting;

/// <summary>What cannot be planned becomes a reason, and large numbers stay within the budget.</summary>
public sealed class BadInputTests
{
    [Fact]
    public void What_fits_no_stock_is_named_and_the_rest_is_planned()
    {
        var sticks = StickPlanner.Plan(new StickProblem([new StockStick("s", 100, 1)], [new StickPiece("long", 101), new StickPiece("short", 50)]), new StepBudget(100));
        Assert.Equal((IssueKind.FitsNoStock, "long"), (sticks.Issues.Single().Kind, sticks.Issues.Single().Subject));
        Assert.Equal(1, sticks.Cost);
        var sheets = SheetPlanner.Plan(new SheetProblem([new StockSheet("s", 10, 20, 1)], [new SheetPiece("wide", 15, 5, MayTurn: false), new SheetPiece("ok", 15, 5)], 1, true), new StepBudget(100));
        Assert.Equal((IssueKind.FitsNoStock, "wide"), (sheets.Issues.Single().Kind, sheets.Issues.Single().Subject));
        Assert.True(sheets.Sheets.Single().Pieces.Single().Turned);
    }

    [Theory]
    [InlineData(0, 10, 1)]
    [InlineData(-5, 10, 1)]
    [InlineData(10, 0, 1)]
    [InlineData(10, 10, -1)]
    [InlineData(long.MaxValue, 10, 1)]
    public void Stock_or_kerf_that_cannot_be_is_an_issue_not_a_crash(long size, long piece, long kerf)
    {
        Assert.NotEmpty(StickPlanner.Plan(new StickProblem([new StockStick("s", size, 1)], [new StickPiece("p", piece)], kerf), new StepBudget(100)).Issues);
        Assert.NotEmpty(SheetPlanner.Plan(new SheetProblem([new StockSheet("s", size, size, 1)], [new SheetPiece("p", piece, piece)], kerf, true), new StepBudget(100)).Issues);
    }

    [Fact]
    public void A_kerf_wider_than_the_piece_is_planned()
    {
        var problem = new StickProblem([new StockStick("s", 100, 1)], [new StickPiece("p", 2, 30)], 9);
        PlanChecks.IsWhole(problem, StickPlanner.Plan(problem, new StepBudget(100)));
        // Nine pieces and eight kerfs take 90 of 100, a tenth with its kerf 101.
        Assert.Equal(4, StickPlanner.Plan(problem, new StepBudget(100)).Cost);
    }

    [Fact]
    public void Stock_that_runs_out_is_an_issue()
    {
        Assert.Equal(IssueKind.NotEnoughStock, StickPlanner.Plan(new StickProblem([new StockStick("s", 10, 1, 2)], [new StickPiece("p", 6, 3)]), new StepBudget(100)).Issues.Single().Kind);
        Assert.Equal(IssueKind.NotEnoughStock, SheetPlanner.Plan(new SheetProblem([new StockSheet("s", 10, 10, 1, 2)], [new SheetPiece("p", 6, 6, 3)], 0, true), new StepBudget(100)).Issues.Single().Kind);
    }

    [Fact]
    public void A_million_sticks_are_cut_by_patterns()
    {
        var problem = new StickProblem([new StockStick("s", 6000, 5)], [new StickPiece("a", 2000, 999_999), new StickPiece("b", 1999, 1_000_001)], 3);
        var plan = StickPlanner.Plan(problem, new StepBudget(20_000));
        PlanChecks.IsWhole(problem, plan);
        Assert.True(plan.Sticks.Count < 20);
    }

    [Fact]
    public void A_thousand_and_a_million_pieces_of_one_kind_are_laid_out_by_repeating()
    {
        foreach (var count in new[] { 1000, 1_000_000 })
        {
            var problem = new SheetProblem([new StockSheet("s", 1220, 2440, 60)], [new SheetPiece("p", 300, 400, count)], 3, true);
            var plan = SheetPlanner.Plan(problem, new StepBudget(2_000));
            Assert.Empty(plan.Issues);
            Assert.Equal(count, plan.Sheets.Sum(s => (long)s.Pieces.Count * s.Times));
            Assert.True(plan.Cost >= plan.LowerBound);
        }
    }

    [Fact]
    public void A_cancelled_search_still_gives_a_plan()
    {
        using var stop = new CancellationTokenSource();
        stop.Cancel();
        var problem = new SheetProblem([new StockSheet("s", 100, 100, 1)], [new SheetPiece("p", 30, 40, 20)], 1, true);
        PlanChecks.IsWhole(problem, SheetPlanner.Plan(problem, new StepBudget(long.MaxValue, stop.Token)));
    }
}
