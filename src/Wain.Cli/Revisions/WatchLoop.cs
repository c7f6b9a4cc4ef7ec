using Wain.Cli.Commands;
using Wain.Cli.Output;
using Wain.Core;
using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Revisions;
using Wain.Core.Revisions.Renderers;
using Wain.Core.Text;

namespace Wain.Cli.Revisions;

/// <summary>
/// Compiles a spec again whenever a file of it is saved. What counts is the content: a save that changes nothing does nothing, however an editor writes
/// its files, and outputs are made only where the design means something else than before.
/// </summary>
public sealed class WatchLoop(string spec, string? outFolder, Options options, TextWriter output)
{
    private const string LockName = ".wain-watch";

    /// <summary>Where the system tells of no change, such as on a network drive, files are looked at this often.</summary>
    private static readonly TimeSpan Look = TimeSpan.FromMilliseconds(200);

    /// <summary>A file is read when nothing was written to it for this long, so that half a save is not read.</summary>
    private static readonly TimeSpan Settle = TimeSpan.FromMilliseconds(20);

    private readonly Dictionary<string, SourceText> _texts = new(StringComparer.Ordinal);
    private Compilation? _last;
    private bool _isGone;

    /// <summary>How often each thing was done, for tests and for who wonders.</summary>
    public int Compiled { get; private set; }

    public int Built { get; private set; }

    /// <summary>Goes on until it is told to stop.</summary>
    /// <exception cref="UsageError">Another watch has the folder.</exception>
    public void Run(CancellationToken stop)
    {
        string folder = Path.GetDirectoryName(Path.GetFullPath(spec))!;
        if (!Directory.Exists(folder)) throw new UsageError($"There is no folder {folder}.");
        using var held = outFolder is null ? null : Hold(outFolder);
        using var changed = new AutoResetEvent(true);
        using var watcher = Watcher(folder, changed);
        string seen = "";
        while (!stop.IsCancellationRequested)
        {
            WaitHandle.WaitAny([changed, stop.WaitHandle], Look);
            if (stop.IsCancellationRequested) return;
            string state = State(folder);
            if (state == seen) continue;
            while (!stop.WaitHandle.WaitOne(Settle) && State(folder) is var later && later != state) state = later;
            seen = state;
            try
            {
                Turn();
            }
            catch (Exception e) when (e is IOException or UnauthorizedAccessException or UsageError)
            {
                Say($"{e.Message} Waiting for the next save.");
            }
        }
    }

    private static FileStream Hold(string folder)
    {
        Directory.CreateDirectory(folder);
        string path = Path.Combine(folder, LockName);
        try
        {
            return new FileStream(path, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None, 1, FileOptions.DeleteOnClose);
        }
        catch (IOException) when (File.Exists(path))
        {
            throw new UsageError($"Another watch writes to {folder} already. End that one, or give this one another folder with --out.");
        }
    }

    private static FileSystemWatcher? Watcher(string folder, AutoResetEvent changed)
    {
        try
        {
            var watcher = new FileSystemWatcher(folder, "*.wain") { IncludeSubdirectories = true, NotifyFilter = NotifyFilters.FileName | NotifyFilters.LastWrite | NotifyFilters.Size };
            watcher.Changed += (_, _) => changed.Set();
            watcher.Created += (_, _) => changed.Set();
            watcher.Deleted += (_, _) => changed.Set();
            watcher.Renamed += (_, _) => changed.Set();
            watcher.EnableRaisingEvents = true;
            return watcher;
        }
        catch (Exception e) when (e is IOException or PlatformNotSupportedException)
        {
            // Too many watches on this machine: looking now and then does it too.
            return null;
        }
    }

    /// <summary>Names, sizes and times of the files that the last run read.</summary>
    private string State(string folder)
    {
        var paths = new[] { Path.GetFullPath(spec) }.Concat(_texts.Keys.Select(p => Path.Combine(folder, p)));
        return string.Join('\n', paths.Select(p => new FileInfo(p) is { Exists: true } f ? $"{p} {f.Length} {f.LastWriteTimeUtc.Ticks}" : p + " gone"));
    }

    private void Turn()
    {
        if (!File.Exists(spec))
        {
            if (!_isGone) Say($"{spec} is gone; the outputs stay. Waiting for it to come back.");
            _isGone = true;
            return;
        }
        bool back = _isGone;
        _isGone = false;
        var read = SpecFiles.IncludesOf(spec);
        var now = new Dictionary<string, SourceText>(StringComparer.Ordinal);
        var main = Kept("", SpecFiles.Read(spec), now);
        if (_last is not null && !back && IncludesAreSame(read, now) && ReferenceEquals(main, _last.Source)) return;
        IncludeReader includes = path =>
        {
            if (now.TryGetValue(path, out var known)) return (known, null);
            var (text, problem) = read(path);
            // A file that is missing is looked for again.
            if (text is null) now[path] = new SourceText(path, "");
            return text is null ? (null, problem) : (Kept(path, text, now), null);
        };
        var clock = System.Diagnostics.Stopwatch.StartNew();
        var compiled = Compiler.Compile(main, includes, SpecFiles.Given(options.Values("--set")));
        long took = clock.ElapsedMilliseconds;
        Compiled++;
        _texts.Clear();
        foreach (var (path, text) in now) if (path.Length > 0) _texts[path] = text;
        Tell(compiled, took);
    }

    private bool IncludesAreSame(IncludeReader read, Dictionary<string, SourceText> now)
    {
        bool same = true;
        foreach (string path in _texts.Keys.ToList())
        {
            var before = _texts[path];
            var (text, _) = read(path);
            if (text is null) same &= before.Text.Length == 0;
            else same &= ReferenceEquals(Kept(path, text, now), before);
        }
        return same;
    }

    /// <summary>The text of the last run where its content is the same, so that equal content is one object.</summary>
    private SourceText Kept(string path, SourceText fresh, Dictionary<string, SourceText> now)
    {
        var before = path.Length == 0 ? _last?.Source : _texts.GetValueOrDefault(path);
        return now[path] = before is not null && before.Text == fresh.Text ? before : fresh;
    }

    private void Tell(Compilation compiled, long took)
    {
        var before = _last;
        _last = compiled;
        Comparison? comparison = before is null ? null : Comparer.Compare(before, compiled, "before", "now");
        if (before is null || !comparison!.Findings.IsEmpty || before.HasErrors != compiled.HasErrors) FindingsOutput.Print([.. compiled.Findings.Where(f => f.Level != Level.Note)], options, output);
        Say($"{spec}: {FindingsOutput.Count(compiled.Findings)} ({took} ms)");
        if (comparison is not null)
        {
            if (comparison.IsSame) Say("  Nothing changed in meaning.");
            else Say("  " + ComparisonWords.Summary(comparison));
            foreach (var f in comparison.Figures.Where(f => f.Name is "total.weight" or "total.cost" or "total.centre_x_ready")) Say($"  {f.Name}: {f.Old} -> {f.New} ({f.Difference})");
        }
        if (outFolder is null || compiled.Design is null) return;
        if (FindingsOutput.Fails(compiled.Findings, options) && !options.Has("--draft"))
        {
            Say("  The old outputs stay until the errors are mended.");
            return;
        }
        // The writers of a design that means the same would make the same bytes.
        if (comparison is { IsSame: true } && before!.Design is not null && Built > 0) return;
        var (files, _, problem) = Outputs.Of(compiled, spec, outFolder, FindingsOutput.Fails(compiled.Findings, options));
        if (problem is not null)
        {
            Say($"  {problem}");
            return;
        }
        var report = OutputSet.Write(outFolder, files, replace: false, Outputs.EssenceOf);
        Built++;
        if (report.Error is { } error) Say($"  {error}");
        else if (report.Written.Length + report.Removed.Length > 0) Say($"  written: {string.Join(", ", report.Written)}");
    }

    private void Say(string text)
    {
        output.WriteLine(text);
        output.Flush();
    }
}
