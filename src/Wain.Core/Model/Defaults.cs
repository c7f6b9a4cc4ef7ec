using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Parsing;
using Wain.Core.Text;
using Wain.Core.Units;

namespace Wain.Core.Model;

/// <summary>A value that stands in where a spec says nothing.</summary>
/// <param name="From">Its line in the shipped text, or in the spec that replaces it.</param>
/// <param name="Shipped">False if the spec states it.</param>
public sealed record DefaultValue(string Name, Quantity Value, string? Source, Span From, bool Shipped);

/// <summary>The shipped defaults, in the language itself, so that they read and trace like anything else.</summary>
public static class Defaults
{
    private static readonly Lazy<Dictionary<string, DefaultValue>> Shipped = new(ReadShipped);

    /// <summary>The shipped text.</summary>
    public static SourceText Text { get; } = new("defaults.wain", ReadText());

    /// <summary>All defaults by name, with those that the spec replaces.</summary>
    public static Dictionary<string, DefaultValue> Of(Spec spec)
    {
        var replaced = Read(spec, shipped: false);
        return replaced.Count == 0 ? Shipped.Value : Shipped.Value.Values.Where(d => !replaced.ContainsKey(d.Name)).Concat(replaced.Values).ToDictionary(d => d.Name, StringComparer.Ordinal);
    }

    /// <summary>Names of the defaults that ship.</summary>
    public static ImmutableArray<string> Names => [.. Shipped.Value.Keys.Order(StringComparer.Ordinal)];

    private static Dictionary<string, DefaultValue> ReadShipped()
    {
        var parsed = SpecParser.Parse(Text);
        var spec = Binder.Bind(parsed.Value, _ => (null, "the defaults use no other file"));
        return Read(spec, shipped: true).ToDictionary(StringComparer.Ordinal);
    }

    private static Dictionary<string, DefaultValue> Read(Spec spec, bool shipped)
    {
        var values = new Dictionary<string, DefaultValue>(StringComparer.Ordinal);
        foreach (var fact in spec.All("default"))
        {
            if (fact.Word("name") is { } name && spec.Evaluator.Quantity(fact, "value") is { } value)
                values[name] = new DefaultValue(name, value, spec.Evaluator.Text(fact, "source"), fact.Span, shipped);
        }
        return values;
    }

    private static string ReadText()
    {
        using var stream = typeof(Defaults).Assembly.GetManifestResourceStream("Wain.Core.Model.Defaults.wain")!;
        using var reader = new StreamReader(stream);
        return reader.ReadToEnd();
    }
}
