using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>A zone lies on its panel, within its thickness, and beside other zones.</summary>
public static class ZonesFit
{
    // Zones that share a border overlap by nothing; what a saw could not tell is no overlap either (mm, mm2).
    private const double Sixteenth = 25.4 / 16, Sliver = 100;

    private static readonly string Text = Examples.Wall(60, 30, "zone bay of deck_stack from FROM to TO along, from 5 in to 20 in up, recessed DEPTH from outside\nzone niche of deck_stack from 40 in to 50 in along, from 5 in to 20 in up, recessed 1/2 in from outside");

    private static readonly string Thicker = Examples.Wall(60, 30, "zone bay of bay_stack from 10 in to 30 in along, recessed DEEP from outside", "stack bay_stack {\n    sheet ply_6mm\n    foam foam_board thick 14 mm\n    sheet ply_4mm\n}\n");

    private static string With(string from, string to, string depth) => Text.With("FROM", from).With("TO", to).With("DEPTH", depth);

    private static readonly string Good = With("10 in", "30 in", "1/2 in");

    public static readonly FindingInfo OnPanel = new("WN4129", "zone-past-edge", Level.Warning, "A zone reaches past the edge of its panel",
        "What lies past the edge is left out, so the zone is smaller than its line says. Most often it was measured from the other end.",
        With("-4 in", "30 in", "1/2 in"), Good);

    public static readonly FindingInfo InThickness = new("WN4130", "zone-outside-panel", Level.Error, "A zone lies wholly before or behind its panel",
        "A recess is measured from a face into the panel. One deeper than the panel is thick puts the zone's layers behind it, where nothing holds them; what stands on a face is said with: on outside, or: on inside.",
        With("10 in", "30 in", "2 in"), Good);

    public static readonly FindingInfo Apart = new("WN4131", "zones-overlap", Level.Error, "Two zones of a panel overlap",
        "Where two zones take the place of the same layers, or stand on the same face, nobody can say which of them is built there, and its material is counted twice.",
        With("25 in", "45 in", "1/2 in"), Good);

    public static readonly FindingInfo StandsOut = new("WN4152", "zone-stands-out", Level.Warning, "A recessed zone stands out of the panel's other face",
        "A zone that is set back from one face has less room: with layers that are too thick for what is left it comes out of the other face by as much, where something else was meant to lie flat.",
        Thicker.With("DEEP", "10 mm"), Thicker.With("DEEP", "5 mm"));

    public static IEnumerable<Finding> Check(CheckInput input) => input.Structure.Panels.Where(p => p.Zones.Length > 0).SelectMany(p => Check(input.Spec, p));

    private static IEnumerable<Finding> Check(Spec spec, PlacedPanel panel)
    {
        foreach (var zone in panel.Zones)
        {
            if (!zone.Added && Past(spec, panel, zone) is { } past) yield return past;
            if (!zone.Added && (Beside(spec, panel, zone) ?? Out(spec, panel, zone)) is { } beside) yield return beside;
        }
        for (int i = 0; i < panel.Zones.Length; i++)
            for (int j = i + 1; j < panel.Zones.Length; j++)
            {
                var (a, b) = (panel.Zones[i], panel.Zones[j]);
                if (a.Added != b.Added || a.Added && a.Offset > 0 != b.Offset > 0) continue;
                double shared = Overlap.Area(a.Region, b.Region);
                if (shared <= Sliver) continue;
                yield return new Finding(Apart, $"Zones {a.Name} and {b.Name} of {panel.Name} overlap by {(spec.Say.Metric ? $"{Say.Number(shared / 100)} cm2" : $"{Say.Number(shared / 645.16)} in2")}.", b.Fact.NameSpan)
                {
                    Subject = $"{panel.Name}.{b.Name}",
                    Hint = "End one of them where the other begins.",
                    Related = [new Related(a.Fact.NameSpan, "the other zone")],
                    Fixes = Fixing.One(End(spec, a, b, "from", "to") ?? End(spec, a, b, "low", "high")),
                };
            }
    }

    // The one that begins first ends where the other begins, in the words that place that one.
    private static Fix? End(Spec spec, PlacedZone a, PlacedZone b, string begins, string ends)
    {
        double? At(PlacedZone zone, string slot) => zone.Fact.Has(slot) ? spec.Evaluator.Length(zone.Fact, slot) : null;
        if (At(a, begins) is not { } first || At(b, begins) is not { } second || At(a, ends) is not { } firstEnd || At(b, ends) is not { } secondEnd || first == second) return null;
        var (cut, other, end) = first < second ? (a, b, firstEnd) : (b, a, secondEnd);
        // One that lies within the other would part it in two.
        return end > (ReferenceEquals(cut, a) ? secondEnd : firstEnd) ? null : Fixing.Write(spec, cut.Fact, ends, spec.Evaluator.SlotSpan(other.Fact, begins).Text);
    }

    private static Finding? Past(Spec spec, PlacedPanel panel, PlacedZone zone)
    {
        if (panel.Mirrored is not null) return null;
        var box = panel.Outline.Bounds;
        double Stated(string slot, double otherwise) => zone.Fact.Has(slot) ? spec.Evaluator.Length(zone.Fact, slot) ?? otherwise : otherwise;
        (string Slot, double Past, double At)[] ends =
        [
            ("from", box.Min.X - Stated("from", box.Min.X), box.Min.X), ("to", Stated("to", box.Max.X) - box.Max.X, box.Max.X),
            ("low", box.Min.Y - Stated("low", box.Min.Y), box.Min.Y), ("high", Stated("high", box.Max.Y) - box.Max.Y, box.Max.Y),
        ];
        var (slot, past, at) = ends.MaxBy(e => e.Past);
        bool stated = past > Sixteenth;
        if (!stated && !zone.Fact.Has("plan") && zone.Fact.Find("lower") is null) return null;
        double over = stated ? past : zone.Region.Flattened(0.1).Corners.Max(panel.Outline.SignedDistance);
        if (over <= Sixteenth) return null;
        return new Finding(OnPanel, $"Zone {zone.Name} of {panel.Name} reaches {spec.Say.Nearly(over)} past the edge; the panel is {spec.Say.Nearly(box.Width)} by {spec.Say.Nearly(box.Height)}.", zone.Fact.HeadSpan)
        {
            Subject = $"{panel.Name}.{zone.Name}",
            Hint = "Places are told from the panel's lower left corner, seen from outside.",
            Fixes = stated ? [Fixing.Write(spec, zone.Fact, slot, slot is "from" or "low" ? spec.Say.AtLeast(at) : spec.Say.AtMost(at))] : [],
        };
    }

    private static Finding? Out(Spec spec, PlacedPanel panel, PlacedZone zone)
    {
        bool inside = zone.Fact.Word("face") == "inside";
        double by = inside ? -zone.Offset : zone.Offset + zone.Stack.Thickness - panel.Thickness, room = panel.Thickness - zone.Stack.Thickness;
        if (!zone.Fact.Has("recess") || by <= 0.5) return null;
        return new Finding(StandsOut, $"Zone {zone.Name}, {spec.Say.Length(zone.Stack.Thickness)} thick, stands {spec.Say.Nearly(by)} out of the {(inside ? "outside" : "inside")} face of {panel.Name}.", spec.Evaluator.SlotSpan(zone.Fact, "recess"))
        {
            Subject = $"{panel.Name}.{zone.Name}",
            Hint = room > 0 ? $"Recessed {spec.Say.AtMost(room)} it is flush there; a thinner stack leaves room for more." : "A thinner stack leaves room for a recess.",
            Fixes = room > Sixteenth ? [Fixing.Write(spec, zone.Fact, "recess", spec.Say.AtMost(room))] : [],
        };
    }

    private static Finding? Beside(Spec spec, PlacedPanel panel, PlacedZone zone)
    {
        double near = zone.Offset, far = zone.Offset + zone.Stack.Thickness;
        if (!zone.Fact.Has("recess") || spec.Evaluator.Length(zone.Fact, "recess") is not { } depth || depth >= 0 && near < panel.Thickness - 0.01 && far > 0.01) return null;
        double deepest = panel.Thickness - zone.Stack.Thickness;
        return new Finding(InThickness, $"Zone {zone.Name} is recessed {spec.Say.Length(depth)} in {panel.Name}, which is {spec.Say.Length(panel.Thickness)} thick.", spec.Evaluator.SlotSpan(zone.Fact, "recess"))
        {
            Subject = $"{panel.Name}.{zone.Name}",
            Hint = depth < 0 ? "A recess goes into the panel and has no minus." : deepest > 0 ? $"At {spec.Say.AtMost(deepest)} its {spec.Say.Length(zone.Stack.Thickness)} still lie within the panel." : "A thinner stack would lie within the panel.",
            Fixes = depth < 0 && zone.Fact.Slots.TryGetValue("recess", out var written) ? Fixing.WithoutMinus(written.Terms[0]) : deepest > Sixteenth ? [Fixing.Write(spec, zone.Fact, "recess", spec.Say.AtMost(deepest))] : [],
        };
    }
}
