using System.Text;
using System.Text.Json;
using Wain.Core.Findings;
using Wain.Core.Findings.Renderers;

namespace Wain.Core.Revisions.Renderers;

/// <summary>A comparison as JSON, after grammar/comparison.schema.json.</summary>
public static class ComparisonJson
{
    private static readonly JsonWriterOptions Indented = new() { Indented = true, NewLine = "\n" };

    public static string Render(Comparison c)
    {
        var stream = new MemoryStream();
        using (var json = new Utf8JsonWriter(stream, Indented))
        {
            json.WriteStartObject();
            json.WriteNumber("version", 1);
            Write(json, "old", c.Old);
            Write(json, "new", c.New);
            json.WriteString("result", c.IsUndecided ? "undecided" : c.IsSame ? "same" : "differs");
            List(json, "limits", c.Limits, limit => json.WriteStringValue(JsonRenderer.Valid(limit)));
            List(json, "changes", c.Changes, change => Write(json, change));
            List(json, "buying", c.Buying, buy => Write(json, buy));
            List(json, "figures", c.Figures, figure => Write(json, figure));
            List(json, "other_figures", c.OtherFigures, figure => Write(json, figure));
            List(json, "findings", c.Findings, finding => Write(json, finding));
            List(json, "lines", c.Lines, cause => Write(json, cause));
            json.WriteStartObject("untouched");
            json.WriteNumber("panels", c.UntouchedPanels);
            json.WriteNumber("parts", c.UntouchedParts);
            json.WriteEndObject();
            json.WriteEndObject();
        }
        return Encoding.UTF8.GetString(stream.GetBuffer(), 0, (int)stream.Length) + "\n";
    }

    private static void Write(Utf8JsonWriter json, Change c)
    {
        json.WriteStartObject();
        json.WriteString("thing", c.Thing);
        Write(json, "name", c.Name);
        Write(json, "old_name", c.OldName);
        json.WriteString("kind", c.Kind.ToString().ToLowerInvariant());
        Write(json, "panel", c.Panel);
        Write(json, "built", c.Built);
        List(json, "mirrors", c.Mirrors, m => json.WriteStringValue(JsonRenderer.Valid(m)));
        List(json, "details", c.Details, d =>
        {
            json.WriteStartObject();
            Write(json, "what", d.What);
            Write(json, "old", d.Old);
            Write(json, "new", d.New);
            Write(json, "difference", d.Difference);
            json.WriteEndObject();
        });
        List(json, "causes", c.Causes, cause => Write(json, cause));
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, BuyChange b)
    {
        json.WriteStartObject();
        Write(json, "mark", b.Mark);
        Write(json, "pack", b.Pack);
        Number(json, "old_packs", b.OldPacks);
        Number(json, "new_packs", b.NewPacks);
        Number(json, "old_cost", b.OldCost);
        Number(json, "new_cost", b.NewCost);
        json.WriteString("currency", b.Currency);
        List(json, "causes", b.Causes, cause => Write(json, cause));
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, FigureChange f)
    {
        json.WriteStartObject();
        Write(json, "name", f.Name);
        Write(json, "old", f.Old);
        Write(json, "new", f.New);
        Write(json, "difference", f.Difference);
        Write(json, "old_spread", f.OldSpread);
        Write(json, "new_spread", f.NewSpread);
        Write(json, "old_between", f.OldBetween);
        Write(json, "new_between", f.NewBetween);
        Number(json, "old_value", double.IsFinite(f.OldValue) ? f.OldValue : null);
        Number(json, "new_value", double.IsFinite(f.NewValue) ? f.NewValue : null);
        json.WriteString("unit", f.Unit);
        List(json, "causes", f.Causes, cause => Write(json, cause));
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, FindingChange f)
    {
        json.WriteStartObject();
        json.WriteString("kind", f.Old is null ? "appeared" : f.New is null ? "went" : "changed");
        Write(json, "old", f.Old);
        Write(json, "new", f.New);
        List(json, "mirrors", f.Mirrors, m => json.WriteStringValue(JsonRenderer.Valid(m)));
        List(json, "causes", f.Causes, cause => Write(json, cause));
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, string name, Finding? f)
    {
        if (f is null)
        {
            json.WriteNull(name);
            return;
        }
        json.WriteStartObject(name);
        json.WriteString("code", f.Code);
        json.WriteString("level", LinesRenderer.LevelName(f.Level));
        Write(json, "message", f.Message);
        Write(json, "subject", f.Subject);
        json.WriteBoolean("accepted", f.AcceptedBecause is not null);
        json.WriteString("path", JsonRenderer.Valid(f.Place.Source.Path));
        json.WriteNumber("line", f.Place.Line);
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, Cause cause)
    {
        json.WriteStartObject();
        Write(json, "subject", cause.Subject);
        Write(json, "old", cause.Old);
        Write(json, "new", cause.New);
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, string name, SpecLine? line)
    {
        if (line is null)
        {
            json.WriteNull(name);
            return;
        }
        json.WriteStartObject(name);
        Write(json, "path", line.Path);
        json.WriteNumber("line", line.Line);
        Write(json, "text", line.Text);
        json.WriteEndObject();
    }

    private static void List<T>(Utf8JsonWriter json, string name, IEnumerable<T> items, Action<T> write)
    {
        json.WriteStartArray(name);
        foreach (var item in items) write(item);
        json.WriteEndArray();
    }

    private static void Number(Utf8JsonWriter json, string name, double? value)
    {
        if (value is { } v) json.WriteNumber(name, v);
        else json.WriteNull(name);
    }

    private static void Write(Utf8JsonWriter json, string name, string? value)
    {
        if (value is null) json.WriteNull(name);
        else json.WriteString(name, JsonRenderer.Valid(value));
    }
}
