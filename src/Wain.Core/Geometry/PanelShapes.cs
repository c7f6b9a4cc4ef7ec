using System.Collections.Immutable;
using Wain.Core.Geometry.Kernel;

namespace Wain.Core.Geometry;

/// <summary>Questions about the shape of placed panels.</summary>
public static class PanelShapes
{
    /// <summary>Corners of the outside face and of the inside face in space, straight edges for arcs (mm).</summary>
    public static (ImmutableArray<Vec3> Outside, ImmutableArray<Vec3> Inside) Corners(PlacedPanel panel, double sagitta = 0.5)
    {
        var outside = panel.Outline.Flattened(sagitta).Corners.Select(c => panel.Face.ToWorld(c)).ToImmutableArray();
        var inside = panel.OutlineAt(panel.Thickness).Flattened(sagitta).Corners.Select(c => panel.Face.ToWorld(c, panel.Thickness)).ToImmutableArray();
        return (outside, inside);
    }

    /// <summary>The box round a panel along the camper's axes (mm), its added zones not counted.</summary>
    public static (Vec3 Low, Vec3 High) Bounds(PlacedPanel panel)
    {
        var (outside, inside) = Corners(panel);
        var all = outside.Concat(inside).ToList();
        return (new Vec3(all.Min(c => c.X), all.Min(c => c.Y), all.Min(c => c.Z)), new Vec3(all.Max(c => c.X), all.Max(c => c.Y), all.Max(c => c.Z)));
    }

    /// <summary>Distance from a point to the panel's solid (mm); 0 inside. Exact where the edges are square.</summary>
    public static double Distance(PlacedPanel panel, Vec3 point)
    {
        var local = panel.Face.ToLocal(point);
        double depth = Math.Clamp(-local.Z, 0, panel.Thickness);
        double beside = Math.Max(0, panel.OutlineAt(depth).SignedDistance(new Vec2(local.X, local.Y)));
        double above = Math.Max(Math.Max(local.Z, -panel.Thickness - local.Z), 0);
        return Math.Sqrt(beside * beside + above * above);
    }

    /// <summary>True if a panel stands before the outside face of another, false if it stands behind the inside face.</summary>
    public static bool IsBefore(PlacedPanel face, PlacedPanel panel) =>
        face.Face.Plane.SignedDistance(panel.Face.ToWorld(panel.Outline.Centroid(), panel.Thickness / 2)) > -face.Thickness / 2;

    /// <summary>The point of a level panel's outside face above or below a point seen from above.</summary>
    public static Vec2 OnFace(PlacedPanel panel, Vec2 plan)
    {
        var face = panel.Face;
        double z = (face.Plane.Offset - face.N.X * plan.X - face.N.Y * plan.Y) / face.N.Z;
        var local = face.ToLocal(new Vec3(plan.X, plan.Y, z));
        return new Vec2(local.X, local.Y);
    }

    /// <summary>The part of an outline on one side of a line: normal . p at most offset. Arcs are flattened; names stay, the cut has none.</summary>
    public static Outline Clip(Outline outline, Vec2 normal, double offset)
    {
        var source = outline.HasArcs ? outline.Flattened(0.1) : outline;
        var edges = ImmutableArray.CreateBuilder<OutlineEdge>();
        for (int i = 0; i < source.Count; i++)
        {
            var edge = source.Edges[i];
            Vec2 a = edge.Start, b = source.Edges[source.Next(i)].Start;
            double da = normal.Dot(a) - offset, db = normal.Dot(b) - offset;
            if (da <= 0) edges.Add(edge);
            if (da < 0 && db > 0) edges.Add(new OutlineEdge(a.Lerp(b, da / (da - db))));
            if (da > 0 && db < 0) edges.Add(edge with { Start = a.Lerp(b, da / (da - db)) });
        }
        return new Outline(edges.ToImmutable());
    }
}
