namespace Wain.Core.Methods;

/// <summary>A gas spring as its maker states it.</summary>
/// <param name="Force">Nominal force F1, extended, at 20 degrees Celsius, N.</param>
/// <param name="Extended">Length between the end fittings, extended, m.</param>
/// <param name="Stroke">m.</param>
/// <param name="Progression">Force when fully compressed over force extended, K; 1 for an actuator or a counterweight.</param>
/// <param name="Friction">Added to the force when it is pushed in and taken off when it extends, N.</param>
public sealed record GasSpring(double Force, double Extended, double Stroke, double Progression = 1, double Friction = 0)
{
    public double Compressed => Extended - Stroke;
}

/// <summary>Force of one gas spring by its length and temperature, and the usual short forms.</summary>
public static class GasSprings
{
    /// <summary>
    /// Static force, N, without friction: F = F1 (1 + (K - 1) c/stroke) T/293.15 K, with c how far it is pushed in. The linear rise to K is what makers state;
    /// the gas law gives the temperature (about a third of a per cent for each kelvin). Common practice.
    /// </summary>
    /// <param name="length">Between the end fittings, m. Outside the travel the nearer end counts; <see cref="Fits"/> says whether it is outside.</param>
    /// <param name="temperature">K.</param>
    public static Result<double> Force(GasSpring spring, double length, double temperature) =>
        Need.All(Ask(spring), Need.Positive(length, "the length of the gas spring"), Need.Positive(temperature, "the temperature")) is { } why
            ? new Missing(why)
            : Unchecked(spring, length, temperature);

    public static bool Fits(GasSpring spring, double length) => length >= spring.Compressed - 1e-9 && length <= spring.Extended + 1e-9;

    /// <summary>
    /// Opening force for each of n springs with the spring square to its arm, N: F1 = W xg/(n Ls). Weight W in N, arms in m. Component maker's training page.
    /// </summary>
    public static Result<double> Opening(double weight, double toCentre, double toSpring, int count) =>
        Need.All(Need.Positive(weight, "the weight"), Need.Positive(toCentre, "the distance to the centre"), Need.Positive(toSpring, "the distance to the spring"), Need.Some(count, "gas spring")) is { } why
            ? new Missing(why)
            : weight * toCentre / (toSpring * count);

    /// <summary>Force at the free edge that closes it against n springs alone, N: F2 = n F1 Ls/L. Same page.</summary>
    public static Result<double> Closing(double force, double toSpring, double lidLength, int count) =>
        Need.All(Need.Positive(force, "the spring force"), Need.Positive(toSpring, "the distance to the spring"), Need.Positive(lidLength, "the lid length"), Need.Some(count, "gas spring")) is { } why
            ? new Missing(why)
            : count * force * toSpring / lidLength;

    internal static double Unchecked(GasSpring spring, double length, double temperature) =>
        spring.Force * (1 + (spring.Progression - 1) * Math.Clamp((spring.Extended - length) / spring.Stroke, 0, 1)) * temperature / (Customary.IcePoint + 20);

    internal static string? Ask(GasSpring spring) => Need.All(
        Need.Positive(spring.Force, "the spring force"), Need.Positive(spring.Stroke, "the stroke"),
        Need.That(spring.Extended > spring.Stroke, "the extended length must be more than the stroke"),
        Need.That(double.IsFinite(spring.Progression) && spring.Progression >= 1, "the progression must be at least 1"), Need.NotNegative(spring.Friction, "the friction"));
}
