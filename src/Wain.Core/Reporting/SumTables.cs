using System.Collections.Immutable;
using Wain.Core.Figures;
using Wain.Core.Takeoff;
using Wain.Core.Units;

namespace Wain.Core.Reporting;

/// <summary>Weights and costs by panel, assembly and whole; sources of material figures.</summary>
internal static class SumTables
{
    public static Table Weights(TakeoffResult takeoff, FigureBook book, ReportUnits units)
    {
        Column Weight(string key, string heading) => new(key, heading, ColumnKind.Number, units.WeightUnit, new NumberStyle.Decimals(1));
        var built = takeoff.Built.Where(b => b.Weighed is not null).ToDictionary(b => b.Panel, b => b, StringComparer.Ordinal);
        ImmutableArray<Column> columns = [new("panel", "Panel"), Weight("low", "Low"), Weight("likely", "Likely"), Weight("high", "High"), Weight("below", "Spread below"), Weight("above", "Spread above"), Weight("weighed", "Weighed"), Weight("counts", "Counts"), new("lacks", "Lacks")];
        var rows = takeoff.Panels.Select(p =>
        {
            var weighed = built.GetValueOrDefault(p.Name);
            var figure = book.Find(p.Name + (weighed is null ? ".weight" : ".weight_estimated"))!;
            double below = figure.Low is { } low ? units.Weight(figure.Value.Value - low.Value) : 0, above = figure.High is { } high ? units.Weight(high.Value - figure.Value.Value) : 0;
            return new Row(p.Name,
            [
                p.Name, Here("likely") - Here("below"), new Formula.SumIf(LedgerTables.Layers, "panel", Here("panel"), "weight"), Here("likely") + Here("above"), below, above,
                weighed is null ? Cell.Empty : ((Cell)units.Weight(weighed.Weighed!.Value)).From(weighed.Fact.Span), weighed is null ? Here("likely") : Here("weighed"), figure.LacksInShort,
            ]);
        }).ToImmutableArray();
        return new Table("weights", "Weights", columns, rows)
        {
            Note = "Bare panels. Parts that share a material's figure are high or low together; the figures of different materials are taken as independent, and their spreads combine as the root of the sum of squares. What is weighed takes over.",
            Totals = new Row(Table.TotalsKey, [.. columns.Select(c => c.Key switch { "panel" => "Total", "likely" or "counts" => new Formula.Sum(null, c.Key), _ => Cell.Empty })]),
        };
    }

    public static Table Costs(TakeoffResult takeoff, FigureBook book)
    {
        Column Money(string key, string heading) => new(key, heading, ColumnKind.Money, takeoff.Currency);
        var paid = takeoff.Built.Where(b => b.Paid is not null).ToDictionary(b => b.Panel, b => b, StringComparer.Ordinal);
        ImmutableArray<Column> columns = [new("panel", "Panel"), Money("share", "Share of what is bought"), Money("paid", "Paid"), Money("counts", "Counts"), new("lacks", "Lacks")];
        var rows = takeoff.Panels.Select(p =>
        {
            var built = paid.GetValueOrDefault(p.Name);
            return new Row(p.Name,
            [
                p.Name, new Formula.SumIf(LedgerTables.Layers, "panel", Here("panel"), "cost"), built is null ? Cell.Empty : ((Cell)built.Paid!.Value).From(built.Fact.Span),
                built is null ? Here("share") : Here("paid"), book.Find(p.Name + (built is null ? ".cost" : ".cost_estimated"))?.LacksInShort ?? "",
            ]);
        }).ToImmutableArray();
        return new Table("costs", "Costs", columns, rows)
        {
            Note = "Bare panels, before tax. A price paid takes the place of the panel's share.",
            Totals = new Row(Table.TotalsKey, ["Total", new Formula.Sum(null, "share"), new Formula.Sum(null, "paid"), new Formula.Sum(null, "counts"), ""]),
        };
    }

    /// <summary>Which panel belongs to which assembly, with what it brings; and the sums.</summary>
    public static ImmutableArray<Table> Assemblies(TakeoffResult takeoff, ReportUnits units)
    {
        if (takeoff.Assemblies.IsEmpty) return [];
        Column Weight(string key, string heading) => new(key, heading, ColumnKind.Number, units.WeightUnit, new NumberStyle.Decimals(1));
        var parts = ImmutableArray.CreateBuilder<Row>();
        foreach (var group in takeoff.Assemblies)
        {
            var panels = group.Panels.ToHashSet(StringComparer.Ordinal);
            foreach (string panel in group.Panels)
            {
                string key = $"{group.Name}.{panel}";
                parts.Add(new Row(key, [key, group.Name, panel, new Formula.At("weights", panel, "counts"), new Formula.At("costs", panel, "counts")]));
            }
            foreach (var line in takeoff.Lines.Where(l => !l.IsOfBarePanel && l.Panels.Length > 0 && l.Panels.All(panels.Contains)).OrderBy(l => l.Key, StringComparer.Ordinal))
            {
                string key = $"{group.Name}.{line.Key}", table = LedgerTables.TableOf(line);
                parts.Add(new Row(key, [key, group.Name, line.Key, new Formula.At(table, line.Key, "weight"), new Formula.At(table, line.Key, "cost")]));
            }
        }
        return
        [
            new Table("assemblies", "Assemblies", [new("assembly", "Assembly"), Weight("weight", "Weight"), new("cost", "Cost", ColumnKind.Money, takeoff.Currency)],
                [.. takeoff.Assemblies.Select(g => new Row(g.Name, [g.Name, new Formula.SumIf("assembly_parts", "assembly", Here("assembly"), "weight"), new Formula.SumIf("assembly_parts", "assembly", Here("assembly"), "cost")]))])
            { Note = "Panels that are told together, with what is fitted in them and what joins them to each other." },
            new Table("assembly_parts", "Assembly parts", [new("part", "Part"), new("assembly", "Assembly"), new("what", "What"), Weight("weight", "Weight"), new("cost", "Cost", ColumnKind.Money, takeoff.Currency)], parts.ToImmutable()),
        ];
    }

    public static Table Summary(TakeoffResult takeoff, FigureBook book, ReportUnits units)
    {
        ImmutableArray<Column> columns = [new("figure", "Figure"), new("what", "What it is"), new("value", "Value", ColumnKind.Number, null, new NumberStyle.Decimals(2)), new("unit", "Unit"), new("low", "Low", ColumnKind.Number, null, new NumberStyle.Decimals(2)), new("high", "High", ColumnKind.Number, null, new NumberStyle.Decimals(2)), new("lacks", "Lacks")];
        var rows = ImmutableArray.CreateBuilder<Row>();
        void Add(string name, string what, Cell? live = null)
        {
            if (book.Find(name) is not { } figure) return;
            bool mass = figure.Value.Dimension == Dimension.OfMass;
            double Shown(double value) => mass ? units.Weight(value) : value;
            bool count = figure.Value.Dimension == Dimension.None && figure.Value.Value == Math.Round(figure.Value.Value);
            string unit = mass ? units.WeightUnit : figure.Value.Dimension.Currency ?? "";
            rows.Add(new Row(name, [name, what, (live ?? Shown(figure.Value.Value)).From(figure.From).AsCount(count), unit, figure.Low is { } low ? Shown(low.Value) : Cell.Empty, figure.High is { } high ? Shown(high.Value) : Cell.Empty, figure.LacksInShort]));
        }
        Add("total.panels", "panels");
        Add("total.weight", "weight without loads");
        Add("total.weight_dry", "weight with what stays aboard");
        Add("total.weight_ready", "weight ready to travel");
        Add("total.weight_camped", "weight camped");
        Add("total.cost_bought", "what is bought, before tax", new Formula.Sum("buy", "cost"));
        if (takeoff.Tax is not null)
        {
            Add("total.tax_rate", "tax, as a share");
            Add("total.tax", "tax", At("total.cost_bought") * At("total.tax_rate"));
        }
        Formula tax = takeoff.Tax is null ? 0.0 : At("total.tax"), rate = takeoff.Tax is null ? 0.0 : At("total.tax_rate");
        // A price paid takes the place of the panel's share with its tax.
        var correction = takeoff.Built.Where(b => b.Paid is not null).Select(b => (Formula)new Formula.At("costs", b.Panel, "paid") - new Formula.At("costs", b.Panel, "share") * (1.0 + rate)).ToList();
        Add("total.cost", correction.Count == 0 ? "what it costs, with tax" : "what it costs, with tax; for panels paid for, the price paid in place of their share", correction.Aggregate(At("total.cost_bought") + tax, (sum, next) => sum + next));
        return new Table("summary", "Summary", columns, rows.ToImmutable()) { Note = "Figures of the whole camper. What a sum lacks is named; it is then too small." };
    }

    public static Table Sources(TakeoffResult takeoff, FigureBook book)
    {
        ImmutableArray<Column> columns = [new("figure", "Figure"), new("value", "Value"), new("low", "Low"), new("high", "High"), new("source", "Source"), new("by", "Stated by")];
        var say = takeoff.Structure.Spec.Say;
        var used = takeoff.Structure.Materials.Select(m => m.Name).Append("default").ToHashSet(StringComparer.Ordinal);
        var rows = book.All.Where(f => f.Inputs.IsEmpty && f.Name.IndexOf('.') is > 0 and var dot && used.Contains(f.Name[..dot]) && !IsResult(f.Name))
            .Select(f => new Row(f.Name, [f.Name, ((Cell)say.Quantity(f.Value)).From(f.From), f.Low is { } low ? say.Quantity(low) : "", f.High is { } high ? say.Quantity(high) : "", f.Source ?? "none stated", f.Formula])).ToImmutableArray();
        return new Table("sources", "Sources", columns, rows) { Note = "Every stated figure of a material and where it comes from. From memory and common practice are said so." };
    }

    private static bool IsResult(string name) => name.EndsWith(".need", StringComparison.Ordinal) || name.EndsWith(".cost", StringComparison.Ordinal) || name.EndsWith(".packs", StringComparison.Ordinal);

    private static Formula At(string row) => new Formula.At("summary", row, "value");

    private static Formula Here(string column) => new Formula.Here(column);
}
