using System.Collections.Immutable;
using Wain.Core.Findings;
using Wain.Core.Syntax;
using Wain.Core.Text;

namespace Wain.Core.Binding;

/// <summary>Values that would satisfy a finding, as text for the spec.</summary>
internal static class Fixing
{
    /// <summary>Writes another value into a slot; where a name stands there that a let gives a number, at that let.</summary>
    public static Fix Write(Spec spec, BoundFact fact, string slot, string text)
    {
        if (IsMeasure(text) && fact.Slots.TryGetValue(slot, out var written) && Named(written.Terms[0], fact.Scope) is var (word, stated)) return new Fix(stated.Span, text, $"write {text} for {word}");
        return new(spec.Evaluator.SlotSpan(fact, slot), text, $"write {text}");
    }

    private static bool IsMeasure(string text) => text.TrimStart('-') is [>= '0' and <= '9', ..];

    /// <summary>The number that a let, or a value given to a group, states for a name that stands alone, and the name that it goes by there. Null for anything else, and for what is given from outside.</summary>
    public static (string Word, Expression Stated)? Named(Expression expression, Scope scope)
    {
        string? word = null;
        // A name may stand for another name, but not in a circle.
        for (int steps = 0; steps < 20 && expression is NameExpression { SingleWord: { } next } && scope.FindValue(next) is { Given: false, Expression: { } stated } value; steps++) (word, expression, scope) = (next, stated, value.Scope);
        return word is not null && expression is MeasureExpression or NumberExpression or NegateExpression { Operand: MeasureExpression or NumberExpression } ? (word!, expression) : null;
    }

    /// <summary>Writes a face or an edge of a panel into a slot, by the name that the panel goes by there. Null where it has none.</summary>
    public static Fix? WriteOf(Spec spec, BoundFact fact, string slot, string panel, string part) => fact.Scope.NameFor(panel) is { } name ? Write(spec, fact, slot, $"{name}.{part}") : null;

    /// <summary>Writes the name that a misspelled one was probably meant to be, in place of the last word of a path; nothing where none is near.</summary>
    /// <param name="names">Nearest first, as <see cref="NearestName"/> finds them.</param>
    public static ImmutableArray<Fix> Nearest(Span path, IReadOnlyList<string> names)
    {
        int from = path.Text.LastIndexOf('.') + 1;
        return [.. names.Take(1).Select(n => new Fix(new Span(path.Source, path.Start + from, path.Length - from), n, $"write {n}"))];
    }

    /// <summary>
    /// Makes a length longer by this much at least (mm, in whole steps of a tape; less than nothing for shorter), where a builder would: at the number itself,
    /// at the let that the slot names, or added to what the slot reckons. Null if nothing would be left of it.
    /// </summary>
    public static Fix? Longer(Spec spec, BoundFact fact, string slot, double by)
    {
        if (!fact.Slots.TryGetValue(slot, out var text) || spec.Evaluator.Length(fact, slot) is not { } now) return null;
        var expression = text.Terms[0];
        if (Named(expression, fact.Scope) is var (word, named)) return now + by > 0 && Rounded(now + by, by) is var length ? new Fix(named.Span, length, $"write {length} for {word}") : null;
        if (expression is MeasureExpression or NegateExpression) return Math.Sign(now) == Math.Sign(now + by) ? Write(spec, fact, slot, Rounded(now + by, by)) : null;
        string inner = expression is ChoiceExpression ? $"({expression.Span.Text})" : expression.Span.Text;
        return Write(spec, fact, slot, $"{inner} {(by < 0 ? '-' : '+')} {spec.Say.AtLeast(Math.Abs(by))}");

        string Rounded(double mm, double by) => by < 0 ? spec.Say.AtMost(mm) : spec.Say.AtLeast(mm);
    }

    /// <summary>A measure without the minus before it; nothing for what is reckoned.</summary>
    public static ImmutableArray<Fix> WithoutMinus(Expression written) =>
        written.Span.Text is ['-', .. var rest] && written is NegateExpression { Operand: MeasureExpression or NumberExpression } or MeasureExpression or NumberExpression ? [new Fix(written.Span, rest.TrimStart(), $"write {rest.TrimStart()}")] : [];

    /// <summary>A measure or a name with the other sign; nothing for what is reckoned.</summary>
    public static ImmutableArray<Fix> OtherSign(Expression written) => written switch
    {
        MeasureExpression or NameExpression => [new Fix(written.Span, "-" + written.Span.Text, $"write -{written.Span.Text}")],
        NegateExpression { Operand: NameExpression named } => [new Fix(written.Span, named.Span.Text, $"write {named.Span.Text}")],
        _ => WithoutMinus(written),
    };

    /// <summary>The same number of pounds as a force; nothing for what is reckoned or weighs in another unit.</summary>
    public static ImmutableArray<Fix> AsForce(Expression written)
    {
        if (written is not MeasureExpression { Unit: "lb" or "lb/ft2" or "lb/in2" } mass) return [];
        string text = mass.Span.Text, force = text[..(text.Length - mass.Unit.Length)] + mass.Unit.Replace("lb", "lbf", StringComparison.Ordinal);
        return [new Fix(mass.Span, force, $"write {force}")];
    }

    /// <summary>Takes a whole line out.</summary>
    public static Fix TakeOut(BoundFact fact)
    {
        var (span, text) = (fact.Span, fact.Span.Source.Text);
        int start = text.LastIndexOf('\n', Math.Max(0, span.Start - 1)) + 1, end = text.IndexOf('\n', span.End);
        bool alone = text[start..span.Start].Trim().Length == 0 && text[span.End..(end < 0 ? text.Length : end)].Trim().Length == 0;
        return new Fix(alone ? new Span(span.Source, start, (end < 0 ? text.Length : end + 1) - start) : span, "", "take it out");
    }

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
        string label = line.Contains('\n', StringComparison.Ordinal) ? $"add the lines {OneLine(line)}, a new one at each semicolon" : $"add the line {line}";
        return before.Length == indent.Length
            ? new Fix(new Span(span.Source, start, 0), $"{indent}    {line.ReplaceLineEndings($"\n{indent}    ")}\n", label)
            : new Fix(new Span(span.Source, brace, 0), $"\n{indent}    {line.ReplaceLineEndings($"\n{indent}    ")}\n{indent}", label);
    }

    /// <summary>Lines as one, with a semicolon where the next begins, since a fact ends with its line.</summary>
    public static string OneLine(string lines) => string.Join("; ", lines.Split('\n', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries));

    /// <summary>Writes a line of its own behind a declaration.</summary>
    public static Fix After(BoundFact fact, string line)
    {
        int end = fact.Syntax.Span.End;
        return new Fix(new Span(fact.Span.Source, end, 0), "\n" + line, $"add the line {line}");
    }

    public static ImmutableArray<Fix> One(Fix? fix) => fix is null ? [] : [fix];
}
