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

/// <summary>Places panels: the plane of the face first, then the outline between the planes of its neighbours.</summary>
internal static class PanelPlacer
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
            else resolver.Report(new Finding(PlacingFindings.PlacedTwice, $"Panel {panel.Name} is placed in {ways.Count} ways.", ways[1].HeadSpan) { Subject = panel.Path, Related = [new Related(ways[0].HeadSpan, "placed here already")] });
            return null;
        }
        ways[0].Used = true;
        return resolver.StackOf(panel) is { } stack ? Face(resolver, panel, stack) : null;
    }

    private static PanelFace? Face(Resolver resolver, BoundFact panel, Stack stack)
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

    // ---- the plane of the face -----------------------------------------------------------------------------------------------------

    private static PanelFace? Covers(Resolver resolver, BoundFact panel, BoundFact way, Stack stack)
    {
        if (resolver.Evaluator.Thing(way, "plan") is not { Name: { } planName } || resolver.Plan(planName) is not { } plan) return null;
        bool under = way.Has("underside");
        if (under == way.Has("top"))
        {
            resolver.Report(new Finding(PlacingFindings.NotPlaced, $"Panel {panel.Name} needs one height: underside at, or top at.", way.HeadSpan) { Subject = panel.Path });
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
            resolver.Report(new Finding(BindingFindings.WrongThing, $"A wall stands on a leg of a plan, such as bunk.nose; {thing.Name} is a {thing.Keyword}.", resolver.Evaluator.SlotSpan(way, "leg")) { Subject = panel.Path });
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
            resolver.Report(new Finding(PlacingFindings.NoSuchEdge, $"Plan {plan.Name} has no leg named \"{words[0]}\".{NearestName.Ask(NearestName.Of(words[0], names))}", resolver.Evaluator.SlotSpan(way, "leg")) { Subject = panel.Path, Hint = $"Its legs are {string.Join(", ", names)}." });
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
        if (EdgeLine(resolver, way, "lower") is not { } lower || EdgeLine(resolver, way, "upper") is not { } upper) return null;
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

    private static (Vec3 From, Vec3 To)? EdgeLine(Resolver resolver, BoundFact way, string slot)
    {
        if (resolver.Evaluator.PathOf(way, slot) is not { } path) return null;
        var (thing, words) = path;
        if (words.Length == 1 && resolver.PanelFact(thing.Name ?? "") is not null)
        {
            if (resolver.Panel(thing.Name!) is not { } panel) return null;
            int edge = panel.Outline.IndexOf(words[0]);
            if (edge >= 0) return (panel.Face.ToWorld(panel.Outline.Segment(edge).From), panel.Face.ToWorld(panel.Outline.Segment(edge).To));
        }
        resolver.Report(new Finding(PlacingFindings.NoSuchEdge, $"\"{resolver.Evaluator.SlotSpan(way, slot).Text}\" is no edge of a panel.", resolver.Evaluator.SlotSpan(way, slot)) { Subject = way.Path });
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
        return new PanelFace(frame, PanelPlacing.Through) { Corners = [p, q, q + (r - p), r] };
    }

    // ---- the outline ---------------------------------------------------------------------------------------------------------------

    public static PlacedPanel? Place(Resolver resolver, BoundFact panel)
    {
        if (panel.MirrorOf is not { } original) return resolver.Face(panel.Name!) is { } face && resolver.StackOf(panel) is { } stack ? Made(resolver, panel, face, stack, resolver.Fitted.Value.GetValueOrDefault(panel.Name!)) : null;
        if (resolver.StackOf(panel) is not { } own) return null;
        if (!resolver.IsFitted(panel) && !resolver.IsFitted(original)) return resolver.Panel(original.Name!) is { } source ? MirrorImage(resolver, panel, source, own) : null;
        if (Face(resolver, original, own) is not { } drawn || Made(resolver, original, drawn, own, null) is not { } design) return null;
        var image = MirrorImage(resolver, panel, design, own);
        return resolver.Fitted.Value.TryGetValue(panel.Name!, out var built) ? MeasuredImage(resolver, panel, image, built) : image;
    }

    // As measured; what is on it keeps its distance from the edge that it is measured from, which a mirror has at its right.
    private static PlacedPanel MeasuredImage(Resolver resolver, BoundFact panel, PlacedPanel image, BoundFact built)
    {
        var outline = AsMeasured.Of(resolver, panel, built, image.Face, image.Outline);
        var (low, more) = (outline.Bounds.Min, new Vec2(outline.Bounds.Width - image.Outline.Bounds.Width, 0));
        return image with
        {
            Face = image.Face with { Origin = image.Face.ToWorld(low) },
            Outline = outline.Translated(-low),
            Zones = [.. image.Zones.Select(z => z with { Region = z.Region.Translated(more) })],
            Openings = [.. image.Openings.Select(o => o with { Hole = o.Hole.Translated(more), Recess = o.Recess is { } r ? r with { Region = r.Region.Translated(more) } : null })],
        };
    }

    /// <param name="built">What a tape says of it, or null to place it as drawn.</param>
    private static PlacedPanel? Made(Resolver resolver, BoundFact panel, PanelFace face, Stack stack, BoundFact? built)
    {
        var outline = face.Placing switch
        {
            PanelPlacing.Covers => CoverOutline(resolver, panel, face),
            PanelPlacing.Stands or PanelPlacing.Spans => UprightOutline(resolver, panel, face, stack),
            _ when face.Plan is { } plan => plan.Outline,
            _ => Quadrilateral(face),
        };
        if (outline is null || outline.Area() < 1 || outline.Crossings() is { Length: > 0 })
        {
            if (outline is not null) resolver.Report(new Finding(PlacingFindings.NoOutline, $"Panel {panel.Name} comes out without an area: what it runs between leaves it no room.", panel.NameSpan) { Subject = panel.Path });
            return null;
        }
        outline = Edges(resolver, panel, outline);
        if (built is not null) outline = AsMeasured.Of(resolver, panel, built, face.Frame, outline);
        // The panel's own axes begin at the lower left corner of what bounds it, as seen from outside.
        var low = outline.Bounds.Min;
        var frame = face.Frame with { Origin = face.Frame.ToWorld(low) };
        outline = outline.Translated(-low);
        outline = RoundCorners(resolver, panel, outline);
        var placed = new PlacedPanel(panel.Name!, panel, stack, frame, outline, [], [], face.Placing, null, resolver.LiftOf.GetValueOrDefault(panel.Name!));
        placed = placed with { Zones = ZonePlacer.Place(resolver, placed) };
        return placed with { Openings = OpeningPlacer.Place(resolver, placed) };
    }

    private static Outline? CoverOutline(Resolver resolver, BoundFact panel, PanelFace face)
    {
        var plan = face.Plan!.Outline;
        var by = new Dictionary<string, double>(StringComparer.Ordinal);
        foreach (var (keyword, sign) in new[] { ("overhang", 1), ("inset", -1) })
        {
            foreach (var fact in panel.All(keyword))
            {
                string edge = fact.Word("edge") ?? "";
                if (edge != "all" && plan.IndexOf(edge) < 0) NoEdge(resolver, fact, edge, plan);
                else if (resolver.Evaluator.Length(fact, "value") is { } value) by[edge] = sign * value;
            }
        }
        if (by.Count > 0)
        {
            var moved = plan.Offset(i => by.TryGetValue(plan.Edges[i].Name ?? "", out double own) ? own : by.GetValueOrDefault("all"));
            if (moved.Outline is null)
            {
                resolver.Report(new Finding(PlacingFindings.OffsetFails, $"Panel {panel.Name}: inset so far, nothing is left of plan {face.Plan.Name}.", panel.NameSpan) { Subject = panel.Path });
                return null;
            }
            plan = moved.Outline;
        }
        bool level = Math.Abs(face.Frame.N.Z) > 1 - 1e-12;
        if (!level && plan.HasArcs) plan = plan.Flattened(0.1);
        var edges = ImmutableArray.CreateBuilder<OutlineEdge>(plan.Count);
        for (int i = 0; i < plan.Count; i++)
        {
            var segment = plan.Segment(i);
            // Sides of the plan are plumb, so on a pitched panel they are bevelled.
            var plumb = segment.Chord.Unit.Right;
            edges.Add(new OutlineEdge(OnFace(face.Frame, segment.From), face.Frame.N.Z > 0 ? segment.Sweep : -segment.Sweep, plan.Edges[i].Name, level ? 0 : TiltOf(face.Frame, new Vec3(plumb.X, plumb.Y, 0), segment)));
        }
        var outline = new Outline(edges.ToImmutable());
        return outline.CounterClockwise;
    }

    /// <summary>The point of the face above or below a point of the plan.</summary>
    private static Vec2 OnFace(Frame face, Vec2 plan)
    {
        double z = (face.Plane.Offset - face.N.X * plan.X - face.N.Y * plan.Y) / face.N.Z;
        return Local(face, new Vec3(plan.X, plan.Y, z));
    }

    private static Vec2 Local(Frame face, Vec3 world)
    {
        var local = face.ToLocal(world);
        return new Vec2(local.X, local.Y);
    }

    private static double TiltOf(Frame face, Vec3 edgeNormal, Segment plan)
    {
        var direction = (face.ToWorld(OnFace(face, plan.To)) - face.ToWorld(OnFace(face, plan.From))).Unit;
        return Tilt(face, edgeNormal, direction);
    }

    /// <summary>The tilt of an edge cut by a plane with this outward normal, running in this direction: the outline at depth d lies d tan(tilt) farther out.</summary>
    private static double Tilt(Frame face, Vec3 edgeNormal, Vec3 direction)
    {
        var outwardInFace = direction.Cross(face.N).Unit;
        if (outwardInFace.Dot(edgeNormal) < 0) outwardInFace = -outwardInFace;
        return Math.Atan2(edgeNormal.Dot(face.N), edgeNormal.Dot(outwardInFace));
    }

    private static Outline? UprightOutline(Resolver resolver, BoundFact panel, PanelFace face, Stack stack)
    {
        var limits = face.Limits!;
        Plane left, right;
        if (face.Placing == PanelPlacing.Spans)
        {
            left = Plane.Through(face.Corners[0], -face.Frame.U);
            right = Plane.Through(face.Corners[1], face.Frame.U);
        }
        else
        {
            left = CornerPlacer.End(resolver, panel, face, stack, atStart: true);
            right = CornerPlacer.End(resolver, panel, face, stack, atStart: false);
        }
        (Plane Plane, string Name)[] sides = [(limits.Bottom, "bottom"), (right, "right"), (limits.Top, "top"), (left, "left")];
        var corners = new Vec3[4];
        for (int i = 0; i < 4; i++)
        {
            // Corner i lies between the side before and side i.
            if (Plane.Meet(face.Frame.Plane, sides[(i + 3) % 4].Plane, sides[i].Plane) is not { } corner)
            {
                resolver.Report(new Finding(PlacingFindings.NoOutline, $"Panel {panel.Name}: its {sides[(i + 3) % 4].Name} and {sides[i].Name} never meet.", panel.NameSpan) { Subject = panel.Path });
                return null;
            }
            corners[i] = corner;
        }
        var edges = sides.Select((s, i) => new OutlineEdge(Local(face.Frame, corners[i]), 0, s.Name, Tilt(face.Frame, s.Plane.Normal, corners[(i + 1) % 4] - corners[i]))).ToImmutableArray();
        var outline = new Outline(edges);
        if (outline.SignedArea() > 1) return outline;
        double high = (corners[2].Z + corners[3].Z) / 2, low = (corners[0].Z + corners[1].Z) / 2, wide = (corners[1] - corners[0]).Dot(face.Frame.U);
        string why = high - low < 1 ? $"its top is at {Show.Length(Math.Round(high, 4))} and its bottom at {Show.Length(Math.Round(low, 4))}" : $"it is {Show.Length(Math.Round(wide, 4))} long between its ends";
        resolver.Report(new Finding(PlacingFindings.NoOutline, $"Panel {panel.Name} comes out without an area: {why}.", panel.NameSpan) { Subject = panel.Path });
        return null;
    }

    private static Outline Quadrilateral(PanelFace face)
    {
        string[] names = ["bottom", "right", "top", "left"];
        return new Outline([.. face.Corners.Select((c, i) => new OutlineEdge(Local(face.Frame, c), 0, names[i]))]);
    }

    /// <summary>Bevels that the panel states itself take the place of those that placing gives.</summary>
    private static Outline Edges(Resolver resolver, BoundFact panel, Outline outline)
    {
        foreach (var bevel in panel.All("bevel"))
        {
            int edge = outline.IndexOf(bevel.Word("edge") ?? "");
            if (edge < 0) NoEdge(resolver, bevel, bevel.Word("edge") ?? "", outline);
            else if (resolver.Evaluator.Angle(bevel, "angle") is { } angle) outline = outline.WithEdge(edge, e => e with { Tilt = -angle });
        }
        foreach (string keyword in new[] { "rounded", "rabbet", "lip", "trimmed_flush" })
        {
            foreach (var fact in panel.All(keyword)) if (outline.IndexOf(fact.Word("edge") ?? "") < 0 && fact.Word("edge") != "all") NoEdge(resolver, fact, fact.Word("edge") ?? "", outline);
        }
        return outline;
    }

    private static Outline RoundCorners(Resolver resolver, BoundFact panel, Outline outline)
    {
        var facts = panel.All("rounded_corner").ToList();
        if (facts.Count == 0) return outline;
        var radii = new double[outline.Count];
        var bounds = outline.Bounds;
        foreach (var fact in facts)
        {
            var target = fact.Word("corner") switch { "lower_left" => bounds.Min, "lower_right" => new Vec2(bounds.Max.X, bounds.Min.Y), "upper_right" => bounds.Max, _ => new Vec2(bounds.Min.X, bounds.Max.Y) };
            int nearest = Enumerable.Range(0, outline.Count).MinBy(i => outline.Edges[i].Start.DistanceTo(target));
            radii[nearest] = resolver.Evaluator.Length(fact, "radius") ?? 0;
        }
        var rounded = outline.Rounded(i => radii[i]);
        if (rounded.Outline is { } done) return done;
        var failure = rounded.Failure!;
        resolver.Report(new Finding(PlacingFindings.Rounding, $"Panel {panel.Name}: an arc of radius {Show.Length(failure.Radius)} does not fit its corner; at most {Show.Length(failure.LargestRadius)} does.", facts[0].HeadSpan) { Subject = panel.Path });
        return outline;
    }

    private static void NoEdge(Resolver resolver, BoundFact fact, string edge, Outline outline)
    {
        var names = outline.Edges.Select(e => e.Name ?? "").Where(n => n.Length > 0).ToList();
        resolver.Report(new Finding(PlacingFindings.NoSuchEdge, $"There is no edge named \"{edge}\" here.{NearestName.Ask(NearestName.Of(edge, names))}", resolver.Evaluator.SlotSpan(fact, "edge")) { Subject = fact.Path, Hint = $"Its edges are {string.Join(", ", names)}." });
    }

    /// <summary>The mirror image of a placed panel: left and right change names, so that each is told as seen from outside.</summary>
    private static PlacedPanel MirrorImage(Resolver resolver, BoundFact panel, PlacedPanel source, Stack stack)
    {
        double width = source.Outline.Bounds.Max.X;
        Outline Flip(Outline outline) => outline.Mirrored.Translated(new Vec2(width, 0)) is var o ? new Outline([.. o.Edges.Select(e => e with { Name = e.Name switch { "left" => "right", "right" => "left", var n => n } })]) : o;
        var frame = source.Face.Mirrored;
        // The mirrored frame's U points the other way, so its origin moves to the corner that is now on the left.
        frame = frame with { Origin = frame.Origin - frame.U * width };
        var zones = source.Zones.Select(z => z with { Region = Flip(z.Region) }).ToImmutableArray();
        var openings = source.Openings.Select(o => o with { Hole = Flip(o.Hole), Recess = o.Recess is { } r ? r with { Region = Flip(r.Region) } : null, Unit = OpeningPlacer.OtherHand(resolver, o.Unit) }).ToImmutableArray();
        var image = new PlacedPanel(panel.Name!, panel, stack, frame, Flip(source.Outline), zones, openings, source.Placing, source.Name, resolver.LiftOf.GetValueOrDefault(panel.Name!));
        if (panel.Body.IsEmpty) return image;
        // What the mirror states itself takes the place of what was copied.
        var ownZones = ZonePlacer.Place(resolver, image);
        var ownOpenings = OpeningPlacer.Place(resolver, image);
        return image with
        {
            Zones = [.. zones.Where(z => ownZones.All(o => o.Name != z.Name)), .. ownZones],
            Openings = [.. openings.Where(z => ownOpenings.All(o => o.Name != z.Name)), .. ownOpenings],
        };
    }
}
