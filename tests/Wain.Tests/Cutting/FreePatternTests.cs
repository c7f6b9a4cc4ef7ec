using CsCheck;
using Wain.Cli;
using Wain.Cli.Cutting;
using Wain.Core;
using Wain.Core.CutLists;
using Wain.Core.Text;
using Wain.Cutting;
using CutList = Wain.Core.CutLists.CutList;

namespace Wain.Tests.Cutting;

/// <summary>
/// Patterns that no cuts from edge to edge can make. The least of them, known to everybody who lays bricks or floors, has four rectangles round a fifth like the
/// sails of a pinwheel: each line that could part the sheet runs into one of the four. All sizes are invented.
/// </summary>
public sealed class FreePatternTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("wain-free").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    // With a kerf of 1/8 in two sides of 30 in and 20 in fill 50 1/8 in, and 30 in less 20 in and the kerf leaves room for 9 3/4 in in the middle.
    private static string Pinwheel(string cuts)
    {
        string text = $$"""
            written for wain 1
            camper "Demo" { kerf 1/8 in
                cuts {{cuts}} }
            sheet ply { thickness 6 mm
                size 50 1/8 in by 50 1/8 in, price 40 USD, on 2026-01-05
                grain none
                density 600 kg/m3 }
            stack skin { sheet ply }

            """;
        (string Name, string Along, string Up)[] panels = [("east", "30", "20"), ("north", "20", "30"), ("west", "30", "20"), ("south", "20", "30"), ("hub", "9 3/4", "9 3/4")];
        return text.ReplaceLineEndings("\n") + string.Concat(panels.Select((p, n) => $"panel {p.Name} of skin {{ through (0 in, 0 in, {n}0 in) along (0 in, -{p.Along} in, {n}0 in) up ({p.Up} in, 0 in, {n}0 in)\n }}\n"));
    }

    private (string Output, MaterialPlan Plan, CutList List) Cut(string text)
    {
        string spec = Path.Combine(_folder, "demo.wain"), into = Path.Combine(_folder, "out");
        File.WriteAllText(spec, text);
        var (output, errors) = (new StringWriter(), new StringWriter());
        Assert.True(Entry.Run(["cut", spec, "--steps", "50000", "--out", into], output, errors) == 0, output.ToString() + errors);
        var compiled = Compiler.Compile(new SourceText("demo.wain", text), plan: KeptPlan.Read(Path.Combine(into, "demo")));
        Assert.DoesNotContain(compiled.Findings, f => f.Code is "WN7010" or "WN7011");
        string said = output.ToString();
        Assert.True(Entry.Run(["build", spec, "--out", into], output, errors) == 0, errors.ToString());
        return (said, compiled.Design!.Cutting!.Of("ply")!, compiled.Design.CutLists.Single());
    }

    [Fact]
    public void A_pinwheel_takes_one_sheet_with_a_router_and_two_with_a_saw_from_edge_to_edge()
    {
        var (said, free, list) = Cut(Pinwheel("free"));
        Assert.Contains("1 with stopped cuts", said);
        Assert.Equal((4000L, 1, true), (free.Cost, free.Sheets.Sum(s => s.Times), free.IsProven));
        var sheet = Assert.Single(free.Sheets);
        Assert.True(CuttingTables.HasStops(sheet));
        // Each of the four lines round the middle is cut once, and two cuts more take from the middle what it has over its part.
        Assert.Equal((6, 6), (sheet.Cuts.Length, sheet.Cuts.Count(c => c.Level == PlannedCut.Stopped)));
        string workbook = File.ReadAllText(Path.Combine(_folder, "out", "demo", "workbook.txt"));
        Assert.Contains("rip, stopped", workbook);
        Assert.Contains("jigsaw or a router", workbook);
        Assert.Contains("A stopped cut begins or ends inside", File.ReadAllText(Path.Combine(_folder, "out", "demo", "cutting", "ply_1.svg")));

        (said, var saw, var sawn) = Cut(Pinwheel("guillotine"));
        Assert.DoesNotContain("stopped", said);
        Assert.Equal(8000L, saw.Cost);
        Assert.DoesNotContain(saw.Sheets, CuttingTables.HasStops);
        // The free plan is no plan for a saw, even with the mark of the other list.
        Assert.Contains("edge to edge", PlanCheck.FirstProblem(free with { Key = saw.Key }, sawn));
        Assert.NotEqual(CutListKey.Of(list), CutListKey.Of(sawn));
    }

    [Fact]
    public void The_check_follows_stopped_cuts()
    {
        var (_, plan, list) = Cut(Pinwheel("free"));
        var sheet = plan.Sheets[0];
        string? Problem(CutPlanSheet changed) => PlanCheck.FirstProblem(plan with { Sheets = [changed] }, list);
        Assert.Null(Problem(sheet));
        for (int i = 0; i < sheet.Cuts.Length; i++)
        {
            var cut = sheet.Cuts[i];
            PlannedCut[] wrong = [cut with { At = cut.At - 100 }, cut with { At = cut.At + 100 }, cut with { From = cut.From + 1000 }, cut with { To = cut.To - 1000 }, cut with { To = cut.To + 1000 }, cut with { Level = 1 }, cut with { From = cut.To }];
            Assert.All(wrong, w => Assert.NotNull(Problem(sheet with { Cuts = sheet.Cuts.SetItem(i, w) })));
            Assert.Matches("No cut parts|leave waste on", Problem(sheet with { Cuts = sheet.Cuts.RemoveAt(i) }));
        }
        // What is said to be kept must come out as well.
        Assert.Contains("to be kept", Problem(sheet with { Offcuts = [new KeptOffcut(0, 0, 10000, 10000)] }));
    }

    /// <summary>A sheet parted into four rectangles round a fifth, some of which are parted again from edge to edge.</summary>
    private static readonly Gen<SheetProblem> Pinwheels =
        from kerf in Gen.Long[0, 4]
        from x in Gen.Long[20, 45].Select(Gen.Long[60, 90])
        from y in Gen.Long[20, 45].Select(Gen.Long[60, 90])
        from parted in Gen.Bool.Array[5]
        from turn in Gen.Bool
        select Parted(kerf, 120, 130, x.Item1, x.Item2, y.Item1, y.Item2, parted, turn);

    private static SheetProblem Parted(long kerf, long width, long height, long x1, long x2, long y1, long y2, bool[] parted, bool turn)
    {
        // Sides with their kerf, which a sheet has once more at its far edges.
        (long W, long H)[] parts = [(x2, y1), (width + kerf - x2, y2), (width + kerf - x1, height + kerf - y2), (x1, height + kerf - y1), (x2 - x1, y2 - y1)];
        var pieces = parts.Zip(parted).SelectMany(p => !p.Second ? [p.First] : p.First.W > p.First.H ? [(p.First.W / 3, p.First.H), (p.First.W - p.First.W / 3, p.First.H)] : new[] { (p.First.W, p.First.H / 3), (p.First.W, p.First.H - p.First.H / 3) });
        return new SheetProblem([new StockSheet("s", width, height, 1)], [.. pieces.Select((p, i) => new SheetPiece($"p{i}", p.Item1 - kerf, p.Item2 - kerf, 1, turn))], kerf, false);
    }

    [Fact]
    public void A_sheet_parted_round_a_middle_goes_together_again() => Pinwheels.Sample(problem =>
    {
        var plan = SheetPlanner.Plan(problem, new StepBudget(300_000));
        PlanChecks.IsWhole(problem, plan);
        Assert.Equal((1L, true), (plan.Cost, plan.Proven));
    }, iter: 30);

    [Fact]
    public void No_layout_of_the_free_search_laps_leaves_its_sheet_or_turns_what_must_not()
    {
        var random = new Random(20261128);
        for (int k = 0; k < 60; k++)
        {
            int kinds = random.Next(1, 12), stocks = random.Next(1, 4);
            int[] Some(int low, int high, int n) => [.. Enumerable.Range(0, n).Select(_ => random.Next(low, high))];
            var core = new SheetCore(Some(2, 50, kinds), Some(2, 50, kinds), Some(1, 5, kinds), [.. Some(0, 2, kinds).Select(t => t == 1)],
                Some(50, 120, stocks), Some(50, 120, stocks), [.. Some(1, 9, stocks).Select(c => (long)c)], [-1, .. Some(-1, 3, stocks - 1)], false);
            var search = new FreePacking(core, new StepBudget(20_000), (ulong)k);
            search.Construct();
            search.Run(200, 0);
            var best = search.Best!;
            foreach (var layout in best.Layouts)
            {
                Assert.All(layout.Pieces, p =>
                {
                    Assert.True(p.X >= 0 && p.Y >= 0 && p.X + p.Width <= core.StockWidth[layout.Stock] && p.Y + p.Height <= core.StockHeight[layout.Stock]);
                    Assert.True((p.Width, p.Height) == (core.Width[p.Kind], core.Height[p.Kind]) || (core.MayTurn[p.Kind] && (p.Height, p.Width) == (core.Width[p.Kind], core.Height[p.Kind])));
                });
                for (int i = 0; i < layout.Pieces.Length; i++)
                    for (int j = 0; j < i; j++)
                    {
                        var (a, b) = (layout.Pieces[i], layout.Pieces[j]);
                        Assert.True(a.X + a.Width <= b.X || b.X + b.Width <= a.X || a.Y + a.Height <= b.Y || b.Y + b.Height <= a.Y);
                    }
            }
            Assert.Equal(core.Demand, Enumerable.Range(0, kinds).Select(kind => best.Layouts.Sum(l => l.Times * l.Pieces.Count(p => p.Kind == kind))));
            Assert.All(Enumerable.Range(0, stocks), s => Assert.True(core.Counts[s] < 0 || best.Layouts.Where(l => l.Stock == s).Sum(l => l.Times) <= core.Counts[s]));
        }
    }

    /// <summary>The free rectangles of a sheet against every rectangle of a small grid tried out.</summary>
    [Fact]
    public void Free_rectangles_are_all_the_largest_that_hold_no_piece() => Gen.Select(Gen.Int[0, 9], Gen.Int[0, 7], Gen.Int[1, 4], Gen.Int[1, 4]).Array[0, 8].Sample(tries =>
    {
        const int Width = 10, Height = 8;
        var sheet = new FreeSheet(1);
        sheet.Reset(0, Width, Height);
        var taken = new bool[Width, Height];
        long work = 0;
        bool Free(int x1, int y1, int x2, int y2) => x1 >= 0 && y1 >= 0 && x2 <= Width && y2 <= Height && !Enumerable.Range(x1, x2 - x1).Any(x => Enumerable.Range(y1, y2 - y1).Any(y => taken[x, y]));
        int laid = 0;
        foreach (var (x, y, w, h) in tries)
        {
            if (!Free(x, y, x + w, y + h)) continue;
            sheet.Insert(new Placed(laid++, x, y, w, h), ref work);
            for (int i = x; i < x + w; i++)
                for (int j = y; j < y + h; j++) taken[i, j] = true;
        }
        Same();
        if (laid < 2) return;
        var first = sheet.Piece(0);
        sheet.Remove([0], new int[laid], ref work);
        for (int i = first.X; i < first.X + first.Width; i++)
            for (int j = first.Y; j < first.Y + first.Height; j++) taken[i, j] = false;
        Same();

        void Same()
        {
            var largest = from x1 in Enumerable.Range(0, Width) from x2 in Enumerable.Range(x1 + 1, Width - x1) from y1 in Enumerable.Range(0, Height) from y2 in Enumerable.Range(y1 + 1, Height - y1)
                          where Free(x1, y1, x2, y2) && !Free(x1 - 1, y1, x2, y2) && !Free(x1, y1 - 1, x2, y2) && !Free(x1, y1, x2 + 1, y2) && !Free(x1, y1, x2, y2 + 1)
                          select (x1, y1, x2, y2);
            var found = Enumerable.Range(0, sheet.FreeCount).Select(i => sheet.Free(i)).Select(f => (f.X1, f.Y1, f.X2, f.Y2));
            Assert.Equal(largest.Order(), found.Order());
        }
    }, iter: 300);

    [Fact]
    public void A_thousand_small_parts_cut_free_end_within_the_budget_and_are_checked()
    {
        var random = new Random(20261130);
        var list = new CutList("m", "", CutKind.Sheet, 300, 0, false, 600, "USD", 0, false, [new CutStock("s", 240000, 120000, 1000, null, false, [])],
            [.. Enumerable.Range(0, 100).Select(i => new CutPart($"p{i}", random.Next(2000, 9000), random.Next(2000, 9000), 600, 10, false, []))]);
        var plan = CutRun.Plan(list, 20_000, _ => { }, default);
        Assert.Null(PlanCheck.FirstProblem(plan, list));
        // One cut beyond what anybody can follow is told, whatever it costs to write it down.
        var sheet = plan.Sheets[0] with { Parts = [], Offcuts = [], Cuts = [.. Enumerable.Range(0, 20_000).Select(i => new PlannedCut(i % 2 == 0, 1 + 5 * i, 3 + 5 * i, 4 + 5 * i, PlannedCut.Stopped, 0))] };
        Assert.Contains("too many to follow", PlanCheck.FirstProblem(plan with { Sheets = [sheet] }, list));
    }

    [Fact]
    public void Random_free_lists_give_plans_whose_cuts_free_every_part_and_offcut()
    {
        var random = new Random(20261129);
        int stopped = 0;
        for (int k = 0; k < 40; k++)
        {
            long trim = random.Next(2) * 600, kerf = random.Next(2) * 320;
            long x1 = random.Next(25, 45) * 1000, x2 = random.Next(60, 90) * 1000, y1 = random.Next(25, 45) * 1000, y2 = random.Next(60, 90) * 1000, w = 120000 + kerf - 2 * trim, h = 130000 + kerf - 2 * trim;
            // Two sheets parted round a middle that is a little larger than what is wanted of it, and small parts besides, which go into what is left.
            (long W, long H)[] parts = [(x2, y1), (w - x2, y2), (w - x1, h - y2), (x1, h - y1), (Math.Min(x2 - x1, 20000), y2 - y1)];
            var list = new CutList("m", "", k % 4 == 3 ? CutKind.Board : CutKind.Sheet, kerf, trim, false, 600, "USD", 0, false, [new CutStock("s", 120000, 130000, 1000, null, false, [])],
                [.. parts.Select((p, i) => new CutPart($"p{i}", p.W - kerf, p.H - kerf, 600, 2, false, [])), new CutPart("small", 9000, 4000, 600, random.Next(1, 4), true, [])]);
            var plan = CutRun.Plan(list, 100_000, _ => { }, default);
            Assert.Null(PlanCheck.FirstProblem(plan, list));
            Assert.True(PlanProof.Bound(list, plan) >= plan.Bound && plan.Bound > 0);
            stopped += plan.Sheets.Count(CuttingTables.HasStops);
        }
        Assert.True(stopped >= 20, $"{stopped} sheets with stopped cuts");
    }
}
