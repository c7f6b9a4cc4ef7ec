using Wain.Core.Binding;
using Wain.Core.Clearance;
using Wain.Core.Findings;
using Wain.Core.Geometry;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>The space between walls that rise and walls that stand, against what the lift states and what its seal closes.</summary>
public static class LiftWalls
{
    private static readonly string Text = Examples.Materials + """

        seal bulb { works between 5/16 in and 11/16 in }
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
        }
        panel outer of wall_stack {
            stands on shell.left, from 2 in to 32 in
        }
        lift top_lift {
            carries { outer }
            travel TRAVEL
            lag up to 0 in at any corner
        FACT
        }
        """;

    private static string With(string gap, string travel, string fact) => Text.With("GAP", gap).With("TRAVEL", travel).With("FACT", fact);

    public static readonly FindingInfo Gap = new("WN4304", "lift-gap-outside", Level.Error, "The gap between walls is not what the lift states",
        "Too small a gap catches, too large a gap lets in weather. It is measured square between the faces that look at each other, at rest and raised; between walls that lean to each other it is told from end to end of what they share.",
        With("1/4 in", "20 in", "gap between 3/8 in and 5/8 in"), With("1/2 in", "20 in", "gap between 3/8 in and 5/8 in"));

    public static readonly FindingInfo Seal = new("WN4305", "seal-does-not-reach", Level.Error, "A gap is outside the working range of its seal",
        "A seal that is crushed past its range takes a set and holds the roof up; one that is stretched past it leaks.",
        With("7/8 in", "20 in", "seal bulb"), With("1/2 in", "20 in", "seal bulb"));

    public static readonly FindingInfo Overlap = new("WN4306", "lift-overlap-small", Level.Error, "The walls lap too little when raised",
        "The lap keeps rain and wind out and holds the walls in line.",
        With("1/2 in", "27 in", "overlap raised at least 2 in"), With("1/2 in", "26 in", "overlap raised at least 2 in"));

    public static readonly FindingInfo Open = new("WN4313", "lift-leaves-open", Level.Warning, "Raised, the walls no longer lap",
        "A lift that states no overlap is not held to one, but walls that end past each other leave a slit all round for rain and wind. If something else closes it, accept the finding with the reason.",
        With("1/2 in", "29 in", ""), With("1/2 in", "26 in", ""));

    public static readonly FindingInfo Apart = new("WN4314", "lift-walls-apart", Level.Warning, "A lift states a gap, and no two of its walls stand beside each other",
        "Walls farther apart than 2 in do not count as standing beside each other: nothing is held to the gap, the seal or the lap that the lift states. Most often an offset has a slip in its unit or its way.",
        With("3 in", "20 in", "gap between 3/8 in and 5/8 in"), With("1/2 in", "20 in", "gap between 3/8 in and 5/8 in"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        Fix? Moved((Units.Quantity? Low, Units.Quantity? High)? range, FacingWalls wall) => Reaching.Outward(input.Spec, wall.Moving, wall.Standing, Lacking(range, wall.Gap));
        foreach (var lift in input.Clearance.Lifts)
        {
            var e = input.Spec.Evaluator;
            var fact = lift.Lift.Fact;
            var gap = fact.Find("gap") is { } g ? e.Bounds(g, "range") : null;
            var seal = fact.Find("seal") is { } s && e.Thing(s, "seal") is { } material && material.Find("works") is { } works ? (material.Name, Range: e.Bounds(works, "range")) : default;
            if (lift.Lift.Hinge is null && lift.Walls.IsEmpty && (fact.Find("gap") ?? fact.Find("seal") ?? fact.Find("overlap")) is { } idle)
                yield return new Finding(Apart, $"{fact.Name} states its {idle.Keyword}, and none of the walls that it carries stands within {input.Say.Length(LiftClearance.Near)} of a wall that stays.", idle.HeadSpan) { Subject = fact.Name!, Hint = "Look at the offset between their plans, and whether it carries the walls that you mean." };
            // Walls that one line of the spec sets apart are one finding.
            var alike = new Dictionary<(string, string), (int At, List<string> Others)>();
            var found = new List<Finding>();
            void Tell(Finding finding, FacingWalls wall)
            {
                var key = (finding.Code, $"{finding.Fixes.FirstOrDefault()?.Place}{finding.Fixes.FirstOrDefault()?.Text}");
                if (finding.Fixes.Length > 0 && alike.TryGetValue(key, out var first)) first.Others.Add($"{wall.Moving.Name} and {wall.Standing.Name}");
                else
                {
                    alike[key] = (found.Count, []);
                    found.Add(finding);
                }
            }
            foreach (var wall in lift.Walls.Where(w => !Behind(w, lift.Walls)))
            {
                bool rest = wall.LapAtRest > 0, raised = wall.LapRaised > 0;
                if (!rest && !raised) continue;
                string when = rest && raised ? "at rest and raised" : rest ? "at rest" : "raised";
                bool leans = wall.Widest > wall.Gap + 0.01;
                string between = $"The gap between {wall.Moving.Name} and {wall.Standing.Name} {(leans ? $"runs from {input.Say.Nearly(wall.Gap)} to {input.Say.Nearly(wall.Widest)}" : $"is {input.Say.Nearly(wall.Gap)}")} {when}";
                // The end that is farther off is told; between walls that lean to each other no shift alone mends both.
                double Worse((Units.Quantity? Low, Units.Quantity? High)? stated) => leans && Outside(input.Say, stated, wall.Gap) is null ? wall.Widest : wall.Gap;
                string Mend((Units.Quantity? Low, Units.Quantity? High)? stated) => leans && Spread(wall) > Room(stated) + 0.01 ? "Only two walls that both stand along the travel keep one gap over all of it." : Shift(input.Say, stated, Worse(stated));
                Fix? Ease((Units.Quantity? Low, Units.Quantity? High)? stated) => leans ? null : Moved(stated, wall);
                if (Outside(input.Say, gap, Worse(gap)) is { } range)
                    Tell(new Finding(Gap, $"{between}; {fact.Name} asks for {range}.", wall.Moving.Fact.NameSpan) { Subject = wall.Moving.Name, Related = [new Related(fact.Find("gap")!.HeadSpan, "stated here")], Hint = Mend(gap), Fixes = Fixing.One(Ease(gap)) }, wall);
                // The gap that the lift states is the seal's too.
                else if (Outside(input.Say, seal.Range, Worse(seal.Range)) is { } closes)
                    Tell(new Finding(Seal, $"{between}; {seal.Name} closes {closes}.", wall.Moving.Fact.NameSpan) { Subject = wall.Moving.Name, Related = [new Related(fact.Find("seal")!.HeadSpan, "named here")], Hint = Mend(seal.Range), Fixes = Fixing.One(Ease(seal.Range)) }, wall);
            }
            foreach (var (at, others) in alike.Values.Where(a => a.Others.Count > 0))
                found[at] = found[at] with { Message = $"{found[at].Message} Likewise {string.Join("; ", others.Take(6))}{(others.Count > 6 ? $"; and {others.Count - 6} more" : "")}." };
            foreach (var finding in found) yield return finding;
            double? least = fact.Find("overlap") is { } o ? e.Bounds(o, "range")?.Low?.Millimetres : null;
            if (fact.Find("overlap") is null && lift.Overlap is { LapRaised: < -0.01 } parted && fact.Find("travel") is { } stroke)
                yield return new Finding(Open, $"Raised, {parted.Moving.Name} ends {input.Say.Nearly(-parted.LapRaised)} past {parted.Standing.Name}, and the camper is open between them.", stroke.HeadSpan)
                {
                    Subject = parted.Moving.Name,
                    Hint = $"{input.Say.AtLeast(-parted.LapRaised)} more wall, or a travel of {input.Say.AtMost(lift.Lift.Travel + parted.LapRaised)}, lets them meet; state the lap that you want: overlap raised at least <value>.",
                    Fixes = lift.Lift.Travel + parted.LapRaised > 25.4 ? [Fixing.Write(input.Spec, stroke, "value", input.Say.AtMost(lift.Lift.Travel + parted.LapRaised))] : [],
                };
            if (least is not null && lift.Overlap is { } overlap && overlap.LapRaised < least - 0.01)
                yield return new Finding(Overlap, overlap.LapRaised > 0
                    ? $"Raised, {overlap.Moving.Name} laps {overlap.Standing.Name} by {input.Say.Nearly(overlap.LapRaised)}; {input.Say.Length(least.Value)} is asked for."
                    : $"Raised, {overlap.Moving.Name} ends {input.Say.Nearly(-overlap.LapRaised)} past {overlap.Standing.Name}; a lap of {input.Say.Length(least.Value)} is asked for.", fact.Find("overlap")!.HeadSpan)
                {
                    Subject = overlap.Moving.Name,
                    Hint = $"{input.Say.AtLeast(least.Value - overlap.LapRaised)} more wall, or a travel of {input.Say.AtMost(lift.Lift.Travel - least.Value + overlap.LapRaised)}.",
                    Fixes = lift.Lift.Travel - least.Value + overlap.LapRaised > 25.4 ? [Fixing.Write(input.Spec, fact.Find("travel")!, "value", input.Say.AtMost(lift.Lift.Travel - least.Value + overlap.LapRaised))] : [],
                };
        }
        foreach (var joint in input.Structure.Joints)
        {
            if (joint.Fact.Find("seal") is not { } fact || input.Spec.Evaluator.Thing(fact, "seal") is not { } seal || seal.Find("works") is not { } works) continue;
            if (Outside(input.Say, input.Spec.Evaluator.Bounds(works, "range"), joint.Gap) is { } closes)
                yield return new Finding(Seal, $"{joint.First.Panel.Name} and {joint.Second.Panel.Name} are {input.Say.Nearly(joint.Gap)} apart at {joint.Name}; {seal.Name} closes {closes}.", fact.HeadSpan) { Subject = joint.Name };
        }
    }

    /// <summary>Moving walls that stand nearer to a standing one than their lift states: what comes too near of them while it rises follows from that.</summary>
    internal static HashSet<string> Tight(CheckInput input, LiftClearance lift)
    {
        double? least = lift.Lift.Fact.Find("gap") is { } g ? input.Spec.Evaluator.Bounds(g, "range")?.Low?.Millimetres : null;
        return [.. lift.Walls.Where(w => w.Gap < least - 0.01).Select(w => w.Moving.Name)];
    }

    // A wall that stands behind a nearer one, as furniture does, has that one's gap before it and none of its own.
    private static bool Behind(FacingWalls wall, IEnumerable<FacingWalls> all) => all.Any(near => !ReferenceEquals(near, wall) && near.Moving.Name == wall.Moving.Name
        && wall.Gap > near.Gap + near.Standing.Thickness - 1 && Shared(near.Standing, wall.Standing, wall.Moving) > 0.5);

    // How much of the second one's length, along the wall that moves, the first one covers.
    private static double Shared(PlacedPanel first, PlacedPanel second, PlacedPanel along)
    {
        (double Low, double High) Reach(PlacedPanel panel)
        {
            var ends = panel.Outline.Edges.Select(e => along.Face.ToLocal(panel.Face.ToWorld(e.Start)).X).ToList();
            return (ends.Min(), ends.Max());
        }
        var (a, b) = (Reach(first), Reach(second));
        return b.High - b.Low < 1 ? 0 : (Math.Min(a.High, b.High) - Math.Max(a.Low, b.Low)) / (b.High - b.Low);
    }

    private static string? Outside(Say say, (Units.Quantity? Low, Units.Quantity? High)? range, double mm) => range is not var (low, high) || !(mm < low?.Millimetres - 0.01) && !(mm > high?.Millimetres + 0.01) ? null
        : (low, high) switch
        {
            ({ } l, { } h) => $"{say.Length(l.Millimetres)} to {say.Length(h.Millimetres)}",
            ({ } l, null) => $"at least {say.Length(l.Millimetres)}",
            (_, { } h) => $"at most {say.Length(h.Millimetres)}",
            _ => null,
        };

    // How much more space there must be (mm); less than nothing where there is too much.
    private static double Lacking((Units.Quantity? Low, Units.Quantity? High)? range, double mm) => mm < range?.Low?.Millimetres ? range.Value.Low!.Value.Millimetres - mm : range!.Value.High!.Value.Millimetres - mm;

    private static double Spread(FacingWalls wall) => wall.Widest - wall.Gap;

    private static double Room((Units.Quantity? Low, Units.Quantity? High)? range) => range is ({ } low, { } high) ? high.Millimetres - low.Millimetres : double.PositiveInfinity;

    private static string Shift(Say say, (Units.Quantity? Low, Units.Quantity? High)? range, double mm) =>
        Lacking(range, mm) is var by && by > 0 ? $"Move the walls {say.Nearly(by)} farther apart." : $"Move the walls {say.Nearly(-by)} closer.";
}
