using CsCheck;
using Wain.Core;
using Wain.Core.CutLists;
using Wain.Core.Text;
using Wain.Cli.Cutting;
using Wain.Cutting;

namespace Wain.Tests.Cutting;

/// <summary>A kept offcut of a bought sheet counts at the value that the spec states. All figures are our own, counted by hand.</summary>
public sealed class OffcutWorthTests
{
    // A piece of 10 by 8 on a sheet of 10 by 8 for 30, or of 10 by 20 for 50, which leaves 10 by 12.
    private static SheetProblem TwoSizes(decimal value, long shortSide = 4) => new(
        [new StockSheet("small", 10, 8, 30), new StockSheet("large", 10, 20, 50)], [new SheetPiece("p", 10, 8, 1, false)], 0, true, new OffcutRule(shortSide, shortSide, value));

    [Theory]
    [InlineData(0, 0, 30)]
    // 120 at 0.1 are worth 12, and 50 - 12 is more than 30.
    [InlineData(0.1, 0, 30)]
    // At 0.2 they are worth 24: 26 is less than 30, and no plan does better.
    [InlineData(0.2, 1, 26)]
    // No part of a sheet is worth more than its share of the price, 0.25: 50 - 30.
    [InlineData(9, 1, 20)]
    public void A_dearer_sheet_is_bought_where_what_it_leaves_is_worth_more(double value, int stock, long net)
    {
        var problem = TwoSizes((decimal)value);
        var plan = SheetPlanner.Plan(problem, new StepBudget(20_000));
        PlanChecks.IsWhole(problem, plan);
        Assert.Equal((stock, net), (plan.Sheets.Single().Stock, plan.Cost - plan.Kept));
        Assert.True(plan.LowerBound <= net);
        if (value is 0 or 0.2)
            Assert.True(plan.Proven);
    }

    [Fact]
    public void What_is_too_small_to_keep_is_worth_nothing()
    {
        var plan = SheetPlanner.Plan(TwoSizes(0.2m, 13), new StepBudget(20_000));
        Assert.Equal((30, 0, 0), (plan.Cost, plan.Kept, plan.Sheets.Single().Stock));
    }

    [Fact]
    public void What_an_owned_offcut_leaves_is_worth_nothing_and_it_still_is_cut_first()
    {
        var problem = TwoSizes(0.2m) with { Stock = [.. TwoSizes(0.2m).Stock, new StockSheet("owned", 10, 20, 0, 1, true)] };
        var plan = SheetPlanner.Plan(problem, new StepBudget(20_000));
        Assert.Equal((0, 0, 2), (plan.Cost, plan.Kept, plan.Sheets.Single().Stock));
        Assert.True(plan.LowerBound <= 0);
    }

    [Fact]
    public void Cuts_leave_the_rests_that_are_worth_most()
    {
        // A piece of 60 by 60 on 100 by 100: along first leaves 40 by 100 and 60 by 40, across first the same turned; what is kept at 1 for 100 is 40 + 24.
        var problem = new SheetProblem([new StockSheet("s", 100, 100, 500)], [new SheetPiece("p", 60, 60)], 0, true, new OffcutRule(10, 10, 0.01m));
        var plan = SheetPlanner.Plan(problem, new StepBudget(20_000));
        // 500 - 64, and no plan is below: all but the piece is kept.
        Assert.Equal((500, 64, 436, true), (plan.Cost, plan.Kept, plan.LowerBound, plan.Proven));
    }

    private static readonly Gen<SheetProblem> Some =
        from kerf in Gen.Long[0, 2]
        from stock in Gen.Select(Gen.Long[20, 40], Gen.Long[20, 40], Gen.Long[0, 60]).Array[1, 3]
        from pieces in Gen.Select(Gen.Long[4, 20], Gen.Long[4, 20], Gen.Int[1, 3], Gen.Bool).Array[1, 5]
        from value in Gen.Int[0, 40]
        select new SheetProblem(
            [new StockSheet("s", 30, 30, 45, Trim: new SheetTrim(1, 0, 1, 0)), .. stock.Select((s, i) => new StockSheet($"s{i}", s.Item1, s.Item2, s.Item3, s.Item3 == 0 ? 1 : null))],
            [.. pieces.Select((p, i) => new SheetPiece($"p{i}", p.Item1, p.Item2, p.Item3, p.Item4))], kerf, true, new OffcutRule(4, 6, value / 1000m));

    /// <summary>The worth of what is kept, reckoned here anew; the bound never above it; the same plan as ever without a value, and with one none that is worse than that plan.</summary>
    [Fact]
    public void Plans_with_a_value_are_whole_and_no_worse_than_those_without() => Some.Sample(problem =>
    {
        var plan = SheetPlanner.Plan(problem, new StepBudget(3_000));
        PlanChecks.IsWhole(problem, plan);
        var without = SheetPlanner.Plan(problem with { Offcuts = problem.Offcuts with { ValuePerArea = 0 } }, new StepBudget(3_000));
        Assert.Equal(0, without.Kept);
        Assert.Equal(Worth(problem, plan), plan.Kept);
        Assert.True(plan.Cost - plan.Kept <= without.Cost - Worth(problem, without), $"{plan.Cost} less {plan.Kept} against {without.Cost} less {Worth(problem, without)}");
        Assert.True(plan.LowerBound <= without.Cost - Worth(problem, without));
    }, iter: 200);

    private static long Worth(SheetProblem problem, SheetPlan plan)
    {
        decimal worth = 0;
        foreach (var sheet in plan.Sheets)
        {
            var s = problem.Stock[sheet.Stock];
            var whole = (s.Width - s.Trim.Left - s.Trim.Right + problem.Kerf) * (s.Height - s.Trim.Bottom - s.Trim.Top + problem.Kerf);
            worth += sheet.Times * sheet.Offcuts.Sum(o => decimal.Floor(Math.Min(problem.Offcuts.ValuePerArea, (decimal)s.Cost / whole) * o.Area));
        }

        return (long)worth;
    }

    /// <summary>A deck of 40 in by 48 in from sheets of 48 in by 48 in for 30 or of 48 in by 96 in for 50: at 1.00 a square foot the 48 in by 56 in less a kerf that the large one leaves are worth 18.62.</summary>
    [Fact]
    public void A_spec_states_the_value_and_the_plan_file_carries_what_is_kept()
    {
        const string text = """
            written for wain 1
            camper "Demo" {
                kerf 1/8 in
                offcut 1.00 USD per ft2
            }
            sheet ply {
                thickness 6 mm
                size 48 in by 48 in, price 35 USD, on 2026-01-05
                size 48 in by 96 in, price 50 USD, on 2026-01-05
                density 600 kg/m3
            }
            stack skin { sheet ply }
            panel deck of skin { through (0 in, 0 in, 0 in) along (0 in, -40 in, 0 in) up (48 in, 0 in, 0 in) }

            """;
        var list = Compiler.Compile(new SourceText("demo.wain", text.ReplaceLineEndings("\n"))).Design!.CutLists.Single();
        var plan = CutRun.Plan(list, 20_000, _ => { }, default);
        Assert.Null(PlanCheck.FirstProblem(plan, list));
        Assert.Equal((5000, 1862, 3138), (plan.Cost, plan.Kept, plan.Net));
        Assert.True(plan.Bound <= plan.Net && PlanProof.Bound(list, plan) >= plan.Bound);
        Assert.Equal("50.00 USD less 18.62 for what is kept", CuttingTables.Cost(plan));
        // What is stated to be kept is reckoned again, and so is where it lies.
        Assert.Contains("not worth", PlanCheck.FirstProblem(plan with { Kept = plan.Kept + 1 }, list));
        var sheet = plan.Sheets.Single();
        Assert.Contains("offcut", PlanCheck.FirstProblem(plan with { Sheets = [sheet with { Offcuts = [sheet.Offcuts[0] with { Length = sheet.Offcuts[0].Length + 1 }] }] }, list));
        Assert.Contains("offcut", PlanCheck.FirstProblem(plan with { Sheets = [sheet with { Offcuts = [.. sheet.Offcuts, sheet.Offcuts[0]] }] }, list));
    }
}
