using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>Values that would satisfy a finding, as text for the spec.</summary>
internal static class Fixing
{
    private const double Sixteenth = 25.4 / 16;

    /// <summary>A length written out, at least as long (mm): up to the next 1/16 in.</summary>
    public static string AtLeast(double mm) => Show.Length(Math.Ceiling(mm / Sixteenth - 1e-9) * Sixteenth);

    /// <summary>A length written out, at most as long (mm): down to the next 1/16 in.</summary>
    public static string AtMost(double mm) => Show.Length(Math.Floor(mm / Sixteenth + 1e-9) * Sixteenth);

    /// <summary>A length between two (mm), in sixteenths if one of them lies between, else exact enough to fall between.</summary>
    public static string Between(double low, double high)
    {
        double up = Math.Ceiling(low / Sixteenth - 1e-9) * Sixteenth;
        return Show.Length(up <= high + 1e-9 ? up : (low + high) / 2);
    }

    /// <summary>Writes another value into a slot.</summary>
    public static Fix Write(Spec spec, BoundFact fact, string slot, string text) => new(spec.Evaluator.SlotSpan(fact, slot), text, $"write {text}");

    /// <summary>Adds a clause to a fact without a block.</summary>
    public static Fix AddClause(BoundFact fact, string clause) => new(new Span(fact.Span.Source, fact.Span.End, 0), $", {clause}", $"add {clause}");

    /// <summary>Writes a line as the last of a block; null for a thing that has no block of its own.</summary>
    public static Fix? AddLine(BoundFact block, string line)
    {
        var span = block.Syntax.Span;
        if (block.Syntax.Body is null || !span.Text.EndsWith('}')) return null;
        var (text, brace) = (span.Source.Text, span.End - 1);
        int start = text.LastIndexOf('\n', brace - 1) + 1;
        string before = text[start..brace], indent = before[..(before.Length - before.TrimStart().Length)];
        return before.Length == indent.Length
            ? new Fix(new Span(span.Source, start, 0), $"{indent}    {line.ReplaceLineEndings($"\n{indent}    ")}\n", $"add the line {line.Split('\n')[0]}")
            : new Fix(new Span(span.Source, brace, 0), $"\n{indent}    {line.ReplaceLineEndings($"\n{indent}    ")}\n{indent}", $"add the line {line.Split('\n')[0]}");
    }

    public static ImmutableArray<Fix> One(Fix? fix) => fix is null ? [] : [fix];
}
