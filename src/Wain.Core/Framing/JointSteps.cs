using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;

namespace Wain.Core.Framing;

/// <summary>How two panels that a lap or a rabbet joins lie to each other, and what is cut off each (mm).</summary>
/// <param name="Parallel">Their faces are parallel: they lap edge over edge. Else one stands in a step of the other.</param>
/// <param name="Stepped">The panel that the other stands in; of two that are parallel, the first.</param>
/// <param name="Reach">How far they go over or into each other as placed: across the lap, or into the step. At the end where it is farther from what is asked.</param>
/// <param name="Thickness">What the two share through their thickness where they are parallel.</param>
/// <param name="First">Routed off the first panel of the joint.</param>
/// <param name="Second">Routed off the second.</param>
/// <param name="Asked">The reach that the spec asks for: the width of a lap, or the depth of the step; null if it leaves it to the placing.</param>
internal sealed record JointFit(bool Parallel, JointSide Stepped, JointSide Other, double Reach, double Thickness, double First, double Second, double? Asked)
{
    /// <summary>Null for joints of other kinds, and for a lap of two faces that only lie on each other.</summary>
    public static JointFit? Of(Spec spec, PlacedJoint joint)
    {
        if (joint.Kind is not (JointKind.Lap or JointKind.Rabbet) || joint.First.IsFace && joint.Second.IsFace) return null;
        var (a, b) = (joint.First.Panel, joint.Second.Panel);
        return joint.Kind == JointKind.Lap && !joint.First.IsFace && !joint.Second.IsFace && a.Face.N.Cross(b.Face.N).Length < 1e-3 ? Over(spec, joint) : Into(spec, joint);
    }

    private static JointFit? Over(Spec spec, PlacedJoint joint)
    {
        var (a, b) = (joint.First.Panel, joint.Second.Panel);
        // What both have through their thickness, along the first one's normal: its own is from -thickness to 0.
        double x = a.Face.Plane.SignedDistance(b.Face.Origin), y = x - b.Thickness * b.Face.N.Dot(a.Face.N);
        double shared = Math.Max(0, Math.Min(0, Math.Max(x, y)) - Math.Max(-a.Thickness, Math.Min(x, y)));
        var (first, second) = Depths(spec, joint, shared);
        var lap = joint.Fact.Find("lap")!;
        double? asked = spec.Evaluator.Length(lap, "width");
        var edge = a.Outline.Segment(joint.First.Edge);
        var outward = edge.Chord.Unit.Right;
        var line = b.Outline.Segment(joint.Second.Edge);
        // How far the second one's edge lies inside of the first's, at both ends of what they share.
        double Lap(Vec3 at)
        {
            var own = Local(a, at);
            Vec2 from = Local(a, b.Face.ToWorld(line.From)), to = Local(a, b.Face.ToWorld(line.To)), along = (to - from).Unit;
            double mine = (edge.From - own).Dot(outward), theirs = (from - own).Dot(along.Left) / (outward.Dot(along.Left) is var slope && Math.Abs(slope) > 1e-6 ? slope : 1);
            return mine - theirs;
        }
        double p = Lap(joint.From), q = Lap(joint.To), wanted = asked ?? (p + q) / 2;
        return new JointFit(true, joint.First, joint.Second, Math.Abs(p - wanted) >= Math.Abs(q - wanted) ? p : q, shared, first, second, asked);
    }

    private static JointFit? Into(Spec spec, PlacedJoint joint)
    {
        bool firstOnly = joint.First.IsFace || !joint.Second.IsFace && ReferenceEquals(joint.Through, joint.First.Panel), secondOnly = joint.Second.IsFace || !joint.First.IsFace && ReferenceEquals(joint.Through, joint.Second.Panel);
        if (firstOnly || secondOnly) return Into(spec, joint, firstOnly ? joint.First : joint.Second, firstOnly ? joint.Second : joint.First);
        // Where the spec does not say, the one into which the other goes as far as asked: at a corner, the one that runs through is in the other's way too.
        var (into, over) = (Into(spec, joint, joint.First, joint.Second), Into(spec, joint, joint.Second, joint.First));
        return Off(into) <= Off(over) ? into : over;

        static double Off(JointFit fit) => Math.Abs((fit.Asked ?? fit.Reach) - fit.Reach);
    }

    private static JointFit Into(Spec spec, PlacedJoint joint, JointSide stepped, JointSide other)
    {
        double reach = Reaches(stepped, other);
        bool ofFirst = ReferenceEquals(stepped, joint.First);
        if (joint.Kind == JointKind.Rabbet)
        {
            double depth = spec.Evaluator.Length(joint.Fact.Find("rabbet")!, "depth") ?? 0;
            return new JointFit(false, stepped, other, reach, 0, ofFirst ? depth : 0, ofFirst ? 0 : depth, depth);
        }
        var (first, second) = Half(spec, joint) ?? (joint.First.Panel.Thickness / 2, joint.Second.Panel.Thickness / 2);
        return new JointFit(false, stepped, other, reach, 0, first, second, ofFirst ? first : second);
    }

    /// <summary>How far a panel's edge goes into another from the face that it comes from, on the average of its two ends.</summary>
    private static double Reaches(JointSide into, JointSide edge)
    {
        if (edge.IsFace) return 0;
        var panel = edge.Panel;
        double depth = panel.Thickness / 2, height = into.Panel.Face.Plane.SignedDistance(panel.Face.ToWorld(panel.OutlineAt(depth).Segment(edge.Edge).At(0.5), depth));
        return PanelShapes.IsBefore(into.Panel, panel) ? -height : height + into.Panel.Thickness;
    }

    // Half of what they share, one depth for both, or one for each.
    private static (double First, double Second) Depths(Spec spec, PlacedJoint joint, double shared) => Half(spec, joint) ?? (shared / 2, shared / 2);

    private static (double First, double Second)? Half(Spec spec, PlacedJoint joint)
    {
        var lap = joint.Fact.Find("lap")!;
        if (!lap.Has("depths") || lap.Word("depths") == "half") return null;
        return spec.Evaluator.Lengths(lap, "depths") switch { [var one] => (one, one), [var one, var two, ..] => (one, two), _ => null };
    }

    internal static Vec2 Local(PlacedPanel panel, Vec3 at) => panel.Face.ToLocal(at) is var p ? new Vec2(p.X, p.Y) : default;
}

/// <summary>The steps that laps and rabbets between panels cut into each of the two.</summary>
internal static class JointSteps
{
    public static IEnumerable<PanelStep> Of(Spec spec, PlacedJoint joint, PlacedPanel panel)
    {
        if (JointFit.Of(spec, joint) is not { } fit) return [];
        var other = ReferenceEquals(joint.First.Panel, panel) ? joint.Second.Panel : joint.First.Panel;
        string what = $"{(joint.Kind == JointKind.Lap ? "lap with" : "rabbet for")} {other.Name}";
        if (fit.Reach <= 0) return [];
        return fit.Parallel ? Lapped(fit, joint, panel, what) : ReferenceEquals(fit.Stepped.Panel, panel) ? Under(fit, joint, what) : Tongue(fit, joint, what);
    }

    // The first panel keeps its outer side over the lap, and the second the side that looks away from it.
    private static IEnumerable<PanelStep> Lapped(JointFit fit, PlacedJoint joint, PlacedPanel panel, string what)
    {
        bool first = ReferenceEquals(joint.First.Panel, panel);
        double depth = first ? fit.First : fit.Second;
        bool outside = !first && joint.First.Panel.Face.N.Dot(panel.Face.N) > 0;
        if (depth > 0) yield return new PanelStep((first ? joint.First : joint.Second).Edge, fit.Asked ?? fit.Reach, depth, outside, [], what);
    }

    // Between the two faces of the panel that stands in it, less what that one's own step takes.
    private static IEnumerable<PanelStep> Under(JointFit fit, PlacedJoint joint, string what)
    {
        var (panel, other) = (fit.Stepped.Panel, fit.Other.Panel);
        double depth = ReferenceEquals(fit.Stepped, joint.First) ? fit.First : fit.Second, thinned = ReferenceEquals(fit.Stepped, joint.First) ? fit.Second : fit.First;
        if (depth <= 0 || FaceCut.Of(panel.Face, other.Face.Plane) is not { } outside || FaceCut.Of(panel.Face, other.Face.Plane.Moved(-(other.Thickness - thinned)).Flipped) is not { } inside) yield break;
        var along = JointFit.Local(panel, joint.To) - JointFit.Local(panel, joint.From);
        HalfPlane Kept(FaceCut cut) => new(cut.Normal * cut.Offset, -cut.Normal);
        yield return new PanelStep(null, 0, depth, PanelShapes.IsBefore(panel, other),
            [Kept(outside), Kept(inside), new(JointFit.Local(panel, joint.From), along.Unit), new(JointFit.Local(panel, joint.To), -along.Unit)], what);
    }

    // The panel that stands in the step keeps its outer side there, and ends where the step does.
    private static IEnumerable<PanelStep> Tongue(JointFit fit, PlacedJoint joint, string what)
    {
        double thinned = ReferenceEquals(fit.Other, joint.First) ? fit.First : fit.Second;
        if (thinned > 0) yield return new PanelStep(fit.Other.Edge, fit.Reach, thinned, false, [], what);
    }
}
