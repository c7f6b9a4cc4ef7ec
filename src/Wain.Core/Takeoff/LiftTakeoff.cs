using Wain.Core.Geometry;

namespace Wain.Core.Takeoff;

/// <summary>Struts of a lift, and the seal round what it moves.</summary>
internal static class LiftTakeoff
{
    public static void Add(LineList lines, PlacedLift lift, Structure structure)
    {
        foreach (var strut in lift.Fact.All("strut"))
        {
            if (lines.Of(strut, "hardware") is { } hardware) Fastenings.AddCount(lines, $"{lift.Name}.{strut.Name}", [], LineKind.Hardware, hardware, 1, "one for each strut", strut.Span);
        }
        if (lift.Fact.Find("seal") is { } fact && lines.Of(fact, "seal") is { } seal)
        {
            var carried = lift.Carries.ToHashSet(StringComparer.Ordinal);
            double run = structure.Panels.Where(p => carried.Contains(p.Name) && !p.IsLevel).Sum(p => p.Width);
            Fastenings.AddRun(lines, lift.Name, [], LineKind.Seal, seal, run, "the widths of the walls that it carries", fact.Span);
        }
    }
}
