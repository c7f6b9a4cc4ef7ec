using Wain.Core.Binding;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Model;

namespace Wain.Core.Framing;

/// <summary>What a screw of a joint passes and what it ends in (mm).</summary>
/// <param name="Passes">Thickness that it goes through before it reaches the other panel.</param>
/// <param name="Wood">How much wood there is to end in; infinite for solid sheet on edge.</param>
/// <param name="Open">True if past that wood is the open air: the screw would come through. Else it is foam or a cavity.</param>
/// <param name="Across">Width of the wood that it ends in, across the screw.</param>
/// <param name="Driver">From the joint toward where the driver stands, of length one.</param>
internal sealed record ScrewPath(PlacedPanel Through, PlacedPanel Into, double Passes, double Wood, bool Open, double Across, Vec3 Driver)
{
    /// <summary>The side that the spec says a joint's screws are driven from, seen from that joint: left and right change places in its mirror.</summary>
    public static string? From(PlacedJoint joint, BoundFact screws) =>
        screws.Word("from") is { } word && joint.Mirrored ? word switch { "left" => "right", "right" => "left", _ => word } : screws.Word("from");

    /// <summary>Null where it can't be told: a mitre has no panel that runs through.</summary>
    public static ScrewPath? Of(PlacedJoint joint, BoundFact screws) => Of(joint, From(joint, screws));

    /// <param name="drivenFrom">A side as it is at this joint, or null for the usual one.</param>
    public static ScrewPath? Of(PlacedJoint joint, string? drivenFrom)
    {
        var (face, edge) = joint.Second.IsFace ? (joint.Second.Panel, joint.First.Panel) : joint.First.IsFace ? (joint.First.Panel, joint.Second.Panel)
            : joint.Through is { } through ? (through, ReferenceEquals(through, joint.First.Panel) ? joint.Second.Panel : joint.First.Panel) : (null, null);
        if (face is null || edge is null) return null;
        var frame = edge.Stack.Frame;
        bool solid = edge.Stack.Layers.All(l => l.Kind is LayerKind.Sheet or LayerKind.Cloth or LayerKind.Coating or LayerKind.Membrane);
        double rail = frame is not null ? frame.FaceWidth : solid ? double.PositiveInfinity : 0;
        double across = frame?.Thickness ?? (solid ? edge.Thickness : 0);
        // Driven from the side of the panel that meets with its edge, the screw goes through that panel's rail and into the other's thickness.
        var middle = edge.Face.ToWorld(edge.Outline.Bounds.Centre, edge.Thickness / 2);
        double side = Math.Sign(face.Face.N.Dot(middle - face.Face.ToWorld(new Vec2(0, 0), face.Thickness / 2)));
        bool fromEdge = Direction(drivenFrom) is { } from && from.Dot(face.Face.N * side) > 0.3 && double.IsFinite(rail) && rail > 0;
        return fromEdge ? new ScrewPath(edge, face, rail, face.Thickness, true, across, face.Face.N * side) : new ScrewPath(face, edge, face.Thickness, rail, false, across, face.Face.N * -side);
    }

    /// <summary>Null for outside and inside, which are told of the panel that is passed.</summary>
    public static Vec3? Direction(string? word) => word switch
    {
        "above" => new Vec3(0, 0, 1),
        "below" => new Vec3(0, 0, -1),
        "left" => new Vec3(0, 1, 0),
        "right" => new Vec3(0, -1, 0),
        "forward" => new Vec3(1, 0, 0),
        "aft" => new Vec3(-1, 0, 0),
        _ => null,
    };

    /// <summary>The side that the driver stands on, as a word of the language: the nearest of the six.</summary>
    public string Side => new[] { "above", "below", "left", "right", "forward", "aft" }.MaxBy(w => Direction(w)!.Value.Dot(Driver))!;

    /// <summary>True if a driver that stands on that side looks along the screw; outside and inside are those of the panel that it passes.</summary>
    public bool IsDrivenFrom(string word) => Direction(word) is { } from ? from.Dot(Driver) > 0.3 : Through.Face.N.Dot(Driver) > 0 == (word == "outside");

    /// <summary>Pilot drill (mm), as the joint says or else the screw.</summary>
    public static double? Pilot(Spec spec, BoundFact fact, BoundFact screw) =>
        spec.Evaluator.Length(fact, "pilot") ?? (screw.Find("pilot") is { } own ? spec.Evaluator.Length(own, "value") : null);

    /// <summary>Width of the countersink (mm): of the head, where it is countersunk; else null.</summary>
    public static double? Countersink(Spec spec, BoundFact screw) =>
        screw.Find("head") is { } head && head.Word("countersunk") == "yes" ? spec.Evaluator.Length(head, "diameter") : null;

    /// <summary>Shank diameter (mm): as stated, else by gauge after ASME B18.6.1, 0.060 in + 0.013 in for each number (from memory).</summary>
    public static double? Diameter(Spec spec, BoundFact screw) =>
        screw.Find("diameter") is { } d ? spec.Evaluator.Length(d, "value") : screw.Find("gauge") is { } g && spec.Evaluator.Number(g, "gauge") is { } gauge ? (0.060 + 0.013 * gauge) * 25.4 : null;
}
