using System.Globalization;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Wain.Cli;
using Wain.Cli.Commands;
using Wain.Core;
using Wain.Core.Drawing;
using Wain.Core.Drawing.Panels;
using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Framing;
using Wain.Core.Model;
using Wain.Core.Parsing;
using Wain.Core.Reporting;
using Wain.Core.Revisions;
using Wain.Core.Takeoff;
using Wain.Core.Text;
using Wain.Core.Tidying;
using Wain.Reports.Workbooks;
using Wain.Tests.Drawing;
using Wain.Tests.Drawing.Panels;
using Wain.Tests.Framing;
using Wain.Tests.Output;
using Wain.Tests.Takeoff;
using Paper = Wain.Core.Drawing.Paper;

namespace Wain.Tests.Campers;

/// <summary>
/// Whole campers unlike the demo, all invented: a flatbed with a subframe and a lid hinged at the front and a box hinged at the side, both in millimetres; a slide-in whose walls lean; one
/// with a round nose and a group on both sides; a sleeping platform of boards alone; a raft on the rails of a bed with a fixed cuddy and a hat that rises inside of the walls. What must hold of every camper is held of each.
/// </summary>
public class CamperTests
{
    private static readonly string Folder = Path.Combine(Repository.Root, "tests", "Wain.Tests", "Campers");

    private static readonly Dictionary<string, Lazy<Compilation>> Known = new[] { "dunlin", "linnet", "plover", "robin", "tern", "wigeon" }
        .ToDictionary(name => name, name => new Lazy<Compilation>(() => SpecFiles.Compile(Path.Combine(Folder, name + ".wain"), Options.Parse(CheckCommand.Shape, []))));

    public static TheoryData<string> Names => [.. Known.Keys];

    public static TheoryData<string> Metric => ["linnet", "tern"];

    private static Design Of(string camper) => Known[camper].Value.Design!;

    [Theory, MemberData(nameof(Names))]
    public void HasNoErrorAndIsReadInOneWay(string camper)
    {
        Assert.Empty(Known[camper].Value.Findings.Where(f => f.Level == Level.Error).Select(f => f.Message));
        Assert.Empty(SpecParser.Ambiguities(Known[camper].Value.Source));
    }

    /// <summary>Two ways to the same wood: the layers of each panel as solids, and the pieces that are cut for them. Laps of half the thickness take and give alike.</summary>
    [Theory, MemberData(nameof(Names))]
    public void PiecesHoldWhatTheirLayersHold(string camper)
    {
        var design = Of(camper);
        foreach (var panel in design.Structure.Panels)
            foreach (var sheets in LayerAreas.Of(panel).Where(s => s.Layer.Kind == LayerKind.Sheet).GroupBy(s => s.Layer.Material!.Name))
            {
                // A skin that goes on through a zone is one piece of two layers.
                double layers = sheets.Sum(s => s.Volume), pieces = design.Pieces.Of(panel).Where(p => p.Layer.Kind == LayerKind.Sheet && p.Material.Name == sheets.Key).Sum(p => p.Count * p.Volume);
                // What joints have routed is taken from the pieces alone.
                double least = PanelStep.Of(design.Structure, panel).Any() ? 0.9 * layers : layers;
                Assert.True(pieces >= least * (1 - 1e-6) - 1 && pieces <= layers * (1 + 1e-6) + 1, $"{panel.Name}, {sheets.Key}: layers {layers:0}, pieces {pieces:0} mm3");
            }
    }

    [Theory, MemberData(nameof(Names))]
    public void MembersBaysAndHolesCoverTheFrame(string camper)
    {
        foreach (var frame in Of(camper).Frames.All.Where(f => f.Problems.IsEmpty)) FrameProperties.Covers(frame, frame.Panel, wrong: 0);
    }

    /// <summary>A formula that reads as an expression gives its figure when the language itself evaluates it; every input is a figure; every trace ends at a line or a shipped default.</summary>
    [Theory, MemberData(nameof(Names))]
    public void FormulasGiveTheirFigures(string camper)
    {
        var source = Known[camper].Value.Source;
        var figures = Of(camper).Figures;
        foreach (var figure in figures.All)
        {
            foreach (string input in figure.Inputs) Assert.True(figures.Find(input) is not null || figures.Missing.Any(m => m.Name == input), $"{figure.Name} needs {input}, which is no figure");
            Assert.True(figure.From is not null || figure.Inputs.Length > 0 || figure.Name == "total.panels", $"{figure.Name} comes from nowhere");
        }
        // Hours of work are told in a sentence: all steps together, each so much of something at the stated time for one.
        var steps = figures.All.Where(f => f.Name.EndsWith(".work", StringComparison.Ordinal) && f.Name != "total.work").ToList();
        Assert.Equal(figures.Find("total.work")!.Value.Value, steps.Sum(s => s.Value.Value), 1e-6);
        foreach (var step in steps.Where(s => s.Formula.Split(" * ") is [_, var rate] && figures.Find(rate) is not null))
            Assert.Equal(double.Parse(step.Formula.Split(' ')[0], CultureInfo.InvariantCulture) * figures.Find(step.Formula.Split(" * ")[1])!.Value.Value, step.Value.Value, 0.0005 * figures.Find(step.Formula.Split(" * ")[1])!.Value.Value + 1e-9);
        var asked = figures.All.Where(f => f.Inputs.Length > 0 && FigureTests.IsExpression(figures, f.Formula)).ToList();
        Assert.True(asked.Count > 100, $"only {asked.Count} formulas are expressions");
        var run = Compiled(source.Path, source.Text + "\n" + string.Concat(asked.Select((f, i) => $"let asked_{i} = {f.Formula}\n"))).Design!;
        var values = run.Spec.NamedValues.Where(v => v.Name.StartsWith("asked_", StringComparison.Ordinal)).ToDictionary(v => v.Name);
        foreach (var (i, figure) in asked.Index())
        {
            var value = Assert.IsType<QuantityValue>(run.Spec.Evaluator.ValueOf(values[$"asked_{i}"])).Quantity;
            Assert.True(value.Dimension == figure.Value.Dimension, $"{figure.Name} = {figure.Formula}: {value.Dimension.Describe()}, not {figure.Value.Dimension.Describe()}");
            Assert.True(Math.Abs(value.Value - figure.Value.Value) <= 1e-9 * Math.Abs(figure.Value.Value) + 1e-15, $"{figure.Name} = {figure.Formula}: {value.Value}, not {figure.Value.Value}");
        }
    }

    private static Compilation Compiled(string path, string text) =>
        Compiler.Compile(new SourceText(path, text), name => File.Exists(Path.Combine(Folder, name)) ? (new SourceText(name, File.ReadAllText(Path.Combine(Folder, name))), null) : (null, "there is none"));

    [Theory, MemberData(nameof(Names))]
    public void EverySheetIsReadable(string camper)
    {
        foreach (var paper in new[] { Paper.Letter, Paper.A4 })
            foreach (var sheet in DrawingBook.Sheets(Of(camper), Drawn(camper, paper))) LayoutChecks.Readable(sheet);
    }

    private static DrawingOptions Drawn(string camper, Paper paper) => new() { Camper = camper, Revision = "1", ValuesHash = "0123456789abcdef", Metric = Of(camper).Spec.Say.Metric, Kilograms = Of(camper).Spec.Say.Kilograms, Mass = _ => 12.3, Paper = paper };

    /// <summary>What is advised is another text than what stands there.</summary>
    [Theory, MemberData(nameof(Names))]
    public void NoFixWritesWhatIsThere(string camper) =>
        Assert.All(Known[camper].Value.Findings.SelectMany(f => f.Fixes.Select(fix => (f.Code, Fix: fix))), f => Assert.NotEqual(f.Fix.Text.Trim(), f.Fix.Place.Text.Trim()));

    /// <summary>Inches stand only where the text itself has them, as in the called size of stock sold by it.</summary>
    [Theory, MemberData(nameof(Metric))]
    public void NothingIsSaidInInches(string camper)
    {
        Regex inches = new(@"[0-9] (in|ft|lbf|lb)\b");
        Assert.Empty(Known[camper].Value.Findings.Select(f => f.Message + " " + f.Hint).Where(m => inches.IsMatch(m)));
        // Titles and scale bars too.
        Assert.Empty(DrawingBook.Of(Of(camper), Drawn(camper, Paper.A4)).Pages.SelectMany(p => SheetTests.Texts(p.Marks)).Select(t => t.Text).Where(t => inches.IsMatch(t)));
        Assert.Empty(DrawingBook.Sheets(Of(camper), Drawn(camper, Paper.A4)).SelectMany(s => s.Labels).Select(l => l.Text).Where(t => inches.IsMatch(t)));
    }

    [Theory, MemberData(nameof(Names))]
    public void ItsWorkbookIsMadeAndReadBack(string camper)
    {
        var report = Outputs.ReportOf(Known[camper].Value, draft: false);
        var made = Workbook.Make(report);
        Assert.Null(made.Error);
        Assert.Equal(made.Essence, WorkbookText.Essence(made.Bytes!));
        Assert.Equal(made.Bytes, Workbook.Make(report, made.Bytes).Bytes);
        var schema = JsonNode.Parse(File.ReadAllText(Path.Combine(Repository.Root, "grammar", "model.schema.json")))!;
        SchemaCheck.Holds(JsonNode.Parse(ModelJson.Write(report.Title, report.Revision, report.ValuesHash, Of(camper).Figures))!, schema, schema, "$");
    }

    /// <summary>A sum that lacks parts names them in the summary; the demo's sums are whole and say nothing.</summary>
    [Fact]
    public void ASummaryNamesWhatItsSumsLack()
    {
        string Summary(string spec, Compilation compiled) => Summaries.Of(compiled, Outputs.ReportOf(compiled, draft: false), spec).Text!;
        Assert.Matches(@"\| weight without loads \| .* \| floor\.epoxy\.weight, .* more \|", Summary(Path.Combine(Folder, "tern.wain"), Known["tern"].Value).Replace("\\_", "_", StringComparison.Ordinal));
        string demo = Path.Combine(Repository.Root, "specs", "heron", "heron.wain");
        Assert.Contains("| figure | value | low | high |\n", Summary(demo, SpecFiles.Compile(demo, Options.Parse(CheckCommand.Shape, []))), StringComparison.Ordinal);
    }

    [Theory, MemberData(nameof(Names))]
    public void DiffersInNothingFromItself(string camper)
    {
        var compiled = Known[camper].Value;
        var comparison = Comparer.Compare(compiled, compiled, "a", "b");
        Assert.Empty(comparison.Changes);
        Assert.Empty(comparison.Buying);
        Assert.Empty(comparison.Figures.Concat(comparison.OtherFigures));
        Assert.Empty(comparison.Findings);
        string tidied = Tidy.Format(compiled.Source).Value!;
        Assert.Equal(tidied, Tidy.Format(new SourceText(compiled.Source.Path, tidied)).Value);
        var again = Compiled(compiled.Source.Path, tidied);
        Assert.Equal(Outputs.ReportOf(compiled, false).ValuesHash, Outputs.ReportOf(again, false).ValuesHash);
    }
}
