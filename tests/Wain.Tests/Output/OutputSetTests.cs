using System.Text;
using Wain.Cli.Output;

namespace Wain.Tests.Output;

public sealed class OutputSetTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("wain-output-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private string Out => Path.Combine(_folder, "output");

    private static OutputFile Text(string path, string text, string? essence = null) => new(path, Encoding.UTF8.GetBytes(text), essence);

    private OutputReport Write(bool replace, params OutputFile[] files) => OutputSet.Write(Out, files, replace, EssenceOf);

    // Stands for a workbook: what follows a slash is the person's own.
    private static string? EssenceOf(string path, byte[] bytes) => path.EndsWith(".book", StringComparison.Ordinal) ? Encoding.UTF8.GetString(bytes).Split('/')[0] : null;

    private string Read(string path) => File.ReadAllText(Path.Combine(Out, path));

    private void Put(string path, string text) => File.WriteAllText(Path.Combine(Out, path), text);

    private string[] Names() => Directory.EnumerateFileSystemEntries(Out, "*", SearchOption.AllDirectories).Select(path => Path.GetRelativePath(Out, path).Replace('\\', '/')).Order(StringComparer.Ordinal).ToArray();

    // The keys are those that the runtime gives where its sentences are left out; "No space left on device" is what the system says itself.
    [Theory]
    [InlineData("IO_PathNotFound_Path, /x/of/first", "/x/of/first: a folder on the way there is missing, or a file stands in its place.")]
    [InlineData("IO_FileExists_Name, /x/first", "/x/first: something of that name is there already.")]
    [InlineData("UnauthorizedAccess_IODenied_NoPathName", "It may not be opened.")]
    [InlineData("No space left on device : '/x/0'", "No space left on device : '/x/0'")]
    public void AFaultOfAFileIsToldInWords(string message, string said)
    {
        Exception fault = message.StartsWith("IO_Path", StringComparison.Ordinal) ? new DirectoryNotFoundException(message) : message.StartsWith("Unauth", StringComparison.Ordinal) ? new UnauthorizedAccessException(message) : new IOException(message);
        Assert.Equal(said, FileFaults.Said(fault));
    }

    [Fact]
    public void ASetIsWrittenAndOnlyWhatChangedIsWrittenAgain()
    {
        var first = Write(false, Text("a.txt", "one"), Text("pictures/b.svg", "two"));
        Assert.Null(first.Error);
        Assert.Equal(["a.txt", "pictures/b.svg"], first.Written.AsEnumerable());
        Assert.Equal(["a.txt", "pictures", "pictures/b.svg", "wain.manifest"], Names());
        var old = new DateTime(2001, 1, 1, 0, 0, 0, DateTimeKind.Utc);
        foreach (string name in new[] { "a.txt", "pictures/b.svg", "wain.manifest" }) File.SetLastWriteTimeUtc(Path.Combine(Out, name), old);
        Assert.Empty(Write(false, Text("a.txt", "one"), Text("pictures/b.svg", "two")).Written);
        var second = Write(false, Text("a.txt", "one"), Text("pictures/b.svg", "three"));
        Assert.Equal(["pictures/b.svg"], second.Written.AsEnumerable());
        Assert.Equal(["a.txt"], second.Unchanged.AsEnumerable());
        Assert.Equal(old, File.GetLastWriteTimeUtc(Path.Combine(Out, "a.txt")));
        Assert.Equal("three", Read("pictures/b.svg"));
    }

    [Fact]
    public void WhatAPersonChangedIsListedAndKeptUnlessReplaced()
    {
        Write(false, Text("a.txt", "one"), Text("b.txt", "two"));
        Put("a.txt", "mine");
        var refused = Write(false, Text("a.txt", "new"), Text("b.txt", "new"));
        Assert.NotNull(refused.Error);
        Assert.Equal("a.txt", Assert.Single(refused.Edited).Path);
        Assert.Equal(("mine", "two"), (Read("a.txt"), Read("b.txt")));
        var replaced = Write(true, Text("a.txt", "new"), Text("b.txt", "new"));
        Assert.Null(replaced.Error);
        Assert.Equal(("new", "new"), (Read("a.txt"), Read("b.txt")));
        // Changed to just what the build wants is no quarrel.
        Put("a.txt", "newer");
        Assert.Null(Write(false, Text("a.txt", "newer"), Text("b.txt", "new")).Error);
    }

    [Fact]
    public void AFileThatWasNeverOursIsNotOverwritten()
    {
        Directory.CreateDirectory(Out);
        Put("a.txt", "a person's");
        Assert.Contains("was not written by a build", Assert.Single(Write(false, Text("a.txt", "ours")).Edited).What);
        Assert.Equal("a person's", Read("a.txt"));
    }

    [Fact]
    public void WhatAPersonFillsInIsNoEdit()
    {
        Write(false, Text("w.book", "3 sheets/", "3 sheets"));
        Put("w.book", "3 sheets/owned 1");
        Assert.Null(Write(false, Text("w.book", "4 sheets/owned 1", "4 sheets")).Error);
        Put("w.book", "5 sheets/owned 1");
        Assert.NotNull(Write(false, Text("w.book", "4 sheets/owned 1", "4 sheets")).Error);
    }

    [Fact]
    public void OutputsOfAnEarlierBuildGoIfTheyAreOursAndUnedited()
    {
        Write(false, Text("a.txt", "one"), Text("old/b.txt", "two"), Text("old/c.txt", "three"));
        Put("old/note.txt", "a person's");
        var report = Write(false, Text("a.txt", "one"), Text("old/c.txt", "three"));
        Assert.Equal(["old/b.txt"], report.Removed.AsEnumerable());
        Put("old/c.txt", "mine");
        Assert.Equal("old/c.txt", Assert.Single(Write(false, Text("a.txt", "one")).Edited).Path);
        Assert.Equal(["a.txt", "old", "old/c.txt", "old/note.txt", "wain.manifest"], Names());
        Assert.Equal(["old/c.txt"], Write(true, Text("a.txt", "one")).Removed.AsEnumerable());
        File.Delete(Path.Combine(Out, "old/note.txt"));
        Write(false, Text("a.txt", "one"), Text("deep/er/d.txt", "four"));
        Write(false, Text("a.txt", "one"));
        Assert.DoesNotContain("deep", Names());
    }

    [Fact]
    public void VerifyListsAndWritesNothing()
    {
        Write(false, Text("same.txt", "1"), Text("stale.txt", "2"), Text("edited.txt", "3"), Text("gone.txt", "4"), Text("left.txt", "5"), Text("w.book", "x/", "x"));
        Put("edited.txt", "mine");
        Put("w.book", "x/filled in");
        File.Delete(Path.Combine(Out, "gone.txt"));
        var before = Names().Select(name => (name, File.GetLastWriteTimeUtc(Path.Combine(Out, name)))).ToArray();
        OutputFile[] wanted = [Text("same.txt", "1"), Text("stale.txt", "22"), Text("edited.txt", "3"), Text("gone.txt", "4"), Text("w.book", "x/", "x")];
        var state = OutputSet.Verify(Out, wanted, EssenceOf);
        Assert.Equal(["stale.txt"], state.Stale.AsEnumerable());
        Assert.Equal(["gone.txt"], state.Missing.AsEnumerable());
        Assert.Equal("edited.txt", Assert.Single(state.Edited).Path);
        Assert.Equal(["left.txt"], state.LeftOver.AsEnumerable());
        Assert.False(state.IsFresh);
        Assert.Equal(before, Names().Select(name => (name, File.GetLastWriteTimeUtc(Path.Combine(Out, name)))).ToArray());
        Write(true, wanted);
        Assert.True(OutputSet.Verify(Out, wanted, EssenceOf).IsFresh);
        Assert.Equal(["a.txt"], OutputSet.Verify(Path.Combine(_folder, "nowhere"), [Text("a.txt", "1")], EssenceOf).Missing.AsEnumerable());
        Assert.False(Directory.Exists(Path.Combine(_folder, "nowhere")));
    }

    [Theory]
    [InlineData("../a.txt")]
    [InlineData("a/../../b.txt")]
    [InlineData("/etc/a.txt")]
    [InlineData("C:/a.txt")]
    [InlineData("a\\b.txt")]
    [InlineData("")]
    [InlineData("a//b")]
    [InlineData(".wain-journal")]
    public void NoPathLeavesTheFolder(string path)
    {
        Assert.NotNull(Write(true, Text("ok.txt", "1"), Text(path, "2")).Error);
        Assert.False(File.Exists(Path.Combine(Out, "ok.txt")));
    }

    [Fact]
    public void NoLinkLeadsOut()
    {
        string outside = Directory.CreateDirectory(Path.Combine(_folder, "outside")).FullName;
        Directory.CreateDirectory(Out);
        Directory.CreateSymbolicLink(Path.Combine(Out, "pictures"), outside);
        Assert.Contains("link", Write(true, Text("pictures/a.svg", "1")).Error);
        Assert.Empty(Directory.EnumerateFileSystemEntries(outside));
        // A manifest or a journal that somebody made up reaches no further.
        string victim = Path.Combine(outside, "victim.txt");
        File.WriteAllText(victim, "kept");
        Put("wain.manifest", $"wain outputs 1\n{OutputManifest.Hash("kept"u8)} - ../outside/victim.txt\n");
        Assert.Empty(Write(true, Text("a.txt", "1")).Removed);
        Put(".wain-journal", "remove ../outside/victim.txt\nend\n");
        Assert.NotNull(Write(true, Text("a.txt", "2")).Error);
        Assert.True(File.Exists(victim));
    }

    [Fact]
    public void AFileHeldOpenIsToldAndTheOldSetStays()
    {
        Write(false, Text("a.txt", "one"), Text("w.xlsx", "two"));
        using (new FileStream(Path.Combine(Out, "w.xlsx"), FileMode.Open, FileAccess.ReadWrite, FileShare.None))
        {
            var report = OutputSet.Write(Out, [Text("a.txt", "new"), Text("w.xlsx", "new")], true, EssenceOf);
            Assert.NotNull(report.Error);
        }
        Assert.Equal(("one", "two"), (Read("a.txt"), Read("w.xlsx")));
        // What office programs leave beside a file that they hold.
        foreach (string mark in new[] { ".~lock.w.xlsx#", "~$w.xlsx" })
        {
            Put(mark, "");
            Assert.Contains("open in another program", Write(true, Text("a.txt", "new"), Text("w.xlsx", "new")).Error);
            Assert.Equal(("one", "two"), (Read("a.txt"), Read("w.xlsx")));
            File.Delete(Path.Combine(Out, mark));
        }
        Assert.Null(Write(true, Text("a.txt", "new"), Text("w.xlsx", "new")).Error);
    }

    [Fact]
    public void AFolderThatCannotBeWrittenIsAClearError()
    {
        File.WriteAllText(Out, "a file where the folder should be");
        Assert.Contains("could not be written", Write(false, Text("a.txt", "1")).Error);
        Assert.Equal("a file where the folder should be", File.ReadAllText(Out));
    }

    // A limit on the size of files stands in for a full disk: both fail in the middle of writing.
    [Fact]
    public void WithNoRoomForTheNewSetTheOldOneStays()
    {
        if (OperatingSystem.IsWindows()) return;
        Assert.Equal(0, Child.Run(["output", Out, "old"]).ExitCode);
        var start = new System.Diagnostics.ProcessStartInfo("bash", ["-c", "trap '' XFSZ; ulimit -f 64; exec dotnet exec \"$0\" output \"$1\" new", typeof(Child).Assembly.Location, Out]) { RedirectStandardError = true };
        // The runtime's own files must fit: no double mapping of generated code, no diagnostics.
        start.Environment["DOTNET_EnableWriteXorExecute"] = "0";
        start.Environment["DOTNET_EnableDiagnostics"] = "0";
        using var child = System.Diagnostics.Process.Start(start)!;
        string error = child.StandardError.ReadToEnd();
        child.WaitForExit();
        Assert.Contains("stay as they were", error);
        Assert.Equal(2, child.ExitCode);
        Assert.Equal("old", Uniform());
        Assert.DoesNotContain(Names(), name => name.StartsWith(".wain-", StringComparison.Ordinal));
    }

    [Fact]
    public void TwoAtOnceAreToldAndALockLeftBehindIsNoLock()
    {
        Directory.CreateDirectory(Out);
        using (OutputLock.TryTake(Out, out _))
        {
            Assert.Contains("Another build is writing", Write(false, Text("a.txt", "1")).Error);
        }
        Put(".wain-lock", "left by a killed run");
        Assert.Null(Write(false, Text("a.txt", "1")).Error);
    }

    [Fact]
    public void AKillLeavesTheOldSetOrTheNew()
    {
        var random = new Random(4711);
        int interrupted = 0;
        Assert.Null(OutputSet.Write(Out, Set("start"), false, EssenceOf).Error);
        for (int round = 0; round < 12; round++)
        {
            using (var child = Child.Start(["outputs", Out]))
            {
                string? line = child.StandardOutput.ReadLine();
                Assert.True(line == "writing", line is null ? child.StandardError.ReadToEnd() : line);
                // Every other round waits for a write to be under way, so that some kills are sure to fall into one.
                if (round % 2 == 0) SpinWait.SpinUntil(() => Directory.Exists(Path.Combine(Out, ".wain-staged")), TimeSpan.FromSeconds(30));
                Thread.Sleep(random.Next(0, round % 2 == 0 ? 20 : 60));
                child.Kill();
                child.WaitForExit();
            }
            // No file is ever half written, even before anything is mended.
            string[] found = Enumerable.Range(0, Files).Select(i => Mark(File.ReadAllBytes(Path.Combine(Out, Name(i))), i)).ToArray();
            if (Directory.Exists(Path.Combine(Out, ".wain-staged")) || File.Exists(Path.Combine(Out, ".wain-journal"))) interrupted++;
            if (!File.Exists(Path.Combine(Out, ".wain-journal"))) Assert.Single(found.Distinct());
            // The next run finishes what was decided before it does its own work: asked for nothing new, it leaves one whole set.
            using (OutputLock.TryTake(Out, out _)) OutputJournal.Finish(Out);
            string mark = Uniform();
            Assert.True(OutputSet.Verify(Out, Set(mark), EssenceOf).IsFresh);
        }
        Assert.True(interrupted > 0, "no kill came in the middle of a write, so nothing was tested");
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(5)]
    public void ARunKilledBetweenRenamesIsFinishedByTheNext(int done)
    {
        OutputSet.Write(Out, Set("old"), false, EssenceOf);
        string staging = Directory.CreateDirectory(Path.Combine(Out, ".wain-staged")).FullName;
        var journal = new StringBuilder();
        var files = Set("new").Append(new OutputFile(OutputManifest.Name, Encoding.UTF8.GetBytes(OutputManifest.Text(Set("new"))))).ToArray();
        for (int i = 0; i < files.Length; i++)
        {
            File.WriteAllBytes(i < done ? Path.Combine(Out, files[i].Path) : Path.Combine(staging, $"{i}"), files[i].Bytes);
            journal.Append($"move {i} {files[i].Path}\n");
        }
        Put(".wain-journal", journal.Append("end\n").ToString());
        var report = OutputSet.Write(Out, Set("new"), false, EssenceOf);
        Assert.Null(report.Error);
        Assert.Empty(report.Written);
        Assert.Equal("new", Uniform());
        Assert.DoesNotContain(Names(), name => name.StartsWith(".wain-", StringComparison.Ordinal));
    }

    private const int Files = 12;

    private static string Name(int i) => $"part{i}.txt";

    /// <summary>A set whose every file names the set it belongs to, at both ends.</summary>
    internal static OutputFile[] Set(string mark) => Enumerable.Range(0, Files).Select(i => Text(Name(i), $"{mark}\n{new string((char)('a' + i), 100_000)}\n{mark}")).ToArray();

    private static string Mark(byte[] bytes, int i)
    {
        string[] lines = Encoding.UTF8.GetString(bytes).Split('\n');
        Assert.Equal(3, lines.Length);
        Assert.Equal(new string((char)('a' + i), 100_000), lines[1]);
        Assert.Equal(lines[0], lines[2]);
        return lines[0];
    }

    private string Uniform() => Assert.Single(Enumerable.Range(0, Files).Select(i => Mark(File.ReadAllBytes(Path.Combine(Out, Name(i))), i)).Distinct());

    /// <summary>Run in a process of its own until it is killed.</summary>
    internal static int WriteForEver(string folder)
    {
        for (int i = 0; ; i++)
        {
            var report = OutputSet.Write(folder, Set($"{Environment.ProcessId} {i}"), false, EssenceOf);
            if (report.Error is not null) throw new InvalidOperationException(report.Error);
            if (i == 0) Console.WriteLine("writing");
        }
    }
}
