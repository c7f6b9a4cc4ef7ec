using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Clearance;
using Wain.Core.Findings;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>Walls are flat and end where the round corner of their plan begins: something must close the shell between the two.</summary>
public static class CornerOpen
{
    private static readonly string Text = """
        sheet ply {
            thickness 6 mm
            size 48 in by 96 in
            density 600 kg/m3
        }
        stack skin { sheet ply }
        plan box {
            start at (0 in, 20 in)
            leg left run 40 in, rounded 6 in
            leg front across 40 in
            leg right run 40 in
            leg aft home
        }
        panel floor of skin { covers plan box, underside at 0 in }
        panel left_wall of skin { stands on box.left, from floor.top to 30 in }
        panel front_wall of skin { stands on box.front, from floor.top to 30 in }
        MORE
        """;

    public static readonly FindingInfo Info = new("WN4320", "corner-open", Level.Warning, "The shell is open at a round corner",
        "A wall stands on a straight leg and ends square where the arc of a rounded corner begins. Unless a board closes the corner there is a slot between the two walls from floor to roof, which nobody cuts, buys or weighs a piece for.",
        Text.With("MORE", ""), Text.With("MORE", "panel corner of skin {\n    spans from (40 in, 14 in) to (34 in, 20 in), standing on floor.top, up to 30 in\n    bevel left 45 deg\n    bevel right 45 deg\n}"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        var bodies = input.Clearance.Bodies.Where(b => b.Kind == BodyKind.Panel && !b.Panel.IsLevel).ToImmutableArray();
        var walls = bodies.Where(b => b.Panel.Placing == PanelPlacing.Stands).ToList();
        foreach (var plan in input.Structure.Plans)
            for (int i = 0; i < plan.Outline.Count; i++)
            {
                if (plan.Outline.Edges[i].Name is not null || plan.Outline.Segment(i) is not { IsArc: true } arc) continue;
                // Few walls end at one corner, however many there are.
                var ends = walls.Select(w => (Body: w, At: End(w.Panel, arc.To, arc.Tangent(1)))).Where(w => w.At is not null).ToList();
                foreach (var first in walls)
                {
                    if (End(first.Panel, arc.From, arc.Tangent(0)) is not { } from) continue;
                    foreach (var (second, end) in ends)
                    {
                        if (first.Panel.Lift != second.Panel.Lift || end is not { } to) continue;
                        var (low, high) = (Math.Max(first.Bounds.Min.Z, second.Bounds.Min.Z), Math.Min(first.Bounds.Max.Z, second.Bounds.Max.Z));
                        var middle = arc.At(0.5);
                        var at = new Vec3(middle.X, middle.Y, (low + high) / 2);
                        if (high - low < 10 || first.Nearest(second).Distance is not (> NearlyMeet.Near and var gap) || IsClosed(first, second, bodies, at, arc.Radius)) continue;
                        yield return Tell(input, plan, i, first.Panel, second.Panel, from, to, gap);
                    }
                }
            }
    }

    private static Finding Tell(CheckInput input, PlacedPlan plan, int edge, PlacedPanel first, PlacedPanel second, Vec2 from, Vec2 to, double gap)
    {
        var arc = plan.Outline.Segment(edge);
        var (before, after) = (plan.Outline.Edges[plan.Outline.Previous(edge)].Name, plan.Outline.Edges[plan.Outline.Next(edge)].Name);
        var legs = plan.Fact.All("leg").ToList();
        var leg = legs.Where((l, k) => (l.Name, legs[(k + 1) % legs.Count].Name) is var (a, b) && (a == before && b == after || a == after && b == before)).FirstOrDefault();
        string half = Say.Angle(Math.Abs(arc.Sweep) / 2);
        return new Finding(Info, $"The shell is open {input.Say.Nearly(gap)} wide between {first.Name} and {second.Name}: plan {plan.Name} has a corner of radius {input.Say.Nearly(arc.Radius)} there, and both walls end where it begins.", second.Fact.NameSpan)
        {
            Subject = second.Name,
            Related = [new Related(leg is null ? plan.Fact.NameSpan : leg.Span, "the corner is rounded here")],
            Hint = $"Stand a board across the corner, {input.Say.Nearly(from.DistanceTo(to))} wide outside, both ends bevelled {half} to lie on the ends of the walls; what stands on it is round, or straight with it. Or leave the corner square, so that the walls meet, and round them over there.",
            Fixes = Fixing.One(Board(input, first, second, from, to, half)),
        };
    }

    // The board between the ends of the two, as high as the second.
    private static Fix? Board(CheckInput input, PlacedPanel first, PlacedPanel second, Vec2 from, Vec2 to, string half)
    {
        if ((second.Fact.MirrorOf ?? second.Fact).Find("stands") is not { } stands || !stands.Has("from") || !stands.Has("to") || input.Spec.Find(Name()) is not null) return null;
        var evaluator = input.Spec.Evaluator;
        string At(Vec2 p) => $"({input.Say.Length(p.X)}, {input.Say.Length(p.Y)})";
        // Seen from outside the first of the two points is at the left.
        return Fixing.After(second.Fact, $"panel {Name()} of {second.Stack.Name} {{\n    spans from {At(from)} to {At(to)}, standing on {evaluator.SlotSpan(stands, "from").Text}, up to {evaluator.SlotSpan(stands, "to").Text}\n    bevel left {half}\n    bevel right {half}\n}}");

        string Name() => $"{first.Name}_to_{second.Name}";
    }

    // Where a wall that runs the way of an arc's end stops at it, on its outside face seen from above; null of any other wall.
    private static Vec2? End(PlacedPanel wall, Vec2 place, Vec2 way)
    {
        if (Math.Abs(wall.Face.U.XY.Unit.Cross(way.Unit)) > 0.01) return null;
        var box = wall.Outline.Bounds;
        var end = new[] { box.Min.X, box.Max.X }.Select(x => wall.Face.ToWorld(new Vec2(x, box.Centre.Y)).XY).MinBy(p => p.DistanceTo(place));
        return end.DistanceTo(place) <= wall.Thickness + 1 ? end : null;
    }

    // True if upright panels at the corner lead from one wall to the other, each touching the next.
    private static bool IsClosed(Body first, Body second, ImmutableArray<Body> bodies, Vec3 at, double radius)
    {
        var near = bodies.Where(b => b != first && b != second && b.Panel.Lift == first.Panel.Lift && ((b.Around.Min + b.Around.Max) * 0.5 - at) is var away && new Vec2(away.X, away.Y).Length < radius && b.Around.Min.Z < at.Z && b.Around.Max.Z > at.Z).ToList();
        var reached = new Queue<Body>([first]);
        while (reached.TryDequeue(out var body))
        {
            if (body != first && body.Nearest(second, NearlyMeet.Near).Distance < NearlyMeet.Near) return true;
            foreach (var next in near.Where(n => body.Nearest(n, NearlyMeet.Near).Distance < NearlyMeet.Near).ToList())
            {
                near.Remove(next);
                reached.Enqueue(next);
            }
        }
        return false;
    }
}
