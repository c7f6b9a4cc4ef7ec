using System.Collections.Immutable;
using Wain.Core.Framing;
using Wain.Core.Geometry;

namespace Wain.Core.Reporting;

/// <summary>The screws of every joint: how many, where, how deep, and how the holes are made.</summary>
internal static class ScrewTable
{
    public static Table Of(Structure structure, ReportUnits units)
    {
        Column Length(string key, string heading) => new(key, heading, ColumnKind.Number, units.LengthUnit, units.LengthStyle);
        // Drills and screws are told finer than panels.
        Column Fine(string key, string heading) => new(key, heading, ColumnKind.Number, units.LengthUnit, units.Metric ? new NumberStyle.Decimals(1) : new NumberStyle.Fraction(64));
        ImmutableArray<Column> columns =
        [
            new("row", "Joint and screw"), new("joint", "Joint"), new("screw", "Screw"), new("count", "How many", ColumnKind.Number, null, new NumberStyle.Decimals(0)),
            Length("first", "First from the end"), Length("apart", "Apart"), new("driven", "Driven from"), new("through", "Through"), Fine("passes", "Passes"), new("into", "Into"), Fine("holds", "Left in it"),
            Fine("pilot", "Pilot"), Fine("countersink", "Countersink"), new("note", "Note", ColumnKind.Builder),
        ];
        var rows = structure.Joints.SelectMany(j => ScrewRow.Of(structure.Spec, j)).GroupBy(r => $"{r.Joint.Name}: {r.Screw.Name}").OrderBy(g => g.Key, StringComparer.Ordinal)
            .SelectMany(g => g.Select((r, i) => RowOf(i == 0 ? g.Key : $"{g.Key} ({i + 1})", r, units)));
        return new Table("screws", "Screws", columns, [.. rows])
        {
            Note = "Of joints in which one panel stops at another. Where no pilot is told the spec states none; common practice in thin softwood is to drill one. In a glued joint the screws clamp until the glue has set and are not counted with it.",
            Totals = new Row(Table.TotalsKey, [.. columns.Select(c => c.Key switch { "row" => "Total", "count" => new Formula.Sum(null, "count"), _ => Cell.Empty })]),
        };
    }

    private static Row RowOf(string key, ScrewRow row, ReportUnits units)
    {
        Cell Number(double? mm) => mm is { } value ? units.Length(value) : Cell.Empty;
        return new Row(key,
        [
            key, row.Joint.Name, row.Screw.Name!, ((Cell)row.Shafts.Length).From(row.Fact.Span), Number(row.First), row.Apart > 0 ? Number(row.Apart) : Cell.Empty, ScrewPath.From(row.Joint, row.Fact) ?? row.Path.Side,
            row.Path.Through.Name, Number(row.Path.Passes), row.Path.Into.Name, Number(row.Length - row.Path.Passes),
            Number(row.Pilot), Number(row.Countersink), Cell.Empty,
        ]);
    }
}
