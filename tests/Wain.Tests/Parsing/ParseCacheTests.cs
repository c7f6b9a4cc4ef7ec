using Wain.Cli.Output;
using Wain.Core.Parsing;
using Wain.Core.Text;

namespace Wain.Tests.Parsing;

public sealed class ParseCacheTests
{
    private static readonly string[] Slips = ["}\n", "{", "\nelse {\n}\n", "-- a remark {\n", "\"", "(", "let x = 1 in\n", "\r\n", "\r", "}\n}\n", "and ", "  ", "\u2014", "\n\n", ","];

    private static void Same(ParseCache cache, string text)
    {
        var kept = cache.Parse(new SourceText("a.wain", text));
        var anew = SpecParser.Parse(new SourceText("a.wain", text));
        Assert.Equal(anew.Findings.Select(f => $"{f.Place} {f.Message}"), kept.Findings.Select(f => $"{f.Place} {f.Message}"));
        Assert.True(ContentHash.Of(anew.Value.Statements).AsSpan().SequenceEqual(ContentHash.Of(kept.Value.Statements)), text);
    }

    [Fact]
    public void Any_edit_gives_what_parsing_anew_gives()
    {
        var texts = GrammarTests.Paths.Select(p => GrammarTests.Spec(p).Text).Concat(Enumerable.Range(0, 10).Select(seed => Generated.Spec(new Random(seed), 40)));
        foreach (var (text, seed) in texts.Select((t, i) => (t, i)))
        {
            var random = new Random(seed);
            var cache = new ParseCache();
            Same(cache, text);
            for (int round = 0; round < 12; round++)
            {
                // One edit of the whole text, or two upon each other: half of them leave the text broken, and the next mends it.
                string edited = Edited(random, text);
                Same(cache, edited);
                Same(cache, Edited(random, edited));
            }
            Same(cache, text);
        }
    }

    private static string Edited(Random random, string text)
    {
        int at = random.Next(text.Length + 1);
        switch (random.Next(3))
        {
            case 0: return text.Insert(at, Slips[random.Next(Slips.Length)]);
            case 1: return text.Remove(at, Math.Min(text.Length - at, random.Next(1, 40)));
            default:
                int line = text.LastIndexOf('\n', Math.Max(0, at - 1)) + 1, end = text.IndexOf('\n', line) is var e && e < 0 ? text.Length : e + 1;
                return text.Remove(line, end - line).Insert(random.Next(text.Length - (end - line) + 1), text[line..end]);
        }
    }

    [Fact]
    public void An_edit_of_one_declaration_parses_that_one()
    {
        string text = string.Concat(Enumerable.Range(0, 100).Select(i => $"panel a{i} of b {{\n    height {i} in\n}}\n"));
        var cache = new ParseCache();
        Same(cache, text);
        Assert.Equal(100, cache.Read);
        Same(cache, text.Replace("height 50 in", "-- taller\n    height 50 1/2 in", StringComparison.Ordinal));
        Assert.Equal(101, cache.Read);
        Same(cache, "-- a remark\n" + text);
        Assert.Equal(103, cache.Read);
    }
}
