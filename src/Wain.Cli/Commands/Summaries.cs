using Wain.Core.Text;
using System.Globalization;
using Wain.Cli.Output;
using Wain.Core;
using Wain.Core.Findings;
using Wain.Core.Reporting;
using Wain.Core.Units;
using Wain.Reports.Summaries;

namespace Wain.Cli.Commands;

/// <summary>The Markdown summary of a design, by the template that ships or by the user's own beside the spec (NAME.summary.md).</summary>
public static class Summaries
{
    public static (string? Text, string? Problem) Of(Compilation compiled, Report report, string specPath)
    {
        string folder = Path.GetDirectoryName(Path.GetFullPath(specPath))!;
        var files = new SpecFolder(folder);
        string own = Path.GetFileNameWithoutExtension(specPath) + ".summary.md";
        var template = File.Exists(Path.Combine(folder, own)) ? files.Load(own) ?? throw new UsageError($"{own} can't be read.") : Shipped();
        var result = SummaryTemplate.Render(template, Model(compiled, report), files.Load);
        if (result.Text is { } text) return (text, null);
        return (null, "template " + string.Join("; ", result.Errors.Select(e => $"{e.Path}:{e.Line}:{e.Column}: {e.Message}")));
    }

    private static TemplateSource Shipped()
    {
        using var stream = typeof(Summaries).Assembly.GetManifestResourceStream("summary.md") ?? throw new InvalidOperationException("the summary template is missing from the program");
        using var reader = new StreamReader(stream);
        return new TemplateSource("summary.md", reader.ReadToEnd());
    }

    /// <summary>What a template sees: camper, figures by name, tables by key with their rows, findings. Documented in grammar/templates.md.</summary>
    internal static Dictionary<string, object?> Model(Compilation compiled, Report report)
    {
        var figures = new Core.Reporting.Figures(report.Tables);
        var tables = new Dictionary<string, object?>();
        foreach (var table in report.Tables)
        {
            var rows = new List<object?>();
            for (int r = 0; r < table.Rows.Length + (table.Totals is null ? 0 : 1); r++)
            {
                Dictionary<string, object?> row = [], shown = [];
                for (int c = 0; c < table.Columns.Length; c++)
                {
                    var value = figures[table.Key, r, c];
                    var style = (r < table.Rows.Length ? table.Rows[r] : table.Totals!).Cells[c].Style ?? table.Columns[c].NumberStyle;
                    row[table.Columns[c].Key] = value.Kind == CellValueKind.Number ? value.Number : value.Kind == CellValueKind.Blank ? "" : value.Text;
                    shown[table.Columns[c].Key] = value.Kind == CellValueKind.Number ? Shown(value.Number, style) : value.Kind == CellValueKind.Blank ? "" : value.Text;
                }
                row["shown"] = shown;
                rows.Add(row);
            }
            tables[table.Key] = new Dictionary<string, object?>
            {
                ["title"] = table.Title,
                ["note"] = table.Note,
                ["columns"] = table.Columns.Select(c => (object?)new Dictionary<string, object?> { ["key"] = c.Key, ["heading"] = c.FullHeading, ["number"] = c.Kind is ColumnKind.Number or ColumnKind.Money }).ToList(),
                ["headings"] = table.Columns.ToDictionary(c => c.Key, c => (object?)c.FullHeading),
                ["rows"] = rows,
                ["has_totals"] = table.Totals is not null,
            };
        }
        var say = compiled.Design!.Takeoff.Structure.Spec.Say;
        return new Dictionary<string, object?>
        {
            ["camper"] = report.Title,
            ["revision"] = report.Revision,
            ["values"] = report.ValuesHash,
            ["remark"] = report.Remark,
            ["draft"] = report.IsDraft,
            ["cautions"] = report.Cautions.Select(c => (object?)c).ToList(),
            ["figures"] = compiled.Design!.Figures.All.ToDictionary(f => f.Name, f => (object?)new Dictionary<string, object?>
            {
                ["value"] = f.Value.Value,
                ["unit"] = SiUnit.Of(f.Value.Dimension),
                ["text"] = QuantityText.Show(f.Value, say: say),
                ["low"] = f.Low is { } low ? QuantityText.Show(low, say: say) : null,
                ["high"] = f.High is { } high ? QuantityText.Show(high, say: say) : null,
                ["formula"] = f.Formula,
                ["complete"] = f.IsComplete,
            }),
            ["tables"] = tables,
            ["findings"] = report.Findings.Select(f => (object?)new Dictionary<string, object?>
            {
                ["code"] = f.Code,
                ["level"] = f.Level.ToString().ToLowerInvariant(),
                ["message"] = f.Message,
                ["subject"] = f.Subject,
                ["accepted"] = f.AcceptedBecause,
            }).ToList(),
            ["panels"] = (double)compiled.Design.Structure.Panels.Length,
        };
    }

    /// <summary>A number as the workbook shows it.</summary>
    private static string Shown(double number, NumberStyle style) => style switch
    {
        NumberStyle.Decimals d => TemplateFunctions.Decimals(number, d.Places),
        NumberStyle.Fraction f => TemplateFunctions.Fraction(number, f.Denominator),
        NumberStyle.Percent p => TemplateFunctions.Decimals(100 * number, p.Places) + " %",
        NumberStyle.Date => new DateTime(1899, 12, 30).AddDays(number).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
        _ => number.ToString("0.####", CultureInfo.InvariantCulture),
    };
}
