using Wain.Cli.Commands;

namespace Wain.Tests.Revisions;

/// <summary>What if, and fresh outputs, through the command line.</summary>
public sealed class CommandTests : IDisposable
{
    private readonly RevisionFolder _folder = new();
    private readonly string _spec;

    public CommandTests() => _spec = _folder.At("old/camper.wain");

    public void Dispose() => _folder.Dispose();

    private (int Code, string Output, string Errors) Build(params string[] more) => RevisionFolder.Run(["build", _spec, "--out", _folder.At("out"), "--draft", .. more]);

    [Fact]
    public void Every_command_that_compiles_takes_another_value()
    {
        var without = CommandList.All.Where(c => c.Arguments.Contains("SPEC", StringComparison.Ordinal) && c.Options.All(o => o.Name != "--set")).Select(c => c.Name);
        Assert.Equal(["tidy"], without);
        string Of(params string[] args) => RevisionFolder.Run(args).Output;
        string area = Of("query", _spec, "bunk_floor.width");
        Assert.NotEqual(area, Of("query", _spec, "bunk_floor.width", "--set", "body_width=66 in"));
        Assert.Equal(area, Of("query", _spec, "bunk_floor.width", "--set", "body_width=64 in"));
        Assert.Contains("66", Of("trace", _spec, "bunk_floor.width", "--set", "body_width=66 in"));
        Assert.Equal(2, RevisionFolder.Run("check", _spec, "--set", "body_width").Code);
        Assert.NotEqual(0, RevisionFolder.Run("check", _spec, "--set", "body_widht=66 in").Code);
    }

    /// <summary>A price of 1 October 2026 is of that day in every form, and not of day 46296.</summary>
    [Theory]
    [InlineData("text")]
    [InlineData("csv")]
    [InlineData("json")]
    public void A_list_tells_days_as_days(string form)
    {
        string buy = RevisionFolder.Run("query", _spec, "buy", "--as", form).Output;
        Assert.Contains("2026-10-01", buy);
        Assert.DoesNotContain("46296", buy);
    }

    /// <summary>A sum of binary fractions is told to the twelve digits of the workbook, not to the seventeen of the machine: 95.2 and never 95.19999999999999.</summary>
    [Theory]
    [InlineData("csv")]
    [InlineData("json")]
    public void A_list_tells_figures_as_the_workbook_does(string form)
    {
        string lists = string.Concat(new[] { "buy", "layers", "panels" }.Select(list => RevisionFolder.Run("query", _spec, list, "--as", form).Output));
        var figures = System.Text.RegularExpressions.Regex.Matches(lists, @"(?<![\w.])\d+\.\d+(?![\w.])").Select(m => m.Value).ToList();
        Assert.NotEmpty(figures);
        Assert.All(figures, f => Assert.InRange(f.Replace(".", "", StringComparison.Ordinal).TrimStart('0').Length, 0, 12));
    }

    [Fact]
    public void Placing_is_a_list_of_corners() => Assert.Contains("nose_wall 1,nose_wall,bottom", RevisionFolder.Run("query", _spec, "placing", "--as", "csv").Output);

    /// <summary>No picture goes round without saying whose it is, and that it is a draft while it is one.</summary>
    [Fact]
    public void Every_picture_of_a_draft_says_so_with_the_errors()
    {
        File.WriteAllText(_spec, RevisionFolder.Main.Replace("nose_width = 52 in", "nose_width = 53 in", StringComparison.Ordinal));
        Assert.Equal(1, Build().Code);
        var pictures = Directory.GetFiles(_folder.At("out/camper"), "*.svg", SearchOption.AllDirectories);
        var plots = pictures.Where(p => p.Contains("plots", StringComparison.Ordinal)).ToList();
        Assert.NotEmpty(plots);
        Assert.All(plots, p => Assert.Contains("Sandpiper, revision A, values ", File.ReadAllText(p)));
        Assert.All(pictures, p =>
        {
            string text = File.ReadAllText(p);
            Assert.Contains(">DRAFT<", text);
            Assert.Contains("WN4001", text);
        });
    }

    [Fact]
    public void Verify_writes_nothing_and_tells_stale_missing_and_edited()
    {
        Build();
        string folder = _folder.At("out/camper");
        var times = Directory.GetFiles(folder, "*", SearchOption.AllDirectories).ToDictionary(f => f, File.GetLastWriteTimeUtc);
        int drafts = Build("--verify").Code;
        Assert.Contains("all fresh", Build("--verify").Output);

        // A second build of the same writes no file.
        Assert.Contains(": 0 files written", Build().Output);
        Assert.All(times, t => Assert.Equal(t.Value, File.GetLastWriteTimeUtc(t.Key)));

        File.Delete(Path.Combine(folder, "model.json"));
        File.AppendAllText(Path.Combine(folder, "summary.md"), "mine\n");
        File.WriteAllText(_spec, RevisionFolder.Main.Replace("at (10 in, 8 in)", "at (12 in, 8 in)", StringComparison.Ordinal));
        var (code, output, errors) = Build("--verify");
        Assert.Equal(1, code);
        Assert.DoesNotContain("all fresh", output);
        Assert.Contains("missing: ", errors);
        Assert.Contains("model.json", errors);
        Assert.Contains("/summary.md: was changed since it was written", errors);
        Assert.Contains("stale: ", errors);
        Assert.False(File.Exists(Path.Combine(folder, "model.json")));
        Assert.True(drafts is 0 or 1);

        // The build that follows keeps what was edited until it is told otherwise, and then all is fresh.
        Assert.Equal(2, Build().Code);
        Build("--replace");
        Assert.Contains("all fresh", Build("--verify").Output);
    }

    [Fact]
    public void A_sweep_over_two_values_has_a_row_for_each_pair()
    {
        var (code, output, _) = RevisionFolder.Run("sweep", _spec, "nose_width", "50 in", "52 in", "1 in", "body_width", "64 in", "66 in", "2 in", "--plot", _folder.At("two.svg"));
        Assert.Equal(0, code);
        Assert.Equal(6, output.Split('\n').Skip(1).TakeWhile(l => l.Length > 0).Count());
        string plot = File.ReadAllText(_folder.At("two.svg"));
        Assert.Contains("body_width 66 in", plot);
        Assert.Contains("Cost", plot);
    }
}
