namespace Wain.Tests.Engineering;

/// <summary>The table of check values in DEVELOPERS.md is what the tests check.</summary>
public class CheckValueTableTests
{
    private const string Begin = "<!-- check-values:begin -->\n", End = "<!-- check-values:end -->";

    [Fact]
    public void Developers_md_lists_what_the_tests_check()
    {
        string path = Path.Combine(Repository.Root, "DEVELOPERS.md");
        string text = File.ReadAllText(path).ReplaceLineEndings("\n");
        int start = text.IndexOf(Begin, StringComparison.Ordinal) + Begin.Length, stop = text.IndexOf(End, StringComparison.Ordinal);
        Assert.True(start >= Begin.Length && stop >= start, "DEVELOPERS.md has lost the marks of its table of check values.");
        string wanted = text[..start] + "\n" + CheckValues.Markdown().ReplaceLineEndings("\n").Trim() + "\n\n" + text[stop..];
        if (Environment.GetEnvironmentVariable("WAIN_UPDATE") == "1") File.WriteAllText(path, wanted);
        else Assert.True(text == wanted, "The table of check values in DEVELOPERS.md is old: run the tests with WAIN_UPDATE=1.");
    }
}
