using Wain.Core.Binding;
using Wain.Core.Clearance;
using Wain.Core.Findings;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>Two panels can't be in one place. What a lap or a rabbet takes away is stepped off when it is cut, and counts as room.</summary>
public static class PanelsClash
{
    private static readonly string Text = Examples.Materials + """

        panel deck of deck_stack {
            through (0 in, 20 in, 0 in) along (0 in, -20 in, 0 in) up (90 in, 20 in, 0 in)
        }
        panel post of deck_stack {
            spans from (20 in, 10 in) to (40 in, 10 in), standing on LEVEL, up to 30 in
        }
        """;

    public static readonly FindingInfo Info = new("WN4301", "panels-pass-through", Level.Error, "Two panels pass through each other",
        "Both can't be built where they are. One of them stops at the other, or one has a hole or a step where the other goes.",
        Text.With("LEVEL", "-1 in"), Text.With("LEVEL", "deck.top"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        var left = input.Clearance.Clashes.Where(c => !input.Structure.Joints.Any(j => j.Kind is JointKind.Lap or JointKind.Rabbet && Joins(j, c.First, c.Second))).ToList();
        // A panel at a wrong place runs into all that it should meet: that is one mistake and not one of each of them.
        while (left.Count > 0)
        {
            var panel = left.SelectMany(c => new[] { c.First, c.Second }).GroupBy(p => p.Name, StringComparer.Ordinal).OrderByDescending(g => g.Count()).First().First();
            var its = left.Where(c => c.First == panel || c.Second == panel).ToList();
            left.RemoveAll(its.Contains);
            yield return its is [var one] ? Of(input, one) : Of(input, panel, its);
        }
    }

    private static Finding Of(CheckInput input, Clash clash) =>
        new(Info, $"{Where.Part(clash.First, clash.At)} and {Where.Part(clash.Second, clash.At)} pass through each other by {input.Say.Nearly(clash.Depth)}, {input.Say.In(clash.At)}.", clash.Second.Fact.NameSpan)
        {
            Subject = clash.Second.Name,
            Related = [new Related(clash.First.Fact.NameSpan, $"{clash.First.Name} is here")],
            Hint = Leg(input, clash.First) is { } leg && leg == Leg(input, clash.Second) ? $"Both stand on {leg}: one of them was meant for another leg." : $"Moving or shortening one of them by {input.Say.Nearly(clash.Depth)} frees them.",
            Fixes = Fixing.One(Reaching.Meet(input.Spec, clash.First, clash.Second, clash.Depth) ?? Reaching.Clear(input.Spec, clash.First, [clash.Second]) ?? Reaching.Clear(input.Spec, clash.Second, [clash.First])),
        };

    private static string? Leg(CheckInput input, PlacedPanel panel) => panel.Mirrored is null && panel.Fact.Find("stands") is { } way && input.Spec.Evaluator.PathOf(way, "leg") is not null ? input.Spec.Evaluator.SlotSpan(way, "leg").Text : null;

    private static Finding Of(CheckInput input, PlacedPanel panel, List<Clash> its)
    {
        var others = its.Select(c => (Panel: c.First == panel ? c.Second : c.First, c.Depth)).OrderBy(o => o.Panel.Name, StringComparer.Ordinal).ToList();
        bool alike = others.TrueForAll(o => input.Say.Nearly(o.Depth) == input.Say.Nearly(others[0].Depth));
        string list = string.Join(", ", others.Select(o => alike ? o.Panel.Name : $"{o.Panel.Name} by {input.Say.Nearly(o.Depth)}"));
        var (way, by, fix) = Cleared(input, panel, [.. others.Select(o => o.Panel)]);
        var ended = way is null ? Reaching.Clear(input.Spec, panel, [.. others.Select(o => o.Panel)]) : null;
        string message = way is null ? $"{(its.TrueForAll(c => Where.Part(panel, c.At) == Where.Part(panel, its[0].At)) ? Where.Part(panel, its[0].At) : panel.Name)} passes through {others.Count} panels{(alike ? $" by {input.Say.Nearly(others[0].Depth)}" : "")}: {list}."
            : $"{panel.Name} lies {by} too {(way == "higher" ? "low" : "high")}: it passes through {string.Join(", ", others.SkipLast(1).Select(o => o.Panel.Name))} and {others[^1].Panel.Name}.";
        return new Finding(Info, message, panel.Fact.NameSpan)
        {
            Subject = panel.Name,
            Related = [.. others.Where(o => o.Panel.Mirrored is null).Take(3).Select(o => new Related(o.Panel.Fact.NameSpan, $"{o.Panel.Name} is here"))],
            Hint = way is not null ? $"Laid {by} {way} it is clear of them all." : ended is not null ? $"Ended at {ended.Text} it is clear of them all."
                : $"{(panel.IsLevel ? "No one move up or down clears them all: move" : "Move")} it, or end each of the others at it.",
            Fixes = ended is not null ? [ended] : way is null ? [.. others.Select(o => Reaching.Meet(input.Spec, panel, o.Panel, o.Depth)).OfType<Fix>().DistinctBy(f => f.Place)] : Fixing.One(fix),
        };
    }

    /// <summary>How a level panel gets clear of all that it runs into, and of everything else: to the top of the highest of them, or under the lowest. Not where it runs through their middle.</summary>
    private static (string? Way, string By, Fix? Fix) Cleared(CheckInput input, PlacedPanel panel, List<PlacedPanel> others)
    {
        var (low, high) = PanelShapes.Bounds(panel);
        // What is added to a face may be what is in the way.
        if (!panel.IsLevel || panel.Zones.Any(z => z.Added)) return (null, "", null);
        PlacedPanel highest = others.MaxBy(o => PanelShapes.Bounds(o).High.Z)!, lowest = others.MinBy(o => PanelShapes.Bounds(o).Low.Z)!;
        double up = PanelShapes.Bounds(highest).High.Z - low.Z, down = high.Z - PanelShapes.Bounds(lowest).Low.Z;
        double shift = up <= down ? up : -down, most = others.Min(o => PanelShapes.Bounds(o) is var (from, to) ? (to.Z - from.Z) / 4 : 0);
        if (Math.Abs(shift) > most || Math.Abs(shift) < ClearancePass.ClashTolerance || Runs(input, panel, shift)) return (null, "", null);
        return (shift > 0 ? "higher" : "lower", input.Say.Nearly(Math.Abs(shift)), Reaching.Level(input.Spec, panel, shift > 0 ? highest : lowest, shift));
    }

    /// <summary>True if a panel that is moved up by a length (mm) would run into another.</summary>
    private static bool Runs(CheckInput input, PlacedPanel panel, double up)
    {
        var move = new Vec3(0, 0, up);
        var (low, high) = PanelShapes.Bounds(panel);
        var touch = new Vec3(ClearancePass.ClashTolerance, ClearancePass.ClashTolerance, ClearancePass.ClashTolerance);
        var moved = new Box3(low + move + touch, high + move - touch);
        return input.Clearance.Bodies.Any(b => b.Kind == BodyKind.Panel && b.Panel != panel && b.Panel.Lift == panel.Lift && moved.Touches(b.Around));
    }

    private static bool Joins(PlacedJoint joint, PlacedPanel a, PlacedPanel b) =>
        joint.First.Panel.Name == a.Name && joint.Second.Panel.Name == b.Name || joint.First.Panel.Name == b.Name && joint.Second.Panel.Name == a.Name;
}
