using System.Globalization;
using Wain.Cli.Revisions;
using Wain.Core;
using Wain.Core.Revisions;
using Wain.Reports.Svg;

namespace Wain.Cli.Commands;

/// <summary>Weight, cost and open findings over the revisions of a spec.</summary>
public static class HistoryCommand
{
    public static readonly Command Shape = new("history", "SPEC", "Shows weight, cost and open findings of every revision of a spec in its repository, so that it can be seen where the weight came in. What was computed once is kept by content.",
        [new("--plot", "FILE.svg", "where the plot is written; none if it is left out"), new("--last", "N", "so many revisions at most; 500 if it is left out"), new("--cache", "FOLDER", "where results are kept; the user's own cache if it is left out"), new("--set", "NAME=VALUE", "gives a let another value in every revision", Many: true)],
        ["wain history specs/heron/heron.wain --plot history.svg"], Run);

    private static int Run(Options options, TextWriter output, TextWriter errors)
    {
        if (options.Arguments.Count != 1) throw new UsageError("history needs a spec: wain history SPEC");
        string spec = options.Arguments[0];
        if (Directory.Exists(spec)) throw new UsageError($"{spec} is a folder; name the spec in it.");
        var revisions = GitRevisions.HistoryOf(spec, Math.Max(1, options.Whole("--last", 500)));
        if (revisions.Count == 0) throw new UsageError($"No revision of the repository holds {spec}.");
        var (figures, kept) = FiguresOf(spec, revisions, new HistoryCache(options.Value("--cache") ?? HistoryCache.DefaultFolder), options.Values("--set"));
        if (!kept) errors.WriteLine("wain: the results could not be kept; the next run computes them again.");
        // In the units of the newest revision.
        var say = figures[0].Say;
        var rows = new List<string[]> { (string[])["day", "revision", $"weight {say.WeightUnit}", "change", "cost", "errors", "warnings", "what"] };
        double? last = null;
        for (int i = revisions.Count - 1; i >= 0; i--)
        {
            var f = figures[i];
            double? weight = f.Weight is { } kg ? say.Weighed(kg) : null;
            string change = weight is { } now && last is { } before ? (now - before).ToString("+0.0;-0.0;0.0", CultureInfo.InvariantCulture) : "";
            rows.Add([revisions[i].When.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture), revisions[i].CommitId[..8], f.IsPlaced ? TrialTable.Number(weight, 1) + (f.IsWeightWhole ? "" : TrialTable.More) : "broken", change, TrialTable.Number(f.Cost, 2) + (f.IsCostWhole ? "" : TrialTable.More),
                TrialTable.Number(f.Errors, 0), TrialTable.Number(f.Warnings, 0), Shortened(revisions[i].Message)]);
            last = weight ?? last;
        }
        TrialTable.Columns(output, rows, left: 2);
        TrialTable.TellBasis(output, figures);
        if (GitRevisions.IsShallow(spec)) output.WriteLine("This clone is shallow: older revisions are not in it.");
        if (options.Value("--plot") is { } file)
        {
            var points = revisions.Select((r, i) => new Trends.Point("", revisions.Count - i, figures[i])).ToList();
            File.WriteAllBytes(file, SvgWriter.Write(Trends.Draw($"{Path.GetFileNameWithoutExtension(spec)} over its revisions", "revision, oldest first", points, say, countsX: true)));
            errors.WriteLine($"{file} written");
        }
        return 0;
    }

    /// <summary>In the order of the revisions; false if a result could not be kept.</summary>
    internal static (KeyFigures[] Figures, bool Kept) FiguresOf(string spec, IReadOnlyList<SpecRevision> revisions, HistoryCache cache, IReadOnlyList<string> settings)
    {
        var given = SpecFiles.Given(settings);
        // What is set is as much a part of what was computed as the text.
        string name = string.Join('\n', settings.Order(StringComparer.Ordinal).Prepend(Path.GetFileName(spec)));
        var figures = revisions.Select(r => cache.Find(r.TreeId, name)).ToArray();
        bool kept = true;
        var missing = Enumerable.Range(0, figures.Length).Where(i => figures[i] is null).ToList();
        if (missing.Count > 0)
        {
            int next = 0;
            foreach (var (main, includes) in GitRevisions.At(spec, missing.Select(i => revisions[i].CommitId)))
            {
                int i = missing[next++];
                figures[i] = KeyFigures.Of(Compiler.Compile(main, includes, given));
                kept &= cache.Keep(revisions[i].TreeId, name, figures[i]!);
            }
        }
        return ([.. figures.Select(f => f!)], kept);
    }

    private static string Shortened(string text)
    {
        string plain = Core.Findings.Renderers.DisplayText.Plain(text);
        return plain.Length <= 24 ? plain : plain[..23] + "~";
    }
}
