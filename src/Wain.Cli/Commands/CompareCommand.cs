using System.Runtime.ExceptionServices;
using System.Text;
using Wain.Cli.Output;
using Wain.Cli.Revisions;
using Wain.Core;
using Wain.Core.Revisions;
using Wain.Core.Revisions.Renderers;
using Wain.Core.Syntax;
using Wain.Core.Text;
using Wain.Reports.Svg;
using Wain.Reports.Workbooks;

namespace Wain.Cli.Commands;

/// <summary>Says what differs in meaning between two revisions of a spec.</summary>
public static class CompareCommand
{
    public static readonly Command Shape = new("compare", "OLD NEW",
        "Says what differs in meaning between two specs: parts, buying list, cost, weight, balance, findings, and the lines behind each. OLD and NEW are a file, a folder with one spec, or REVISION:PATH of the repository. Exit code 0: the same; 1: they differ; 2: a side can't be read, or is too broken to say.",
        [
            new("--as", "text|markdown|json", "how the comparison is shown"),
            new("--out", "FOLDER", "also writes it as Markdown, JSON and workbook, with a picture of each changed panel"),
            new("--all", null, "lists every part of every panel"),
            new("--set", "NAME=VALUE", "gives a let another value on both sides", Many: true),
            new("--for-git", null, "takes the arguments that git gives to a diff command; always exits with 0"),
        ],
        ["wain compare HEAD:specs/heron/heron.wain specs/heron/heron.wain", "wain compare old.wain new.wain --as markdown", "wain compare old/ new/ --out difference", "git config diff.wain.command \"wain compare --for-git\""], Run);

    private static int Run(Options options, TextWriter output, TextWriter errors)
    {
        if (options.Has("--for-git")) return GitDiff.Run(options, output);
        if (options.Arguments.Count != 2) throw new UsageError("compare needs an old and a new side: wain compare OLD NEW");
        string style = options.Choice("--as", "text", "text", "markdown", "json");
        Side old = Sides.Find(options.Arguments[0]), now = Sides.Find(options.Arguments[1]);
        var comparison = Compare(old, now, SpecFiles.Given(options.Values("--set")));
        output.Write(Render(comparison, style, options.Has("--all")));
        if (options.Value("--out") is { } folder) Write(folder, comparison, now.Name, errors);
        return comparison.IsUndecided ? 2 : comparison.IsSame ? 0 : 1;
    }

    /// <summary>
    /// Neither side needs the other, so two cores share them. The new side waits for the head start, and so meets what the runtime has set up by then: both at once would
    /// only wait for each other at every step.
    /// </summary>
    internal static Comparison Compare(Side old, Side now, IReadOnlyDictionary<string, Expression> given)
    {
        Compilation? after = null;
        ExceptionDispatchInfo? fault = null;
        var other = new Thread(CompileNew, maxStackSize: 4 << 20) { IsBackground = true, Name = "new side" };
        other.Start();
        var before = old.Compile(given);
        other.Join();
        fault?.Throw();
        return Comparer.Compare(before, after!, old.Name, now.Name);

        void CompileNew()
        {
            HeadStart.Wait();
            try
            {
                after = now.Compile(given);
            }
            catch (Exception e)
            {
                fault = ExceptionDispatchInfo.Capture(e);
            }
        }
    }

    internal static string Render(Comparison comparison, string style, bool all = false) => style switch
    {
        "markdown" => ComparisonMarkdown.Render(comparison, all),
        "json" => ComparisonJson.Render(comparison),
        _ => ComparisonText.Render(comparison, all),
    };

    private static void Write(string folder, Comparison comparison, string title, TextWriter errors)
    {
        var workbook = Workbook.Make(ComparisonReport.Of(comparison, title));
        if (workbook.Error is { } error) throw new UsageError(error);
        var files = new List<OutputFile>
        {
            new("comparison.md", Encoding.UTF8.GetBytes(ComparisonMarkdown.Render(comparison))),
            new("comparison.json", Encoding.UTF8.GetBytes(ComparisonJson.Render(comparison))),
            new("comparison.xlsx", workbook.Bytes!),
        };
        files.AddRange(ComparisonDrawing.Of(comparison).Select(d => new OutputFile($"panels/{d.Name}.svg", SvgWriter.Write(d.Picture))));
        var report = OutputSet.Write(folder, files, replace: false, (_, _) => null);
        if (report.Error is { } problem) throw new UsageError(problem);
        errors.WriteLine($"{folder}: {report.Written.Length} written, {report.Unchanged.Length} unchanged");
    }
}
