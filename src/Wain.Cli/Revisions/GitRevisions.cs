using System.Text;
using LibGit2Sharp;
using Wain.Core.Binding;
using Wain.Core.Text;

namespace Wain.Cli.Revisions;

/// <summary>A commit with a state of the spec's folder.</summary>
/// <param name="TreeId">Hash of all that the folder holds: equal for equal content, so that results can be kept by it.</param>
public sealed record SpecRevision(string CommitId, DateTimeOffset When, string Message, string TreeId);

/// <summary>Reads specs out of a repository's history. Only objects are read: the work tree, the index and the configuration stay as they are.</summary>
public static class GitRevisions
{
    private const long SizeLimit = 16L * 1024 * 1024;

    /// <summary>The main text at a revision, and the reader of the files that it uses there.</summary>
    /// <param name="revision">A commit by any name that the repository knows.</param>
    /// <param name="path">A spec, or a folder with one spec in it; from the top of the repository or, failing that, from the current folder.</param>
    public static (SourceText Main, IncludeReader Includes) Read(string revision, string path)
    {
        using var repository = Open(Directory.GetCurrentDirectory());
        var commit = Find(repository, revision);
        string given = path.Replace('\\', '/');
        string? beside = FromHere(repository, given);
        var entry = EntryOf(commit, given.StartsWith("./", StringComparison.Ordinal) ? beside ?? given : given) ?? (beside is null ? null : EntryOf(commit, beside));
        if (entry is null) throw new UsageError($"There is no {path} in {revision}.");
        if (entry.TargetType == TreeEntryTargetType.Tree) entry = OneSpec((Tree)entry.Target, $"{revision}:{path}");
        return ReadMain(commit.Tree, entry.Path, revision);
    }

    private static (SourceText, IncludeReader) ReadMain(Tree tree, string path, string revision)
    {
        if (tree[path] is not { TargetType: TreeEntryTargetType.Blob } entry) throw new UsageError($"{revision}:{path} is no file.");
        string folder = path.Contains('/') ? path[..(path.LastIndexOf('/') + 1)] : "";
        // All files of the folder are read at once: the repository is closed before the compiler asks for one.
        var texts = new Dictionary<string, (SourceText?, string?)>(StringComparer.Ordinal);
        Collect(folder.Length == 0 ? tree : (Tree)tree[folder.TrimEnd('/')].Target, "", $"{revision}:{folder}", texts, 0);
        var main = TextOf((Blob)entry.Target, $"{revision}:{path}");
        return (main, relative => texts.TryGetValue(relative, out var text) ? text : (null, "there is no such file in that revision"));
    }

    private static void Collect(Tree tree, string prefix, string shown, Dictionary<string, (SourceText?, string?)> texts, int depth)
    {
        foreach (var entry in tree)
        {
            string name = prefix + entry.Name;
            if (entry.TargetType == TreeEntryTargetType.Tree && depth < 8) Collect((Tree)entry.Target, name + "/", shown, texts, depth + 1);
            if (entry.TargetType != TreeEntryTargetType.Blob) continue;
            if (entry.Mode == Mode.SymbolicLink) texts[name] = (null, "it is a link");
            else if (name.EndsWith(".wain", StringComparison.Ordinal)) texts[name] = (TextOf((Blob)entry.Target, shown + name), null);
        }
    }

    private static SourceText TextOf(Blob blob, string shown)
    {
        if (blob.Size > SizeLimit) throw new UsageError($"{shown} has more than {SizeLimit / (1024 * 1024)} MB; that is no spec.");
        using var stream = blob.GetContentStream();
        using var copy = new MemoryStream();
        stream.CopyTo(copy);
        var bytes = copy.ToArray();
        int start = bytes.AsSpan().StartsWith(Encoding.UTF8.Preamble) ? 3 : 0;
        return new SourceText(shown, Encoding.UTF8.GetString(bytes, start, bytes.Length - start));
    }

    /// <summary>Every state of a spec's folder along the first parents of the present commit, newest first.</summary>
    public static IReadOnlyList<SpecRevision> HistoryOf(string specPath, int most)
    {
        string full = Path.GetFullPath(specPath);
        using var repository = Open(Path.GetDirectoryName(full)!);
        string path = Path.GetRelativePath(Top(repository), Real(full)).Replace('\\', '/');
        string folder = path.Contains('/') ? path[..path.LastIndexOf('/')] : "";
        var revisions = new List<SpecRevision>();
        string last = "";
        for (var commit = Tip(repository); commit is not null && revisions.Count <= most; commit = Parent(repository, commit))
        {
            var at = folder.Length == 0 ? commit.Tree : commit.Tree[folder]?.Target as Tree;
            if (at?[path[(folder.Length == 0 ? 0 : folder.Length + 1)..]] is null) { last = ""; continue; }
            // The oldest commit of a run of equal states is the one that made the change.
            if (at.Id.Sha == last) revisions.RemoveAt(revisions.Count - 1);
            last = at.Id.Sha;
            revisions.Add(new SpecRevision(commit.Id.Sha, commit.Author.When, commit.MessageShort, at.Id.Sha));
        }
        return revisions.Count > most ? revisions.GetRange(0, most) : revisions;
    }

    /// <summary>The texts of a spec at some commits.</summary>
    public static IEnumerable<(SourceText Main, IncludeReader Includes)> At(string specPath, IEnumerable<string> commits)
    {
        string full = Path.GetFullPath(specPath);
        using var repository = Open(Path.GetDirectoryName(full)!);
        string path = Path.GetRelativePath(Top(repository), Real(full)).Replace('\\', '/');
        foreach (string id in commits) yield return ReadMain(repository.Lookup<Commit>(id).Tree, path, id[..8]);
    }

    /// <summary>True if the clone lacks older commits.</summary>
    public static bool IsShallow(string specPath)
    {
        using var repository = Open(Path.GetDirectoryName(Path.GetFullPath(specPath))!);
        return repository.Info.IsShallow;
    }

    private static Commit? Parent(Repository repository, Commit commit)
    {
        try
        {
            return commit.Parents.FirstOrDefault();
        }
        catch (NotFoundException)
        {
            // A shallow clone ends here.
            return null;
        }
    }

    private static Repository Open(string folder)
    {
        if (Repository.Discover(folder) is not { } found) throw new UsageError($"{folder} lies in no repository, so there are no revisions to read.");
        try
        {
            return new Repository(found);
        }
        catch (LibGit2SharpException e)
        {
            throw new UsageError($"The repository {found} can't be opened: {e.Message}");
        }
    }

    private static Commit Tip(Repository repository) => repository.Head.Tip ?? throw new UsageError("The repository has no commits yet, so there is no revision to compare with.");

    private static Commit Find(Repository repository, string revision)
    {
        Tip(repository);
        string shallow = repository.Info.IsShallow ? " This clone is shallow: older revisions are not in it. git fetch --unshallow gets them." : "";
        try
        {
            if (repository.Lookup(revision)?.Peel<Commit>() is { } commit) return commit;
        }
        catch (LibGit2SharpException e)
        {
            throw new UsageError($"There is no revision \"{revision}\" ({e.Message.TrimEnd('.')}).{shallow}");
        }
        throw new UsageError($"There is no revision \"{revision}\".{shallow}");
    }

    private static TreeEntry? EntryOf(Commit commit, string path) => path is "" or "." ? null : commit.Tree[path.TrimEnd('/')];

    private static string? FromHere(Repository repository, string path)
    {
        if (repository.Info.WorkingDirectory is null) return null;
        string relative = Path.GetRelativePath(Top(repository), Path.Combine(Real(Directory.GetCurrentDirectory()), path)).Replace('\\', '/');
        return relative.StartsWith("..", StringComparison.Ordinal) ? null : relative;
    }

    private static string Top(Repository repository) =>
        Real((repository.Info.WorkingDirectory ?? throw new UsageError("This repository has no work tree, so a path can't be found in it.")).TrimEnd(Path.DirectorySeparatorChar));

    // A temporary folder may be reached through a link, and the repository knows its own real path.
    private static string Real(string path)
    {
        string? parent = Path.GetDirectoryName(path);
        if (parent is null) return path;
        FileSystemInfo info = Directory.Exists(path) ? new DirectoryInfo(path) : new FileInfo(path);
        return info.ResolveLinkTarget(returnFinalTarget: true)?.FullName ?? Path.Combine(Real(parent), Path.GetFileName(path));
    }

    private static TreeEntry OneSpec(Tree tree, string shown)
    {
        var specs = tree.Where(e => e.TargetType == TreeEntryTargetType.Blob && e.Name.EndsWith(".wain", StringComparison.Ordinal)).ToList();
        string name = Sides.OneSpecOf(specs.Select(e => (e.Name, (Func<string>)(() => TextOf((Blob)e.Target, e.Name).Text))), shown);
        return specs.First(e => e.Name == name);
    }
}
