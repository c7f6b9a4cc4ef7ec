using System.Collections.Immutable;
using Wain.Core.Framing;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;

namespace Wain.Core.Drawing.Panels;

/// <summary>Templates at full size: one for each angle that a saw is set to, one for each radius that is scribed.</summary>
public static class ShopTemplates
{
    private const double Degree = Math.PI / 180, Height = 75, Base = 110, Run = 25;
    private const int MostUses = 8;

    public static ImmutableArray<Template> Of(Design design, DrawingOptions options) => [.. AngleTemplates(design), .. ArcTemplates(design, options)];

    /// <summary>
    /// Bevels of panels and end cuts of members, told apart to a twentieth of a degree; what rounds to square is sawn square. Beyond 45 degrees it is the complement:
    /// the work stands on edge, or a taper is told from the stick's edge, and the template is the same.
    /// </summary>
    public static IEnumerable<(double Angle, ImmutableArray<string> Uses)> DistinctAngles(Design design)
    {
        var panels = design.Structure.Panels.SelectMany(p => JointAngles.Bevels(p).Select(c => (Angle: c.Setting.Tilt, Use: $"{p.Name}.{c.EdgeName}{(c.Setting.WorkOnEdge ? " (on edge)" : "")}")));
        var members = design.Frames.Members.SelectMany(m => new[] { m.Start, m.End }.Where(e => !e.Shaped).Select(e => Angles.Setting(e.Angle) is var set ? (Angle: set.Tilt, Use: m.PartMark + (set.WorkOnEdge ? " (taper)" : "")) : default));
        var groups = new List<List<(double Angle, string Use)>>();
        foreach (var angle in panels.Concat(members).Where(a => LengthText.OfAngle(a.Angle) != LengthText.OfAngle(0)).OrderBy(a => a.Angle))
            if (groups.Count > 0 && angle.Angle - groups[^1][0].Angle <= 0.05 * Degree) groups[^1].Add(angle);
            else groups.Add([angle]);
        return groups.Select(g => (g.Average(a => a.Angle), g.Select(a => a.Use).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal).ToImmutableArray()));
    }

    private static IEnumerable<Template> AngleTemplates(Design design)
    {
        foreach (var (angle, uses) in DistinctAngles(design))
        {
            string text = FormattableString.Invariant($"{angle / Degree:0.00}\u00B0");
            double lean = Height * Math.Tan(angle);
            ImmutableArray<Mark> marks =
            [
                new PathMark(Contour.Polygon(new(0, 0), new(Base, 0), new(Base + lean, Height), new(0, Height)), Pen.Edge),
                new PathMark(Contour.Line(new(Base, 0), new(Base, Height)), Pen.Centre),
                new TextMark(new(6, Height / 2), $"{text} from square", TextMark.Large, Bold: true),
                new TextMark(new(6, Height / 2 - 8), FormattableString.Invariant($"other side {90 - angle / Degree:0.00}\u00B0, saw at {LengthText.OfAngle(angle)}")),
                new PathMark(Contour.Arc(new(Base, 0), 18, Math.PI / 2 - angle, Math.PI), Pen.Narrow),
                .. Uses(uses, -6),
            ];
            yield return new($"Angle {text}", "", "Glue to card, cut out, set the saw or a bevel gauge by it.", marks);
        }
    }

    /// <summary>Rounded corners of panels, openings and recesses.</summary>
    public static IEnumerable<(Segment Arc, ImmutableArray<string> Uses)> DistinctArcs(Design design)
    {
        var arcs = design.Structure.Panels.SelectMany(p =>
            p.Outline.Segments.Select(s => (Arc: s, Use: p.Name))
                .Concat(p.Openings.SelectMany(o => o.Hole.Segments.Select(s => (Arc: s, Use: $"{p.Name}.{o.Name}"))))
                .Concat(p.Openings.Where(o => o.Recess is not null).SelectMany(o => o.Recess!.Region.Segments.Select(s => (Arc: s, Use: $"{p.Name}.{o.Name} recess")))));
        return arcs.Where(a => a.Arc.IsArc && a.Arc.Radius > 1).GroupBy(a => (Math.Round(a.Arc.Radius, 1), Math.Round(Math.Abs(a.Arc.Sweep), 3))).OrderBy(g => g.Key)
            .Select(g => (g.First().Arc, g.Select(a => a.Use).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal).ToImmutableArray()));
    }

    private static IEnumerable<Template> ArcTemplates(Design design, DrawingOptions options)
    {
        foreach (var (arc, uses) in DistinctArcs(design))
        {
            double radius = arc.Radius, sweep = Math.Abs(arc.Sweep);
            // The arc turns left from a level start, with a straight run before and after it.
            var start = new Vec2(Run, 0);
            var turned = Vec2.FromAngle(sweep);
            var end = start + new Vec2(Math.Sin(sweep) * radius, (1 - Math.Cos(sweep)) * radius);
            var stop = end + turned * Run;
            var centre = start + new Vec2(0, radius);
            string text = "R " + options.WithUnit(radius);
            var contour = new Contour([new(Vec2.Zero, start), new(start, end, sweep), new(end, stop), new(stop, centre), new(centre, Vec2.Zero)], true);
            ImmutableArray<Mark> marks =
            [
                new PathMark(contour, Pen.Edge),
                new PathMark([Contour.Line(centre, start), Contour.Line(centre, end)], Pen.Centre),
                new TextMark(stop + new Vec2(8, 0), text, TextMark.Medium, Bold: true),
                .. Uses(uses, -6),
            ];
            yield return new($"Scribe {text}", "", "Glue to card, cut out, scribe along the curved side.", marks);
        }
    }

    /// <summary>What it is for, in lines under it.</summary>
    private static IEnumerable<Mark> Uses(ImmutableArray<string> uses, double top)
    {
        string all = "For " + string.Join(", ", uses.Take(MostUses)) + (uses.Length > MostUses ? FormattableString.Invariant($" and {uses.Length - MostUses} more") : "");
        return Lettering.Wrap(all, TextMark.Small, 140).Select((line, i) => new TextMark(new(0, top - TextMark.Small - i * TextMark.Small * Lettering.Leading), line));
    }
}
