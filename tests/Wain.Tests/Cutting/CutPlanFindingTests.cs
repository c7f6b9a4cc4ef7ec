using System.Diagnostics;
using Wain.Cli;
using Wain.Cli.Cutting;
using Wain.Core;
using Wain.Core.CutLists;
using Wain.Core.Findings;
using Wain.Core.Text;

namespace Wain.Tests.Cutting;

/// <summary>What a kept plan is told of when it is not whole, when a price is missing and when a person stops the search. All figures are invented.</summary>
public sealed class CutPlanFindingTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("wain-cut-told").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    /// <summary>Decks of plywood alone, from sheets of 48 in by 96 in: at most two of 40 in by 40 in come out of each.</summary>
    private string Spec(string size, params (double Length, double Width)[] decks)
    {
        string text = $"written for wain 1\ncamper \"Demo\" {{ kerf 1/8 in }}\nsheet ply {{ thickness 6 mm\n    size 48 in by 96 in{size}\n    density 600 kg/m3 }}\nstack skin {{ sheet ply }}\n"
            + string.Concat(decks.Select((d, n) => FormattableString.Invariant($"panel deck{n + 1} of skin {{ through (0 in, 0 in, {n + 1}0 in) along (0 in, -{d.Length} in, {n + 1}0 in) up ({d.Width} in, 0 in, {n + 1}0 in) }}\n")));
        string path = Path.Combine(_folder, "demo.wain");
        File.WriteAllText(path, text);
        return path;
    }

    private string Out => Path.Combine(_folder, "out");

    private (int Code, Finding[] Findings) Cut(string spec)
    {
        var errors = new StringWriter();
        int code = Entry.Run(["cut", spec, "--steps", "2000", "--out", Out], TextWriter.Null, errors);
        var compiled = Compiler.Compile(new SourceText("demo.wain", File.ReadAllText(spec)), plan: KeptPlan.Read(Path.Combine(Out, "demo")));
        Assert.True(compiled.Design is not null, errors.ToString());
        return (code, [.. compiled.Findings.Where(f => f.Code is "WN7012" or "WN7014")]);
    }

    private static (double, double)[] Squares(int count) => [.. Enumerable.Repeat((40.0, 40.0), count)];

    [Fact]
    public void A_plan_for_which_the_stock_is_too_little_says_so_and_a_whole_one_does_not()
    {
        // Three squares take two sheets, and there is one.
        var (code, told) = Cut(Spec(", price 40 USD, on 2026-01-05, count 1", Squares(3)));
        Assert.Equal(1, code);
        Assert.Equal(("WN7012", Level.Warning, "ply"), (told.Single().Code, told.Single().Level, told.Single().Subject));
        Assert.Contains("not whole", told.Single().Message);
        (code, told) = Cut(Spec(", price 40 USD, on 2026-01-05, count 2", Squares(3)));
        Assert.Equal(0, code);
        Assert.Empty(told);
    }

    private (MaterialPlan Plan, string[] Left) CutOf(string material, string text)
    {
        string path = Path.Combine(_folder, "demo.wain");
        File.WriteAllText(path, text.ReplaceLineEndings("\n"));
        Assert.Equal(0, Entry.Run(["cut", path, "--steps", "20000", "--out", Out], TextWriter.Null, TextWriter.Null));
        var compiled = Compiler.Compile(new SourceText("demo.wain", File.ReadAllText(path)), plan: KeptPlan.Read(Path.Combine(Out, "demo")));
        return (compiled.Design!.Cutting!.Of(material)!, [.. compiled.Findings.Where(f => f.Code == "WN7015").Select(f => f.Subject)]);
    }

    [Theory]
    // A third square fits on what is owned and saves a sheet; on a smaller one none does.
    [InlineData("41 in by 41 in", 1, 1, true)]
    [InlineData("24 in by 24 in", 2, 0, true)]
    public void What_is_owned_is_used_where_it_saves_a_sheet_and_told_where_it_is_left(string owned, int bought, int used, bool proven)
    {
        var (plan, left) = CutOf("ply", File.ReadAllText(Spec(", price 40 USD, on 2026-01-05", Squares(3))) + $"owned scrap of ply {{ size {owned} }}\n");
        Assert.Equal((bought, used, proven), (plan.Bought.Sum(b => b.Count), plan.Sheets.Where(s => s.Owned).Sum(s => s.Times), plan.IsProven));
        Assert.Equal(used > 0 ? [] : new[] { "scrap" }, left);
    }

    private static string Cloth(string roll, string owned) => $$"""
        camper "Demo" { currency USD }
        sheet ply { thickness 6 mm
            size 48 in by 96 in
            density 600 kg/m3 }
        resin epoxy { density 1.1 g/cm3 }
        cloth glass { weight 6 oz/yd2
            roll 50 in wide, {{roll}}, price 12 USD, on 2026-01-05
            glass 50 %
            overlap 2 in }
        stack skin { cloth glass wet with epoxy
            sheet ply }
        panel deck1 of skin { through (0 in, 0 in, 0 in) along (0 in, -40 in, 0 in) up (90 in, 0 in, 0 in) }
        panel deck2 of skin { through (0 in, 0 in, 20 in) along (0 in, -40 in, 20 in) up (90 in, 0 in, 20 in) }
        {{owned}}
        """;

    [Fact]
    public void Owned_cloth_saves_a_roll_and_is_told_where_cloth_is_bought_by_the_run()
    {
        const string scrap = "owned scrap of glass { size 50 in by 100 in }";
        Assert.Equal(2, CutOf("glass", Cloth("120 in long", "")).Plan.Bought.Sum(b => b.Count));
        var (rolls, left) = CutOf("glass", Cloth("120 in long", scrap));
        Assert.Equal((1, 1), (rolls.Bought.Sum(b => b.Count), rolls.Sheets.Count(s => s.Owned)));
        Assert.Empty(left);
        var (run, told) = CutOf("glass", Cloth("1 yd long", scrap));
        // What could be saved by hand is no longer covered by the proof.
        Assert.False(run.IsProven);
        Assert.Equal(["scrap"], told);
        Assert.True(CutOf("glass", Cloth("1 yd long", "")).Plan.IsProven);
    }

    [Fact]
    public void Owned_boards_are_told_where_boards_are_ripped()
    {
        string Text(string owned) => $$"""
            camper "Demo" { currency USD }
            board foam_board { thickness 2 in
                size 48 in by 96 in, price 30 USD, on 2026-01-05
                density 30 kg/m3 }
            stack bed { foam foam_board thick 3/4 in }
            panel deck of bed { through (0 in, 0 in, 0 in) along (0 in, -40 in, 0 in) up (80 in, 0 in, 0 in) }
            {{owned}}
            """;
        Assert.True(CutOf("foam_board", Text("")).Plan.IsProven);
        var (plan, left) = CutOf("foam_board", Text("owned scrap of foam_board { size 48 in by 96 in }"));
        Assert.False(plan.IsProven);
        Assert.Equal(["scrap"], left);
    }

    [Fact]
    public void A_plan_without_a_price_goes_by_amounts_and_says_so()
    {
        var (code, told) = Cut(Spec("", Squares(2)));
        Assert.Equal(0, code);
        Assert.Equal(("WN7014", Level.Note, "ply"), (told.Single().Code, told.Single().Level, told.Single().Subject));
        Assert.Empty(Cut(Spec(", price 40 USD, on 2026-01-05", Squares(2))).Findings);
    }

    [Fact]
    public async Task An_interrupt_from_the_keyboard_ends_the_search_and_keeps_the_best_plan()
    {
        // The signal is sent to a process, and what it has loaded is read, in the ways of one system.
        if (!OperatingSystem.IsLinux()) return;
        // Parts of many sizes, few to a sheet: the bound stays two sheets below every plan, so the search goes on to the end of its steps.
        string spec = Spec(", price 40 USD, on 2026-01-05", [.. Enumerable.Range(1, 40).Select(n => (33.0 + n * 13 % 31, 15.0 + n * 11 % 19))]);
        // Whoever runs the tests may have told its children to pass over interrupts.
        var start = new ProcessStartInfo("env", ["--default-signal=INT", "dotnet", "exec", typeof(Child).Assembly.Location, "wain", "cut", spec, "--steps", "2000000000", "--out", Out])
        { RedirectStandardOutput = true, RedirectStandardError = true };
        using var child = Process.Start(start)!;
        var (output, errors) = (child.StandardOutput.ReadToEndAsync(), child.StandardError.ReadToEndAsync());
        try
        {
            while (!child.HasExited && !(await File.ReadAllTextAsync($"/proc/{child.Id}/maps")).Contains("Wain.Cutting.dll", StringComparison.Ordinal)) await Task.Delay(50);
            await Task.Delay(500);
            Assert.False(child.HasExited);
            using (var kill = Process.Start("kill", ["-INT", child.Id.ToString(System.Globalization.CultureInfo.InvariantCulture)])) await kill.WaitForExitAsync();
            using var patience = new CancellationTokenSource(TimeSpan.FromMinutes(4));
            await child.WaitForExitAsync(patience.Token);
        }
        finally
        {
            if (!child.HasExited) child.Kill();
        }
        Assert.True(child.ExitCode == 0, await errors);
        Assert.Contains("stopped early", await output);
        var plan = KeptPlan.Read(Path.Combine(Out, "demo"))!.Plan!.Of("ply")!;
        Assert.True(plan.Interrupted);
        Assert.Empty(plan.Problems);
        Assert.Equal(40, plan.Sheets.Sum(s => s.Times * s.Parts.Length));
    }
}
