using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Text;

namespace Wain.Core.Geometry;

/// <summary>Walks plans and derives plans from plans.</summary>
internal static class PlanPlacer
{
    /// <summary>What stated measures may disagree by, where the spec says nothing: 1/16 in.</summary>
    public const double DefaultTolerance = 25.4 / 16;

    /// <summary>The plan, or null if it can't be drawn; why is reported.</summary>
    public static PlacedPlan? Place(Resolver resolver, BoundFact fact)
    {
        double tolerance = (fact.Find("tolerance") is { } own ? resolver.Evaluator.Length(own, "value") : null)
            ?? (resolver.Spec.All("camper").FirstOrDefault()?.Find("tolerance") is { } common ? resolver.Evaluator.Length(common, "value") : null) ?? DefaultTolerance;
        string lies = fact.Find("line")?.Word("lies") ?? "outside";
        var plan = fact.Has("base") ? Derive(resolver, fact, lies, tolerance) : Walk(resolver, fact, lies, tolerance);
        if (plan is not null && fact.Has("joined")) plan = Combine(resolver, fact, plan, "joined", (a, b) => a.Union(b));
        return plan is not null && fact.Has("cut") ? Combine(resolver, fact, plan, "cut", (a, b) => a.Minus(b)) : plan;
    }

    // Each side of the outcome keeps the name of the leg that it is a part of; the other plan's legs go by its name too where both have one of that name.
    private static PlacedPlan? Combine(Resolver resolver, BoundFact fact, PlacedPlan plan, string slot, Func<Region, Region, Region> combine)
    {
        if (resolver.Evaluator.Thing(fact, slot) is not { Name: { } name } || resolver.Plan(name) is not { } other) return null;
        var made = combine(Region.Of(plan.Outline), Region.Of(other.Outline));
        if (made.Parts is not [{ Holes.IsEmpty: true, Outer: var outer }])
        {
            string why = made.IsEmpty ? "nothing is left" : made.Parts.Length > 1 ? $"it falls into {made.Parts.Length} parts" : "it has a hole in its middle";
            resolver.Report(new Finding(PlacingFindings.OffsetFails, $"Plan {plan.Name}, {(slot == "cut" ? "cut back by" : "joined with")} {other.Name}: {why}; a plan is one area without holes.", resolver.Evaluator.SlotSpan(fact, slot)) { Subject = fact.Path });
            return null;
        }
        outer = outer.Restored([.. plan.Outline.Segments, .. other.Outline.Segments]);
        var used = new Dictionary<string, int>(StringComparer.Ordinal);
        var own = plan.Outline.Edges.Select(e => e.Name).ToHashSet();
        return plan with
        {
            Outline = new Outline([.. outer.Edges.Select((e, i) =>
            {
                var middle = outer.Segment(i).At(0.5);
                string? leg = LegAt(plan.Outline, middle) ?? (LegAt(other.Outline, middle) is { } theirs ? own.Contains(theirs) ? $"{other.Name}_{theirs}" : theirs : null);
                if (leg is null) return e;
                int count = used[leg] = used.GetValueOrDefault(leg) + 1;
                return e with { Name = count == 1 ? leg : FormattableString.Invariant($"{leg}_{count}") };
            })]),
        };
    }

    // Curves are cut into chords a hundredth of a millimetre off at most.
    private static string? LegAt(Outline outline, Vec2 p)
    {
        for (int i = 0; i < outline.Count; i++)
            if (outline.Segment(i).DistanceTo(p) < 0.05) return outline.Edges[i].Name;
        return null;
    }

    private static PlacedPlan? Derive(Resolver resolver, BoundFact fact, string lies, double tolerance)
    {
        if (resolver.Evaluator.Thing(fact, "base") is not { Name: { } baseName } || resolver.Plan(baseName) is not { } source) return null;
        var sides = fact.All("side").ToDictionary(s => s.Name!, s => (resolver.Evaluator.Length(s, "outward") ?? 0) - (resolver.Evaluator.Length(s, "inward") ?? 0), StringComparer.Ordinal);
        foreach (var side in fact.All("side"))
        {
            if (source.Outline.IndexOf(side.Name!) >= 0) continue;
            var names = source.Outline.Edges.Select(e => e.Name ?? "").Where(n => n.Length > 0).ToList();
            var nearest = NearestName.Of(side.Name!, names);
            resolver.Report(new Finding(PlacingFindings.NoSuchEdge, $"Plan {source.Name} has no leg named \"{side.Name}\".{NearestName.Ask(nearest)}", side.NameSpan) { Subject = side.Path, Hint = $"Its legs are {string.Join(", ", names)}.", Fixes = Fixing.Nearest(side.NameSpan, nearest) });
        }
        double all = (resolver.Evaluator.Length(fact, "outward") ?? 0) - (resolver.Evaluator.Length(fact, "inward") ?? 0);
        var outline = source.Outline;
        if (fact.Says("mirrored")) outline = MirrorAcrossCentreLine(outline);
        var result = outline.Offset(i => outline.Edges[i].Name is { } name && sides.TryGetValue(name, out double special) ? special : all);
        if (result.Outline is not { } derived)
        {
            string what = sides.Count > 0 ? "with these offsets" : $"{resolver.Spec.Say.Length(Math.Abs(all))} {(all < 0 ? "in" : "out")}ward";
            resolver.Report(new Finding(PlacingFindings.OffsetFails, $"Plan {fact.Name}: {what}, the sides of {source.Name} close up on each other; {(sides.Count > 0 ? $"{Math.Floor(result.Part * 100)} % of them" : resolver.Spec.Say.AtMost(Math.Abs(all) * result.Part))} is the most that leaves an outline.", fact.HeadSpan) { Subject = fact.Path });
            return null;
        }
        return new PlacedPlan(fact.Name!, fact, derived, [], [], fact.Find("line") is null ? source.Lies : lies, tolerance);
    }

    /// <summary>The mirror image across y = 0, counter-clockwise again; names stay with their sides.</summary>
    private static Outline MirrorAcrossCentreLine(Outline outline)
    {
        var turned = outline.Rotated(Math.PI / 2);
        return turned.Mirrored.Rotated(-Math.PI / 2);
    }

    private static PlacedPlan? Walk(Resolver resolver, BoundFact fact, string lies, double tolerance)
    {
        var e = resolver.Evaluator;
        var legs = fact.All("leg").Where(l => l.Name is not null).ToList();
        if (fact.Find("start") is not { } startFact || legs.Count < 3)
        {
            resolver.Report(new Finding(PlacingFindings.PlanEmpty, $"Plan {fact.Name} {(legs.Count >= 3 ? "has no start" : legs.Count == 0 ? "has no legs" : $"has only {(legs.Count == 1 ? "one leg" : "two legs")}, and an outline at least three")}.", fact.NameSpan)
            {
                Subject = fact.Path,
                Hint = legs.Count >= 3 ? $"Begin with the corner that the walk leaves from, x forward and y to the left, such as: start at {resolver.Spec.Say.Such("(0 in, 35 in)", "(0 mm, 900 mm)")}" : "Each side is a leg; the last one may be written: leg rear home",
            });
            return null;
        }
        if (e.Place(startFact, "at") is not { } origin) return null;
        var start = new Vec2(origin[0], origin[1]);
        var stated = new List<StatedMeasure>();
        var directions = Directions(legs, start);
        if (Walked(resolver, legs, directions, start, stated, null) is not { } result) return null;
        foreach (var problem in result.Problems)
        {
            var leg = legs[Math.Min(problem.Leg, legs.Count - 1)];
            string why = problem.Failure switch
            {
                TraverseFailure.UnknownMirror => $"there is no leg \"{leg.Word("mirror")}\" to mirror.",
                TraverseFailure.MirrorOfLater => "it mirrors a leg that is walked after it; put that one first.",
                TraverseFailure.NoLength => "it has no length.",
                TraverseFailure.Measures when problem.Measures == LegFailure.Impossible => "no leg has these measures: a length is shorter than its run, or the angle points the other way.",
                _ => "it needs one more measure: a run or length with an angle, an across or a width.",
            };
            var nearest = problem.Failure == TraverseFailure.UnknownMirror ? NearestName.Of(leg.Word("mirror") ?? "", legs.Take(problem.Leg).Select(l => l.Name!)) : [];
            resolver.Report(new Finding(PlacingFindings.LegUnknown, $"Leg {leg.Name} of plan {fact.Name}: {why}{NearestName.Ask(nearest)}", leg.HeadSpan) { Subject = leg.Path, Fixes = Fixing.Nearest(e.SlotSpan(leg, "mirror"), nearest) });
        }
        if (result.Problems.Length > 0) return null;
        var within = new List<Slip>();
        var misfits = PlanMisfits.Of(legs, directions, result, stated, start, out bool couldFail, within);
        var slips = misfits.All(m => m.Error <= tolerance) ? [] : PlanMisfits.Slips(misfits, stated, Begins(resolver, startFact, start), within, tolerance, slip =>
        {
            var other = new List<StatedMeasure>();
            return Walked(resolver, legs, directions, start, other, slip) is { Problems.IsEmpty: true } again ? PlanMisfits.Of(legs, directions, again, other, start, out _) : null;
        });
        if (result.Outline is null && result.Misclosure.Length > tolerance)
        {
            TellOpen(resolver, fact, legs[^1], result.Legs[^1].Segment.Chord, result.Misclosure, tolerance);
            return null;
        }
        // What is left within tolerance is taken up by the last corner, so that the outline is closed for all that follows.
        var outline = new Outline([.. result.Legs.Select(l => new OutlineEdge(l.Segment.From, l.Segment.Sweep, l.Leg.Name))]).CounterClockwise;
        outline = Bow(resolver, legs, outline);
        var crossings = outline.Crossings();
        if (crossings.Length > 0)
        {
            var c = crossings[0];
            resolver.Report(new Finding(PlacingFindings.PlanCrosses, $"Plan {fact.Name}: legs {outline.Edges[c.EdgeA].Name} and {outline.Edges[c.EdgeB].Name} cross at x {resolver.Spec.Say.Length(c.At.X)}, y {resolver.Spec.Say.Length(c.At.Y)}.", fact.NameSpan)
            {
                Subject = fact.Path,
                Hint = "One of the legs before that goes the wrong way or too far. Which way a leg goes can be said: forward, aft, left or right.",
                Related = [.. new[] { c.EdgeA, c.EdgeB }.Select(i => legs.FirstOrDefault(l => l.Name == outline.Edges[i].Name)).OfType<BoundFact>().Select(l => new Related(l.HeadSpan, $"leg {l.Name}"))],
            });
            return null;
        }
        outline = Round(resolver, fact, legs, outline);
        return new PlacedPlan(fact.Name!, fact, outline, [.. stated], misfits, lies, tolerance) { CouldFail = couldFail, Slips = slips };
    }

    private static StatedMeasure Begins(Resolver resolver, BoundFact fact, Vec2 start) =>
        new("start", StatedMeasure.Start, Math.Abs(start.Y), fact.Slots.TryGetValue("at", out var text) && text.Terms[0] is Syntax.PlaceExpression { Items: [_, var aside] } ? aside.Span : resolver.Evaluator.SlotSpan(fact, "at"));

    // The plan as stated, or with another value for one measure of a leg.
    private static TraverseResult? Walked(Resolver resolver, List<BoundFact> legs, List<LegDirection> directions, Vec2 start, List<StatedMeasure> stated, Slip? instead)
    {
        if (instead?.Measure.Kind == StatedMeasure.Start) start = start with { Y = Math.CopySign(instead.Closing, start.Y) };
        var walk = new List<Leg>();
        for (int i = 0; i < legs.Count; i++)
        {
            if (ReadLeg(resolver, legs[i], directions[i], stated, instead) is not { } leg) return null;
            walk.Add(leg);
        }
        return Traverse.Walk(start, walk, Vec2.Zero, new Vec2(1, 0));
    }

    // A last leg that only comes out too long or too short can take all of it up; where the end lies to its side, another measure is off.
    private static void TellOpen(Resolver resolver, BoundFact plan, BoundFact last, Vec2 chord, Vec2 misclosure, double tolerance)
    {
        var parts = new[] { (By: -misclosure.X, Ahead: "forward", Behind: "aft"), (By: -misclosure.Y, Ahead: "to the left", Behind: "to the right") }.Where(p => Math.Abs(p.By) > tolerance);
        string away = string.Join(" and ", parts.Select(p => $"{resolver.Spec.Say.Length(Math.Abs(p.By))} {(p.By > 0 ? p.Ahead : p.Behind)}"));
        string? slot = new[] { "run", "across", "length" }.Where(last.Has).ToList() is [var only] ? only : null;
        double whole = chord.Length + misclosure.Dot(chord.Unit);
        bool takesUp = slot is not null && Math.Abs(misclosure.Cross(chord.Unit)) <= tolerance && whole > tolerance;
        resolver.Report(new Finding(PlacingFindings.PlanOpen, $"Plan {plan.Name} ends {(away.Length > 0 ? $"{away} of" : $"{resolver.Spec.Say.Length(misclosure.Length)} from")} its start.", last.HeadSpan)
        {
            Subject = plan.Path,
            Hint = takesUp ? $"It closes with {slot} {resolver.Spec.Say.Length(whole)}; a last leg that says home always closes." : $"Add home to leg {last.Name}: then what is stated is compared, and the measure that is off is named.",
            Fixes = takesUp ? [Fixing.Write(resolver.Spec, last, slot!, resolver.Spec.Say.Length(whole))] : [],
        });
    }

    // Run legs alternate forward and aft, across legs go to the other side, unless a word says otherwise. Inward is towards the inside of the plan.
    private static List<LegDirection> Directions(List<BoundFact> legs, Vec2 start)
    {
        var axes = new List<Vec2>();
        bool? forward = null;
        bool acrossSince = false;
        double side = start.Y;
        foreach (var leg in legs)
        {
            Vec2 axis;
            if (leg.Says("left")) axis = new(0, 1);
            else if (leg.Says("right")) axis = new(0, -1);
            else if (leg.Says("forward")) axis = new(1, 0);
            else if (leg.Says("aft")) axis = new(-1, 0);
            else if (leg.Has("across") && !leg.Has("run"))
            {
                axis = new(0, side > 0 ? -1 : 1);
            }
            else axis = new(forward is null ? 1 : acrossSince ? (forward.Value ? -1 : 1) : forward.Value ? 1 : -1, 0);
            if (axis.X != 0)
            {
                forward = axis.X > 0;
                acrossSince = false;
            }
            else
            {
                acrossSince = true;
                side = axis.Y;
            }
            axes.Add(axis);
        }
        // Clockwise if the first leg along the truck goes forward on the left side, or aft on the right.
        int first = axes.FindIndex(a => a.X != 0);
        bool clockwise;
        if (first == 0) clockwise = axes[0].X > 0 == start.Y > 0;
        else if (first > 0) clockwise = axes[0].Y < 0 == axes[first].X < 0;
        else clockwise = true;
        return [.. axes.Select(a => new LegDirection(a, clockwise))];
    }

    private static Leg? ReadLeg(Resolver resolver, BoundFact leg, LegDirection direction, List<StatedMeasure> stated, Slip? instead)
    {
        var e = resolver.Evaluator;
        double? Read(string slot, string word, bool angle = false)
        {
            if (!leg.Has(slot)) return null;
            double? value = instead is { } other && other.Measure.Leg == leg.Name && other.Measure.Kind == word ? other.Closing : angle ? e.Angle(leg, slot) : e.Length(leg, slot);
            if (value is { } v) stated.Add(new StatedMeasure(leg.Name!, word, v, e.SlotSpan(leg, slot)));
            return value;
        }
        if (leg.Has("mirror")) return new MirrorLeg(leg.Name, leg.Word("mirror") ?? "");
        double? run = Read("run", "run"), across = Read("across", "across"), length = Read("length", "length"), width = Read("width", "width");
        double? inward = Read("inward", "inward", true), outward = Read("outward", "outward", true), inBy = Read("in_by", "inward by"), outBy = Read("out_by", "outward by");
        if (leg.Says("home")) return new LegHome(leg.Name);
        if (leg.Has("to")) return e.Place(leg, "to") is { } to ? new LegTo(leg.Name, new Vec2(to[0], to[1])) : null;
        bool alongX = direction.Axis.X != 0;
        double? along = alongX ? run : across;
        double? aside = alongX ? across is { } a ? a : inBy ?? -outBy : run ?? inBy ?? -outBy;
        double? angle = inward ?? -outward;
        bool straight = aside is null && angle is null && width is null && !(along is not null && length is not null);
        if (along is null && length is null && aside is null && width is null)
        {
            bool last = leg == leg.Parent?.All("leg").LastOrDefault();
            resolver.Report(new Finding(PlacingFindings.LegUnknown, $"Leg {leg.Name} has no run, across or length.", leg.HeadSpan)
            {
                Subject = leg.Path,
                Hint = last ? "The last leg goes back to the start: write home." : "Write how far it goes, along the camper with run or from side to side with across.",
                Fixes = last ? [Fixing.AddClause(leg, "home")] : [],
            });
            return null;
        }
        return new MeasuredLeg(leg.Name, direction.Axis, new LegMeasures(along, straight ? 0 : aside, straight && along is not null ? null : length, straight && along is null ? 0 : angle), direction.InsideToRight, alongX ? width : null);
    }

    private static Outline Bow(Resolver resolver, List<BoundFact> legs, Outline outline)
    {
        foreach (var leg in legs)
        {
            // A mirror bows as its original does, unless it says how it bows itself.
            var says = leg;
            for (int guard = 0; !says.Has("bow") && MirroredBy(legs, says) is { } original && guard < legs.Count; guard++) says = original;
            int i = outline.IndexOf(leg.Name!);
            if (i < 0 || !says.Has("bow") || resolver.Evaluator.Length(says, "bow") is not { } bow) continue;
            double chord = outline.Segment(i).Chord.Length;
            outline = outline.WithEdge(i, edge => edge with { Sweep = 4 * Math.Atan2(2 * bow, chord) });
        }
        return outline;
    }

    private static BoundFact? MirroredBy(List<BoundFact> legs, BoundFact leg) => leg.Has("mirror") ? legs.Find(l => l != leg && l.Name == leg.Word("mirror")) : null;

    private static Outline Round(Resolver resolver, BoundFact plan, List<BoundFact> legs, Outline outline)
    {
        if (!legs.Any(l => l.Has("rounded"))) return outline;
        var radii = new double[outline.Count];
        var rounding = new BoundFact?[outline.Count];
        void At(BoundFact first, BoundFact second, BoundFact says)
        {
            if (resolver.Evaluator.Length(says, "rounded") is not { } radius) return;
            for (int k = 0; k < outline.Count; k++)
            {
                string? before = outline.Edges[outline.Previous(k)].Name, after = outline.Edges[k].Name;
                if ((before == first.Name && after == second.Name) || (before == second.Name && after == first.Name)) (radii[k], rounding[k]) = (radius, says);
            }
        }
        for (int i = 0; i < legs.Count; i++)
        {
            var before = legs[(i + legs.Count - 1) % legs.Count];
            // The corner at a leg's far end lies between it and the next leg of the walk, whichever way the outline now runs; that of its mirror at the mirror's near end.
            if (legs[i].Has("rounded")) At(legs[i], legs[(i + 1) % legs.Count], legs[i]);
            if (MirroredBy(legs, legs[i]) is { } original && original.Has("rounded") && !before.Has("rounded")) At(before, legs[i], original);
        }
        var rounded = outline.Rounded(i => radii[i]);
        if (rounded.Outline is { } done) return done;
        var failure = rounded.Failure!;
        string edge = outline.Edges[failure.Edge].Name ?? "a side";
        string why = double.IsFinite(failure.Needed)
            ? $"an arc of radius {resolver.Spec.Say.Length(failure.Radius)} takes {resolver.Spec.Say.Length(failure.Needed)} of leg {edge}, which has {resolver.Spec.Say.Length(failure.Available)}; at most {resolver.Spec.Say.Length(failure.LargestRadius)} fits"
            : $"leg {edge} is bowed, and only a corner between two straight legs is rounded";
        resolver.Report(new Finding(PlacingFindings.Rounding, $"Plan {plan.Name}: {why}.",
            rounding[failure.Corner] is { } l ? resolver.Evaluator.SlotSpan(l, "rounded") : plan.NameSpan)
        {
            Subject = plan.Path,
            Fixes = rounding[failure.Corner] is { } leg && failure.LargestRadius > 25.4 / 16 ? [Fixing.Write(resolver.Spec, leg, "rounded", resolver.Spec.Say.AtMost(failure.LargestRadius))] : [],
        });
        return outline;
    }
}
