using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Model;
using Wain.Core.Text;

namespace Wain.Core.Geometry;
/// <summary>The second half of placing a panel: its outline between the planes of its neighbours, on the face that <see cref="PanelFaces"/> found.</summary>
internal static class PanelPlacer
{
    public static PlacedPanel? Place(Resolver resolver, BoundFact panel)
    {
        if (panel.MirrorOf is not { } original) return resolver.Face(panel.Name!) is { } face && resolver.StackOf(panel) is { } stack ? Made(resolver, panel, face, stack, resolver.Fitted.Value.GetValueOrDefault(panel.Name!)) : null;
        if (resolver.StackOf(panel) is not { } own) return null;
        if (!resolver.IsFitted(panel) && !resolver.IsFitted(original)) return resolver.Panel(original.Name!) is { } source ? MirrorImage(resolver, panel, source, own) : null;
        if (PanelFaces.Face(resolver, original, own) is not { } drawn || Made(resolver, original, drawn, own, null) is not { } design) return null;
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
        // Once for the panel as drawn; its mirror and what a tape says of it change no corner.
        if (built is null) CornerPlacer.TellElsewhere(resolver, panel, face);
        if (outline is not null && face.Placing != PanelPlacing.Covers && outline.SignedArea() > 0) outline = Reached(resolver, panel, outline, "it");
        if (outline is null || outline.Area() < 1 || outline.Crossings() is { Length: > 0 })
        {
            if (outline is not null) resolver.Report(new Finding(PlacingFindings.NoOutline, $"Panel {panel.Name} comes out without an area: what it runs between leaves it no room.", panel.NameSpan) { Subject = panel.Path });
            return null;
        }
        outline = Edges(resolver, panel, outline);
        if (outline.AtDepth(stack.Thickness) is { Outline: null } closed)
            resolver.Report(new Finding(PlacingFindings.Bevels, $"Panel {panel.Name}: its bevels meet {resolver.Spec.Say.Length(Math.Round(closed.Part * stack.Thickness, 2))} below its outside face, and it is {resolver.Spec.Say.Length(stack.Thickness)} thick.", panel.NameSpan) { Subject = panel.Path, Hint = "Bevel it less, or make it wider." });
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
        if (Reached(resolver, panel, face.Plan!.Outline, $"plan {face.Plan.Name}") is not { } plan) return null;
        bool level = Math.Abs(face.Frame.N.Z) > 1 - 1e-12;
        bool curved = plan.HasArcs;
        var edges = ImmutableArray.CreateBuilder<OutlineEdge>(plan.Count);
        for (int i = 0; i < plan.Count; i++)
        {
            var segment = plan.Segment(i);
            // Sides of the plan are plumb, so on a pitched panel they are bevelled. Round a curve the bevel would change from place to place, which no saw follows: there all are cut square.
            var plumb = segment.Chord.Unit.Right;
            double tilt = level || curved ? 0 : TiltOf(face.Frame, new Vec3(plumb.X, plumb.Y, 0), segment);
            foreach (var (start, sweep) in segment.Image(p => OnFace(face.Frame, p), 0.1)) edges.Add(new OutlineEdge(start, sweep, plan.Edges[i].Name, tilt));
        }
        var outline = new Outline(edges.ToImmutable());
        return outline.CounterClockwise;
    }

    /// <summary>An outline with the sides moved that the panel says reach beyond it or stay inside; null if nothing is left.</summary>
    /// <param name="what">What the outline is of, as a message says it.</param>
    private static Outline? Reached(Resolver resolver, BoundFact panel, Outline outline, string what)
    {
        var by = new Dictionary<string, double>(StringComparer.Ordinal);
        foreach (var (keyword, sign) in new[] { ("overhang", 1), ("inset", -1) })
        {
            foreach (var fact in panel.All(keyword))
            {
                string edge = fact.Word("edge") ?? "";
                if (edge != "all" && outline.IndexOf(edge) < 0) NoEdge(resolver, fact, edge, outline);
                else if (resolver.Evaluator.Length(fact, "value") is { } value) by[edge] = sign * value;
            }
        }
        if (by.Count == 0) return outline;
        var moved = outline.Offset(i => by.TryGetValue(outline.Edges[i].Name ?? "", out double own) ? own : by.GetValueOrDefault("all"));
        if (moved.Outline is null)
            resolver.Report(new Finding(PlacingFindings.OffsetFails, $"Panel {panel.Name}: inset so far, nothing is left of {what}; {(by is { Count: 1 } && by.First() is { Key: "all", Value: var all } ? resolver.Spec.Say.AtMost(-all * moved.Part) : $"{Math.Floor(moved.Part * 100)} % of it")} is the most.", panel.NameSpan) { Subject = panel.Path });
        return moved.Outline;
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
        bool upsideDown = high < low - 1;
        string why = high - low < 1 ? $"its top is at {resolver.Spec.Say.Length(Math.Round(high, 4))} and its bottom at {resolver.Spec.Say.Length(Math.Round(low, 4))}" : $"it is {resolver.Spec.Say.Length(Math.Round(wide, 4))} long between its ends";
        resolver.Report(new Finding(PlacingFindings.NoOutline, $"Panel {panel.Name} comes out without an area: {why}.", panel.NameSpan)
        {
            Subject = panel.Path,
            Hint = upsideDown ? $"What it stands on comes first; its top has to lie above {resolver.Spec.Say.Length(Math.Round(low, 4))}." : null,
            Fixes = upsideDown ? Swapped(resolver, panel, face.Placing == PanelPlacing.Spans ? ("bottom", "top") : ("from", "to")) : [],
        });
        return null;
    }

    private static ImmutableArray<Fix> Swapped(Resolver resolver, BoundFact panel, (string Low, string High) slots)
    {
        if (panel.Body.FirstOrDefault(f => f.Keyword is "stands" or "spans") is not { } way) return [];
        var (low, high) = (resolver.Evaluator.SlotSpan(way, slots.Low), resolver.Evaluator.SlotSpan(way, slots.High));
        // What stands on a face is not the upper end of anything: there the number is wrong, and which number is meant only the builder knows.
        if (low.End > high.Start || low.Text.EndsWith(".top", StringComparison.Ordinal) || high.Text.EndsWith(".bottom", StringComparison.Ordinal)) return [];
        string between = low.Source.Text[low.End..high.Start];
        return [new Fix(low.To(high), high.Text + between + low.Text, $"write {high.Text + between + low.Text}")];
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
            else if (resolver.Evaluator.Angle(bevel, "angle") is { } angle)
            {
                if (Math.Abs(angle) < Steepest) outline = outline.WithEdge(edge, e => e with { Tilt = -angle });
                else TooSteep(resolver, bevel, angle);
            }
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
        var rounding = new BoundFact?[outline.Count];
        var bounds = outline.Bounds;
        foreach (var one in facts)
        {
            var target = one.Word("corner") switch { "lower_left" => bounds.Min, "lower_right" => new Vec2(bounds.Max.X, bounds.Min.Y), "upper_right" => bounds.Max, _ => new Vec2(bounds.Min.X, bounds.Max.Y) };
            int nearest = Enumerable.Range(0, outline.Count).MinBy(i => outline.Edges[i].Start.DistanceTo(target));
            (radii[nearest], rounding[nearest]) = (resolver.Evaluator.Length(one, "radius") ?? 0, one);
        }
        var rounded = outline.Rounded(i => radii[i]);
        if (rounded.Outline is { } done) return done;
        var failure = rounded.Failure!;
        var fact = rounding[failure.Corner] ?? facts[0];
        string why = double.IsFinite(failure.Needed) ? $"an arc of radius {resolver.Spec.Say.Length(failure.Radius)} does not fit its corner; at most {resolver.Spec.Say.Length(failure.LargestRadius)} does" : "one side of that corner is bowed, and only a corner between two straight sides is rounded";
        resolver.Report(new Finding(PlacingFindings.Rounding, $"Panel {panel.Name}: {why}.", fact.HeadSpan)
        {
            Subject = panel.Path,
            Fixes = failure.LargestRadius > 25.4 / 16 ? [Fixing.Write(resolver.Spec, fact, "radius", resolver.Spec.Say.AtMost(failure.LargestRadius))] : [],
        });
        return outline;
    }

    // A degree short of lying in the face, an edge is some fifty times as wide as the panel is thick (radians).
    private const double Steepest = 89.5 * Math.PI / 180;

    private static void TooSteep(Resolver resolver, BoundFact bevel, double angle)
    {
        double degrees = Math.Abs(angle) * 180 / Math.PI, fromFace = Math.Round(degrees - 90, 4);
        string written = $"{fromFace.ToString("0.####", System.Globalization.CultureInfo.InvariantCulture)} deg";
        resolver.Report(new Finding(PlacingFindings.Bevels, $"A bevel of {Say.Angle(angle)} is no edge: 0 deg is square, and 90 deg would lie in the face.", resolver.Evaluator.SlotSpan(bevel, "angle"))
        {
            Subject = bevel.Path,
            Hint = fromFace is >= 0 and < 90 ? $"Measured from the face, it is {written} from square." : null,
            Fixes = fromFace is >= 0 and < 90 ? [Fixing.Write(resolver.Spec, bevel, "angle", written)] : [],
        });
    }

    private static void NoEdge(Resolver resolver, BoundFact fact, string edge, Outline outline)
    {
        var names = outline.Edges.Select(e => e.Name ?? "").Where(n => n.Length > 0).ToList();
        var (nearest, at) = (NearestName.Of(edge, names), resolver.Evaluator.SlotSpan(fact, "edge"));
        resolver.Report(new Finding(PlacingFindings.NoSuchEdge, $"{fact.Parent?.Name ?? "This"} has no edge named \"{edge}\".{NearestName.Ask(nearest)}", at) { Subject = fact.Path, Hint = $"Its edges are {string.Join(", ", names)}.", Fixes = Fixing.Nearest(at, nearest) });
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
