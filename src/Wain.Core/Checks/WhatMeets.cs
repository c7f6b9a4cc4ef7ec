using System.Collections.Immutable;
using Wain.Core.Clearance;
using Wain.Core.Framing;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;

namespace Wain.Core.Checks;

/// <summary>What does meet where a joint names an edge that does not: another edge of the same panel, or another panel.</summary>
internal static class WhatMeets
{
    /// <summary>The side of a joint whose edge must meet the other's panel; null where two faces are joined.</summary>
    public static JointSide? Edge(PlacedJoint joint) => !joint.First.IsFace ? joint.First : !joint.Second.IsFace ? joint.Second : null;

    /// <summary>The one other edge of the panel that meets the other panel, within a gap (mm), and has no joint to it; null if none does, or more than one.</summary>
    public static string? OtherEdge(Structure structure, PlacedJoint joint, double allowed)
    {
        if (Edge(joint) is not { } side) return null;
        var (panel, other) = (side.Panel, Other(joint));
        string? found = null;
        for (int i = 0; i < panel.Outline.Count; i++)
        {
            if (i == side.Edge || panel.Outline.Edges[i].Name is not { } name || Joined(structure, panel, name, other) || JointPlacer.Gap(panel, i, other) > allowed) continue;
            if (found is not null) return null;
            found = name;
        }
        return found;
    }

    /// <summary>The one other panel that the edge meets, within a gap (mm), and has no joint to; null if none does, or more than one.</summary>
    /// <param name="clashes">Panels that pass through each other meet nowhere as they should.</param>
    public static PlacedPanel? OtherPanel(Structure structure, ImmutableArray<Clash> clashes, PlacedJoint joint, double allowed)
    {
        if (Edge(joint) is not { } side) return null;
        var line = side.Panel.Outline.Segment(side.Edge);
        var near = new Box3(side.Panel.Face.ToWorld(line.From), side.Panel.Face.ToWorld(line.To)).Grown(side.Panel.Thickness + allowed);
        PlacedPanel? found = null;
        foreach (var panel in structure.Panels)
        {
            var (low, high) = PanelShapes.Bounds(panel);
            if (panel == side.Panel || panel == Other(joint) || panel.Lift != side.Panel.Lift || !near.Touches(new Box3(low, high)) || Joined(structure, side.Panel, side.Name, panel)
                || JointPlacer.Gap(side.Panel, side.Edge, panel) > allowed) continue;
            if (clashes.Any(c => c.First == panel && c.Second == side.Panel || c.First == side.Panel && c.Second == panel)) continue;
            if (found is not null) return null;
            found = panel;
        }
        return found;
    }

    /// <summary>The face of a level panel that another meets, in its word; null for one that is not level.</summary>
    public static string? Face(PlacedPanel level, PlacedPanel met) => !level.IsLevel ? null : PanelShapes.IsBefore(level, met) == level.Face.N.Z > 0 ? "top" : "bottom";

    private static PlacedPanel Other(PlacedJoint joint) => joint.First.IsFace ? joint.First.Panel : joint.Second.Panel;

    private static bool Joined(Structure structure, PlacedPanel panel, string edge, PlacedPanel other)
    {
        foreach (var joint in structure.Joints)
            if (joint.First.Panel == panel && joint.First.Name == edge && joint.Second.Panel == other || joint.Second.Panel == panel && joint.Second.Name == edge && joint.First.Panel == other) return true;
        return false;
    }
}
