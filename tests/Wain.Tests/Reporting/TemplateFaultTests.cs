using System.Text.RegularExpressions;

namespace Wain.Tests.Reporting;

/// <summary>What a template does wrong is told in words, in the program as it is published: without the sentences of the runtime.</summary>
public sealed class TemplateFaultTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("wain").FullName;

    public void Dispose() => Directory.Delete(_folder, true);

    private string Said(string template)
    {
        string spec = Path.Combine(_folder, "t.wain");
        File.WriteAllText(spec, "sheet ply { thickness 12 mm\n    size 48 in by 96 in }\nstack board { sheet ply }\npanel deck of board { through (0 in, 24 in, 0 in) along (0 in, -24 in, 0 in) up (40 in, 24 in, 0 in) }\n");
        File.WriteAllText(Path.Combine(_folder, "t.summary.md"), template);
        var (code, _, error) = Child.Run(["keyed", "build", spec, "--out", Path.Combine(_folder, "out")]);
        Assert.Equal(1, code);
        return error[error.IndexOf("template t.summary.md", StringComparison.Ordinal)..].Trim();
    }

    [Theory]
    [InlineData("{{ \"a\" | string.replace \"\" \"b\" }}", "1:10: The value given as oldValue can't be used.")]
    [InlineData("{{ math.round 3.5 99 }}", "1:4: The value given as digits can't be used.")]
    [InlineData("{{ string.pad_right \"a\" 3000000000 }}", "1:25: Unable to convert type `long` to int: a number is too large.")]
    [InlineData("{{ \"a\" | regex.match \"(\" }}", "1:10: The pattern can't be read.")]
    [InlineData("{{ 3 % 0 }}", "1:6: It divides by zero.")]
    [InlineData("{{ timespan.parse \"x\" }}", "1:4: It is not written as it has to be here.")]
    [InlineData("{{ 1 | timespan.from_days 2 }}", "1:8: Argument index must be < 1.")]
    [InlineData("{{ \"a\" | string.pad_left 2000000000 }}", "1:26: Padding width `2000000000` exceeds the configured LimitToString `4000000`.")]
    [InlineData("one\n{{ for ", "2:7: Error while parsing for statement: Expecting <expression> instead of `<eof>` in: for <variable> in <expression> ... end")]
    public void In_our_own_words_or_the_packages(string template, string words)
    {
        string said = Said(template);
        Assert.EndsWith(words, said, StringComparison.Ordinal);
        Assert.DoesNotMatch(new Regex("[A-Z][A-Za-z0-9]*_[A-Z]"), said);
    }
}
