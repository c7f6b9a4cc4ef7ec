using System.Diagnostics;
using System.Globalization;
using System.Runtime.InteropServices;

namespace Wain.Benchmarks;

/// <summary>The program and an empty one, both published ahead of time in the same way, in a folder of their own that is deleted afterwards.</summary>
internal sealed class ColdPrograms : IDisposable
{
    private static readonly string[] Settings = ["-c", "Release", "-r", RuntimeInformation.RuntimeIdentifier, "-p:PublishReadyToRun=true", "-v", "q"];

    private readonly string _work = Directory.CreateTempSubdirectory("wain-speed-").FullName;

    public ColdPrograms(string root)
    {
        Wain = Publish(Path.Combine(root, "src", "Wain.Cli"), "wain");
        string empty = Folder("empty-source");
        File.WriteAllText(Path.Combine(empty, "Empty.cs"), "return 0;\n");
        File.WriteAllText(Path.Combine(empty, "empty.csproj"), """
            <Project Sdk="Microsoft.NET.Sdk">
              <PropertyGroup>
                <OutputType>Exe</OutputType><TargetFramework>net10.0</TargetFramework><InvariantGlobalization>true</InvariantGlobalization><UseSystemResourceKeys>true</UseSystemResourceKeys>
                <TieredPGO>false</TieredPGO><ConcurrentGarbageCollection>false</ConcurrentGarbageCollection>
                <SelfContained>true</SelfContained><PublishReadyToRunComposite>true</PublishReadyToRunComposite>
              </PropertyGroup>
            </Project>
            """);
        Empty = Publish(empty, "empty");
    }

    public string Wain { get; }

    public string Empty { get; }

    /// <summary>The folder about the current one that holds the solution; null if there is none.</summary>
    public static string? Root()
    {
        for (var folder = new DirectoryInfo(Directory.GetCurrentDirectory()); folder is not null; folder = folder.Parent)
            if (File.Exists(Path.Combine(folder.FullName, "Wain.slnx"))) return folder.FullName;
        return null;
    }

    public string Folder(string name) => Directory.CreateDirectory(Path.Combine(_work, name)).FullName;

    /// <summary>Medians in ms. In turn, so that what else the machine does falls on all alike; a first round fills the file cache.</summary>
    public double[] InTurn(int runs, params Func<double>[] measured)
    {
        var times = measured.Select(_ => new List<double>()).ToArray();
        for (int i = 0; i <= runs; i++)
        {
            for (int k = 0; k < measured.Length; k++)
            {
                double time = measured[k]();
                if (i > 0) times[k].Add(time);
            }
        }
        return [.. times.Select(SpeedBenchmark.Median)];
    }

    /// <summary>Wall-clock ms of one run. Exit code 1, findings or differences, is an answer like any other.</summary>
    public double Time(string program, params string[] args) => Time(program, null, args);

    private static double Time(string program, string? folder, string[] args)
    {
        var start = new ProcessStartInfo(program, args) { RedirectStandardOutput = true, RedirectStandardError = true, WorkingDirectory = folder ?? "" };
        var clock = Stopwatch.StartNew();
        using var process = Process.Start(start)!;
        var errors = process.StandardError.ReadToEndAsync();
        process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        double time = clock.Elapsed.TotalMilliseconds;
        return process.ExitCode <= 1 ? time : throw new InvalidOperationException($"{program} {string.Join(' ', args)}: {errors.Result}");
    }

    /// <summary>A copy of a spec's folder in which one text of one file stands for another; gives the path of its main file.</summary>
    public string Changed(string folder, string main, string file, string old, string @new)
    {
        string copy = Folder(Path.Combine("changed-" + Guid.NewGuid().ToString("N"), Path.GetFileName(folder)));
        foreach (var path in Directory.EnumerateFiles(folder, "*.wain")) File.Copy(path, Path.Combine(copy, Path.GetFileName(path)));
        string text = File.ReadAllText(Path.Combine(copy, file));
        if (!text.Contains(old, StringComparison.Ordinal)) throw new InvalidOperationException($"{file} no longer says \"{old}\".");
        File.WriteAllText(Path.Combine(copy, file), text.Replace(old, @new, StringComparison.Ordinal));
        return Path.Combine(copy, main);
    }

    /// <summary>Wall-clock ms of a history over so many revisions of a small spec, each with another width, once all of them are in the cache.</summary>
    public double History(int revisions)
    {
        string folder = Folder("history");
        void Git(params string[] args)
        {
            var start = new ProcessStartInfo("git", ["-c", "user.name=builder", "-c", "user.email=builder@example.org", "-c", "gc.auto=0", .. args]) { WorkingDirectory = folder, RedirectStandardOutput = true, RedirectStandardError = true };
            using var process = Process.Start(start)!;
            process.StandardOutput.ReadToEnd();
            process.WaitForExit();
        }
        Git("init", "-q");
        Time(Wain, folder, ["new", "small"]);
        string spec = Path.Combine(folder, "small", "small.wain"), text = File.ReadAllText(spec);
        for (int i = 0; i < revisions; i++)
        {
            File.WriteAllText(spec, text + string.Create(CultureInfo.InvariantCulture, $"\nlet revision_{i} = {i} in\n"));
            Git("add", "-A");
            Git("commit", "-q", "-m", $"revision {i}");
        }
        string[] args = ["history", "small/small.wain", "--cache", Folder("history-cache")];
        Time(Wain, folder, args);
        return SpeedBenchmark.Median(Enumerable.Range(0, 9).Select(_ => Time(Wain, folder, args)));
    }

    private string Publish(string project, string name)
    {
        string output = Path.Combine(_work, name);
        var start = new ProcessStartInfo("dotnet", ["publish", project, .. Settings, "-o", output]) { RedirectStandardOutput = true };
        using var process = Process.Start(start)!;
        string told = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        if (process.ExitCode != 0) throw new InvalidOperationException($"{name} could not be published: {told}");
        return Path.Combine(output, OperatingSystem.IsWindows() ? name + ".exe" : name);
    }

    public void Dispose() => Directory.Delete(_work, recursive: true);
}
