using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;

namespace Wain.Core.Framing;

/// <summary>One screw in space: from under its head to its point (mm).</summary>
public readonly record struct Shaft(Vec3 Head, Vec3 Point)
{
    /// <summary>
    /// How near two straight shafts come (mm), and where: in the middle between the two nearest places. Where the common perpendicular meets both, held to
    /// their lengths (Ericson, Real-Time Collision Detection, 5.1.9, from memory).
    /// </summary>
    public (double Distance, Vec3 At) Nearest(Shaft other)
    {
        Vec3 u = Point - Head, v = other.Point - other.Head, w = Head - other.Head;
        double a = u.Dot(u), b = u.Dot(v), c = v.Dot(v), d = u.Dot(w), e = v.Dot(w), slope = a * c - b * b;
        double s = slope > 1e-9 ? Math.Clamp((b * e - c * d) / slope, 0, 1) : 0, t = (b * s + e) / c;
        if (t < 0) (t, s) = (0, Math.Clamp(-d / a, 0, 1));
        else if (t > 1) (t, s) = (1, Math.Clamp((b - d) / a, 0, 1));
        var (on, off) = (Head + u * s, other.Head + v * t);
        return (on.DistanceTo(off), on.Lerp(off, 0.5));
    }
}

/// <summary>The screws of a joint, each in its place (mm).</summary>
/// <param name="Diameter">Of the shank.</param>
/// <param name="First">From the end of the joint to the first screw.</param>
/// <param name="Apart">From screw to screw; 0 for one alone.</param>
internal sealed record ScrewRow(PlacedJoint Joint, BoundFact Fact, BoundFact Screw, ScrewPath Path, double Diameter, double Length, double First, double Apart, ImmutableArray<Shaft> Shafts)
{
    /// <summary>More screws than any joint holds: what asks for more is a slip of the pen, told by the check of their spacing.</summary>
    private const int Most = 10_000;

    /// <summary>Pilot drill (mm), as the joint says or else the screw; null if neither does.</summary>
    public double? Pilot { get; init; }

    /// <summary>Width of the countersink (mm); null for a head that is not sunk.</summary>
    public double? Countersink { get; init; }

    /// <summary>Of every screws line whose screw has a diameter and a length, in joints with a panel that stops and one that it stops at.</summary>
    public static IEnumerable<ScrewRow> Of(Spec spec, PlacedJoint joint)
    {
        var e = spec.Evaluator;
        foreach (var fact in joint.Fact.All("screws"))
        {
            if (e.Thing(fact, "screw") is not { } screw || screw.Find("length") is not { } stated || e.Length(stated, "value") is not { } length || ScrewPath.Diameter(spec, screw) is not { } diameter) continue;
            if (ScrewPath.Of(joint, fact) is { } path && Of(e, joint, fact, screw, path, diameter, length, EndStated(e, fact)) is { } row)
                yield return row with { Pilot = ScrewPath.Pilot(spec, fact, screw), Countersink = ScrewPath.Countersink(spec, screw) };
        }
    }

    /// <summary>The same row with its first and last screws at another distance from the ends (mm).</summary>
    public ScrewRow? From(Evaluator e, double end) => Of(e, Joint, Fact, Screw, Path, Diameter, Length, end);

    /// <summary>How many screws a joint of a length (mm) takes; null if the spec says neither their number nor their spacing.</summary>
    public static int? Count(Evaluator e, BoundFact fact, double length) => Count(e, fact, length, EndStated(e, fact));

    public static double? EndStated(Evaluator e, BoundFact fact) => e.Length(fact, "end");

    /// <summary>
    /// Screws along a run (mm): as many as keep the stated spacing. The first and last stand at the end distance where one is stated, and otherwise half a
    /// spacing from the ends, so that each holds the same length.
    /// </summary>
    public static int CountAlong(double length, double every, double? end)
    {
        if (length <= 0 || every <= 0) return 0;
        if (end is not { } e) return (int)Math.Min(Most, Math.Ceiling(length / every - 1e-9));
        double between = length - 2 * e;
        return between <= 0 ? 1 : (int)Math.Min(Most, Math.Ceiling(between / every - 1e-9) + 1);
    }

    private static int? Count(Evaluator e, BoundFact fact, double length, double? end)
    {
        if (e.Number(fact, "count") is { } stated) return (int)Math.Clamp(stated, 0, Most);
        return e.Length(fact, "every") is { } every && every > 0 ? CountAlong(length, every, end) : null;
    }

    private static ScrewRow? Of(Evaluator e, PlacedJoint joint, BoundFact fact, BoundFact screw, ScrewPath path, double diameter, double length, double? end)
    {
        if (Count(e, fact, joint.Length, end) is not (> 0 and var count)) return null;
        double first = count == 1 ? joint.Length / 2 : end is { } stated && 2 * stated < joint.Length ? stated : joint.Length / count / 2;
        double apart = count == 1 ? 0 : (joint.Length - 2 * first) / (count - 1);
        var along = (joint.To - joint.From).Unit;
        var start = OnJoint(joint) is { } at ? at + along * (joint.From - at).Dot(along) : joint.From;
        return new ScrewRow(joint, fact, screw, path, diameter, length, first, apart, [.. Enumerable.Range(0, count).Select(i =>
        {
            var head = start + along * (first + i * apart) + path.Driver * path.Passes;
            return new Shaft(head, head - path.Driver * length);
        })]);
    }

    // A place on the joint in the middle of the wood that the screws stand in: of the frame where the panel that stops has one.
    private static Vec3? OnJoint(PlacedJoint joint)
    {
        var side = joint.Second.IsFace ? joint.First : joint.First.IsFace ? joint.Second : ReferenceEquals(joint.Through, joint.First.Panel) ? joint.Second : joint.First;
        if (side.IsFace) return null;
        var stack = side.Panel.Stack;
        double depth = stack.Frame is { } frame ? stack.DepthOf(frame) + frame.Thickness / 2 : side.Panel.Thickness / 2;
        return side.Panel.Face.ToWorld(side.Panel.OutlineAt(depth).Segment(side.Edge).From, depth);
    }
}
