using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Framing;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>Between two openings there must be room for at least the one member that both stand against.</summary>
public static class OpeningsApart
{
    private static readonly string Text = Examples.Wall(72, 30, "opening vent {\n    size 20 in by 10 in\n    lower left at (10 in, 10 in)\n}\nopening hatch {\n    size 20 in by 10 in\n    lower left at (ALONG, 10 in)\n}");

    public static readonly FindingInfo Info = new("WN4105", "openings-too-close", Level.Error, "Two openings overlap or stand too close",
        "Between two holes at least one whole member has to stand, which both then share. Less than that leaves a strip of skin and foam that holds neither window.",
        Text.With("ALONG", "31 in"), Text.With("ALONG", "34 in"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        foreach (var frame in input.Frames.All)
            foreach (var p in frame.Problems.Where(p => p.Kind == FrameProblemKind.HolesTooClose))
            {
                if (Where.Opening(frame.Panel, p.Subject) is not { } opening) continue;
                string apart = p.Has <= 0.001 ? "overlap" : $"are {input.Say.Length(p.Has)} apart";
                var other = Where.Opening(frame.Panel, $"{frame.Panel.Name}.{p.Other}");
                yield return new Finding(Info, $"Openings {p.Other} and {opening.Name} of {frame.Panel.Name} {apart}; a member between them needs {input.Say.Length(p.Needs)}.", opening.Fact.NameSpan)
                {
                    Subject = p.Subject,
                    Hint = $"Move one of them by {input.Say.AtLeast(p.Needs - p.Has)} or more; two members side by side need {input.Say.Length(2 * p.Needs)}.",
                    Fixes = other is null ? [] : Fixing.One(Moving.Apart(input.Spec, frame, opening, other, p.Needs)),
                    Related = other is null ? [] : [new Related(other.Fact.NameSpan, "the other opening")],
                };
            }
    }
}
