using System.Text;
using System.Text.Json;
using Wain.Core.Text;

namespace Wain.Core.Findings.Renderers;

/// <summary>Findings as SARIF 2.1.0 (OASIS Static Analysis Results Interchange Format).</summary>
public static class SarifRenderer
{
    public static string Render(IReadOnlyCollection<Finding> findings)
    {
        var rules = findings.Select(f => f.Info).DistinctBy(info => info.Code).OrderBy(info => info.Code, StringComparer.Ordinal).ToList();
        var index = rules.Select((rule, i) => (rule.Code, i)).ToDictionary(pair => pair.Code, pair => pair.i, StringComparer.Ordinal);
        using var stream = new MemoryStream();
        using (var json = new Utf8JsonWriter(stream, JsonRenderer.Options))
        {
            json.WriteStartObject();
            json.WriteString("$schema", "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json");
            json.WriteString("version", "2.1.0");
            json.WriteStartArray("runs");
            json.WriteStartObject();
            json.WriteStartObject("tool");
            json.WriteStartObject("driver");
            json.WriteString("name", "wain");
            json.WriteStartArray("rules");
            foreach (var rule in rules) WriteRule(rule, json);
            json.WriteEndArray();
            json.WriteEndObject();
            json.WriteEndObject();
            json.WriteString("columnKind", "utf16CodeUnits");
            json.WriteStartArray("results");
            foreach (var finding in findings) WriteResult(finding, index[finding.Code], json);
            json.WriteEndArray();
            json.WriteEndObject();
            json.WriteEndArray();
            json.WriteEndObject();
        }
        return Encoding.UTF8.GetString(stream.GetBuffer(), 0, (int)stream.Length) + "\n";
    }

    private static void WriteRule(FindingInfo rule, Utf8JsonWriter json)
    {
        json.WriteStartObject();
        json.WriteString("id", rule.Code);
        json.WriteString("name", rule.Name);
        WriteText("shortDescription", rule.Title, json);
        WriteText("fullDescription", rule.Why, json);
        WriteText("help", $"{rule.Why}\n\nFor example:\n{rule.Good}", json);
        json.WriteStartObject("defaultConfiguration");
        json.WriteString("level", LinesRenderer.LevelName(rule.Level));
        json.WriteEndObject();
        json.WriteEndObject();
    }

    private static void WriteResult(Finding finding, int rule, Utf8JsonWriter json)
    {
        json.WriteStartObject();
        json.WriteString("ruleId", finding.Code);
        json.WriteNumber("ruleIndex", rule);
        json.WriteString("level", LinesRenderer.LevelName(finding.Level));
        WriteText("message", finding.Hint is null ? finding.Message : $"{finding.Message} {finding.Hint}", json);
        json.WriteStartArray("locations");
        WriteLocation(finding.Place, null, null, finding.Subject, json);
        json.WriteEndArray();
        if (!finding.Related.IsEmpty)
        {
            json.WriteStartArray("relatedLocations");
            for (int i = 0; i < finding.Related.Length; i++) WriteLocation(finding.Related[i].Place, i, finding.Related[i].Message, "", json);
            json.WriteEndArray();
        }
        if (!finding.Fixes.IsEmpty)
        {
            json.WriteStartArray("fixes");
            foreach (var fix in finding.Fixes) WriteFix(fix, json);
            json.WriteEndArray();
        }
        if (finding.AcceptedBecause is { } reason)
        {
            json.WriteStartArray("suppressions");
            json.WriteStartObject();
            json.WriteString("kind", "inSource");
            json.WriteString("justification", JsonRenderer.Valid(reason));
            json.WriteEndObject();
            json.WriteEndArray();
        }
        json.WriteEndObject();
    }

    private static void WriteFix(Fix fix, Utf8JsonWriter json)
    {
        json.WriteStartObject();
        WriteText("description", fix.Label, json);
        json.WriteStartArray("artifactChanges");
        json.WriteStartObject();
        WriteArtifact(fix.Place, json);
        json.WriteStartArray("replacements");
        json.WriteStartObject();
        WriteRegion("deletedRegion", fix.Place, json);
        json.WriteStartObject("insertedContent");
        json.WriteString("text", JsonRenderer.Valid(fix.Text));
        json.WriteEndObject();
        json.WriteEndObject();
        json.WriteEndArray();
        json.WriteEndObject();
        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void WriteLocation(Span place, int? id, string? message, string subject, Utf8JsonWriter json)
    {
        json.WriteStartObject();
        if (id is { } number) json.WriteNumber("id", number);
        json.WriteStartObject("physicalLocation");
        WriteArtifact(place, json);
        WriteRegion("region", place, json);
        json.WriteEndObject();
        if (subject.Length > 0)
        {
            json.WriteStartArray("logicalLocations");
            json.WriteStartObject();
            json.WriteString("fullyQualifiedName", JsonRenderer.Valid(subject));
            json.WriteEndObject();
            json.WriteEndArray();
        }
        if (message is not null) WriteText("message", message, json);
        json.WriteEndObject();
    }

    private static void WriteArtifact(Span place, Utf8JsonWriter json)
    {
        json.WriteStartObject("artifactLocation");
        json.WriteString("uri", Uri(place.Source.Path));
        json.WriteEndObject();
    }

    // A URI reference after RFC 3986: each step of the path escaped, so that a blank or a colon in a file name does no harm.
    private static string Uri(string path)
    {
        string steps = string.Join('/', JsonRenderer.Valid(path).Replace('\\', '/').Split('/').Select(System.Uri.EscapeDataString));
        return path.StartsWith('/') ? "file://" + steps : steps;
    }

    private static void WriteRegion(string name, Span place, Utf8JsonWriter json)
    {
        var (line, column) = place.Source.Position(place.Start);
        var (endLine, endColumn) = place.Source.Position(place.End);
        json.WriteStartObject(name);
        json.WriteNumber("startLine", line);
        json.WriteNumber("startColumn", column);
        json.WriteNumber("endLine", endLine);
        json.WriteNumber("endColumn", endColumn);
        json.WriteNumber("charOffset", place.Start);
        json.WriteNumber("charLength", place.Length);
        json.WriteEndObject();
    }

    private static void WriteText(string name, string text, Utf8JsonWriter json)
    {
        json.WriteStartObject(name);
        json.WriteString("text", JsonRenderer.Valid(text));
        json.WriteEndObject();
    }
}
