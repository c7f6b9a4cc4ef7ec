using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>An opening lies wholly in a zone or wholly beside it.</summary>
public static class OpeningAcrossZone
{
    private static readonly string Text = Examples.Wall(60, 30, "zone bay of deck_stack from 10 in to 40 in along, from 5 in to 25 in up, recessed 1/2 in from outside\nopening vent {\n    size 12 in by 10 in\n    lower left at (ALONG, 10 in)\n}");

    public static readonly FindingInfo Info = new("WN4132", "opening-across-zone", Level.Error, "An opening crosses the edge of a zone",
        "At the edge of a zone the wall changes its thickness, so a window there sits on a step and can't be clamped or sealed all round.",
        Text.With("ALONG", "32 in"), Text.With("ALONG", "20 in"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        foreach (var panel in input.Structure.Panels)
            foreach (var zone in panel.Zones)
                foreach (var opening in panel.Openings)
                {
                    double hole = opening.Hole.Area(), shared = Overlap.Area(opening.Hole, zone.Region);
                    // By less than a tape tells all along one side it is a matter of the border and not of the place.
                    double least = 25.4 / 64 * Math.Min(opening.Width, opening.Height);
                    if (shared <= least || shared >= hole - least) continue;
                    yield return new Finding(Info, $"Opening {opening.Name} of {panel.Name} crosses the edge of zone {zone.Name}: {(shared / hole).ToString("0 %", System.Globalization.CultureInfo.InvariantCulture)} of it lies in the zone.", opening.Fact.NameSpan)
                    {
                        Subject = $"{panel.Name}.{opening.Name}",
                        Hint = "Move it into the zone or out of it, or make the zone larger.",
                        Related = [new Related(zone.Fact.NameSpan, "the zone")],
                        Fixes = Fixing.One(Moving.Within(input.Spec, panel, opening, zone.Region)),
                    };
                }
    }
}
