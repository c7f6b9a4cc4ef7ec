using System.Diagnostics;

namespace Wain.Benchmarks;

/// <summary>Speed of what deals with revisions; each row a name, what was measured, and the bound that it is held to.</summary>
public static class RevisionRows
{
    public sealed record Row(string What, double Milliseconds, double Bound);

    /// <summary>Cold runs of the program: the least of several, since only slowness is ever added.</summary>
    /// <param name="program">The wain program.</param>
    /// <param name="oldSpec">A revision of the demo.</param>
    /// <param name="newSpec">Another.</param>
    public static Row ColdCompare(string program, string oldSpec, string newSpec, int runs = 7)
    {
        double check = Least(program, runs, "check", newSpec), compare = Least(program, runs, "compare", oldSpec, newSpec);
        return new Row("cold compare of two demo revisions", compare, 1.5 * check);
    }

    /// <summary>History with every result in the cache; the run before fills it.</summary>
    public static Row CachedHistory(string program, string spec, string cache)
    {
        Least(program, 1, "history", spec, "--cache", cache);
        return new Row("history over the revisions of a repository, cached", Least(program, 3, "history", spec, "--cache", cache), 2000);
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
