using System.Collections.Immutable;
using Wain.Core.Findings;
using Wain.Core.Reporting;
using Wain.Core.Text;

namespace Wain.Tests.Reporting;

/// <summary>An invented report with every kind of cell, column and formula, and texts that try to be something else.</summary>
internal static class SampleReport
{
    public static readonly SourceText Source = new("sample.wain", "panel left_wall of insulated_wall {\n}\nprice ply_6mm 41.25 USD per sheet\n");

    private static Formula Here(string column) => new Formula.Here(column);

    public static Report Make()
    {
        var layers = new Table("layers", "Layers",
        [
            new("layer", "Layer"),
            new("material", "Material"),
            new("area", "Area", ColumnKind.Number, "sq ft", new NumberStyle.Decimals(2)),
        ],
        [
            new("left_wall.1", ["left_wall.1", "ply_6mm", 31.0 / 3]),
            new("left_wall.2", ["left_wall.2", "mar1", Math.PI]),
            new("roof.1", ["roof.1", "ply_6mm", 70.1]),
            new("roof.2", ["roof.2", "Ply_6mm", 1.25]),
            new("roof.3", ["roof.3", "<5*?", 2.5]),
        ])
        {
            Totals = new Row(Table.TotalsKey, ["Total", Cell.Empty, new Formula.Sum(null, "area")]),
        };
        var buy = new Table("buy", "What to buy",
        [
            new("material", "Material"),
            new("name", "Description"),
            new("length", "Length", ColumnKind.Number, "in", new NumberStyle.Fraction(16)),
            new("need", "Need", ColumnKind.Number, "sq ft", new NumberStyle.Decimals(2)),
            new("pack", "In a pack", ColumnKind.Number, "sq ft", new NumberStyle.Decimals(2)),
            new("price", "Price", ColumnKind.Money, "USD"),
            new("priced", "Priced on", ColumnKind.Date),
            new("owned", "Owned", ColumnKind.Builder, "packs"),
            new("packs", "Packs", ColumnKind.Number, null, new NumberStyle.Decimals(0)),
            new("cost", "Cost", ColumnKind.Money, "USD"),
            new("share", "Share", ColumnKind.Number, null, new NumberStyle.Percent(1)),
            new("remark", "Remark"),
            new("note", "Note", ColumnKind.Builder),
        ],
        [
            Row("ply_6mm", "=1+1", 14.5, 32, 41.25),
            Row("mar1", "+plus", 1.0 / 16, 1.5, 1e-3),
            Row("Ply_6mm", "@at | bar \\ slash", -0.1875, 0.1, 1234567.891),
            Row("<5*?", "'quoted\nsecond line\t.", 96, 0.1 + 0.2, 7),
        ])
        {
            Note = "Figures are invented.",
            Totals = new Row(Table.TotalsKey,
            [
                "Total", Cell.Empty, Cell.Empty, new Formula.Sum(null, "need"), Cell.Empty, Cell.Empty, Cell.Empty, Cell.Empty, new Formula.Sum(null, "packs"), new Formula.Sum(null, "cost"),
                new Formula.Sum(null, "share"), Cell.Empty, Cell.Empty,
            ]),
        };
        var totals = new Table("totals", "Totals & more: 1/2 [all]", [new("what", "What"), new("figure", "Figure", ColumnKind.Number), new("text", "Text")],
        [
            new("cost with tax", ["cost with tax", new Formula.Round(new Formula.At("buy", Table.TotalsKey, "cost") * 1.0725, 2), new Formula.Lookup("buy", "material", "mar1", "name")]),
            new("nothing", ["nothing", Formula.Larger(0, new Formula.At("buy", "ply_6mm", "cost") - new Formula.Constant(1e9)), "-1"]),
            new("divided by none", ["divided by none", new Formula.At("buy", "ply_6mm", "cost") / new Formula.CountIf("layers", "material", "nothing"), "1/2"]),
            new("not listed", ["not listed", new Formula.Lookup("buy", "material", "nowhere", "cost"), "2026-05-02"]),
            new("layers of ply", ["layers of ply", new Formula.CountIf("layers", "material", "ply_6mm"), "TRUE"]),
            new("brackets", ["brackets", (Formula)10 - (new Formula.Constant(3) - 2) - new Formula.Constant(-4) / (new Formula.Constant(2) * 3), "_x0041_"]),
            new("smaller", ["smaller", Formula.Smaller(-2.5, 1), "\u0001 and \ud800"]),
            new("up from below", ["up from below", new Formula.RoundUp(-2.1), "007"]),
        ]);
        var empty = new Table("empty", "Nothing here", [new("key", "Key"), new("size", "Size", ColumnKind.Number)], [])
        {
            Totals = new Row(Table.TotalsKey, ["Total", new Formula.Sum(null, "size")]),
        };
        var info = new FindingInfo("WN4999", "sample-check", Level.Error, "A sample", "It matters.", "let a = 2\n", "let a = 1\n");
        var report = new Report("Sample & Son", "C", ReportHash.Of([layers, buy, totals, empty]))
        {
            IsDraft = true,
            Cautions = ["Weigh the truck before you load it. This is invented text that is long enough to be wrapped over more than one line of the first sheet, so that the row height that the program computes shows."],
            Findings = [new Finding(info, "-1 in too short", new Span(Source, 6, 9)) { Subject = "left_wall", Hint = "=make it longer" }],
            Tables = [layers, buy, totals, empty],
        };
        return report;

        static Row Row(string key, string name, double length, double pack, double price) => new(key,
        [
            key, name, length, new Formula.SumIf("layers", "material", Here("material"), "area"), pack, ((Cell)price).From(new Span(Source, 54, 5)), new DateOnly(2026, 5, 2), Cell.Empty,
            Formula.Larger(0, Formula.Packs(Here("need"), Here("pack")) - Here("owned")), Here("packs") * Here("price"),
            Here("cost") / new Formula.At("buy", Table.TotalsKey, "cost"),
            new Formula.If(Formula.Test.Greater, Here("packs"), 3, "many", "few"), Cell.Empty,
        ]);
    }

    public static Report With(this Report report, string table, Func<Table, Table> change) =>
        report with { Tables = report.Tables.Select(t => t.Key == table ? change(t) : t).ToImmutableArray() };
}
