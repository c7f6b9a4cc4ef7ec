using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using Wain.Core.Text;

namespace Wain.Core.Findings.Renderers;

/// <summary>Findings for programs, after <c>grammar/findings.schema.json</c>. Lines and columns count from one, columns and offsets in UTF-16 units.</summary>
public static class JsonRenderer
{
    internal static readonly JsonWriterOptions Options = new() { Indented = true, NewLine = "\n", Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    public static string Render(IReadOnlyCollection<Finding> findings)
    {
        using var stream = new MemoryStream();
        using (var json = new Utf8JsonWriter(stream, Options))
        {
            json.WriteStartObject();
            json.WriteNumber("version", 1);
            json.WriteStartArray("findings");
            foreach (var finding in findings) Write(finding, json);
            json.WriteEndArray();
            json.WriteStartObject("counts");
            json.WriteNumber("errors", Open(findings, Level.Error));
            json.WriteNumber("warnings", Open(findings, Level.Warning));
            json.WriteNumber("notes", Open(findings, Level.Note));
            json.WriteNumber("accepted", findings.Count(f => f.AcceptedBecause is not null));
            json.WriteEndObject();
            json.WriteEndObject();
        }
        return Encoding.UTF8.GetString(stream.GetBuffer(), 0, (int)stream.Length) + "\n";
    }

    private static int Open(IEnumerable<Finding> findings, Level level) => findings.Count(f => f.Level == level && f.AcceptedBecause is null);

    private static void Write(Finding finding, Utf8JsonWriter json)
    {
        json.WriteStartObject();
        json.WriteString("code", finding.Code);
        json.WriteString("name", finding.Info.Name);
        json.WriteString("level", LinesRenderer.LevelName(finding.Level));
        json.WriteString("message", Valid(finding.Message));
        json.WriteString("subject", Valid(finding.Subject));
        WritePlace(finding.Place, json);
        WriteOptional("hint", finding.Hint, json);
        json.WriteStartArray("related");
        foreach (var related in finding.Related)
        {
            json.WriteStartObject();
            json.WriteString("message", Valid(related.Message));
            WritePlace(related.Place, json);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteStartArray("fixes");
        foreach (var fix in finding.Fixes)
        {
            json.WriteStartObject();
            json.WriteString("label", Valid(fix.Label));
            json.WriteString("text", Valid(fix.Text));
            WritePlace(fix.Place, json);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        WriteOptional("accepted_because", finding.AcceptedBecause, json);
        json.WriteEndObject();
    }

    private static void WriteOptional(string name, string? value, Utf8JsonWriter json)
    {
        if (value is null) json.WriteNull(name);
        else json.WriteString(name, Valid(value));
    }

    private static void WritePlace(Span place, Utf8JsonWriter json)
    {
        var (line, column) = place.Source.Position(place.Start);
        var (endLine, endColumn) = place.Source.Position(place.End);
        json.WriteStartObject("place");
        json.WriteString("path", Valid(place.Source.Path));
        json.WriteNumber("line", line);
        json.WriteNumber("column", column);
        json.WriteNumber("end_line", endLine);
        json.WriteNumber("end_column", endColumn);
        json.WriteNumber("offset", place.Start);
        json.WriteNumber("length", place.Length);
        json.WriteEndObject();
    }

    /// <summary>Half a surrogate pair can stand in a spec but not in JSON, and the writer throws on it.</summary>
    internal static string Valid(string text)
    {
        for (int i = 0; i < text.Length; i++)
        {
            if (!char.IsSurrogate(text[i])) continue;
            if (char.IsHighSurrogate(text[i]) && i + 1 < text.Length && char.IsLowSurrogate(text[i + 1])) i++;
            else return string.Concat(text.EnumerateRunes().Select(rune => rune.ToString()));
        }
        return text;
    }
}
