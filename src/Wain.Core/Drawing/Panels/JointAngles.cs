using System.Collections.Immutable;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;

namespace Wain.Core.Drawing.Panels;

/// <summary>How one edge of a panel is cut (mm, radians).</summary>
/// <param name="Tilt">From square, signed: positive if the inside face reaches further out than the outside face.</param>
/// <param name="Setting">What the saw is set to before rounding, and whether the work stands on edge.</param>
/// <param name="Rounded">The setting to half a degree.</param>
/// <param name="Error">How far off the cut is at the far side of the panel's thickness when it is made at the rounded setting.</param>
/// <param name="Compound">Mitre and bevel where the edge is both out of square with its neighbour and tilted; else null.</param>
/// <param name="Fence">The neighbouring edge that the mitre is turned from.</param>
/// <param name="MitreRounded">The mitre to half a degree, and <paramref name="MitreError"/> what that leaves at the far end of the edge.</param>
/// <param name="Size">The panel's size square to this edge.</param>
public sealed record EdgeCut(
    PlacedPanel Panel, int Edge, double Tilt, SawSetting Setting, RoundedAngle Rounded, double Error,
    CompoundCut? Compound, string? Fence, RoundedAngle? MitreRounded, double MitreError, BevelledLength Size)
{
    public string EdgeName => Panel.Outline.Edges[Edge].Name ?? "";

    /// <summary>Out of square by less than the half degree that a saw is set to.</summary>
    public bool IsSawnSquare => !IsSquare && !Setting.WorkOnEdge && Rounded.Rounded == 0;

    /// <summary>How the work is turned for a compound cut. A mitre gauge goes to 45 degrees; beyond, the cut runs along the edge and is told from that.</summary>
    public string MitreWords => Compound is not { } cut ? "" : cut.Mitre <= Math.PI / 4 + Tolerance.Angle
        ? $"mitre {LengthText.OfAngle(cut.Mitre)} from square to {Fence ?? "its neighbour"}"
        : $"taper {LengthText.OfAngle(Math.PI / 2 - cut.Mitre)} off {Fence ?? "its neighbour"}, with that edge held at the angle on a straight board along the fence";

    public bool IsSquare => Math.Abs(Tilt) <= JointAngles.SquareWithin;

    /// <summary>What to do at the saw, in words.</summary>
    public string Instruction
    {
        get
        {
            if (IsSquare || IsSawnSquare) return "Saw square.";
            string longer = Tilt > 0 ? "inside" : "outside";
            return Setting.WorkOnEdge
                ? $"Set the saw to {LengthText.OfAngle(Setting.Tilt)} and stand the work on edge against a tall fence. Long point on the {longer} face."
                : $"Tilt the saw {LengthText.OfAngle(Setting.Tilt)} from square. Long point on the {longer} face.";
        }
    }
}

/// <summary>The angles of a joint.</summary>
/// <param name="Dihedral">Between the two panels (radians).</param>
/// <param name="Ideal">What the dihedral angle alone asks of the saw: both edges alike, or one only.</param>
/// <param name="Cuts">Of each side that is an edge.</param>
public sealed record JointAngle(PlacedJoint Joint, double Dihedral, SawTilts Ideal, ImmutableArray<EdgeCut> Cuts);

/// <summary>Angles to cut at, from the placed geometry.</summary>
public static class JointAngles
{
    /// <summary>A tilt under this (radians) is square to any saw: 0.005 degrees.</summary>
    public const double SquareWithin = 0.005 * Math.PI / 180;

    /// <summary>In the structure's order of joints.</summary>
    public static ImmutableArray<JointAngle> Of(Structure structure) => [.. structure.Joints.Select(Of)];

    public static JointAngle Of(PlacedJoint joint) => new(
        joint, joint.Dihedral, Angles.SawTilt(joint.Dihedral),
        [.. new[] { joint.First, joint.Second }.Where(s => !s.IsFace).Select(s => Cut(s.Panel, s.Edge))]);

    /// <summary>All edges of a panel that are not square.</summary>
    public static ImmutableArray<EdgeCut> Bevels(PlacedPanel panel) =>
        [.. Enumerable.Range(0, panel.Outline.Count).Select(i => Cut(panel, i)).Where(c => !c.IsSquare)];

    public static EdgeCut Cut(PlacedPanel panel, int edge)
    {
        double tilt = panel.Outline.Edges[edge].Tilt;
        var setting = Angles.Setting(tilt);
        var rounded = Angles.RoundToHalfDegree(setting.Tilt);
        var (compound, fence) = CompoundOf(panel, edge);
        RoundedAngle? mitre = compound is { } c ? Angles.RoundToHalfDegree(c.Mitre) : null;
        return new(
            panel, edge, tilt, setting, rounded, rounded.ErrorAt(panel.Thickness / Math.Cos(tilt)), compound, fence,
            mitre, mitre?.ErrorAt(panel.Outline.Segment(edge).Length) ?? 0, SizeAcross(panel, edge));
    }

    /// <summary>The mitre is turned from the longer of the straight neighbours, which has the better hold on a fence.</summary>
    private static (CompoundCut? Cut, string? Fence) CompoundOf(PlacedPanel panel, int edge)
    {
        var outline = panel.Outline;
        if (Math.Abs(outline.Edges[edge].Tilt) <= SquareWithin || FaceCut.Through(panel.Face, outline, edge) is not { } cut) return (null, null);
        var fence = new[] { outline.Previous(edge), outline.Next(edge) }.Where(i => !outline.Segment(i).IsArc).OrderByDescending(i => Math.Round(outline.Segment(i).Length, 6)).Select(i => (int?)i).FirstOrDefault();
        if (fence is not { } f) return (null, null);
        var compound = Angles.Compound(panel.Face.N, panel.Face.DirectionToWorld(outline.Segment(f).Chord), cut.Normal);
        return compound is { } c && c.Mitre > SquareWithin ? (c, outline.Edges[f].Name) : (null, null);
    }

    private static BevelledLength SizeAcross(PlacedPanel panel, int edge)
    {
        var out_ = panel.Outline.Segment(edge).Chord.Unit.Right;
        (double Low, double High) Extent(Outline o)
        {
            var across = o.Flattened(0.01).Corners.Select(c => c.Dot(out_)).ToList();
            return (across.Min(), across.Max());
        }
        var (low, high) = Extent(panel.Outline);
        var (lowInside, highInside) = Extent(panel.OutlineAt(panel.Thickness));
        return new(high - low, highInside - lowInside, Math.Max(high, highInside) - Math.Min(low, lowInside), Math.Min(high, highInside) - Math.Max(low, lowInside));
    }
}
