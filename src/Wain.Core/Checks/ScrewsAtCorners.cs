using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Framing;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>Where two rows of screws come round a corner of a panel, they keep apart in the wood that they share.</summary>
public static class ScrewsAtCorners
{
    // National Design Specification, commentary table C12.1.5.7, between rows of wood screws, not prebored and prebored (from memory), in diameters.
    private const double Plain = 5, Bored = 3;

    private static readonly string Text = ScrewLength.Text.With("LENGTH", "1 7/8 in").With("EVERY", "8 in, end distance 1 1/2 in, pilot 3/32 in") + """

        panel side of board { stands on deck_plan.left_side, from deck.top to 40 in
            runs through wall }
        joint wall.right to side.inside {
            butt
            screws deck_screw every 8 in, end distance END, pilot 3/32 in, driven from left
        }
        """;

    public static readonly FindingInfo Info = new("WN4120", "screws-meet-at-corner", Level.Warning, "Screws of two joints come too near to each other in a corner",
        "In the corner of a panel the screws of both its edges go into the same piece of wood. Where they come too near they split it, and where their paths cross the second can't be driven. The least distance is that which the standard for timber gives between rows of wood screws; in a glued joint it is a note.",
        Text.With("END", "1/2 in"), Text.With("END", "2 in"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        var rows = input.Structure.Joints.SelectMany(j => ScrewRow.Of(input.Spec, j)).ToList();
        var told = new HashSet<(string, string)>();
        foreach (var around in rows.SelectMany(r => new[] { r.Joint.First.Panel.Name, r.Joint.Second.Panel.Name }.Distinct().Select(p => (Panel: p, Row: r))).GroupBy(r => r.Panel, r => r.Row))
        {
            var its = around.ToList();
            for (int i = 0; i < its.Count; i++)
                for (int j = i + 1; j < its.Count; j++)
                {
                    var (a, b) = (its[i], its[j]);
                    if (a.Joint.Name == b.Joint.Name || told.Contains((a.Joint.Name, b.Joint.Name)) || Nearest(a, b) is not { } near) continue;
                    double needs = Needs(a, b), clear = near.Distance;
                    if (clear >= needs - 0.01) continue;
                    told.Add((a.Joint.Name, b.Joint.Name));
                    bool crosses = clear < (a.Diameter + b.Diameter) / 2, glued = a.Joint.Fact.Find("glue") is not null && b.Joint.Fact.Find("glue") is not null;
                    double? end = Clearing(input, b, a, needs);
                    yield return new Finding(Info, crosses
                        ? $"Screws of joints {a.Joint.Name} and {b.Joint.Name} run into each other in the corner of {around.Key}, {input.Say.In(near.At)}."
                        : $"Screws of joints {a.Joint.Name} and {b.Joint.Name} come within {input.Say.Nearly(clear)} of each other in the corner of {around.Key}, {input.Say.In(near.At)}; {input.Say.Length(needs)} is the least.", b.Fact.Span)
                    {
                        Level = crosses ? Level.Error : glued ? Level.Note : Level.Warning,
                        Subject = b.Joint.Name,
                        Related = [new Related(a.Fact.Span, "the other screws")],
                        Hint = end is { } e ? $"Begin this row {input.Say.AtLeast(e)} from its ends." : "Move one of the rows, or use shorter screws.",
                        Fixes = end is not { } far ? [] : b.Fact.Has("end") ? [Fixing.Write(input.Spec, b.Fact, "end", input.Say.AtLeast(far))] : [Fixing.AddClause(b.Fact, $"end distance {input.Say.AtLeast(far)}")],
                    };
                }
        }
    }

    // Metal to metal they would touch at the mean of their diameters; the thicker of the two says how much wood they need.
    private static double Needs(ScrewRow a, ScrewRow b) => Math.Max(Between(a) * a.Diameter, Between(b) * b.Diameter);

    /// <summary>Least distance from a screw to the next that does not stand in its row, in diameters.</summary>
    internal static double Between(ScrewRow row) => row.Fact.Has("pilot") || row.Screw.Find("pilot") is not null ? Bored : Plain;

    // The least end distance of a row at which it keeps away from the other, in steps of a tape; null if none within half of the joint does.
    private static double? Clearing(CheckInput input, ScrewRow row, ScrewRow other, double needs)
    {
        const double step = 25.4 / 8;
        for (double end = step; end < row.Joint.Length / 2; end += step)
            if (row.From(input.Spec.Evaluator, end) is { } moved && (Nearest(moved, other) is not { } near || near.Distance >= needs)) return end;
        return null;
    }

    // Only the screws at the ends of a row come near another's.
    private static (double Distance, Vec3 At)? Nearest(ScrewRow a, ScrewRow b)
    {
        (double Distance, Vec3 At)? best = null;
        foreach (var p in Ends(a))
            foreach (var q in Ends(b))
                if (p.Nearest(q) is var near && (best is null || near.Distance < best.Value.Distance)) best = near;
        return best;
    }

    private static IEnumerable<Shaft> Ends(ScrewRow row) => row.Shafts.Length > 1 ? [row.Shafts[0], row.Shafts[^1]] : row.Shafts;
}
