using Wain.Core.Text;
using System.Globalization;
using System.Text;
using System.Text.Json;
using Wain.Cli.Cutting;
using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Findings.Renderers;
using Wain.Core.Reporting;
using Wain.Core.Units;

namespace Wain.Cli.Commands;

/// <summary>Prints any figure, expression or list of a spec.</summary>
public static class QueryCommand
{
    public static readonly Command Shape = new("query", "SPEC EXPRESSION", "Prints a figure, any expression over figures, or a list (figures, placing, panels, layers, members, joints, buy, ...).",
        [new("--out", "FOLDER", "where the folder of the spec is, with its cutting plan; output if it is left out"), new("--as", "text|json|csv", "the form of the answer"), new("--set", "NAME=VALUE", "gives a let of the spec another value for this run", Many: true)],
        ["wain query my.wain total.weight", "wain query my.wain \"rear_wall.area / (1 ft2)\"", "wain query my.wain buy --as csv"], Run);

    private static int Run(Options options, TextWriter output, TextWriter errors)
    {
        if (options.Arguments.Count != 2) throw new UsageError("query needs a spec and an expression: wain query SPEC total.weight");
        string form = options.Choice("--as", "text", "text", "json", "csv");
        var compiled = SpecFiles.Compile(options.Arguments[0], options, KeptPlan.Read(KeptPlan.FolderOf(options.Arguments[0], options)));
        string asked = options.Arguments[1].Trim();
        if (compiled.Design is not { } design)
        {
            FindingsOutput.Print(compiled.Findings, Options.Parse(CheckCommand.Shape, []), errors);
            return 1;
        }
        if (asked.Length > 0 && asked.All(c => c is '_' or (>= 'a' and <= 'z')))
        {
            var tables = Outputs.ReportOf(compiled, draft: false).Tables;
            var alone = asked switch { "figures" => FigureTable(design, form == "text" ? compiled.Structure!.Spec.Say : null), PlacingTable.Key => PlacingTable.Of(design.Structure), _ => null };
            if ((alone ?? tables.FirstOrDefault(t => t.Key == asked)) is { } table)
            {
                output.Write(ListText.Of(table, alone is null ? tables : [table], form));
                return 0;
            }
        }
        var (value, findings) = compiled.Evaluate(asked);
        if (value is null)
        {
            FindingsOutput.Print(findings, Options.Parse(CheckCommand.Shape, []), errors);
            return 1;
        }
        // A sum that lacks parts is told beside its value.
        if (findings.Length > 0) FindingsOutput.Print(findings, Options.Parse(CheckCommand.Shape, ["--as", "lines"]), errors);
        Print(value, form, asked, compiled.Structure!.Spec.Say, output);
        return 0;
    }

    /// <param name="say">For a person, in the units that the spec shows; null for a program, in base units.</param>
    private static Table FigureTable(Core.Design design, Say? say) => new("figures", "Figures", [new Column("name", "name"), new Column("value", "value", ColumnKind.Number), new Column("unit", "unit")],
        [.. design.Figures.All.Select(f => (f.Name, Shown: Shown(f.Value, say))).Select(f => new Row(f.Name, [f.Name, f.Shown.Value, f.Shown.Unit]))]);

    private static (double Value, string Unit) Shown(Quantity value, Say? say) =>
        say is not null && QuantityText.Usual(value, say) is { } unit ? (UnitTable.FromBase(value, unit), unit.Name) : (value.Value, SiUnit.Of(value.Dimension));

    private static void Print(Value value, string form, string asked, Core.Text.Say say, TextWriter output)
    {
        string text = value switch
        {
            QuantityValue q => form == "text" ? QuantityText.Show(q.Quantity, say: say) : q.Quantity.Value.ToString("R", CultureInfo.InvariantCulture),
            TruthValue t => t.Truth ? "yes" : "no",
            TextValue t => t.Text,
            WordValue w => w.Word,
            PlaceValue p => $"({string.Join(", ", p.Items.Select(i => QuantityText.Show(i, say: say)))})",
            _ => "",
        };
        string unit = value is QuantityValue { Quantity.Dimension: var kind } ? SiUnit.Of(kind) : "";
        switch (form)
        {
            case "json":
                using (var stream = new MemoryStream())
                {
                    using (var json = new Utf8JsonWriter(stream))
                    {
                        json.WriteStartObject();
                        json.WriteString("expression", asked);
                        if (value is QuantityValue q) json.WriteNumber("value", q.Quantity.Value);
                        else if (value is TruthValue t) json.WriteBoolean("value", t.Truth);
                        else json.WriteString("value", text);
                        if (unit.Length > 0) json.WriteString("unit", unit);
                        json.WriteEndObject();
                    }
                    output.WriteLine(Encoding.UTF8.GetString(stream.ToArray()));
                }
                break;
            case "csv":
                output.WriteLine("expression,value,unit");
                output.WriteLine($"{ListText.Csv(asked)},{(value is QuantityValue ? text : ListText.Csv(text))},{ListText.Csv(unit)}");
                break;
            default: output.WriteLine(DisplayText.PlainLines(text)); break;
        }
    }
}
