using System.Text;
using Wain.Core;
using Wain.Core.Binding;
using Wain.Core.Figures;
using Wain.Core.Findings;
using Wain.Core.Language;
using Wain.Core.Parsing;
using Wain.Core.Text;
using Wain.Core.Units;
using Wain.Tests.Parsing;

namespace Wain.Tests.Language;

/// <summary>grammar/language.md: its tables are those of the program, and its every block of code is compiled.</summary>
public class ReferenceTests
{
    private static readonly string PathOfReference = Path.Combine(GrammarTests.Root, "grammar", "language.md");

    public static IReadOnlyList<(int Line, string Text)> Blocks()
    {
        var blocks = new List<(int, string)>();
        string[] lines = File.ReadAllLines(PathOfReference);
        for (int i = 0; i < lines.Length; i++)
        {
            if (lines[i] != "```wain") continue;
            int end = Array.IndexOf(lines, "```", i);
            blocks.Add((i + 1, string.Join('\n', lines[(i + 1)..end]) + "\n"));
            i = end;
        }
        return blocks;
    }

    public static TheoryData<int> BlockLines => [.. Blocks().Select(b => b.Line)];

    [Theory, MemberData(nameof(BlockLines))]
    public void A_block_of_code_compiles(int line)
    {
        string text = Blocks().Single(b => b.Line == line).Text;
        var source = new SourceText("language.md", text);
        IncludeReader files = path => (Wain.Core.Shipped.ShippedMaterials.Find(path) ?? new SourceText(path, "let sheet_price = 40 USD\n"), null);
        var parsed = SpecParser.Parse(source);
        var spec = Binder.Bind(parsed.Value, files);
        var errors = parsed.Findings.Concat(spec.Findings).Where(f => f.Level == Level.Error).ToList();
        if (text.StartsWith("-- wrong:", StringComparison.Ordinal)) Assert.NotEmpty(Compiler.Compile(source, files).Findings.Where(f => f.Level == Level.Error));
        else Assert.True(errors.Count == 0, Told.All(errors));
    }

    [Fact]
    public void The_tables_are_those_of_the_program()
    {
        string written = File.ReadAllText(PathOfReference).ReplaceLineEndings("\n");
        string fresh = Fill(written);
        if (Environment.GetEnvironmentVariable("WAIN_UPDATE") == "1") File.WriteAllText(PathOfReference, fresh);
        else Assert.True(written == fresh, "grammar/language.md is stale: run the tests once with WAIN_UPDATE=1 set");
    }

    [Fact]
    public void Every_block_of_the_language_has_its_table()
    {
        string written = File.ReadAllText(PathOfReference);
        var named = SettingBlocks.Spec.Facts.Where(f => f.Body is not null && f.Body.ListOf is null).Select(f => f.Body!.Name).Distinct();
        Assert.All(named, n => Assert.Contains($"<!-- facts of {n} -->", written));
        Assert.All(StructureBlocks.Panel.Body!.Facts.Where(f => f.Body is not null), f => Assert.Contains($"<!-- facts of {f.Body!.Name} -->", written));
    }

    private static string Fill(string text)
    {
        var result = new StringBuilder();
        bool skipping = false;
        foreach (string line in text.Split('\n'))
        {
            if (skipping && line != "<!-- end -->") continue;
            skipping = false;
            result.Append(line).Append('\n');
            if (!line.StartsWith("<!-- ", StringComparison.Ordinal) || line == "<!-- end -->") continue;
            string marker = line[5..^4];
            string? table = marker switch
            {
                "units" => UnitsTable(),
                "functions" => FunctionsTable(),
                "figures" => "\n" + FigureNames.Markdown() + "\n",
                var m when m.StartsWith("facts of ", StringComparison.Ordinal) => FactsTable(Blocks(m[9..])),
                _ => null,
            };
            if (table is null) continue;
            result.Append(table);
            skipping = true;
        }
        return result.ToString()[..^1];
    }

    private static BlockShape Blocks(string name)
    {
        var all = new List<BlockShape> { SettingBlocks.Spec };
        for (int i = 0; i < all.Count; i++) foreach (var fact in all[i].Facts) if (fact.Body is { } body && !all.Contains(body)) all.Add(body);
        return all.First(b => b.Name == name && b.ListOf is null);
    }

    private static string FactsTable(BlockShape block)
    {
        var text = new StringBuilder("\n| fact | meaning |\n| --- | --- |\n");
        foreach (var fact in block.Facts)
        {
            string many = fact.Each is { } each ? $" May stand once for each {each}." : fact.Many || fact.NameSlot is not null ? " May stand more than once." : "";
            text.Append($"| `{fact.Reading.Replace("|", "\\|", StringComparison.Ordinal)}` | {fact.Summary}{many}{Kinds(fact)} |\n");
        }
        return text.Append('\n').ToString();
    }

    private static string Kinds(FactShape fact)
    {
        var parts = fact.Slots.Where(s => s.Kind is not ("new" or "same")).Select(s => $"{s.Name}: {FactReader.Describe(s, Say.Usual).Replace("one of the words ", "", StringComparison.Ordinal)}").Distinct().ToList();
        return parts.Count == 0 ? "" : " *" + string.Join("; ", parts) + ".*";
    }

    private static string UnitsTable()
    {
        var text = new StringBuilder("\n| kind | units |\n| --- | --- |\n");
        foreach (var kind in UnitTable.All.GroupBy(u => u.Dimension.Describe()).OrderBy(g => g.Key, StringComparer.Ordinal))
        {
            text.Append($"| {kind.Key} | {string.Join(", ", kind.OrderBy(u => u.Name, StringComparer.Ordinal).Select(u => $"`{u.Name}` ({u.Words})"))} |\n");
        }
        return text.Append('\n').ToString();
    }

    private static string FunctionsTable()
    {
        var text = new StringBuilder("\n| call | gives |\n| --- | --- |\n");
        foreach (var (_, call, meaning) in BuiltInFunctions.All) text.Append($"| `{call}` | {meaning} |\n");
        return text.Append('\n').ToString();
    }
}
