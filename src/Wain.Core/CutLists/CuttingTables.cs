using System.Collections.Immutable;
using System.Globalization;
using Wain.Core.Reporting;

namespace Wain.Core.CutLists;

/// <summary>A plan as tables: totals, sheets, boards as ripped, sticks, cuts in their order, and what is left to keep.</summary>
public static class CuttingTables
{
    /// <summary>What a plan buys, in words.</summary>
    public static string Cost(MaterialPlan plan) => plan.CostUnit.Length == 0 ? "no price stated"
        : string.Create(CultureInfo.InvariantCulture, $"{plan.Cost / 100.0:0.00} {plan.CostUnit}{(plan.Kept > 0 ? string.Create(CultureInfo.InvariantCulture, $" less {plan.Kept / 100.0:0.00} for what is kept") : "")}");

    /// <summary>How far a plan can be from the best, in words.</summary>
    public static string State(MaterialPlan plan) =>
        !plan.Problems.IsEmpty ? "not whole: some parts have no place"
        : plan.IsProven ? plan.CostUnit.Length > 0 ? "proven: no plan costs less" : "proven: no plan takes less"
        : plan.Bound <= 0 ? "not proven"
        : string.Create(CultureInfo.InvariantCulture, $"not proven: at most {AtMost(plan.Gap)} % above the bound");

    /// <summary>A share as percent to one place, never less than it is: what may lie above a bound is no 0 %.</summary>
    public static string AtMost(double share) => (Math.Ceiling(share * 1000 - 1e-9) / 10).ToString("0.#", CultureInfo.InvariantCulture);

    /// <summary>What a proof does not cover, of plans with parts that are no rectangles. "A" goes before it.</summary>
    public const string Boxed = "part that is no rectangle counts as the rectangle around it, but for tapers nested by twos; what is proven is proven of such plans.";

    /// <summary>Whether parts of a sheet, board or roll are no rectangles, so that the proof is of the rectangles around them.</summary>
    public static bool IsBoxed(MaterialPlan plan) => plan.Kind != CutKind.Stick && plan.Sheets.Any(s => s.Parts.Any(p => !p.Outline.IsEmpty));

    /// <summary>The name that a sheet or stick has in tables and pictures.</summary>
    public static string Mark(MaterialPlan plan, int index) => $"{plan.Material} {index + 1}";

    /// <summary>What a cut of a sheet is called.</summary>
    public static string Way(PlannedCut cut) => cut.Level switch
    {
        0 => cut.Upright ? "trim along" : "trim across",
        PlannedCut.Stopped => cut.Upright ? "rip, stopped" : "crosscut, stopped",
        _ => cut.Upright ? "rip" : "crosscut",
    };

    /// <summary>Whether some cuts of a sheet stop inside it, so that no saw that goes from edge to edge can make them.</summary>
    public static bool HasStops(CutPlanSheet sheet) => sheet.Cuts.Any(c => c.Level == PlannedCut.Stopped);

    /// <summary>The angles of slanted ends, in words, from the left; empty for square ones.</summary>
    public static string Ends(PlacedPart part)
    {
        if (part.Outline.IsEmpty) return "";
        long depth = part.Outline.Max(c => c.Y);
        string Of(CutPoint foot, CutPoint head) => foot.X == head.X || depth == 0 ? "square" : Degrees(head.X - foot.X, depth);
        return $"{Of(part.Outline[0], part.Outline[^1])}, {Of(part.Outline[1], part.Outline[2])}";
    }

    // Off square, to half a degree, as a saw is set; past what a mitre gauge turns to, from the stick's edge. So the sheets of the frames have it. A run is whole
    // hundredths of a millimetre, which moves a tie by some hundredths of a degree; it still goes up.
    private static string Degrees(long run, long depth)
    {
        double angle = Math.Atan2(Math.Abs(run), depth) * 180 / Math.PI, off = angle <= 45 ? angle : 90 - angle;
        return string.Create(CultureInfo.InvariantCulture, $"{(angle <= 45 ? "" : "taper ")}{Math.Floor(2 * off + 0.54) / 2:0.#} deg");
    }

    // How deep the part is whose end the cut makes: it begins at the long point of that end.
    private static long DepthAt(CutPlanSheet sheet, PlannedCut cut) =>
        sheet.Parts.Where(p => (cut.Run > 0 ? p.X : p.X + p.Length) == cut.At).SelectMany(p => p.Outline).Select(c => c.Y).DefaultIfEmpty(0).Max();

    public static ImmutableArray<Table> Of(CuttingPlan plan, ReportUnits units)
    {
        string currency = plan.Materials.Select(m => m.CostUnit).FirstOrDefault(u => u.Length > 0) ?? "USD";
        var rips = Rips(plan, units);
        return [Totals(plan, currency), Sheets(plan, units), .. rips.Rows.IsEmpty ? [] : new[] { rips }, Sticks(plan, units), Cuts(plan, units), Offcuts(plan, units)];
    }

    private static double Length(ReportUnits units, long value) => units.Length(value / CutList.UnitsPerMillimetre);

    private static Cell Money(MaterialPlan plan, long value) => plan.CostUnit.Length == 0 ? "no price" : value / 100.0;

    private static Table Totals(CuttingPlan plan, string currency)
    {
        // Where the spec states no value of offcuts, or none is kept, there is nothing to say of it.
        bool keeps = plan.Materials.Any(m => m.Kept > 0);
        ImmutableArray<Column> columns =
        [
            new("material", "Material"), new("what", "What"), new("parts", "Parts", ColumnKind.Number), new("buy", "To buy", ColumnKind.Number), new("owned", "Owned, used", ColumnKind.Number),
            new("used", "In parts", ColumnKind.Number, null, new NumberStyle.Percent(0)), new("cost", "Cost", ColumnKind.Money, currency), .. keeps ? [new Column("kept", "Kept is worth", ColumnKind.Money, currency)] : Array.Empty<Column>(), new("bound", "No plan below", ColumnKind.Money, currency), new("state", "How good"),
        ];
        ImmutableArray<Row> rows = [.. plan.Materials.Select(m => new Row(m.Material,
        [
            m.Material, m.Kind.ToString().ToLowerInvariant(), m.Sheets.Sum(s => s.Times * s.Parts.Length), m.Bought.Sum(b => b.Count), m.Sheets.Where(s => s.Owned).Sum(s => s.Times), InParts(m),
            Money(m, m.Cost), .. keeps ? [Money(m, m.Kept)] : Array.Empty<Cell>(), Money(m, m.Bound), State(m),
        ]))];
        return new Table("cutting", "Cutting", columns, rows)
        {
            Note = $"What the kept cutting plan buys, and the least that any plan could cost, proven{(keeps ? ", with the worth of the offcuts that it keeps taken off" : "")}. Fewest sheets, the largest offcut and few cuts come after cost, in this order, and are best effort. In parts: how much of what is cut goes into parts; kerfs, offcuts and waste are the rest."
                + (plan.Materials.Any(IsBoxed) ? $" A {Boxed}" : ""),
            Totals = new Row(Table.TotalsKey, [.. columns.Select(c => c.Key switch { "material" => "Total", "parts" or "buy" or "owned" or "cost" or "kept" or "bound" => new Formula.Sum(null, c.Key), _ => Cell.Empty })]),
        };
    }

    private static Table Sheets(CuttingPlan plan, ReportUnits units)
    {
        ImmutableArray<Column> columns =
        [
            new("sheet", "Sheet"), new("material", "Material"), new("stock", "Stock"), Measure("width", "Width", units), Measure("length", "Length", units), new("times", "Cut so", ColumnKind.Number),
            new("used", "Used", ColumnKind.Number, null, new NumberStyle.Percent(0)), new("parts", "Parts"), new("note", "Note"),
        ];
        var rows = from m in plan.Materials.Where(m => m.Kind != CutKind.Stick)
                   from s in m.Sheets.Select((s, i) => (Sheet: s, Name: Mark(m, i)))
                   select new Row(s.Name,
                   [
                       s.Name, m.Material, StockOf(s.Sheet), Length(units, s.Sheet.Width), Length(units, s.Sheet.Length), s.Sheet.Times,
                       s.Sheet.Parts.Sum(AreaOf) / ((double)s.Sheet.Width * s.Sheet.Length), string.Join(", ", s.Sheet.Parts.Select(p => p.Mark)),
                       string.Join("; ", Notes(m, s.Sheet, units)),
                   ]);
        return new Table("sheets", "Sheets", columns, [.. rows]) { Note = "Each sheet of the cutting plan. In the pictures the length of the stock, and so its grain, runs from left to right." };
    }

    /// <summary>The share of what is cut that goes into parts, by area, of sticks by length; the empty cell where nothing is cut.</summary>
    private static Cell InParts(MaterialPlan plan)
    {
        bool stick = plan.Kind == CutKind.Stick;
        double cut = plan.Sheets.Sum(s => (double)s.Times * s.Length * (stick ? 1 : s.Width)), parts = plan.Sheets.Sum(s => s.Times * s.Parts.Sum(p => stick ? p.Length : AreaOf(p)));
        return cut > 0 ? parts / cut : Cell.Empty;
    }

    private static IEnumerable<string> Notes(MaterialPlan plan, CutPlanSheet sheet, ReportUnits units)
    {
        if (sheet.Thickness > 0) yield return $"a layer, ripped to {Say(units, sheet.Thickness)}";
        if (plan.Kind == CutKind.Roll) yield return "the length to cut off the roll";
        if (HasStops(sheet)) yield return "not to be had by cuts from edge to edge: stopped cuts want a jigsaw or a router";
    }

    private static string StockOf(CutPlanSheet s) => s.Owned ? "owned: " + s.Stock : s.Stock;

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

    private static Table Rips(CuttingPlan plan, ReportUnits units)
    {
        ImmutableArray<Column> columns =
        [
            new("board", "Board"), new("material", "Material"), Measure("width", "Width", units), Measure("length", "Length", units), new("times", "Ripped so", ColumnKind.Number), new("layers", "Into layers"), Measure("left", "Leaves", units),
        ];
        var rows = from m in plan.Materials
                   from r in m.Rips.Select((r, i) => (Rip: r, Name: $"{m.Material} board {i + 1}"))
                   select new Row(r.Name, [r.Name, m.Material, Length(units, r.Rip.Width), Length(units, r.Rip.Length), r.Rip.Times, string.Join(", ", r.Rip.Layers.Select(l => Say(units, l))), Length(units, r.Rip.Left)]);
        return new Table("rips", "Ripped boards", columns, [.. rows]) { Note = "Boards that are ripped to thickness before their layers are cut, and the thickness that the rip leaves as a whole sheet." };
    }

    private static Table Sticks(CuttingPlan plan, ReportUnits units)
    {
        ImmutableArray<Column> columns =
        [
            new("stick", "Stick"), new("material", "Material"), new("stock", "Stock"), Measure("length", "Length", units), new("times", "Cut so", ColumnKind.Number), new("parts", "Parts from the left end"),
        ];
        var rows = from m in plan.Materials.Where(m => m.Kind == CutKind.Stick)
                   from s in m.Sheets.Select((s, i) => (Sheet: s, Name: Mark(m, i)))
                   select new Row(s.Name,
                   [
                       s.Name, m.Material, StockOf(s.Sheet), Length(units, s.Sheet.Length), s.Sheet.Times,
                       string.Join(", ", s.Sheet.Parts.Select(p => $"{p.Mark} {InOne(Say(units, p.Length))}{(Ends(p) is { Length: > 0 } ends ? $" (ends {ends})" : "")}")),
                   ]);
        return new Table("sticks", "Sticks", columns, [.. rows]) { Note = "Each stick of the cutting plan. Lengths are over all, from long point to long point; a kerf lies between two parts. Angles of ends are off square; a taper is sawn along the stick, its angle from the stick's edge." };
    }

    private static Table Cuts(CuttingPlan plan, ReportUnits units)
    {
        ImmutableArray<Column> columns =
        [
            new("cut", "Cut"), new("sheet", "Sheet or stick"), new("order", "Order", ColumnKind.Number), new("way", "Way"), Measure("at", "At", units), Measure("from", "From", units), Measure("to", "To", units),
        ];
        var rows = ImmutableArray.CreateBuilder<Row>();
        foreach (var m in plan.Materials)
        {
            for (int i = 0; i < m.Sheets.Length; i++)
            {
                var sheet = m.Sheets[i];
                bool stick = m.Kind == CutKind.Stick;
                for (int k = 0; k < sheet.Cuts.Length; k++)
                {
                    var c = sheet.Cuts[k];
                    string name = string.Create(CultureInfo.InvariantCulture, $"{Mark(m, i)}.{k + 1:00}");
                    string way = !stick ? Way(c) : DepthAt(sheet, c) is var depth && (c.Run == 0 || depth == 0) ? "square" : Degrees(c.Run, depth);
                    rows.Add(new Row(name, [name, Mark(m, i), k + 1, way, Length(units, c.At), stick ? Cell.Empty : Length(units, c.From), stick ? Cell.Empty : Length(units, c.To)]));
                }
            }
        }
        return new Table("cuts", "Cuts", columns, rows.ToImmutable())
        {
            Note = "In the order of cutting. A cut on a sheet runs from edge to edge of what lies on the saw: a rip along its length counts from the edge that is the upper one in the picture, a crosscut and a cut of a stick from the left end. The kerf lies beyond the place given. Angles are off square; a taper's is from the stick's edge."
                + (plan.Materials.Any(m => m.Sheets.Any(HasStops)) ? " A stopped cut begins or ends inside a part of the sheet and is made with a jigsaw or a router along its line." : ""),
        };
    }

    private static Table Offcuts(CuttingPlan plan, ReportUnits units)
    {
        ImmutableArray<Column> columns = [new("offcut", "Offcut"), new("material", "Material"), new("of", "Of"), new("times", "How many", ColumnKind.Number), Measure("width", "Width", units), Measure("length", "Length", units)];
        var rows = from m in plan.Materials
                   from s in m.Sheets.Select((s, i) => (Sheet: s, Name: Mark(m, i)))
                   from o in s.Sheet.Offcuts.Select((o, i) => (Offcut: o, Name: $"{s.Name} {(char)('a' + i % 26)}{(i < 26 ? "" : i / 26)}"))
                   select new Row(o.Name, [o.Name, m.Material, s.Name, s.Sheet.Times, m.Kind == CutKind.Stick ? Cell.Empty : Length(units, o.Offcut.Width), Length(units, o.Offcut.Length)]);
        return new Table("offcuts", "Offcuts", columns, [.. rows]) { Note = "What is left and worth keeping: at least 4 in by 12 in of a sheet, 12 in of a stick (common practice). Once cut, write them into the spec as owned, and the next plan uses them first." };
    }

    private static Column Measure(string key, string heading, ReportUnits units) => new(key, heading, ColumnKind.Number, units.LengthUnit, units.LengthStyle);

    // A measure that is broken over two lines is cut short by who reads the first of them.
    private static string InOne(string measure) => measure.Replace(' ', '\u00A0');

    /// <summary>A length in the spec's units.</summary>
    public static string Say(ReportUnits units, long value) => units.Metric
        ? (value / CutList.UnitsPerMillimetre).ToString("0.#", CultureInfo.InvariantCulture) + " mm" : Drawing.LengthText.OfInches(value / CutList.UnitsPerMillimetre, units.Denominator);
}
