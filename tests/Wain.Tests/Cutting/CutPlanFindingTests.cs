using System.Diagnostics;
using Wain.Cli;
using Wain.Cli.Cutting;
using Wain.Core;
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
