using System.Collections.Immutable;
using Wain.Core.Geometry;
using Wain.Core.Reporting;

namespace Wain.Core.Drawing.Panels;

/// <summary>The saw settings of all joints as a table.</summary>
public static class JointTable
{
    private const double Degree = Math.PI / 180;

    private static readonly NumberStyle Exact = new NumberStyle.Decimals(2), Half = new NumberStyle.Decimals(1), Thousandths = new NumberStyle.Decimals(3);

    public static Table Of(Structure structure, ReportUnits units) => new(
        "joints", "Joints and saw settings",
        [
            new("cut", "Edge"), new("joint", "Joint"), new("kind", "Kind"), new("dihedral", "Angle between panels", ColumnKind.Number, "deg", Exact),
            new("tilt", "Tilt from square", ColumnKind.Number, "deg", Exact), new("set", "Set the saw to", ColumnKind.Number, "deg", Half), new("hold", "How to cut", Width: 54),
            new("error", "Off at the far side", ColumnKind.Number, units.LengthUnit, Thousandths), new("mitre", "Compound mitre", ColumnKind.Number, "deg", Exact), new("bevel", "Compound bevel", ColumnKind.Number, "deg", Exact),
            new("mitre_error", "Mitre off at the far end", ColumnKind.Number, units.LengthUnit, Thousandths), new("fence", "Mitre from"),
            new("long", "Long point", ColumnKind.Number, units.LengthUnit, units.LengthStyle), new("short", "Short point", ColumnKind.Number, units.LengthUnit, units.LengthStyle),
        ],
        [.. Rows(structure, units)])
    {
        Note = "Tilt is measured from square. The saw is set to half a degree; the last columns say what the rounding leaves and how long the panel is across that edge. Cut a test piece first.",
    };

    private static IEnumerable<Row> Rows(Structure structure, ReportUnits units)
    {
        var cuts = JointAngles.Of(structure).SelectMany(a => a.Cuts.Select(c => (Angle: a, Cut: c)))
            .GroupBy(p => $"{p.Cut.Panel.Name}.{p.Cut.EdgeName} at {Other(p.Angle.Joint, p.Cut)}").OrderBy(g => g.Key, StringComparer.Ordinal);
        foreach (var group in cuts)
        {
            int n = 0;
            foreach (var (angle, cut) in group)
            {
                string key = ++n == 1 ? group.Key : $"{group.Key} ({n})";
                var span = angle.Joint.Fact.Span;
                Cell Number(double? value) => value is { } v ? ((Cell)v).From(span) : Cell.Empty;
                yield return new Row(key,
                [
                    key, angle.Joint.Name, JointWords.Kind(angle.Joint), Number(angle.Dihedral / Degree), Number(cut.Tilt / Degree), Number(cut.Rounded.Rounded / Degree), cut.Instruction,
                    Number(units.Length(cut.Error)), Number(cut.Compound?.Mitre / Degree), Number(cut.Compound?.Bevel / Degree), Number(cut.Compound is null ? null : units.Length(cut.MitreError)), cut.Fence ?? "",
                    Number(units.Length(cut.Size.Blank)), Number(units.Length(cut.Size.Short)),
                ]);
            }
        }
    }

    private static string Other(PlacedJoint joint, EdgeCut cut) =>
        joint.First.Panel == cut.Panel && joint.First.Edge == cut.Edge ? $"{joint.Second.Panel.Name}.{joint.Second.Name}" : $"{joint.First.Panel.Name}.{joint.First.Name}";
}

internal static class JointWords
{
    public static string Kind(PlacedJoint joint) => joint.Kind switch
    {
        JointKind.Mitre => "mitre",
        JointKind.Lap => "lap",
        JointKind.Rabbet => "rabbet",
        _ => "butt",
    };
}
