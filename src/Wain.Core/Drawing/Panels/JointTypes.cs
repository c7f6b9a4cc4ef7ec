using System.Collections.Immutable;
using System.Globalization;
using Wain.Core.Binding;
using Wain.Core.Framing;
using Wain.Core.Geometry;

namespace Wain.Core.Drawing.Panels;

/// <summary>Joints that are made alike: of one kind, between the same stacks, at the same angle to half a degree, held by the same things.</summary>
/// <param name="Joints">The first stands for all.</param>
public sealed record JointType(ImmutableArray<JointAngle> Joints)
{
    public PlacedJoint Joint => Joints[0].Joint;

    public JointAngle Angle => Joints[0];

    /// <summary>Stays the same while the first of its joints does.</summary>
    public string Name => $"joint-{Joint.First.Panel.Name}-{Joint.First.Name}-{Joint.Second.Panel.Name}-{Joint.Second.Name}";
}

/// <summary>Sorts joints into types and tells what holds them.</summary>
public static class JointTypes
{
    /// <summary>By name, whatever the order of the spec; a joint that the spec writes stands before its mirror images.</summary>
    public static ImmutableArray<JointType> Of(Structure structure) =>
        [.. JointAngles.Of(structure).OrderBy(a => a.Joint.Mirrored).ThenBy(a => a.Joint.Name, StringComparer.Ordinal).GroupBy(a => Key(structure, a), StringComparer.Ordinal).Select(g => new JointType([.. g])).OrderBy(t => t.Name, StringComparer.Ordinal)];

    private static string Key(Structure structure, JointAngle angle)
    {
        var j = angle.Joint;
        string Side(JointSide s) => $"{s.Panel.Stack.Name} {(s.IsFace ? "face" : "edge")} {(j.Through == s.Panel ? "through" : "")}";
        return string.Join('|', JointWords.Kind(j), Side(j.First), Side(j.Second), LengthText.OfAngle(j.Dihedral), string.Join(';', Holding(structure.Spec, j, new DrawingOptions { Camper = "" })));
    }

    /// <summary>Glue, screws, fillets, tape, sealant, seal, trim, hardware and gussets, each in words.</summary>
    public static IEnumerable<string> Holding(Spec spec, PlacedJoint joint, DrawingOptions options)
    {
        var e = spec.Evaluator;
        string Thing(BoundFact fact, string slot) => fact.Has(slot) && e.Thing(fact, slot) is { Name: { } name } ? SheetWords.Spoken(name) : "";
        string Size(BoundFact fact, string slot) => e.Length(fact, slot) is { } mm ? options.Length(mm) : "?";
        string Count(BoundFact fact, string slot) => (e.Number(fact, slot) ?? 1).ToString("0", CultureInfo.InvariantCulture);
        foreach (var fact in joint.Fact.All("glue")) yield return $"Glue: {Thing(fact, "glue")}.";
        foreach (var fact in joint.Fact.All("screws"))
        {
            var parts = new List<string> { Thing(fact, "screw") };
            if (fact.Has("every")) parts.Add($"every {Size(fact, "every")}");
            if (fact.Has("count")) parts.Add($"{Count(fact, "count")} in all");
            if ((ScrewPath.From(joint, fact) ?? ScrewPath.Of(joint, fact)?.Side) is { } from) parts.Add($"driven from {from}");
            if (fact.Has("edge")) parts.Add($"{Size(fact, "edge")} from the edge");
            if (fact.Has("end")) parts.Add($"{Size(fact, "end")} from the ends");
            var screw = e.Thing(fact, "screw");
            if (screw is not null && ScrewPath.Pilot(spec, fact, screw) is { } pilot) parts.Add($"pilot {options.Fine(pilot, 64)}");
            if (screw is not null && ScrewPath.Countersink(spec, screw) is { } head) parts.Add($"countersunk {options.Fine(head)}");
            yield return $"Screws: {string.Join(", ", parts)}.";
        }
        foreach (var fact in joint.Fact.All("fillet"))
        {
            string tape = fact.Has("tape") ? $", taped with {Thing(fact, "tape")}" : "";
            yield return $"Fillet: {Thing(fact, "paste")}, radius {Size(fact, "radius")}{(fact.Says("both sides") ? " on both sides" : "")}{tape}.";
        }
        foreach (var fact in joint.Fact.All("taped")) yield return $"Tape: {Thing(fact, "tape")}{(fact.Has("plies") ? $", plies: {Count(fact, "plies")}" : "")}{(fact.Has("resin") ? $", wet with {Thing(fact, "resin")}" : "")}.";
        foreach (var fact in joint.Fact.All("sealant")) yield return $"Sealant: {Thing(fact, "sealant")}.";
        foreach (var fact in joint.Fact.All("seal")) yield return $"Seal: {Thing(fact, "seal")}.";
        foreach (var fact in joint.Fact.All("trim")) yield return $"Trim: {Thing(fact, "trim")}.";
        foreach (var fact in joint.Fact.All("hardware")) yield return $"Hardware: {Count(fact, "count")} of {Thing(fact, "hardware")}.";
        foreach (var fact in joint.Fact.All("gusset")) yield return $"Gussets: {Count(fact, "count")} of {Thing(fact, "material")}, {Size(fact, "leg")} by {Size(fact, "other")}.";
        if (joint.Fact.Find("unglued") is not null) yield return "Not glued: it comes apart.";
        if (joint.Fact.Find("gap") is { } gap && e.Bounds(gap, "range") is { } range)
            yield return $"Gap to keep: {(range.Low is { } low ? options.Length(low.Millimetres) : "0")} to {(range.High is { } high ? options.Length(high.Millimetres) : "any")}.";
    }
}
