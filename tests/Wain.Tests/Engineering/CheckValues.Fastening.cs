using Wain.Core.Methods;
using static Wain.Core.Methods.Customary;

namespace Wain.Tests.Engineering;

public static partial class CheckValues
{
    private const string NdsScrews = "NDS Table 12.2B, from memory";
    private const string NdsLags = "NDS Table 12.2A, as copied in a city's plan file";
    private const string NdsNails = "NDS Table 12N (common nails, G 0.50), from memory";
    private const string NdsBolts = "NDS Table 12A (1/2 to 3/4 in bolts, G 0.50), from memory";
    private const string Handbook = "Wood Handbook, SI constants, from memory";
    private const string Shigley = "Shigley, Mechanical Engineering Design, example 8-7, from memory";

    private static IEnumerable<CheckValue> Fastening =>
    [
        new("Withdrawal.ScrewReference", "engineering tables page, NDS formula", "#10, G 0.45, lb/in (page cuts at 109)", 109, () => PerInch(Withdrawal.ScrewReference(0.45, 0.190 * Inch, Inch)), 1),
        new("Withdrawal.ScrewReference", NdsScrews, "#8, G 0.50, lb/in", 117, () => PerInch(Withdrawal.ScrewReference(0.50, 0.164 * Inch, Inch)), 0.5),
        new("Withdrawal.ScrewReference", NdsScrews, "#14, G 0.50, lb/in", 172, () => PerInch(Withdrawal.ScrewReference(0.50, 0.242 * Inch, Inch)), 0.5),
        new("Withdrawal.ScrewReference", NdsScrews, "#12, G 0.36, lb/in", 80, () => PerInch(Withdrawal.ScrewReference(0.36, 0.216 * Inch, Inch)), 0.5),
        new("Withdrawal.ScrewUltimate", Handbook + " (108.25 G^2 D L, N and mm)", "G 0.48, 0.190 in, 1 in, N", 108.25 * 0.48 * 0.48 * 4.826 * 25.4, () => Withdrawal.ScrewUltimate(0.48, 0.190 * Inch, Inch).Figure(), 4),
        new("Withdrawal.ScrewUltimate", "NDS and Wood Handbook", "ultimate over reference", 5.5, () => Withdrawal.ScrewUltimate(0.5, 0.005, 0.02).Figure() / Withdrawal.ScrewReference(0.5, 0.005, 0.02).Figure(), 0.01),
        new("Withdrawal.LagReference", NdsLags, "1/4 in, G 0.50, lb/in", 225, () => PerInch(Withdrawal.LagReference(0.50, 0.25 * Inch, Inch)), 0.5),
        new("Withdrawal.LagReference", NdsLags, "3/8 in, G 0.36, lb/in", 186, () => PerInch(Withdrawal.LagReference(0.36, 0.375 * Inch, Inch)), 0.5),
        new("Withdrawal.LagReference", NdsLags, "1/2 in, G 0.55, lb/in", 437, () => PerInch(Withdrawal.LagReference(0.55, 0.5 * Inch, Inch)), 0.5),
        new("Withdrawal.NailUltimate", Handbook + " (54.12 G^2.5 D L, N and mm)", "G 0.48, 3 mm, 40 mm, N", 54.12 * Math.Pow(0.48, 2.5) * 120, () => Withdrawal.NailUltimate(0.48, 0.003, 0.04).Figure(), 2),
        new("Withdrawal.NailUltimate", "NDS and Wood Handbook", "ultimate over reference", 7850.0 / 1380, () => Withdrawal.NailUltimate(0.5, 0.005, 0.02).Figure() / Withdrawal.NailReference(0.5, 0.005, 0.02).Figure(), 1e-9),
        new("Withdrawal.NailReference", "NDS Table 12.2C, from memory", "0.131 in, G 0.50, lb/in", 32, () => PerInch(Withdrawal.NailReference(0.50, 0.131 * Inch, Inch)), 0.5),
        new("Withdrawal.NailReference", "NDS Table 12.2C, from memory", "0.162 in, G 0.50, lb/in", 40, () => PerInch(Withdrawal.NailReference(0.50, 0.162 * Inch, Inch)), 0.5),
        new("LateralYield.Bearing", "NDS Table 12.3.3, from memory", "G 0.50 below 1/4 in, psi", 4650, () => LateralYield.Bearing(0.5, 0.19 * Inch).Figure() / Psi, 50),
        new("LateralYield.Bearing", "NDS Table 12.3.3, from memory", "G 0.50, 1/2 in, along the grain, psi", 5600, () => LateralYield.Bearing(0.5, 0.5 * Inch).Figure() / Psi, 25),
        new("LateralYield.Bearing", "NDS Table 12.3.3, from memory", "G 0.50, 1/2 in, across the grain, psi", 3150, () => LateralYield.Bearing(0.5, 0.5 * Inch, Math.PI / 2).Figure() / Psi, 25),
        new("LateralYield.BendingYield", "NDS Appendix I, from memory", "0.131 in, psi", 100000, () => LateralYield.BendingYield(0.131 * Inch).Figure() / Psi, 1e-6),
        new("LateralYield.BendingYield", "NDS Appendix I, from memory", "0.192 in, psi", 80000, () => LateralYield.BendingYield(0.192 * Inch).Figure() / Psi, 1e-6),
        new("LateralYield.Reference", NdsNails, "8d, 3/4 in side, lb", 90, () => Nail(0.131, 100000, 0.75, 2.5), 0.7),
        new("LateralYield.Reference", NdsNails, "8d, 1-1/2 in side, lb", 97, () => Nail(0.131, 100000, 1.5, 2.5), 0.7),
        new("LateralYield.Reference", NdsNails, "10d, 1-1/2 in side, lb", 118, () => Nail(0.148, 90000, 1.5, 3), 0.7),
        new("LateralYield.Reference", NdsNails, "16d, 1-1/2 in side, lb", 141, () => Nail(0.162, 90000, 1.5, 3.5), 0.7),
        new("LateralYield.Reference", NdsNails, "20d, 1-1/2 in side, lb", 170, () => Nail(0.192, 80000, 1.5, 4), 0.7),
        new("LateralYield.Reference", NdsBolts, "1/2 in, two 2-by members, along the grain, lb", 480, () => Bolt(0.5), 5),
        new("LateralYield.Reference", NdsBolts, "3/4 in, two 2-by members, along the grain, lb", 720, () => Bolt(0.75), 5),
        new("LateralYield.WoodScrew", "NDS 12.3.7 and the nail of the same diameter (independent method)", "#10 bears on its root 0.152 in, 3/4 in side, lb", Nail(0.152, 80000, 0.75, 2.75), () => Screw(2), 1e-9),
        new("LateralYield.WoodScrew", "NDS Table 12L footnote, from memory: in proportion below ten diameters", "#10, 8 D of penetration over 10 D", 0.8, () => Screw(8 * 0.190) / Screw(10 * 0.190), 0.003),
        new("ScrewData", "NDS commentary Table C12.1.5.7, from memory", "#10 not bored, loaded end, in", 2.85, () => ScrewData.Spacing[1].NotBored * ScrewData.Find("#10").Figure(s => s.Shank) / Inch, 1e-9),
        new("ScrewData", "evaluation report for structural screws", "#10 pulled along itself, edge, in", 0.76, () => ScrewData.AxialOnly.Edge * ScrewData.Find("#10").Figure(s => s.Shank) / Inch, 1e-9),
        new("ScrewData.Pilot", "building code text on lead holes", "#10, G 0.55, withdrawal: 70 % of root, in", 0.7 * 0.152, () => ScrewData.Find("#10").Then(s => ScrewData.Pilot(s, 0.55, false)).Figure() / Inch, 1e-9),
        new("ScrewData.Pilot", "building code text on lead holes", "#8, G 0.45, lateral: 7/8 of root, in", 0.875 * 0.131, () => ScrewData.Find("#8").Then(s => ScrewData.Pilot(s, 0.45, true)).Figure() / Inch, 1e-9),
        new("Bonds.Lap", "limit: a short stiff lap has even stress", "peak over average", 1, () => Lap(0.0001, 1).Figure(s => s.Concentration), 1e-3),
        new("Bonds.Lap", "independent method: finite differences of the shear-lag equation", "unlike parts, 25 mm, peak over average (within 0.5 %)", ShearLag(), () => Lap(0.025, 2).Figure(s => s.Concentration), 0.005 * ShearLag()),
        new("Bonds.Lap", "limit: a long lap, alike parts, (w l/2) coth", "w l = 6, peak over average", 3 / Math.Tanh(3), () => Bonds.Lap(new(6, 1, 2, 1, 2, 1, 1, 1), 1).Figure(s => s.Concentration), 1e-12),
        new("Bonds.Scarf", "Mohr's circle at 45 degrees", "1 MPa, slope 1 in 1, shear MPa", 0.5, () => Bonds.Scarf(1, 1).Figure(s => s.Shear), 1e-12),
        new("Bonds.Scarf", "independent method: force over the cut area", "1 MPa, slope 1 in 8, resultant MPa", 1 / Math.Sqrt(65), () => Bonds.Scarf(1, 8).Figure(s => Math.Sqrt(s.Normal * s.Normal + s.Shear * s.Shear)), 1e-12),
        new("Bonds.ScarfEfficiency", "Wood Handbook, from memory", "1 in 12", 0.90, () => Bonds.ScarfEfficiency(12).Figure(), 1e-12),
        new("Bonds.ScarfEfficiency", "Wood Handbook, from memory", "1 in 5", 0.65, () => Bonds.ScarfEfficiency(5).Figure(), 1e-12),
        new("Bonds.ScarfLength", "boat-building practice: eight times the thickness", "5.2 mm, 1 in 8, mm", 41.6, () => 1000 * Bonds.ScarfLength(0.0052, 8).Figure(), 1e-9),
        new("Bonds.ScarfLength", "boat-building practice: twelve times the thickness", "1/2 in, 1 in 12, in", 6, () => Bonds.ScarfLength(0.5 * Inch, 12).Figure() / Inch, 1e-9),
        new("Bonds.GluedArea", "independent method: polar moment by summing small squares", "80 by 50 mm, 40 N m and 300 N, Pa (within 0.1 %)", GluedBySquares(), () => Bonds.GluedArea(0.08, 0.05, 40, 0, 300).Figure(), 1e-3 * GluedBySquares()),
        new("Bonds.GluedArea", "statics: no moment, force over area", "300 N on 80 by 50 mm, Pa", 75000, () => Bonds.GluedArea(0.08, 0.05, 0, 300, 0).Figure(), 1e-6),
        new("Bonds.FastenerGroup", Shigley, "near bolts, kN", 21.0, () => Group().Figure(f => f.Max()) / 1000, 0.05),
        new("Bonds.FastenerGroup", Shigley, "far bolts, kN", 14.8, () => Group().Figure(f => f.Min()) / 1000, 0.05),
    ];

    private static double PerInch(Result<double> newtons) => newtons.Figure() / PoundForce;

    private static double Nail(double diameter, double yield, double side, double length)
    {
        var bearing = LateralYield.Bearing(0.5, diameter * Inch).Figure();
        return LateralYield.Reference(new(diameter * Inch, yield * Psi, bearing, bearing, side * Inch, (length - side) * Inch)).Figure(v => v.Load) / PoundForce;
    }

    private static double Bolt(double diameter)
    {
        var bearing = LateralYield.Bearing(0.5, diameter * Inch).Figure();
        return LateralYield.Reference(new(diameter * Inch, 45000 * Psi, bearing, bearing, 1.5 * Inch, 1.5 * Inch)).Figure(v => v.Load) / PoundForce;
    }

    private static double Screw(double penetration) =>
        ScrewData.Find("#10").Then(s => LateralYield.WoodScrew(s, 0.5, 0.5, 0.75 * Inch, penetration * Inch)).Figure(v => v.Load) / PoundForce;

    private static Result<LapStress> Lap(double overlap, double ratio) => Bonds.Lap(new(overlap, 0.025, 0.002, 10e9, 0.002 * ratio, 10e9, 0.0002, 0.5e9), 1000);

    /// <summary>Force in part A along the lap: P'' = w^2 P - c, solved by central differences; the shear stress is the slope of P over the width.</summary>
    private static double ShearLag()
    {
        const int Cells = 2000;
        var (length, stiffA, stiffB, glue) = (0.025, 0.002 * 10e9, 0.004 * 10e9, 0.5e9 / 0.0002);
        var h = length / Cells;
        var (w2, source) = (glue * (1 / stiffA + 1 / stiffB), glue / stiffB);
        // Unknown share of the load in A, one at the start and zero at the end; the equations are tridiagonal.
        var (upper, right) = (new double[Cells + 1], new double[Cells + 1]);
        right[0] = 1;
        for (var i = 1; i < Cells; i++)
        {
            var pivot = -2 - w2 * h * h - upper[i - 1];
            upper[i] = 1 / pivot;
            right[i] = (-source * h * h - right[i - 1]) / pivot;
        }

        var share = new double[Cells + 1];
        for (var i = Cells - 1; i >= 0; i--)
        {
            share[i] = right[i] - upper[i] * share[i + 1];
        }

        return Enumerable.Range(0, Cells).Max(i => Math.Abs(share[i + 1] - share[i]) / h) * length;
    }

    private static double GluedBySquares()
    {
        const int N = 400;
        var polar = 0.0;
        for (var i = 0; i < N; i++)
        {
            for (var j = 0; j < N; j++)
            {
                var (x, y) = (0.08 * ((i + 0.5) / N - 0.5), 0.05 * ((j + 0.5) / N - 0.5));
                polar += (x * x + y * y) * 0.08 * 0.05 / N / N;
            }
        }

        var (sx, sy) = (40 * 0.025 / polar, 300 / 0.004 + 40 * 0.04 / polar);
        return Math.Sqrt(sx * sx + sy * sy);
    }

    private static Result<IReadOnlyList<double>> Group() => Bonds.FastenerGroup([(0.075, 0.06), (0.075, -0.06), (-0.075, -0.06), (-0.075, 0.06)], 16000 * 0.425, 0, 16000);
}
