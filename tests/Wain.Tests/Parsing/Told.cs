using Wain.Core;
using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Parsing;
using Wain.Core.Syntax;
using Wain.Core.Text;

namespace Wain.Tests.Parsing;

/// <summary>Short ways to run a text through the front end.</summary>
internal static class Told
{
    public static SourceText Source(string text) => new("a.wain", text);

    public static SyntaxFile Parsed(string text)
    {
        var stage = SpecParser.Parse(Source(text));
        Assert.True(stage.Findings.IsEmpty, All(stage.Findings));
        return stage.Value;
    }

    public static IReadOnlyList<Finding> By(string text, params (string Path, string Text)[] files) => Compiler.Compile(Source(text), Reader(files)).Findings;

    public static IReadOnlyList<Finding> Errors(string text, params (string Path, string Text)[] files) => [.. By(text, files).Where(f => f.Level == Level.Error)];

    public static Spec Bound(string text, params (string Path, string Text)[] files)
    {
        var parsed = SpecParser.Parse(Source(text));
        var spec = Binder.Bind(parsed.Value, Reader(files));
        ValuePass.Run(spec, placed: true);
        var errors = parsed.Findings.Concat(spec.Findings).Where(f => f.Level == Level.Error).ToList();
        Assert.True(errors.Count == 0, All(errors));
        return spec;
    }

    public static IncludeReader Reader(params (string Path, string Text)[] files) =>
        path => files.FirstOrDefault(f => f.Path == path) is { Path: not null } file ? (new SourceText(file.Path, file.Text), null) : (null, null);

    public static string All(IEnumerable<Finding> findings) => string.Join("\n", findings.Select(f => $"{f.Place} {f.Level} {f.Code} {f.Message}"));

    /// <summary>The value of a name in a spec.</summary>
    public static Core.Units.Quantity Value(string text, string name)
    {
        var spec = Bound(text);
        var value = spec.NamedValues.Single(v => v.Name == name);
        return Assert.IsType<QuantityValue>(spec.Evaluator.ValueOf(value)).Quantity;
    }
}
