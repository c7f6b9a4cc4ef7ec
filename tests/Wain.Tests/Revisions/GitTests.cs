using System.Diagnostics;

namespace Wain.Tests.Revisions;

/// <summary>Revisions out of a repository, and the program as git's own diff.</summary>
[Collection(nameof(CurrentFolder))]
public sealed class GitTests : IDisposable
{
    private readonly RevisionFolder _folder = new();

    private readonly string _back = Directory.GetCurrentDirectory();

    public void Dispose()
    {
        Directory.SetCurrentDirectory(_back);
        _folder.Dispose();
    }

    private static string Git(string folder, params string[] args)
    {
        var start = new ProcessStartInfo("git", args) { WorkingDirectory = folder, RedirectStandardOutput = true, RedirectStandardError = true };
        using var git = Process.Start(start)!;
        var errors = git.StandardError.ReadToEndAsync();
        string output = git.StandardOutput.ReadToEnd();
        git.WaitForExit();
        Assert.True(git.ExitCode == 0, output + errors.Result);
        return output;
    }

    [Fact]
    public void Git_shows_a_spec_with_the_files_it_uses_and_goes_on_after_a_broken_one()
    {
        string work = _folder.At("old");
        _folder.Commit(work, "first");
        string wain = Path.Combine(AppContext.BaseDirectory, "wain.dll");
        Git(work, "config", "diff.wain.command", $"dotnet \"{wain}\" compare --for-git");
        File.WriteAllText(Path.Combine(work, ".gitattributes"), "*.wain diff=wain\n");
        File.WriteAllText(Path.Combine(work, "camper.wain"), RevisionFolder.Main.Replace("at (10 in, 8 in)", "at (12 in, 8 in)", StringComparison.Ordinal));
        File.WriteAllText(Path.Combine(work, "materials.wain"), RevisionFolder.Materials.Replace("price 31 USD", "price (", StringComparison.Ordinal));
        string before = Git(work, "status", "--porcelain");
        string output = Git(work, "diff");
        Assert.Contains("camper.wain (files it uses are read from the work tree)", output);
        Assert.Contains("materials.wain (files it uses", output);
        Assert.Equal(before, Git(work, "status", "--porcelain"));
    }

    [Fact]
    public void A_revision_is_compared_with_the_work_tree_and_history_is_kept_by_content()
    {
        string work = _folder.At("old");
        _folder.Commit(work, "first");
        _folder.Write("old", RevisionFolder.Main.Replace("at (10 in, 8 in)", "at (12 in, 8 in)", StringComparison.Ordinal));
        Directory.SetCurrentDirectory(work);
        var (code, output, _) = RevisionFolder.Run("compare", "HEAD:camper.wain", "camper.wain");
        Assert.Equal(1, code);
        Assert.Contains("vent, and its mirror", output);
        _folder.Commit(work, "window moved");
        Assert.Equal(0, RevisionFolder.Run("compare", "HEAD:camper.wain", "camper.wain").Code);

        string cache = _folder.At("cache");
        var first = RevisionFolder.Run("history", "camper.wain", "--cache", cache, "--plot", _folder.At("history.svg"));
        Assert.Equal(0, first.Code);
        Assert.Contains("window moved", first.Output);
        Assert.Equal(2, Directory.GetFiles(cache).Length);
        Assert.Equal(first.Output, RevisionFolder.Run("history", "camper.wain", "--cache", cache).Output);
        // A spoilt entry is computed again and not believed.
        File.WriteAllText(Directory.GetFiles(cache)[0], "{");
        Assert.Equal(first.Output, RevisionFolder.Run("history", "camper.wain", "--cache", cache).Output);
    }

    [Fact]
    public void No_commits_unknown_revisions_and_shallow_clones_are_told()
    {
        string work = _folder.At("old");
        Git(work, "init", "-q");
        Directory.SetCurrentDirectory(work);
        Assert.Contains("no commits", Fails("compare", "HEAD:camper.wain", "camper.wain"));
        _folder.Commit(work, "first");
        File.AppendAllText("camper.wain", "-- more\n");
        _folder.Commit(work, "second");
        Assert.Contains("no revision", Fails("compare", "nowhere:camper.wain", "camper.wain"));
        Assert.Contains("no other.wain", Fails("compare", "HEAD:other.wain", "camper.wain"));
        Git(_folder.Root, "clone", "-q", "--depth", "1", "file://" + work, "shallow");
        Directory.SetCurrentDirectory(_folder.At("shallow"));
        Assert.Contains("shallow", Fails("compare", "HEAD~1:camper.wain", "camper.wain"));
    }

    private static string Fails(params string[] args)
    {
        var (code, _, errors) = RevisionFolder.Run(args);
        Assert.Equal(2, code);
        return errors;
    }
}
