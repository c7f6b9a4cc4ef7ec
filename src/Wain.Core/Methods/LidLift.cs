using System.Collections.Immutable;

namespace Wain.Core.Methods;

/// <summary>A point in the plane of motion, m: x away from the hinge or along the base, z up.</summary>
public sealed record PlanePoint(double X, double Z);

/// <summary>
/// A lid or roof on a hinge at the origin, seen along the hinge. Closed at opening angle 0; opening turns it from +x up towards +z.
/// </summary>
/// <param name="Weight">N.</param>
/// <param name="Centre">Of the weight, closed.</param>
/// <param name="Fixed">End of the spring or actuator on the body.</param>
/// <param name="Moving">Its end on the lid, closed.</param>
/// <param name="Hand">Where a person pulls or pushes, closed, square to the arm.</param>
/// <param name="Open">Opening angle when fully open, rad.</param>
/// <param name="Springs">How many, alike, side by side.</param>
public sealed record Lid(double Weight, PlanePoint Centre, PlanePoint Fixed, PlanePoint Moving, PlanePoint Hand, double Open, int Springs);

/// <summary>The lid at one angle. Moments in N m, positive opens; forces in N.</summary>
/// <param name="Angle">Opening angle, rad.</param>
/// <param name="WeightMoment">Of the weight about the hinge; negative when it closes the lid.</param>
/// <param name="Length">Between the ends of a spring, m.</param>
/// <param name="Arm">Lever arm of the spring about the hinge, m; negative when it pushes the lid shut (over centre).</param>
/// <param name="Needed">Force in each spring that balances the weight, no margin; null where the spring has no arm to do it with.</param>
/// <param name="Force">What each spring gives, no friction; zero when none is chosen.</param>
/// <param name="HandOpening">Square to its arm, up, to move it open slowly; negative if it opens by itself and must be held back.</param>
/// <param name="HandClosing">Square to its arm, down, to move it shut slowly; negative if it falls by itself and must be held up.</param>
/// <param name="Fits">The spring is within its travel.</param>
public sealed record LidState(double Angle, double WeightMoment, double Length, double Arm, double? Needed, double Force, double HandOpening, double HandClosing, bool Fits);

/// <summary>The lid over its travel.</summary>
/// <param name="States">Evenly spaced by angle, closed first.</param>
/// <param name="Required">The most that a spring must give over the part of the travel where it has an arm, with the margin; null if at some angle none will do.</param>
/// <param name="StaysOpen">Fully open, the springs hold it against its weight with the margin.</param>
/// <param name="StaysShut">Closed, it does not open by itself.</param>
/// <param name="OneFailedHand">Most upward hand force over the travel with one spring gone, N: what comes down on whoever holds it; zero if the rest hold it.</param>
/// <param name="OneFailedDrops">With one spring gone it falls from fully open.</param>
public sealed record LidTravel(ImmutableArray<LidState> States, double? Required, bool StaysOpen, bool StaysShut, double OneFailedHand, bool OneFailedDrops)
{
    public bool Fits => States.All(s => s.Fits);
}

/// <summary>Moment balance of a hinged lid over its whole travel. Nobody goes under an unpropped roof, whatever the figures say.</summary>
public static class LidLift
{
    /// <summary>
    /// At each angle the moment of the weight about the hinge and of each spring, M = F (r x u), with u the direction from its fixed to its moving end:
    /// statics, with no shortcut for the angle. Friction of a spring works against the motion.
    /// </summary>
    /// <param name="spring">Null to ask only for the force needed.</param>
    /// <param name="margin">Times the balancing force: 1.1 to 1.3 is common practice.</param>
    /// <param name="steps">Intervals of the travel.</param>
    /// <param name="temperature">K.</param>
    public static Result<LidTravel> Travel(Lid lid, GasSpring? spring, double margin = 1.2, int steps = 60, double temperature = 293.15)
    {
        var hand = Radius(lid.Hand);
        if (Need.All(
            Need.Positive(lid.Weight, "the weight of the lid"), Need.Each(new[] { lid.Centre, lid.Fixed, lid.Moving, lid.Hand }, p => Need.Finite(p.X + p.Z, "a point of the lid")),
            Need.Positive(hand, "the distance of the hand from the hinge"), Need.Positive(Radius(lid.Moving), "the distance of the spring from the hinge"),
            Need.Positive(lid.Open, "the opening angle"), Need.That(lid.Open <= Math.PI, "the opening angle is more than half a turn"), Need.Some(lid.Springs, "spring"),
            Need.Between(margin, 1, 10, "the margin"), Need.Some(steps, "step"), Need.Positive(temperature, "the temperature"),
            spring is null ? null : GasSprings.Ask(spring)) is { } why)
        {
            return new Missing(why);
        }

        var states = Enumerable.Range(0, steps + 1).Select(i => At(lid, spring, lid.Open * i / steps, hand, temperature)).ToImmutableArray();
        if (states.Any(s => s.Length < 1e-6))
        {
            return new Missing("the two ends of the spring meet during the travel");
        }

        // A point where the weight needs holding up and the spring has no arm cannot be mended by a stronger spring: closed lids are often so, and opened by hand from there.
        var lifting = states.Where(s => s.Needed is > 0).ToArray();
        double? required = lifting.Length > 0 ? margin * lifting.Max(s => s.Needed!.Value) : null;
        var (shut, open) = (states[0], states[^1]);
        double Net(LidState s, int count, double friction) => s.WeightMoment + count * s.Arm * s.Force - Math.Abs(s.Arm) * count * friction;
        var (friction, left) = (spring?.Friction ?? 0, lid.Springs - 1);
        var without = states.Max(s => Math.Max(0, -(s.WeightMoment + left * s.Arm * s.Force)) / hand);
        return new LidTravel(
            states,
            required,
            spring is not null && open.WeightMoment * margin + lid.Springs * open.Arm * open.Force >= 0,
            Net(shut, lid.Springs, friction) <= 0,
            without,
            open.WeightMoment + left * (open.Arm * open.Force + Math.Abs(open.Arm) * friction) < 0);
    }

    private static LidState At(Lid lid, GasSpring? spring, double angle, double hand, double temperature)
    {
        var centre = Turn(lid.Centre, angle);
        var end = Turn(lid.Moving, angle);
        var (dx, dz) = (end.X - lid.Fixed.X, end.Z - lid.Fixed.Z);
        var length = Math.Sqrt(dx * dx + dz * dz);
        var arm = length > 0 ? (end.X * dz - end.Z * dx) / length : 0;
        var weight = -lid.Weight * centre.X;
        var force = spring is null ? 0 : GasSprings.Unchecked(spring, length, temperature);
        var springs = lid.Springs * arm * force;
        var friction = lid.Springs * Math.Abs(arm) * (spring?.Friction ?? 0);
        var needed = weight >= 0 ? 0 : arm > 1e-9 ? -weight / (lid.Springs * arm) : (double?)null;
        return new(angle, weight, length, arm, needed, force, -(weight + springs - friction) / hand, (weight + springs + friction) / hand, spring is null || GasSprings.Fits(spring, length));
    }

    private static PlanePoint Turn(PlanePoint p, double angle)
    {
        var (sin, cos) = Math.SinCos(angle);
        return new(p.X * cos - p.Z * sin, p.X * sin + p.Z * cos);
    }

    private static double Radius(PlanePoint p) => Math.Sqrt(p.X * p.X + p.Z * p.Z);
}
