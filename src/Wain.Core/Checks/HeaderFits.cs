using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Framing;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>A header's stick must go between the skins.</summary>
public static class HeaderFits
{
    private static readonly string Text = Examples.Wall(60, 30, "frame {\n    header STICK\n}\nopening vent {\n    size 20 in by 10 in\n    lower left at (20 in, 8 in)\n}", "stick thick_stick { section 1 1/2 in by 3 1/2 in }\nstick flat_stick { section 3/4 in by 3 1/2 in }\n");

    public static readonly FindingInfo Info = new("WN4116", "header-too-deep", Level.Error, "A header's stick does not fit between the skins",
        "A header stands in the frame, so neither side of its section may be more than the frame is deep in the way that it is turned.",
        Text.With("STICK", "thick_stick"), Text.With("STICK", "flat_stick"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        foreach (var frame in input.Frames.All.Where(f => f.Zone is null))
            foreach (var p in frame.Problems.Where(p => p.Kind == FrameProblemKind.HeaderTooDeep))
            {
                var header = frame.Rules.Fact!.Find("header")!;
                yield return new Finding(Info, $"The header of {frame.Subject} is of {p.Other}, at least {input.Say.Length(p.Needs)} deep however it is turned; the frame is {input.Say.Length(p.Has)} deep.", input.Spec.Evaluator.SlotSpan(header, "stick"))
                {
                    Subject = frame.Subject,
                    Hint = $"Use {frame.Layer.Material!.Name}, or another stick with a side of at most {input.Say.Length(p.Has)}.",
                    Fixes = [Fixing.Write(input.Spec, header, "stick", frame.Layer.Material!.Name)],
                };
            }
    }
}
