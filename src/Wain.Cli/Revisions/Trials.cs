using System.Collections.Concurrent;
using Wain.Core;
using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Revisions;
using Wain.Core.Syntax;
using Wain.Core.Units;

namespace Wain.Cli.Revisions;

/// <summary>One trial of a spec with other values.</summary>
public sealed record Trial(Quantity First, Quantity? Second, KeyFigures Figures, bool Fails, IReadOnlyList<string> Errors, IReadOnlyList<string> Findings);

/// <summary>Compiles a spec at every value asked for.</summary>
public static class Trials
{
    /// <summary>The values of one or two names out of the words NAME FROM TO STEP.</summary>
    public static List<Steps> Read(string spec, IReadOnlyList<string> words, Options options)
    {
        var compiled = SpecFiles.Compile(spec, options);
        var all = new List<Steps>();
        for (int i = 0; i + 3 < words.Count; i += 4)
        {
            var (steps, problem) = Steps.Read(compiled, words[i], words[i + 1], words[i + 2], words[i + 3]);
            all.Add(steps ?? throw new UsageError(problem!));
        }
        if (all.Count == 2 && all[0].Name == all[1].Name) throw new UsageError($"{all[0].Name} is given twice.");
        if (all.Count == 2 && all[0].Values.Length * all[1].Values.Length > Steps.Limit) throw new UsageError($"Together that would be {all[0].Values.Length * all[1].Values.Length} trials; {Steps.Limit} are made at most.");
        return all;
    }

    /// <summary>In the order of the values, the first name's slowest. Files are read once.</summary>
    public static Trial[] Run(string spec, IReadOnlyList<Steps> steps, Options options)
    {
        var main = SpecFiles.Read(spec);
        var read = SpecFiles.IncludesOf(spec);
        var files = new ConcurrentDictionary<string, (Core.Text.SourceText?, string?)>(StringComparer.Ordinal);
        IncludeReader includes = path => files.GetOrAdd(path, p => read(p));
        var given = SpecFiles.Given(options.Values("--set"));
        var values = steps[0].Values.SelectMany(a => steps.Count > 1 ? steps[1].Values.Select(b => (a, (Quantity?)b)) : [(a, null)]).ToArray();
        var trials = new Trial[values.Length];
        Parallel.For(0, values.Length, i =>
        {
            var at = new Dictionary<string, Expression>(given, StringComparer.Ordinal) { [steps[0].Name] = Steps.Expression(values[i].a) };
            if (values[i].Item2 is { } second) at[steps[1].Name] = Steps.Expression(second);
            var compiled = Compiler.Compile(main, includes, at);
            bool fails = Commands.FindingsOutput.Fails(compiled.Findings, options) || compiled.Design is null;
            trials[i] = new Trial(values[i].a, values[i].Item2, KeyFigures.Of(compiled), fails,
                Told(compiled, f => f.Level == Level.Error), Told(compiled, f => f.Level != Level.Note));
        });
        return trials;
    }

    /// <summary>Codes with what they are about, and how often where that is more than once.</summary>
    private static List<string> Told(Compilation compiled, Func<Finding, bool> wanted) =>
        [.. compiled.Findings.Where(f => f.AcceptedBecause is null && wanted(f)).GroupBy(f => f.Code + (f.Subject.Length > 0 ? " " + f.Subject : "")).OrderBy(g => g.Key, StringComparer.Ordinal).Select(g => g.Count() > 1 ? $"{g.Key} ({g.Count()} times)" : g.Key)];
}
