using System.Collections.Immutable;
using Wain.Core.Takeoff;

namespace Wain.Core.Reporting;

/// <summary>
/// The lines of the takeoff, each in one of four tables: layers of panels, joints, openings, and the rest. Quantities with waste, weights and costs are
/// live: a line bears its share of what its material costs on the sheet of what to buy.
/// </summary>
internal static class LedgerTables
{
    public const string Layers = "layers", Joints = "joints", Openings = "fitted", Others = "others";

    private static readonly string[] Tables = [Layers, Joints, Openings, Others];

    public static string TableOf(TakeoffLine line) => line.Panels.Length switch
    {
        0 => Others,
        1 => line.IsOfBarePanel ? Layers : line.Kind == LineKind.Unit ? Openings : Others,
        _ => Joints,
    };

    /// <summary>What all lines use of a material, with waste, in the line's own unit.</summary>
    public static Formula Used(Formula material) =>
        Tables.Select(t => (Formula)new Formula.SumIf(t, "material", material, "gross")).Aggregate((a, b) => a + b);

    public static ImmutableArray<Table> Of(TakeoffResult takeoff, ReportUnits units)
    {
        var lines = takeoff.Lines.ToLookup(TableOf, StringComparer.Ordinal);
        var unknown = takeoff.Buy.Where(b => b.Cost is null).Select(b => b.Material.Name).ToHashSet(StringComparer.Ordinal);
        return
        [
            Make(Layers, "Layers", "What the layers, frame and fill of each panel take, net of openings.", lines[Layers], units, unknown, takeoff.Currency),
            Make(Joints, "Joints", "What holds panels together, along each joint.", lines[Joints], units, unknown, takeoff.Currency),
            Make(Openings, "Fitted", "What is fitted in the openings.", lines[Openings], units, unknown, takeoff.Currency),
            Make(Others, "Other parts", "What lifts, hangs or is carried.", lines[Others], units, unknown, takeoff.Currency),
        ];
    }

    private static Table Make(string key, string title, string note, IEnumerable<TakeoffLine> lines, ReportUnits units, HashSet<string> unknown, string currency)
    {
        ImmutableArray<Column> columns =
        [
            new("part", "Part"), new("what", "What"), new("material", "Material"),
            new("net", "Quantity", ColumnKind.Number, null, new NumberStyle.Decimals(3)), new("unit", "Unit"),
            new("waste", "Waste", ColumnKind.Number, null, new NumberStyle.Percent(1)),
            new("gross", "With waste", ColumnKind.Number, null, new NumberStyle.Decimals(3)),
            new("each", "Weight of one", ColumnKind.Number, units.WeightUnit, new NumberStyle.Decimals(4)),
            new("weight", "Weight", ColumnKind.Number, units.WeightUnit, new NumberStyle.Decimals(2)),
            new("cost", "Share of cost", ColumnKind.Money, currency),
            // Told by the mark already, or of no use with a tape in the hand.
            new("subject", "Belongs to", Printed: false), new("panel", "Panel", Printed: false), new("how", "How it comes about", Printed: false),
        ];
        var rows = lines.OrderBy(l => l.Key, StringComparer.Ordinal).Select(l => RowOf(l, units, unknown)).ToImmutableArray();
        return new Table(key, title, columns, rows)
        {
            Note = note + " The cost is each line's share of whole packs, by quantity with waste, before tax.",
            Totals = new Row(Table.TotalsKey, ["Total", "", "", Cell.Empty, "", Cell.Empty, Cell.Empty, Cell.Empty, new Formula.Sum(null, "weight"), new Formula.Sum(null, "cost"), "", "", ""]),
        };
    }

    private static Row RowOf(TakeoffLine line, ReportUnits units, HashSet<string> unknown)
    {
        var (net, unit) = units.Of(line.Net);
        Formula cost = Here("gross") * new Formula.SumIf("buy", "material", Here("material"), "cost") / Used(Here("material"));
        bool counted = line.Net.Dimension == Units.Dimension.None;
        bool weighs = line.Weight.IsKnown;
        return new Row(line.Key,
        [
            line.Key, Say(line.Kind), line.Material.Name,
            ((Cell)net).From(line.From).AsCount(counted), unit, line.Waste, Here("net") * (1.0 + Here("waste")),
            weighs ? net == 0 ? 0 : units.Weight(line.Weight.Likely) / net : "not known",
            weighs ? Here("net") * Here("each") : "not known",
            unknown.Contains(line.Material.Name) ? "not known" : line.Gross.Value == 0 ? 0 : cost,
            line.Subject, string.Join(" and ", line.Panels), line.Formula,
        ]);
    }

    private static Formula Here(string column) => new Formula.Here(column);

    public static string Say(LineKind kind) => kind switch
    {
        LineKind.Skin => "skin",
        LineKind.FoamBoard => "foam board",
        LineKind.Member => "frame members",
        LineKind.Fill => "poured foam",
        LineKind.Cloth => "cloth",
        LineKind.Resin => "resin",
        LineKind.Coating => "coating",
        LineKind.Membrane => "membrane",
        LineKind.Glue => "glue",
        LineKind.Screws => "screws",
        LineKind.Fillet => "resin of a fillet",
        LineKind.Filler => "filler of a fillet",
        LineKind.Tape => "tape",
        LineKind.Sealant => "sealant",
        LineKind.Seal => "seal",
        LineKind.Trim => "trim",
        LineKind.Gusset => "gussets",
        LineKind.Hardware => "hardware",
        LineKind.Unit => "window, door or hatch",
        _ => "item",
    };
}
