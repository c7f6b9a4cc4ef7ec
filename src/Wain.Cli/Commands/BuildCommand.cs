using System.Collections.Immutable;
using System.Text;
using Wain.Cli.Cutting;
using Wain.Cli.Output;
using Wain.Core;
using Wain.Core.Findings;
using Wain.Reports.Summaries;
using Wain.Reports.Workbooks;

namespace Wain.Cli.Commands;

/// <summary>Compiles specs and writes the outputs of each, all of a spec or none.</summary>
public static class BuildCommand
{
    public static readonly Command Shape = new("build", "SPEC... [--out FOLDER]", "Writes the workbook, the summary, the pictures and model.json of each spec, into a folder named after it.",
        [
            .. Options.Common,
            new("--out", "FOLDER", "where the folder of each spec is made; output if it is left out"),
            new("--draft", null, "writes in spite of errors of checks, with DRAFT on every page"),
            new("--replace", null, "goes over outputs that were edited by hand"),
            new("--verify", null, "writes nothing; fails if an output is stale, missing or edited by hand"),
            new("--into", "FILE", "also refreshes the marked section of this file with the summary"),
            new("--section", "NAME", "the name of that section; summary if it is left out"),
        ],
        ["wain build specs/heron/heron.wain", "wain build my.wain --out output --draft", "wain build my.wain --into README.md"], Run);

    private static int Run(Options options, TextWriter output, TextWriter errors)
    {
        if (options.Arguments.Count == 0) throw new UsageError("build needs a spec: wain build SPEC...");
        if (options.Has("--into") && options.Arguments.Count != 1) throw new UsageError("--into takes the summary of one spec.");
        var folders = options.Arguments.Select(a => Path.GetFileNameWithoutExtension(a)).ToList();
        if (folders.GroupBy(f => f, StringComparer.OrdinalIgnoreCase).FirstOrDefault(g => g.Count() > 1) is { } twice) throw new UsageError($"Two specs are named {twice.Key}; build them into different folders.");
        return options.Arguments.Max(spec => BuildOne(spec, options, output, errors));
    }

    private static int BuildOne(string spec, Options options, TextWriter output, TextWriter errors)
    {
        string folder = KeptPlan.FolderOf(spec, options);
        var compiled = SpecFiles.Compile(spec, options, KeptPlan.Read(folder));
        FindingsOutput.Print(compiled.Findings, options, errors);
        bool fails = FindingsOutput.Fails(compiled.Findings, options);
        if (compiled.Design is null)
        {
            errors.WriteLine($"{spec}: nothing was written; the old outputs stay.");
            return 1;
        }
        if (fails && !options.Has("--draft"))
        {
            errors.WriteLine($"{spec}: nothing was written; the old outputs stay. --draft writes all the same, and says DRAFT on every page.");
            return 1;
        }
        var (files, summary, problem) = Outputs.Of(compiled, spec, folder, fails, anew: options.Has("--verify"));
        if (problem is not null)
        {
            errors.WriteLine($"wain: {problem}");
            return problem.StartsWith("template", StringComparison.Ordinal) ? 1 : 2;
        }
        if (options.Has("--verify")) return Verify(folder, files, errors, output, fails);
        byte[]? refreshed = null;
        if (options.Value("--into") is { } into)
        {
            (refreshed, string? wrong) = Into(into, options.Value("--section") ?? "summary", summary);
            if (refreshed is null)
            {
                errors.WriteLine($"wain: {into}: {wrong} Nothing was written.");
                return 2;
            }
        }
        var report = OutputSet.Write(folder, files, options.Has("--replace"), Outputs.EssenceOf);
        if (report.Error is { } error)
        {
            errors.WriteLine($"wain: {error}");
            if (!report.Edited.IsEmpty) TellEdits(report.Edited, compiled, folder, files, errors);
            return 2;
        }
        output.WriteLine($"{folder}: {Count(report.Written.Length, "file")} written, {report.Unchanged.Length} unchanged" + (report.Removed.Length > 0 ? $", {report.Removed.Length} removed" : "") + (fails ? ", DRAFT" : ""));
        if (refreshed is not null) WriteBeside(options.Value("--into")!, refreshed);
        return fails ? 1 : 0;
    }

    private static int Verify(string folder, IReadOnlyList<OutputFile> files, TextWriter errors, TextWriter output, bool fails)
    {
        var state = OutputSet.Verify(folder, files, Outputs.EssenceOf);
        foreach (string path in state.Stale) errors.WriteLine($"stale: {folder}/{path}");
        foreach (string path in state.Missing) errors.WriteLine($"missing: {folder}/{path}");
        foreach (var edit in state.Edited) errors.WriteLine($"edited: {folder}/{edit.Path}: {edit.What}");
        foreach (string path in state.LeftOver) errors.WriteLine($"left over: {folder}/{path}");
        if (state.IsFresh) output.WriteLine($"{folder}: {Count(files.Count, "file")}, all fresh");
        return state.IsFresh && !fails ? 0 : 1;
    }

    // An edited workbook is told cell by cell, with the spec lines where such values belong.
    private static void TellEdits(ImmutableArray<OutputDifference> edited, Compilation compiled, string folder, IReadOnlyList<OutputFile> files, TextWriter errors)
    {
        foreach (var edit in edited)
        {
            errors.WriteLine($"  {folder}/{edit.Path}: {edit.What}");
            if (!edit.Path.EndsWith(".xlsx", StringComparison.Ordinal) || files.FirstOrDefault(f => f.Path == edit.Path) is not { } fresh) continue;
            try
            {
                foreach (var cell in WorkbookText.Edits(fresh.Bytes, File.ReadAllBytes(Path.Combine(folder, edit.Path)), Outputs.ReportOf(compiled, draft: false)).Take(20))
                {
                    errors.WriteLine($"    {cell.Sheet}: {Core.Findings.Renderers.DisplayText.Plain($"{Or(cell.Was)} became {Or(cell.Now)}")}" + (cell.Places.IsEmpty ? "" : $"; it belongs to {string.Join(", ", cell.Places)}"));
                }
            }
            catch (InvalidDataException)
            {
                errors.WriteLine("    it is no readable workbook any more");
            }
        }
        errors.WriteLine("  --replace writes over it.");
    }

    private static string Or(string cell) => cell.Length == 0 ? "nothing" : cell;

    /// <summary>The whole file with the section refreshed, or why it can't be. A byte order mark and every other byte stay.</summary>
    private static (byte[]? Bytes, string? Problem) Into(string file, string section, string summary)
    {
        if (!File.Exists(file)) throw new UsageError($"There is no file {file}.");
        var utf8 = new UTF8Encoding(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true);
        try
        {
            var result = MarkedSection.Replace(utf8.GetString(File.ReadAllBytes(file)), section, summary);
            return result.Text is { } text ? (utf8.GetBytes(text), null) : (null, result.Error);
        }
        catch (ArgumentException)
        {
            return (null, "It is no UTF-8 text.");
        }
    }

    private static void WriteBeside(string file, byte[] bytes)
    {
        string beside = file + ".wain-new";
        File.WriteAllBytes(beside, bytes);
        File.Move(beside, file, overwrite: true);
    }

    private static string Count(int n, string noun) => n == 1 ? $"1 {noun}" : $"{n} {noun}s";
}
