using Wain.Core.Binding;
using Wain.Core.Methods;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Units;

namespace Wain.Core.Takeoff;

/// <summary>The tubes of a subframe, each a line with a place of its own, and what its mounts and the camper's tie-downs are made of.</summary>
internal static class SubframeTakeoff
{
    public static void Add(LineList lines, Structure structure)
    {
        var e = structure.Spec.Evaluator;
        foreach (var group in structure.Subframe.GroupBy(m => m.Carrier, StringComparer.Ordinal).OrderBy(g => g.Key, StringComparer.Ordinal))
        {
            var frame = structure.Spec.Find(group.Key)?.Find("subframe");
            double? weighed = frame is not null && frame.Has("weight") ? e.Number(frame, "weight") : null;
            double whole = group.Sum(Metal);
            foreach (var member in group.OrderBy(m => m.Name, StringComparer.Ordinal))
            {
                var stick = member.Stick;
                string key = lines.Key(member.PartMark, stick.Name);
                double length = member.Length / 1000, volume = Metal(member) / 1e9;
                lines.Add(new TakeoffLine(key, member.PartMark, [], LineKind.Member, stick, "length", new Quantity(length, Dimension.OfLength), stick.Waste, "between its ends as cut", [], member.Fact.Span)
                {
                    Pieces = [length],
                    Also = [new Measured("volume", new Quantity(volume, Dimension.OfVolume), "its length by the metal in its section", [])],
                    // A scale takes over from the tables; each tube has its share of what the scale says.
                    Weight = weighed is { } kg ? new LineWeight([new CausedSpread(group.Key + ".subframe", Spread.Exactly(kg * Metal(member) / whole))], $"its share of the weight that {group.Key} states for its subframe", [], null)
                        : stick.Figure("weight") is not null ? Weighing.Times(key + ".length", length, stick, "weight") : Weighing.Times(key + ".volume", volume, stick, "density"),
                });
            }
        }
        foreach (var carrier in structure.Spec.All("carrier").Where(c => c.Name is not null).OrderBy(c => c.Name, StringComparer.Ordinal))
            foreach (var point in Points(carrier).Where(m => m.Name is not null))
                if (lines.Of(point, "hardware") is { } hardware) Fastenings.AddCount(lines, $"{carrier.Name}.{point.Name}", [], LineKind.Hardware, hardware, 1, point.Keyword == "mount" ? "one for each mount" : "one for each tie-down", point.Span);
    }

    private static IEnumerable<BoundFact> Points(BoundFact carrier) => carrier.All("mount").Concat(carrier.All("tie_down"));

    /// <summary>Where the weight of a member, mount or tie-down is (mm), by the subject of its line; null for any other line.</summary>
    public static Vec3? PlaceOf(Structure structure, string subject)
    {
        if (structure.Subframe.FirstOrDefault(m => m.PartMark == subject) is { } member) return member.Middle;
        foreach (var carrier in structure.Spec.All("carrier"))
            foreach (var point in Points(carrier))
                if ($"{carrier.Name}.{point.Name}" == subject && structure.Spec.Evaluator.Place(point, "at") is { } at) return new Vec3(at[0], at[1], at[2]);
        return null;
    }

    // mm3 of metal.
    private static double Metal(SubframeMember member) => member.Length * member.Stick.SectionArea;
}
