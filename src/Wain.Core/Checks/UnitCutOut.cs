using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Geometry;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>A hole whose size is stated beside its unit must still be one that the unit goes into and covers.</summary>
public static class UnitCutOut
{
    private static readonly string Text = Examples.Wall(60, 30, "opening vent {\n    unit window\n    size SIZE\n    lower left at (20 in, 10 in)\n}");

    public static readonly FindingInfo Info = new("WN4139", "hole-not-of-its-unit", Level.Error, "A hole is not the one that its unit asks for",
        "A unit brings its own cut-out. A size that is stated beside it takes its place, for a little play; a hole that is smaller, or rounder at its corners, does not let the unit in, and one that its flange does not cover stays open beside it.",
        Text.With("SIZE", "18 in by 10 in, corner 1 in"), Text.With("SIZE", "20 1/8 in by 10 1/8 in, corner 1 in"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        foreach (var panel in input.Structure.Panels)
            foreach (var o in panel.Openings)
            {
                if (o.Unit is not { CutOutWidth: > 0, CutOutHeight: > 0 } unit || o.Fact.Find("size") is not { } size) continue;
                double wide = o.Width - unit.CutOutWidth, high = o.Height - unit.CutOutHeight, play = Math.Min(wide, high) / 2;
                // Along the diagonal of a corner, from square corner to arc.
                double round = (Math.Sqrt(2) - 1) * (o.Corner - unit.CutOutCorner) - Math.Sqrt(2) * play;
                string? why = play < -Slack ? $"it is {input.Say.Nearly(-2 * play)} too {(wide < high ? "narrow" : "low")}"
                    : Math.Max(wide, high) / 2 > unit.Flange + Slack && unit.Flange > 0 ? $"its flange of {input.Say.Length(unit.Flange)} does not cover the {input.Say.Nearly(Math.Max(wide, high) / 2)} beside it"
                    : round > Slack ? $"the hole is rounded by {input.Say.Length(o.Corner)} and the unit by {input.Say.Length(unit.CutOutCorner)}"
                    : null;
                if (why is null) continue;
                yield return new Finding(Info, $"Opening {o.Name} of {panel.Name} is cut {input.Say.Length(o.Width)} by {input.Say.Length(o.Height)} where {unit.Name} asks for {input.Say.Length(unit.CutOutWidth)} by {input.Say.Length(unit.CutOutHeight)}: {why}.", size.Span)
                {
                    Subject = $"{panel.Name}.{o.Name}",
                    Hint = "Without a size of its own the hole is the one that the unit asks for.",
                    Fixes = [Fixing.TakeOut(size)],
                };
            }
    }

    /// <summary>mm that a hole may be too small or too round by: a file takes that off.</summary>
    private const double Slack = 0.5;
}
