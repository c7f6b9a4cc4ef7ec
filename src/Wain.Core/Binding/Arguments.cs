using System.Collections.Immutable;
using Wain.Core.Syntax;

namespace Wain.Core.Binding;

/// <summary>Fits the values of a call to the parameters of a function or group: by position first, then by name.</summary>
internal static class Arguments
{
    /// <summary>One expression for each parameter, in their order; or a problem, as a sentence.</summary>
    public static (ImmutableArray<Expression> Values, string? Problem) Match(string name, ImmutableArray<Word> parameters, ImmutableArray<Argument> arguments)
    {
        string reading = parameters.Length == 0 ? $"{name}()" : $"{name}({string.Join(", ", parameters.Select(p => p.Text))})";
        var values = new Expression?[parameters.Length];
        bool named = false;
        for (int i = 0; i < arguments.Length; i++)
        {
            int at = i;
            if (arguments[i].Name is { } word)
            {
                named = true;
                at = -1;
                for (int p = 0; p < parameters.Length; p++) if (parameters[p].Text == word.Text) at = p;
                if (at < 0) return ([], $"{name} has no value named \"{word.Text}\". It reads: {reading}.");
                if (values[at] is not null) return ([], $"\"{word.Text}\" is given twice. It reads: {reading}.");
            }
            else if (named) return ([], $"After a value with a name, every value has one. It reads: {reading}.");
            if (at >= values.Length) return ([], $"{name} takes {Evaluator.Count(parameters.Length, "value")}, and {arguments.Length} are given. It reads: {reading}.");
            values[at] = arguments[i].Value;
        }
        int missing = Array.IndexOf(values, null);
        if (missing >= 0) return ([], $"{name} lacks its value \"{parameters[missing].Text}\". It reads: {reading}.");
        return ([.. values.Select(v => v!)], null);
    }
}
