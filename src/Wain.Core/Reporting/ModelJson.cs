using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using Wain.Core.Figures;
using Wain.Core.Findings.Renderers;
using Wain.Core.Text;
using Wain.Core.Units;

namespace Wain.Core.Reporting;

/// <summary>
/// Every named figure with its value, unit and the line of the spec that it comes from, as JSON after <c>grammar/model.schema.json</c>. Lines are given by
/// their text and not by number, so that a comment or a reordering changes no byte.
/// </summary>
public static class ModelJson
{
    private static readonly JsonWriterOptions Style = new() { Indented = true, NewLine = "\n", Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    public static byte[] Write(string camper, string revision, string valuesHash, FigureBook book)
    {
        using var stream = new MemoryStream();
        using (var json = new Utf8JsonWriter(stream, Style))
        {
            json.WriteStartObject();
            json.WriteString("schema", "wain model 1");
            json.WriteString("camper", JsonRenderer.Valid(camper));
            json.WriteString("revision", JsonRenderer.Valid(revision));
            json.WriteString("values", valuesHash);
            json.WriteStartArray("figures");
            foreach (var figure in book.All) Write(json, figure);
            json.WriteEndArray();
            json.WriteStartArray("missing");
            foreach (var missing in book.Missing)
            {
                json.WriteStartObject();
                json.WriteString("name", missing.Name);
                json.WriteString("reason", missing.Reason);
                json.WriteEndObject();
            }
            json.WriteEndArray();
            json.WriteEndObject();
        }
        stream.WriteByte((byte)'\n');
        return stream.ToArray();
    }

    private static void Write(Utf8JsonWriter json, Figure figure)
    {
        json.WriteStartObject();
        json.WriteString("name", figure.Name);
        json.WriteNumber("value", Rounded(figure.Value.Value));
        json.WriteString("unit", SiUnit.Of(figure.Value.Dimension));
        if (figure.Low is { } low) json.WriteNumber("low", Rounded(low.Value));
        if (figure.High is { } high) json.WriteNumber("high", Rounded(high.Value));
        json.WriteString("formula", figure.Formula);
        if (!figure.Inputs.IsEmpty)
        {
            json.WriteStartArray("inputs");
            foreach (string input in figure.Inputs) json.WriteStringValue(input);
            json.WriteEndArray();
        }
        if (!figure.Lacks.IsEmpty)
        {
            json.WriteStartArray("lacks");
            foreach (string name in figure.Lacks) json.WriteStringValue(name);
            json.WriteEndArray();
        }
        if (figure.Source is { } source) json.WriteString("source", JsonRenderer.Valid(source));
        if (figure.From is { } from) json.WriteString("line", JsonRenderer.Valid(SpecLine.Of(from)));
        json.WriteEndObject();
    }

    // Trigonometry differs in the last bits between platforms, and the file is compared by its bytes.
    private static double Rounded(double value) => CellValue.Rounded(value);
}

/// <summary>The text of a spec line, whatever stands around it.</summary>
public static class SpecLine
{
    /// <summary>The first line of a fact without its remark, single blanks between words.</summary>
    public static string Of(Span span)
    {
        string line = span.Source.Line(span.Line);
        int remark = RemarkAt(line);
        if (remark >= 0) line = line[..remark];
        return string.Join(' ', line.Split([' ', '\t'], StringSplitOptions.RemoveEmptyEntries));
    }

    private static int RemarkAt(string line)
    {
        bool quoted = false;
        for (int i = 0; i < line.Length; i++)
        {
            if (line[i] == '"' && (i == 0 || line[i - 1] != '\\')) quoted = !quoted;
            else if (!quoted && line[i] == '-' && i + 1 < line.Length && line[i + 1] == '-') return i;
        }
        return -1;
    }
}
