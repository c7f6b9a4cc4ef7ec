using System.Globalization;
using System.Text;

namespace Wain.Cli.Output;

/// <summary>The two halves of a write: all content into a staging folder, then a journal of renames. See <see cref="OutputSet"/> for what that guarantees.</summary>
internal static class OutputJournal
{
    private const string Staging = ".wain-staged";
    private const string Name = ".wain-journal";
    private const string End = "end";

    /// <exception cref="IOException">Nothing was written, unless the message says that the next build finishes it.</exception>
    public static void Commit(string folder, IReadOnlyList<OutputFile> changed, IReadOnlyList<string> removed)
    {
        string staging = Path.Combine(folder, Staging), journal = Path.Combine(folder, Name);
        var text = new StringBuilder();
        try
        {
            Directory.CreateDirectory(staging);
            // Side by side, because each write waits for the disk to say that it holds the bytes.
            WriteAll(staging, changed);
            for (int i = 0; i < changed.Count; i++) text.Append("move ").Append(Staged(i)).Append(' ').Append(changed[i].Path).Append('\n');
            foreach (string path in removed) text.Append("remove ").Append(path).Append('\n');
            string prepared = Path.Combine(staging, "journal");
            WriteThrough(prepared, Encoding.UTF8.GetBytes(text.Append(End).Append('\n').ToString()));
            File.Move(prepared, journal);
        }
        catch
        {
            Clear(staging);
            throw;
        }
        try
        {
            Finish(folder);
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            throw new IOException($"{FileFaults.Said(fault)} The new outputs are complete and only partly in place; the next build finishes this first.", fault);
        }
    }

    /// <summary>Does what a journal asks, if one was left, and clears what was only prepared. May be repeated at any point.</summary>
    public static void Finish(string folder)
    {
        string staging = Path.Combine(folder, Staging), journal = Path.Combine(folder, Name);
        if (File.Exists(journal))
        {
            foreach (string line in File.ReadAllText(journal).Split('\n'))
            {
                string[] parts = line.Split(' ', 2);
                if (parts is ["move", var move] && move.Split(' ', 2) is [var staged, var target]) Move(folder, Path.Combine(staging, Path.GetFileName(staged)), target);
                else if (parts is ["remove", var gone]) Remove(folder, gone);
            }
            File.Delete(journal);
        }
        Clear(staging);
    }

    private static void Move(string folder, string staged, string target)
    {
        // Already moved by a run that was killed behind this point.
        if (!File.Exists(staged)) return;
        // A journal is a file that anybody could have put there: it moves nothing out of the folder.
        if (OutputPath.FirstProblem(folder, [target]) is { } problem) throw new IOException(problem);
        string full = OutputPath.Full(folder, target);
        Directory.CreateDirectory(Path.GetDirectoryName(full)!);
        File.Move(staged, full, overwrite: true);
    }

    private static void Remove(string folder, string path)
    {
        if (OutputPath.FirstProblem(folder, [path]) is { } problem) throw new IOException(problem);
        string full = OutputPath.Full(folder, path);
        File.Delete(full);
        for (string? parent = Path.GetDirectoryName(full); parent is not null && parent.Length > folder.Length; parent = Path.GetDirectoryName(parent))
        {
            if (!Directory.Exists(parent) || Directory.EnumerateFileSystemEntries(parent).Any()) break;
            Directory.Delete(parent);
        }
    }

    private static string Staged(int index) => index.ToString(CultureInfo.InvariantCulture);

    private static void WriteAll(string staging, IReadOnlyList<OutputFile> files)
    {
        try
        {
            Parallel.For(0, files.Count, new ParallelOptions { MaxDegreeOfParallelism = 8 }, i => WriteThrough(Path.Combine(staging, Staged(i)), files[i].Bytes));
        }
        catch (AggregateException faults)
        {
            // The first fault says enough: a disk that is full is full for all.
            System.Runtime.ExceptionServices.ExceptionDispatchInfo.Throw(faults.InnerExceptions[0]);
        }
    }

    private static void WriteThrough(string path, byte[] bytes)
    {
        using var file = new FileStream(path, FileMode.Create, FileAccess.Write, FileShare.None);
        try
        {
            file.Write(bytes);
        }
        catch (ArgumentOutOfRangeException fault)
        {
            // What .NET makes of a file system's answer that a file is too large for it.
            throw new IOException($"{path} is larger than may be written here.", fault);
        }
        file.Flush(flushToDisk: true);
    }

    private static void Clear(string staging)
    {
        if (Directory.Exists(staging)) Directory.Delete(staging, recursive: true);
    }
}
