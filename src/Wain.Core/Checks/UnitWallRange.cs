using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>A unit clamps a wall between two thicknesses; the wall at the opening, less its recess, must lie between them.</summary>
public static class UnitWallRange
{
    private static readonly string Text = Examples.Wall(60, 30, "opening vent {\n    unit thin_window\n    lower left at (20 in, 10 in)\n    recessed DEPTH, margin 1 1/2 in\n}",
        "unit thin_window { cut_out 20 in by 10 in, corner 1 in\n    wall between 3/4 in and 1 in\n    flange 1 in\n    proud 1/16 in }\n");

    public static readonly FindingInfo Info = new("WN4106", "wall-outside-unit-range", Level.Error, "A wall is too thick or too thin for its window",
        "The inner ring of a window pulls the outer one against the wall within a range that its maker states. Outside of that range it does not clamp, or does not close. A recess makes the wall thinner there; a zone may make it thicker.",
        Text.With("DEPTH", "1/8 in"), Text.With("DEPTH", "1/4 in"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        foreach (var panel in input.Structure.Panels)
            foreach (var o in panel.Openings)
            {
                if (o.Unit is not { } unit || (unit.WallLow is null && unit.WallHigh is null)) continue;
                double whole = ThicknessAt(panel, o), wall = whole - (o.Recess?.Depth ?? 0);
                // A recess that goes through the wall leaves none to clamp; RecessLeaves tells it.
                if (wall <= 0.01) continue;
                double low = unit.WallLow ?? 0, high = unit.WallHigh ?? double.PositiveInfinity;
                if (wall >= low - 0.01 && wall <= high + 0.01) continue;
                bool thick = wall > high;
                var recessed = o.Fact.Find("recessed");
                double least = Math.Max(0, whole - high), most = whole - low;
                bool recessDoes = most > 0 && least <= most;
                yield return new Finding(Info, $"The wall at opening {o.Name} of {panel.Name} is {input.Say.Length(wall)} thick, {input.Say.Length(thick ? wall - high : low - wall)} too {(thick ? "thick" : "thin")} for {unit.Name}, which takes {input.Say.Length(low)} to {input.Say.Length(high)}.", o.Fact.NameSpan)
                {
                    Subject = $"{panel.Name}.{o.Name}",
                    Hint = recessDoes ? least > 0 ? $"A recess between {input.Say.Length(least)} and {input.Say.Length(most)} deep would do." : $"A recess of at most {input.Say.Length(most)} would do." : $"Thicken the wall there by {input.Say.Length(low - whole)}, with a zone on its inside.",
                    Fixes = !recessDoes ? [] : recessed is not null ? [Fixing.Write(input.Spec, recessed, "depth", input.Say.Between(least, most))]
                        : least > 0 && least <= RecessLeaves.Deepest(panel, o, true) ? Fixing.One(Fixing.AddLine(o.Fact, $"recessed {input.Say.Between(least, Math.Min(most, RecessLeaves.Deepest(panel, o, true)))}")) : [],
                };
            }
    }

    /// <summary>Of the panel where the opening stands, its zones counted (mm), before a recess of the opening's own.</summary>
    internal static double ThicknessAt(PlacedPanel panel, PlacedOpening opening)
    {
        var at = opening.Hole.Bounds.Centre;
        double thickness = panel.Zones.FirstOrDefault(z => !z.Added && z.Region.Contains(at))?.Stack.Thickness ?? panel.Thickness;
        return thickness + panel.Zones.Where(z => z.Added && z.Region.Contains(at)).Sum(z => z.Stack.Thickness);
    }
}
