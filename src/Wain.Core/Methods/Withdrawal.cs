namespace Wain.Core.Methods;

/// <summary>
/// Withdrawal of fasteners from side grain. Specific gravity G on ovendry mass and volume; diameter and threaded length in the wood in m. Ultimate values are
/// averages of tests; reference values are the allowable design values of the NDS before its adjustment factors. The two differ by about five and a half times: never mix them.
/// </summary>
public static class Withdrawal
{
    /// <summary>Wood screw, ultimate, N: 15,700 G^2 D L (lb, in). FPL-GTR-190, Wood Handbook, ch. 8, from memory.</summary>
    public static Result<double> ScrewUltimate(double specificGravity, double diameter, double thread) => Pull(15700, specificGravity, 2, diameter, 1, thread);

    /// <summary>Wood screw, reference value, N: 2,850 G^2 D for each inch of thread (lb, in). NDS 12.2.2. Not permitted in end grain.</summary>
    public static Result<double> ScrewReference(double specificGravity, double diameter, double thread) => Pull(2850, specificGravity, 2, diameter, 1, thread);

    /// <summary>Lag screw, reference value, N: 1,800 G^1.5 D^0.75 for each inch of thread (lb, in). NDS 12.2.1. End grain takes 75 % of it.</summary>
    public static Result<double> LagReference(double specificGravity, double diameter, double thread) => Pull(1800, specificGravity, 1.5, diameter, 0.75, thread);

    /// <summary>Smooth nail, ultimate, N: 7,850 G^2.5 D L (lb, in). Wood Handbook ch. 8, from memory.</summary>
    public static Result<double> NailUltimate(double specificGravity, double diameter, double length) => Pull(7850, specificGravity, 2.5, diameter, 1, length);

    /// <summary>Smooth nail, reference value, N: 1,380 G^2.5 D for each inch in the wood (lb, in). NDS 12.2.3.</summary>
    public static Result<double> NailReference(double specificGravity, double diameter, double length) => Pull(1380, specificGravity, 2.5, diameter, 1, length);

    private static Result<double> Pull(double factor, double gravity, double gravityPower, double diameter, double diameterPower, double length) =>
        Need.All(
            Need.Positive(gravity, "the specific gravity"), Need.That(gravity <= 1.54, "no wood is denser than its cell walls (specific gravity 1.54)"),
            Need.Positive(diameter, "the diameter"), Need.Positive(length, "the length in the wood")) is { } why
            ? new Missing(why)
            : factor * Math.Pow(gravity, gravityPower) * Math.Pow(diameter / Customary.Inch, diameterPower) * (length / Customary.Inch) * Customary.PoundForce;
}
