using System.Globalization;
using Wain.Cli.Revisions;
using Wain.Core.Revisions;
using Wain.Core.Units;
using Wain.Reports.Svg;

namespace Wain.Cli.Commands;

/// <summary>What a design comes to over a range of one or two of its values.</summary>
public static class SweepCommand
{
    public static readonly Command Shape = new("sweep", "SPEC NAME FROM TO STEP [NAME FROM TO STEP]",
        "Compiles the spec at every value of a let, or of two, and shows weight, cost, balance and findings as a table and a plot. The values are written as in a spec.",
        [new("--plot", "FILE.svg", "where the plot is written; none if it is left out"), new("--set", "NAME=VALUE", "gives another let a value", Many: true), new("--warnings-are-errors", null, "a warning counts as an error")],
        ["wain sweep my.wain body_width \"60 in\" \"72 in\" \"1 in\" --plot width.svg", "wain sweep my.wain body_width \"60 in\" \"72 in\" \"4 in\" wall_top \"54 in\" \"60 in\" \"3 in\""], Run);

    private static int Run(Options options, TextWriter output, TextWriter errors)
    {
        if (options.Arguments.Count is not (5 or 9)) throw new UsageError("sweep needs a spec, a name and three values: wain sweep SPEC NAME FROM TO STEP");
        string spec = options.Arguments[0];
        var steps = Trials.Read(spec, [.. options.Arguments.Skip(1)], options);
        var trials = Trials.Run(spec, steps, options);
        var say = trials.FirstOrDefault()?.Figures.Say ?? Core.Text.Say.Usual;
        TrialTable.Print(output, steps, trials, say);
        TrialTable.TellBasis(output, trials.Select(t => t.Figures));
        if (options.Value("--plot") is { } file)
        {
            var points = trials.Select(t => new Trends.Point(t.Second is { } s ? $"{steps[1].Name} {steps[1].Show(s)}" : "", steps[0].Number(t.First), t.Figures)).ToList();
            File.WriteAllBytes(file, SvgWriter.Write(Trends.Draw($"{Path.GetFileNameWithoutExtension(spec)} over {string.Join(" and ", steps.Select(s => s.Name))}", $"{steps[0].Name}, {steps[0].Unit}", points, say)));
            errors.WriteLine($"{file} written");
        }
        return 0;
    }
}

/// <summary>Trials as a table for a terminal.</summary>
internal static class TrialTable
{
    public static void Print(TextWriter output, IReadOnlyList<Steps> steps, IReadOnlyList<Trial> trials, Core.Text.Say say)
    {
        bool balance = trials.Any(t => t.Figures.Balance is not null);
        var rows = new List<string[]> { (string[])[.. steps.Select(s => s.Name), $"weight {say.WeightUnit}", "from", "to", "cost", .. balance ? [$"centre {say.LengthUnit}"] : Array.Empty<string>(), "errors", "warns"] };
        foreach (var t in trials)
        {
            var f = t.Figures;
            rows.Add([steps[0].Show(t.First), .. t.Second is { } s ? [steps[1].Show(s)] : Array.Empty<string>(), Weight(f.Weight) + (f.IsWeightWhole ? "" : More), Weight(f.WeightLow), Weight(f.WeightHigh),
                Number(f.Cost, 2) + (f.IsCostWhole ? "" : More), .. balance ? [Number(f.Balance is { } mm ? say.Measured(mm) : null, say.Metric ? 0 : 1)] : Array.Empty<string>(), Number(f.Errors, 0), Number(f.Warnings, 0)]);
        }
        string Weight(double? kg) => Number(kg is { } k ? say.Weighed(k) : null, 1);
        Columns(output, rows);
        // What comes and goes from one value to the next, since a count alone hides an exchange of one finding for another.
        if (trials.Count < 2) return;
        var header = true;
        for (int i = 1; i < trials.Count; i++)
        {
            if (!Equals(trials[i].Second, trials[i - 1].Second) && steps.Count > 1 && !trials[i].First.Equals(trials[i - 1].First)) continue;
            var came = trials[i].Findings.Except(trials[i - 1].Findings).ToList();
            var went = trials[i - 1].Findings.Except(trials[i].Findings).ToList();
            if (came.Count + went.Count == 0) continue;
            if (header) output.WriteLine("\nFindings that come and go:");
            header = false;
            string at = steps[0].Show(trials[i].First) + (trials[i].Second is { } s ? ", " + steps[1].Show(s) : "");
            foreach (string line in Core.Findings.Renderers.DisplayText.Wrapped($"{at}: {string.Join(", ", came.Select(c => "+ " + c).Concat(went.Select(w => "- " + w)))}", 76)) output.WriteLine("  " + line);
        }
    }

    /// <summary>Stands behind a sum that lacks parts.</summary>
    public const string More = "+";

    public static void TellBasis(TextWriter output, IEnumerable<KeyFigures> figures)
    {
        output.WriteLine();
        if (figures.Any(f => !f.IsWeightWhole || !f.IsCostWhole)) output.WriteLine("A + stands behind a sum that lacks parts: wain trace tells which.");
        foreach (string line in Core.Findings.Renderers.DisplayText.Wrapped(Core.Revisions.Renderers.CostBasis.Words, 78)) output.WriteLine(line);
    }

    public static void Columns(TextWriter output, IReadOnlyList<string[]> rows, int left = 0)
    {
        var widths = Enumerable.Range(0, rows[0].Length).Select(i => rows.Max(r => r[i].Length)).ToArray();
        foreach (var row in rows) output.WriteLine(string.Join("  ", row.Select((c, i) => i < left || i == row.Length - 1 && left > 0 ? c.PadRight(widths[i]) : c.PadLeft(widths[i]))).TrimEnd());
    }

    public static string Number(double? value, int places) => value is { } v ? v.ToString("F" + places.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture) : "?";
}
