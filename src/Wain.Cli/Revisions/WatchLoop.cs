using Wain.Cli.Commands;
using Wain.Cli.Cutting;
using Wain.Cli.Output;
using Wain.Core;
using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Parsing;
using Wain.Core.Revisions;
using Wain.Core.Revisions.Renderers;
using Wain.Core.Text;

namespace Wain.Cli.Revisions;

/// <summary>
/// Compiles a spec again whenever a file of it is saved. What counts is the content: a save that changes nothing does nothing, however an editor writes
/// its files. Declarations that were parsed before are not parsed again, writers whose input is equal are not run again, and of the outputs only those
/// whose bytes differ are written.
/// </summary>
public sealed class WatchLoop(string spec, string? outFolder, Options options, TextWriter output)
{
    private const string LockName = ".wain-watch";

    /// <summary>Where the system tells of no change, such as on a network drive, files are looked at this often.</summary>
    private static readonly TimeSpan Look = TimeSpan.FromMilliseconds(200);

    /// <summary>A file is read when nothing was written to it for this long, so that half a save is not read.</summary>
    private static readonly TimeSpan Settle = TimeSpan.FromMilliseconds(20);

    private readonly Dictionary<string, SourceText> _texts = new(StringComparer.Ordinal);
    private readonly HashSet<string> _missing = new(StringComparer.Ordinal);
    private readonly ParseCache _parsed = new();
    private readonly WriterMemory _written = new();
    private readonly IdleMemory _memory = new();
    private Compilation? _last;
    private bool _isGone;
    private bool _isBehind;

    /// <summary>How often each thing was done.</summary>
    public int Compiled { get; private set; }

    /// <summary>How many declarations were parsed.</summary>
    public int Parsed => _parsed.Read;

    /// <summary>How many writers ran.</summary>
    public int Wrote => _written.Ran;

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
            bool told = WaitHandle.WaitAny([changed, stop.WaitHandle], Look) == 0;
            if (stop.IsCancellationRequested) return;
            if (!told) _memory.Clear();
            string state = State(folder);
            // A copy may bring its old time with it: where the system tells of a change, the content is read whatever names, sizes and times say.
            if (state == seen && !told) continue;
            while (!stop.WaitHandle.WaitOne(Settle) && State(folder) is var later && later != state) state = later;
            seen = state;
            try
            {
                Turn();
            }
            catch (Exception e) when (e is IOException or UnauthorizedAccessException or UsageError)
            {
                Say($"{FileFaults.Said(e)} Waiting for the next save.");
            }
            catch (Exception e) when (e is not OutOfMemoryException)
            {
                Say($"A fault of the program itself: {e.GetType().Name}: {FileFaults.Said(e)} Waiting for the next save.");
            }
            // What was read may use other files than before.
            seen = State(folder) is var now && now.StartsWith(seen, StringComparison.Ordinal) ? now : seen;
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

    /// <summary>Names, sizes and times of the files that the last run read or missed.</summary>
    private string State(string folder)
    {
        var paths = _texts.Keys.Concat(_missing).Order(StringComparer.Ordinal).Select(p => Path.Combine(folder, p)).Prepend(Path.GetFullPath(spec));
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
        var clock = System.Diagnostics.Stopwatch.StartNew();
        _memory.Begin();
        var read = SpecFiles.IncludesOf(spec);
        var now = new Dictionary<string, SourceText>(StringComparer.Ordinal);
        var missing = new HashSet<string>(StringComparer.Ordinal);
        var main = Same(_last?.Source, SpecFiles.Read(spec));
        // Where the last outputs could not be written, a save without a change tries again.
        if (_last is not null && !back && !_isBehind && ReferenceEquals(main, _last.Source) && IncludesAreSame(read, now)) return;
        IncludeReader includes = path =>
        {
            if (now.TryGetValue(path, out var known)) return (known, null);
            var (text, problem) = read(path);
            if (text is null) missing.Add(path);
            else now[path] = text = Same(_texts.GetValueOrDefault(path), text);
            return (text, problem);
        };
        var compiled = Compiler.Compile(main, includes, SpecFiles.Given(options.Values("--set")), outFolder is { } folder ? KeptPlan.Read(folder) : null, _parsed);
        _memory.End();
        Compiled++;
        _texts.Clear();
        foreach (var (path, text) in now) _texts[path] = text;
        _missing.Clear();
        _missing.UnionWith(missing);
        Tell(compiled, clock);
    }

    private bool IncludesAreSame(IncludeReader read, Dictionary<string, SourceText> now)
    {
        bool same = true;
        foreach (var (path, before) in _texts)
        {
            var text = read(path).Source;
            if (text is not null) now[path] = Same(before, text);
            same &= text is not null && ReferenceEquals(now[path], before);
        }
        foreach (string path in _missing) same &= read(path).Source is null;
        return same;
    }

    /// <summary>The text of the last run where its content is the same, so that equal content is one object.</summary>
    private static SourceText Same(SourceText? before, SourceText fresh) => before is not null && before.Text == fresh.Text ? before : fresh;

    private void Tell(Compilation compiled, System.Diagnostics.Stopwatch clock)
    {
        var before = _last;
        _last = compiled;
        // Findings first: they are what somebody who just saved waits for.
        var open = compiled.Findings.Where(f => f.Level != Level.Note).ToList();
        if (before is null || !open.Select(Told).SequenceEqual(before.Findings.Where(f => f.Level != Level.Note).Select(Told))) FindingsOutput.Print([.. open], options, output, counted: false);
        Say($"{spec}: {FindingsOutput.Count(compiled.Findings)} ({clock.ElapsedMilliseconds} ms)");
        if (before is not null) Say("  " + ComparisonText.Short(Comparer.Compare(before, compiled, "before", "now")).ReplaceLineEndings("\n  ").TrimEnd());
        if (outFolder is null || compiled.Design is null) return;
        bool fails = FindingsOutput.Fails(compiled.Findings, options);
        if (fails && !options.Has("--draft"))
        {
            Say("  The old outputs stay until the errors are mended.");
            return;
        }
        _isBehind = true;
        var (files, _, problem) = Outputs.Of(compiled, spec, outFolder, fails, memory: _written);
        if (problem is not null)
        {
            Say($"  {problem}");
            return;
        }
        var report = OutputSet.Write(outFolder, files, replace: false, Outputs.EssenceOf);
        _isBehind = report.Error is not null;
        if (report.Error is { } error)
        {
            Say($"  {error}");
            foreach (var edit in report.Edited) Say($"    {edit.Path}: {edit.What}");
        }
        else if (report.Written.Length + report.Removed.Length > 0) Say($"  written: {Some(report.Written)}{(report.Removed.IsEmpty ? "" : $"; removed: {Some(report.Removed)}")}");
    }

    private static string Told(Finding f) => $"{f.Code} {f.Message} {f.Place.Start}";

    private static string Some(IReadOnlyList<string> paths) => string.Join(", ", paths.Take(4)) + (paths.Count > 4 ? $" and {paths.Count - 4} more" : "");

    private void Say(string text)
    {
        output.WriteLine(text);
        output.Flush();
    }
}
