using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text;
using Wain.Cli.Output;
using Wain.Core;
using Wain.Core.CutLists;
using Wain.Core.Drawing;
using Wain.Core.Drawing.Panels;
using Wain.Core.Findings;
using Wain.Core.Reporting;
using Wain.Reports.Summaries;
using Wain.Reports.Pdf;
using Wain.Reports.Svg;
using Wain.Reports.Workbooks;

namespace Wain.Cli.Commands;

/// <summary>The set of files that a build writes for one spec.</summary>
public static class Outputs
{
    public const string WorkbookName = "workbook.xlsx";

    /// <summary>All outputs of a design, with the text of its summary; or what keeps them from being made.</summary>
    /// <param name="anew">Makes all of it anew, also what could be kept from the build before.</param>
    /// <param name="memory">What writers made before in this run; null to run them all.</param>
    public static (ImmutableArray<OutputFile> Files, string Summary, string? Problem) Of(Compilation compiled, string specPath, string folder, bool draft, bool anew = false, WriterMemory? memory = null)
    {
        T Once<T>(string name, object?[] inputs, Func<T> write) where T : notnull => memory is null ? write() : memory.Once(name, inputs.Select(ContentHash.Of), write);

        var report = ReportOf(compiled, draft);
        var files = ImmutableArray.CreateBuilder<OutputFile>();
        string old = Path.Combine(folder, WorkbookName);
        byte[]? filledIn = File.Exists(old) ? File.ReadAllBytes(old) : null;
        // What stands in the folder is an input too: the builder's own columns are carried over. The workbook takes as long as all else, and needs the report alone.
        var making = Task.Run(() => Once(WorkbookName, [report, filledIn], () => Workbook.Make(report, filledIn)));
        var (summary, problem) = Summaries.Of(compiled, report, specPath);
        if (summary is null) return ([], "", problem);
        files.Add(new OutputFile("summary.md", Encoding.UTF8.GetBytes(summary)));
        files.Add(new OutputFile("model.json", ModelJson.Write(report.Title, report.Revision, report.ValuesHash, compiled.Design!.Figures)));
        var options = DrawingOptionsOf(compiled, report);
        var drawings = DrawingBook.Of(compiled.Design, options);
        foreach (var (name, picture) in drawings.Pictures) files.Add(new OutputFile(name + ".svg", Once(name, [picture], () => SvgWriter.Write(picture))));
        // The printable books show what the drawings show, so while these stay as they are so do the books.
        string drawn = Convert.ToHexString(SHA256.HashData([.. files.Where(f => f.Path.EndsWith(".svg", StringComparison.Ordinal)).SelectMany(f => SHA256.HashData(f.Bytes))]))[..32];
        files.Add(Book("drawings-letter.pdf", () => drawings.Pages));
        files.Add(Book("drawings-a4.pdf", () => DrawingBook.Of(compiled.Design, options with { Paper = Core.Drawing.Paper.A4 }).Pages));
        foreach (var plot in compiled.Design.Engineering.Pictures) files.Add(new OutputFile($"plots/{plot.Name}.svg", SvgWriter.Write(PlotHead.Over(plot.Picture, AboutPlot(report, plot.Picture), options.DraftErrors))));
        var workbook = making.GetAwaiter().GetResult();
        if (workbook.Error is { } error) return ([], "", error);
        files.Add(new OutputFile(WorkbookName, workbook.Bytes!, workbook.Essence!));
        files.Add(new OutputFile("workbook.txt", Encoding.UTF8.GetBytes(workbook.Text!)));
        return (files.ToImmutable(), summary, null);

        OutputFile Book(string name, Func<IReadOnlyList<Picture>> pages)
        {
            string path = Path.Combine(folder, name);
            return !anew && File.Exists(path) && File.ReadAllBytes(path) is var kept && PdfWriter.IsOf(kept, drawn) ? new(name, kept) : new(name, PdfWriter.Write(report.Title, pages(), drawn));
        }
    }

    /// <summary>The tables that the workbook, the summary and queries show.</summary>
    public static Report ReportOf(Compilation compiled, bool draft)
    {
        var design = compiled.Design!;
        return ReportBuilder.Of(design.Takeoff, design.Frames, design.Figures, compiled.Findings.Where(IsOfTheDesign).InOwnOrder(), [PieceTable.Of(design.Pieces, ReportUnits.Read(design.Spec)), JointTable.Of(design.Structure, ReportUnits.Read(design.Spec)) with { Key = "saw", Title = "Saw settings" }, .. design.Engineering.Tables, .. design.Cutting is { } plan ? CuttingTables.Of(plan, ReportUnits.Read(design.Spec)) : []]) with { IsDraft = draft };
    }

    // What is said of the text, such as a name that nothing uses, is no part of the design: moving a line to another file must change no output.
    private static bool IsOfTheDesign(Finding finding) => string.CompareOrdinal(finding.Code, "WN2000") >= 0;

    // A plot's own hash: it stays as it is while what it shows does.
    private static string AboutPlot(Report report, Picture plot) =>
        $"{report.Title}{(report.Revision.Length > 0 ? $", revision {report.Revision}" : "")}, values {Convert.ToHexStringLower(SHA256.HashData(SvgWriter.Write(plot)))[..12]}";

    private static ImmutableArray<string> Errors(Compilation compiled) => [.. compiled.Findings.Where(f => f.Level == Level.Error && f.AcceptedBecause is null).InOwnOrder().Select(f => $"{f.Code} {f.Message}")];

    /// <summary>What of a file a person's own entries do not change.</summary>
    public static string? EssenceOf(string path, byte[] bytes)
    {
        if (!path.EndsWith(".xlsx", StringComparison.Ordinal)) return null;
        try
        {
            return WorkbookText.Essence(bytes);
        }
        catch (InvalidDataException)
        {
            return null;
        }
    }

    private static DrawingOptions DrawingOptionsOf(Compilation compiled, Report report) => new()
    {
        Camper = report.Title,
        Revision = report.Revision,
        ValuesHash = report.DesignHash,
        DraftErrors = report.IsDraft ? Errors(compiled) : [],
        Metric = compiled.Design!.Spec.Say.Metric,
        Kilograms = compiled.Design.Spec.Say.Kilograms,
        Denominator = ReportUnits.Read(compiled.Design.Spec).Denominator,
        Cutting = compiled.Design.Cutting is { } plan ? options => CuttingPictures.Of(plan, ReportUnits.Read(compiled.Design.Spec), options) : _ => [],
        Mass = panel => compiled.Design!.Figures.Find(panel + ".weight")?.Value.Value,
    };
}
