using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Framing;
using Wain.Core.Pieces;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>Splices that are asked to lie over studs, or apart from those of the other face, must.</summary>
public static class SplicePlaces
{
    private static readonly string Text = Examples.Wall(120, 40, "frame {\n    studs every SPACING on centre\n}\nsplice across length {\n    lap width 1 in\n    lap depth half\n    over stud\n}");

    public static readonly FindingInfo Info = new("WN4206", "splice-misplaced", Level.Warning, "A splice does not lie where the spec wants it",
        "Over a stud a splice is clamped and held while its glue sets; between studs it hangs free. Splices of the two faces at one place make a hinge of the panel. No placing of the fewest pieces kept the rule here.",
        Text.With("SPACING", "110 in"), Text.With("SPACING", "20 in"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        foreach (var (p, others) in OfSkins.Worst(input.Pieces.Problems.Where(p => p.Kind is PieceProblemKind.NotOverMember or PieceProblemKind.NotStaggered), p => (p.Kind, p.Panel, p.Rule!.Fact, input.Say.Length(p.Has)), p => p.Layer.Material!.Name, _ => 0))
        {
            bool over = p.Kind == PieceProblemKind.NotOverMember;
            string? member = over ? MemberAt(input, p) : null;
            yield return new Finding(Info, over
                ? $"The splice of {p.Layer.Material!.Name}{others} in {p.Panel.Name} at {input.Say.Length(p.Has)} lies over no stud{(p.Needs > 0 ? $"; the nearest is at {input.Say.Length(p.Needs)}" : "")}."
                : $"A splice of {p.Layer.Material!.Name}{others} in {p.Panel.Name} lies {input.Say.Length(p.Has)} from one of the other face; {input.Say.Length(p.Needs)} is asked.", p.Rule!.Fact.HeadSpan)
            {
                Subject = p.Panel.Name,
                Fixes = member is not null && p.Panel.Mirrored is null && PanelFacts.Find(p.Panel, "frame") is { } frame ? Fixing.One(Fixing.AddLine(frame, member)) : [],
                Hint = over ? member is null ? "Move the splice onto a member." : $"Put a member there: {member}" : "State the place of one of them with at, or ask for less.",
            };
        }
    }

    // What runs along the splice: a stud where it runs as the studs do, else blocking between them. Studs that are turned leave no member for one that runs up.
    private static string? MemberAt(CheckInput input, PieceProblem p)
    {
        bool runsUp = p.Panel.Width >= p.Panel.Height == p.Rule!.AcrossLength, turned = input.Frames.Of(p.Panel).FirstOrDefault() is { Rules.Turned: true };
        return runsUp != turned ? $"stud at {input.Say.Length(p.Has)} along" : turned ? null : $"blocking at {input.Say.Length(p.Has)} up";
    }
}
