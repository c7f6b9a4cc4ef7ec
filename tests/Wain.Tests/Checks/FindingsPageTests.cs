using Wain.Core.Findings;

namespace Wain.Tests.Checks;

/// <summary>The reference page of findings is what the program tells.</summary>
public class FindingsPageTests
{
    [Fact]
    public void The_page_is_current()
    {
        string path = Path.Combine(Repository.Root, "grammar", "findings.md");
        string wanted = Catalogue.Page(Catalogue.All());
        if (Environment.GetEnvironmentVariable("WAIN_UPDATE") == "1") File.WriteAllText(path, wanted);
        else Assert.True(File.Exists(path) && File.ReadAllText(path).ReplaceLineEndings("\n") == wanted, "grammar/findings.md is old: run the tests with WAIN_UPDATE=1.");
    }
}
