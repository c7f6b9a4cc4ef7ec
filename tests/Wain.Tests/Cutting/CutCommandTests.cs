using System.Text.RegularExpressions;
using Wain.Cli;
using Wain.Cli.Commands;
using Wain.Cli.Cutting;
using Wain.Core;
using Wain.Core.CutLists;
using Wain.Core.Findings;
using Wain.Core.Text;

namespace Wain.Tests.Cutting;

/// <summary>From a spec to a plan that is kept, shown and told when it is old. All figures are invented; plans are judged by a check that has none of the planner's code.</summary>
public sealed class CutCommandTests : IDisposable
{
    // Four decks of 40 in by 40 in: from sheets of 48 in by 96 in at most two come out of each, since 3 x 40 in is more than 96 in and 2 x 40 in more than 48 in.
    private const string Text = """
        written for wain 1
        camper "Demo" { kerf 1/8 in }
        sheet ply { thickness 6 mm
            size 48 in by 96 in, price 40 USD, on 2026-01-05
            density 600 kg/m3 }
        stick strip { section 3/4 in by 1 1/2 in
            length 96 in, price 4 USD, on 2026-01-05
            density 450 kg/m3 }
        board foam { thickness 3/4 in
            size 48 in by 96 in, price 20 USD, on 2026-01-05
            density 30 kg/m3 }
        stack skin { sheet ply
            core frame of strip, flat, filled with foam }

        """;

    private readonly string _folder = Directory.CreateTempSubdirectory("wain-cut").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private static string Decks(string side = "40 in") => Text.ReplaceLineEndings("\n") + "\n" + string.Concat(Enumerable.Range(1, 4).Select(n =>
        $"panel deck{n} of skin {{ through (0 in, 0 in, {n}0 in) along (0 in, -{side}, {n}0 in) up (40 in, 0 in, {n}0 in)\n    frame {{ studs every 16 in }} }}\n"));

    private string Spec(string text)
    {
        string path = Path.Combine(_folder, "demo.wain");
        File.WriteAllText(path, text.ReplaceLineEndings("\n"));
        return path;
    }

    private (int Code, string Output, string Errors) Wain(params string[] args)
    {
        var (output, errors) = (new StringWriter(), new StringWriter());
        return (Entry.Run([.. args, "--out", Path.Combine(_folder, "out")], output, errors), output.ToString(), errors.ToString());
    }

    private string Folder => Path.Combine(_folder, "out", "demo");

    private string Kept => Path.Combine(Folder, KeptPlan.Name);

    private Compilation Compiled(string text) => Compiler.Compile(new SourceText("demo.wain", text.ReplaceLineEndings("\n")), plan: KeptPlan.Read(Folder));

    private CuttingPlan Cut(string text, int steps = 20_000)
    {
        var run = Wain("cut", Spec(text), "--steps", steps.ToString());
        Assert.True(run.Code == 0, run.Output + run.Errors);
        var compiled = Compiled(text);
        Assert.DoesNotContain(compiled.Findings, f => f.Code is "WN7010" or "WN7011");
        return compiled.Design!.Cutting!;
    }

    [Fact]
    public void A_plan_is_whole_cheapest_and_the_same_twice()
    {
        var ply = Cut(Decks()).Of("ply")!;
        Assert.Equal((2, 8000, true), (ply.Bought.Sum(b => b.Count), ply.Cost, ply.IsProven));
        byte[] kept = File.ReadAllBytes(Kept);
        File.Delete(Kept);
        Cut(Decks());
        Assert.Equal(kept, File.ReadAllBytes(Kept));
    }

    /// <summary>A deck of 100 in by 40 in comes out of no sheet and no stick of 96 in: what is bought for the rest is no sum that nothing could undercut.</summary>
    [Fact]
    public void Nothing_is_proven_of_a_sum_that_lacks_parts()
    {
        var (code, output, _) = Wain("cut", Spec(Decks() + "panel long of skin { through (0 in, 0 in, 90 in) along (0 in, -100 in, 90 in) up (40 in, 0 in, 90 in)\n    frame { studs every 16 in } }\n"), "--steps", "2000");
        Assert.Equal(1, code);
        Assert.Contains("ply: ", output);
        Assert.Matches("All: [0-9.]+ USD; not whole: some parts have no place", output);
        Assert.DoesNotMatch("All:.*proven", output);
    }

    [Fact]
    public void What_the_proof_does_not_cover_is_told_where_a_part_is_no_rectangle()
    {
        Assert.DoesNotContain(CuttingTables.Boxed, Wain("cut", Spec(Decks()), "--steps", "20000").Output);
        string notched = Text + """

            plan ell {
                start at (0 in, 20 in)
                leg outer run 40 in
                leg front across 20 in
                leg in_run to (20 in, 0 in)
                leg in_across to (20 in, -20 in)
                leg inner to (0 in, -20 in)
                leg rear home
            }
            stack board { sheet ply }
            panel deck of board { covers plan ell, top at 0 in }
            """;
        Assert.Contains($"Of ply: a {CuttingTables.Boxed}", Wain("cut", Spec(notched), "--steps", "20000").Output);
    }

    /// <summary>Beside a member that is ripped narrow, the ends of the others keep their own angles: 8.5 degrees of the taper of the deck, and no more.</summary>
    [Fact]
    public void Angles_of_ends_are_those_of_each_stick_by_itself()
    {
        string text = Text + """

            plan bunk {
                start at (0 in, 32 in)
                leg left_nose run 40 in, inward 8.5308 deg, width 52 in
                leg nose across 52 in
                leg right_nose mirror of left_nose
                leg aft home, across 64 in
            }
            panel deck of skin { covers plan bunk, top at 0 in
                frame { studs count 1 } }
            panel low of skin { through (0 in, 0 in, 40 in) along (0 in, -20 in, 40 in) up (20 in, 0 in, 40 in)
                frame { studs every 2 in } }
            """;
        var plan = Cut(text);
        var compiled = Compiled(text);
        Assert.Contains(compiled.Design!.Frames.Members, m => m.Width < 1.4 * 25.4);
        var tables = CuttingTables.Of(plan, new Core.Reporting.ReportUnits(Core.Text.Say.Usual, 16));
        string[] Words(string table, string column) => [.. tables.Single(t => t.Key == table) is var t ? t.Rows.Select(r => r.Cells[t.ColumnIndex(column)]).OfType<Core.Reporting.Cell.Words>().Select(w => w.Value) : []];
        string[] leans = [.. Words("cuts", "way").Where(w => w.EndsWith(" deg", StringComparison.Ordinal))];
        Assert.True(leans.Length >= 4, string.Join(", ", leans));
        Assert.All(leans, w => Assert.Equal("8.5 deg", w));
        Assert.Contains(Words("sticks", "parts"), w => w.Contains("deck.rail_aft 64\u00A0in (ends 8.5 deg, 8.5 deg)", StringComparison.Ordinal));
        Assert.All(Words("sticks", "parts"), w => Assert.DoesNotMatch(new Regex("(?<![0-9.])(?!8[.]5 )[0-9.]+ deg"), w));
    }

    /// <summary>Two squares of 40 in out of a sheet of 48 in by 96 in, by hand: 3,200 of 4,608 square inches.</summary>
    [Fact]
    public void The_table_says_how_much_of_a_sheet_goes_into_parts()
    {
        var plan = Cut("""
            sheet ply {
                thickness 6 mm
                size 48 in by 96 in, price 20 USD
            }
            stack board { sheet ply }
            panel one of board { through (0 in, 40 in, 0 in) along (0 in, 0 in, 0 in) up (40 in, 40 in, 0 in) }
            panel two of board { through (0 in, 40 in, 9 in) along (0 in, 0 in, 9 in) up (40 in, 40 in, 9 in) }

            """);
        var table = CuttingTables.Of(plan, new Core.Reporting.ReportUnits(Core.Text.Say.Usual, 16)).Single(t => t.Key == "cutting");
        Assert.Equal(3200 / 4608.0, Assert.IsType<Core.Reporting.Cell.Number>(Assert.Single(table.Rows).Cells[table.ColumnIndex("used")]).Value, 1e-6);
    }

    [Fact]
    public void An_unchanged_part_list_is_not_planned_again_and_a_changed_one_alone_is()
    {
        Cut(Decks());
        byte[] kept = File.ReadAllBytes(Kept);
        Assert.Contains("kept plan stays", Wain("cut", Spec(Decks()), "--steps", "20000").Output);
        Assert.Equal(kept, File.ReadAllBytes(Kept));
        string shorter = Decks().Replace("size 48 in by 96 in, price 20 USD", "size 48 in by 94 in, price 20 USD");
        var compiled = Compiled(shorter);
        var stale = Assert.Single(compiled.Findings, f => f.Code == "WN7010");
        Assert.Equal("foam", stale.Subject);
        Assert.Equal(["ply", "strip"], compiled.Design!.Cutting!.Materials.Select(m => m.Material));
        Cut(shorter);
        Assert.DoesNotContain(Compiled(shorter).Findings, f => f.Code == "WN7010");
    }

    [Fact]
    public void A_plan_outlives_prices_that_stand_to_each_other_as_before()
    {
        var before = Cut(Decks()).Of("foam")!;
        string dearer = Decks().Replace("price 20 USD", "price 25.50 USD");
        var compiled = Compiled(dearer);
        Assert.DoesNotContain(compiled.Findings, f => f.Code is "WN7010" or "WN7011");
        var after = compiled.Design!.Cutting!.Of("foam")!;
        Assert.Equal((before.Cost / 2000 * 2550, before.Bound / 2000 * 2550, before.IsProven), (after.Cost, after.Bound, after.IsProven));
        Assert.Contains("kept plan stays", Wain("cut", Spec(dearer), "--steps", "20000").Output);

        // Two sizes: both dearer by a tenth changes no choice; one alone may.
        string two = Decks().Replace("price 20 USD, on 2026-01-05", "price 20 USD, on 2026-01-05\n    size 48 in by 48 in, price 11 USD, on 2026-01-05");
        Cut(two);
        Assert.DoesNotContain(Compiled(two.Replace("price 20 USD", "price 22 USD").Replace("price 11 USD", "price 12.10 USD")).Findings, f => f.Code is "WN7010" or "WN7011");
        Assert.Equal("foam", Assert.Single(Compiled(two.Replace("price 11 USD", "price 9 USD")).Findings, f => f.Code == "WN7010").Subject);
        // A cost that is no whole number of what it is a multiple of was written by hand.
        File.WriteAllText(Kept, File.ReadAllText(Kept).Replace("\"Cost\": 8000", "\"Cost\": 8001"));
        Assert.Equal("ply", Assert.Single(Compiled(two.Replace("price 40 USD", "price 44 USD")).Findings, f => f.Code == "WN7011").Subject);
    }

    [Fact]
    public void A_build_uses_the_plan_keeps_it_and_tells_when_it_is_old()
    {
        string spec = Spec(Decks());
        Cut(Decks());
        var built = Wain("build", spec);
        Assert.True(built.Code == 0, built.Errors);
        Assert.DoesNotContain("WN7010", built.Errors);
        Assert.True(File.Exists(Path.Combine(Folder, "cutting", "ply_1.svg")));
        Assert.Contains("ply 1.01", File.ReadAllText(Path.Combine(Folder, "workbook.txt")));
        Assert.Contains("proven: no plan costs less", File.ReadAllText(Path.Combine(Folder, "summary.md")));
        Assert.Equal(0, Wain("build", spec, "--verify").Code);
        var old = Wain("build", Spec(Decks("41 in")));
        Assert.Contains("WN7010", old.Errors);
        Assert.True(File.Exists(Kept));
        Assert.False(File.Exists(Path.Combine(Folder, "cutting", "ply_1.svg")));
    }

    [Fact]
    public void What_the_plan_buys_is_what_the_buying_list_says_and_can_be_asked_and_traced()
    {
        string spec = Spec(Decks());
        Cut(Decks());
        var design = Compiled(Decks()).Design!;
        foreach (var m in design.Cutting!.Materials)
        {
            var lines = design.Takeoff.Buy.Where(b => b.Material.Name == m.Material).ToList();
            Assert.Equal(m.Bought.Sum(b => b.Count), lines.Sum(l => l.Packs));
            Assert.Equal(m.Cost / 100.0, lines.Sum(l => l.Cost!.Value), 9);
            Assert.All(lines, l => Assert.False(l.IsEstimate));
        }
        Assert.Equal("2", Wain("query", spec, "cutting.ply.bought").Output.Trim());
        Assert.StartsWith("80", Wain("query", spec, "cutting.ply.cost").Output.Trim());
        Assert.Contains("cutting.ply.cost", Wain("trace", spec, "cutting.cost").Output);
        Assert.Contains("ply 1", Wain("query", spec, "sheets").Output);
    }

    [Theory]
    // Three parts of 50 in by 40 in want a sheet of 48 in by 96 in each, though two sheets have their area; gussets come out of the rests, or 300 triangles of 32 square inches out of one sheet more.
    [InlineData(4, 3)]
    [InlineData(300, 4)]
    public void What_is_cut_beside_the_plan_never_makes_the_buying_list_shorter_than_it(int gussets, int sheets)
    {
        string text = $$"""
            camper "Demo" { kerf 1/8 in }
            sheet ply { thickness 6 mm
                size 48 in by 96 in, price 40 USD, on 2026-01-05
                density 600 kg/m3 }
            stack board { sheet ply }
            plan body {
                start at (-50 in, 20 in)
                leg left run 50 in
                leg front across 40 in
                leg right run 50 in
                leg rear home
            }
            panel deck of board { covers plan body, top at 0 in }
            panel left_wall of board { stands on body.left, from deck.top to 40 in }
            panel right_wall of board { stands on body.right, from deck.top to 40 in }
            joint left_wall.bottom to deck.top {
                butt
                gusset ply 8 in by 8 in, count {{gussets}}
            }
            """;
        Cut(text);
        var design = Compiled(text).Design!;
        Assert.Equal(3, design.Cutting!.Of("ply")!.Bought.Sum(b => b.Count));
        Assert.Equal(sheets, design.Takeoff.Buy.Single(b => b.Material.Name == "ply").Packs);
    }

    [Fact]
    public void A_plan_that_was_tampered_with_is_an_error()
    {
        Cut(Decks());
        string whole = File.ReadAllText(Kept);
        string Told(string text)
        {
            File.WriteAllText(Kept, text);
            var error = Compiled(Decks()).Findings.FirstOrDefault(f => f.Code == "WN7011" && f.Level == Level.Error);
            Assert.True(error is not null, text[..Math.Min(200, text.Length)]);
            return error.Message;
        }
        Assert.Contains("can't be read", Told("{ nonsense"));
        Assert.Contains("can't be read", Told("{}"));
        Assert.Contains("can't be read", Told("null"));
        Assert.Contains("can't be read", Told(whole.Replace("\"Cuts\": [", "\"Cats\": [")));
        // The bound of the cheapest kind of foam is raised to what is paid, with the proof as it was.
        Assert.Contains("proof", Told(Regex.Replace(whole, "\"Weight\": \"\\d+\"", "\"Weight\": \"0\"")));
        Assert.Contains("proof", Told(Regex.Replace(whole, "\"Proof\": \\{", "\"Proof\": {\"x\": 1}, \"Was\": {")));
        Assert.Contains("proof", Told(Regex.Replace(whole, "\"Scale\": (\\d+)", "\"Scale\": ${1}0")));
        File.WriteAllText(Kept, Regex.Replace(whole, "\"Weight\": \"\\d+\"", "\"Weight\": \"0\""));
        var built = Wain("build", Spec(Decks()));
        Assert.Equal(1, built.Code);
        Assert.Contains("WN7011", built.Errors);
    }

    [Fact]
    public void The_check_sees_a_plan_that_breaks_a_rule()
    {
        var plan = Cut(Decks());
        var list = Compiled(Decks()).Design!.CutLists.Single(l => l.Material == "ply");
        var ply = plan.Of("ply")!;
        MaterialPlan Sheet(Func<CutPlanSheet, CutPlanSheet> change) => ply with { Sheets = ply.Sheets.SetItem(0, change(ply.Sheets[0])) };
        Assert.Null(PlanCheck.FirstProblem(ply, list));
        (string Words, MaterialPlan Plan)[] broken =
        [
            ("times and needed", Sheet(s => s with { Parts = s.Parts.RemoveAt(0) })),
            ("beyond the edge", Sheet(s => s with { Parts = s.Parts.SetItem(0, s.Parts[0] with { X = s.Width }) })),
            ("less than a kerf", Sheet(s => s with { Parts = [.. s.Parts.Select(p => p with { X = s.Parts[0].X, Y = s.Parts[0].Y })] })),
            ("another size", Sheet(s => s with { Parts = s.Parts.SetItem(0, s.Parts[0] with { Length = s.Parts[0].Length - 1 }) })),
            ("no part of", Sheet(s => s with { Parts = s.Parts.SetItem(0, s.Parts[0] with { Mark = "deck9.ply" }) })),
            ("There is no stock", Sheet(s => s with { Width = s.Width + 1, Cuts = [.. s.Cuts.Select(c => c.Upright || c.To < s.Width ? c : c with { To = s.Width + 1 })] })),
            ("A cut", Sheet(s => s with { Cuts = s.Cuts.SetItem(0, s.Cuts[0] with { At = s.Cuts[0].At - 100 }) })),
            ("edge to edge", Sheet(s => s with { Cuts = s.Cuts.SetItem(0, s.Cuts[0] with { To = s.Cuts[0].To - 100 }) })),
            ("No cut parts", Sheet(s => s with { Cuts = [] })),
            ("The cost", ply with { Cost = ply.Cost + 1 }),
            ("above its cost", ply with { Bound = ply.Cost + 1 }),
            ("not what is cut", ply with { Bought = [ply.Bought[0] with { Count = 1 }], Cost = 4000, Bound = 0 }),
        ];
        foreach (var (words, changed) in broken) Assert.Contains(words, PlanCheck.FirstProblem(changed, list));
    }

    [Fact]
    public void Only_cutting_loads_the_planner()
    {
        string spec = Spec(Decks()), into = Path.Combine(_folder, "out");
        Assert.Equal("0 False", Child.Run(["loads", "build", spec, "--out", into]).Output.Trim());
        Assert.Equal("0 True", Child.Run(["loads", "cut", spec, "--out", into, "--steps", "1000"]).Output.Trim());
        // With a plan at hand, its proof is reckoned again.
        Assert.Equal("0 True", Child.Run(["loads", "build", spec, "--out", into]).Output.Trim());
        Assert.Equal("0 False", Child.Run(["loads", "check", spec]).Output.Trim());
    }

    /// <summary>Cancels when the search first tells how far it is, as a person does who has seen enough.</summary>
    private sealed class Impatient(CancellationTokenSource stop) : StringWriter
    {
        public override void Write(string? value)
        {
            base.Write(value);
            if (value?.Contains("% of the search", StringComparison.Ordinal) == true) stop.Cancel();
        }
    }

    [Fact]
    public void A_search_that_is_stopped_keeps_the_best_plan_so_far()
    {
        // Parts of many sizes, so that no plan is proven at once.
        string text = Text.ReplaceLineEndings("\n") + "\n" + string.Concat(Enumerable.Range(1, 24).Select(n =>
            $"panel deck{n} of skin {{ through (0 in, 0 in, {n}0 in) along (0 in, -{20 + n * 7 % 23} in, {n}0 in) up ({17 + n * 5 % 19} in, 0 in, {n}0 in)\n    frame {{ studs every 16 in }} }}\n"));
        using var stop = new CancellationTokenSource();
        var (output, errors) = (new StringWriter(), new Impatient(stop));
        var options = Options.Parse(CutCommand.Shape, [Spec(text), "--steps", "2000000000", "--out", Path.Combine(_folder, "out")]);
        Assert.Equal(0, CutCommand.Run(options, output, errors, watched: true, stop.Token));
        Assert.Contains("Ctrl-C keeps the best so far", errors.ToString());
        Assert.Contains("stopped early", output.ToString());
        var plan = Compiled(text).Design!.Cutting!;
        Assert.Equal(3, plan.Materials.Length);
        Assert.Contains(plan.Materials, m => m.Interrupted);
        Assert.All(plan.Materials, m => Assert.Empty(m.Problems));
        // The next run does not take the interrupted plan for a finished one, and loses nothing.
        var again = Cut(text);
        Assert.All(again.Materials, m => Assert.True(m.Cost <= plan.Of(m.Material)!.Cost));
        Assert.DoesNotContain(again.Materials, m => m.Interrupted);
    }

    [Fact]
    public void The_demo_is_planned_with_its_bounds()
    {
        var lists = Drawing.Panels.Samples.Heron.CutLists;
        var plans = lists.Select(l => CutRun.Plan(l, 5_000, _ => { }, default)).ToList();
        Assert.All(plans.Zip(lists), p => Assert.Null(PlanCheck.FirstProblem(p.First, p.Second)));
        Assert.All(plans, m => Assert.Empty(m.Problems));
        Assert.All(plans.Zip(lists), p => Assert.True(PlanProof.Bound(p.Second, p.First) >= p.First.Bound && p.First.Bound > 0));
        Assert.Contains(plans, m => m.IsProven);
    }
}
