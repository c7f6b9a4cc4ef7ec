using System.Collections.Immutable;
using Wain.Core.Figures;
using Wain.Core.Framing;
using Wain.Core.Takeoff;

namespace Wain.Core.Reporting;

/// <summary>Panels with sizes, weights and costs; frame members as cut; openings.</summary>
internal static class PanelTables
{
    public static Table Panels(TakeoffResult takeoff, FigureBook book, ReportUnits units)
    {
        Column Length(string key, string heading) => new(key, heading, ColumnKind.Number, units.LengthUnit, units.LengthStyle);
        Column Area(string key, string heading) => new(key, heading, ColumnKind.Number, units.AreaUnit, new NumberStyle.Decimals(2));
        ImmutableArray<Column> columns =
        [
            new("panel", "Panel"), new("stack", "Stack"), Length("width", "Width"), Length("height", "Height"), new("thickness", "Thickness", ColumnKind.Number, units.LengthUnit, units.FineStyle), Area("area", "Area"), Area("net", "Net of openings"),
            new("weight", "Weight", ColumnKind.Number, units.WeightUnit, new NumberStyle.Decimals(1)), new("cost", "Cost", ColumnKind.Money, takeoff.Currency), new("lacks", "Lacks"), new("mirror", "Mirror of"),
        ];
        double Of(string name) => book.Find(name)?.Value.Value ?? double.NaN;
        var rows = takeoff.Panels.Select(p => new Row(p.Name,
        [
            p.Name, p.Stack.Name, units.Length(p.Width), units.Length(p.Height), units.Length(p.Thickness), units.Area(Of(p.Name + ".area")), units.Area(Of(p.Name + ".net_area")),
            new Formula.Lookup("weights", "panel", new Formula.Here("panel"), "counts"), new Formula.Lookup("costs", "panel", new Formula.Here("panel"), "counts"),
            book.Find(p.Name + ".weight")?.LacksInShort ?? "", p.Mirrored ?? "",
        ])).ToImmutableArray();
        return new Table("panels", "Panels", columns, rows)
        {
            Note = "Sizes over all at the outside face. Weight and cost of the bare panel, without what is fitted in it.",
            Totals = new Row(Table.TotalsKey, [.. columns.Select(c => c.Key switch { "panel" => "Total", "area" or "net" or "weight" or "cost" => new Formula.Sum(null, c.Key), _ => Cell.Empty })]),
        };
    }

    public static Table Members(Frames frames, ReportUnits units)
    {
        Column Length(string key, string heading) => new(key, heading, ColumnKind.Number, units.LengthUnit, units.LengthStyle);
        Column Angle(string key, string heading) => new(key, heading, ColumnKind.Number, "deg", new NumberStyle.Decimals(2));
        ImmutableArray<Column> columns =
        [
            new("part", "Part"), new("panel", "Panel"), new("role", "Role"), new("stick", "Stick"), Length("long", "Long point"), Length("short", "Short point"), Length("width", "Width"),
            Angle("start", "Start"), Angle("start_bevel", "Start bevel"), Angle("end", "End"), Angle("end_bevel", "End bevel"), Angle("rip", "Rip bevel"), new("cuts", "Laps and notches"),
            new("holes", "Holes", ColumnKind.Number, null, new NumberStyle.Decimals(0)), new("note", "Note", ColumnKind.Builder),
        ];
        static double Degrees(double radians) => radians * 180 / Math.PI;
        var rows = frames.Members.OrderBy(m => m.PartMark, StringComparer.Ordinal).Select(m => new Row(m.PartMark,
        [
            m.PartMark, m.Panel.Name, m.Role.ToString().ToLowerInvariant(), m.Stick.Name, units.Length(m.LongPoint), units.Length(m.ShortPoint), units.Length(m.Width),
            Degrees(m.Start.Angle), Degrees(m.Start.Bevel), Degrees(m.End.Angle), Degrees(m.End.Bevel), Degrees(m.RipBevel), string.Join("; ", m.Cuts(units.Say.Length)), m.Holes.Length, Cell.Empty,
        ])).ToImmutableArray();
        return new Table("members", "Members", columns, rows)
        {
            Note = "Frame members as cut. Start is the left or lower end, seen from outside. Angles of the ends are told from square: of one sign they make one side longer than the other, of two signs they lean the same way. A bevel above zero has its long point on the inside face. Width is that of the wider face.",
            Totals = new Row(Table.TotalsKey, [.. columns.Select(c => c.Key switch { "part" => "Total", "long" or "holes" => new Formula.Sum(null, c.Key), _ => Cell.Empty })]),
        };
    }

    public static Table Openings(TakeoffResult takeoff, ReportUnits units)
    {
        Column Length(string key, string heading) => new(key, heading, ColumnKind.Number, units.LengthUnit, units.LengthStyle);
        ImmutableArray<Column> columns =
        [
            new("opening", "Opening"), new("panel", "Panel"), new("unit", "Unit"), Length("width", "Width"), Length("height", "Height"), Length("corner", "Corner radius"), Length("left", "From left"), Length("bottom", "From bottom"),
            Length("recess", "Recess"), new("weight", "Weight", ColumnKind.Number, units.WeightUnit, new NumberStyle.Decimals(1)), new("cost", "Cost", ColumnKind.Money, takeoff.Currency), new("note", "Note", ColumnKind.Builder),
        ];
        var rows = takeoff.Panels.SelectMany(p => p.Openings.Select(o => (Panel: p, Opening: o, Key: $"{p.Name}.{o.Name}"))).OrderBy(o => o.Key, StringComparer.Ordinal).Select(o =>
        {
            var (hole, panel) = (o.Opening.Hole.Bounds, o.Panel.Outline.Bounds);
            return new Row(o.Key,
            [
                o.Key, o.Panel.Name, o.Opening.Unit?.Name ?? "", units.Length(o.Opening.Width), units.Length(o.Opening.Height), units.Length(o.Opening.Corner),
                units.Length(hole.Min.X - panel.Min.X), units.Length(hole.Min.Y - panel.Min.Y), o.Opening.Recess is { } recess ? units.Length(recess.Depth) : Cell.Empty,
                new Formula.SumIf(LedgerTables.Openings, "subject", new Formula.Here("opening"), "weight"), new Formula.SumIf(LedgerTables.Openings, "subject", new Formula.Here("opening"), "cost"), Cell.Empty,
            ]);
        }).ToImmutableArray();
        return new Table("openings", "Openings", columns, rows) { Note = "Holes as cut, seen from outside; places from the panel's leftmost and lowest point." };
    }
}
