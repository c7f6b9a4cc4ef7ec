using Wain.Cli;

namespace Wain.Tests.Revisions;

/// <summary>A folder of its own with the small spec split in two files, and what the command line says of it.</summary>
internal sealed class RevisionFolder : IDisposable
{
    public RevisionFolder()
    {
        Directory.CreateDirectory(Root);
        Write("old", Main, Materials);
    }

    public string Root { get; } = Path.Combine(Path.GetTempPath(), "wain-revisions-" + Guid.NewGuid().ToString("N"));

    /// <summary>The first spec with its materials in a file of their own.</summary>
    public static string Main { get; } = "use \"materials.wain\"\n" + Split().Main;

    public static string Materials { get; } = Split().Materials;

    private static (string Main, string Materials) Split()
    {
        string text = File.ReadAllText(Path.Combine(Repository.Root, "specs", "first", "first.wain"));
        int from = text.IndexOf("sheet ply_9mm", StringComparison.Ordinal), to = text.IndexOf("stack deck", StringComparison.Ordinal);
        return (text[..from] + text[to..], text[from..to]);
    }

    public string Write(string name, string main, string? materials = null)
    {
        string folder = Path.Combine(Root, name);
        Directory.CreateDirectory(folder);
        File.WriteAllText(Path.Combine(folder, "camper.wain"), main);
        File.WriteAllText(Path.Combine(folder, "materials.wain"), materials ?? Materials);
        return folder;
    }

    public string At(string path) => Path.Combine(Root, path);

    public static (int Code, string Output, string Errors) Run(params string[] args)
    {
        var output = new StringWriter();
        var errors = new StringWriter();
        int code = Entry.Run(args, output, errors);
        return (code, output.ToString(), errors.ToString());
    }

    /// <summary>Compares the first state with an edited one, each replacement made where its text stands.</summary>
    public (int Code, string Output) CompareWith(params (string From, string To)[] edits)
    {
        string main = Main, materials = Materials;
        foreach (var (from, to) in edits)
        {
            Assert.True(main.Contains(from, StringComparison.Ordinal) || materials.Contains(from, StringComparison.Ordinal), from);
            main = main.Replace(from, to, StringComparison.Ordinal);
            materials = materials.Replace(from, to, StringComparison.Ordinal);
        }
        var (code, output, errors) = Run("compare", At("old"), Write("new", main, materials));
        Assert.Equal("", errors);
        return (code, output);
    }

    public void Commit(string folder, string message)
    {
        using var repository = new LibGit2Sharp.Repository(LibGit2Sharp.Repository.IsValid(folder) ? folder : LibGit2Sharp.Repository.Init(folder));
        LibGit2Sharp.Commands.Stage(repository, "*");
        var who = new LibGit2Sharp.Signature("builder", "builder@example.invalid", DateTimeOffset.UnixEpoch);
        repository.Commit(message, who, who, new LibGit2Sharp.CommitOptions());
    }

    public void Dispose()
    {
        // Objects of a repository are marked read-only.
        foreach (string file in Directory.EnumerateFiles(Root, "*", SearchOption.AllDirectories)) File.SetAttributes(file, FileAttributes.Normal);
        Directory.Delete(Root, recursive: true);
    }
}

/// <summary>Tests that change the current folder, which is one for the whole process, run alone.</summary>
[CollectionDefinition(nameof(CurrentFolder), DisableParallelization = true)]
public sealed class CurrentFolder;
