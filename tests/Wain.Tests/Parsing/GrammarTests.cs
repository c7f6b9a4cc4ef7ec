using System.Security.Cryptography;
using System.Text;
using Wain.Core.Findings;
using Wain.Core.Parsing;
using Wain.Core.Text;

namespace Wain.Tests.Parsing;

/// <summary>The grammar reads every text in one way, and the generated code is that of the grammar beside it.</summary>
public class GrammarTests
{
    /// <summary>The folder that holds the solution, found upward from the test's own.</summary>
    public static string Root { get; } = FindRoot();

    private static string FindRoot()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "Wain.slnx"))) folder = folder.Parent!;
        return folder.FullName;
    }

    public static TheoryData<string> Specs => [.. Paths];

    public static IReadOnlyList<string> Paths => [.. Directory.EnumerateFiles(Path.Combine(Root, "specs"), "*.wain", SearchOption.AllDirectories).Select(f => Path.GetRelativePath(Root, f).Replace('\\', '/')).Order(StringComparer.Ordinal)];

    public static SourceText Spec(string path) => new(path, File.ReadAllText(Path.Combine(Root, path)));

    [Fact]
    public void The_generated_code_is_of_these_grammars()
    {
        string both = string.Concat(new[] { "WainLexer.g4", "WainParser.g4" }.Select(f => File.ReadAllText(Path.Combine(Root, "grammar", f)).ReplaceLineEndings("\n")));
        string kept = File.ReadAllText(Path.Combine(Root, "src/Wain.Grammar/Generated/grammar.sha256")).Trim();
        Assert.Equal(Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(both))), kept);
    }

    [Theory, MemberData(nameof(Specs))]
    public void A_spec_is_read_in_one_way(string path)
    {
        Assert.Empty(SpecParser.Parse(Spec(path)).Findings);
        Assert.Empty(SpecParser.Ambiguities(Spec(path)));
    }

    [Fact]
    public void Documented_and_generated_text_is_read_in_one_way()
    {
        foreach (var block in Language.ReferenceTests.Blocks()) Assert.True(SpecParser.Ambiguities(new SourceText("language.md", block.Text)).IsEmpty, block.Text);
        foreach (var (_, info) in Binding.FindingExamplesTests.All) Assert.Empty(SpecParser.Ambiguities(new SourceText("a.wain", info.Good)));
        for (int seed = 0; seed < 40; seed++)
        {
            string text = Generated.Spec(new Random(seed), 60);
            var source = new SourceText("a.wain", text);
            Assert.Empty(SpecParser.Parse(source).Findings.Select(f => $"seed {seed}: {f.Place} {f.Message} {source.Line(f.Place.Line)}"));
            Assert.Empty(SpecParser.Ambiguities(source));
        }
    }
}
