using Wain.Cli.Revisions;

namespace Wain.Cli.Commands;

/// <summary>The largest or smallest value at which a spec has no error.</summary>
public static class SeekCommand
{
    public static readonly Command Shape = new("seek", "SPEC largest|smallest NAME FROM TO STEP",
        "Finds the largest or smallest value of a let at which the spec has no error. Every step is tried, since errors may come, go and come again. Exit code 1 if none will do.",
        [new("--set", "NAME=VALUE", "gives another let a value", Many: true), new("--warnings-are-errors", null, "a warning counts as an error")],
        ["wain seek my.wain largest body_width \"60 in\" \"80 in\" \"1/2 in\""], Run);

    private static int Run(Options options, TextWriter output, TextWriter errors)
    {
        if (options.Arguments.Count != 6 || options.Arguments[1] is not ("largest" or "smallest")) throw new UsageError("seek reads like this: wain seek SPEC largest NAME FROM TO STEP");
        string spec = options.Arguments[0], which = options.Arguments[1];
        var steps = Trials.Read(spec, [.. options.Arguments.Skip(2)], options)[0];
        var trials = Trials.Run(spec, [steps], options).OrderBy(t => t.First.Value).ToList();
        foreach (var (first, last, fails) in Stretches(trials))
        {
            string from = steps.Show(trials[first].First), to = steps.Show(trials[last].First);
            string range = first == last ? $"{steps.Name} {from}: " : $"{steps.Name} {from} to {to}: ";
            var codes = trials.Skip(first).Take(last - first + 1).SelectMany(t => t.Errors).Distinct().Take(4).ToList();
            foreach (string line in Core.Findings.Renderers.DisplayText.Wrapped(range + (fails ? "errors" + (codes.Count > 0 ? ", such as " + string.Join(", ", codes) : "") : "no error"), 78)) output.WriteLine("  " + line);
        }
        var good = trials.Where(t => !t.Fails).ToList();
        if (good.Count == 0)
        {
            output.WriteLine($"None of the {trials.Count} values tried is without errors.");
            return 1;
        }
        var best = which == "largest" ? good[^1] : good[0];
        output.WriteLine($"The {which} {steps.Name} without errors is {steps.Show(best.First)}, of {trials.Count} values tried.");
        return 0;
    }

    /// <summary>Runs of values that all fail or all do not.</summary>
    internal static IEnumerable<(int First, int Last, bool Fails)> Stretches(IReadOnlyList<Trial> trials)
    {
        int first = 0;
        for (int i = 1; i <= trials.Count; i++)
        {
            if (i < trials.Count && trials[i].Fails == trials[first].Fails) continue;
            yield return (first, i - 1, trials[first].Fails);
            first = i;
        }
    }
}
