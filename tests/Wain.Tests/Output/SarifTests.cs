using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Wain.Core;
using Wain.Core.Findings;
using Wain.Core.Findings.Renderers;
using Wain.Core.Text;
using Wain.Tests.Binding;

namespace Wain.Tests.Output;

/// <summary>
/// SARIF as the OASIS standard 2.1.0 (with errata 01) and its JSON schema ask for it: of each object that the program writes the properties that are required and
/// the only ones that are allowed, values from the closed lists, least values of numbers, lists without doubles, URI references after RFC 3986.
/// </summary>
public class SarifTests
{
    private sealed record Shape(string[] Required, Dictionary<string, Func<JsonNode, string, IEnumerable<string>>> Properties);

    // The objects of the schema by name, with those of their properties that are written here. What is not in the table is a mistake, since the schema allows no others than its own.
    private static readonly Dictionary<string, Shape> Shapes = new(StringComparer.Ordinal)
    {
        ["sarifLog"] = new(["version", "runs"], new() { ["$schema"] = UriReference, ["version"] = OneOf("2.1.0"), ["runs"] = ListOf("run", 0) }),
        ["run"] = new(["tool"], new() { ["tool"] = Is("tool"), ["columnKind"] = OneOf("utf16CodeUnits", "unicodeCodePoints"), ["results"] = ListOf("result", 0) }),
        ["tool"] = new(["driver"], new() { ["driver"] = Is("toolComponent") }),
        ["toolComponent"] = new(["name"], new() { ["name"] = Text, ["rules"] = ListOf("reportingDescriptor", 0, unique: true) }),
        ["reportingDescriptor"] = new(["id"], new()
        {
            ["id"] = Text, ["name"] = Text, ["shortDescription"] = Is("multiformatMessageString"), ["fullDescription"] = Is("multiformatMessageString"),
            ["help"] = Is("multiformatMessageString"), ["defaultConfiguration"] = Is("reportingConfiguration"),
        }),
        ["reportingConfiguration"] = new([], new() { ["level"] = OneOf("none", "note", "warning", "error") }),
        ["multiformatMessageString"] = new(["text"], new() { ["text"] = Text }),
        ["message"] = new(["text"], new() { ["text"] = Text }),
        ["result"] = new(["message"], new()
        {
            ["ruleId"] = Text, ["ruleIndex"] = AtLeast(0), ["level"] = OneOf("none", "note", "warning", "error"), ["message"] = Is("message"), ["locations"] = ListOf("location", 0),
            ["relatedLocations"] = ListOf("location", 0, unique: true), ["fixes"] = ListOf("fix", 0, unique: true), ["suppressions"] = ListOf("suppression", 0, unique: true),
        }),
        ["location"] = new([], new() { ["id"] = AtLeast(0), ["physicalLocation"] = Is("physicalLocation"), ["logicalLocations"] = ListOf("logicalLocation", 0, unique: true), ["message"] = Is("message") }),
        ["logicalLocation"] = new([], new() { ["fullyQualifiedName"] = Text }),
        ["physicalLocation"] = new(["artifactLocation"], new() { ["artifactLocation"] = Is("artifactLocation"), ["region"] = Is("region") }),
        ["artifactLocation"] = new(["uri"], new() { ["uri"] = UriReference }),
        ["region"] = new([], new()
        {
            ["startLine"] = AtLeast(1), ["startColumn"] = AtLeast(1), ["endLine"] = AtLeast(1), ["endColumn"] = AtLeast(1), ["charOffset"] = AtLeast(0), ["charLength"] = AtLeast(0),
        }),
        ["fix"] = new(["artifactChanges"], new() { ["description"] = Is("message"), ["artifactChanges"] = ListOf("artifactChange", 1, unique: true) }),
        ["artifactChange"] = new(["artifactLocation", "replacements"], new() { ["artifactLocation"] = Is("artifactLocation"), ["replacements"] = ListOf("replacement", 1) }),
        ["replacement"] = new(["deletedRegion"], new() { ["deletedRegion"] = Is("region"), ["insertedContent"] = Is("artifactContent") }),
        ["artifactContent"] = new([], new() { ["text"] = Text }),
        ["suppression"] = new(["kind"], new() { ["kind"] = OneOf("inSource", "external"), ["justification"] = Text }),
    };

    private static IEnumerable<string> Faults(JsonNode? node, string shape, string at)
    {
        if (node is not JsonObject found) return [$"{at} is no object"];
        var (required, properties) = Shapes[shape];
        return
        [
            .. required.Where(r => !found.ContainsKey(r)).Select(r => $"{at} lacks {r}"),
            .. found.Where(p => !properties.ContainsKey(p.Key)).Select(p => $"{at} may not have {p.Key}"),
            .. found.Where(p => properties.ContainsKey(p.Key)).SelectMany(p => p.Value is null ? [$"{at}.{p.Key} is null"] : properties[p.Key](p.Value, $"{at}.{p.Key}")),
            .. shape switch { "region" => Backward(found, at), "result" => OfResult(found, at), "run" => OfRun(found, at), _ => [] },
        ];
    }

    private static Func<JsonNode, string, IEnumerable<string>> Is(string shape) => (node, at) => Faults(node, shape, at);

    private static Func<JsonNode, string, IEnumerable<string>> ListOf(string shape, int least, bool unique = false) => (node, at) => node is not JsonArray list ? [$"{at} is no list"]
        : [.. list.Count < least ? [$"{at} has fewer than {least}"] : Array.Empty<string>(), .. unique && list.Select(n => n!.ToJsonString()).Distinct(StringComparer.Ordinal).Count() < list.Count ? [$"{at} has doubles"] : Array.Empty<string>(), .. list.SelectMany((n, i) => Faults(n, shape, $"{at}[{i}]"))];

    private static Func<JsonNode, string, IEnumerable<string>> OneOf(params string[] words) => (node, at) => words.Contains(node.ToString()) ? [] : [$"{at} is {node}"];

    private static Func<JsonNode, string, IEnumerable<string>> AtLeast(int least) => (node, at) => node is JsonValue value && value.TryGetValue(out int number) && number >= least ? [] : [$"{at} is {node}"];

    private static IEnumerable<string> Text(JsonNode node, string at) => node is JsonValue value && value.TryGetValue(out string? _) ? [] : [$"{at} is no text"];

    // RFC 3986: characters, escapes of two digits, and no colon before the first slash of a relative reference (4.2).
    private static IEnumerable<string> UriReference(JsonNode node, string at)
    {
        string text = node.ToString();
        bool whole = Regex.IsMatch(text, "^[A-Za-z][A-Za-z0-9+.-]*:"), fits = Regex.IsMatch(text, "^(?:[A-Za-z0-9._~:/?#@!$&'()*+,;=-]|%[0-9A-Fa-f]{2})*$");
        return fits && (!whole || text.StartsWith("file:///", StringComparison.Ordinal) || text.StartsWith("https://", StringComparison.Ordinal)) ? [] : [$"{at}: {text} is no reference"];
    }

    // 3.30: a region ends where it begins or later.
    private static IEnumerable<string> Backward(JsonObject region, string at) =>
        ((int)region["endLine"]!, (int)region["endColumn"]!).CompareTo(((int)region["startLine"]!, (int)region["startColumn"]!)) < 0 ? [$"{at} ends before it begins"] : [];

    // 3.28.2: the ids of a result's locations are told apart.
    private static IEnumerable<string> OfResult(JsonObject result, string at)
    {
        var ids = (result["relatedLocations"] as JsonArray)?.Select(l => (int)l!["id"]!).ToList() ?? [];
        return ids.Distinct().Count() < ids.Count ? [$"{at} has one id twice"] : [];
    }

    // 3.27.6: a result's rule index is that of the rule with its id.
    private static IEnumerable<string> OfRun(JsonObject run, string at) =>
        ((JsonArray)run["results"]!).Where(r => (string?)((JsonArray)run["tool"]!["driver"]!["rules"]!).ElementAtOrDefault((int)r!["ruleIndex"]!)?["id"] != (string?)r["ruleId"]).Select(r => $"{at}: {r!["ruleId"]} has the index of another rule");

    private static List<string> FaultsOf(IReadOnlyCollection<Finding> findings) => [.. Faults(JsonNode.Parse(SarifRenderer.Render(findings)), "sarifLog", "$")];

    [Fact]
    public void Findings_of_every_bad_example_are_as_the_standard_asks()
    {
        var all = new List<Finding>();
        foreach (var (_, info) in FindingExamplesTests.All.Where(f => f.Info.Bad is not null))
        {
            var findings = Compiler.Compile(new SourceText("my specs/a: b 100%.wain", info.Bad!.ReplaceLineEndings("\n"))).Findings;
            Assert.Empty(FaultsOf(findings));
            all.AddRange(findings);
        }
        Assert.True(all.Count > 150, $"only {all.Count} findings");
        Assert.Empty(FaultsOf(all));
        Assert.Contains(all, f => !f.Fixes.IsEmpty);
        Assert.Contains(all, f => !f.Related.IsEmpty);
    }

    /// <summary>The referee can say no.</summary>
    [Theory]
    [InlineData("\"level\": \"error\"", "\"level\": \"fatal\"")]
    [InlineData("\"startLine\": 1", "\"startLine\": 0")]
    [InlineData("\"ruleIndex\": 0", "\"ruleIndex\": -2")]
    [InlineData("\"message\": {", "\"massage\": {")]
    [InlineData("example.wain", "a b.wain")]
    [InlineData("\"columnKind\": \"utf16CodeUnits\"", "\"columnKind\": \"bytes\"")]
    public void What_the_standard_forbids_is_noticed(string right, string wrong)
    {
        string text = SarifRenderer.Render([.. Compiler.Compile(new SourceText("example.wain", "panel a of nothing { }")).Findings]);
        Assert.Contains(right, text);
        Assert.Empty(Faults(JsonNode.Parse(text), "sarifLog", "$"));
        Assert.NotEmpty(Faults(JsonNode.Parse(text.Replace(right, wrong, StringComparison.Ordinal)), "sarifLog", "$"));
    }
}
