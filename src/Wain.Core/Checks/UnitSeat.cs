using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>A unit's flange must find wood under it: beside the hole, at its rounded corners, and inside its recess.</summary>
public static class UnitSeat
{
    private static readonly string Text = Examples.Wall(60, 30, "opening vent {\n    unit window\n    lower left at (20 in, 10 in)\n    recessed 1/2 in, margin MARGIN\n}");

    public static readonly FindingInfo Info = new("WN4107", "unit-flange-without-seat", Level.Warning, "A window's flange does not sit on its members",
        "The flange clamps or is screwed to what lies under it. In a recess smaller than the flange it can't go in at all; where the members are narrower than the flange its outer part presses on skin and foam alone; and where a rounded corner is larger than the flange covers, the square corner of the members stays open.",
        Text.With("MARGIN", "1/2 in"), Text.With("MARGIN", "1 1/2 in"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        foreach (var panel in input.Structure.Panels)
            foreach (var o in panel.Openings)
            {
                if (o.Unit is not { } unit || unit.Flange <= 0) continue;
                string subject = $"{panel.Name}.{o.Name}";
                if (o.Recess is { } recess)
                {
                    double margin = (recess.Region.Bounds.Width - o.Hole.Bounds.Width) / 2;
                    if (margin < unit.Flange - 0.01)
                    {
                        var recessed = o.Fact.Find("recessed")!;
                        yield return new Finding(Info, $"The recess of opening {o.Name} in {panel.Name} goes {input.Say.Length(margin)} round the hole; the flange of {unit.Name} needs {input.Say.Length(unit.Flange)}.", o.Fact.NameSpan)
                        {
                            Level = Level.Error,
                            Subject = subject,
                            Hint = $"Make its margin at least {input.Say.AtLeast(unit.Flange)}.",
                            Fixes = recessed.Has("margin") ? [Fixing.Write(input.Spec, recessed, "margin", input.Say.AtLeast(unit.Flange))] : [],
                        };
                    }
                }
                var seat = o.Hole.Offset(unit.Flange).Outline ?? o.Hole;
                // A hole across the border itself is told as that.
                if (panel.Zones.FirstOrDefault(z => !z.Added && (Math.Abs(z.Offset) > 0.5 || o.Recess is null && Math.Abs(z.Stack.Thickness - panel.Thickness) > 0.5) && !z.Region.Contains(seat) && Overlap.Area(z.Region, seat) > 1 && (z.Region.Contains(o.Hole) || Overlap.Area(z.Region, o.Hole) < 1)) is { } step)
                    yield return new Finding(Info, $"The flange of {unit.Name} in {panel.Name} lies across the edge of zone {step.Name}, half on it and half beside it.", o.Fact.NameSpan)
                    {
                        Subject = subject,
                        Hint = $"Its hole with the flange round it runs from {input.Say.On(seat.Bounds.Min)} to {input.Say.On(seat.Bounds.Max)}, the zone from {input.Say.On(step.Region.Bounds.Min)} to {input.Say.On(step.Region.Bounds.Max)}: move the one, or make the other larger.",
                        Related = [new Related(step.Fact.NameSpan, "the zone is here")],
                    };
                if (!o.Framed || input.Frames.Of(panel).FirstOrDefault() is not { } frame) continue;
                double under = frame.Members.Where(m => m.Around == o.Name).Select(m => m.Width).DefaultIfEmpty(frame.Layer.FaceWidth).Min();
                if (unit.Flange > under + 0.01)
                    yield return new Finding(Info, $"The flange of {unit.Name} in {panel.Name} is {input.Say.Length(unit.Flange)} wide and the narrowest member round opening {o.Name} {input.Say.Length(under)}.", o.Fact.NameSpan)
                    {
                        Subject = subject,
                        Hint = "Frame it with a wider stick (framed with STICK), or with two trimmers a side (framed trimmers 2).",
                    };
                // From the arc to the square corner on the diagonal.
                double open = o.Corner * (Math.Sqrt(2) - 1);
                if (open > unit.Flange + 0.01)
                    yield return new Finding(Info, $"At the corners of opening {o.Name} in {panel.Name} the members stand {input.Say.Length(open)} back from the arc; the flange of {unit.Name} covers {input.Say.Length(unit.Flange)}.", o.Fact.NameSpan)
                    {
                        Subject = subject,
                        Hint = $"Fill the corners with blocks, or round them with at most {input.Say.AtMost(unit.Flange / (Math.Sqrt(2) - 1))}.",
                        Fixes = o.Fact.Find("size") is { } size && size.Has("corner") ? [Fixing.Write(input.Spec, size, "corner", input.Say.AtMost(unit.Flange / (Math.Sqrt(2) - 1)))] : [],
                    };
            }
    }
}
