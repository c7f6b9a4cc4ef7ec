using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Clearance;
using Wain.Core.Findings;
using Wain.Core.Geometry;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>What moves stays clear of what stands over the whole travel, straight and with a corner low.</summary>
public static class LiftClears
{
    // A tub wall with a window, and a shell wall that slides down over it with half an inch between them.
    private static readonly string Text = Examples.Materials + """

        plan tub {
            start at (-60 in, 30 in)
            leg left run 60 in
            leg front across 60 in
            leg right run 60 in
            leg rear home, across 60 in
        }
        plan shell from tub, outward by GAP {
            line inside
        }
        panel inner of wall_stack {
            stands on tub.left, from 0 in to 30 in
            opening vent {
                unit window
                lower left at (20 in, 6 in)
        RECESS
            }
        }
        panel outer of wall_stack {
            stands on shell.left, from 2 in to 32 in
        }
        panel far_side of wall_stack {
            through (-60 in, -34 in, 2 in) along (0 in, -34 in, 2 in) up (-60 in, -34 in, 32 in)
        }
        lift top_lift {
            carries {
                outer
                far_side
            }
            travel 20 in
            lag up to LAG at any corner
            clearance at least 1/8 in
        }
        """;

    public static readonly FindingInfo Straight = new("WN4302", "lift-touches", Level.Error, "What rises comes too near to what stands",
        "Over the whole travel, and not only at its two ends, everything that moves must pass everything that stands with the clearance that the lift states. Trim of windows, hinges and latches count.",
        Text.With("RECESS", "").With("GAP", "1/2 in").With("LAG", "0 in"), Text.With("RECESS", "recessed 5/8 in, margin 1 1/4 in").With("GAP", "1/2 in").With("LAG", "0 in"));

    public static readonly FindingInfo Racked = new("WN4303", "racked-lift-touches", Level.Error, "With a corner low, what rises comes too near to what stands",
        "A roof never rises quite level. With one corner behind by the stated lag its walls lean and swing, and they must still pass.",
        Text.With("RECESS", "recessed 5/8 in, margin 1 1/4 in").With("GAP", "1/2 in").With("LAG", "3 in"), Text.With("RECESS", "recessed 5/8 in, margin 1 1/4 in").With("GAP", "1/2 in").With("LAG", "1/4 in"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        foreach (var lift in input.Clearance.Lifts)
        {
            var stated = lift.Lift.Fact.Find("clearance");
            double least = stated is null ? 0 : input.Spec.Evaluator.Bounds(stated, "range")?.Low?.Millimetres ?? 0;
            var told = new HashSet<(string, string)>();
            // Walls that are set too near to each other are told by their gap.
            var tight = LiftWalls.Tight(input, lift);
            foreach (var approach in lift.Straight.Where(a => TooNear(a, least) && !(a.Distance > -0.01 && tight.Contains(a.Moving.Panel.Name))))
            {
                told.Add((approach.Moving.Name, approach.Standing.Name));
                // Two panels that share a place at rest are told as such, and so is what sits on one of them.
                if (input.Clearance.Clashes.Any(c => Same(c, approach))) continue;
                yield return Tell(input, Straight, lift.Lift, approach, least);
            }
            foreach (var approach in lift.Racked.Where(a => TooNear(a, least) && !tight.Contains(a.Moving.Panel.Name) && !input.Clearance.Clashes.Any(c => Same(c, a)) && !told.Contains((a.Moving.Name, a.Standing.Name)))) yield return Tell(input, Racked, lift.Lift, approach, least);
        }
    }

    private static bool TooNear(Approach a, double least) => !a.Seat && a.Distance < least - 0.01 && (a.Distance < -0.01 || least > 0);

    private static bool Same(Clash clash, Approach a) => (clash.First.Name, clash.Second.Name) is var (f, s) && (f == a.Moving.Panel.Name && s == a.Standing.Panel.Name || s == a.Moving.Panel.Name && f == a.Standing.Panel.Name);

    private static Finding Tell(CheckInput input, FindingInfo info, PlacedLift lift, Approach a, double least)
    {
        string Moved(double by) => lift.Hinge is null ? input.Say.Nearly(by) : Say.Angle(Math.Round(by * 1800 / Math.PI) / 1800 * Math.PI);
        string where = $"{input.Say.In(a.At)}, when {(lift.Hinge is null ? "raised" : "opened")} {Moved(a.Travel)}";
        string low = a.Low is { } corner ? $" with the {corner} corner {input.Say.Length(lift.Lag)} low" : "";
        string message = a.Distance < -0.01
            ? $"{a.Moving.Name} runs into {a.Standing.Name} by {input.Say.Nearly(-a.Distance)}{low}: {where} (from {Moved(a.From ?? a.Travel)} to {Moved(a.To ?? a.Travel)} of {(lift.Hinge is null ? "travel" : "its swing")})."
            : $"{a.Moving.Name} comes within {input.Say.Nearly(Math.Max(0, a.Distance))} of {a.Standing.Name}{low}: {where}; {input.Say.Length(least)} is asked for.";
        double lacking = least - a.Distance;
        // Two things that just touch have no one way apart.
        var trim = new[] { a.Moving, a.Standing }.Where(b => b.Kind == BodyKind.Trim && (Math.Abs(a.Distance) < 0.02 || Math.Abs(a.Away.Dot(b.Panel.Face.N)) > 0.7)).ToList();
        var place = a.Moving.Kind != BodyKind.Panel ? a.Moving : a.Standing.Kind != BodyKind.Panel ? a.Standing : a.Moving;
        return new Finding(info, message, (place.Opening?.Fact ?? place.Panel.Fact).NameSpan)
        {
            Subject = place.Opening is { } o ? $"{place.Panel.Name}.{o.Name}" : place.Panel.Name,
            Hint = trim is [var t] ? Deeper(input.Say, t, lacking) : Left(lift, a) is { } left ? $"If {a.Standing.Panel.Name} rises as well, {lift.Name} has to carry it: {left.Label}. Else {input.Say.Nearly(lacking)} more room between them is needed." : $"{input.Say.Nearly(lacking)} more room between them is needed{(a.Low is null ? "" : ", or less lag")}.",
            Fixes = trim is [{ Opening: { } opening } only] ? Recessing.To(input.Spec, only.Panel, opening, only.FromOutside, Depth(only) + lacking) : Left(lift, a) is { } add ? [add] : Apart(input, a, lacking),
            Related = [new Related(lift.Fact.HeadSpan, lift.Hinge is { } hinge ? $"{lift.Name} opens {Say.Angle(hinge.Angle)}" : $"{lift.Name} travels {input.Say.Length(lift.Travel)}")],
        };
    }

    // What touches a panel that rises, all the way, was most often left out of the list of what is carried.
    private static Fix? Left(PlacedLift lift, Approach a) =>
        a is { Moving.Kind: BodyKind.Panel, Standing.Kind: BodyKind.Panel, Low: null, Distance: > -0.01 and < 0.1 } && lift.Fact.Find("carries") is { } carries && a.Standing.Panel.Mirrored is null && carries.Scope.NameFor(a.Standing.Panel.Name) is { } name
            ? Fixing.AddLine(carries, name) : null;

    // Walls that pass each other are parted by the offset of the outer one's plan; what comes near in another way is moved by hand.
    private static ImmutableArray<Fix> Apart(CheckInput input, Approach a, double lacking) =>
        a.Moving.Panel.IsLevel || a.Standing.Panel.IsLevel || Math.Abs(a.Away.Z) > 0.3 ? [] : Fixing.One(Reaching.Outward(input.Spec, a.Moving.Panel, a.Standing.Panel, lacking));

    private static double Depth(Body trim) => Recessing.Depth(trim.Panel, trim.Opening!, trim.FromOutside);

    private static string Deeper(Say say, Body trim, double lacking)
    {
        string depth = say.AtLeast(Depth(trim) + lacking), from = trim.FromOutside ? "" : " from inside";
        double deepest = Recessing.Deepest(trim.Panel, trim.Opening!, trim.FromOutside);
        return Depth(trim) + lacking <= deepest + 0.01
            ? $"A recess {depth} deep{from} in {trim.Panel.Name} would clear (now {say.Length(Depth(trim))})."
            : $"A recess would have to be {depth} deep{from}; {say.Length(deepest)} is the most that leaves a whole skin of {trim.Panel.Name}: more gap is needed.";
    }
}
