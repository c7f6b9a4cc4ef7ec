using Wain.Cli;
using Wain.Cli.Commands;
using Wain.Cli.Output;
using Wain.Cli.Revisions;

namespace Wain.Tests.Revisions;

public sealed class WatchTests : IDisposable
{
    private readonly RevisionFolder _folder = new();
    private readonly Log _said = new();
    private readonly CancellationTokenSource _stop = new();
    private readonly string _spec, _materials, _out;
    private Task _run = Task.CompletedTask;

    public WatchTests()
    {
        (_spec, _materials, _out) = (_folder.At("old/camper.wain"), _folder.At("old/materials.wain"), _folder.At("out"));
    }

    public void Dispose()
    {
        _stop.Cancel();
        Assert.True(_run.Wait(TimeSpan.FromMinutes(2)));
        _stop.Dispose();
        _folder.Dispose();
    }

    private WatchLoop Start(params string[] more)
    {
        var loop = new WatchLoop(_spec, _out, Options.Parse(WatchCommand.Shape, [_spec, .. more]), _said);
        _run = Task.Run(() => loop.Run(_stop.Token));
        return loop;
    }

    private void Expect(string words) => _said.Expect(words, _run);

    /// <summary>As many editors save: another file, then a rename over the old one.</summary>
    private static void Replace(string path, string text)
    {
        File.WriteAllText(path + "~", text);
        File.Move(path + "~", path, overwrite: true);
    }

    private static string Wider => RevisionFolder.Main.Replace("let body_width = 64 in", "let body_width = 66 in", StringComparison.Ordinal);

    [Fact]
    public void A_save_is_compiled_told_in_figures_and_only_what_changed_is_made_again()
    {
        var loop = Start("--draft");
        Expect("written: ");
        var before = Directory.GetFiles(_out, "*", SearchOption.AllDirectories).ToDictionary(f => f, File.GetLastWriteTimeUtc);
        int parsed = loop.Parsed;

        Replace(_spec, Wider);
        Expect("error");
        Expect("weight, nothing aboard (total.weight):");
        Expect("written: ");
        Assert.True(loop.Parsed - parsed < 5, $"{loop.Parsed - parsed} declarations were parsed again");
        int wrote = loop.Wrote;
        // What the change does not touch keeps its bytes, its time and so its place in whatever looks at times.
        Assert.Contains(before, f => File.GetLastWriteTimeUtc(f.Key) == f.Value);
        Assert.Contains(before, f => File.GetLastWriteTimeUtc(f.Key) != f.Value);

        File.AppendAllText(_spec, "-- a remark\n");
        Expect("Nothing changed in meaning.");
        Replace(_spec, Wider);
        Expect("Nothing changed in meaning.");
        Replace(_spec, RevisionFolder.Main);
        Expect("total.weight");
        Expect("written: ");
        Assert.True(loop.Wrote > wrote);

        // Every file is what a build would make.
        string folder = _folder.At("built");
        RevisionFolder.Run("build", _spec, "--out", folder, "--draft");
        string[] Names(string of) => [.. Directory.GetFiles(of, "*", SearchOption.AllDirectories).Select(f => Path.GetRelativePath(of, f)).Where(f => f is not (".wain-watch" or "wain.manifest")).Order(StringComparer.Ordinal)];
        Assert.Equal(Names(Path.Combine(folder, "camper")), Names(_out));
        foreach (string name in Names(_out)) Assert.True(File.ReadAllBytes(Path.Combine(folder, "camper", name)).AsSpan().SequenceEqual(File.ReadAllBytes(Path.Combine(_out, name))), name);
    }

    [Fact]
    public void Errors_and_files_that_go_are_survived()
    {
        Start("--draft");
        Expect("written: ");
        byte[] workbook = File.ReadAllBytes(Path.Combine(_out, "workbook.xlsx"));

        File.WriteAllText(_materials, "sheet {");
        Expect("camper.wain: ");
        Assert.DoesNotContain("no errors", _said.Line("camper.wain: "));
        File.Delete(_materials);
        Expect("can't be read");
        Replace(_materials, RevisionFolder.Materials);
        Expect("camper.wain: ");

        File.Delete(_spec);
        Expect("is gone");
        File.WriteAllText(_spec, RevisionFolder.Main);
        Expect("camper.wain: ");
        File.WriteAllBytes(_spec, [0xFF, 0x00, 0xFE, 0x80]);
        Expect("WN0001");
        Replace(_spec, RevisionFolder.Main + "-- end\n");
        Expect("camper.wain: ");
        Assert.Equal(workbook, File.ReadAllBytes(Path.Combine(_out, "workbook.xlsx")));
    }

    [Fact]
    public void An_output_that_was_edited_is_told_and_kept()
    {
        Start("--draft");
        Expect("written: ");
        string summary = Path.Combine(_out, "summary.md");
        File.AppendAllText(summary, "mine\n");
        Replace(_spec, Wider);
        Expect("summary.md: was changed since it was written");
        Assert.EndsWith("mine\n", File.ReadAllText(summary), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Two_watches_do_not_write_to_one_folder()
    {
        Start("--draft");
        Expect("written: ");
        var second = new WatchLoop(_spec, _out, Options.Parse(WatchCommand.Shape, [_spec]), TextWriter.Null);
        Assert.Contains("Another watch", Assert.Throws<UsageError>(() => second.Run(CancellationToken.None)).Message);
        // Without a folder to write to it only tells, and may.
        using var stop = new CancellationTokenSource();
        var said = new Log();
        var third = Task.Run(() => new WatchLoop(_spec, null, Options.Parse(WatchCommand.Shape, [_spec]), said).Run(stop.Token));
        said.Expect("camper.wain: ", third);
        stop.Cancel();
        await third.WaitAsync(TimeSpan.FromMinutes(2));
    }

    [Fact]
    public void Another_build_that_writes_meanwhile_is_told()
    {
        Start("--draft");
        Expect("written: ");
        using (OutputLock.TryTake(_out, out _))
        {
            Replace(_spec, Wider);
            Expect("Another build is writing");
        }
        // Saved again without a change, what could not be written is.
        Replace(_spec, Wider);
        Expect("written: ");
    }

    /// <summary>What was said, read in order.</summary>
    private sealed class Log : StringWriter
    {
        private readonly Lock _lock = new();
        private int _read;

        public override void WriteLine(string? value) => Write(value + "\n");

        public override void Write(string? value)
        {
            lock (_lock) base.Write(value);
        }

        public override void Write(char value)
        {
            lock (_lock) base.Write(value);
        }

        /// <summary>The line with the words that was read last.</summary>
        public string Line(string words)
        {
            lock (_lock) return ToString()[.._read].Split('\n').Last(l => l.Contains(words, StringComparison.Ordinal)) + ToString()[_read..].Split('\n')[0];
        }

        /// <summary>Waits until the words are said. A loaded machine may take minutes, and a loop that ended says nothing more.</summary>
        public void Expect(string words, Task speaker)
        {
            for (var until = DateTime.UtcNow.AddMinutes(4); ; Thread.Sleep(20))
            {
                bool ended = speaker.IsCompleted;
                lock (_lock)
                {
                    string all = ToString();
                    int at = all.IndexOf(words, _read, StringComparison.Ordinal);
                    if (at >= 0)
                    {
                        _read = at + words.Length;
                        return;
                    }
                    Assert.False(ended, $"The watch ended ({speaker.Exception?.InnerException?.Message}); \"{words}\" was not said after: {all[_read..]}");
                    Assert.True(DateTime.UtcNow < until, $"\"{words}\" was not said after: {all[_read..]}");
                }
            }
        }
    }
}
