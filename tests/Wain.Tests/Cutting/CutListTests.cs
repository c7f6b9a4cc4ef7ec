using System.Collections.Immutable;
using Wain.Cli.Cutting;
using Wain.Core;
using Wain.Core.CutLists;
using Wain.Core.Drawing;
using Wain.Core.Reporting;
using Wain.Core.Text;

namespace Wain.Tests.Cutting;

/// <summary>What a spec says of stock, from the text to the plan. All figures are invented; expected counts are by hand.</summary>
public class CutListTests
{
    private const string Sheet = """
        written for wain 1
        camper "Demo" { kerf 1/8 in }
        sheet ply { thickness 6 mm
            SIZES
            density 600 kg/m3 }
        stack skin { sheet ply }

        """;

    private static string Deck(string name, int along, int up, string facts = "") =>
        $"panel {name} of skin {{ through (0 in, 0 in, 0 in) along ({along} in, 0 in, 0 in) up (0 in, {up} in, 0 in)\n    {facts} }}\n";

    private static Compilation Compiled(string text, PlanFile? plan = null) => Compiler.Compile(new SourceText("demo.wain", text.ReplaceLineEndings("\n")), plan: plan);

    private static (CutList List, MaterialPlan Plan) Planned(string text, int steps = 20_000)
    {
        var list = Compiled(text).Design!.CutLists.Single();
        return (list, Planned(list, steps));
    }

    private static MaterialPlan Planned(CutList list, long steps = 20_000, CancellationToken cancel = default)
    {
        var plan = CutRun.Plan(list, steps, _ => { }, cancel);
        Assert.Null(PlanCheck.FirstProblem(plan, list));
        Assert.True(plan.Bound == 0 || PlanProof.Bound(list, plan) >= plan.Bound);
        return plan;
    }

    [Fact]
    public void Of_several_sizes_the_cheapest_mix_is_bought_within_what_there_is()
    {
        // Three parts of 40 by 60: one to each small sheet (30), two to the large one (50). One large and one small is least; with a single small sheet as well.
        string text = Sheet.Replace("SIZES", "size 48 in by 72 in, price 30 USD, on 2026-01-05\n    size 48 in by 144 in, price 50 USD, on 2026-01-05") + Deck("a", 60, 40) + Deck("b", 60, 40) + Deck("c", 60, 40);
        Assert.Equal((8000L, true), (Planned(text).Plan.Cost, Planned(text).Plan.IsProven));
        var limited = Planned(text.Replace("price 50 USD, on 2026-01-05", "price 50 USD, on 2026-01-05, count 0")).Plan;
        Assert.Equal((9000L, 3), (limited.Cost, limited.Bought.Single().Count));
        var few = Planned(text.Replace("price 30 USD, on 2026-01-05", "price 30 USD, on 2026-01-05, count 0")).Plan;
        Assert.Equal((10000L, true), (few.Cost, few.IsProven));
    }

    [Fact]
    public void What_is_owned_is_cut_first_and_free_and_never_more_than_there_is()
    {
        string text = Sheet.Replace("SIZES", "size 48 in by 96 in, price 40 USD, on 2026-01-05") + Deck("a", 30, 20) + Deck("b", 30, 20);
        Assert.Equal(4000, Planned(text).Plan.Cost);
        var both = Planned(text + "owned rest of ply { size 20 in by 30 in, count 2 }\n").Plan;
        Assert.Equal((0L, true, 2), (both.Cost, both.IsProven, both.Sheets.Where(s => s.Owned).Sum(s => s.Times)));
        var (list, one) = Planned(text + "owned rest of ply { size 20 in by 30 in\n size 5 in by 5 in }\n");
        Assert.Equal((4000L, true), (one.Cost, one.IsProven));
        var twice = both with { Key = one.Key };
        Assert.Contains("there are 1", PlanCheck.FirstProblem(twice, list));
    }

    [Fact]
    public void Grain_is_by_panel_and_a_sheet_without_it_lets_parts_turn()
    {
        // Along the stock of 96 the two parts of 60 by 24 lie side by side, each 24 wide less the kerf's 1/8; grain up the panel wants 60 across 48 in.
        string text = Sheet.Replace("SIZES", "size 48 in by 96 in, price 40 USD, on 2026-01-05\n    grain along");
        Assert.Empty(Planned(text + Deck("a", 60, 23, "grain along")).Plan.Problems);
        Assert.DoesNotContain(Planned(text + Deck("a", 60, 23, "grain along")).Plan.Sheets.SelectMany(s => s.Parts), p => p.Turned);
        Assert.Contains(Compiled(text + Deck("a", 60, 23, "grain up")).Findings, f => f.Code == "WN4204");
        Assert.True(Planned(text.Replace("grain along", "grain none") + Deck("a", 47, 90)).List.Parts.Single().MayTurn);
    }

    [Fact]
    public void Sticks_avoid_faults_and_share_slanted_cuts()
    {
        string text = """
            written for wain 1
            camper "Demo" { kerf 1/8 in }
            sheet ply { thickness 6 mm
                size 48 in by 96 in, price 40 USD, on 2026-01-05 }
            stick strip { section 3/4 in by 1 1/2 in
                length 96 in, price 4 USD, on 2026-01-05 }
            stack skin { sheet ply
                core frame of strip, flat }
            owned knotty of strip { length 96 in
                faulty 20 in to 22 in
                faulty 60 in to 62 in }
            panel deck of skin { through (0 in, 0 in, 0 in) along (40 in, 0 in, 0 in) up (0 in, 30 in, 0 in)
                frame { studs every 16 in } }
            """;
        var list = Compiled(text).Design!.CutLists.Single(l => l.Material == "strip");
        CutFault[] faults = [new(50800, 55880), new(152400, 157480)];
        Assert.Equal(faults, list.Stock.Single(s => s.Owned).Faults.ToArray());
        var plan = Planned(list);
        Assert.Empty(plan.Problems);
        var owned = plan.Sheets.Single(s => s.Owned);
        Assert.All(owned.Parts, p => Assert.DoesNotContain(owned.Faults, f => p.X < f.To && f.From < p.X + p.Length));
        Assert.Contains("on a fault", PlanCheck.FirstProblem(plan with { Sheets = [.. plan.Sheets.Select(s => s == owned ? s with { Parts = s.Parts.SetItem(0, s.Parts[0] with { X = 53000 - s.Parts[0].Length / 2 }) } : s)] }, list) ?? "");

        // Four braces of 100 mm, both ends at 45 degrees over a depth of 20: nested, each but the last takes 100 - 20 and a cut of 3 over the root of a half.
        var braces = new CutList("bar", "", CutKind.Stick, 300, 0, true, 2000, "USD", 0, false, [new CutStock("bar", 0, 40000, 100, null, false, [])], [new CutPart("brace", 0, 10000, 2000, 4, true, [], 2000, 2000)]);
        var nested = Planned(braces);
        Assert.Equal(1, nested.Sheets.Sum(s => s.Times));
        Assert.All(nested.Sheets.Single().Parts, p => Assert.Equal(4, p.Outline.Length));
        Assert.Equal("45 deg, 45 deg", CuttingTables.Ends(nested.Sheets.Single().Parts[0]));
    }

    [Fact]
    public void Boards_are_ripped_to_thickness_and_the_rest_is_told()
    {
        // Two layers of 3/4 in and a kerf of 1/8 in come out of a board of 2 in, which leaves 2 - 2 x 3/4 - 2 x 1/8 = 1/4 in.
        string text = """
            written for wain 1
            camper "Demo" { kerf 1/8 in }
            sheet ply { thickness 6 mm
                size 48 in by 96 in, price 40 USD, on 2026-01-05 }
            stick strip { section 3/4 in by 1 1/2 in
                length 96 in, price 4 USD, on 2026-01-05 }
            board foam { thickness 2 in
                size 48 in by 96 in, price 60 USD, on 2026-01-05 }
            stack skin { sheet ply
                core frame of strip, flat, filled with foam }
            panel a of skin { through (0 in, 0 in, 0 in) along (90 in, 0 in, 0 in) up (0 in, 46 in, 0 in)
                frame { studs every 45 in } }
            panel b of skin { through (0 in, 0 in, 20 in) along (90 in, 0 in, 20 in) up (0 in, 46 in, 20 in)
                frame { studs every 45 in } }
            """;
        var list = Compiled(text).Design!.CutLists.Single(l => l.Material == "foam") with { Trim = 635 };
        var plan = Planned(list);
        Assert.Equal((6000L, true), (plan.Cost, plan.IsProven));
        var rip = Assert.Single(plan.Rips);
        Assert.Equal([1905L, 1905L], rip.Layers.ToArray());
        // A hundredth of a millimetre less, since the kerf is rounded up.
        Assert.InRange(rip.Left, 630, 635);
        Assert.All(plan.Sheets, s => Assert.Equal((1905L, 4), (s.Thickness, s.Cuts.Count(c => c.Level == 0))));
        Assert.Contains("More layers", PlanCheck.FirstProblem(plan with { Rips = [rip with { Layers = [1905] }] }, list));
        var rows = CuttingTables.Of(new CuttingPlan([], [plan]), new ReportUnits(Core.Text.Say.Usual, 16)).Single(t => t.Key == "rips").Rows;
        Assert.Single(rows);
    }

    [Fact]
    public void Strips_come_off_a_roll_in_the_shortest_run()
    {
        // Two strips of 20 in by 100 in lie side by side on 50 in of width, the third takes another 100 in: 200 in of one roll.
        var roll = new CutList("cloth", "", CutKind.Roll, 0, 0, true, 0, "USD", 0, false, [new CutStock("roll", 127000, 2540 * 900, 19000, null, false, [])],
            [new CutPart("a", 50800, 254000, 0, 3, false, [])]);
        var plan = Planned(roll);
        Assert.Equal((508000L, 1, true), (plan.Sheets.Single().Length, plan.Bought.Single().Count, plan.IsProven));
        // By the foot, 17 of them.
        var foot = roll with { Stock = [new CutStock("ft", 127000, 30480, 250, null, false, [])] };
        var run = Planned(foot);
        Assert.Equal((17 * 250L, 17, true), (run.Cost, run.Bought.Single().Count, run.IsProven));
    }

    [Fact]
    public void A_hollow_part_counts_in_the_bound_by_what_is_inside_it()
    {
        // An L of 40 in by 90 in with a leg of 20 in: 4000 of 8640 of a sheet in hundredths of what it takes. Five of them take more than two sheets by area.
        ImmutableArray<CutPoint> outline = [new(0, 0), new(101600, 0), new(101600, 50800), new(50800, 50800), new(50800, 228600), new(0, 228600)];
        var list = new CutList("ply", "", CutKind.Sheet, 300, 0, true, 600, "USD", 0, false, [new CutStock("sheet", 121920, 243840, 4000, null, false, [])], [new CutPart("ell", 101600, 228600, 600, 8, false, outline)]);
        Assert.True(Planned(list).Bound >= 8000);
    }

    [Fact]
    public void Random_lists_give_plans_that_can_be_followed_and_prove_their_bounds()
    {
        var random = new Random(20261125);
        for (int k = 0; k < 40; k++)
        {
            var kind = (CutKind)(k % 3);
            long Size(int low, int high) => random.Next(low, high) * 10L;
            ImmutableArray<CutPart> parts = [.. Enumerable.Range(0, random.Next(1, 12)).Select(i =>
            {
                long w = Size(300, 6000), l = Size(300, 9000), run = kind == CutKind.Stick && random.Next(2) == 0 ? Size(1, 29) : 0;
                ImmutableArray<CutPoint> taper = kind == CutKind.Sheet && random.Next(3) == 0 ? [new(0, 0), new(w, 0), new(w * 2 / 3, l), new(w / 5, l)] : [];
                return new CutPart($"p{i}", kind == CutKind.Stick ? 0 : w, l, kind == CutKind.Board ? random.Next(1, 3) * 900 : 600, random.Next(1, 6), random.Next(2) == 0, taper, run, random.Next(2) * run, random.Next(2) == 0);
            })];
            ImmutableArray<CutStock> stock = [.. Enumerable.Range(0, random.Next(1, 3)).Select(i => new CutStock($"s{i}", kind == CutKind.Stick ? 0 : 60000 + i * 7000, 95000 + i * 9000, 1000 + i * 190, null, false, [])),
                .. kind == CutKind.Board ? [] : new[] { new CutStock("owned", kind == CutKind.Stick ? 0 : 30000, 50000, 0, 2, true, kind == CutKind.Stick ? [new CutFault(9000, 9700)] : []) }];
            var list = new CutList("m", "", kind, random.Next(2) * 320, kind == CutKind.Stick ? 0 : random.Next(2) * 600, true, kind == CutKind.Board ? 2500 : 300, "USD", 0, false, stock, parts);
            var plan = Planned(list, 3_000);
            Assert.Equal(plan.Sheets.Length == 0, plan.Cost == 0 && plan.Sheets.IsEmpty);
        }
    }

    [Fact]
    public void A_thousand_alike_a_million_sticks_and_parts_that_fit_nothing_end_within_the_budget()
    {
        var bar = new CutList("bar", "", CutKind.Stick, 300, 0, true, 100, "USD", 0, false, [new CutStock("bar", 0, 600000, 1000, null, false, [])], [new CutPart("a", 0, 100000, 0, 1_000_000, true, [])]);
        // Five of 1000 mm and their kerfs come out of 6 m, so 200,000 bars.
        var million = Planned(bar);
        Assert.Equal((200_000, true), (million.Bought.Single().Count, million.IsProven));
        Assert.Equal(1_000_000, Planned(bar with { Stock = [bar.Stock[0], new CutStock("rest", 0, 100000, 0, 1_000_000, true, [])] }).Sheets.Where(s => s.Owned).Sum(s => s.Times));
        var sheet = new CutList("ply", "", CutKind.Sheet, 300, 0, true, 600, "USD", 0, false, [new CutStock("sheet", 121920, 243840, 4000, null, false, [])], [new CutPart("a", 30000, 40000, 600, 1000, true, [])]);
        Assert.True(Planned(sheet).IsProven || Planned(sheet).Gap < 0.1);
        var none = CutRun.Plan(sheet with { Parts = [new CutPart("big", 300000, 400000, 600, 1, true, [])] }, 20_000, _ => { }, default);
        Assert.Single(none.Problems);
        Assert.NotEmpty(CutRun.Plan(sheet with { Stock = [new CutStock("nil", 0, 0, 1, null, false, [])] }, 20_000, _ => { }, default).Problems);
        Planned(sheet with { Kerf = 50000, Parts = [new CutPart("a", 3000, 4000, 600, 10, true, [])] });
        Planned(sheet, 1_000_000_000, new CancellationToken(canceled: true));
    }

    [Fact]
    public void The_plan_is_the_same_on_one_core_and_on_several()
    {
        var list = Drawing.Panels.Samples.Heron.CutLists.First(l => l.Material == "ply_9mm");
        string Text() => System.Text.Json.JsonSerializer.Serialize(CutRun.Plan(list, 20_000, _ => { }, default));
        string alone = Text();
        var together = new string[4];
        Parallel.For(0, together.Length, i => together[i] = Text());
        Assert.All(together, t => Assert.Equal(alone, t));
    }

    [Fact]
    public void Nothing_in_a_picture_overlaps_or_leaves_the_page()
    {
        var lists = Drawing.Panels.Samples.Heron.CutLists;
        var plan = new CuttingPlan([], [.. lists.Select(l => CutRun.Plan(l, 2_000, _ => { }, default))]);
        int seen = 0;
        foreach (var picture in new[] { Core.Drawing.Paper.Letter, Core.Drawing.Paper.A4 }.SelectMany(paper => CuttingPictures.Of(plan, new ReportUnits(Core.Text.Say.Usual, 16), new() { Camper = "Heron", Paper = paper })))
        {
            var texts = Texts(picture.Sheet.Marks).ToList();
            var page = SheetFrame.Area(picture.Sheet.Paper, picture.Sheet.Title);
            Assert.All(texts, t => Assert.True(page.Contains(t.Bounds), $"{picture.Name}: {t.Text}"));
            for (int i = 0; i < texts.Count; i++)
                for (int j = 0; j < i; j++)
                    Assert.False(texts[i].Bounds.Grow(-0.2).Overlaps(texts[j].Bounds.Grow(-0.2)), $"{picture.Name}: {texts[i].Text} and {texts[j].Text}");
            seen++;
        }
        Assert.True(seen > 20);
    }

    private static IEnumerable<TextMark> Texts(IEnumerable<Mark> marks) => marks.SelectMany(m => m switch { TextMark t => [t], GroupMark g => Texts(g.Marks), _ => (IEnumerable<TextMark>)[] });
}
