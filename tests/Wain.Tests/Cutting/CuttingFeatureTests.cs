using Wain.Cutting;

namespace Wain.Tests.Cutting;

/// <summary>Angles, faults, tapers, foam, rolls, splices and the order of cuts, on small problems counted by hand.</summary>
public sealed class CuttingFeatureTests
{
    /// <summary>Mitred pieces 100 long with a run of 20 at both ends: nested head to foot, n of them take 100 n - 20 (n - 1), so six fit 500 and only five would side by side.</summary>
    [Fact]
    public void Mitred_pieces_share_their_cuts()
    {
        var problem = new StickProblem([new StockStick("s", 500, 1)], [new StickPiece("p", 100, 6, 20, 20, Depth: 20)]);
        var plan = StickPlanner.Plan(problem, new StepBudget(5_000));
        Assert.Equal((1, true), (plan.Cost, plan.Proven));
        Assert.Equal([0, 80, 160, 240, 320, 400], plan.Sticks[0].Pieces.Select(p => p.From));
        Assert.Equal([false, true, false, true, false, true], plan.Sticks[0].Pieces.Select(p => p.Rolled != p.TurnedEnd));
        Assert.Equal(2, StickPlanner.Plan(problem with { Pieces = [problem.Pieces[0] with { MayRoll = false }] }, new StepBudget(5_000)).Cost);
    }

    /// <summary>Two slanted pieces of 90 and 80 could share 50 of their runs, were there a stick of 120; on sticks of 100 they lie apart, and with seven of 5 they take 205.</summary>
    [Fact]
    public void Ends_of_pieces_that_no_stick_holds_together_share_nothing()
    {
        var problem = new StickProblem([new StockStick("s", 100, 1)], [new StickPiece("a", 90, 1, 0, 50, Depth: 20), new StickPiece("b", 80, 1, 50, Depth: 20), new StickPiece("c", 5, 7)]);
        var plan = StickPlanner.Plan(problem, new StepBudget(5_000));
        Assert.Equal((3, 3, true), (plan.Cost, plan.LowerBound, plan.Proven));
        // On a stick of 121 they nest: 120 and nothing else; the seven take another.
        plan = StickPlanner.Plan(problem with { Stock = [new StockStick("s", 121, 1)] }, new StepBudget(5_000));
        Assert.Equal((2, 2, true), (plan.Cost, plan.LowerBound, plan.Proven));
    }

    /// <summary>A run of 20 leans by 45 degrees over a depth of 20 and by 63 over one of 10. Two pieces of 100 that nest take 180; ripped to other depths they lie apart and take 200.</summary>
    [Theory]
    [InlineData(20, 1)]
    [InlineData(10, 2)]
    public void Ends_of_pieces_of_other_depths_share_no_cut(long depth, int sticks)
    {
        var problem = new StickProblem([new StockStick("s", 180, 1)], [new StickPiece("a", 100, 1, 0, 20, Depth: 20), new StickPiece("b", 100, 1, 20, Depth: depth)]);
        Assert.Equal(sticks, StickPlanner.Plan(problem, new StepBudget(5_000)).Cost);
    }

    /// <summary>A run of 200 over a depth of 10 makes a blade of 3 cut 61 wide along the stick, for that end alone: 300 and 58 for it, and 97 and 3 for each square piece; the common factor of two goes out again.</summary>
    [Fact]
    public void A_long_slanted_cut_widens_no_kerf_but_its_own()
    {
        var problem = new StickProblem([new StockStick("s", 1000, 1)], [new StickPiece("a", 300, 1, 0, 200, Depth: 10), new StickPiece("b", 97, 16)], 3);
        var core = StickPlanner.Reduce(problem, false, [])!.Core;
        Assert.Equal([(100, 16), (361, 1)], core.Lengths.Zip(core.Demand).Order());
        Assert.Equal(1003, core.Segments[0][0]);
        // Ten square ones fill one stick, six of them and the slanted one another.
        var plan = StickPlanner.Plan(problem, new StepBudget(5_000));
        Assert.Equal((2, true), (plan.Cost, plan.Proven));
    }

    [Fact]
    public void Pieces_keep_clear_of_faults()
    {
        var problem = new StickProblem([new StockStick("s", 100, 1, 2, Faults: [new FaultyStretch(40, 45)])], [new StickPiece("a", 40), new StickPiece("b", 50), new StickPiece("c", 40)], 3);
        var plan = StickPlanner.Plan(problem, new StepBudget(2_000));
        PlanChecks.IsWhole(problem, plan);
        Assert.Equal(2, plan.Cost);
    }

    [Fact]
    public void Several_lengths_are_bought_at_least_cost()
    {
        // Four of 30 come out of one 120 for 10, cheaper than two of 60 for 6 each; counted by hand.
        var problem = new StickProblem([new StockStick("short", 60, 6), new StockStick("long", 120, 10)], [new StickPiece("p", 30, 4)]);
        var plan = StickPlanner.Plan(problem, new StepBudget(2_000));
        Assert.Equal((10, true), (plan.Cost, plan.Proven));
        Assert.Equal("long", problem.Stock[plan.Sticks.Single().Stock].Id);
    }

    [Fact]
    public void An_owned_offcut_goes_before_a_whole_sheet()
    {
        var problem = new SheetProblem([new StockSheet("sheet", 100, 100, 50), new StockSheet("offcut", 60, 60, 0, 1, true)], [new SheetPiece("p", 50, 50)], 2, true);
        var plan = SheetPlanner.Plan(problem, new StepBudget(500));
        Assert.Equal((0, true, 1), (plan.Cost, plan.Proven, plan.Sheets.Single().Stock));
    }

    [Fact]
    public void Tapers_pair_head_to_foot()
    {
        // A taper 60 at the foot and 20 at the head: a pair is 80 wide, two singles 120.
        OutlinePoint[] taper = [new(0, 0), new(60, 0), new(20, 50), new(0, 50)];
        var problem = new SheetProblem([new StockSheet("s", 80, 50, 9)], [new SheetPiece("t", 60, 50, 2, false, taper)], 0, true);
        var plan = SheetPlanner.Plan(problem, new StepBudget(1_000));
        Assert.Equal(9, plan.Cost);
        Assert.Equal([false, true], plan.Sheets.Single().Pieces.Select(p => p.HeadToFoot));
        Assert.True(plan.LowerBound <= plan.Cost);
        Assert.Equal(plan.LowerBound, SheetPlanner.CheckBound(problem, plan.Certificate!));
    }

    [Fact]
    public void Every_guillotine_layout_has_an_order_of_cuts_and_names_its_offcuts()
    {
        var problem = new SheetProblem([new StockSheet("s", 100, 60, 100, Trim: new SheetTrim(2, 0, 0, 0))], [new SheetPiece("p", 40, 57, 1, false)], 3, true, new OffcutRule(20, 20, 0.01m));
        var plan = SheetPlanner.Plan(problem, new StepBudget(500));
        Assert.Equal((100, 33), (plan.Cost, plan.Kept));
        var sheet = plan.Sheets.Single();
        Assert.Equal(new SheetCut(true, 2, 0, 60, 0), sheet.Cuts[0]);
        Assert.Contains(sheet.Cuts, c => c.Upright && c.At == 42);
        Assert.Contains(new SheetOffcut(45, 0, 55, 60), sheet.Offcuts);
    }

    [Fact]
    public void Once_the_cost_is_proven_the_largest_offcut_grows()
    {
        var grown = 0;
        for (ulong seed = 1; seed <= 12; seed++)
        {
            var random = new FixedRandom(seed);
            var pieces = Enumerable.Range(0, 9).Select(i => new SheetPiece($"p{i}", 12 + random.Below(25), 12 + random.Below(25))).ToArray();
            var problem = new SheetProblem([new StockSheet("s", 120, 120, 7)], pieces, 0, true);
            var (soon, later) = (SheetPlanner.Plan(problem, new StepBudget(1)), SheetPlanner.Plan(problem, new StepBudget(100_000)));
            PlanChecks.IsWhole(problem, later);
            Assert.Equal((7, 7, true), (soon.Cost, later.Cost, later.Proven));
            var (first, last) = (Largest(soon), Largest(later));
            Assert.True(last >= first, $"seed {seed}: {last} after {first}");
            grown += last > first ? 1 : 0;
        }

        Assert.True(grown >= 4, $"grown in {grown} of 12");

        static long Largest(SheetPlan plan) => plan.Sheets.SelectMany(s => s.Offcuts).Max(o => o.Area);
    }

    [Fact]
    public void Foam_is_ripped_from_the_board_that_leaves_least()
    {
        // Two layers of 24 and a rip of 2 make 50; the face holds four pieces, eight are wanted of 24.
        var problem = new FoamProblem([new StockBoard("b", 100, 100, 50, 30)], [new FoamPiece("p", 50, 50, 24, 8)], 0, 2);
        var plan = FoamPlanner.Plan(problem, new StepBudget(5_000));
        Assert.Empty(plan.Issues);
        Assert.Equal((30, 30, true), (plan.Cost, plan.LowerBound, plan.Proven));
        Assert.Equal([24, 24], plan.Boards.Single().Layers);
        Assert.Equal(30, FoamPlanner.CheckBound(problem, plan.Certificate));
        Assert.Null(FoamPlanner.CheckBound(problem with { Pieces = [.. problem.Pieces, new FoamPiece("q", 10, 10, 20)] }, plan.Certificate));
    }

    [Fact]
    public void A_roll_is_bought_in_the_shortest_length()
    {
        // Two strips of 40 lie side by side on 100, the third needs a second course of 50: 150 along.
        var problem = new RollProblem(100, 1000, 10, 4, [new SheetPiece("p", 40, 50, 2, false), new SheetPiece("q", 60, 100, 1, false)]);
        var plan = RollPlanner.Plan(problem, new StepBudget(20_000));
        Assert.Equal((100, 40, true), (plan.Length, plan.Cost, plan.Proven));
        Assert.True(RollPlanner.CheckBound(problem, plan));
    }

    /// <summary>Two strips of 95 wide, one 100 and one 110 long: beside each there is 5 of the width left, and where the length is cut off less than is worth keeping.</summary>
    [Theory]
    [InlineData(5, 50, true)]
    [InlineData(6, 50, false)]
    [InlineData(5, 250, false)]
    public void What_is_left_of_a_roll_is_kept_only_if_it_is_large_enough(long shortSide, long longSide, bool any)
    {
        var problem = new RollProblem(100, 4000, 10, 4, [new SheetPiece("p", 95, 100, 1, false), new SheetPiece("q", 95, 110, 1, false)], Offcuts: new OffcutRule(shortSide, longSide));
        var kept = RollPlanner.Plan(problem, new StepBudget(20_000)).Layout!.Offcuts;
        Assert.Equal(any, kept.Count > 0);
        Assert.All(kept, o => Assert.True(problem.Offcuts.Keeps(o.Width, o.Height)));
    }

    [Fact]
    public void What_is_left_of_a_roll_and_every_cut_lie_on_the_length_that_is_bought()
    {
        var random = new Random(6);
        var shortened = 0;
        for (var n = 0; n < 60; n++)
        {
            var pieces = Enumerable.Range(0, 1 + random.Next(8)).Select(i => new SheetPiece($"p{i}", 10 + random.Next(85), 10 + random.Next(150), 1 + random.Next(2), false)).ToArray();
            var problem = new RollProblem(100, 4000, 10, 4, pieces);
            var plan = RollPlanner.Plan(problem, new StepBudget(5_000));
            var layout = Assert.IsType<CutSheet>(plan.Layout);
            Assert.All(layout.Pieces, p => Assert.True(p.Y + p.Height <= plan.Length));
            Assert.All(layout.Offcuts, o => Assert.True(o.Height > 0 && o.Y + o.Height <= plan.Length));
            Assert.All(layout.Cuts, c => Assert.True(c.Upright ? c.From < c.To && c.To <= plan.Length : c.At < plan.Length && c.At > 0));
            // Cut from edge to edge, pieces and what is left make up the whole of it.
            Assert.Equal(100 * plan.Length, layout.Pieces.Sum(p => p.Width * p.Height) + layout.Offcuts.Sum(o => o.Area));
            shortened += plan.Length < 4000 ? 1 : 0;
        }

        Assert.InRange(shortened, 30, 60);
    }
}
