using Wain.Core;
using Wain.Core.Findings;
using Wain.Core.Text;

namespace Wain.Tests.Language;

/// <summary>The ten-minute first spec of the README, typed as it stands there.</summary>
public class ReadmeTests
{
    private static readonly string Text = File.ReadAllText(Path.Combine(Repository.Root, "README.md")).ReplaceLineEndings("\n");

    private static string Typed => string.Concat(Text.Split("```wain\n").Skip(1).Select(b => b[..b.IndexOf("```", StringComparison.Ordinal)]));

    [Fact]
    public void The_first_spec_compiles_without_errors_or_warnings() =>
        Assert.Empty(Compiler.Compile(new SourceText("first.wain", Typed)).Findings.Where(f => f.Level > Level.Note).Select(f => f.Message));

    [Fact]
    public void The_slip_that_the_readme_makes_is_told_with_the_value_that_mends_it()
    {
        Assert.Contains("change `width 52 in` to `width 53 in`", Text);
        // One slip, one finding: what follows from it is not told again.
        var slip = Assert.Single(Compiler.Compile(new SourceText("first.wain", Typed.Replace("width 52 in", "width 53 in", StringComparison.Ordinal))).Findings, f => f.Level > Level.Note);
        Assert.Equal("WN4001", slip.Code);
        Assert.Equal(["52 in"], slip.Fixes.Select(f => f.Text));
        Assert.Contains("width 53 in of leg left_nose", slip.Message);
        Assert.Contains("width 52 in", slip.Hint);
    }

    [Fact]
    public void Its_first_two_commands_are_the_main_job_and_the_tests()
    {
        var commands = Text.Split("```sh\n").Skip(1).Select(b => b[..b.IndexOf("```", StringComparison.Ordinal)].TrimEnd('\n')).Take(2).ToList();
        Assert.All(commands, c => Assert.DoesNotContain('\n', c));
        Assert.StartsWith("dotnet run -c Release --project src/Wain.Cli -- build specs/heron/heron.wain", commands[0]);
        Assert.Equal("dotnet test -c Release", commands[1]);
    }

    /// <summary>Every command of the program has its row.</summary>
    [Fact]
    public void Every_command_is_listed() => Assert.All(Cli.Commands.CommandList.All, c => Assert.Contains($"| `{c.Name}", Text));
}
