using System.Collections.Immutable;

namespace Wain.Cli.Output;

/// <summary>One file to write.</summary>
/// <param name="Path">Below the output folder, with forward slashes.</param>
/// <param name="Bytes">Its whole content.</param>
/// <param name="Essence">For a file that a person may fill in, such as a workbook: a text that their entries don't change. Null: any change of a byte is an edit.</param>
public sealed record OutputFile(string Path, byte[] Bytes, string? Essence = null);

/// <summary>An output that is not as the program left it.</summary>
public sealed record OutputDifference(string Path, string What);

/// <summary>What a write did. With an error nothing was written, unless the message says otherwise.</summary>
public sealed record OutputReport(string? Error)
{
    public ImmutableArray<string> Written { get; init; } = [];

    public ImmutableArray<string> Unchanged { get; init; } = [];

    public ImmutableArray<string> Removed { get; init; } = [];

    /// <summary>Outputs that a person changed or made: why the write refused, or what it went over if told to.</summary>
    public ImmutableArray<OutputDifference> Edited { get; init; } = [];
}

/// <summary>How the files in a folder stand to what a build would write.</summary>
public sealed record OutputState(ImmutableArray<string> Stale, ImmutableArray<string> Missing, ImmutableArray<OutputDifference> Edited, ImmutableArray<string> LeftOver)
{
    public bool IsFresh => Stale.IsEmpty && Missing.IsEmpty && Edited.IsEmpty && LeftOver.IsEmpty;
}

/// <summary>
/// Writes a set of files so that a kill leaves the old set or the new.
///
/// All new content is first written and flushed into a folder of its own inside the output folder. Then one file, the journal, is renamed into place: that
/// single step decides. Killed before it, the old set stands untouched, and the next run clears away what was prepared. Killed after it, only renames are
/// left to do (no content is written any more, about a millisecond of work), and the next run, whatever it was asked for, finishes them from the journal
/// before anything else. So no file is ever seen half written, and no set stays mixed. This holds for a killed process; after a loss of power it holds as
/// far as the file system keeps the order of renames.
/// </summary>
public static class OutputSet
{
    /// <summary>Writes the files that differ and removes those of an earlier build that are no more part of the set.</summary>
    /// <param name="folder">Made if it is not there.</param>
    /// <param name="files">The whole set.</param>
    /// <param name="replace">Go on over files that a person changed.</param>
    /// <param name="essenceOf">The essence of a file as it stands, or null; asked only where the bytes differ from what was written.</param>
    public static OutputReport Write(string folder, IReadOnlyList<OutputFile> files, bool replace, Func<string, byte[], string?> essenceOf)
    {
        folder = Path.GetFullPath(folder);
        if (OutputPath.FirstProblem(folder, files.Select(file => file.Path)) is { } problem) return new(problem);
        try
        {
            Directory.CreateDirectory(folder);
            using var held = OutputLock.TryTake(folder, out string? busy);
            if (held is null) return new(busy);
            OutputJournal.Finish(folder);
            return WriteLocked(folder, files, replace, essenceOf);
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            return new($"The outputs in {folder} could not be written, and stay as they were: {FileFaults.Said(fault)}");
        }
    }

    private static OutputReport WriteLocked(string folder, IReadOnlyList<OutputFile> files, bool replace, Func<string, byte[], string?> essenceOf)
    {
        var manifest = OutputManifest.Read(folder);
        var edited = new List<OutputDifference>();
        var unchanged = new List<string>();
        var changed = new List<OutputFile>();
        foreach (var file in files)
        {
            byte[]? current = OutputPath.Read(folder, file.Path);
            if (current is not null && current.AsSpan().SequenceEqual(file.Bytes))
            {
                unchanged.Add(file.Path);
                continue;
            }
            if (current is not null && Edit(manifest, file.Path, current, essenceOf) is { } edit) edited.Add(edit);
            changed.Add(file);
        }
        var kept = files.Select(file => file.Path).ToHashSet(StringComparer.Ordinal);
        var removed = new List<string>();
        foreach (string path in manifest.Keys.Where(path => !kept.Contains(path)).Order(StringComparer.Ordinal))
        {
            // The manifest is a file that anybody can write: what it names is held to the same rules.
            if (OutputPath.FirstProblem(folder, [path]) is not null || OutputPath.Read(folder, path) is not { } current) continue;
            if (Edit(manifest, path, current, essenceOf) is { } edit) edited.Add(edit with { What = edit.What + "; it is not part of the outputs any more" });
            removed.Add(path);
        }
        if (edited.Count > 0 && !replace)
        {
            return new("Nothing was written: some outputs were changed by hand. Put the values into the spec, or build with --replace to go over them.") { Edited = [.. edited] };
        }
        string text = OutputManifest.Text(files);
        if (OutputPath.Read(folder, OutputManifest.Name) is not { } old || !old.AsSpan().SequenceEqual(System.Text.Encoding.UTF8.GetBytes(text)))
        {
            changed.Add(new OutputFile(OutputManifest.Name, System.Text.Encoding.UTF8.GetBytes(text)));
        }
        foreach (string path in changed.Select(file => file.Path).Concat(removed))
        {
            if (OutputPath.Holder(folder, path) is { } holder) return new($"{holder} Nothing was written.");
        }
        if (changed.Count > 0 || removed.Count > 0) OutputJournal.Commit(folder, changed, removed);
        return new((string?)null)
        {
            Written = [.. changed.Select(file => file.Path).Where(path => path != OutputManifest.Name)],
            Unchanged = [.. unchanged],
            Removed = [.. removed],
            Edited = [.. edited],
        };
    }

    /// <summary>Compares and writes nothing.</summary>
    public static OutputState Verify(string folder, IReadOnlyList<OutputFile> files, Func<string, byte[], string?> essenceOf)
    {
        folder = Path.GetFullPath(folder);
        var manifest = OutputManifest.Read(folder);
        List<string> stale = [], missing = [];
        var edited = new List<OutputDifference>();
        foreach (var file in files)
        {
            byte[]? current = OutputPath.Read(folder, file.Path);
            if (current is null) missing.Add(file.Path);
            else if (current.AsSpan().SequenceEqual(file.Bytes) || file.Essence is not null && file.Essence == essenceOf(file.Path, current)) continue;
            else if (Edit(manifest, file.Path, current, essenceOf) is { } edit) edited.Add(edit);
            else stale.Add(file.Path);
        }
        var kept = files.Select(file => file.Path).ToHashSet(StringComparer.Ordinal);
        var leftOver = manifest.Keys.Where(path => !kept.Contains(path) && OutputPath.FirstProblem(folder, [path]) is null && OutputPath.Read(folder, path) is not null);
        return new([.. stale], [.. missing], [.. edited], [.. leftOver.Order(StringComparer.Ordinal)]);
    }

    private static OutputDifference? Edit(IReadOnlyDictionary<string, OutputManifest.Entry> manifest, string path, byte[] current, Func<string, byte[], string?> essenceOf)
    {
        if (!manifest.TryGetValue(path, out var written)) return new(path, "was not written by a build");
        if (written.Hash == OutputManifest.Hash(current)) return null;
        bool onlyFilledIn = written.Essence is not null && essenceOf(path, current) is { } essence && OutputManifest.Hash(System.Text.Encoding.UTF8.GetBytes(essence)) == written.Essence;
        return onlyFilledIn ? null : new(path, "was changed since it was written");
    }
}
