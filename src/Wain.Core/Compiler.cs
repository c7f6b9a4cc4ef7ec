using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Checks;
using Wain.Core.Findings;
using Wain.Core.Framing;
using Wain.Core.Geometry;
using Wain.Core.Parsing;
using Wain.Core.Pieces;
using Wain.Core.Syntax;
using Wain.Core.Text;

namespace Wain.Core;

/// <summary>How far a compilation came, and all that it found.</summary>
/// <param name="Structure">The placed design; null if errors of text, names, units or placing stopped it.</param>
public sealed record Compilation(SourceText Source, Spec? Spec, Structure? Structure, ImmutableArray<Finding> Findings)
{
    public bool HasErrors => Findings.HasErrors();
}

/// <summary>The whole compiler as a list of passes. Each takes values and gives values with findings; none touches a file, a clock or the console.</summary>
public static class Compiler
{
    /// <summary>Compiles a spec held in memory.</summary>
    /// <param name="source">The main text.</param>
    /// <param name="include">Reads the files that it uses; null if it may use none.</param>
    /// <param name="given">Values that take the place of a <c>let</c> of the same name.</param>
    public static Compilation Compile(SourceText source, IncludeReader? include = null, IReadOnlyDictionary<string, Expression>? given = null)
    {
        var syntax = SpecParser.Parse(source);
        var spec = Binder.Bind(syntax.Value, include ?? NoIncludes, given);
        if (Found(syntax.Findings, spec).HasErrors()) return Stopped(source, spec, syntax.Findings);

        var structure = Resolver.Resolve(spec);
        if (Found(syntax.Findings, spec).HasErrors()) return Stopped(source, spec, syntax.Findings);

        var frames = FrameBuilder.Build(structure);
        var pieces = PieceBuilder.Build(structure, frames);
        var checks = CheckRunner.Run(new CheckInput(spec, structure, frames, pieces));
        ValuePass.Run(spec, placed: true);
        return new Compilation(source, spec, structure, Acceptance.Apply(spec, Found(syntax.Findings, spec).AddRange(checks)).InTextOrder());
    }

    private static (SourceText? Source, string? Problem) NoIncludes(string path) => (null, "no other files are at hand");

    private static ImmutableArray<Finding> Found(ImmutableArray<Finding> syntax, Spec spec) => [.. syntax, .. spec.Findings];

    private static Compilation Stopped(SourceText source, Spec spec, ImmutableArray<Finding> syntax)
    {
        ValuePass.Run(spec, placed: false);
        return new(source, spec, null, Found(syntax, spec).InTextOrder());
    }
}
