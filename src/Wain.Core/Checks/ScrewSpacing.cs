using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Framing;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>Screws need wood round them, or they split it.</summary>
public static class ScrewSpacing
{
    // National Design Specification, commentary table C12.1.5.7, wood screws in wood, not prebored and prebored (from memory), in diameters.
    private const double Edge = 2.5, EndPlain = 15, EndBored = 10, RowPlain = 15, RowBored = 10;

    public static readonly FindingInfo Info = new("WN4114", "screw-too-near", Level.Warning, "Screws stand too near an edge, an end or each other",
        "The distances are those that the standard for timber gives for wood screws. Thin strips often can't keep them; where the joint is glued the screw is then only a clamp until the glue has set, and this is a note. Screws closer than their own thickness are a slip of the pen, and an error. Pilot holes shorten the distances. A screw never counts together with the glue for strength.",
        ScrewLength.Text.With("LENGTH", "1 1/2 in").With("EVERY", "1 in"), ScrewLength.Text.With("LENGTH", "1 1/2 in").With("EVERY", "8 in"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        var e = input.Spec.Evaluator;
        foreach (var (joint, fact, screw) in JointScrews.Of(input))
        {
            if (ScrewPath.Diameter(input.Spec, screw) is not { } d) continue;
            bool bored = fact.Has("pilot") || screw.Find("pilot") is not null;
            double end = (bored ? EndBored : EndPlain) * d, row = (bored ? RowBored : RowPlain) * d, edge = Edge * d;
            var told = new List<string>();
            var fixes = new List<Fix>();
            double? across = ScrewPath.Of(joint, fact)?.Across;
            double? fromEdge = e.Length(fact, "edge") ?? (across > 0 ? across / 2 : null);
            if (fromEdge is { } f && f < edge - 0.01) told.Add($"{input.Say.Length(f)} from the edge where {input.Say.Length(edge)} is the least");
            // Farther in than the panel is thick there is nothing to drive it into.
            double thick = (joint.Second.IsFace || ReferenceEquals(joint.Through, joint.Second.Panel) ? joint.First : joint.Second).Panel.Thickness;
            bool beside = e.Length(fact, "edge") is { } stated && stated >= thick;
            if (beside)
            {
                told.Add($"{input.Say.Length(fromEdge!.Value)} from the edge of what is {input.Say.Length(thick)} thick");
                fixes.Add(Fixing.Write(input.Spec, fact, "edge", input.Say.AtMost(thick / 2)));
            }
            // Where the spec says nothing of the ends the first screw stands half a spacing from them.
            var placed = ScrewRow.Of(input.Spec, joint).FirstOrDefault(r => ReferenceEquals(r.Fact, fact));
            bool endStated = ScrewRow.EndStated(e, fact) is not null, endShort = (ScrewRow.EndStated(e, fact) ?? placed?.First) < end - 0.01;
            if (endShort)
            {
                told.Add($"{input.Say.Nearly(ScrewRow.EndStated(e, fact) ?? placed!.First)} from the end where {input.Say.Length(end)} is the least");
                if (endStated) fixes.Add(Fixing.Write(input.Spec, fact, "end", input.Say.AtLeast(end)));
            }
            double? every = e.Length(fact, "every") ?? (placed?.Apart is > 0 and var apart ? apart : e.Number(fact, "count") is > 1 and var n ? joint.Length / n : null);
            bool inEachOther = every < d;
            if (every is { } h && h < row - 0.01)
            {
                told.Add($"{input.Say.Nearly(h)} apart{(inEachOther ? ", less than its own thickness," : "")} where {input.Say.Length(row)} is the least");
                if (fact.Has("every")) fixes.Add(Fixing.Write(input.Spec, fact, "every", input.Say.AtLeast(row) + (endStated || 2 * end >= joint.Length ? "" : $", end distance {input.Say.AtLeast(end)}")));
            }
            else if (endShort && !endStated && 2 * end < joint.Length) fixes.Add(Fixing.AddClause(fact, $"end distance {input.Say.AtLeast(end)}"));
            if (told.Count == 0) continue;
            bool glued = joint.Fact.Find("glue") is not null;
            yield return new Finding(Info, $"{screw.Name} of joint {joint.Name}: {string.Join("; ", told)}.", fact.Span)
            {
                Level = inEachOther || beside ? Level.Error : glued ? Level.Note : Level.Warning,
                Subject = joint.Name,
                Hint = beside ? $"Its middle is {input.Say.Nearly(thick / 2)} in." : inEachOther ? "No two screws stand in one place: say the spacing that was meant." : glued ? "The joint is glued, so the screws only clamp it; drill pilots so that the strip does not split." : bored ? "Use a thinner screw, or glue the joint." : "Drill pilots and say so (pilot), use a thinner screw, or glue the joint.",
                Fixes = [.. fixes],
            };
        }
    }
}
