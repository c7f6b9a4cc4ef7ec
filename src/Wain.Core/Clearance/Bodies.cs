using System.Collections.Immutable;
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
/// <param name="Name">As a message says it: "left_wall", "the trim of window at shell_left.vent".</param>
/// <param name="Panel">The panel that it is or that it sits on.</param>
/// <param name="Opening">The opening of a trim.</param>
/// <param name="FromOutside">True if it stands out of the panel's outside face.</param>
/// <param name="Parts">Convex solids that share no volume (mm).</param>
public sealed record Body(string Name, BodyKind Kind, PlacedPanel Panel, PlacedOpening? Opening, bool FromOutside, ImmutableArray<ConvexPolyhedron> Parts)
{
    public Box3 Bounds => Parts.Select(p => p.Bounds).Aggregate((a, b) => a.Union(b));
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
        // Each panel's solid hangs on that panel alone. A small design does not pay for waking other processors.
        var solids = new Body[structure.Panels.Length];
        if (solids.Length < 200) for (int i = 0; i < solids.Length; i++) solids[i] = Panel(structure.Panels[i]);
        else Parallel.For(0, solids.Length, i => solids[i] = Panel(structure.Panels[i]));
        for (int i = 0; i < solids.Length; i++)
        {
            var panel = structure.Panels[i];
            bodies.Add(solids[i]);
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
                parts = recess.FromOutside ? Less(parts, panel, recess.Region, low, recess.Depth, throughInside: false) : Less(parts, panel, recess.Region, panel.Thickness - recess.Depth, deep, throughOutside: false);
        }
        return new Body(panel.Name, BodyKind.Panel, panel, null, true, [.. parts]);
    }

    private static IEnumerable<Body> Trim(PlacedPanel panel, PlacedOpening opening, UnitMaterial unit)
    {
        var region = opening.Hole.Offset(unit.Flange).Outline ?? opening.Hole;
        double outside = unit.ProudOutside - (opening.Recess is { FromOutside: true } o ? o.Depth : 0);
        double inside = unit.ProudInside - (opening.Recess is { FromOutside: false } i ? i.Depth : 0);
        string name = $"the trim of {unit.Name} at {panel.Name}.{opening.Name}";
        if (outside > Tolerance.Length) yield return new Body(name, BodyKind.Trim, panel, opening, true, [.. Solids(new Slab(panel.Face, region, [], -outside, 0))]);
        if (inside > Tolerance.Length) yield return new Body(name + " inside", BodyKind.Trim, panel, opening, false, [.. Solids(new Slab(panel.Face, region, [], panel.Thickness, panel.Thickness + inside))]);
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
                if (Strip(joint, side, proud) is { } strip) yield return new Body($"{name} on {side.Panel.Name} along {joint.Name}", BodyKind.Hardware, side.Panel, null, side.Name != "inside", [strip]);
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
