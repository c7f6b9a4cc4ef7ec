using System.Collections.Immutable;
using Wain.Core.Findings;
using Wain.Core.Findings.Renderers;

namespace Wain.Cli.Commands;

/// <summary>Shows findings in the form asked for, and says what they mean for the exit code.</summary>
public static class FindingsOutput
{
    public static void Print(ImmutableArray<Finding> findings, Options options, TextWriter output, bool counted = true)
    {
        switch (options.Choice("--as", "people", "people", "lines", "json", "sarif"))
        {
            case "lines": output.Write(LinesRenderer.Render(findings)); break;
            case "json": output.WriteLine(JsonRenderer.Render(findings)); break;
            case "sarif": output.WriteLine(SarifRenderer.Render(findings)); break;
            default: output.Write(PeopleRenderer.Render(findings, UseColour(output), counted)); break;
        }
    }

    public static bool Fails(ImmutableArray<Finding> findings, Options options) =>
        findings.HasErrors() || (options.Has("--warnings-are-errors") && findings.Any(f => f.Level == Level.Warning && f.AcceptedBecause is null));

    /// <summary>"no errors, 2 warnings, 1 note"</summary>
    public static string Count(ImmutableArray<Finding> findings)
    {
        var open = findings.Where(f => f.AcceptedBecause is null).ToList();
        string Of(Level level, string word)
        {
            int n = open.Count(f => f.Level == level);
            return n == 0 ? $"no {word}s" : n == 1 ? $"1 {word}" : $"{n} {word}s";
        }
        int accepted = findings.Length - open.Count;
        return $"{Of(Level.Error, "error")}, {Of(Level.Warning, "warning")}, {Of(Level.Note, "note")}" + (accepted > 0 ? $", {accepted} accepted" : "");
    }

    private static bool UseColour(TextWriter output)
    {
        if (!string.IsNullOrEmpty(Environment.GetEnvironmentVariable("NO_COLOR"))) return false;
        return (output == Console.Out && !Console.IsOutputRedirected) || (output == Console.Error && !Console.IsErrorRedirected);
    }
}
