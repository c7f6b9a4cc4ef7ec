using System.Collections.Immutable;
using System.Runtime.CompilerServices;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Model;

namespace Wain.Core.Clearance;

public enum BodyKind
{
    Panel,
    Trim,
    Hardware,
}

/// <summary>Something solid with a place: a panel with its zones, the trim of a unit, or what is screwed on along a joint.</summary>
/// <param name="name">As a message says it: "left_wall", "the trim of window at shell_left.vent".</param>
/// <param name="panel">The panel that it is or that it sits on.</param>
/// <param name="opening">The opening of a trim.</param>
/// <param name="fromOutside">True if it stands out of the panel's outside face.</param>
/// <param name="around">A block that it lies in, known before its solids are made (mm).</param>
/// <param name="make">Convex solids that share no volume (mm).</param>
public sealed class Body(string name, BodyKind kind, PlacedPanel panel, PlacedOpening? opening, bool fromOutside, Box3 around, Func<ImmutableArray<ConvexPolyhedron>> make)
{
    private StrongBox<ImmutableArray<ConvexPolyhedron>>? _parts;

    public string Name { get; } = name;

    public BodyKind Kind { get; } = kind;

    public PlacedPanel Panel { get; } = panel;

    public PlacedOpening? Opening { get; } = opening;

    public bool FromOutside { get; } = fromOutside;

    public Box3 Around { get; } = around;

    /// <summary>Convex solids that share no volume (mm). Made when first asked for: most bodies are never near enough to another.</summary>
    public ImmutableArray<ConvexPolyhedron> Parts => (_parts ??= new(make())).Value;

    public Box3 Bounds => Parts.Select(p => p.Bounds).Aggregate((a, b) => a.Union(b));

    /// <summary>How near another body is, and where on it (mm); nothing that is farther than <paramref name="within"/> is looked for, and the distance is then infinite.</summary>
    public (double Distance, Vec3 At) Nearest(Body other, double within = double.PositiveInfinity)
    {
        var (least, at) = (double.PositiveInfinity, default(Vec3));
        foreach (var p in Parts)
            foreach (var q in other.Parts)
            {
                if (p.Bounds.DistanceTo(q.Bounds) >= Math.Min(least, within)) continue;
                var nearest = ConvexPair.Nearest(p, q, default);
                if (nearest.Distance < Math.Min(least, within)) (least, at) = (nearest.Distance, nearest.OnStanding);
            }
        return (least, at);
    }
}

/// <summary>
/// The solids of a placed design. Where a shape is simplified it is made larger and never smaller, so that a clearance found is one that is there:
/// round corners of holes keep the wood behind their chord, and a unit fills its hole.
/// </summary>
public static class Bodies
{
    /// <summary>Hardware states how far it stands out and not how wide it is: a strip of 1 in along its joint stands for it.</summary>
    public const double HardwareWidth = 25.4;

    /// <summary>Every panel, then what stands proud of it, in the order of the panels.</summary>
    public static ImmutableArray<Body> Of(Structure structure)
    {
        var bodies = ImmutableArray.CreateBuilder<Body>();
        foreach (var panel in structure.Panels)
        {
            bodies.Add(Panel(panel));
            foreach (var opening in panel.Openings)
                if (opening.Unit is { } unit) bodies.AddRange(Trim(panel, opening, unit));
        }
        var materials = structure.Materials.ToLookup(m => m.Name, StringComparer.Ordinal);
        foreach (var joint in structure.Joints) bodies.AddRange(Along(structure, joint, materials));
        return bodies.ToImmutable();
    }

    /// <summary>A panel with its bevels, less its openings, recesses and the places of its zones, and the zones themselves.</summary>
    public static Body Panel(PlacedPanel panel)
    {
        double low = 0, deep = panel.Thickness;
        var box = Bounds(panel.Outline, 0, deep);
        foreach (var zone in panel.Zones)
        {
            double end = zone.Offset + zone.Stack.Thickness;
            (low, deep) = (Math.Min(low, zone.Offset), Math.Max(deep, end));
            box = box.Union(Bounds(zone.Region, zone.Offset, end));
        }
        return new Body(panel.Name, BodyKind.Panel, panel, null, true, Around(panel.Face, box, low, deep), () => Solid(panel));
    }

    private static ImmutableArray<ConvexPolyhedron> Solid(PlacedPanel panel)
    {
        var whole = new Slab(panel.Face, panel.Outline, [], 0, panel.Thickness);
        IEnumerable<ConvexPolyhedron> parts = Solids(whole);
        var instead = panel.Zones.Where(z => !z.Added).ToList();
        foreach (var zone in instead) parts = Less(parts, panel, zone.Region, 0, panel.Thickness);
        parts = parts.Concat(panel.Zones.SelectMany(z => Solids(new Slab(panel.Face, z.Region, [], z.Offset, z.Offset + z.Stack.Thickness))));
        double low = Math.Min(0, panel.Zones.Select(z => z.Offset).DefaultIfEmpty(0).Min());
        double deep = Math.Max(panel.Thickness, panel.Zones.Select(z => z.Offset + z.Stack.Thickness).DefaultIfEmpty(0).Max());
        foreach (var opening in panel.Openings)
        {
            parts = Less(parts, panel, opening.Hole, low, deep);
            if (opening.Recess is { } recess)
            {
                var (outside, inside) = panel.FacesAt(opening);
                parts = recess.FromOutside ? Less(parts, panel, recess.Region, low, outside + recess.Depth, throughInside: false) : Less(parts, panel, recess.Region, inside - recess.Depth, deep, throughOutside: false);
            }
        }
        return [.. parts];
    }

    // Bevelled edges stand further out at one of the two depths.
    private static Box2 Bounds(Outline outline, double from, double to)
    {
        double tilt = 0;
        foreach (var edge in outline.Edges) tilt = Math.Max(tilt, Math.Abs(edge.Tilt));
        return tilt == 0 ? outline.Bounds : outline.Bounds.Union(At(from)).Union(At(to));

        Box2 At(double depth) => outline.AtDepth(depth).Outline?.Bounds ?? outline.Bounds;
    }

    private static Box3 Around(Frame face, Box2 box, double from, double to)
    {
        var (middle, u, v, n) = (face.ToWorld(box.Centre, (from + to) / 2), face.U * (box.Width / 2), face.V * (box.Height / 2), face.N * ((to - from) / 2));
        var half = new Vec3(Math.Abs(u.X) + Math.Abs(v.X) + Math.Abs(n.X), Math.Abs(u.Y) + Math.Abs(v.Y) + Math.Abs(n.Y), Math.Abs(u.Z) + Math.Abs(v.Z) + Math.Abs(n.Z));
        return new(middle - half, middle + half);
    }

    private static IEnumerable<Body> Trim(PlacedPanel panel, PlacedOpening opening, UnitMaterial unit)
    {
        double outside = unit.ProudOutside - (opening.Recess is { FromOutside: true } o ? o.Depth : 0);
        double inside = unit.ProudInside - (opening.Recess is { FromOutside: false } i ? i.Depth : 0);
        string name = $"the trim of {unit.Name} at {panel.Name}.{opening.Name}";
        var (front, back) = panel.FacesAt(opening);
        // A flange that is wider than its panel reaches nothing more, and its round corners would be cut into ever more chords.
        double reach = Math.Clamp(unit.Flange, 0, 2 * (panel.Width + panel.Height));
        if (outside > Tolerance.Length) yield return Flange(name, true, front - outside, front);
        if (inside > Tolerance.Length) yield return Flange(name + " inside", false, back, back + inside);

        Body Flange(string called, bool fromOutside, double from, double to) =>
            new(called, BodyKind.Trim, panel, opening, fromOutside, Around(panel.Face, opening.Hole.Bounds.Grown(reach), from, to), () => Solids(new Slab(panel.Face, opening.Hole.Offset(reach).Outline ?? opening.Hole, [], from, to)));
    }

    // Hinges, latches and edging sit along the joint, on each panel's face that looks at it: the face that the joint names, or else the outside.
    private static IEnumerable<Body> Along(Structure structure, PlacedJoint joint, ILookup<string, Material> materials)
    {
        foreach (var fact in joint.Fact.Body.Where(f => f.Keyword is "hardware" or "trim"))
        {
            if (structure.Spec.Evaluator.Thing(fact, fact.Keyword) is not { Name: { } name } || materials[name].FirstOrDefault() is not { } material) continue;
            var stated = material.Fact.Find(fact.Keyword == "trim" ? "section" : "proud");
            if (stated is null || structure.Spec.Evaluator.Length(stated, fact.Keyword == "trim" ? "thickness" : "value") is not { } proud || proud <= 0) continue;
            foreach (var side in new[] { joint.First, joint.Second })
                if (Strip(joint, side, proud) is { } strip) yield return new Body($"{name} on {side.Panel.Name} along {joint.Name}", BodyKind.Hardware, side.Panel, null, side.Name != "inside", strip.Bounds, () => [strip]);
        }
    }

    private static ConvexPolyhedron? Strip(PlacedJoint joint, JointSide side, double proud)
    {
        var panel = side.Panel;
        Vec3 a = panel.Face.ToLocal(joint.From), b = panel.Face.ToLocal(joint.To);
        Vec2 from = new(a.X, a.Y), along = new Vec2(b.X - a.X, b.Y - a.Y).Unit;
        if (along.Length == 0) return null;
        var inward = along.Left;
        if (inward.Dot(panel.Outline.Bounds.Centre - from) < 0) inward = -inward;
        Vec2 to = new(b.X, b.Y), across = inward * HardwareWidth;
        var outline = Outline.Polygon(from, to, to + across, from + across).CounterClockwise;
        bool outside = side.Name != "inside";
        return Solids(new Slab(panel.Face, outline, [], outside ? -proud : panel.Thickness, outside ? 0 : panel.Thickness + proud)).FirstOrDefault();
    }

    // A shape that can't be parted is taken by the block round it: too large, never left out.
    private static ImmutableArray<ConvexPolyhedron> Solids(Slab slab)
    {
        if (slab.Thickness <= Tolerance.Length) return [];
        if (slab.ConvexParts(0.05) is { } parts) return parts;
        var box = slab.Outline.Bounds;
        foreach (double depth in new[] { slab.FromDepth, slab.ToDepth })
            if (slab.Outline.AtDepth(depth).Outline is { } at) box = box.Union(at.Bounds);
        return (slab with { Outline = Outline.Rectangle(box.Min, box.Max) }).ConvexParts() ?? [];
    }

    private static IEnumerable<ConvexPolyhedron> Less(IEnumerable<ConvexPolyhedron> parts, PlacedPanel panel, Outline region, double from, double to, bool throughOutside = true, bool throughInside = true)
    {
        var straight = new Outline([.. region.Edges.Select(e => e with { Sweep = Math.Max(0, e.Sweep) })]).Flattened(double.MaxValue);
        // The cutter stands out of the faces that it opens, so that no film is left on them.
        if (new Slab(panel.Face, straight, [], throughOutside ? from - 1 : from, throughInside ? to + 1 : to).ConvexParts() is not { } cutters) return parts;
        foreach (var cutter in cutters) parts = parts.SelectMany(p => p.Minus(cutter)).ToList();
        return parts;
    }
}
