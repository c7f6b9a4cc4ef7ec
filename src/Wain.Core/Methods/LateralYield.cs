using System.Collections.Immutable;

namespace Wain.Core.Methods;

/// <summary>A dowel-type fastener in single shear between a side and a main member.</summary>
/// <param name="Diameter">m: the root diameter where threads cross the joint, the shank otherwise.</param>
/// <param name="BendingYield">Fyb, Pa.</param>
/// <param name="SideBearing">Fes, dowel bearing strength of the side member, Pa.</param>
/// <param name="MainBearing">Fem, Pa.</param>
/// <param name="SideLength">Dowel bearing length in the side member, m.</param>
/// <param name="MainLength">In the main member, m.</param>
/// <param name="GrainAngle">Largest angle of load to grain in either member, rad; counts for diameters of 1/4 in and more.</param>
public sealed record DowelJoint(double Diameter, double BendingYield, double SideBearing, double MainBearing, double SideLength, double MainLength, double GrainAngle = 0);

/// <summary>One way to yield and its reference value, N.</summary>
public sealed record YieldMode(string Name, double Load);

/// <summary>The reference lateral value, N, is that of the weakest mode.</summary>
public sealed record LateralValue(double Load, string Governs, ImmutableArray<YieldMode> Modes);

/// <summary>Lateral design values by the yield limit equations of the NDS (12.3.1, Table 12.3.1A), before adjustment factors.</summary>
public static class LateralYield
{
    /// <summary>
    /// Dowel bearing strength, Pa. Below 1/4 in: 16,600 G^1.84 psi. From 1/4 in: 11,200 G psi along the grain and 6,100 G^1.45/sqrt(D) psi across it,
    /// combined by Hankinson's formula at an angle. NDS Table 12.3.3 and 12.3.4.
    /// </summary>
    public static Result<double> Bearing(double specificGravity, double diameter, double grainAngle = 0)
    {
        if (Need.All(
            Need.Positive(specificGravity, "the specific gravity"), Need.That(specificGravity <= 1.54, "no wood is denser than its cell walls (specific gravity 1.54)"),
            Need.Positive(diameter, "the diameter"), Need.Between(grainAngle, 0, Math.PI / 2, "the angle to the grain")) is { } why)
        {
            return new Missing(why);
        }

        var d = diameter / Customary.Inch;
        if (d < 0.25 - 1e-9)
        {
            return 16600 * Math.Pow(specificGravity, 1.84) * Customary.Psi;
        }

        var (along, across) = (11200 * specificGravity, 6100 * Math.Pow(specificGravity, 1.45) / Math.Sqrt(d));
        var (sin, cos) = Math.SinCos(grainAngle);
        return along * across / (along * sin * sin + across * cos * cos) * Customary.Psi;
    }

    /// <summary>
    /// Bending yield strength of common wire nails and wood screws by diameter, Pa: 100,000 psi to 0.142 in, 90,000 to 0.177, 80,000 to 0.236, 70,000 to 0.273, 60,000 to 0.344,
    /// 45,000 above. NDS Appendix I, from memory.
    /// </summary>
    public static Result<double> BendingYield(double diameter) =>
        Need.Positive(diameter, "the diameter") is { } why
            ? new Missing(why)
            : Customary.Psi * (diameter / Customary.Inch) switch { <= 0.142 => 100000, <= 0.177 => 90000, <= 0.236 => 80000, <= 0.273 => 70000, <= 0.344 => 60000, _ => 45000 };

    /// <summary>
    /// The six modes Im, Is, II, IIIm, IIIs, IV over their reduction terms Rd: 2.2 to 0.17 in, 10 D + 0.5 to 0.25 in, then 4 K, 3.6 K and 3.2 K with K = 1 + angle/360 degrees.
    /// </summary>
    public static Result<LateralValue> Reference(DowelJoint j)
    {
        if (Need.All(
            Need.Positive(j.Diameter, "the diameter"), Need.Positive(j.BendingYield, "the bending yield strength"), Need.Positive(j.SideBearing, "the bearing strength of the side member"),
            Need.Positive(j.MainBearing, "the bearing strength of the main member"), Need.Positive(j.SideLength, "the bearing length in the side member"),
            Need.Positive(j.MainLength, "the bearing length in the main member"), Need.Between(j.GrainAngle, 0, Math.PI / 2, "the angle to the grain")) is { } why)
        {
            return new Missing(why);
        }

        var (d, lm, ls, fem, fes, fyb) = (j.Diameter, j.MainLength, j.SideLength, j.MainBearing, j.SideBearing, j.BendingYield);
        var inches = d / Customary.Inch;
        var angle = 1 + double.RadiansToDegrees(j.GrainAngle) / 360;
        var (r1, r2, r3) = inches switch
        {
            <= 0.17 => (2.2, 2.2, 2.2),
            < 0.25 - 1e-9 => (10 * inches + 0.5, 10 * inches + 0.5, 10 * inches + 0.5),
            _ => (4 * angle, 3.6 * angle, 3.2 * angle),
        };
        var (re, rt) = (fem / fes, lm / ls);
        var k1 = (Math.Sqrt(re + 2 * re * re * (1 + rt + rt * rt) + rt * rt * re * re * re) - re * (1 + rt)) / (1 + re);
        var k2 = -1 + Math.Sqrt(2 * (1 + re) + 2 * fyb * (1 + 2 * re) * d * d / (3 * fem * lm * lm));
        var k3 = -1 + Math.Sqrt(2 * (1 + re) / re + 2 * fyb * (2 + re) * d * d / (3 * fem * ls * ls));
        ImmutableArray<YieldMode> modes =
        [
            new("Im", d * lm * fem / r1),
            new("Is", d * ls * fes / r1),
            new("II", k1 * d * ls * fes / r2),
            new("IIIm", k2 * d * lm * fem / ((1 + 2 * re) * r3)),
            new("IIIs", k3 * d * ls * fem / ((2 + re) * r3)),
            new("IV", d * d / r3 * Math.Sqrt(2 * fem * fyb / (3 * (1 + re)))),
        ];
        var weakest = modes.MinBy(m => m.Load)!;
        return new LateralValue(weakest.Load, weakest.Name, modes);
    }

    /// <summary>
    /// A wood screw through a side member, N. Bends and bears on its root diameter (NDS 12.3.7); penetration is what of its length goes into the main member. The value is full
    /// at 10 D of penetration, in proportion down to 6 D, and not permitted below (NDS Table 12L footnote), with D the shank diameter.
    /// </summary>
    /// <param name="sideGravity">Specific gravity of the side member; likewise main.</param>
    /// <param name="bendingYield">Pa; null for the usual value of its shank diameter.</param>
    public static Result<LateralValue> WoodScrew(WoodScrewSize size, double sideGravity, double mainGravity, double side, double penetration, double? bendingYield = null)
    {
        if (Need.All(Need.Positive(side, "the thickness of the side member"), Need.Positive(penetration, "the penetration"),
            Need.That(penetration >= 6 * size.Shank - 1e-9, "a screw must reach six diameters into the main member to count")) is { } why)
        {
            return new Missing(why);
        }

        var factor = Math.Min(1, penetration / (10 * size.Shank));
        return Bearing(sideGravity, size.Root).Then(fes => Bearing(mainGravity, size.Root).Then(fem => (bendingYield is { } f ? (Result<double>)f : BendingYield(size.Shank)).Then(fyb =>
            Reference(new(size.Root, fyb, fes, fem, side, penetration)).Map(v => v with
            {
                Load = v.Load * factor,
                Modes = [.. v.Modes.Select(m => m with { Load = m.Load * factor })],
            }))));
    }
}
