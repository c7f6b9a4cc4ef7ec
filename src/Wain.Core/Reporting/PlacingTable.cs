using System.Collections.Immutable;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;

namespace Wain.Core.Reporting;

/// <summary>
/// What placing comes to, as plain data: a row for each corner of each panel, hole and zone, with the closed roof down. Corners go round
/// counter-clockwise as seen from outside. A corner has a place on the outside face and one straight behind or beside it on the inside face.
/// </summary>
public static class PlacingTable
{
    /// <summary>The name that it is asked for by.</summary>
    public const string Key = "placing";

    public static Table Of(Structure structure)
    {
        var units = ReportUnits.Read(structure.Spec);
        Column Length(string key, string heading) => new(key, heading, ColumnKind.Number, units.LengthUnit);
        ImmutableArray<Column> columns =
        [
            new("corner", "Corner"), new("panel", "Panel"), new("edge", "Edge that begins there"), new("bow", "Its arc, degrees", ColumnKind.Number), new("tilt", "Its bevel, degrees", ColumnKind.Number),
            Length("x", "Outside x"), Length("y", "Outside y"), Length("z", "Outside z"), Length("inside_x", "Inside x"), Length("inside_y", "Inside y"), Length("inside_z", "Inside z"),
            new("normal_x", "Looks to x", ColumnKind.Number), new("normal_y", "Looks to y", ColumnKind.Number), new("normal_z", "Looks to z", ColumnKind.Number), Length("thickness", "Thickness"),
        ];
        return new Table(Key, "Placing", columns, [.. structure.Panels.OrderBy(p => p.Name, StringComparer.Ordinal).SelectMany(p => RowsOf(p, units))]);
    }

    private static IEnumerable<Row> RowsOf(PlacedPanel panel, ReportUnits units) =>
    [
        .. Round(panel, panel.Name, panel.Outline, 0, panel.Thickness, units),
        .. panel.Openings.SelectMany(o => Round(panel, $"{panel.Name}.{o.Name}", o.Hole, 0, panel.Thickness, units)),
        .. panel.Zones.SelectMany(z => Round(panel, $"{panel.Name}.{z.Name}", z.Region, z.Offset, z.Stack.Thickness, units)),
    ];

    private static IEnumerable<Row> Round(PlacedPanel panel, string name, Outline outline, double depth, double thickness, ReportUnits units)
    {
        var inside = outline.AtDepth(thickness).Outline is { } inner && inner.Count == outline.Count ? inner : null;
        for (int i = 0; i < outline.Count; i++)
        {
            var edge = outline.Edges[i];
            Vec3 outer = panel.Face.ToWorld(edge.Start, depth), normal = panel.Face.N;
            Vec3? behind = inside is null ? null : panel.Face.ToWorld(inside.Edges[i].Start, depth + thickness);
            Cell Behind(Func<Vec3, double> along) => behind is { } at ? units.Length(along(at)) : Cell.Empty;
            string key = $"{name} {i + 1}";
            yield return new Row(key,
            [
                key, panel.Name, edge.Name ?? "", Degrees(edge.Sweep), Degrees(edge.Tilt), units.Length(outer.X), units.Length(outer.Y), units.Length(outer.Z), Behind(v => v.X), Behind(v => v.Y), Behind(v => v.Z),
                normal.X, normal.Y, normal.Z, units.Length(thickness),
            ]);
        }
    }

    private static double Degrees(double radians) => radians * 180 / Math.PI;
}
