using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>Round each recess the face stays whole as far as its own border.</summary>
public static class RecessesApart
{
    private static readonly string Text = Examples.Wall(72, 30, "opening vent {\n    size 20 in by 10 in\n    lower left at (10 in, 10 in)\n    recessed 5 mm, margin 1 1/2 in\n}\nopening hatch {\n    size 20 in by 10 in\n    lower left at (33 in, 10 in)\n    recessed 5 mm, margin MARGIN\n}");

    public static readonly FindingInfo Info = new("WN4141", "recesses-overlap", Level.Warning, "A recess runs into another or into an opening",
        "Where two recesses run into each other the rim between them is gone: neither flange has a border there, water goes from one to the other, and what both take is counted twice.",
        Text.With("MARGIN", "1 3/4 in"), Text.With("MARGIN", "1 1/2 in"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        foreach (var panel in input.Structure.Panels.Where(p => p.Openings.Length > 1))
            for (int i = 0; i < panel.Openings.Length; i++)
                for (int j = 0; j < panel.Openings.Length; j++)
                {
                    var (cut, other) = (panel.Openings[i], panel.Openings[j]);
                    if (i == j || cut.Recess is not { } recess || other.Recess is not null && j < i || Overlap.Area(cut.Hole, other.Hole) > 0) continue;
                    bool meets = other.Recess is not { } second || second.FromOutside == recess.FromOutside || second.Depth + recess.Depth > panel.Thickness;
                    var (a, b) = (recess.Region.Bounds, (other.Recess?.Region ?? other.Hole).Bounds);
                    if (!meets || Overlap.Area(recess.Region, other.Recess?.Region ?? other.Hole) < 1) continue;
                    double by = Math.Min(Math.Min(a.Max.X, b.Max.X) - Math.Max(a.Min.X, b.Min.X), Math.Min(a.Max.Y, b.Max.Y) - Math.Max(a.Min.Y, b.Min.Y));
                    yield return Tell(input, panel, cut, other, by);
                }
    }

    private static Finding Tell(CheckInput input, PlacedPanel panel, PlacedOpening cut, PlacedOpening other, double by)
    {
        // The later and the wider of the two gives way.
        var narrower = new[] { other, cut }.Select(o => (Fact: o.Fact.Find("recessed"), Opening: o)).Where(o => o.Fact?.Has("margin") == true)
            .Select(o => (o.Fact, Margin: input.Spec.Evaluator.Length(o.Fact!, "margin") ?? 0)).OrderByDescending(o => o.Margin).FirstOrDefault();
        return new Finding(Info, $"The recess of opening {cut.Name} in {panel.Name} runs {input.Say.Nearly(by)} into {(other.Recess is null ? "opening" : "that of")} {other.Name}.", other.Fact.NameSpan)
        {
            Subject = $"{panel.Name}.{other.Name}",
            Related = [new Related(cut.Fact.NameSpan, "the other opening")],
            Hint = $"Move one of them by {input.Say.AtLeast(by)}, or make a recess narrower.",
            Fixes = narrower.Fact is { } fact && narrower.Margin - by > 0 ? [Fixing.Write(input.Spec, fact, "margin", input.Say.AtMost(narrower.Margin - by))] : [],
        };
    }
}
