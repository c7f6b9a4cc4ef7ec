using Wain.Core.Methods;
using static Wain.Core.Methods.Customary;

namespace Wain.Tests.Engineering;

public static partial class CheckValues
{
    private const string Asce = "ASCE 7, from memory";

    private static IEnumerable<CheckValue> Woods =>
    [
        new("Wood.Density", "Wood Handbook Table 5-3 as copied by a state university", "Douglas-fir, G 0.48, 12 %, kg/m3 (air-dry density, itself rounded from 34 lb/ft3)", 545, () => Wood.Density(0.48, 0.12).Figure(), 0.02 * 545),
        new("Wood.Density", "Wood Handbook Table 5-3 as copied by a state university", "Engelmann spruce, G 0.35, 12 %, lb/ft3 (printed without decimals and from its own samples)", 27, () => Wood.Density(0.35, 0.12).Figure() / PoundPerCubicFoot, 3),
        new("Wood.Density", "Wood Handbook Table 4-6, from memory", "G 0.50, 12 %, kg/m3", 560, () => Wood.Density(0.50, 0.12).Figure(), 0.5),
        new("Wood.FromBasic", "Wood Handbook Table 5-3, from memory", "Douglas-fir, green 0.45, at 12 %", 0.48, () => Wood.FromBasic(0.45, 0.12).Figure(), 0.005),
        new("Wood.FromBasic", "Wood Handbook Table 5-3, from memory", "Engelmann spruce, green 0.33, at 12 %", 0.35, () => Wood.FromBasic(0.33, 0.12).Figure(), 0.005),
        new("Wood.ToBasic", "independent method: inverse of FromBasic", "0.45 there and back", 0.45, () => Wood.FromBasic(0.45, 0.12).Then(g => Wood.ToBasic(g, 0.12)).Figure(), 1e-12),
        new("Wood.ToBasic", "Wood Handbook Table 5-3, from memory", "Western hemlock, 0.45 at 12 %, green", 0.42, () => Wood.ToBasic(0.45, 0.12).Figure(), 0.0101),
        new("Wood.Conductivity", "Wood Handbook eq. 4-15, customary constants (differ from the SI ones by 0.4 %)", "G 0.48, 12 %, Btu in/(h ft2 F)", 0.9335, () => Wood.Conductivity(0.48, 0.12).Figure() / BtuInch, 0.005),
        new("Wood.Conductivity", "AWC: structural softwood at 12 % is 0.7 to 1.0 Btu in/(h ft2 F)", "G 0.42, 12 %, middle of the band", 0.85, () => Wood.Conductivity(0.42, 0.12).Figure() / BtuInch, 0.15),
    ];

    private static IEnumerable<CheckValue> Loads =>
    [
        new("WindAndSnow.VelocityPressure", "secondary page on ASCE 7-05", "100 mph, Kz 0.90, Kd 0.85, psf", 19.58, () => WindAndSnow.VelocityPressure(100 * MilePerHour, 0.9, 1, 0.85).Figure() / Psf, 0.02),
        new("WindAndSnow.VelocityPressure", Asce + ": 0.00256 V2", "90 mph, plain, psf (constants differ by 0.06 %)", 20.74, () => WindAndSnow.VelocityPressure(90 * MilePerHour, 1, 1, 1).Figure() / Psf, 0.02),
        new("WindAndSnow.StagnationPressure", "half of rho V2 with ISA density 1.225 kg/m3", "30 m/s, Pa", 0.5 * 1.225 * 900, () => WindAndSnow.StagnationPressure(30).Figure(), 0.5),
        new("WindAndSnow.StagnationPressure", Asce + ": 0.00256 V2", "100 mph, psf", 25.6, () => WindAndSnow.StagnationPressure(100 * MilePerHour).Figure() / Psf, 0.05),
        new("WindAndSnow.ExposureFactor", Asce + ", Table 27.3-1", "B, 15 ft", 0.57, () => WindAndSnow.ExposureFactor(15 * Foot, Exposure.B).Figure(), 0.006),
        new("WindAndSnow.ExposureFactor", Asce + ", Table 27.3-1", "B, 30 ft", 0.70, () => WindAndSnow.ExposureFactor(30 * Foot, Exposure.B).Figure(), 0.005),
        new("WindAndSnow.ExposureFactor", Asce + ", Table 27.3-1", "C, 5 ft (as 15 ft)", 0.85, () => WindAndSnow.ExposureFactor(5 * Foot, Exposure.C).Figure(), 0.005),
        new("WindAndSnow.ExposureFactor", Asce + ", Table 27.3-1", "C, 50 ft", 1.09, () => WindAndSnow.ExposureFactor(50 * Foot, Exposure.C).Figure(), 0.006),
        new("WindAndSnow.ExposureFactor", Asce + ", Table 27.3-1", "D, 15 ft", 1.03, () => WindAndSnow.ExposureFactor(15 * Foot, Exposure.D).Figure(), 0.005),
        new("WindAndSnow.FlatRoofSnow", Asce + ": 0.7 pg with all factors 1", "30 psf, psf", 21, () => WindAndSnow.FlatRoofSnow(30 * Psf, 1, 1, 1).Figure() / Psf, 1e-9),
        new("WindAndSnow.FlatRoofSnow", Asce + ": unheated structure Ct 1.2, exposed Ce 0.9", "40 psf, psf", 30.24, () => WindAndSnow.FlatRoofSnow(40 * Psf, 0.9, 1.2, 1).Figure() / Psf, 1e-9),
        new("WindAndSnow.SnowUnitWeight", Asce + ", eq. 7.7-1", "30 psf, pcf", 17.9, () => WindAndSnow.SnowUnitWeight(30 * Psf).Figure() / Psf * Foot, 0.05),
        new("WindAndSnow.SnowUnitWeight", Asce + ", eq. 7.7-1, upper bound", "200 psf, pcf", 30, () => WindAndSnow.SnowUnitWeight(200 * Psf).Figure() / Psf * Foot, 1e-9),
        new("LiveLoads", "IRC Table R301.5 with 1 psf = 0.0479 kPa", "sleeping rooms, 30 psf, kPa", 1.437, () => LiveLoads.All[0].Pressure / 1000, 0.001),
        new("LiveLoads", "IRC Table R301.5 with 1 psf = 0.0479 kPa", "other rooms, 40 psf, kPa", 1.916, () => LiveLoads.All[1].Pressure / 1000, 0.001),
    ];
}
