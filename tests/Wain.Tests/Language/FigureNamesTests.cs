using System.Text.RegularExpressions;
using Wain.Core;
using Wain.Core.Text;

namespace Wain.Tests.Language;

/// <summary>The names of figures in the reference are names that the demo has.</summary>
public class FigureNamesTests
{
    [Fact]
    public void Every_name_in_the_reference_is_a_figure_of_the_demo()
    {
        string page = File.ReadAllText(Path.Combine(Repository.Root, "grammar", "language.md")).ReplaceLineEndings("\n");
        int from = page.IndexOf("<!-- names of figures -->", StringComparison.Ordinal), to = page.IndexOf("<!-- end -->", from, StringComparison.Ordinal);
        string folder = Path.Combine(Repository.Root, "specs", "heron");
        SourceText Read(string name) => new(name, File.ReadAllText(Path.Combine(folder, name)));
        var figures = Compiler.Compile(Read("heron.wain"), name => File.Exists(Path.Combine(folder, name)) ? (Read(name), null) : (null, "not there")).Design!.Figures;
        var names = Regex.Matches(page[from..to], "`([^`]+)`").Select(m => m.Groups[1].Value).ToList();
        Assert.True(names.Count > 60);
        Assert.Empty(names.Where(n => figures.Find(n) is null));
    }
}
