using System.Diagnostics;
using System.Globalization;
using System.Text;

namespace Wain.Benchmarks;

/// <summary>Speed of what deals with revisions; each row a name, what was measured, and the bound that it is held to.</summary>
public static class RevisionRows
{
    private const int Revisions = 200, Panels = 1000;

    /// <summary>All rows, in a folder of their own that is removed again.</summary>
    /// <param name="program">The wain program, published as it is shipped.</param>
    /// <param name="demo">The demo's spec.</param>
    public static int Run(string program, string demo)
    {
        string folder = Directory.CreateTempSubdirectory("wain-rows-").FullName;
        try
        {
            bool met = true;
            foreach (var row in new[] { Save(program, folder, framed: false), Save(program, folder, framed: true), ColdCompare(program, demo, Edited(folder, demo)), CachedHistory(program, folder) })
            {
                Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{row.What}: {row.Milliseconds:0} ms, at most {row.Bound:0} ms"));
                met &= row.Milliseconds <= row.Bound;
            }
            return met ? 0 : 1;
        }
        finally
        {
            foreach (string file in Directory.EnumerateFiles(folder, "*", SearchOption.AllDirectories)) File.SetAttributes(file, FileAttributes.Normal);
            Directory.Delete(folder, recursive: true);
        }
    }

    public sealed record Row(string What, double Milliseconds, double Bound);

    /// <summary>Cold runs of the program: the least of several, since only slowness is ever added.</summary>
    private static Row ColdCompare(string program, string oldSpec, string newSpec, int runs = 7)
    {
        double check = Least(program, runs, "check", newSpec), compare = Least(program, runs, "compare", oldSpec, newSpec);
        return new Row("cold compare of two demo revisions", compare, 1.5 * check);
    }

    private static string Edited(string folder, string demo)
    {
        string to = Directory.CreateDirectory(Path.Combine(folder, "edited")).FullName;
        foreach (string file in Directory.GetFiles(Path.GetDirectoryName(demo)!, "*.wain"))
            File.WriteAllText(Path.Combine(to, Path.GetFileName(file)), File.ReadAllText(file).Replace("at (22 in, 6 in)", "at (24 in, 6 in)", StringComparison.Ordinal));
        return Path.Combine(to, Path.GetFileName(demo));
    }

    /// <summary>History of a small spec over 200 revisions with every result in the cache; the run before fills it.</summary>
    private static Row CachedHistory(string program, string folder)
    {
        string work = Directory.CreateDirectory(Path.Combine(folder, "history")).FullName, spec = Path.Combine(work, "many.wain"), cache = Path.Combine(folder, "cache");
        Git(work, "init", "-q", "-b", "main");
        var history = new StringBuilder();
        for (int i = 0; i < Revisions; i++)
        {
            string text = Spec(3, 30 + i / 10.0), message = $"revision {i}";
            history.Append(CultureInfo.InvariantCulture, $"commit refs/heads/main\ncommitter builder <builder@example.invalid> {i} +0000\ndata {message.Length}\n{message}\nM 100644 inline many.wain\ndata {text.Length}\n{text}\n");
        }
        Git(work, history.ToString(), ["fast-import", "--quiet"]);
        Git(work, "reset", "-q", "--hard");
        Least(program, 1, "history", spec, "--cache", cache);
        return new Row($"history over {Revisions} revisions, cached", Least(program, 3, "history", spec, "--cache", cache), 2000);
    }

    /// <summary>From a save to its findings in a watch that runs: one line of 1,000 panels edited. The median of several, after some to warm up.</summary>
    /// <param name="framed">Framed walls with two windows each; else boards with two holes.</param>
    internal static Row Save(string program, string folder, bool framed)
    {
        string spec = Path.Combine(folder, framed ? "walls.wain" : "boards.wain"), walls = framed ? PlainCamper.Of(Panels) : "";
        string Text(double width) => framed ? walls.Replace("along (60 in, 0 in, 0 in)", string.Create(CultureInfo.InvariantCulture, $"along ({30 + width} in, 0 in, 0 in)"), StringComparison.Ordinal) : Spec(Panels, width);
        File.WriteAllText(spec, Text(30));
        using var watch = Process.Start(new ProcessStartInfo(program, ["watch", spec]) { RedirectStandardOutput = true })!;
        var times = new List<double>();
        void Until(string words)
        {
            while (!(watch.StandardOutput.ReadLine() ?? throw new InvalidOperationException("The watch ended.")).Contains(words, StringComparison.Ordinal)) { }
        }
        Until(" ms)");
        for (int i = 0; i < 20; i++)
        {
            string text = Text(30.5 + i % 2);
            var clock = Stopwatch.StartNew();
            File.WriteAllText(spec, text);
            Until(" ms)");
            if (i >= 8) times.Add(clock.Elapsed.TotalMilliseconds);
            // What follows the findings, the comparison, is no part of the row. Nobody saves twice in a second.
            Until("Changed:");
            Thread.Sleep(1000);
        }
        watch.Kill();
        times.Sort();
        return new Row($"from a save to findings, one line of {Panels} {(framed ? "framed walls with windows" : "boards with holes")}", times[times.Count / 2], 250);
    }

    /// <summary>Panels in plain text, each a block of its own of some twenty lines; the width (in) of the last is given.</summary>
    internal static string Spec(int panels, double width)
    {
        var text = new StringBuilder("""
            written for wain 1

            camper "Many" revision "A" {
                currency USD
            }
            sheet ply_12mm {
                thickness 12 mm
                size 48 in by 96 in, price 60 USD, on 2026-10-01
                density 34 lb/ft3 source "invented"
            }
            stack board {
                sheet ply_12mm
            }

            """.ReplaceLineEndings("\n"));
        for (int i = 0; i < panels; i++)
        {
            int x = i % 40 * 60, y = i / 40 * 60;
            double right = x + (i == panels - 1 ? width : 30);
            text.Append(string.Create(CultureInfo.InvariantCulture, $$"""
                -- Board {{i}} of the wall
                panel board_{{i}} of board {
                    through ({{x}} in, {{y}} in, 0 in) along ({{right}} in, {{y}} in, 0 in) up ({{x}} in, {{y}} in, 24 in)
                    grain along
                    -- a hole to see through
                    opening window {
                        size 8 in by 6 in, corner 1 in
                        lower left at (4 in, 6 in), seen from outside
                        unframed
                    }
                    -- and one for a cable
                    opening cable {
                        size 2 in by 1 in, corner 1/2 in
                        lower left at (20 in, 2 in), seen from outside
                        unframed
                    }
                    -- its edges are cut square
                    bevel top 0 deg
                    bevel bottom 0 deg
                }

                """).ReplaceLineEndings("\n"));
        }
        return text.ToString();
    }

    private static void Git(string folder, params string[] args) => Git(folder, "", args);

    private static void Git(string folder, string input, string[] args)
    {
        using var git = Process.Start(new ProcessStartInfo("git", args) { WorkingDirectory = folder, RedirectStandardInput = true })!;
        git.StandardInput.Write(input);
        git.StandardInput.Close();
        git.WaitForExit();
        if (git.ExitCode != 0) throw new InvalidOperationException($"git {string.Join(' ', args)} failed");
    }

    private static double Least(string program, int runs, params string[] args)
    {
        double least = double.PositiveInfinity;
        for (int i = 0; i < runs; i++)
        {
            var start = new ProcessStartInfo(program, args) { RedirectStandardOutput = true, RedirectStandardError = true };
            var clock = Stopwatch.StartNew();
            using var process = Process.Start(start)!;
            var errors = process.StandardError.ReadToEndAsync();
            process.StandardOutput.ReadToEnd();
            process.WaitForExit();
            least = Math.Min(least, clock.Elapsed.TotalMilliseconds);
            if (process.ExitCode > 1) throw new InvalidOperationException($"{string.Join(' ', args)}: {errors.Result}");
        }
        return least;
    }
}
