using Wain.Cli.Revisions;

namespace Wain.Cli.Commands;

/// <summary>Checks, and with --out builds, whenever a file of a spec is saved.</summary>
public static class WatchCommand
{
    public static readonly Command Shape = new("watch", "SPEC [--out FOLDER]", "Compiles the spec again at every save, tells findings and what changed in figures, and keeps the outputs of --out fresh. Ends with Ctrl and C.",
        [.. Options.Common, new("--out", "FOLDER", "writes the outputs into a folder named after the spec in this one"), new("--draft", null, "writes in spite of errors of checks, with DRAFT on every page")],
        ["wain watch my.wain", "wain watch my.wain --out output"], Run);

    private static int Run(Options options, TextWriter output, TextWriter errors)
    {
        if (options.Arguments.Count != 1) throw new UsageError("watch needs one spec: wain watch SPEC");
        string spec = options.Arguments[0];
        // A wrong path is told at once; a file that goes later may come back.
        SpecFiles.Read(spec);
        string? folder = options.Value("--out") is { } given ? Path.Combine(given, Path.GetFileNameWithoutExtension(spec)) : null;
        using var stop = new CancellationTokenSource();
        Console.CancelKeyPress += (_, e) =>
        {
            e.Cancel = true;
            stop.Cancel();
        };
        new WatchLoop(spec, folder, options, output).Run(stop.Token);
        return 0;
    }
}
