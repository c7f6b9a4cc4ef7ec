using System.Diagnostics;
using System.Globalization;
using Wain.Core;
using Wain.Core.Binding;
using Wain.Core.Engineering;
using Wain.Core.Text;

namespace Wain.Benchmarks;

/// <summary>How long the program takes: from a cold start beside an empty program published likewise, and warm on many panels. All in one run, medians of nine.</summary>
public static class SpeedBenchmark
{
    private const int Runs = 9;

    /// <summary>Prints one table. 2 if no repository lies about the current folder.</summary>
    public static int Run(string[] args)
    {
        if (args.Contains("--peak")) return Peak();
        if (ColdPrograms.Root() is not { } root)
        {
            Console.Error.WriteLine("Run this from within the repository: it publishes and checks what lies there.");
            return 2;
        }
        Row("What (medians of 9)", "Measured", "Beside", "Aim");
        Row("---", "---:", "---:", "---:");
        if (!args.Contains("--warm")) Cold(root);
        if (!args.Contains("--cold"))
        {
            Warm();
            Engineering(Path.Combine(root, "specs", "heron", "heron.wain"));
            Growth();
        }
        return 0;
    }

    private static void Cold(string root)
    {
        using var programs = new ColdPrograms(root);
        string spec = Path.Combine(root, "specs", "heron", "heron.wain");
        string folder = Path.GetDirectoryName(spec)!;
        string dearer = programs.Changed(folder, "heron.wain", "materials.wain", "price 4.10 USD", "price 4.20 USD"), changed = programs.Changed(folder, "heron.wain", "heron.wain", "let wing_height = 22 in", "let wing_height = 21 in");
        string output = programs.Folder("output");
        // What is cached by content, the PDF and the cutting plan, is there from a build before: each build that is timed sees another price than the one before.
        programs.Time(programs.Wain, "build", spec, "--out", output);
        int round = 0;
        var times = programs.InTurn(Runs,
            () => programs.Time(programs.Empty),
            () => programs.Time(programs.Wain, "check", spec),
            () => programs.Time(programs.Wain, "build", round++ % 2 == 0 ? dearer : spec, "--out", output),
            () => programs.Time(programs.Wain, "compare", spec, changed));
        double empty = times[0], check = times[1], build = times[2], compare = times[3];
        Row("cold start of an empty program", Milliseconds(empty), "", "");
        Row("cold check of the demo", Milliseconds(check), Times(check / empty, "empty"), "3.5");
        Row("cold build of the demo with another price", Milliseconds(build), Times(build / empty, "empty"), "20");
        Row("cold compare of two demo revisions", Milliseconds(compare), Times(compare / check, "check"), "1.5");
        Row("history of 200 revisions, cached", Milliseconds(programs.History(200)), "", "2,000 ms");
        foreach (bool framed in (bool[])[false, true])
        {
            var save = RevisionRows.Save(programs.Wain, programs.Folder("watch"), framed);
            Row("watch, " + save.What, Milliseconds(save.Milliseconds), "", Milliseconds(save.Bound));
        }
    }

    private static void Warm()
    {
        Compile(PlainCamper.Of(200));
        double small = Compilations(1_000), large = Compilations(10_000);
        Row("compile of 1,000 panels, processor time", Milliseconds(small), "", "");
        Row("compile of 10,000 panels, processor time", Milliseconds(large), Times(large / small / 10, "a panel among 1,000"), "1.3");
        Row("peak memory of one compile of 10,000 panels", string.Create(CultureInfo.InvariantCulture, $"{PeakOfOne() / (1024 * 1024)} MiB"), "", "1,536 MiB");
    }

    private static double Compilations(int panels)
    {
        string text = PlainCamper.Of(panels);
        return Median(Enumerable.Range(0, Runs).Select(_ => Compile(text)));
    }

    /// <summary>Bytes. In a process of its own, as a check is: in one that compiles again and again the peak is that of what is not yet collected.</summary>
    private static long PeakOfOne()
    {
        using var child = Process.Start(new ProcessStartInfo(Environment.ProcessPath!, ["speed", "--peak"]) { RedirectStandardOutput = true })!;
        string told = child.StandardOutput.ReadToEnd();
        child.WaitForExit();
        return long.Parse(told, CultureInfo.InvariantCulture);
    }

    private static int Peak()
    {
        Compile(PlainCamper.Of(10_000));
        using var process = Process.GetCurrentProcess();
        Console.WriteLine(process.PeakWorkingSet64.ToString(CultureInfo.InvariantCulture));
        return 0;
    }

    private static double Compile(string text)
    {
        GC.Collect();
        var clock = new ProcessorClock();
        var compiled = Compiler.Compile(new SourceText("plain.wain", text));
        double time = clock.Seconds * 1000;
        return compiled.HasErrors ? throw new InvalidOperationException(compiled.Findings[0].Message) : time;
    }

    /// <summary>The part of a warm compilation of the demo that the engineering pass takes.</summary>
    private static void Engineering(string spec)
    {
        string folder = Path.GetDirectoryName(spec)!;
        var source = new SourceText("heron.wain", File.ReadAllText(spec));
        IncludeReader include = path => File.Exists(Path.Combine(folder, path)) ? (new SourceText(path, File.ReadAllText(Path.Combine(folder, path))), null) : (null, "there is no such file");
        var input = Compiler.Compile(source, include).Design!.Engineering.Input;
        var (whole, part) = (new List<double>(), new List<double>());
        for (int i = 0; i < Runs; i++)
        {
            var clock = new ProcessorClock();
            Compiler.Compile(source, include);
            whole.Add(clock.Seconds * 1000);
            clock = new ProcessorClock();
            EngineeringRun.Run(input);
            part.Add(clock.Seconds * 1000);
        }
        double rest = Median(whole) - Median(part);
        Row("warm compile of the demo without engineering", Milliseconds(rest), "", "");
        Row("engineering in it", Milliseconds(Median(part)), Times(Median(part) / rest, "the rest"), "1.0");
    }

    private static void Growth()
    {
        var (seconds, growth) = ClearanceRows.Measured();
        Row("clearance of 10,000 panels, 1,000 of them moving among 1,000 standing, processor time", Milliseconds(seconds * 1000), Times(growth, "n log n from 1,000"), "1.25");
        foreach (var (pass, _, large, over, own) in FrameRows.Measured())
            Row($"{pass} of 10,000 framed walls, processor time", Milliseconds(large * 1000), $"{Times(over, "n log n from 1,000")}, {own.ToString("0.00", CultureInfo.InvariantCulture)} without collecting memory", "1.25");
    }

    internal static double Median(IEnumerable<double> values) => values.Order().ToList() is var sorted ? sorted[sorted.Count / 2] : 0;

    private static string Milliseconds(double value) => string.Create(CultureInfo.InvariantCulture, $"{value:#,0} ms");

    private static string Times(double ratio, string of) => string.Create(CultureInfo.InvariantCulture, $"{ratio:0.00} times {of}");

    private static void Row(params ReadOnlySpan<string> cells) => Console.WriteLine("| " + string.Join(" | ", cells) + " |");
}
