using System.Collections.Immutable;
using System.Globalization;
using Scriban;
using Scriban.Parsing;
using Scriban.Runtime;
using Scriban.Syntax;
using Wain.Core.Text;

namespace Wain.Reports.Summaries;

/// <summary>A template's text and the path that messages show.</summary>
public sealed record TemplateSource(string Path, string Text);

/// <summary>What is wrong in a template, and where; line and column count from one, zero if no place is known.</summary>
public sealed record TemplateError(string Path, int Line, int Column, string Message);

/// <summary>What a template gave: a text, or the reasons that there is none.</summary>
public sealed record SummaryResult(string? Text, ImmutableArray<TemplateError> Errors);

/// <summary>How much a template may do. All but the time are counted, so the same template passes or fails on every machine; the time is only a last resort.</summary>
public sealed record SummaryLimits
{
    /// <summary>UTF-16 units written.</summary>
    public int Output { get; init; } = 4_000_000;

    /// <summary>Rounds of all loops that stand inside each other, together.</summary>
    public int Loops { get; init; } = 1_000_000;

    /// <summary>Expressions and statements evaluated.</summary>
    public int Steps { get; init; } = 20_000_000;

    /// <summary>Functions and includes that call each other.</summary>
    public int Recursion { get; init; } = 50;

    public TimeSpan Time { get; init; } = TimeSpan.FromSeconds(30);
}

/// <summary>
/// Renders Scriban templates over plain values. A template sees the values it is handed and the built-in functions that give the same result on every
/// machine; it has no clock, no random numbers, no culture, no way to compile text of its own, and no file but what <c>load</c> gives it.
/// </summary>
public static class SummaryTemplate
{
    // Scriban's parser and evaluator recurse. The nesting of each text is bounded before it is parsed; this stack holds the deepest that the bounds allow.
    private const int StackSize = 128 << 20;

    /// <summary>Renders one template.</summary>
    /// <param name="template">The text.</param>
    /// <param name="model">Strings, numbers, truth values, null, lists and dictionaries of such; keys in snake_case. A name that is not there is an error.</param>
    /// <param name="load">Gives the text of an include by the name that the template uses, or null if there is none; null for no includes. It must confine itself.</param>
    /// <param name="limits">Null for the usual ones.</param>
    /// <param name="cancel">Stops the work; the result then says so.</param>
    public static SummaryResult Render(TemplateSource template, IReadOnlyDictionary<string, object?> model, Func<string, TemplateSource?>? load = null, SummaryLimits? limits = null, CancellationToken cancel = default)
    {
        SummaryResult? result = null;
        var worker = new Thread(() => result = RenderHere(template, model, load, limits ?? new SummaryLimits(), cancel), StackSize)
        {
            CurrentCulture = CultureInfo.InvariantCulture,
            CurrentUICulture = CultureInfo.InvariantCulture,
            IsBackground = true,
        };
        worker.Start();
        worker.Join();
        return result!;
    }

    private static SummaryResult RenderHere(TemplateSource template, IReadOnlyDictionary<string, object?> model, Func<string, TemplateSource?>? load, SummaryLimits limits, CancellationToken cancel)
    {
        using var clock = CancellationTokenSource.CreateLinkedTokenSource(cancel);
        clock.CancelAfter(limits.Time);
        string path = template.Path;
        try
        {
            if (TemplateNesting.Check(template) is { } tooDeep) return new(null, [tooDeep]);
            var parsed = Template.Parse(template.Text, path);
            if (parsed.HasErrors)
            {
                return new(null, parsed.Messages.Where(message => message.Type == ParserMessageType.Error).Select(message => message.Span.Start.Line >= 0 ? Error(message.Span, path, message.Message) : AtEnd(template, message.Message)).ToImmutableArray());
            }
            var context = new SummaryContext(limits, load, clock.Token);
            context.PushGlobal(TemplateValues.Object(model));
            // The template's own variables; the model below them can't be written to.
            context.PushGlobal(new ScriptObject());
            context.PushCulture(CultureInfo.InvariantCulture);
            return new(parsed.Render(context), []);
        }
        catch (ScriptAbortException) when (!cancel.IsCancellationRequested)
        {
            return Failed(path, $"The template took longer than {limits.Time.TotalSeconds:0} s.");
        }
        catch (Exception stop) when (stop is OperationCanceledException or ScriptAbortException)
        {
            return Failed(path, "The template was stopped.");
        }
        catch (ScriptRuntimeException fault)
        {
            // Scriban wraps an error once for every target that it was reached through; the first one says what is wrong.
            while (fault.InnerException is ScriptRuntimeException cause) fault = cause;
            return new(null, [Error(fault.Span, path, Reason(fault))]);
        }
        catch (Exception fault) when (fault is ArgumentException or FormatException or OverflowException or InvalidOperationException or InvalidCastException or ArithmeticException or NotSupportedException or IndexOutOfRangeException or NullReferenceException or OutOfMemoryException)
        {
            // A built-in function that is handed something that it did not foresee; the template asked for it, so it is told as the template's mistake.
            return Failed(path, $"A function failed: {SystemWords.Said(fault)}.");
        }
    }

    private static string Reason(ScriptRuntimeException fault)
    {
        string message = fault.OriginalMessage;
        if (fault is ScriptParserRuntimeException) return message;
        if (fault.InnerException is not { } inner) return SystemWords.Said(message) is var said && said == message ? message : Sentence(said);
        // Scriban says what the runtime said, alone or after words of its own.
        string before = message.Replace(inner.Message, "", StringComparison.Ordinal).TrimEnd(' ', ':', '.'), why = SystemWords.Said(inner);
        return before.Length == 0 ? Sentence(why) : $"{before}: {why}.";
    }

    private static string Sentence(string words) => $"{char.ToUpperInvariant(words[0])}{words[1..].TrimEnd('.')}.";

    private static SummaryResult Failed(string path, string message) => new(null, [new TemplateError(path, 0, 0, message)]);

    // What is never closed has no place of its own: it is missed where the text ends.
    private static TemplateError AtEnd(TemplateSource template, string message)
    {
        string[] lines = template.Text.TrimEnd().Split('\n');
        return new(template.Path, lines.Length, lines[^1].TrimEnd('\r').Length + 1, message);
    }

    private static TemplateError Error(SourceSpan span, string path, string message) =>
        new(string.IsNullOrEmpty(span.FileName) ? path : span.FileName, span.Start.Line + 1, span.Start.Column + 1, message);
}
