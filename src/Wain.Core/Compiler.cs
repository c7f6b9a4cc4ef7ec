using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Checks;
using Wain.Core.Clearance;
using Wain.Core.CutLists;
using Wain.Core.Engineering;
using Wain.Core.Figures;
using Wain.Core.Findings;
using Wain.Core.Framing;
using Wain.Core.Geometry;
using Wain.Core.Model;
using Wain.Core.Parsing;
using Wain.Core.Pieces;
using Wain.Core.Shipped;
using Wain.Core.Syntax;
using Wain.Core.Takeoff;
using Wain.Core.Text;

namespace Wain.Core;

/// <summary>All that the passes made of a spec: the placed design, its frames and pieces, its quantities, and every named figure.</summary>
public sealed record Design(Spec Spec, Structure Structure, Frames Frames, PieceList Pieces, TakeoffResult Takeoff, FigureBook Figures)
{
    public required EngineeringResult Engineering { get; init; }

    public required ClearanceResult Clearance { get; init; }

    /// <summary>What is cut from what.</summary>
    public ImmutableArray<CutList> CutLists { get; init; } = [];

    /// <summary>The plans that buying stands on, of all materials whose kept plan holds; null while all is an estimate.</summary>
    public CuttingPlan? Cutting { get; init; }

    /// <summary>What is cut from what, and with which rows free, if the splices were these.</summary>
    public (PieceList Pieces, ImmutableArray<CutList> Lists) Spliced(ImmutableArray<ChosenSplice> splices)
    {
        var pieces = PieceBuilder.Build(Structure, Frames, splices);
        return (pieces, CutListBuilder.Of(Structure, Frames, pieces));
    }
}

/// <summary>How far a compilation came, and all that it found.</summary>
/// <param name="Design">Null if errors of text, names, units or placing stopped it.</param>
public sealed record Compilation(SourceText Source, Spec Spec, Design? Design, ImmutableArray<Finding> Findings)
{
    public Structure? Structure => Design?.Structure;

    public bool HasErrors => Findings.HasErrors();

    /// <summary>Evaluates an expression of the language over the figures of this design, such as <c>total.weight / 2</c>.</summary>
    public (Value? Value, ImmutableArray<Finding> Findings) Evaluate(string expression) => Spec.Evaluate(expression);
}

/// <summary>The whole compiler as a list of passes. Each takes values and gives values with findings; none touches a file, a clock or the console.</summary>
public static class Compiler
{
    /// <summary>Compiles a spec held in memory.</summary>
    /// <param name="source">The main text.</param>
    /// <param name="include">Reads the files that it uses; null if it may use none.</param>
    /// <param name="given">Values that take the place of a <c>let</c> of the same name.</param>
    /// <param name="plan">The cutting plan that is kept for the spec; null to reckon without one.</param>
    /// <param name="parsed">Texts parsed before, for who compiles again and again; null to parse all.</param>
    public static Compilation Compile(SourceText source, IncludeReader? include = null, IReadOnlyDictionary<string, Expression>? given = null, PlanFile? plan = null, ParseCache? parsed = null)
    {
        Func<SourceText, Stage<SyntaxFile>> parse = parsed is null ? SpecParser.Parse : parsed.Parse;
        var compiled = Once(source, include, given, plan, parse);
        return compiled with { Findings = LengthUnits.Explain(compiled.Spec, compiled.Findings, change => Once(source, include, given, plan, text => SpecParser.Parse(Changed(text, change))).Findings).InTextOrder() };
    }

    private static SourceText Changed(SourceText source, Fix change) =>
        source == change.Place.Source ? new SourceText(source.Path, source.Text[..change.Place.Start] + change.Text + source.Text[change.Place.End..]) : source;

    /// <summary>All passes in their order: begin to read here.</summary>
    private static Compilation Once(SourceText source, IncludeReader? include, IReadOnlyDictionary<string, Expression>? given, PlanFile? plan, Func<SourceText, Stage<SyntaxFile>> parse)
    {
        var syntax = parse(source);
        var spec = Binder.Bind(syntax.Value, WithLibrary(include ?? NoIncludes), given, parse);
        if (Found(syntax.Findings, spec).HasErrors()) return Stopped(spec, syntax.Findings);

        spec.Evaluator.FigureNames = () => spec.Facts.Where(f => f.Name is not null).SelectMany(f => FigureNames.Of(f.Keyword, f.Name!)).Concat(FigureNames.Of("total", "total"));
        var structure = Resolver.Resolve(spec);
        if (Found(syntax.Findings, spec).HasErrors()) return Stopped(spec, syntax.Findings);

        var frames = FrameBuilder.Build(structure);
        var pieces = PieceBuilder.Build(structure, frames, plan?.Splices ?? []);
        var cutLists = CutListBuilder.Of(structure, frames, pieces);
        var reading = PlanReading.Of(plan, cutLists);
        var cutting = reading.Plan;
        var planned = cutting?.Counts(cutLists) ?? [];
        var takeoff = TakeoffPass.Of(structure, frames, pieces, planned, PlainLayout.Of(cutLists, planned));
        var clearance = ClearancePass.Of(structure);
        var figures = TakeoffFigures.Of(takeoff.Value).With(clearance.Figures, []);
        spec.Evaluator.AddSource(FigureBook.SourceOf(() => figures, spec.Evaluator.Report));
        spec.Evaluator.FigureNames = () => figures.Unsorted.Select(f => f.Name);

        var engineering = EngineeringRun.Run(new EngineeringInput(structure, frames, pieces, clearance, takeoff.Value, figures));
        figures = engineering.Figures.With(CuttingFigures.Of(cutting, structure), []);

        var design = new Design(spec, structure, frames, pieces, takeoff.Value, figures) { Engineering = engineering, Clearance = clearance, CutLists = cutLists, Cutting = cutting };
        var checks = CheckRunner.Run(new CheckInput(spec, structure, frames, pieces, clearance) { CutLists = cutLists, Cutting = reading });
        ValuePass.Run(spec, placed: true);
        var all = Found(syntax.Findings, spec).AddRange(takeoff.Findings).AddRange(engineering.Findings).AddRange(checks);
        // Two layers of one material make the same finding twice.
        all = [.. all.DistinctBy(f => (f.Code, f.Place, f.Message)).Select(WithoutShipped)];
        return new Compilation(source, spec, design, MirroredFindings.Fold(structure, FollowOns.Without(spec, Acceptance.Apply(spec, all))).InTextOrder());
    }

    /// <summary>A spec's own file comes before a shipped one of the same path.</summary>
    private static IncludeReader WithLibrary(IncludeReader own) => path => own(path) is { Source: not null } found ? found : ShippedMaterials.Find(path) is { } shipped ? (shipped, null) : own(path);

    /// <summary>Without what would be written into a file that the program ships: no builder can.</summary>
    private static Finding WithoutShipped(Finding finding) =>
        finding.Fixes.Any(f => ShippedMaterials.Ships(f.Place.Source)) ? finding with { Fixes = [.. finding.Fixes.Where(f => !ShippedMaterials.Ships(f.Place.Source))] } : finding;

    private static (SourceText? Source, string? Problem) NoIncludes(string path) => (null, "no other files are at hand");

    private static ImmutableArray<Finding> Found(ImmutableArray<Finding> syntax, Spec spec) => [.. syntax, .. spec.Findings];

    private static Compilation Stopped(Spec spec, ImmutableArray<Finding> syntax)
    {
        ValuePass.Run(spec, placed: false);
        return new(spec.Main, spec, null, Found(syntax, spec).InTextOrder());
    }
}
