using Wain.Core.Geometry.Kernel;

namespace Wain.Core.Geometry;

/// <summary>The line along which an edge meets another panel: how much of it there is, and which of the two stops there.</summary>
internal static class JointLine
{
    // A stretch shorter than this (mm) is a corner that touches; and a length that changes by less is the same.
    private const double Least = 0.01;

    // How far an edge is pushed on to see whether it runs into wood (mm).
    private const double Push = 1;

    /// <summary>An edge half way through its panel, in space: of a bevelled edge, the mean of its two sides.</summary>
    public static (Vec3 From, Vec3 To) Middle(JointSide edge)
    {
        double depth = edge.Panel.Thickness / 2;
        var segment = edge.Panel.OutlineAt(depth).Segment(edge.Edge);
        return (edge.Panel.Face.ToWorld(segment.From, depth), edge.Panel.Face.ToWorld(segment.To, depth));
    }

    /// <summary>
    /// The part of an edge that lies over another panel, square to that one's face, as shares of its length from first to last; null if none does, or all of it. Holes are not looked at.
    /// </summary>
    public static (double From, double To)? Over(PlacedPanel panel, int edge, PlacedPanel other)
    {
        var (from, to) = Middle(new JointSide(panel, "", edge));
        double depth = Math.Clamp(-other.Face.Plane.SignedDistance(from.Lerp(to, 0.5)), 0, other.Thickness);
        var outline = other.OutlineAt(depth);
        Vec2 a = Flat(other, from), b = Flat(other, to);
        double length = a.DistanceTo(b);
        if (length < Least) return null;
        var line = new Segment(a, b);
        var cuts = new List<double> { 0, 1 };
        foreach (var side in outline.Segments) foreach (var at in SegmentPair.Meet(line, side)) cuts.Add(Math.Clamp((at - a).Dot(b - a) / (length * length), 0, 1));
        cuts.Sort();
        (double From, double To)? over = null;
        for (int i = 0; i + 1 < cuts.Count; i++)
            if ((cuts[i + 1] - cuts[i]) * length > Least && outline.Contains(a.Lerp(b, (cuts[i] + cuts[i + 1]) / 2), Least)) over = (over?.From ?? cuts[i], cuts[i + 1]);
        return over is { } found && (found.From * length > Least || (1 - found.To) * length > Least) ? found : null;
    }

    /// <summary>The panel that runs through where two edges meet: the one into which the other would go if it were longer. Null for edges that meet as in a mitre, or not at all.</summary>
    /// <param name="at">The middle of what the two have in common.</param>
    public static PlacedPanel? RunsThrough(JointSide first, JointSide second, Vec3 at)
    {
        bool one = Stops(first, second.Panel, at), two = Stops(second, first.Panel, at);
        return one == two ? null : one ? second.Panel : first.Panel;
    }

    private static bool Stops(JointSide edge, PlacedPanel other, Vec3 at)
    {
        var panel = edge.Panel;
        if (FaceCut.Through(panel.Face, panel.Outline, edge.Edge) is not { } cut) return false;
        var (from, to) = Middle(edge);
        var along = (to - from).Unit;
        var end = from + along * (at - from).Dot(along);
        var pushed = panel.Face.ToLocal(end + cut.Normal * Push) is var local ? panel.Face.ToWorld(new Vec2(local.X, local.Y), panel.Thickness / 2) : default;
        return PanelShapes.Distance(other, pushed) < Least && PanelShapes.Distance(other, end + cut.Normal * -Push) > Least;
    }

    private static Vec2 Flat(PlacedPanel panel, Vec3 at) => panel.Face.ToLocal(at) is var local ? new Vec2(local.X, local.Y) : default;
}
