using Wain.Cli.Output;

namespace Wain.Tests.Output;

public sealed class SpecFolderTests : IDisposable
{
    private readonly string _root = Directory.CreateTempSubdirectory("wain-spec-").FullName;

    public void Dispose() => Directory.Delete(_root, recursive: true);

    [Fact]
    public void OnlyWhatLiesBelowTheFolderIsRead()
    {
        string spec = Directory.CreateDirectory(Path.Combine(_root, "spec", "parts")).Parent!.FullName;
        File.WriteAllText(Path.Combine(_root, "secret.md"), "secret");
        File.WriteAllText(Path.Combine(spec, "own.md"), "own");
        File.WriteAllText(Path.Combine(spec, "parts", "head.md"), "head");
        Directory.CreateDirectory(Path.Combine(_root, "specious"));
        File.WriteAllText(Path.Combine(_root, "specious", "x.md"), "beside");
        Directory.CreateSymbolicLink(Path.Combine(spec, "up"), _root);
        File.CreateSymbolicLink(Path.Combine(spec, "link.md"), Path.Combine(_root, "secret.md"));
        File.CreateSymbolicLink(Path.Combine(spec, "inner.md"), Path.Combine(spec, "own.md"));
        File.CreateSymbolicLink(Path.Combine(spec, "loop.md"), Path.Combine(spec, "loop.md"));
        Directory.CreateSymbolicLink(Path.Combine(spec, "sly"), Path.Combine(_root, "specious"));
        File.WriteAllText(Path.Combine(spec, "large.md"), new string('x', (1 << 20) + 1));
        var folder = new SpecFolder(spec);
        Assert.Equal("own", folder.Load("own.md")!.Text);
        Assert.Equal("head", folder.Load("parts/head.md")!.Text);
        Assert.Equal("own", folder.Load("inner.md")!.Text);
        foreach (string name in new[] { "../secret.md", "parts/../../secret.md", Path.Combine(_root, "secret.md"), "up/secret.md", "link.md", "loop.md", "sly/x.md", "", ".", "parts", "none.md", "large.md", "a\\b" })
        {
            Assert.Null(folder.Load(name));
        }
        // The folder itself may be reached through a link.
        Directory.CreateSymbolicLink(Path.Combine(_root, "alias"), spec);
        Assert.Equal("own", new SpecFolder(Path.Combine(_root, "alias")).Load("own.md")!.Text);
    }
}
