using System.Collections.Immutable;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;

namespace Wain.Core.Drawing;

/// <summary>Placed panels as faces for the views: both sides, the edges between them, and the other position of what moves.</summary>
public static class StructureFaces
{
    /// <summary>Flat stretches for arcs deviate by at most this (mm).</summary>
    private const double Sagitta = 0.5;

    public static ImmutableArray<Face> Of(Structure structure)
    {
        var faces = ImmutableArray.CreateBuilder<Face>();
        foreach (var panel in structure.Panels)
        {
            var lift = panel.Lift is { } name ? structure.Lifts.FirstOrDefault(l => l.Name == name) : null;
            faces.AddRange(Of(panel, RigidMove.Straight(Vec3.Zero), alternate: false));
            if (lift is not null) faces.AddRange(Of(panel, lift.Raised, alternate: true));
        }
        foreach (var member in structure.Subframe)
            faces.AddRange(member.Solid is var solid ? solid.Faces.Select(f => new Face(member.Name, [.. f.Corners.Select(c => solid.Corners[c])], [], false)) : []);
        return faces.ToImmutable();
    }

    private static IEnumerable<Face> Of(PlacedPanel panel, RigidMove moved, bool alternate)
    {
        var outline = panel.Outline.Flattened(Sagitta);
        var inner = panel.OutlineAt(panel.Thickness).Flattened(Sagitta);
        ImmutableArray<Vec3> At(Outline o, double depth) => [.. o.Corners.Select(c => moved.Apply(panel.Face.ToWorld(c, depth)))];
        ImmutableArray<ImmutableArray<Vec3>> Holes(double depth) => [.. panel.Openings.Select(o => At(o.Hole.Flattened(Sagitta), depth))];
        var outside = At(outline, 0);
        var inside = At(inner, panel.Thickness);
        yield return new Face(panel.Name, outside, Holes(0), alternate);
        yield return new Face(panel.Name, inside, Holes(panel.Thickness), alternate);
        if (outside.Length != inside.Length) yield break;
        for (int i = 0; i < outside.Length; i++)
        {
            int next = (i + 1) % outside.Length;
            yield return new Face(panel.Name, [outside[i], outside[next], inside[next], inside[i]], [], alternate);
        }
    }
}
