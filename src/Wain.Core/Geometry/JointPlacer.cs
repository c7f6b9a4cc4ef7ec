using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Text;

namespace Wain.Core.Geometry;

/// <summary>Places joints: which edges or faces meet, along which line, at which angle, and how far they are apart.</summary>
internal static class JointPlacer
{
    public static ImmutableArray<PlacedJoint> Place(Resolver resolver, ImmutableArray<PlacedPanel> panels)
    {
        var byName = panels.ToDictionary(p => p.Name, StringComparer.Ordinal);
        var mirrorOf = panels.Where(p => p.Mirrored is not null).GroupBy(p => p.Mirrored!).ToDictionary(g => g.Key, g => g.First(), StringComparer.Ordinal);
        var joints = ImmutableArray.CreateBuilder<PlacedJoint>();
        var stated = new List<(BoundFact Fact, JointSide First, JointSide Second)>();
        var known = new Dictionary<((string, int), (string, int)), BoundFact>();
        foreach (var fact in resolver.Spec.All("joint"))
        {
            if (Side(resolver, fact, "first", byName) is not { } first || Side(resolver, fact, "second", byName) is not { } second) continue;
            if (first.Panel == second.Panel && first.Name == second.Name)
            {
                resolver.Report(new Finding(BindingFindings.WrongThing, $"{first.Panel.Name}.{first.Name} is joined to itself.", resolver.Evaluator.SlotSpan(fact, "second")) { Subject = fact.Path, Hint = "A joint has two sides: name the panel that it meets." });
                continue;
            }
            if (known.TryAdd(Meeting(first, second), fact)) stated.Add((fact, first, second));
            else resolver.Report(new Finding(BindingFindings.FactTwice, $"The joint of {first.Panel.Name}.{first.Name} and {second.Panel.Name}.{second.Name} is stated twice.", fact.HeadSpan) { Subject = fact.Path, Related = [new Related(known[Meeting(first, second)].HeadSpan, "first stated here")] });
        }
        foreach (var (fact, first, second) in stated)
        {
            var joint = Make(resolver, fact, first, second, mirrored: false);
            joints.Add(joint);
            var wanted = fact.Find("mirrored");
            if (Mirror(first, mirrorOf) is { } a && Mirror(second, mirrorOf) is { } b && (a.Panel != first.Panel || b.Panel != second.Panel || wanted is not null && (a.Edge != first.Edge || b.Edge != second.Edge)))
            {
                // One that is stated for the other side is made as it says there, and once.
                if (!known.ContainsKey(Meeting(a, b))) joints.Add(Make(resolver, fact, a, b, mirrored: true));
            }
            else if (wanted is not null)
            {
                var lone = Mirror(first, mirrorOf) is null ? first.Panel : Mirror(second, mirrorOf) is null ? second.Panel : null;
                resolver.Report(new Finding(PlacingFindings.NoOtherSide, lone is null ? $"{joint.Name} is its own mirror image, so there is no other side for it to stand on." : $"{lone.Name} has no mirror, so the joint stands on its own side alone.", wanted.HeadSpan)
                {
                    Subject = joint.Name,
                    Hint = lone is null ? "Leave the line out." : $"Write a joint for the panel on the other side, or make that panel a mirror of {lone.Name}.",
                });
            }
        }
        return joints.ToImmutable();
    }

    // What meets, whichever side is named first and by whichever word a face goes.
    private static ((string, int), (string, int)) Meeting(JointSide first, JointSide second)
    {
        var (a, b) = (Of(first), Of(second));
        return string.CompareOrdinal(a.Item1, b.Item1) is var order && (order < 0 || order == 0 && a.Item2 <= b.Item2) ? (a, b) : (b, a);

        static (string, int) Of(JointSide side) => (side.Panel.Name, !side.IsFace ? side.Edge : side.Name == "outside" || side.Name == (side.Panel.Face.N.Z > 0 ? "top" : "bottom") ? -1 : -2);
    }

    private static JointSide? Side(Resolver resolver, BoundFact fact, string slot, Dictionary<string, PlacedPanel> panels)
    {
        if (resolver.Evaluator.PathOf(fact, slot) is not { } path) return null;
        var (thing, words) = path;
        var at = resolver.Evaluator.SlotSpan(fact, slot);
        if (resolver.PanelFact(thing.Name ?? "") is null)
        {
            resolver.Report(new Finding(BindingFindings.WrongThing, $"A joint is between panels; {thing.Name} is {Article.With(thing.Keyword)}.", at) { Subject = fact.Path });
            return null;
        }
        if (!panels.TryGetValue(thing.Name!, out var panel)) return null;
        string word = words.Length == 1 ? words[0] : "";
        int edge = panel.Outline.IndexOf(word);
        bool face = word is "outside" or "inside" || (word is "top" or "bottom" && panel.IsLevel);
        if (edge >= 0 || face) return new JointSide(panel, word, face && edge < 0 ? -1 : edge);
        var names = panel.Outline.Edges.Select(e => e.Name ?? "").Where(n => n.Length > 0).Distinct().Concat(panel.IsLevel ? ["top", "bottom"] : ["outside", "inside"]).ToList();
        resolver.Report(new Finding(PlacingFindings.NoSuchEdge, words.IsEmpty ? $"{panel.Name} is a panel; a joint names an edge or a face of it." : $"{panel.Name} has no edge or face named \"{word}\".{NearestName.Ask(NearestName.Of(word, names))}", at) { Subject = fact.Path, Hint = $"It has {string.Join(", ", names)}.", Fixes = words.Length == 1 ? Fixing.Nearest(at, NearestName.Of(word, names)) : [] });
        return null;
    }

    private static JointSide? Mirror(JointSide side, Dictionary<string, PlacedPanel> mirrorOf)
    {
        string Other(string name) => name switch { "left" => "right", "right" => "left", _ => name };
        if (mirrorOf.TryGetValue(side.Panel.Name, out var image))
        {
            string name = side.IsFace ? side.Name : Other(side.Name);
            return new JointSide(image, name, side.IsFace ? -1 : image.Outline.IndexOf(name));
        }
        // A panel across the centre line that is its own mirror image.
        var (low, high) = PanelShapes.Bounds(side.Panel);
        if (Math.Abs(low.Y + high.Y) > 1) return null;
        // Where it stands along that line its two faces change places.
        if (side.IsFace) return side.Name is "inside" or "outside" && Math.Abs(side.Panel.Face.N.Y) > 0.7 ? side with { Name = side.Name == "inside" ? "outside" : "inside" } : side;
        var segment = side.Panel.Outline.Segment(side.Edge);
        var middle = side.Panel.Face.ToWorld(segment.At(0.5)).Mirrored;
        for (int i = 0; i < side.Panel.Outline.Count; i++)
        {
            if (side.Panel.Face.ToWorld(side.Panel.Outline.Segment(i).At(0.5)).IsNear(middle, 1)) return new JointSide(side.Panel, side.Panel.Outline.Edges[i].Name ?? "", i);
        }
        return null;
    }

    private static PlacedJoint Make(Resolver resolver, BoundFact fact, JointSide first, JointSide second, bool mirrored)
    {
        var (edge, other) = !first.IsFace ? (first, second) : (second, first);
        Vec3 from, to;
        double gap;
        if (edge.IsFace)
        {
            // Two faces that touch meet over an area; the longer side of the smaller panel stands for the line.
            var small = first.Panel.Outline.Area() <= second.Panel.Outline.Area() ? first.Panel : second.Panel;
            var longest = small.Outline.Segments.MaxBy(s => s.Length);
            (from, to) = (small.Face.ToWorld(longest.From), small.Face.ToWorld(longest.To));
            gap = EdgeGap(small.Face.ToWorld(longest.At(0.5)), small, ReferenceEquals(small, first.Panel) ? second.Panel : first.Panel);
        }
        else
        {
            var panel = edge.Panel;
            gap = Gap(panel, edge.Edge, other.Panel);
            (from, to) = JointLine.Middle(edge);
            if (other.IsFace)
            {
                // An edge that runs on past the panel that it stands on is joined to it only as far as that reaches.
                if (JointLine.Over(panel, edge.Edge, other.Panel) is { } over) (from, to) = (from.Lerp(to, over.From), from.Lerp(to, over.To));
            }
            else
            {
                // Two edges run together only as far as both reach.
                var line = (to - from).Unit;
                var theirs = JointLine.Middle(other);
                double a = (theirs.From - from).Dot(line), b = (theirs.To - from).Dot(line);
                double low = Math.Max(0, Math.Min(a, b)), high = Math.Min(from.DistanceTo(to), Math.Max(a, b));
                if (high > low) (from, to) = (from + line * low, from + line * high);
            }
        }
        double normals = first.Panel.Face.N.AngleTo(second.Panel.Face.N);
        // Inside of a panel that stands on the outside of another, the angle is that to this one's outside.
        double dihedral = first.IsFace != second.IsFace && PanelShapes.IsBefore(other.Panel, edge.Panel) ? normals : Math.PI - normals;
        var kind = fact.Find("mitre") is not null ? JointKind.Mitre : fact.Find("lap") is not null ? JointKind.Lap : fact.Find("rabbet") is not null ? JointKind.Rabbet : JointKind.Butt;
        fact.Find("butt");
        PlacedPanel? through = null;
        if (fact.Find("through") is { } t && resolver.Evaluator.Thing(t, "panel") is { Name: { } name })
        {
            through = first.Panel.DesignName == name || first.Panel.Name == name ? first.Panel : second.Panel.DesignName == name || second.Panel.Name == name ? second.Panel : null;
        }
        through ??= first.IsFace != second.IsFace ? (first.IsFace ? first.Panel : second.Panel) : kind == JointKind.Butt && !first.IsFace ? JointLine.RunsThrough(first, second, from.Lerp(to, 0.5)) : null;
        string label = $"{first.Panel.Name}.{first.Name} to {second.Panel.Name}.{second.Name}";
        return new PlacedJoint(label, fact, first, second, from, to, dihedral, gap, kind, through, mirrored);
    }

    /// <summary>How far an edge is from another panel where it is nearest to it (mm), its very ends not counted: there it meets its neighbours.</summary>
    public static double Gap(PlacedPanel panel, int edge, PlacedPanel other)
    {
        double[] places = [0.25, 0.5, 0.75];
        // A long edge may stand on a narrow panel near one of its ends alone.
        if (JointLine.Over(panel, edge, other) is { } over) places = [.. places, .. places.Select(t => over.From + (over.To - over.From) * t)];
        double worst = double.PositiveInfinity;
        foreach (double t in places)
        {
            double nearest = double.PositiveInfinity;
            foreach (double depth in new[] { 0, panel.Thickness / 2, panel.Thickness })
            {
                nearest = Math.Min(nearest, PanelShapes.Distance(other, panel.Face.ToWorld(panel.OutlineAt(depth).Segment(edge).At(t), depth)));
            }
            worst = Math.Min(worst, nearest);
        }
        return worst;
    }

    private static double EdgeGap(Vec3 point, PlacedPanel small, PlacedPanel other) =>
        Math.Min(PanelShapes.Distance(other, point), PanelShapes.Distance(other, point - small.Face.N * small.Thickness));
}
