using System.Text.RegularExpressions;

namespace Wain.Core.Text;

/// <summary>
/// What went wrong in the runtime's own code, in words for a person. The program is published without the runtime's sentences: a key such as
/// <c>Arg_ParamName_Name</c> stands in their place and must not be shown. What other packages say is passed on, up to such a key.
/// </summary>
public static partial class SystemWords
{
    /// <summary>One sentence without its full stop, which may begin with a small letter.</summary>
    public static string Said(Exception fault)
    {
        while (fault is AggregateException or System.Reflection.TargetInvocationException or TypeInitializationException && fault.InnerException is { } inner) fault = inner;
        string said = Key().Split(fault.Message, 2)[0].TrimEnd(' ', ':', '.', ',');
        // What the runtime says is in our own words whether or not its sentences are there, so that both programs say the same.
        bool own = fault.Source is { } source && (source == "System" || source.StartsWith("System.", StringComparison.Ordinal));
        return own || said.Length == 0 ? Of(fault) : said;
    }

    /// <summary>A message that may be a key alone, where the exception that it came from is not known; one that begins with anything else is as it was, without the name of a parameter that the runtime adds at its end.</summary>
    public static string Said(string message) => Key().Match(message) is not { Success: true, Index: 0 } ? Added().Replace(message, "")
        : Of(message.Contains("DivideByZero", StringComparison.Ordinal) ? new DivideByZeroException() : message.Contains("Overflow", StringComparison.Ordinal) ? new OverflowException() : new InvalidOperationException());

    private static string Of(Exception fault) => fault switch
    {
        RegexParseException => "the pattern can't be read",
        RegexMatchTimeoutException or TimeoutException => "it takes too long",
        DivideByZeroException => "it divides by zero",
        OverflowException => "a number is too large",
        FormatException => "it is not written as it has to be here",
        OutOfMemoryException => "it wants more memory than there is",
        IndexOutOfRangeException => "there is no entry at that place",
        ArgumentException { ParamName: { Length: > 0 } name } => $"the value given as {name} can't be used",
        ArgumentException => "a value that it is given can't be used",
        InvalidCastException => "a value is of another kind than is asked for",
        NotSupportedException => "that can't be done here",
        _ => "it is handed something that it can't use",
    };

    [GeneratedRegex(@"\s+(?:Arg_ParamName_Name, \w+|\(Parameter '\w+'\))$")]
    private static partial Regex Added();

    // A key with what it would be filled with, or the name of a parameter as the runtime adds it.
    [GeneratedRegex(@"(?:(?<=^|\s)[A-Z][A-Za-z0-9]*(?:_[A-Za-z0-9]+)+|\(Parameter ')")]
    private static partial Regex Key();
}
