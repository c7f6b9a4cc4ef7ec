using Wain.Benchmarks;
using Wain.Cutting;

namespace Wain.Tests.Cutting;

/// <summary>
/// Plans for instances of the published generators, made anew here from fixed seeds: where the generator knows the optimum it must be met, elsewhere the plans
/// must come near the proven bounds and beat a shelf method. The budgets are in steps, so that every machine does the same.
/// </summary>
public sealed class GeneratedInstanceTests
{
    // Triplets: Falkenauer, A hybrid grouping genetic algorithm for bin packing, 1996: every stick holds three pieces without waste.
    [Fact]
    public void Triplets_fill_every_stick()
    {
        for (ulong seed = 1; seed <= 6; seed++)
        {
            var random = new FixedRandom(seed);
            const int Sticks = 20;
            var lengths = new List<long>();
            for (var s = 0; s < Sticks; s++)
            {
                var first = 380 + random.Below(111);
                var second = 250 + random.Below((1000 - first) / 2 - 250 + 1);
                lengths.AddRange([first, second, 1000 - first - second]);
            }

            var problem = new StickProblem([new StockStick("s", 1000, 1)], [.. lengths.Select((l, i) => new StickPiece($"p{i}", l))]);
            var plan = StickPlanner.Plan(problem, new StepBudget(2_000_000));
            PlanChecks.IsWhole(problem, plan);
            Assert.Equal((Sticks, true), (plan.Cost, plan.Proven));
        }
    }

    // Lengths evenly between a fifth and seven twentieths of the stick: Scholl, Klein, Juergens, BISON, 1997, third set.
    [Fact]
    public void Finely_measured_sticks_are_proven()
    {
        for (ulong seed = 1; seed <= 2; seed++)
        {
            var random = new FixedRandom(seed);
            var problem = new StickProblem([new StockStick("s", 100_000, 1)],
                [.. Enumerable.Range(0, 60).Select(i => new StickPiece($"p{i}", 20_000 + random.Below(15_001)))]);
            var plan = StickPlanner.Plan(problem, new StepBudget(1_000_000));
            PlanChecks.IsWhole(problem, plan);
            Assert.True(plan.Cost <= SimpleMethods.FirstFitDecreasing(problem));
            Assert.True(plan.Proven);
        }
    }

    // Sheets cut up at random by edge-to-edge cuts, as in Ortmann, Ntene, van Vuuren 2010: the pieces fill the same sheets again.
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void A_cut_up_sheet_goes_together_again(bool turn)
    {
        for (ulong seed = 1; seed <= 4; seed++)
        {
            var random = new FixedRandom(seed);
            var parts = new List<(long W, long H)> { (1000, 600), (700, 1000) };
            while (parts.Count < 26)
            {
                var at = parts.IndexOf(parts.MaxBy(p => p.W * p.H));
                var (w, h) = parts[at];
                var upright = w > h;
                var cut = (upright ? w : h) * (30 + random.Below(41)) / 100;
                parts[at] = upright ? (cut, h) : (w, cut);
                parts.Add(upright ? (w - cut, h) : (w, h - cut));
            }

            var problem = new SheetProblem([new StockSheet("a", 1000, 600, 600), new StockSheet("b", 700, 1000, 700)],
                [.. parts.Select((p, i) => new SheetPiece($"p{i}", p.W, p.H, 1, turn))], 0, true);
            var plan = SheetPlanner.Plan(problem, new StepBudget(2_000_000));
            PlanChecks.IsWhole(problem, plan);
            Assert.Equal((1300, true), (plan.Cost, plan.Proven));
        }
    }

    // Classes 1 to 6: Berkey and Wang, 1987; 7 to 10: Martello and Vigo, 1998.
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Ten_classes_of_sheets_come_near_their_bounds(bool turn)
    {
        long cost = 0, bound = 0, proven = 0;
        double shelves = 0;
        for (var c = 1; c <= 10; c++)
        {
            var random = new FixedRandom((ulong)c);
            var (side, largest) = c switch { 1 => (10, 10), 2 => (30, 10), 3 => (40, 35), 4 => (100, 35), 5 => (100, 100), 6 => (300, 100), _ => (100, 0) };
            var pieces = new List<SheetPiece>();
            for (var i = 0; i < 40; i++)
            {
                var (w, h) = largest > 0 ? (1 + random.Below(largest), 1 + random.Below(largest)) : Mixed(c - 7, ref random);
                pieces.Add(new SheetPiece($"p{i}", w, h, 1, turn));
            }

            var problem = new SheetProblem([new StockSheet("s", side, side, 1)], pieces, 0, true);
            var plan = SheetPlanner.Plan(problem, new StepBudget(150_000));
            PlanChecks.IsWhole(problem, plan);
            (cost, bound, proven) = (cost + plan.Cost, bound + plan.LowerBound, proven + (plan.Proven ? 1 : 0));
            shelves += SimpleMethods.Shelves(problem);
        }

        Assert.True(cost < shelves, $"{cost} sheets, the shelf method needs {shelves}");
        Assert.True(cost <= 1.03 * bound, $"{cost} sheets, bound {bound}");
        Assert.True(proven >= 7, $"{proven} of 10 proven");

        // Seven of ten pieces are of the class's own type, the others of the three other types.
        static (int W, int H) Mixed(int own, ref FixedRandom random)
        {
            var pick = random.Below(10);
            var type = pick < 7 ? own : (own + pick - 6) % 4;
            return type switch
            {
                0 => (67 + random.Below(34), 1 + random.Below(50)),
                1 => (1 + random.Below(50), 67 + random.Below(34)),
                2 => (50 + random.Below(51), 50 + random.Below(51)),
                _ => (1 + random.Below(50), 1 + random.Below(50)),
            };
        }
    }
}
