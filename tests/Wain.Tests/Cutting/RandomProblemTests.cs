using CsCheck;
using Wain.Cutting;

namespace Wain.Tests.Cutting;

/// <summary>What must hold for any problem: plans are whole, bounds hold by the separate checker, the same work gives the same plan, more work no worse one.</summary>
public sealed class RandomProblemTests
{
    private static readonly Gen<StickProblem> SomeSticks =
        from stock in Gen.Select(Gen.Long[60, 140], Gen.Long[1, 30]).Array[1, 3]
        from pieces in Gen.Select(Gen.Long[3, 60], Gen.Int[1, 6]).Array[1, 12]
        from kerf in Gen.Long[0, 4]
        select new StickProblem(
            [.. stock.Select((s, i) => new StockStick($"s{i}", s.Item1, s.Item2))],
            [.. pieces.Select((p, i) => new StickPiece($"p{i}", p.Item1, p.Item2))], kerf);

    private static readonly Gen<SheetProblem> SomeSheets =
        from stock in Gen.Select(Gen.Long[60, 120], Gen.Long[60, 120], Gen.Long[1, 30]).Array[1, 3]
        from pieces in Gen.Select(Gen.Long[3, 60], Gen.Long[3, 60], Gen.Int[1, 4], Gen.Bool).Array[1, 12]
        from kerf in Gen.Long[0, 4]
        from guillotine in Gen.Bool
        select new SheetProblem(
            [.. stock.Select((s, i) => new StockSheet($"s{i}", s.Item1, s.Item2, s.Item3, Trim: i == 0 ? default : new SheetTrim(0, 0, 0, 0)))],
            [.. pieces.Select((p, i) => new SheetPiece($"p{i}", p.Item1, p.Item2, p.Item3, p.Item4))], kerf, guillotine);

    [Fact]
    public void Stick_plans_are_whole_and_proven_within_the_stated_bound() =>
        SomeSticks.Sample(p => PlanChecks.IsWhole(p, StickPlanner.Plan(p, new StepBudget(20_000))), iter: 200);

    [Fact]
    public void Sheet_plans_are_whole_and_above_the_stated_bound() =>
        SomeSheets.Sample(p => PlanChecks.IsWhole(p, SheetPlanner.Plan(p, new StepBudget(5_000))), iter: 200);

    [Fact]
    public void More_steps_never_make_a_plan_worse() => Gen.Select(SomeSticks, SomeSheets).Sample((sticks, sheets) =>
    {
        var cost = long.MaxValue;
        var sheetCost = long.MaxValue;
        foreach (var steps in new[] { 0L, 50, 500, 3000 })
        {
            var plan = StickPlanner.Plan(sticks, new StepBudget(steps));
            var sheetPlan = SheetPlanner.Plan(sheets, new StepBudget(steps));
            Assert.True(plan.Cost <= cost && sheetPlan.Cost <= sheetCost);
            (cost, sheetCost) = (plan.Cost, sheetPlan.Cost);
        }
    }, iter: 40);

    [Fact]
    public void The_same_steps_make_the_same_plan() => Gen.Select(SomeSticks, SomeSheets).Sample((sticks, sheets) =>
    {
        Assert.Equal(Show(StickPlanner.Plan(sticks, new StepBudget(1000))), Show(StickPlanner.Plan(sticks, new StepBudget(1000))));
        Assert.Equal(Show(SheetPlanner.Plan(sheets, new StepBudget(1000))), Show(SheetPlanner.Plan(sheets, new StepBudget(1000))));
    }, iter: 30);

    private static string Show(object plan) => System.Text.Json.JsonSerializer.Serialize(plan);
}
