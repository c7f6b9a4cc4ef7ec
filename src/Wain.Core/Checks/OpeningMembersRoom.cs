using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Framing;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>Header, sill and trimmers need their whole width, or none where a rail or stile is their stand-in.</summary>
public static class OpeningMembersRoom
{
    private static readonly string Text = Examples.Wall(60, 30, "opening vent {\n    size 20 in by 10 in\n    lower left at (20 in, UP)\n}");

    public static readonly FindingInfo Info = new("WN4104", "no-room-for-opening-members", Level.Warning, "The members round an opening have not their full width",
        "The strip between the hole and the next member is narrower than the stick, so a header, sill or trimmer has to be ripped to a sliver that takes no screw and carries no flange. Either leave the stick's whole width, or put the hole right against the rail or stile, which then does the work.",
        Text.With("UP", "2 in"), Text.With("UP", "3 in"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        foreach (var frame in input.Frames.All)
            foreach (var p in frame.Problems.Where(p => p.Kind == FrameProblemKind.NoRoomForMember))
            {
                if (Where.Opening(frame.Panel, p.Subject) is not { } opening) continue;
                string which = p.Side switch { "top" => "header", "bottom" => "sill", "left" => "left trimmer", _ => "right trimmer" };
                yield return new Finding(Info, $"The {which} of opening {opening.Name} in {frame.Panel.Name} has {input.Say.Length(p.Has)} of the {input.Say.Length(p.Needs)} that it needs.", opening.Fact.NameSpan)
                {
                    Subject = p.Subject,
                    Hint = $"Move the opening {input.Say.AtLeast(p.Needs - p.Has)} away from what is beside it.",
                    Fixes = Fixing.One(Moving.Into(input.Spec, frame, opening)),
                };
            }
    }
}
