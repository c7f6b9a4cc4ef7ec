using System.Collections;
using Scriban.Runtime;

namespace Wain.Reports.Summaries;

/// <summary>Plain .NET values as the objects that a template sees. They can't be written to.</summary>
internal static class TemplateValues
{
    private const int DepthLimit = 100;

    /// <exception cref="ArgumentException">A value is of a kind that templates don't know, or nested beyond 100: a fault of who made the model.</exception>
    public static ScriptObject Object(IEnumerable<KeyValuePair<string, object?>> values, int depth = 0)
    {
        if (depth > DepthLimit) throw new ArgumentException("The model is nested too deep.");
        var all = new ScriptObject();
        foreach (var (key, value) in values) all.Add(key, Value(value, depth + 1));
        all.IsReadOnly = true;
        return all;
    }

    private static object? Value(object? value, int depth) => value switch
    {
        null or string or bool or int or long or double or decimal => value,
        IEnumerable<KeyValuePair<string, object?>> map => Object(map, depth),
        IEnumerable list => List(list, depth),
        _ => throw new ArgumentException($"A template can't be handed a {value.GetType().Name}."),
    };

    private static ScriptArray List(IEnumerable values, int depth)
    {
        if (depth > DepthLimit) throw new ArgumentException("The model is nested too deep.");
        var all = new ScriptArray();
        foreach (var value in values) all.Add(Value(value, depth + 1));
        all.IsReadOnly = true;
        return all;
    }
}
