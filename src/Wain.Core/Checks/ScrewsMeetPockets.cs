using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Framing;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>The screws of a joint keep away from the pocket screws of the frames that they go into.</summary>
public static class ScrewsMeetPockets
{
    private static readonly string Text = """
        sheet ply { thickness 12 mm
            size 48 in by 96 in }
        stick strip { section 3/4 in by 1 1/2 in }
        screw deck_screw { kind wood_screw
            gauge 6
            length 1 1/2 in
            pilot 3/32 in }
        screw frame_screw { kind pocket_screw
            gauge 7
            length 1 in }
        stack board { sheet ply }
        stack framed { sheet ply
            core frame of strip flat
            sheet ply }
        panel deck of board {
            through (0 in, 24 in, 0 in) along (0 in, -24 in, 0 in) up (40 in, 24 in, 0 in)
        }
        panel wall of framed {
            spans from (20 in, 24 in) to (20 in, -24 in), standing on deck.outside, up to 40 in
            frame {
                studs every 16 in on centre
                joined with frame_screw 2 each
            }
        }
        joint wall.bottom to deck.outside {
            butt
            screws deck_screw every 8 in, end distance END, driven from below
        }
        """;

    public static readonly FindingInfo Info = new("WN4123", "screw-meets-pocket-screw", Level.Warning, "A screw of a joint comes too near a pocket screw of the frame",
        "The pocket screws of a stud end in the rail, and the screws of the joint are driven into that rail from the other side. Where one lands on the other it splits the rail or stops short. Nothing of it is to be seen once the skins are on. The least distance is that which the standard for timber gives between rows of wood screws; in a glued joint it is a note. A row shifted by a little misses them all.",
        Text.With("END", "1/2 in"), Text.With("END", "3 in"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        var pockets = input.Frames.All.SelectMany(f => Meetings.Shafts(input.Spec, f).Select(s => (f.Panel.Name, s.Screw, s.Diameter))).ToLookup(s => s.Name, s => (s.Screw, s.Diameter), StringComparer.Ordinal);
        if (pockets.Count == 0) yield break;
        foreach (var row in input.Structure.Joints.SelectMany(j => ScrewRow.Of(input.Spec, j)))
            foreach (var panel in new[] { row.Joint.First.Panel, row.Joint.Second.Panel }.Distinct())
            {
                var near = Near(row, pockets[panel.Name]).ToList();
                if (near.Count == 0) continue;
                var worst = near.MinBy(n => n.Distance);
                double? end = Clearing(input, row, pockets[panel.Name]);
                yield return new Finding(Info, $"{(near.Count == 1 ? "A screw" : $"{near.Count} screws")} of joint {row.Joint.Name} {(near.Count == 1 ? "comes" : "come")} {(worst.Distance < worst.Touch ? "onto pocket screws" : $"within {input.Say.Nearly(worst.Distance)} of pocket screws")} of {panel.Name}, first {input.Say.In(near[0].At)}; {input.Say.Nearly(worst.Needs)} is the least.", row.Fact.Span)
                {
                    Level = worst.Distance >= worst.Touch && row.Joint.Fact.Find("glue") is not null ? Level.Note : Level.Warning,
                    Subject = row.Joint.Name,
                    Hint = end is { } e ? $"Begin the row {input.Say.AtLeast(e)} from its ends." : "Shift those screws along the joint, away from the studs.",
                    Fixes = end is not { } far ? [] : row.Fact.Has("end") ? [Fixing.Write(input.Spec, row.Fact, "end", input.Say.AtLeast(far))] : [Fixing.AddClause(row.Fact, $"end distance {input.Say.AtLeast(far)}")],
                };
            }
    }

    /// <summary>Screws of the row that come too near, each with the pocket screw that is nearest to it (mm).</summary>
    private static IEnumerable<(double Distance, Vec3 At, double Touch, double Needs)> Near(ScrewRow row, IEnumerable<(Shaft Screw, double Diameter)> pockets)
    {
        foreach (var shaft in row.Shafts)
        {
            (double Distance, Vec3 At, double Touch, double Needs)? nearest = null;
            foreach (var (screw, diameter) in pockets)
            {
                var (distance, at) = shaft.Nearest(screw);
                double needs = ScrewsAtCorners.Between(row) * Math.Max(row.Diameter, diameter);
                if (distance < needs - 0.01 && (nearest is null || distance < nearest.Value.Distance)) nearest = (distance, at, (row.Diameter + diameter) / 2, needs);
            }
            if (nearest is { } found) yield return found;
        }
    }

    // The least end distance, in steps of a tape and from what the ends of the wood ask for on, at which the whole row misses them.
    private static double? Clearing(CheckInput input, ScrewRow row, IEnumerable<(Shaft Screw, double Diameter)> pockets)
    {
        const double step = 25.4 / 8;
        for (double end = Math.Max(step, Math.Floor(row.First / step) * step); end < Math.Min(row.Joint.Length / 2, row.First + 12 * 25.4); end += step)
            if (row.From(input.Spec.Evaluator, end) is { } moved && !Near(moved, pockets).Any()) return end;
        return null;
    }
}
