using Wain.Core.CutLists;
using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Figures;
using Wain.Core.Findings;
using Wain.Core.Framing;
using Wain.Core.Geometry;
using Wain.Core.Model;
using Wain.Core.Parsing;
using Wain.Core.Pieces;
using Wain.Core.Takeoff;
using Wain.Core.Text;

namespace Wain.Tests.Takeoff;

/// <summary>Small specs taken as far as takeoff. All dimensions and names are invented.</summary>
internal static class TakeoffSpecs
{
    public const string Ply = "sheet ply {\n thickness 6 mm\n size 48 in by 96 in\n density 600 kg/m3 from 550 kg/m3 to 700 kg/m3\n price 40 USD per sheet on 2026-01-05\n}\n";

    public sealed record Run(Structure Structure, TakeoffResult Takeoff, FigureBook Figures, ImmutableArray<Finding> Findings)
    {
        /// <summary>In base units.</summary>
        public double this[string name] => Figures.Find(name) is { } figure ? figure.Value.Value : throw new Xunit.Sdk.XunitException($"There is no figure {name}; there are {string.Join(", ", Figures.All.Where(f => f.Name.Split('.')[0] == name.Split('.')[0]).Select(f => f.Name))}");

        public TakeoffLine Line(string key) => Takeoff.Lines.Single(l => l.Key == key);
    }

    public static Run Of(string text, ImmutableArray<CuttingCount> cutting = default)
    {
        var parsed = SpecParser.Parse(new SourceText("test.wain", text));
        Assert.Empty(parsed.Findings);
        var spec = Binder.Bind(parsed.Value, _ => (null, "no other file here"));
        var structure = Resolver.Resolve(spec);
        var frames = FrameBuilder.Build(structure);
        var pieces = PieceBuilder.Build(structure, frames);
        var takeoff = TakeoffPass.Of(structure, frames, pieces, cutting, PlainLayout.Of(CutListBuilder.Of(structure, frames, pieces), cutting));
        var figures = TakeoffFigures.Of(takeoff.Value);
        spec.Evaluator.AddSource(FigureBook.SourceOf(() => figures, spec.Evaluator.Report));
        return new Run(structure, takeoff.Value, figures, [.. spec.Findings, .. takeoff.Findings]);
    }

    /// <summary>A level panel from the origin backwards, its length along x and its width across.</summary>
    public static string Deck(string name, string stack, string length, string width, string body = "") =>
        $"plan {name}_plan {{\n start at (0 in, {width} / 2)\n leg front right length {width}\n leg right aft length {length}\n leg rear left length {width}\n leg left home\n}}\n" +
        $"panel {name} of {stack} {{\n covers plan {name}_plan, top at 0 in\n{body}}}\n";
}
