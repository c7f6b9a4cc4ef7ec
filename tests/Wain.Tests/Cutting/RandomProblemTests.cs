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
        from stock in Gen.Select(Gen.Long[64, 120], Gen.Long[64, 120], Gen.Long[1, 30]).Array[1, 3]
        from pieces in Gen.Select(Gen.Long[3, 60], Gen.Long[3, 60], Gen.Int[1, 4], Gen.Bool).Array[1, 12]
        from kerf in Gen.Long[0, 4]
        from guillotine in Gen.Bool
        select new SheetProblem(
            [.. stock.Select((s, i) => new StockSheet($"s{i}", s.Item1, s.Item2, s.Item3, Trim: i == 0 ? new SheetTrim(1, 0, 2, 1) : default))],
            [.. pieces.Select((p, i) => new SheetPiece($"p{i}", p.Item1, p.Item2, p.Item3, p.Item4))], kerf, guillotine);

    [Fact]
    public void Stick_plans_are_whole_and_above_the_stated_bound() =>
        SomeSticks.Sample(p => PlanChecks.IsWhole(p, StickPlanner.Plan(p, new StepBudget(2_000))), iter: 60);

    [Fact]
    public void Sheet_plans_are_whole_and_above_the_stated_bound() =>
        SomeSheets.Sample(p => PlanChecks.IsWhole(p, SheetPlanner.Plan(p, new StepBudget(500))), iter: 60);

    [Fact]
    public void More_steps_never_make_a_plan_worse() => Gen.Select(SomeSticks, SomeSheets).Sample((sticks, sheets) =>
    {
        var cost = long.MaxValue;
        var sheetCost = long.MaxValue;
        foreach (var steps in new[] { 0L, 20, 200, 1000 })
        {
            var plan = StickPlanner.Plan(sticks, new StepBudget(steps));
            var sheetPlan = SheetPlanner.Plan(sheets, new StepBudget(steps));
            Assert.True(plan.Cost <= cost && sheetPlan.Cost <= sheetCost);
            (cost, sheetCost) = (plan.Cost, sheetPlan.Cost);
        }
    }, iter: 10);

    [Fact]
    public void The_same_steps_make_the_same_plan() => Gen.Select(SomeSticks, SomeSheets).Sample((sticks, sheets) =>
    {
        Assert.Equal(Show(StickPlanner.Plan(sticks, new StepBudget(300))), Show(StickPlanner.Plan(sticks, new StepBudget(300))));
        Assert.Equal(Show(SheetPlanner.Plan(sheets, new StepBudget(300))), Show(SheetPlanner.Plan(sheets, new StepBudget(300))));
    }, iter: 10);

    /// <summary>The optimum of tiny stick problems by trying every way to share the pieces out.</summary>
    [Fact]
    public void Tiny_stick_plans_cost_what_trying_everything_finds() =>
        Gen.Select(Gen.Int[2, 30].Array[1, 8], Gen.Int[30, 50], Gen.Int[0, 3]).Sample((lengths, stock, kerf) =>
        {
            var problem = new StickProblem([new StockStick("s", stock, 1)], [.. lengths.Select((l, i) => new StickPiece($"p{i}", l))], kerf);
            var plan = StickPlanner.Plan(problem, new StepBudget(20_000));
            Assert.Equal(Fewest([.. lengths.Select(l => l + kerf)], stock + kerf, 0, []), plan.Cost);
            Assert.True(plan.LowerBound <= plan.Cost);
        }, iter: 60);

    private static int Fewest(int[] lengths, int capacity, int next, int[] used)
    {
        if (next == lengths.Length)
            return used.Length;
        var best = int.MaxValue;
        for (var b = 0; b <= used.Length; b++)
        {
            if (b < used.Length && used[b] + lengths[next] > capacity)
                continue;
            int[] then = b == used.Length ? [.. used, lengths[next]] : [.. used];
            if (b < used.Length)
                then[b] += lengths[next];
            best = Math.Min(best, Fewest(lengths, capacity, next + 1, then));
        }

        return best;
    }

    private static string Show(object plan) => System.Text.Json.JsonSerializer.Serialize(plan, new System.Text.Json.JsonSerializerOptions { IgnoreReadOnlyProperties = true, Converters = { new BigText() } });

    private sealed class BigText : System.Text.Json.Serialization.JsonConverter<System.Numerics.BigInteger>
    {
        public override System.Numerics.BigInteger Read(ref System.Text.Json.Utf8JsonReader reader, Type type, System.Text.Json.JsonSerializerOptions options) =>
            System.Numerics.BigInteger.Parse(reader.GetString()!);

        public override void Write(System.Text.Json.Utf8JsonWriter writer, System.Numerics.BigInteger value, System.Text.Json.JsonSerializerOptions options) =>
            writer.WriteStringValue(value.ToString());
    }
}
