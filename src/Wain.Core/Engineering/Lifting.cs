using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Methods;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Text;
using Wain.Core.Units;

namespace Wain.Core.Engineering;

/// <summary>A lift at one part of its travel. Forces in N, up.</summary>
/// <param name="Travel">mm from closed; for a hinged lift, degrees.</param>
/// <param name="Weight">What must be held: the weight, or at a hinge the force that the struts must give together.</param>
/// <param name="Struts">What the struts give upward.</param>
/// <param name="HandRaising">What a person must push to raise it; negative if it rises by itself.</param>
/// <param name="HandLowering">What a person must pull to lower it; negative if it sinks by itself.</param>
/// <param name="Fits">Every strut is within its stroke.</param>
public sealed record LiftStep(double Travel, double Weight, double Struts, double HandRaising, double HandLowering, bool Fits);

/// <summary>A lift: what it carries (kg, mm), how the points share it, and its travel.</summary>
public sealed record LiftResult(string Name, PlacedLift Lift, MassSum Carried, ImmutableArray<string> Points, LiftForces? Forces, string? ForcesMissing, ImmutableArray<LiftStep> Steps, double? Margin, bool Hinged)
{
    /// <summary>One for each strut.</summary>
    public ImmutableArray<StrutFailure> Failures { get; init; } = [];
}

internal static class Lifting
{
    private const int Steps = 36;

    public static ImmutableArray<LiftResult> Of(Ledger ledger, MassModel masses)
    {
        var results = ImmutableArray.CreateBuilder<LiftResult>();
        foreach (var lift in ledger.Structure.Lifts.OrderBy(l => l.Name, StringComparer.Ordinal))
        {
            var its = masses.Masses.Where(m => m.Lift == lift.Name).Concat(masses.Loads.Where(l => l.Mass.Lift == lift.Name && l.Load.ShareIn(Takeoff.LoadState.Raised) > 0).Select(l => l.Mass)).ToList();
            if (MassModel.Sum(its, m => m.At, _ => 1) is not { } carried) continue;
            ImmutableArray<string> inputs = [.. lift.Carries.Order(StringComparer.Ordinal).Select(c => c + ".weight")];
            ledger.Add(lift.Name + ".weight", carried.Weight, Dimension.OfMass, lift.Fact.HeadSpan, "its panels, what is fitted in them and what joins them", inputs);
            foreach (var (axis, mm) in new[] { ("x", carried.Centre.X), ("y", carried.Centre.Y), ("z", carried.Centre.Z) })
                ledger.Add($"{lift.Name}.centre_{axis}", mm / 1000, Dimension.OfLength, lift.Fact.HeadSpan, $"sum of weight times {axis} of its parts / {lift.Name}.weight, closed", [lift.Name + ".weight"]);
            results.Add(One(ledger, lift, carried, its));
        }
        return results.ToImmutable();
    }

    private static LiftResult One(Ledger ledger, PlacedLift lift, MassSum carried, List<PlacedMass> masses)
    {
        var points = lift.Fact.All("lifted").Select(f => (f.Name, At: ledger.Evaluator.Place(f, "at"), Fact: f)).Where(p => p.At is not null).ToList();
        var struts = lift.Fact.All("strut").Select(f => Strut.Read(ledger, f)).OfType<Strut>().ToList();
        double weight = carried.Weight.Likely * Customary.Gravity;
        ImmutableArray<string> names = [.. points.Select(p => Last(p.Fact))];
        var hinge = lift.Fact.Find("hinged");
        LiftForces? forces = null;
        string? missing = null;
        if (points.Count > 0 && hinge is null)
        {
            var found = LiftPoints.Forces(weight, carried.Centre.X / 1000, carried.Centre.Y / 1000, [.. points.Select(p => new LiftPoint(p.At!.Value[0] / 1000, p.At.Value[1] / 1000))]);
            missing = found.Reason;
            if (found.TryGet(out forces))
            {
                foreach (var (i, point) in points.Index())
                {
                    string key = $"{lift.Name}.{names[i]}";
                    ledger.Add(key + ".force", Around(forces.Elastic[i], i, carried, masses, [.. points.Select(p => new LiftPoint(p.At!.Value[0] / 1000, p.At.Value[1] / 1000))]), Dimension.OfForce, point.Fact.Span, "W/n + b (x - mean x) + c (y - mean y), b and c from the moments about both axes: a rigid roof on points of one stiffness", [lift.Name + ".weight", lift.Name + ".centre_x", lift.Name + ".centre_y"]);
                    ledger.Add(key + ".force_most", forces.Most[i], Dimension.OfForce, point.Fact.Span, "the most that statics allows on it with three points carrying and the others slack, W x the share of the opposite triangle", [lift.Name + ".weight", lift.Name + ".centre_x", lift.Name + ".centre_y"]);
                }
                foreach (var failure in forces.Failures.Where(f => f.Falls))
                    ledger.Tell(EngineeringFindings.PointFailureDrops, $"If {names[failure.Failed]} of {lift.Name} lets go, the rest can't be relied on to hold it level, and that corner drops.", points[failure.Failed].Fact.Span, $"{lift.Name}.{names[failure.Failed]}", "Prop the roof before anyone goes under it.");
            }
            else ledger.Tell(EngineeringFindings.LiftUnsteady, $"{lift.Name}: {missing}.", lift.Fact.HeadSpan, lift.Name);
        }
        var steps = struts.Count == 0 ? [] : hinge is null ? Straight(lift, struts, weight) : Turning(ledger, lift, hinge, struts, carried, weight);
        double? margin = steps.Any(s => s.Weight > 0) ? steps.Where(s => s.Weight > 0).Min(s => s.Struts / s.Weight - 1) : null;
        if (margin is { } m) ledger.Add(lift.Name + ".strut_margin", m, Dimension.None, lift.Fact.HeadSpan, "least over the travel of (force of the struts along the lift / weight to hold) - 1", [lift.Name + ".weight"]);
        if (steps.Length > 0)
        {
            ledger.Add(lift.Name + ".hand_force_raising", steps.Max(s => s.HandRaising), Dimension.OfForce, lift.Fact.HeadSpan, "most over the travel of (weight to hold - force of the struts)", [lift.Name + ".weight"]);
            ledger.Add(lift.Name + ".hand_force_lowering", steps.Max(s => s.HandLowering), Dimension.OfForce, lift.Fact.HeadSpan, "most over the travel of (force of the struts - weight to hold)", [lift.Name + ".weight"]);
        }
        Judge(ledger, lift, steps, margin);
        foreach (var strut in struts) JudgeStroke(ledger, lift, strut);
        var failures = LiftFailures.Of(ledger, lift, hinge, struts, carried, weight);
        return new LiftResult(lift.Name, lift, carried, names, forces, missing, steps, margin, hinge is not null) { Failures = failures };
    }

    /// <summary>
    /// A force with its spread: the elastic share of a weight is linear in its place, so three nearby places tell what a weight anywhere puts on the point. What shares a cause is high or
    /// low together, causes are independent.
    /// </summary>
    private static Spread Around(double force, int point, MassSum carried, List<PlacedMass> masses, IReadOnlyList<LiftPoint> points)
    {
        const double step = 1e-3;
        double Share(double dx, double dy) => LiftPoints.Forces(1, carried.Centre.X / 1000 + dx, carried.Centre.Y / 1000 + dy, points).TryGet(out var f) ? f.Elastic[point] : double.NaN;
        double at = Share(0, 0), alongX = (Share(step, 0) - at) / step, alongY = (Share(0, step) - at) / step;
        var parts = new List<CausedSpread>();
        foreach (var mass in masses)
        {
            double k = Customary.Gravity * (at + alongX * (mass.At.X - carried.Centre.X) / 1000 + alongY * (mass.At.Y - carried.Centre.Y) / 1000);
            if (double.IsNaN(k)) return Spread.Exactly(force);
            foreach (var part in mass.Parts)
                if (part.Value.Above > 0 || part.Value.Below > 0) parts.Add(part with { Value = k >= 0 ? new Spread(k * part.Value.Low, k * part.Value.Likely, k * part.Value.High) : new Spread(k * part.Value.High, k * part.Value.Likely, k * part.Value.Low) });
        }
        var sum = Spreads.SumByCause(parts);
        return new Spread(force - sum.Below, force, force + sum.Above);
    }

    internal static string Last(BoundFact fact) => fact.Name is { } name ? name[(name.LastIndexOf('.') + 1)..] : fact.Keyword;

    private static ImmutableArray<LiftStep> Straight(PlacedLift lift, List<Strut> struts, double weight) =>
        [.. Enumerable.Range(0, Steps + 1).Select(i =>
        {
            var move = lift.Direction * (lift.Travel * i / Steps);
            double up = 0;
            bool fits = true;
            foreach (var strut in struts)
            {
                var along = strut.Moving + move - strut.Fixed;
                double length = along.Length;
                up += strut.Force(length, strut.LengthAt(lift.Direction * lift.Travel)) * (length > 0 ? along.Dot(lift.Direction) / length : 0);
                fits &= strut.Fits(lift.Direction * lift.Travel);
            }
            return new LiftStep(lift.Travel * i / Steps, weight * Math.Max(0, lift.Direction.Z), up, weight * lift.Direction.Z - up, up - weight * lift.Direction.Z, fits);
        })];

    /// <summary>Each strut by its own moment about the hinge; in hand forces at the edge farthest from the hinge.</summary>
    private static ImmutableArray<LiftStep> Turning(Ledger ledger, PlacedLift lift, BoundFact hinge, List<Strut> struts, MassSum carried, double weight)
    {
        if (Hinge.Of(ledger, hinge, carried) is not { } turn) return [];
        double reach = turn.Reach(ledger, lift, carried);
        var steps = ImmutableArray.CreateBuilder<LiftStep>();
        for (int i = 0; i <= Steps; i++)
        {
            double angle = turn.Open * i / Steps, need = turn.Needed(carried, weight, angle), give = 0;
            bool fits = true;
            foreach (var strut in struts)
            {
                var (push, end) = turn.Push(strut, angle);
                give += turn.Moment(end, push);
                fits &= strut.Stroke is not { } stroke || (end - strut.Fixed).Length >= turn.Longest(strut) - stroke - 0.5;
            }
            steps.Add(new LiftStep(angle * 180 / Math.PI, need / reach, give / reach, (need - give) / reach, (give - need) / reach, fits));
        }
        return steps.ToImmutable();
    }

    private static void Judge(Ledger ledger, PlacedLift lift, ImmutableArray<LiftStep> steps, double? margin)
    {
        var asked = lift.Fact.Find("margin");
        if (asked is not null && ledger.Evaluator.Number(asked, "value") is { } wanted && margin is { } has && has < wanted)
            ledger.Tell(EngineeringFindings.StrutsWeak, $"{lift.Name}: the struts give {(has < 0 ? $"{Say.Percent(-has)} less than" : $"only {Say.Percent(has)} more than")} the load somewhere on the travel; {Say.Percent(wanted)} in hand is asked.", asked.Span, lift.Name + ".margin", has <= -1 ? null : $"Struts with {Say.Number(Math.Ceiling((1 + wanted) / (1 + has) * 100 - 1e-9) / 100, "0.00")} times the force would do, or more of them.");
        if (lift.Fact.Find("hand_force") is { } hand && ledger.Evaluator.Number(hand, "value") is { } limit && steps.Length > 0)
        {
            double most = Math.Max(steps.Max(s => s.HandRaising), steps.Max(s => s.HandLowering));
            bool lowering = steps.Max(s => s.HandLowering) > steps.Max(s => s.HandRaising);
            if (most > limit) ledger.Tell(EngineeringFindings.HandForce, $"{lift.Name} asks {ledger.Say.Force(most)} of a person to {(lowering ? "lower" : "raise")} it; {ledger.Say.Force(limit)} is the most that the spec allows.", hand.Span, lift.Name + ".hand_force", $"Struts that give {ledger.Say.Force(most - limit)} {(lowering ? "less in all would do, if they still hold it" : "more in all would do")}.");
        }
    }

    // A strut that swings past its shortest changes its length by more than its two ends tell.
    private static void JudgeStroke(Ledger ledger, PlacedLift lift, Strut strut)
    {
        if (strut.Stroke is not { } stroke) return;
        var lengths = Enumerable.Range(0, Steps + 1).Select(i => (lift.Hinge is { } hinge ? hinge.At(hinge.Angle * i / Steps) : RigidMove.Straight(lift.Direction * (lift.Travel * i / Steps))).Apply(strut.Moving).DistanceTo(strut.Fixed)).ToList();
        double change = lengths.Max() - lengths.Min();
        if (change <= stroke + 0.5 || lift.Fact.All("strut").FirstOrDefault(f => Last(f) == strut.Name) is not { } fact) return;
        ledger.Tell(EngineeringFindings.StrutStroke, $"{strut.Name} of {lift.Name} is between {ledger.Say.ToTape(lengths.Min())} and {ledger.Say.ToTape(lengths.Max())} long over the travel, a change of {ledger.Say.ToTape(change)}; {ledger.Of(fact, "hardware")!.Name} has a stroke of {ledger.Say.Length(stroke)}.",
            fact.HeadSpan, $"{lift.Name}.{strut.Name}", $"Take a strut with at least {ledger.Say.AtLeast(change)} of stroke, or set its ends nearer to square across the way that it moves.", fixes: Lower(ledger, lift, strut, stroke));
    }

    /// <summary>The travel that the stroke allows, by halving: the farther the roof goes the more a strut that stands along the way is drawn out.</summary>
    private static ImmutableArray<Fix> Lower(Ledger ledger, PlacedLift lift, Strut strut, double stroke)
    {
        if (lift.Hinge is not null || lift.Fact.Find("travel") is not { } travel) return [];
        double Change(double rise) => (strut.Moving + lift.Direction * rise).DistanceTo(strut.Fixed) - strut.Moving.DistanceTo(strut.Fixed);
        double low = 0, high = lift.Travel;
        if ((strut.Moving - strut.Fixed).Dot(lift.Direction) <= 0) return [];
        for (int i = 0; i < 40; i++) if (Change((low + high) / 2) <= stroke) low = (low + high) / 2; else high = (low + high) / 2;
        return Fixing.One(Fixing.Longer(ledger.Spec, travel, "value", low - lift.Travel));
    }

}
