using System.Collections.Immutable;

namespace Wain.Core.Methods;

/// <summary>A mechanism that raises a roof straight, at one height.</summary>
/// <param name="Height">Rise above closed, or height of a scissor, m.</param>
/// <param name="Length">Of each spring or actuator, m.</param>
/// <param name="Ratio">Rise for each metre of its travel, dh/dl; null at a dead point, where no force lifts.</param>
/// <param name="Needed">Force in each, N, no margin.</param>
public sealed record StraightState(double Height, double Length, double? Ratio, double? Needed);

/// <summary>Where an actuator of a scissor is fixed: on the base or the top at a distance from the pinned end, or along an arm from its lower end, m.</summary>
public enum ScissorMember
{
    Base,
    Top,

    /// <summary>The arm from the pinned end of the base up to the sliding end of the top.</summary>
    ArmFromPin,

    /// <summary>The arm from the sliding end of the base up to the pinned end of the top.</summary>
    ArmFromSlide,
}

/// <param name="Along">m from the pinned end (base, top) or from the lower end (arms).</param>
public sealed record ScissorEnd(ScissorMember Member, double Along);

/// <summary>Straight lifts by virtual work: the force of each of n actuators is F = W (dh/dl)/n, whatever the linkage. Friction and the weight of the arms are left out.</summary>
public static class StraightLift
{
    /// <summary>
    /// Struts from a fixed point to a point that rises by h: l^2 = run^2 + (closed rise + h)^2, so F = W l/(n (closed rise + h)). An upright strut (run 0) carries W/n.
    /// </summary>
    /// <param name="weight">N, the weight on all struts.</param>
    /// <param name="run">Horizontal distance between the ends, m.</param>
    /// <param name="closedRise">Height of the moving end over the fixed end when closed, m.</param>
    /// <param name="travel">How far the roof rises, m.</param>
    public static Result<ImmutableArray<StraightState>> Struts(double weight, double run, double closedRise, double travel, int count, int steps = 60)
    {
        if (Need.All(
            Need.Positive(weight, "the weight"), Need.NotNegative(run, "the run of the strut"), Need.NotNegative(closedRise, "the closed rise of the strut"), Need.Positive(travel, "the travel"),
            Need.Some(count, "strut"), Need.Some(steps, "step")) is { } why)
        {
            return new Missing(why);
        }

        return Enumerable.Range(0, steps + 1).Select(i =>
        {
            var rise = closedRise + travel * i / steps;
            var length = Math.Sqrt(run * run + rise * rise);
            var ratio = rise > 1e-9 * travel ? length / rise : (double?)null;
            return new StraightState(travel * i / steps, length, ratio, weight * ratio / count);
        }).ToImmutableArray();
    }

    /// <summary>
    /// A scissor of one pair of arms pinned at mid-length, from one angle of the arms over the base to another. The length of the actuator follows from where its ends are;
    /// dh/dl by the exact derivative of both. A horizontal actuator along the base at the sliding end gives the textbook F = W/tan(angle).
    /// </summary>
    /// <param name="arm">Length of an arm, m.</param>
    /// <param name="low">Angle of the arms when closed, rad, above 0.</param>
    /// <param name="high">When open, rad, below a right angle.</param>
    public static Result<ImmutableArray<StraightState>> Scissor(double weight, double arm, double low, double high, ScissorEnd from, ScissorEnd to, int count, int steps = 60)
    {
        if (Need.All(
            Need.Positive(weight, "the weight"), Need.Positive(arm, "the arm"), Need.Positive(low, "the closed angle"), Need.That(low < high && high < Math.PI / 2, "the angles must rise and stay below a right angle"),
            Need.Each(new[] { from, to }, e => Need.NotNegative(e.Along, "the place of an end of the actuator")), Need.That(from != to, "the actuator needs two ends"),
            Need.Some(count, "actuator"), Need.Some(steps, "step")) is { } why)
        {
            return new Missing(why);
        }

        return Enumerable.Range(0, steps + 1).Select(i =>
        {
            var angle = low + (high - low) * i / steps;
            var (sin, cos) = Math.SinCos(angle);
            var (a, da) = Place(from, arm, sin, cos);
            var (b, db) = Place(to, arm, sin, cos);
            var (dx, dz) = (b.X - a.X, b.Z - a.Z);
            var length = Math.Sqrt(dx * dx + dz * dz);
            var rate = length > 0 ? (dx * (db.X - da.X) + dz * (db.Z - da.Z)) / length : 0;
            var ratio = Math.Abs(rate) > 1e-9 * arm ? arm * cos / rate : (double?)null;
            return new StraightState(arm * sin, length, ratio, weight * Abs(ratio) / count);
        }).ToImmutableArray();
    }

    private static double? Abs(double? value) => value is { } v ? Math.Abs(v) : null;

    private static (PlanePoint At, PlanePoint Rate) Place(ScissorEnd end, double arm, double sin, double cos) => end.Member switch
    {
        ScissorMember.Base => (new(end.Along, 0), new(0, 0)),
        ScissorMember.Top => (new(end.Along, arm * sin), new(0, arm * cos)),
        ScissorMember.ArmFromPin => (new(end.Along * cos, end.Along * sin), new(-end.Along * sin, end.Along * cos)),
        _ => (new((arm - end.Along) * cos, end.Along * sin), new(-(arm - end.Along) * sin, end.Along * cos)),
    };
}
