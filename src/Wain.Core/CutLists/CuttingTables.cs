using System.Collections.Immutable;
using System.Globalization;
using Wain.Core.Reporting;

namespace Wain.Core.CutLists;

/// <summary>A plan as tables: one of totals, one of sheets, one of sticks, one of cuts.</summary>
public static class CuttingTables
{
    /// <summary>What a plan buys, in words.</summary>
    public static string Cost(MaterialPlan plan) => plan.CostUnit.Length == 0 ? "no price stated" : string.Create(CultureInfo.InvariantCulture, $"{plan.Cost / 100.0:0.00} {plan.CostUnit}");

    /// <summary>How far a plan can be from the best, in words.</summary>
    public static string State(MaterialPlan plan) =>
        !plan.Problems.IsEmpty ? "not whole: some parts have no place"
        : plan.IsProven ? "proven: no plan costs less"
        : string.Create(CultureInfo.InvariantCulture, $"a better plan could cost at most {plan.Gap * 100:0.#} % of the lower bound less");

    /// <summary>The name that a sheet or stick has in tables and pictures.</summary>
    public static string Mark(MaterialPlan plan, int index) => $"{plan.Material} {index + 1}";

    public static ImmutableArray<Table> Of(CuttingPlan plan, ReportUnits units)
    {
        string currency = plan.Materials.Select(m => m.CostUnit).FirstOrDefault(u => u.Length > 0) ?? "USD";
        return [Totals(plan, currency), Sheets(plan, units), Sticks(plan, units), Cuts(plan, units)];
    }

    private static double Length(ReportUnits units, long value) => units.Length(value / CutList.UnitsPerMillimetre);

    private static Cell Money(MaterialPlan plan, long value) => plan.CostUnit.Length == 0 ? "no price" : value / 100.0;

    private static Table Totals(CuttingPlan plan, string currency)
    {
        ImmutableArray<Column> columns =
        [
            new("material", "Material"), new("what", "What"), new("parts", "Parts", ColumnKind.Number), new("buy", "To buy", ColumnKind.Number), new("owned", "Owned, used", ColumnKind.Number),
            new("cost", "Cost", ColumnKind.Money, currency), new("bound", "No plan below", ColumnKind.Money, currency), new("state", "How good"),
        ];
        ImmutableArray<Row> rows = [.. plan.Materials.Select(m => new Row(m.Material,
        [
            m.Material, m.Kind.ToString().ToLowerInvariant(), m.Sheets.Sum(s => s.Times * s.Parts.Length), m.Bought.Sum(b => b.Count), m.Sheets.Where(s => s.Owned).Sum(s => s.Times),
            Money(m, m.Cost), Money(m, m.Bound), State(m),
        ]))];
        return new Table("cutting", "Cutting", columns, rows)
        {
            Note = "What the kept cutting plan buys, and the least that any plan could cost. Fewest sheets, large offcuts and few cuts come after cost and are best effort.",
            Totals = new Row(Table.TotalsKey, [.. columns.Select(c => c.Key switch { "material" => "Total", "parts" or "buy" or "cost" => new Formula.Sum(null, c.Key), _ => Cell.Empty })]),
        };
    }

    private static Table Sheets(CuttingPlan plan, ReportUnits units)
    {
        ImmutableArray<Column> columns =
        [
            new("sheet", "Sheet"), new("material", "Material"), new("stock", "Stock"), Measure("width", "Width", units), Measure("length", "Length", units), new("times", "Cut so", ColumnKind.Number),
            new("used", "Used", ColumnKind.Number, null, new NumberStyle.Percent(0)), new("parts", "Parts"), new("offcuts", "Offcuts to keep"), new("note", "Note"),
        ];
        var rows = ImmutableArray.CreateBuilder<Row>();
        foreach (var m in plan.Materials.Where(m => m.Kind != CutKind.Stick))
        {
            for (int i = 0; i < m.Sheets.Length; i++)
            {
                var s = m.Sheets[i];
                rows.Add(new Row(Mark(m, i),
                [
                    Mark(m, i), m.Material, s.Owned ? "owned: " + s.Stock : s.Stock, Length(units, s.Width), Length(units, s.Length), s.Times,
                    s.Parts.Sum(AreaOf) / ((double)s.Width * s.Length), string.Join(", ", s.Parts.Select(p => p.Mark)),
                    string.Join(", ", s.Offcuts.Select(o => $"{Say(units, o.Width)} by {Say(units, o.Length)}")), s.Note,
                ]));
            }
        }
        return new Table("sheets", "Sheets", columns, rows.ToImmutable()) { Note = "Each sheet of the cutting plan. The length of the stock, and so its grain, stands upright in the pictures." };
    }

    private static double AreaOf(PlacedPart p)
    {
        if (p.Outline.IsEmpty) return (double)p.Width * p.Length;
        double twice = 0;
        for (int i = 0; i < p.Outline.Length; i++)
        {
            var (a, b) = (p.Outline[i], p.Outline[(i + 1) % p.Outline.Length]);
            twice += (double)a.X * b.Y - (double)b.X * a.Y;
        }
        return Math.Abs(twice) / 2;
    }

    private static Table Sticks(CuttingPlan plan, ReportUnits units)
    {
        ImmutableArray<Column> columns =
        [
            new("stick", "Stick"), new("material", "Material"), new("stock", "Stock"), Measure("length", "Length", units), new("times", "Cut so", ColumnKind.Number), new("parts", "Parts from the left end"), new("left", "Offcuts to keep"),
        ];
        var rows = ImmutableArray.CreateBuilder<Row>();
        foreach (var m in plan.Materials.Where(m => m.Kind == CutKind.Stick))
        {
            for (int i = 0; i < m.Sheets.Length; i++)
            {
                var s = m.Sheets[i];
                rows.Add(new Row(Mark(m, i),
                [
                    Mark(m, i), m.Material, s.Owned ? "owned: " + s.Stock : s.Stock, Length(units, s.Length), s.Times,
                    string.Join(", ", s.Parts.Select(p => $"{p.Mark} {Say(units, p.Length)}")), string.Join(", ", s.Offcuts.Select(o => Say(units, o.Length))),
                ]));
            }
        }
        return new Table("sticks", "Sticks", columns, rows.ToImmutable()) { Note = "Each stick of the cutting plan. Lengths are over all, from long point to long point; a kerf lies between two parts." };
    }

    private static Table Cuts(CuttingPlan plan, ReportUnits units)
    {
        ImmutableArray<Column> columns =
        [
            new("cut", "Cut"), new("sheet", "Sheet or stick"), new("order", "Order", ColumnKind.Number), new("way", "Way"), Measure("at", "At", units), Measure("from", "From", units), Measure("to", "To", units), new("level", "Level", ColumnKind.Number),
        ];
        var rows = ImmutableArray.CreateBuilder<Row>();
        foreach (var m in plan.Materials)
        {
            for (int i = 0; i < m.Sheets.Length; i++)
            {
                var cuts = m.Sheets[i].Cuts;
                for (int k = 0; k < cuts.Length; k++)
                {
                    var c = cuts[k];
                    string name = string.Create(CultureInfo.InvariantCulture, $"{Mark(m, i)}.{k + 1:00}");
                    bool stick = m.Kind == CutKind.Stick;
                    rows.Add(new Row(name,
                    [
                        name, Mark(m, i), k + 1, stick ? c.Run == 0 ? "square" : $"slanted by {Say(units, Math.Abs(c.Run))}" : c.Upright ? "upright, from the left edge" : "level, from the lower edge",
                        Length(units, c.At), stick ? Cell.Empty : Length(units, c.From), stick ? Cell.Empty : Length(units, c.To), c.Level,
                    ]));
                }
            }
        }
        return new Table("cuts", "Cuts", columns, rows.ToImmutable()) { Note = "In the order of cutting. A cut on a sheet runs from edge to edge of what lies on the saw; the kerf lies on the far side of the place given." };
    }

    private static Column Measure(string key, string heading, ReportUnits units) => new(key, heading, ColumnKind.Number, units.LengthUnit, units.LengthStyle);

    /// <summary>A length in the spec's units.</summary>
    public static string Say(ReportUnits units, long value) => units.Metric
        ? (value / CutList.UnitsPerMillimetre).ToString("0.#", CultureInfo.InvariantCulture) + " mm" : Drawing.LengthText.OfInches(value / CutList.UnitsPerMillimetre, units.Denominator);
}
