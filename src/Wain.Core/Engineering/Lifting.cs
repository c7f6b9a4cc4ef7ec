using System.Collections.Immutable;
using Wain.Core.Binding;
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

/// <summary>
/// What happens at the end of the travel if one strut fails. Gas springs push with what they have and take over nothing, so the rest must hold the weight by themselves.
/// </summary>
/// <param name="Left">What the other struts give along the lift, N.</param>
/// <param name="Racking">The couple that turns the roof over towards the strut that failed, N m: weight and the other struts don't stand in one line any more.</param>
/// <param name="Sinks">The rest give less than the weight.</param>
public sealed record StrutFailure(string Strut, double Left, double Racking, bool Sinks);

/// <summary>A lift: what it carries (kg, mm), how the points share it, and its travel.</summary>
public sealed record LiftResult(string Name, PlacedLift Lift, MassSum Carried, ImmutableArray<string> Points, LiftForces? Forces, string? ForcesMissing, ImmutableArray<LiftStep> Steps, double? Margin, bool Hinged)
{
    /// <summary>One for each gas spring of a straight lift; empty for a hinged one and for actuators, which hold where they stand.</summary>
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
            if (MassModel.Sum(its, _ => Vec3.Zero, _ => 1) is not { } carried) continue;
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
                    ledger.Tell(EngineeringFindings.PointFailureDrops, $"If {names[failure.Failed]} of {lift.Name} lets go, the rest can't hold it level and that corner drops.", points[failure.Failed].Fact.Span, $"{lift.Name}.{names[failure.Failed]}", "Prop the roof before anyone goes under it.");
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
        ImmutableArray<StrutFailure> failures = hinge is null ? Failed(lift, struts, carried, weight) : [];
        foreach (var failure in failures)
            if (failure.Sinks && lift.Fact.All("strut").FirstOrDefault(f => Last(f) == failure.Strut) is { } at)
                ledger.Tell(EngineeringFindings.StrutFailureSinks, $"If {failure.Strut} of {lift.Name} fails, the other struts give {Say.PoundsForce(failure.Left)} of {Say.PoundsForce(weight * lift.Direction.Z)}: the roof comes down, that corner first.", at.Span, $"{lift.Name}.{failure.Strut}", "Prop the roof before anyone goes under it.");
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

    private static ImmutableArray<StrutFailure> Failed(PlacedLift lift, List<Strut> struts, MassSum carried, double weight)
    {
        var results = ImmutableArray.CreateBuilder<StrutFailure>();
        var move = lift.Direction * lift.Travel;
        var centre = carried.Centre + move;
        foreach (var failed in struts)
        {
            if (failed.Holds) continue;
            double up = 0;
            var couple = Vec3.Zero;
            foreach (var strut in struts)
            {
                if (strut == failed) continue;
                var end = strut.Moving + move;
                var along = end - strut.Fixed;
                double force = along.Length > 0 ? strut.Force(along.Length, strut.LengthAt(move)) : 0;
                var push = along.Unit * force;
                up += push.Dot(lift.Direction);
                couple += (end - centre).Cross(push) / 1000;
            }
            results.Add(new StrutFailure(failed.Name, up, Math.Sqrt(couple.X * couple.X + couple.Y * couple.Y), up < weight * lift.Direction.Z - 1e-9));
        }
        return results.ToImmutable();
    }

    private static string Last(BoundFact fact) => fact.Name is { } name ? name[(name.LastIndexOf('.') + 1)..] : fact.Keyword;

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
        if (ledger.Evaluator.Place(hinge, "first") is not { } a || ledger.Evaluator.Place(hinge, "second") is not { } b) return [];
        var (p, q) = (new Vec3(a[0], a[1], a[2]), new Vec3(b[0], b[1], b[2]));
        var axis = (q - p).Unit;
        double open = hinge.Has("opens") ? ledger.Evaluator.Angle(hinge, "angle") ?? Math.PI / 2 : Math.PI / 2;
        Vec3 Out(Vec3 point) => point - p - axis * (point - p).Dot(axis);
        // Opening is the turn that raises the centre.
        if (axis.Cross(Out(carried.Centre)).Z < 0) axis = -axis;
        double reach = lift.Carries.Select(c => ledger.Panel(c)).OfType<PlacedPanel>().SelectMany(panel => panel.Outline.Corners.Select(c => Out(panel.Face.ToWorld(c)).Length)).DefaultIfEmpty(Out(carried.Centre).Length).Max() / 1000;
        var steps = ImmutableArray.CreateBuilder<LiftStep>();
        for (int i = 0; i <= Steps; i++)
        {
            double angle = open * i / Steps;
            Vec3 Turn(Vec3 point) => p + (point - p).Rotate(axis, angle);
            double need = axis.Dot(Out(Turn(carried.Centre)).Cross(new Vec3(0, 0, weight))) / 1000, give = 0;
            bool fits = true;
            foreach (var strut in struts)
            {
                double longest = Math.Max(strut.LengthAt(Vec3.Zero), ((p + (strut.Moving - p).Rotate(axis, open)) - strut.Fixed).Length);
                var end = Turn(strut.Moving);
                var along = end - strut.Fixed;
                give += axis.Dot(Out(end).Cross(along.Unit * strut.Force(along.Length, longest))) / 1000;
                fits &= strut.Stroke is not { } stroke || along.Length >= longest - stroke - 0.5;
            }
            steps.Add(new LiftStep(angle * 180 / Math.PI, need / reach, give / reach, (need - give) / reach, (give - need) / reach, fits));
        }
        return steps.ToImmutable();
    }

    private static void Judge(Ledger ledger, PlacedLift lift, ImmutableArray<LiftStep> steps, double? margin)
    {
        var asked = lift.Fact.Find("margin");
        if (asked is not null && ledger.Evaluator.Number(asked, "value") is { } wanted && margin is { } has && has < wanted)
            ledger.Tell(EngineeringFindings.StrutsWeak, $"{lift.Name}: the struts give {(has < 0 ? $"{Say.Percent(-has)} less than" : $"only {Say.Percent(has)} more than")} the load somewhere on the travel; {Say.Percent(wanted)} in hand is asked.", asked.Span, lift.Name + ".margin");
        if (lift.Fact.Find("hand_force") is { } hand && ledger.Evaluator.Number(hand, "value") is { } limit && steps.Length > 0)
        {
            double most = Math.Max(steps.Max(s => s.HandRaising), steps.Max(s => s.HandLowering));
            bool lowering = steps.Max(s => s.HandLowering) > steps.Max(s => s.HandRaising);
            if (most > limit) ledger.Tell(EngineeringFindings.HandForce, $"{lift.Name} asks {Say.PoundsForce(most)} of a person to {(lowering ? "lower" : "raise")} it; {Say.PoundsForce(limit)} is the most that the spec allows.", hand.Span, lift.Name + ".hand_force");
        }
    }

    // A strut that swings past its shortest changes its length by more than its two ends tell.
    private static void JudgeStroke(Ledger ledger, PlacedLift lift, Strut strut)
    {
        if (strut.Stroke is not { } stroke) return;
        var lengths = Enumerable.Range(0, Steps + 1).Select(i => (lift.Hinge is { } hinge ? hinge.At(hinge.Angle * i / Steps) : RigidMove.Straight(lift.Direction * (lift.Travel * i / Steps))).Apply(strut.Moving).DistanceTo(strut.Fixed)).ToList();
        double change = lengths.Max() - lengths.Min();
        if (change <= stroke + 0.5 || lift.Fact.All("strut").FirstOrDefault(f => Last(f) == strut.Name) is not { } fact) return;
        ledger.Tell(EngineeringFindings.StrutStroke, $"{strut.Name} of {lift.Name} is between {Show.Length(Tape(lengths.Min()))} and {Show.Length(Tape(lengths.Max()))} long over the travel, a change of {Show.Length(Tape(change))}; {ledger.Of(fact, "hardware")!.Name} has a stroke of {Show.Length(stroke)}.",
            fact.HeadSpan, $"{lift.Name}.{strut.Name}", $"Take a strut with at least {Show.Length(Math.Ceiling(change / 25.4 * 16) / 16 * 25.4)} of stroke, or set its ends nearer to square across the way that it moves.");
    }

    private static double Tape(double mm) => Math.Round(mm / 25.4 * 16) / 16 * 25.4;

    /// <summary>A strut as placed (mm, N).</summary>
    /// <param name="Holds">An actuator holds where it stands; a gas spring only pushes.</param>
    private sealed record Strut(string Name, Vec3 Fixed, Vec3 Moving, double Extended, double CompressedForce, double? Stroke, bool Holds)
    {
        public static Strut? Read(Ledger ledger, BoundFact fact)
        {
            if (ledger.Evaluator.Place(fact, "fixed") is not { } a || ledger.Evaluator.Place(fact, "moving") is not { } b || ledger.Of(fact, "hardware") is not { } hardware) return null;
            if (hardware.Fact.Find("force") is not { } force || ledger.Evaluator.Number(force, "value") is not { } first)
            {
                ledger.Lack(fact.Path + ".force", hardware, "force", fact.Span);
                return null;
            }
            double? stroke = hardware.Fact.Find("stroke") is { } s ? ledger.Evaluator.Length(s, "value") : null;
            return new Strut(Last(fact), new(a[0], a[1], a[2]), new(b[0], b[1], b[2]), first, ledger.Evaluator.Number(force, "end") ?? first, stroke, hardware.Fact.Find("kind")?.Word("kind") == "actuator");
        }

        public double LengthAt(Vec3 move) => (Moving + move - Fixed).Length;

        public bool Fits(Vec3 travel) => Stroke is not { } stroke || Math.Abs(LengthAt(travel) - LengthAt(Vec3.Zero)) <= stroke + 0.5;

        /// <summary>N at a length, between extended and compressed in proportion; an actuator gives one force.</summary>
        public double Force(double length, double longest) => Stroke is { } stroke and > 0 ? Extended + (CompressedForce - Extended) * Math.Clamp((longest - length) / stroke, 0, 1) : Extended;
    }
}
