using System.Collections.Immutable;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Pieces;
using Wain.Core.Reporting;

namespace Wain.Core.Drawing.Panels;

/// <summary>Skins, boards, foam and cloth as the pieces that someone cuts: blank, shape, and where each lies on its panel.</summary>
public static class PieceTable
{
    // More corners than this, or a round one, are read off the panel's sheet.
    private const int MostCorners = 6;

    /// <summary>One row a piece, by part mark.</summary>
    public static Table Of(PieceList pieces, ReportUnits units)
    {
        Column Length(string key, string heading) => new(key, heading, ColumnKind.Number, units.LengthUnit, units.LengthStyle);
        ImmutableArray<Column> columns =
        [
            new("part", "Part"), new("material", "Material"), new("layer", "Layer", ColumnKind.Number, null, new NumberStyle.Decimals(0)), new("count", "How many", ColumnKind.Number, null, new NumberStyle.Decimals(0)),
            Length("long", "Long"), Length("wide", "Wide"), new("thick", "Thick", ColumnKind.Number, units.LengthUnit, units.FineStyle), new("grain", "Length runs"),
            Length("left", "From left"), Length("bottom", "From bottom"), new("shape", "Shape"), new("routed", "Routed"), new("note", "Note", ColumnKind.Builder),
        ];
        var rows = pieces.All.OrderBy(p => p.PartMark, StringComparer.Ordinal).Select(p =>
        {
            var (blank, panel) = (p.Rough.Bounds, p.Panel.Outline.Bounds);
            return new Row(p.PartMark,
            [
                p.PartMark, p.Material.Name ?? "", (p.Zone?.Stack ?? p.Panel.Stack).Layers.IndexOf(p.Layer) + 1, p.Count, units.Length(p.BlankLength), units.Length(p.BlankWidth), p.Thickness > 0 ? units.Length(p.Thickness) : Cell.Empty,
                p.Grain switch { Grain.Along => "along", Grain.Up => "up", _ => "" }, units.Length(blank.Min.X - panel.Min.X), units.Length(blank.Min.Y - panel.Min.Y), Shape(p, units), Routed(p, units), Cell.Empty,
            ]);
        }).ToImmutableArray();
        return new Table("pieces", "Pieces", columns, rows)
        {
            Note = "What is cut for each layer of each panel, with long points of bevels and what is trimmed later; members are in a list of their own. Layers count from the outside face. Long is along the stock, and so the grain; where it may run either way nothing is said. "
                + "Places are of the blank's lower left corner from the panel's leftmost and lowest point, seen from outside; corners of a shape from that corner of the blank, across and up.",
            Totals = new Row(Table.TotalsKey, [.. columns.Select(c => c.Key switch { "part" => "Total", "count" => new Formula.Sum(null, "count"), _ => Cell.Empty })]),
        };
    }

    private static string Shape(Piece piece, ReportUnits units)
    {
        var b = piece.Rough.Bounds;
        string holes = piece.Holes.IsEmpty ? "" : piece.Holes.Length == 1 ? ", with a hole" : FormattableString.Invariant($", with {piece.Holes.Length} holes");
        if (piece.Rough.Area() > b.Width * b.Height - 1) return "rectangle" + holes;
        if (piece.Rough.Count > MostCorners || piece.Rough.Segments.Any(s => s.IsArc)) return "as drawn" + holes;
        var format = new LengthFormat(units.Metric ? LengthStyle.Millimetres : LengthStyle.Inches, units.Denominator, WithUnit: false);
        // No measure is broken between its inches and its fraction.
        string Say(double mm) => LengthText.Of(mm, format).Replace(' ', '\u00A0');
        return string.Join(", ", piece.Rough.Corners.Select(c => $"({Say(c.X - b.Min.X)};\u00A0{Say(c.Y - b.Min.Y)})")) + holes;
    }

    private static string Routed(Piece piece, ReportUnits units) => string.Join("; ", piece.Routs
        .Select(r => $"{r.What} {LengthText.Of(r.Depth, new LengthFormat(units.Metric ? LengthStyle.Millimetres : LengthStyle.Inches, Math.Max(32, units.Denominator), 0.1))} from {(r.FromOutside ? "outside" : "inside")}").Distinct(StringComparer.Ordinal));
}
