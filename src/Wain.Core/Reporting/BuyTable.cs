using Wain.Core.Text;
using Wain.Core.Units;
using System.Collections.Immutable;
using Wain.Core.Takeoff;

namespace Wain.Core.Reporting;

/// <summary>What to buy, in whole packs. The builder's own columns stand at its end.</summary>
internal static class BuyTable
{
    public static Table Of(TakeoffResult takeoff, ReportUnits units)
    {
        ImmutableArray<Column> columns =
        [
            new("part", "Part"), new("material", "Material"), new("what", "What"), new("sold", "Sold by"),
            new("used", "Used", ColumnKind.Number, null, new NumberStyle.Decimals(3)),
            new("factor", "Bought for one used", ColumnKind.Number, null, new NumberStyle.Decimals(4)),
            new("need", "Need", ColumnKind.Number, null, new NumberStyle.Decimals(3)), new("unit", "Unit"),
            new("stock", "In the shop", ColumnKind.Number, null, new NumberStyle.Decimals(3)),
            new("pack", "One holds", ColumnKind.Number, null, new NumberStyle.Decimals(3)),
            new("least", "At least", ColumnKind.Number, null, new NumberStyle.Decimals(0)),
            new("packs", "To buy", ColumnKind.Number, null, new NumberStyle.Decimals(0)),
            new("price", "Price", ColumnKind.Money, takeoff.Currency), new("cost", "Cost", ColumnKind.Money, takeoff.Currency),
            new("priced", "Priced on", ColumnKind.Date), new("remark", "Remark"),
            new("owned", "Owned", ColumnKind.Builder), new("paid", "Paid", ColumnKind.Builder), new("note", "Note", ColumnKind.Builder),
        ];
        var usedBy = takeoff.Lines.GroupBy(l => l.Material.Name, StringComparer.Ordinal).ToDictionary(g => g.Key, g => g.ToList(), StringComparer.Ordinal);
        var rows = takeoff.Buy.OrderBy(b => b.Mark, StringComparer.Ordinal).Select(b => RowOf(takeoff, b, usedBy[b.Material.Name], units)).ToImmutableArray();
        return new Table("buy", "Buy", columns, rows)
        {
            Note = "Whole packs that cover what is used with waste, less what the spec says is in the shop and what you write under owned, in packs. Sheets and sticks marked as an estimate are those of a plain layout of the parts, until a cutting plan stands behind them.",
            Totals = new Row(Table.TotalsKey, [.. columns.Select(c => c.Key switch { "part" => "Total", "cost" => new Formula.Sum(null, "cost"), _ => Cell.Empty })]),
        };
    }

    private static Row RowOf(TakeoffResult takeoff, BuyLine line, List<TakeoffLine> uses, ReportUnits units)
    {
        string unknown = "not known";
        var from = line.Pack?.From ?? line.Material.Fact.NameSpan;
        Cell used = LedgerTables.Used(Here("material"));
        Cell factor = unknown, need = unknown, stock = Cell.Empty, pack = unknown, packs = unknown;
        string unit = "";
        if (line.Need is { } whole && line.Pack is { } sold)
        {
            (double size, unit) = units.Of(sold.Size);
            pack = ((Cell)size).From(sold.From);
            stock = units.Of(line.Owned).Value;
            bool planned = !line.IsEstimate && line.Material is Model.SheetMaterial or Model.StickMaterial;
            double sum = uses.Sum(u => units.Of(u.Gross).Value);
            // A plan says how many it cuts up; otherwise what the lines use becomes what is needed in the measure of the pack.
            factor = planned || sum == 0 ? Cell.Empty : units.Of(whole).Value / sum;
            need = planned || sum == 0 ? units.Of(whole).Value : Here("used") * Here("factor");
            Formula lacking = Here("need") - Here("stock") - Here("owned") * Here("pack");
            // What a plan or a layout takes is had from the shop as well as from the yard; a smallest order is not.
            Formula wanted = Formula.Packs(lacking, Here("pack"));
            if (line.Least >= Math.Max(1, line.Minimum)) packs = Formula.Larger(0.0, Formula.Larger(new Formula.RoundUp(new Formula.Round(Here("least") - Here("owned"), 9)), wanted));
            else packs = new Formula.If(Formula.Test.LessOrEqual, new Formula.Round(lacking, 9), 0.0, 0.0, Formula.Larger(Here("least"), wanted));
        }
        bool counted = line.Pack?.Size.Dimension == Units.Dimension.None;
        bool priced = line.UnitPrice is not null && line.Packs is not null;
        return new Row(line.Mark,
        [
            line.Mark, line.Material.Name, line.Material.Kind, Called(line.Material) + (line.Pack is { } p ? SoldBy(p, units) : unknown),
            used.AsCount(counted), factor, need.AsCount(counted), unit, stock.AsCount(counted), pack.AsCount(counted), Math.Max(line.Minimum, line.Least), packs,
            line.UnitPrice is { } price ? ((Cell)price).From(from) : unknown,
            line.Packs is 0 && !priced ? 0 : priced ? Here("packs") * Here("price") : unknown,
            line.Pack?.PricedOn is { } on ? on : Cell.Empty,
            Remark(takeoff, line), Cell.Empty, Cell.Empty, Cell.Empty,
        ]);
    }

    // What to ask for at the yard, which is seldom the true size.
    private static string Called(Model.Material material) => material switch { Model.SheetMaterial { Called: { } sheet } => sheet + ", ", Model.StickMaterial { Called: { } stick } => stick + ", ", _ => "" };

    private static string SoldBy(Pack pack, ReportUnits units)
    {
        string Number(double mm) => units.Say.Length(mm);
        string size = pack.Width > 0 && pack.Length > 0 ? $" {Number(pack.Width)} by {Number(pack.Length)}" : pack.Length > 0 ? " " + Number(pack.Length) : Holds(pack, units.Say);
        return (pack.Called is { } called ? $"{pack.Word} {called}," : pack.Word) + size;
    }

    // A gallon or one of a thing holds what its word says; a box or a kit does not.
    private static string Holds(Pack pack, Say say)
    {
        var unit = UnitTable.Find(pack.Word);
        if (unit is null ? pack.Size is { Dimension.IsNone: true, Value: 1 } : unit.Dimension == pack.Size.Dimension && Math.Abs(UnitTable.FromBase(pack.Size, unit) - 1) < 1e-9) return "";
        return $" of {QuantityText.Show(pack.Size, pack.SizeUnit, say)}";
    }

    private static string Remark(TakeoffResult takeoff, BuyLine line)
    {
        var words = new List<string>();
        foreach (string said in (string[])["grade", "note"])
            if (line.Material.Fact.Find(said) is { } fact && takeoff.Structure.Spec.Evaluator.Text(fact, said == "grade" ? said : "text") is { Length: > 0 } text) words.Add(text);
        if (line.Why is { } why) words.Add($"the spec does not state {why}");
        else if (line.IsEstimate) words.Add("estimate");
        if (line.IsStale) words.Add("old price");
        if (line.UnitPrice is not null && line.Pack?.PricedOn is null) words.Add("price without a date");
        return string.Join("; ", words);
    }

    private static Formula Here(string column) => new Formula.Here(column);
}
