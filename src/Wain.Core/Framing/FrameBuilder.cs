using System.Collections.Immutable;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Model;

namespace Wain.Core.Framing;

/// <summary>From the placed panels to the sticks between their skins.</summary>
public static class FrameBuilder
{
    /// <summary>The frames of every panel whose stack, or a zone's, has a frame layer. Order: panels, then the panel's own frame before its zones'.</summary>
    public static Frames Build(Structure structure)
    {
        var materials = new Dictionary<string, Material>(StringComparer.Ordinal);
        foreach (var m in structure.Materials) materials.TryAdd(m.Name, m);
        return new Frames([.. structure.Panels.SelectMany(p => Of(structure, p, materials))]);
    }

    private static IEnumerable<PanelFrame> Of(Structure structure, PlacedPanel panel, IReadOnlyDictionary<string, Material> materials)
    {
        var frames = panel.Stack.Layers.Where(l => l.Kind == LayerKind.Frame).ToList();
        if (frames.Count == 0 && panel.Zones.All(z => z.Stack.Frame is null)) yield break;
        var rules = FrameRules.Read(structure, panel, materials);
        var steps = PanelStep.Of(structure, panel);
        // An opening within a zone that takes the place of the panel's layers is framed there.
        PlacedZone? ZoneOf(PlacedOpening o) => panel.Zones.FirstOrDefault(z => !z.Added && z.Region.Contains(o.Hole.Bounds.Centre));
        var own = panel.Openings.Where(o => ZoneOf(o) is null).ToList();
        foreach (var layer in frames)
        {
            double below = panel.Stack.DepthOf(layer);
            var area = FrameRules.AreaOf(structure, panel, rules, steps, below, layer.Thickness);
            string prefix = ReferenceEquals(layer, frames[0]) ? "" : $"frame{frames.IndexOf(layer) + 1}.";
            yield return OneFrame(structure, panel, null, layer, rules, area, below, own, [.. panel.Zones.Where(z => !z.Added)], steps, prefix, materials);
        }
        foreach (var zone in panel.Zones)
        {
            if (zone.Stack.Frame is not { } layer) continue;
            double below = zone.Offset + zone.Stack.DepthOf(layer);
            ImmutableArray<Outline> regions = zone.Added ? [zone.Region] : ZoneShapes.Split(panel, zone, panel.OutlineAt(Math.Max(0, below))).Inside;
            var inside = panel.Openings.Where(o => zone.Added ? zone.Region.Contains(o.Hole.Bounds.Centre) : ReferenceEquals(ZoneOf(o), zone)).ToList();
            // A zone follows the rules for spacing; edges by name are the panel's own.
            var plain = rules with { Doubles = [], Margins = [], ExtraStuds = [], Blocking = [] };
            for (int k = 0; k < regions.Length; k++)
                yield return OneFrame(structure, panel, zone, layer, plain, regions[k], below, inside, [], zone.Added ? [] : steps, regions.Length == 1 ? $"{zone.Name}." : $"{zone.Name}{k + 1}.", materials);
        }
    }

    private static PanelFrame OneFrame(
        Structure structure, PlacedPanel panel, PlacedZone? zone, StackLayer layer, FrameRules rules, Outline area, double below, List<PlacedOpening> openings, List<PlacedZone> zones,
        ImmutableArray<PanelStep> steps, string prefix, IReadOnlyDictionary<string, Material> materials)
    {
        var stick = (StickMaterial)layer.Material!;
        double width = layer.FaceWidth, depth = layer.Thickness;
        string mark = MarkOf(structure, panel);
        var axes = new FrameAxes(PanelFacts.IsTurnedRound(panel, rules.Fact), rules.Turned);
        var problems = new List<FrameProblem>();
        var laid = axes.To(area);
        var doubled = DoubledEdges(laid, axes, rules);
        var perimeter = Perimeter.Build(laid, i => OuterWidth(laid.Edges[i].Tilt, width, depth), i => doubled.Contains(i) ? 2 : 1, rules.RailsThrough != rules.Turned);
        string subject = zone is null ? panel.Name : $"{panel.Name}.{zone.Name}";
        foreach (var edge in area.Edges.Where(e => width - depth * Math.Abs(Math.Tan(e.Tilt)) < width / 4).DistinctBy(e => e.Name))
            problems.Add(new(FrameProblemKind.BevelTooSteep, subject, Math.Max(0, width - depth * Math.Abs(Math.Tan(edge.Tilt))), width / 4, edge.Start, edge.Name));
        if (perimeter.Clear is null)
        {
            problems.Add(new(FrameProblemKind.DoesNotFit, subject, 2 * perimeter.FitsTo, 2 * width, area.Centroid()));
            return new(panel, zone, layer, rules, area, null, depth, below, [], [], [], [.. problems]);
        }
        string SideWord(Vec2 d) => PanelFacts.SideWord(axes.Back(d));
        var header = HeaderOf(rules, layer, subject, problems);
        var framed = Holes(structure, openings.Where(o => o.Framed), zones, axes, materials);
        var layout = new Layout(perimeter.Clear, stick, width, SideWord);
        layout.Frame(framed, header?.Stick, header?.Width ?? width, header is null ? 1 : rules.HeaderCount);
        // A zone that is no rectangle has members along its own sides, held by square ones round its bounding rectangle as a sloping opening is in carpentry; rails run on to the zone itself.
        var shaped = zones.Where(z => !ZoneShapes.IsSquare(panel, z)).ToList();
        foreach (var z in shaped) layout.Beside(z.Name, axes.To(z.Region), ZoneShapes.BesideIn(panel, z, axes.Back(perimeter.Clear)).Select(axes.To));
        LayStuds(layout, rules, laid, perimeter.Clear, axes.To(panel.Outline).Bounds.Min.X, width, framed);
        LayBlocking(layout, rules, axes, panel, width);
        layout.FillNarrow(rules.LeastBay ?? width);

        var rough = new List<LaidMember>();
        rough.AddRange(Named(perimeter, width, stick, axes));
        rough = CutByHoles(rough, framed.Where(h => !shaped.Exists(z => h.IsZone && z.Name == h.Name)).Select(h => h.Box));
        foreach (var z in shaped) rough = CutBy(rough, o => ZoneShapes.Split(panel, z, axes.Back(o)) is var (inside, outside) && inside.IsEmpty ? null : [.. outside.Select(axes.To)]);
        rough.AddRange(layout.Members);
        var cavities = layout.Free.Select(o => (Outline: o, Fill: layer.Fill)).Concat(layout.Slivers.Select(o => (Outline: o, Fill: (Material?)null))).ToList();
        foreach (var hole in openings.Where(o => !o.Framed))
        {
            var gone = axes.To(hole.Hole);
            foreach (var cut in rough.Where(r => !r.Outline.Part(gone).Inside.IsEmpty))
                problems.Add(new(FrameProblemKind.MemberCut, $"{panel.Name}.{hole.Name}", 0, 0, hole.Hole.Bounds.Centre, null, prefix + cut.Key));
            rough = CutBy(rough, o => o.Part(gone) is var (inside, outside) && inside.IsEmpty ? null : [.. outside]);
        }
        problems.AddRange(HoleProblems(panel, openings, perimeter.Clear, axes, framed, width));
        var tooClose = problems.Where(p => p.Kind == FrameProblemKind.HolesTooClose).SelectMany(p => new[] { p.Subject, $"{panel.Name}.{p.Other}" }).ToHashSet(StringComparer.Ordinal);
        problems.AddRange(layout.Problems.Select(p => p with { Subject = $"{panel.Name}.{(p.Kind == FrameProblemKind.BayFilled ? prefix : "")}{p.Subject}", At = axes.Back(p.At) })
            .Where(p => p.Kind != FrameProblemKind.NoRoomForMember || (!tooClose.Contains(p.Subject) && framed.Any(f => !f.IsZone && $"{panel.Name}.{f.Name}" == p.Subject))));

        var cuts = FrameCut.Of(panel, openings, steps, area, below, depth).ToList();
        // What is cut as deep as the frame leaves no stick under it; a shallower cut leaves a lap.
        foreach (var cut in cuts.Where(c => c.Deep >= depth - 0.01))
            rough = CutBy(rough, o => axes.Back(o) is var own && cut.Split(own) is var (inside, outside) && !inside.IsEmpty && !cut.Notches(inside, outside, width) ? [.. outside.Select(axes.To)] : null);
        var members = Finish(panel, EdgeRounding.Of(structure, panel), layer, mark, prefix, rough, axes, depth, below, cuts);
        var spaces = Cavities.Finish(panel, mark, prefix, cavities, openings, perimeter.Clear, axes, depth, below, cuts);
        var meetings = Meetings.Of(members, rules, structure.Spec);
        (members, meetings) = Meetings.WithHoles(members, meetings, spaces, structure.Spec);
        return new(panel, zone, layer, rules, area, axes.Back(perimeter.Clear), depth, below, members, spaces, meetings, [.. problems]);
    }

    /// <summary>What the marks of a panel's parts begin with: its own stated mark, else its name. A mirrored panel does not take the mark of its original.</summary>
    public static string MarkOf(Structure structure, PlacedPanel panel) =>
        (PanelFacts.Find(panel, "part_mark") is { } m && !PanelFacts.IsTurnedRound(panel, m) ? structure.Spec.Evaluator.Text(m, "mark") : null) ?? panel.Name;

    // What stays of a member on the frame's outer side where the panel's edge leans out: its widest place is on the inner side.
    private static double OuterWidth(double tilt, double width, double depth) => Math.Max(1, width - Math.Max(0, depth * Math.Tan(tilt)));

    private static HashSet<int> DoubledEdges(Outline laid, FrameAxes axes, FrameRules rules)
    {
        // The words are those of the panel that the facts were written for: turned with the layout, never mirrored.
        var turned = axes with { Mirrored = false };
        var design = turned.Back(laid);
        return [.. rules.Doubles.SelectMany(d => PanelFacts.Edges(design, d))];
    }

    private static (StickMaterial Stick, double Width)? HeaderOf(FrameRules rules, StackLayer layer, string subject, List<FrameProblem> problems)
    {
        if (rules.Header is not { } stick) return null;
        var ways = new[] { (Through: stick.Thickness, Face: stick.Width), (Through: stick.Width, Face: stick.Thickness) };
        var fits = ways.Where(w => w.Through <= layer.Thickness + 0.01).OrderByDescending(w => w.Through).ToList();
        if (fits.Count > 0) return (stick, fits[0].Face);
        problems.Add(new(FrameProblemKind.HeaderTooDeep, subject, layer.Thickness, Math.Min(stick.Thickness, stick.Width), default, null, stick.Name));
        return (stick, Math.Max(stick.Thickness, stick.Width));
    }

    private static Box2 BoxOf(FrameAxes axes, Outline hole)
    {
        var b = hole.Bounds;
        return Box2.Of([axes.To(b.Min), axes.To(b.Max)]);
    }

    private static List<FramedHole> Holes(Structure structure, IEnumerable<PlacedOpening> openings, List<PlacedZone> zones, FrameAxes axes, IReadOnlyDictionary<string, Material> materials)
    {
        var e = structure.Spec.Evaluator;
        var holes = new List<FramedHole>();
        foreach (var zone in zones) holes.Add(new(zone.Name, BoxOf(axes, zone.Region), 1, null, null, true));
        foreach (var o in openings)
        {
            var framed = o.Fact.Find("framed");
            var stick = framed is not null && framed.Has("stick") && e.Thing(framed, "stick") is { Name: { } name } ? materials.GetValueOrDefault(name) as StickMaterial : null;
            int trimmers = framed is null ? 1 : (int)Math.Clamp(e.Number(framed, "trimmers") ?? 1, 1, 5);
            holes.Add(new(o.Name, BoxOf(axes, o.Hole), trimmers, stick, o.Fact.Find("lintel") is { } l ? e.Length(l, "value") : null, false));
        }
        return holes;
    }

    private static void LayStuds(Layout layout, FrameRules rules, Outline area, Outline clear, double datum, double width, List<FramedHole> holes)
    {
        int extra = 0;
        foreach (double at in rules.ExtraStuds) layout.Stud(datum + at, $"extra_stud{++extra}", holes);
        var (ends, inner) = (area.Bounds, clear.Bounds);
        if (rules.Count is { } count)
        {
            double gap = (inner.Width - count * width) / (count + 1);
            if (gap <= 0) return;
            for (int k = 1; k <= count; k++)
            {
                double from = k * gap + (k - 0.5) * width;
                layout.Stud(rules.From ? inner.Min.X + from : inner.Max.X - from, $"stud{k}", holes);
            }
        }
        else if (rules.Every is { } every && every > width)
        {
            // On centre: from the frame's end to the middle of each stud. Else from face to like face, so the first is measured from the end member's outer face.
            for (int k = 1; k * every < ends.Width && k <= 10_000; k++)
            {
                double from = k * every + (rules.OnCentre ? 0 : width / 2);
                layout.Stud(rules.From ? ends.Min.X + from : ends.Max.X - from, $"stud{k}", holes);
            }
        }
    }

    private static void LayBlocking(Layout layout, FrameRules rules, FrameAxes axes, PlacedPanel panel, double width)
    {
        const double far = 1e7;
        var turned = axes with { Mirrored = false };
        var origin = (axes.Mirrored ? panel.Outline.Mirrored : panel.Outline).Bounds.Min;
        for (int k = 0; k < rules.Blocking.Length; k++)
        {
            var b = rules.Blocking[k];
            double up = origin.Y + b.Up;
            var (from, to) = (new Vec2(b.From is { } f ? origin.X + f : -far, up - width / 2), new Vec2(b.To is { } t ? origin.X + t : far, up + width / 2));
            layout.Block(Box2.Of([turned.To(from), turned.To(to)]), axes.Turned ? new(0, 1) : new(1, 0), $"blocking{k + 1}_");
        }
    }

    private static IEnumerable<LaidMember> Named(PerimeterResult perimeter, double width, StickMaterial stick, FrameAxes axes)
    {
        var used = new Dictionary<string, int>(StringComparer.Ordinal);
        foreach (var p in perimeter.Pieces)
        {
            bool rail = p.IsRail != axes.Turned;
            string edge = p.Edge is null ? "corner" : axes.Mirrored ? PanelFacts.OtherHand(p.Edge) : p.Edge;
            string name = (rail ? "rail_" : "stile_") + edge + (p.Layer > 0 ? "_inner" : "");
            int count = used[name] = used.GetValueOrDefault(name) + 1;
            if (count > 1 || p.Edge is null) name += count;
            yield return new LaidMember(p.Outline, p.Along, rail ? MemberRole.Rail : MemberRole.Stile, name, width, stick);
        }
    }

    private static List<LaidMember> CutByHoles(List<LaidMember> members, IEnumerable<Box2> boxes)
    {
        foreach (var box in boxes)
        {
            var sides = box.Sides();
            members = CutBy(members, o => o.Bounds.Touches(box) && o.Split(sides) is var (inside, outside) && !inside.IsEmpty ? outside : null);
        }
        return members;
    }

    // What a cut leaves of each member; null for one that it does not touch.
    private static List<LaidMember> CutBy(List<LaidMember> members, Func<Outline, IReadOnlyList<Outline>?> left)
    {
        var next = new List<LaidMember>();
        foreach (var m in members)
        {
            if (left(m.Outline) is not { } outside) next.Add(m);
            else for (int k = 0; k < outside.Count; k++) next.Add(m with { Outline = outside[k], Key = outside.Count == 1 ? m.Key : $"{m.Key}{Text.Letters.Of(k)}" });
        }
        return next;
    }

    private static IEnumerable<FrameProblem> HoleProblems(PlacedPanel panel, List<PlacedOpening> openings, Outline clear, FrameAxes axes, List<FramedHole> framed, double width)
    {
        foreach (var hole in framed.Where(h => !h.IsZone))
        {
            var corners = new[] { hole.Box.Min, new Vec2(hole.Box.Max.X, hole.Box.Min.Y), hole.Box.Max, new Vec2(hole.Box.Min.X, hole.Box.Max.Y) };
            var worst = corners.MaxBy(clear.SignedDistance);
            double past = clear.SignedDistance(worst);
            if (past > 0.01) yield return new(FrameProblemKind.HoleOutsideClear, $"{panel.Name}.{hole.Name}", -past, 0, axes.Back(worst));
        }
        for (int i = 0; i < openings.Count; i++)
            for (int j = i + 1; j < openings.Count; j++)
            {
                var (a, b) = (openings[i], openings[j]);
                double apart = a.Hole.DistanceTo(b.Hole);
                double needs = a.Framed || b.Framed ? width : 0;
                if (apart < needs - 0.01 || apart == 0) yield return new(FrameProblemKind.HolesTooClose, $"{panel.Name}.{b.Name}", apart, needs, b.Hole.Bounds.Centre, null, a.Name);
            }
    }

    private static ImmutableArray<Member> Finish(
        PlacedPanel panel, ImmutableArray<EdgeRounding> roundings, StackLayer layer, string mark, string prefix, List<LaidMember> rough, FrameAxes axes, double depth, double below,
        List<FrameCut> cuts)
    {
        var members = ImmutableArray.CreateBuilder<Member>(rough.Count);
        foreach (var r in rough)
        {
            var outline = axes.Back(r.Outline);
            var along = axes.Back(r.Along);
            if (along.X < -1e-9 || (Math.Abs(along.X) <= 1e-9 && along.Y < 0)) along = -along;
            var shape = MemberShape.Of(outline, along, depth);
            var laps = ImmutableArray.CreateBuilder<MemberLap>();
            string key = prefix + r.Key;
            foreach (var cut in cuts)
                foreach (var region in cut.Split(outline).Inside) laps.Add(new MemberLap(region, cut.Deep, cut.FromOutside) { What = cut.What });
            members.Add(new Member(
                $"{mark}.{key}", key, panel, r.Role, r.Stick, shape.CentreLine, shape.Width, depth, below, shape.LongPoint, shape.ShortPoint, shape.Start, shape.End, shape.RipBevel, outline)
            {
                Laps = laps.ToImmutable(), RoundedOff = EdgeRounding.TakenOff(panel, roundings, outline, below, depth), Around = r.Around, FillsBay = r.FillsBay, IsRipped = shape.Width < r.Full - 0.5 || (r.FillsBay && shape.Width < layer.FaceWidth - 0.5),
            });
        }
        return members.ToImmutable();
    }
}
