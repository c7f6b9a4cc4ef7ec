using System.Text;
using System.Text.Json.Nodes;
using Wain.Cli.Commands;
using Wain.Core;
using Wain.Core.Reporting;
using Wain.Reports.Summaries;
using Wain.Tests.Output;

namespace Wain.Tests.Reporting;

/// <summary>grammar/templates.md: its list of tables is the program's, and its example is rendered over the demo. And model.json keeps to its schema.</summary>
public class TemplatePageTests
{
    private static readonly string PathOfPage = Path.Combine(Repository.Root, "grammar", "templates.md");

    private static readonly Lazy<(Compilation Compiled, Report Report)> Demo = new(() =>
    {
        var compiled = Cli.SpecFiles.Compile(Path.Combine(Repository.Root, "specs", "heron", "heron.wain"), Cli.Options.Parse(CheckCommand.Shape, []));
        return (compiled, Outputs.ReportOf(compiled, draft: false));
    });

    private static string Page => File.ReadAllText(PathOfPage).ReplaceLineEndings("\n");

    [Fact]
    public void The_list_of_tables_is_the_programs()
    {
        const string begin = "<!-- tables -->\n", end = "<!-- end -->";
        string page = Page;
        int from = page.IndexOf(begin, StringComparison.Ordinal) + begin.Length;
        string fresh = page[..from] + Tables() + page[page.IndexOf(end, from, StringComparison.Ordinal)..];
        if (Environment.GetEnvironmentVariable("WAIN_UPDATE") == "1") File.WriteAllText(PathOfPage, fresh);
        else Assert.True(page == fresh, "grammar/templates.md is stale: run the tests once with WAIN_UPDATE=1 set");
    }

    [Fact]
    public void The_example_is_rendered()
    {
        string page = Page;
        int from = page.IndexOf("```scriban\n", StringComparison.Ordinal) + "```scriban\n".Length;
        string template = page[from..page.IndexOf("```", from, StringComparison.Ordinal)];
        var result = SummaryTemplate.Render(new("own.summary.md", template), Summaries.Model(Demo.Value.Compiled, Demo.Value.Report));
        Assert.True(result.Errors.IsEmpty, string.Join("\n", result.Errors));
        Assert.StartsWith("# Heron, revision A\n", result.Text);
        Assert.Matches(@"weighs [0-9.]+ lb without loads and has [0-9]+ panels\.", result.Text!);
        Assert.Matches(@"\| left_wall \| [0-9 /]+ \| [0-9.]+ \|", result.Text!);
    }

    [Fact]
    public void Its_names_and_limits_are_the_programs()
    {
        var model = Summaries.Model(Demo.Value.Compiled, Demo.Value.Report);
        Assert.All(model.Keys, key => Assert.Contains("`" + key, Page));
        var limits = new SummaryLimits();
        Assert.All([limits.Output, limits.Loops, limits.Steps, limits.Recursion], n => Assert.Contains(FormattableString.Invariant($"| {n:N0}"), Page));
        Assert.Contains($"| {limits.Time.TotalSeconds:0} s |", Page);
    }

    [Fact]
    public void The_model_keeps_to_its_schema()
    {
        var (compiled, report) = Demo.Value;
        var json = JsonNode.Parse(ModelJson.Write(report.Title, report.Revision, report.ValuesHash, compiled.Design!.Figures))!;
        var schema = JsonNode.Parse(File.ReadAllText(Path.Combine(Repository.Root, "grammar", "model.schema.json")))!;
        SchemaCheck.Holds(json, schema, schema, "$");
        Assert.True(json["figures"]!.AsArray().Count > 1000);
        json["figures"]![0]!["place"] = 1;
        Assert.ThrowsAny<Exception>(() => SchemaCheck.Holds(json, schema, schema, "$"));
        // A spec that lacks a price has missing figures, and sums that say what they lack.
        var bare = Cli.SpecFiles.Compile(Path.Combine(Repository.Root, "specs", "first", "first.wain"), Cli.Options.Parse(CheckCommand.Shape, []));
        var lacking = JsonNode.Parse(ModelJson.Write("First \ud800", "", report.ValuesHash, bare.Design!.Figures))!;
        SchemaCheck.Holds(lacking, schema, schema, "$");
        Assert.NotEmpty(lacking["missing"]!.AsArray());
    }

    private static string Tables()
    {
        var text = new StringBuilder("\n| table | what | columns |\n| --- | --- | --- |\n");
        foreach (var table in Demo.Value.Report.Tables) text.Append($"| `{table.Key}` | {table.Title} | {string.Join(", ", table.Columns.Select(c => $"`{c.Key}`"))} |\n");
        return text.Append('\n').ToString();
    }
}
