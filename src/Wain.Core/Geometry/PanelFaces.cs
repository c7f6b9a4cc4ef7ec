using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Model;
using Wain.Core.Text;

namespace Wain.Core.Geometry;

/// <summary>Planes that an upright panel runs between; their normals point out of the panel.</summary>
internal sealed record PanelLimits(Plane Bottom, Plane Top);

/// <summary>Where a panel's outside face lies, before its outline is known. Origin is any point of the face.</summary>
internal sealed record PanelFace(Frame Frame, PanelPlacing Placing)
{
    /// <summary>For panels that run between levels or faces.</summary>
    public PanelLimits? Limits { get; init; }

    /// <summary>For a panel that covers a plan.</summary>
    public PlacedPlan? Plan { get; init; }

    /// <summary>For a panel that stands on a leg.</summary>
    public int Leg { get; init; } = -1;

    /// <summary>For a panel given by its corners: those of the outside face, lower left first, counter-clockwise.</summary>
    public ImmutableArray<Vec3> Corners { get; init; } = [];
}

/// <summary>The first half of placing a panel: the plane of its outside face, and what its outline will run between.</summary>
internal static class PanelFaces
{
    private static readonly string[] Ways = ["covers", "stands", "spans", "leans", "through"];

    public static PanelFace? Face(Resolver resolver, BoundFact panel)
    {
        if (panel.MirrorOf is { } original)
        {
            // What is built is never copied: the mirror of a fitted panel, or one that is fitted itself, is placed as the drawing says with its own thickness.
            var copied = resolver.IsFitted(panel) || resolver.IsFitted(original) ? resolver.StackOf(panel) is { } own ? Face(resolver, original, own) : null : resolver.Face(original.Name!);
            return copied is { } face ? face with { Frame = face.Frame.Mirrored, Limits = face.Limits is { } l ? new PanelLimits(Mirror(l.Bottom), Mirror(l.Top)) : null } : null;
        }
        var ways = panel.Body.Where(f => Ways.Contains(f.Keyword)).ToList();
        if (ways.Count != 1)
        {
            if (ways.Count == 0) resolver.Report(new Finding(PlacingFindings.NotPlaced, $"Panel {panel.Name} has no place.", panel.NameSpan) { Subject = panel.Path, Hint = "It covers a plan, stands on a leg of one, spans two points, leans between two edges, or goes through three points." });
            else resolver.Report(new Finding(PlacingFindings.PlacedTwice, $"Panel {panel.Name} is placed in {ways.Count} ways.", ways[1].HeadSpan) { Subject = panel.Path, Hint = "Take one of the two lines out.", Related = [new Related(ways[0].HeadSpan, "placed here already")] });
            return null;
        }
        ways[0].Used = true;
        return resolver.StackOf(panel) is { } stack ? Face(resolver, panel, stack) : null;
    }

    /// <summary>The face of a panel whose stack is given, as drawn; null where it has no one way of being placed.</summary>
    public static PanelFace? Face(Resolver resolver, BoundFact panel, Stack stack)
    {
        if (panel.Body.Where(f => Ways.Contains(f.Keyword)).ToList() is not { Count: 1 } ways) return null;
        return ways[0].Keyword switch
        {
            "covers" => Covers(resolver, panel, ways[0], stack),
            "stands" => Stands(resolver, panel, ways[0], stack),
            "spans" => Spans(resolver, panel, ways[0]),
            "leans" => Leans(resolver, panel, ways[0]),
            _ => Through(resolver, panel, ways[0]),
        };
    }

    private static Plane Mirror(Plane plane) => new(plane.Normal.Mirrored, plane.Offset);

    private static PanelFace? Covers(Resolver resolver, BoundFact panel, BoundFact way, Stack stack)
    {
        if (resolver.Evaluator.Thing(way, "plan") is not { Name: { } planName } || resolver.Plan(planName) is not { } plan) return null;
        bool under = way.Has("underside");
        if (under == way.Has("top"))
        {
            resolver.Report(new Finding(PlacingFindings.NotPlaced, under ? $"Panel {panel.Name} states the heights of both its faces; its stack of {resolver.Spec.Say.Length(stack.Thickness)} gives one from the other." : $"Panel {panel.Name} does not say how high it lies.", way.HeadSpan)
            {
                Subject = panel.Path,
                Hint = under ? "Leave out one of the two: underside at, or top at." : resolver.Spec.Say.Such("40 in", "1000 mm") is var high ? $"Write after the plan the height of one face, such as: underside at {high}, or: top at {high}" : null,
            });
            return null;
        }
        if (resolver.LevelPlane(way, under ? "underside" : "top", towardsUp: true) is not { } level) return null;
        // The face whose level is stated is the outside one, unless the panel says which way its outside looks.
        bool outsideUp = panel.Find("outside")?.Word("face") is { } said ? said == "up" : !under;
        Vec3 normal;
        double height;
        if (Math.Abs(level.Normal.Z) < 1 - 1e-9)
        {
            // It lies on, or hangs under, a face that is itself pitched.
            normal = level.Normal.Z > 0 ? level.Normal : -level.Normal;
            height = double.NaN;
        }
        else
        {
            height = level.Offset * Math.Sign(level.Normal.Z);
            double pitch = resolver.Evaluator.Angle(way, "pitch") ?? 0;
            var down = way.Word("toward") switch { "forward" => new Vec2(1, 0), "left" => new Vec2(0, 1), "right" => new Vec2(0, -1), _ => new Vec2(-1, 0) };
            normal = new Vec3(Math.Sin(pitch) * down.X, Math.Sin(pitch) * down.Y, Math.Cos(pitch));
        }
        Plane stated;
        if (double.IsNaN(height)) stated = level.Normal.Z > 0 ? level : level.Flipped;
        else
        {
            // A pitched panel has its stated height along its highest side.
            double low = plan.Outline.Flattened(0.1).Corners.Min(c => c.X * normal.X + c.Y * normal.Y);
            stated = new Plane(normal, low + height * normal.Z);
        }
        bool statedIsOutside = under != outsideUp;
        var outside = outsideUp ? stated : stated.Flipped;
        if (!statedIsOutside) outside = outside.Moved(stack.Thickness);
        var u = new Vec3(0, outsideUp ? -1 : 1, 0);
        var forward = new Vec3(1, 0, 0);
        if (Frame.Of(outside.Normal * outside.Offset, u - outside.Normal * u.Dot(outside.Normal), forward - outside.Normal * forward.Dot(outside.Normal)) is not { } frame) return null;
        return new PanelFace(frame, PanelPlacing.Covers) { Plan = plan };
    }

    private static PanelFace? Stands(Resolver resolver, BoundFact panel, BoundFact way, Stack stack)
    {
        if (resolver.Evaluator.PathOf(way, "leg") is not { } path) return null;
        var (thing, words) = path;
        if (thing.Keyword != "plan" || words.Length != 1)
        {
            resolver.Report(new Finding(BindingFindings.WrongThing, $"A wall stands on a leg of a plan, such as bunk.nose; {thing.Name} is {Article.With(thing.Keyword)}.", resolver.Evaluator.SlotSpan(way, "leg")) { Subject = panel.Path });
            return null;
        }
        if (resolver.Plan(thing.Name!) is not { } plan) return null;
        int leg = plan.Outline.IndexOf(words[0]);
        if (leg < 0)
        {
            // In the order walked, which the outline may have turned round.
            var names = plan.Outline.Edges.Select(e => e.Name ?? "").Where(n => n.Length > 0).ToList();
            var walked = plan.Fact.All("leg").Select(f => f.Name ?? "").Where(names.Contains).ToList();
            names = [.. walked, .. names.Except(walked)];
            resolver.Report(new Finding(PlacingFindings.NoSuchEdge, $"Plan {plan.Name} has no leg named \"{words[0]}\".{NearestName.Ask(NearestName.Of(words[0], names))}", resolver.Evaluator.SlotSpan(way, "leg"))
            {
                Subject = panel.Path,
                Hint = $"Its legs are {string.Join(", ", names)}.",
                Fixes = Fixing.Nearest(resolver.Evaluator.SlotSpan(way, "leg"), NearestName.Of(words[0], names)),
            });
            return null;
        }
        if (Limits(resolver, panel, way, "from", "to") is not { } limits) return null;
        var segment = plan.Outline.Segment(leg);
        var along = segment.Chord.Unit;
        double lean = (resolver.Evaluator.Angle(way, "lean") ?? 0) * (way.Word("leaning") == "outward" ? 1 : -1);
        var outward = new Vec3(along.Right.X, along.Right.Y, 0);
        var normal = new Vec3(outward.X * Math.Cos(lean), outward.Y * Math.Cos(lean), -Math.Sin(lean));
        // The leg lies on the outside face, on the outside of the frame, or on the inside face.
        double shift = plan.Lies switch
        {
            "inside" => stack.Thickness,
            "frame" => stack.Frame is { } frame ? stack.DepthOf(frame) : 0,
            _ => 0,
        };
        double foot = limits.Bottom.Normal.Z < -1e-9 && Math.Abs(limits.Bottom.Normal.Z) > 1 - 1e-9 ? -limits.Bottom.Offset : 0;
        var origin = new Vec3(segment.From.X, segment.From.Y, foot) + normal * shift;
        if (Frame.Of(origin, new Vec3(along.X, along.Y, 0), new Vec3(0, 0, 1)) is not { } placed) return null;
        // A leaning face keeps the direction of the leg as its U; V is up along the face.
        var v = normal.Cross(placed.U);
        if (v.Z < 0) v = -v;
        return new PanelFace(new Frame(origin, placed.U, v), PanelPlacing.Stands) { Plan = plan, Leg = leg, Limits = limits };
    }

    private static PanelLimits? Limits(Resolver resolver, BoundFact panel, BoundFact way, string from, string to)
    {
        if (!way.Has(from) || !way.Has(to))
        {
            resolver.Report(new Finding(PlacingFindings.NotPlaced, $"Panel {panel.Name} needs to know from where to where it stands.", way.HeadSpan) { Subject = panel.Path, Hint = $"Write after the place: {from} FACE_OR_HEIGHT {to} FACE_OR_HEIGHT" });
            return null;
        }
        if (resolver.LevelPlane(way, from, towardsUp: true) is not { } low || resolver.LevelPlane(way, to, towardsUp: false) is not { } high) return null;
        // Planes as faces of the panel that stands between: out of it is down at the bottom and up at the top.
        var bottom = low.Normal.Z > 0 ? low.Flipped : low;
        var top = high.Normal.Z < 0 ? high.Flipped : high;
        return new PanelLimits(bottom, top);
    }

    private static PanelFace? Spans(Resolver resolver, BoundFact panel, BoundFact way)
    {
        if (Limits(resolver, panel, way, "bottom", "top") is not { } limits) return null;
        if (resolver.Evaluator.Place(way, "a") is not { } a || resolver.Evaluator.Place(way, "b") is not { } b) return null;
        var from = new Vec3(a[0], a[1], 0);
        var to = new Vec3(b[0], b[1], 0);
        if (Frame.Of(from, to - from, new Vec3(0, 0, 1)) is { } frame && from.DistanceTo(to) > Tolerance.Length) return new PanelFace(frame, PanelPlacing.Spans) { Limits = limits, Corners = [from, to] };
        resolver.Report(new Finding(PlacingFindings.NoOutline, $"Panel {panel.Name} spans two points that are one.", way.HeadSpan) { Subject = panel.Path });
        return null;
    }

    private static PanelFace? Leans(Resolver resolver, BoundFact panel, BoundFact way)
    {
        if (EdgeOf(resolver, way, "lower") is not { } low || EdgeOf(resolver, way, "upper") is not { } high) return null;
        var (lower, upper) = (Facing(low, high), Facing(high, low));
        if ((upper.To - upper.From).Dot(lower.To - lower.From) < 0) upper = (upper.To, upper.From);
        var middle = upper.From.Lerp(upper.To, 0.5);
        var want = panel.Find("outside")?.Word("face") switch
        {
            "up" => new Vec3(0, 0, 1), "down" => new Vec3(0, 0, -1), "left" => new Vec3(0, 1, 0), "right" => new Vec3(0, -1, 0), "forward" => new Vec3(1, 0, 0), "aft" => new Vec3(-1, 0, 0),
            _ => new Vec3(0, 0, 0),
        };
        var u = (lower.To - lower.From).Unit;
        var normal = u.Cross(middle - lower.From).Unit;
        if (want.Length == 0) want = normal.Z > 0.2 ? normal : normal.Z < -0.2 ? -normal : new Vec3(1, 0, 0);
        if (normal.Dot(want) < 0)
        {
            (lower, upper) = ((lower.To, lower.From), (upper.To, upper.From));
            u = -u;
        }
        if (Frame.Of(lower.From, u, middle - lower.From) is { } frame) return new PanelFace(frame, PanelPlacing.Leans) { Corners = [lower.From, lower.To, upper.To, upper.From] };
        resolver.Report(new Finding(PlacingFindings.NoOutline, $"Panel {panel.Name} leans between two edges that lie on one line.", way.HeadSpan) { Subject = panel.Path });
        return null;
    }

    // The edge of the face that looks toward the other panel: of a deck below its top, of one above its underside, whichever of the two is its outside.
    private static (Vec3 From, Vec3 To) Facing((PlacedPanel Panel, int Edge) side, (PlacedPanel Panel, int Edge) other)
    {
        static (Vec3 From, Vec3 To) Line((PlacedPanel Panel, int Edge) side, double depth)
        {
            var segment = side.Panel.OutlineAt(depth).Segment(side.Edge);
            return (side.Panel.Face.ToWorld(segment.From, depth), side.Panel.Face.ToWorld(segment.To, depth));
        }
        static Vec3 Middle((PlacedPanel Panel, int Edge) side) => Line(side, side.Panel.Thickness / 2) is var line ? line.From.Lerp(line.To, 0.5) : default;
        bool inside = (Middle(other) - Middle(side)).Dot(side.Panel.Face.N) < -Tolerance.Length;
        return Line(side, inside ? side.Panel.Thickness : 0);
    }

    private static (PlacedPanel Panel, int Edge)? EdgeOf(Resolver resolver, BoundFact way, string slot)
    {
        if (resolver.Evaluator.PathOf(way, slot) is not { } path) return null;
        var (thing, words) = path;
        var nearest = (IReadOnlyList<string>)[];
        if (words.Length == 1 && resolver.PanelFact(thing.Name ?? "") is not null)
        {
            if (resolver.Panel(thing.Name!) is not { } panel) return null;
            int edge = panel.Outline.IndexOf(words[0]);
            if (edge >= 0) return (panel, edge);
            nearest = NearestName.Of(words[0], panel.Outline.Edges.Select(e => e.Name ?? ""));
        }
        resolver.Report(new Finding(PlacingFindings.NoSuchEdge, $"\"{resolver.Evaluator.SlotSpan(way, slot).Text}\" is no edge of a panel.{NearestName.Ask(nearest)}", resolver.Evaluator.SlotSpan(way, slot)) { Subject = way.Path, Fixes = Fixing.Nearest(resolver.Evaluator.SlotSpan(way, slot), nearest) });
        return null;
    }

    private static PanelFace? Through(Resolver resolver, BoundFact panel, BoundFact way)
    {
        if (resolver.Evaluator.Place(way, "origin") is not { } o || resolver.Evaluator.Place(way, "along") is not { } a || resolver.Evaluator.Place(way, "up") is not { } b) return null;
        var (p, q, r) = (new Vec3(o[0], o[1], o[2]), new Vec3(a[0], a[1], a[2]), new Vec3(b[0], b[1], b[2]));
        if (Frame.ThroughPoints(p, q, r) is not { } frame)
        {
            resolver.Report(new Finding(PlacingFindings.NoOutline, $"Panel {panel.Name}: the three points lie on one line.", way.HeadSpan) { Subject = panel.Path });
            return null;
        }
        if (way.Has("shape"))
        {
            return resolver.Evaluator.Thing(way, "shape") is { Name: { } name } && resolver.Plan(name) is { } plan ? new PanelFace(frame, PanelPlacing.Through) { Plan = plan } : null;
        }
        double aside = frame.U.Dot(r - p);
        if (Math.Abs(aside) > PlanPlacer.DefaultTolerance)
        {
            var square = r - frame.U * aside;
            string At(Vec3 v) => $"({resolver.Spec.Say.ToTape(v.X)}, {resolver.Spec.Say.ToTape(v.Y)}, {resolver.Spec.Say.ToTape(v.Z)})";
            resolver.Report(new Finding(PlacingFindings.Skewed, $"The third point of {panel.Name} lies {resolver.Spec.Say.Nearly(Math.Abs(aside))} to the {(aside > 0 ? "right" : "left")} of its first, seen from outside: the panel is a parallelogram.", way.HeadSpan)
            {
                Subject = panel.Path,
                Hint = $"Square over the first it is {At(square)}. A panel of another shape goes through three points with a shape: the name of a plan.",
                Fixes = [Fixing.Write(resolver.Spec, way, "up", At(square))],
            });
        }
        return new PanelFace(frame, PanelPlacing.Through) { Corners = [p, q, q + (r - p), r] };
    }
}
