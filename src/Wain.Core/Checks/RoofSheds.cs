using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Model;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>A roof sheds water, at rest and raised: it slopes, and nothing let into it is a basin.</summary>
public static class RoofSheds
{
    private static readonly string Text = Examples.Materials + """

        plan body {
            start at (0 in, 20 in)
            leg left run 90 in
            leg front across 40 in
            leg right run 90 in
            leg rear home, across 40 in
        }
        panel roof of wall_stack {
            covers plan body, underside at 50 in, pitched PITCH toward aft
            outside up
        FACTS
        }
        lift top_lift {
            carries { roof }
            travel 12 in
        }
        """;

    public static readonly FindingInfo Info = new("WN4308", "roof-holds-water", Level.Warning, "The roof has less slope than sheds water",
        "Water that stands finds every pinhole, and its weight bends the roof into a deeper pool. The least slope is the panel's own, or the default roof_slope.",
        Text.With(", pitched PITCH toward aft", "").With("FACTS", ""), Text.With("PITCH", "1 deg").With("FACTS", ""));

    public static readonly FindingInfo Basin = new("WN4309", "recess-holds-water", Level.Warning, "A recess in the roof has no way out for water",
        "A step let into a face that looks up holds water unless it reaches the low edge of the panel.",
        Text.With("PITCH", "1 deg").With("FACTS", "opening vent {\n    size 10 in by 10 in\n    centred at (20 in, 45 in)\n    unframed\n    recessed 1/8 in, margin 2 in\n}"),
        Text.With("PITCH", "1 deg").With("FACTS", "opening vent {\n    size 10 in by 10 in\n    centred at (20 in, 45 in)\n    unframed\n}"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        double usual = Defaults.Of(input.Spec)["roof_slope"].Value.Radians;
        var carried = input.Structure.Lifts.SelectMany(l => l.Carries).ToHashSet(StringComparer.Ordinal);
        var lifts = input.Structure.Lifts.SelectMany(l => l.Carries.Select(c => (Panel: c, Lift: l))).GroupBy(l => l.Panel, StringComparer.Ordinal).ToDictionary(g => g.Key, g => g.First().Lift, StringComparer.Ordinal);
        foreach (var panel in input.Structure.Panels)
        {
            var stated = panel.Fact.Find("slope") ?? panel.Fact.MirrorOf?.Find("slope");
            if (!panel.IsLevel || stated is null && !carried.Contains(panel.Name)) continue;
            var up = panel.Face.N.Z > 0 ? panel.Face.N : -panel.Face.N;
            double slope = up.AngleTo(Vec3.UnitZ), least = stated is null ? usual : input.Spec.Evaluator.Angle(stated, "value") ?? usual;
            if (slope < least - 1e-6)
                yield return new Finding(Info, $"{panel.Name} slopes {Say.Angle(slope)}, at rest and raised; {Say.Angle(least)} is the least{(stated is null ? " (default roof_slope)" : "")}.", panel.Fact.NameSpan)
                {
                    Level = stated is null ? Level.Warning : Level.Error,
                    Subject = panel.Name,
                    Hint = $"Pitch it: {Say.Angle(least)} drops {input.Say.Nearly(Math.Tan(least) * Math.Max(panel.Width, panel.Height))} over its length.",
                    Fixes = Fixing.One(Pitched(input, panel, least)),
                };
            else if (lifts.TryGetValue(panel.Name, out var lift) && Racked(input, lift, up) is var (flattest, low) && flattest < least / 2 - 1e-6)
                yield return new Finding(Info, $"{panel.Name} slopes {Say.Angle(slope)} when level and only {Say.Angle(flattest)} with the {low} corner {input.Say.Length(lift.Lag)} low; at least half of {Say.Angle(least)} should be left.", panel.Fact.NameSpan)
                {
                    Level = Level.Note,
                    Subject = panel.Name,
                    Hint = $"Pitch it {Say.Angle(Math.Ceiling((least / 2 - flattest) * 1800 / Math.PI) * Math.PI / 1800)} more, or allow less lag.",
                };
            if (panel.Face.N.Z <= 0) continue;
            // Down the slope, in the panel's own axes; on a level face water has no way at all.
            var down = new Vec2(-panel.Face.U.Z, -panel.Face.V.Z);
            foreach (var o in panel.Openings)
                if (o.Recess is { FromOutside: true } recess && !Drains(panel, recess.Region, down)) yield return Tell($"{panel.Name}.{o.Name}", $"The recess round {panel.Name}.{o.Name}, {input.Say.Length(recess.Depth)} deep,", o.Fact.NameSpan, panel.Mirrored is null && o.Fact.Find("recessed") is { } line ? Fixing.TakeOut(line) with { Label = "take the recess out" } : null);
            foreach (var z in panel.Zones)
                if (z is { Added: false, Offset: > 0.01 } && !Drains(panel, z.Region, down)) yield return Tell($"{panel.Name}.{z.Name}", $"Zone {z.Name} of {panel.Name}, {input.Say.Length(z.Offset)} below its face,", z.Fact.HeadSpan);
        }
    }

    // While a corner hangs low the roof may lie flatter than at either end of its travel. It passes, so half of the slope will do.
    private static (double Slope, string Low)? Racked(CheckInput input, PlacedLift lift, Vec3 up)
    {
        if (lift.Lag <= 0 || lift.Hinge is not null || Math.Abs(lift.Direction.Z) < 0.99) return null;
        var parts = input.Clearance.Bodies.Where(b => b.Parts.Length > 0 && lift.Carries.Contains(b.Panel.Name)).ToList();
        if (parts.Count == 0) return null;
        var box = parts.Select(b => b.Bounds).Aggregate((a, b) => a.Union(b));
        return Clearance.LiftClearance.Corners.Select((name, low) => (Slope: Racking.LowCorner(Clearance.LiftClearance.Feet(box, box.Max.Z), low, lift.Lag, lift.Direction) is { } move ? move.Turn(up).AngleTo(Vec3.UnitZ) : double.PositiveInfinity, name)).MinBy(r => r.Slope);
    }

    private static Finding Tell(string subject, string what, Span at, Fix? fix = null) =>
        new(Basin, $"{what} has no way out for water.", at) { Subject = subject, Hint = "Leave the face whole and bed the unit on it, or carry the recess to the low edge.", Fixes = Fixing.One(fix) };

    // A roof that covers a plan pitches by a word; toward aft unless the spec has another way.
    private static Fix? Pitched(CheckInput input, PlacedPanel panel, double least)
    {
        if (panel.Mirrored is not null || panel.Fact.Find("covers") is not { } way) return null;
        string angle = Say.Angle(Math.Ceiling(least * 18000 / Math.PI - 1e-6) * Math.PI / 18000);
        return way.Has("pitch") ? Fixing.Write(input.Spec, way, "pitch", angle) : Fixing.AddClause(way, $"pitched {angle} toward aft");
    }

    private static bool Drains(PlacedPanel panel, Outline region, Vec2 down)
    {
        if (down.Length < 1e-6) return false;
        var low = region.Flattened(0.5).Corners.MaxBy(c => c.Dot(down));
        return panel.Outline.DistanceToEdges(low) < 1 || !panel.Outline.Contains(low);
    }
}
