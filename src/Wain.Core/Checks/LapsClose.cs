using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Framing;
using Wain.Core.Geometry;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>Panels that lap, or of which one sits in a step of the other, reach as far over or into each other as the joint says, and leave wood there.</summary>
public static class LapsClose
{
    private const double Warned = 25.4 / 64, Refused = 25.4 / 16;

    // Two halves of a deck, the second of which begins where it is told to.
    internal const string Text = """
        sheet ply { thickness 12 mm
            size 48 in by 96 in }
        stack board { sheet ply }
        plan fore_half {
            start at (0 in, 20 in)
            leg left run 45 in
            leg front across 40 in
            leg right run 45 in
            leg rear home, across 40 in
        }
        panel fore of board {
            covers plan fore_half, top at 0 in
        }
        panel rear of board {
            through (BEGINS, 20 in, 0 in) along (BEGINS, -20 in, 0 in) up (90 in, 20 in, 0 in)
        }
        joint fore.front to rear.bottom {
            lap width WIDTH, depth DEPTH
        }
        """;

    private const string Stepped = """
        sheet ply { thickness 12 mm
            size 48 in by 96 in }
        stack board { sheet ply }
        panel floor of board {
            through (0 in, 20 in, 0 in) along (0 in, -20 in, 0 in) up (45 in, 20 in, 0 in)
        }
        panel post of board {
            spans from (20 in, 10 in) to (40 in, 10 in), standing on floor.outside - 1/4 in, up to 30 in
        }
        joint post.bottom to floor.outside {
            rabbet depth DEPTH
        }
        """;

    public static string With(string begins, string width, string depth) => Text.With("BEGINS", begins).With("WIDTH", width).With("DEPTH", depth);

    public static readonly FindingInfo Closes = new("WN4209", "lap-does-not-close", Level.Warning, "Panels do not reach over each other as far as their lap is wide",
        "A lap takes its width from both panels, and what stands in a step is longer by the depth of the step. A panel cut to the line where the two meet leaves the joint short by that much, all along. More than 1/64 in is told, more than 1/16 in is an error.",
        With("45 in", "2 in", "half"), With("43 in", "2 in", "half"));

    public static readonly FindingInfo Leaves = new("WN4210", "step-leaves-nothing", Level.Error, "A lap or rabbet goes through the whole panel",
        "What is left under the step carries the joint. A step as deep as the panel is thick cuts its edge off.",
        Stepped.With("DEPTH", "1/2 in"), Stepped.With("DEPTH", "1/4 in"));

    // A deck overhangs its plan by what the lap takes, a partition the points that it spans; an upright panel runs on past the face that it ends at.
    private static Fix? RunOn(Spec spec, PlacedJoint joint, JointFit fit, PlacedPanel mover, double by)
    {
        if (mover.Mirrored is not null) return null;
        string edge = (fit.Parallel ? joint.First : fit.Other).Name, length = spec.Say.Between(by - 0.01, by + 0.01);
        if (mover.Placing == PanelPlacing.Covers || mover.Placing == PanelPlacing.Spans && edge is "left" or "right")
            return mover.Fact.All("overhang").FirstOrDefault(o => o.Word("edge") == edge) is { } has ? Fixing.Longer(spec, has, "value", by) : mover.Fact.All("inset").Any() ? null : Fixing.AddLine(mover.Fact, $"overhang {edge} by {length}");
        if (mover.Fact.Body.FirstOrDefault(f => f.Keyword is "stands" or "spans") is not { } way || edge is not ("bottom" or "top")) return null;
        string slot = way.Keyword == "spans" ? edge : edge == "bottom" ? "from" : "to";
        return Fixing.Write(spec, way, slot, $"{spec.Evaluator.SlotSpan(way, slot).Text} {(edge == "bottom" ? '-' : '+')} {length}");
    }

    // At an angle the one that stands in the step of the other reaches into it as far as that is deep, whatever else a width says.
    private static Finding? TooWide(Spec spec, PlacedJoint joint, JointFit fit, BoundFact lap)
    {
        if (spec.Evaluator.Length(lap, "width") is not { } stated || fit.Reach <= 0 || Math.Abs(stated - fit.Reach) <= Warned) return null;
        string written = spec.Say.Between(fit.Reach - 0.01, fit.Reach + 0.01);
        return new Finding(Closes, $"The lap of joint {joint.Name} is {spec.Say.Nearly(stated)} wide, and {fit.Other.Panel.Name} reaches {spec.Say.Nearly(fit.Reach)} into {fit.Stepped.Panel.Name}.", spec.Evaluator.SlotSpan(lap, "width"))
        {
            Level = Math.Abs(stated - fit.Reach) > Refused ? Level.Error : Level.Warning,
            Subject = joint.Name,
            Hint = "Panels at an angle lap as far as the step is deep: say the depth alone.",
            Fixes = [Fixing.Write(spec, lap, "width", written)],
        };
    }

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        foreach (var joint in input.Structure.Joints)
        {
            if (JointFit.Of(input.Spec, joint) is not { } fit || JointMeets.NamesAnother(input, joint)) continue;
            bool lap = joint.Kind == JointKind.Lap;
            var fact = joint.Fact.Find(lap ? "lap" : "rabbet")!;
            bool gone = false;
            foreach (var (side, depth) in new[] { (joint.First, fit.First), (joint.Second, fit.Second) })
            {
                if (depth < side.Panel.Thickness - 0.01) continue;
                gone = true;
                yield return new Finding(Leaves, $"The step of joint {joint.Name} goes {input.Say.Length(depth)} into {side.Panel.Name}, which is {input.Say.Length(side.Panel.Thickness)} thick.", fact.Span)
                {
                    Subject = joint.Name,
                    Hint = "Half of the thickness leaves as much as it takes.",
                    Fixes = lap ? fact.Has("depths") ? [Fixing.Write(input.Spec, fact, "depths", "half")] : []
                        : fit.Reach > 0 && fit.Reach < side.Panel.Thickness - 1 ? [Fixing.Write(input.Spec, fact, "depth", input.Say.Between(fit.Reach - 0.01, fit.Reach + 0.01))] : [],
                };
            }
            if (gone) continue;
            if (lap && !fit.Parallel && TooWide(input.Spec, joint, fit, fact) is { } wide) yield return wide;
            double asked = fit.Asked ?? fit.Reach, off = asked - fit.Reach;
            if (fit.Reach > 0 && Math.Abs(off) <= Warned) continue;
            var (mover, other) = fit.Parallel ? (joint.First.Panel, joint.Second.Panel) : (fit.Other.Panel, fit.Stepped.Panel);
            string over = fit.Parallel ? "over" : "into", reach = fit.Reach > 0.01 ? $"reaches {input.Say.Nearly(fit.Reach)} {over} {other.Name}" : fit.Reach > -0.01 ? $"ends where {other.Name} begins" : $"ends {input.Say.Nearly(-fit.Reach)} short of {other.Name}";
            string what = fit.Asked is null ? "a lap needs some width" : fit.Parallel ? $"the lap is {input.Say.Nearly(asked)} wide" : $"the step is {input.Say.Nearly(asked)} deep";
            double thinnest = fit.Parallel ? double.PositiveInfinity : fit.Stepped.Panel.Thickness - 1;
            yield return new Finding(Closes, $"{mover.Name} {reach} at joint {joint.Name}; {what}.", fact.Span)
            {
                Level = Math.Abs(off) > Refused || fit.Reach <= 0 ? Level.Error : Level.Warning,
                Subject = joint.Name,
                Hint = off > 0 ? $"Run {mover.Name} on by {input.Say.Nearly(off)}." : off < 0 ? $"End {mover.Name} {input.Say.Nearly(-off)} sooner." : $"Run {mover.Name} on by the width of the lap.",
                Fixes = fit.Reach < 25.4 / 16 && off > 0 ? Fixing.One(RunOn(input.Spec, joint, fit, mover, off)) : fit.Reach < 25.4 / 16 || fit.Reach > thinnest ? [] : fit.Parallel && fact.Has("width") ? [Fixing.Write(input.Spec, fact, "width", input.Say.Between(fit.Reach - 0.01, fit.Reach + 0.01))]
                    : !lap ? [Fixing.Write(input.Spec, fact, "depth", input.Say.Between(fit.Reach - 0.01, fit.Reach + 0.01))] : [],
            };
        }
    }
}
