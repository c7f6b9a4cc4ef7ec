using System.Collections.Immutable;
using Wain.Core.Methods;
using static Wain.Core.Methods.Customary;

namespace Wain.Tests.Engineering;

public static partial class CheckValues
{
    private const string Scottish = "Scottish Building Standards, annex 6.B.2 (ISO 6946 worked example)";
    private const string English = "the same example as ended in the English guidance, from memory";
    private const string DinTable = "DIN 4108-3 table of saturation pressure, from memory";
    private const string TextbookWall = "textbook of building physics (Lehrbuch der Bauphysik) by a digest of it, 13.2.5 example a: outside wall by the 90-day method of DIN 4108-3";
    private const string TextbookRoof = "the same textbook, 13.2.5 example b: flat roof";
    private const string FromFormulae = "computed by hand from the ISO 13788 formulae";

    internal static readonly MoistLayer[] Wall = [new("plasterboard", 0.05, 0.125), new("wool", 4, 0.14), new("plywood", 0.012 / 0.13, 2.4)];
    // The textbook's tables, inside first. The retarder's sd is what its column adds up to, 5.01 m in all.
    private static readonly MoistLayer[] BoardWall = [new("chipboard", 0.150, 0.95), new("retarder", 0, 2), new("wool", 4, 0.16), new("outer chipboard", 0.150, 1.9)];
    private static readonly MoistLayer[] FlatRoof = [new("concrete", 0.086, 12.6), new("retarder", 0, 20), new("polystyrene", 3.5, 4.2), new("roofing", 0, 600)];
    internal static readonly MoistLayer[] FoamPanel = [new("inner ply", 0.0052 / 0.13, 1.04), new("foam", 0.0381 / 0.0288, 5.715), new("outer ply", 0.0052 / 0.13, 1.04)];

    private static IEnumerable<CheckValue> Climate =>
    [
        new("Warmth.Combined", Scottish, "timber-framed wall, stud path R'1, m2 K/W", 1.715, () => Path(1), 5e-4),
        new("Warmth.Combined", Scottish + ", finished by the formula", "upper limit", 3.530, () => Timber().Figure(t => t.Upper), 5e-4),
        new("Warmth.Combined", Scottish + ", finished by the formula", "lower limit", 3.418, () => Timber().Figure(t => t.Lower), 5e-4),
        new("Warmth.Combined", Scottish + ", finished by the formula", "total resistance", 3.474, () => Timber().Figure(t => t.Resistance), 5e-4),
        new("Warmth.Combined", Scottish + ", finished by the formula", "U without correction", 0.288, () => Timber().Figure(t => t.U), 5e-4),
        new("Warmth.Combined", Scottish, "solid wall, four plain layers, U (the page rounds each layer)", 1.85, Solidwall, 0.0185),
        new("Warmth.Combined", English, "with degree 1 air gaps, U", 0.297, () => Timber(0.0092).Figure(t => t.U), 5e-4),
        new("Warmth.GapCorrection", English, "wool 3.333 of 3.474, degree 1", 0.009, () => Warmth.GapCorrection(1, 3.333, 3.474).Figure(), 5e-4),
        new("Warmth.GapCorrection", "ISO 6946 annex F, from memory", "insulation is all of it, degree 2", 0.04, () => Warmth.GapCorrection(2, 3, 3).Figure(), 1e-12),
        new("Warmth.FixingCorrection", "independent method: parallel conductance of a steel rod, times 0.8", "no surfaces, W/(m2 K)", 0.8 * 50 * 1e-5 * 4 / 0.05, () => Warmth.FixingCorrection(50, 1e-5, 4, 0.05, 0.05, 2, 2).Figure(), 1e-12),
        new("Warmth.FixingCorrection", "ISO 6946 annex F, from memory: a fixing half way in has half the factor", "ratio", 0.5, () => Warmth.FixingCorrection(50, 1e-5, 4, 0.05, 0.025, 2, 2).Figure() / Warmth.FixingCorrection(50, 1e-5, 4, 0.05, 0.05, 2, 2).Figure(), 1e-12),
        new("Warmth.Airspace", "ISO 6946 Table 8, from memory", "25 mm, horizontal", 0.18, () => Warmth.Airspace(0.025, HeatFlow.Horizontal).Figure(), 1e-12),
        new("Warmth.Airspace", "ISO 6946 Table 8, from memory", "50 mm, down", 0.21, () => Warmth.Airspace(0.05, HeatFlow.Down).Figure(), 1e-12),
        new("Warmth.OutsideInWind", "ISO 6946 table of surface resistance in wind, from memory", "1 m/s, 10 degrees Celsius, emissivity 0.9", 0.08, () => Warmth.OutsideInWind(1, 0.9, 283.15).Figure(), 0.005),
        new("Warmth.OutsideInWind", "ISO 6946 table of surface resistance in wind, from memory", "4 m/s", 0.04, () => Warmth.OutsideInWind(4, 0.9, 283.15).Figure(), 0.005),
        new("Warmth.OutsideInWind", "ISO 6946 table of surface resistance in wind, from memory", "10 m/s", 0.02, () => Warmth.OutsideInWind(10, 0.9, 283.15).Figure(), 0.005),
        new("Warmth.Resistance", Scottish, "brick, 102 mm, 0.77", 0.132, () => Warmth.Resistance(0.102, 0.77).Figure(), 5e-4),
        new("Warmth.Resistance", Scottish, "wool, 140 mm, 0.042", 3.333, () => Warmth.Resistance(0.140, 0.042).Figure(), 5e-4),
        new("HeatLoss.Coefficient", "building practice, 0.33 n V, from memory", "20 m3, one change an hour, W/K", 6.6, () => HeatLoss.Coefficient([], [], 20, 1).Figure(h => h.Ventilation), 0.1),
        new("HeatLoss.Coefficient", "independent method: by hand", "10 m2 at 0.5, 4 m at 0.1, no air, W/K", 5.4, () => HeatLoss.Coefficient([new("wall", 0.5, 10)], [new("edge", 0.1, 4)], 1, 0).Figure(h => h.Total), 1e-12),
        new("HeatLoss.Heater", "home heating practice, area times difference over R, from memory", "100 ft2 of R 11, 70 to 0 degF, Btu/h", 636, () => HeatLoss.Heater(100 * SquareFoot / (11 * RValue), (70 - 32) / 1.8, -32 / 1.8).Figure() * 3.412142, 1),
        new("HeatLoss.Heater", "independent method: by hand", "20 W/K, 20 to -10, less 140 W", 460, () => HeatLoss.Heater(20, 20, -10, 1, 140).Figure(), 1e-9),
        new("HeatLoss.Heater", "independent method: by hand", "20 W/K, 20 to -10, margin 1.5", 900, () => HeatLoss.Heater(20, 20, -10, 1.5).Figure(), 1e-9),
        new("HeatLoss.SurfaceTemperature", TextbookWall, "R 4.590, Rsi 0.25, 20 to -5", 18.6, () => HeatLoss.SurfaceTemperature(1 / 4.590, 0.25, 20, -5).Figure(), 0.05),
        new("HeatLoss.SurfaceTemperature", TextbookRoof, "R 3.876, Rsi 0.25, 20 to -5", 18.4, () => HeatLoss.SurfaceTemperature(1 / 3.876, 0.25, 20, -5).Figure(), 0.05),
        new("HeatLoss.SurfaceTemperature", FromFormulae, "U 0.2319, Rsi 0.13, 20 to -5", 19.246, () => HeatLoss.SurfaceTemperature(0.2319, 0.13, 20, -5).Figure(), 5e-4),
        new("HeatLoss.SurfaceTemperature", "independent method: profile of Glaser", "foam panel, 20 to -10", SurfaceOfPanel(), () => HeatLoss.SurfaceTemperature(0.6358, 0.13, 20, -10).Figure(), 1e-3),
        new("HeatLoss.LeastTemperatureFactor", "DIN 4108-2, from memory: 0.70 keeps mould off at 20 degrees, 50 % and -5", "factor", 0.70, () => HeatLoss.LeastTemperatureFactor(20, 0.5, -5).Figure(), 0.005),
        new("HeatLoss.LeastTemperatureFactor", "DIN table, from memory: dew point of 20 degrees, 50 % is 9.3", "factor against dew at -5", (9.3 + 5) / 25, () => HeatLoss.LeastTemperatureFactor(20, 0.5, -5, 1).Figure(), 0.002),
        .. new (double T, double P)[] { (-10, 260), (-5, 401), (0, 611), (5, 872), (10, 1228), (12, 1403), (15, 1706), (20, 2340), (25, 3169) }
            .Select(row => new CheckValue("Vapour.Saturation", DinTable, $"{row.T:0} degrees, Pa (formula and table differ by up to 0.3 %)", row.P, () => Vapour.Saturation(row.T).Figure(), 0.003 * row.P)),
        new("Vapour.DewPoint", "course notes on condensation", "18 degrees, 80 %", 14.47, () => Vapour.DewPoint(18, 0.8).Figure(), 0.1),
        new("Vapour.DewPoint", "DIN 4108-3 table of dew points, from memory", "20 degrees, 50 %", 9.3, () => Vapour.DewPoint(20, 0.5).Figure(), 0.05),
        new("Vapour.DewPoint", "DIN 4108-3 table of dew points, from memory", "20 degrees, 60 %", 12.0, () => Vapour.DewPoint(20, 0.6).Figure(), 0.05),
        new("Vapour.EquivalentAir", "ASTM C578 type IV: 1.5 perm at 1 in, mu 92 by definition of the perm", "over 25.4 mm", 92, () => Vapour.EquivalentAir(1.5 * Customary.Perm).Figure() / 0.0254, 0.5),
        new("Vapour.EquivalentAir", "common practice: 0.1 perm is a barrier; by definition sd m", "0.1 perm, m", 34.96, () => Vapour.EquivalentAir(0.1 * Customary.Perm).Figure(), 0.01),
        new("Vapour.InsidePressure", "gas law, independent method: 1 g/m3 more at 20 degrees", "Pa", 461.5 * 293.15 * 1e-3, () => Vapour.InsidePressure(0, 0.01 / 3600, 1, 10, 20).Figure(), 1e-9),
        new("Vapour.InsidePressure", "ISO 13788 annex A, from memory: 4 g/m3 of humidity class 3 are 540 Pa at 20 degrees", "Pa", 540, () => Vapour.InsidePressure(0, 0.04 / 3600, 1, 10, 20).Figure(), 2),
        new("Vapour.InsidePressure", "ISO 13788 annex A, from memory: 8 g/m3 of humidity class 5 are 1080 Pa at 20 degrees", "Pa", 1080, () => Vapour.InsidePressure(0, 0.08 / 3600, 1, 10, 20).Figure(), 3),
        new("Vapour.InsidePressure", "no source, no change", "Pa", 500, () => Vapour.InsidePressure(500, 0, 0.5, 10, 20).Figure(), 1e-12),
        new("Glaser.Spells", TextbookWall, "90 days of 20/50 % to -5/80 %, kg/m2", 0.27, () => Textbook(BoardWall, 1700).Figure(r => r.Spells[0].Held), 0.005),
        new("Glaser.Spells", TextbookWall, "temperature between wool and outer board", -4.0, () => Textbook(BoardWall, 1700).Figure(r => r.Spells[0].Planes[3].Temperature), 0.05),
        new("Glaser.Spells", TextbookWall, "drying in 90 days at 1700 Pa against 1200 Pa, what three such winters left, kg/m2", -0.659, () => Textbook(BoardWall, 1700, 3).Figure(r => r.Spells[1].Water[0].Change), 0.001),
        new("Glaser.Spells", TextbookRoof, "90 days of 20/50 % to -5/80 %, kg/m2", 0.032, () => Textbook(FlatRoof, 2000).Figure(r => r.Spells[0].Held), 5e-4),
        new("Glaser.Spells", TextbookRoof, "drying in 90 days at 2000 Pa against 1200 Pa, what three such winters left, kg/m2", -0.036, () => Textbook(FlatRoof, 2000, 3).Figure(r => r.Spells[1].Water[0].Change), 5e-4),
        new("Glaser.Spells", FromFormulae, "wall with wool, 90 days, kg/m2", 4.27, () => Winter(Wall, 20, 0.5, -5, 0.8).Figure(r => r.Peak), 0.005),
        new("Glaser.Spells", FromFormulae, "foam panel, 20/50 % to -10/80 %, outer plane temperature", -8.474, () => Winter(FoamPanel, 20, 0.5, -10, 0.8).Figure(r => r.Spells[0].Planes[^2].Temperature), 5e-4),
        new("Glaser.Spells", "independent method: relaxation of the obstacle problem", "foam panel, 90 days, kg/m2 (within 0.1 %)", Relaxed(FoamPanel, 20, 0.5, -10, 0.8), () => Winter(FoamPanel, 20, 0.5, -10, 0.8, false).Figure(r => r.Peak), 1e-3 * Relaxed(FoamPanel, 20, 0.5, -10, 0.8)),
        new("Glaser.Year", TextbookWall, "winter and summer, begun with the summer: most held, kg/m2", 0.27, () => TextbookYear(BoardWall, 1700).Figure(r => r.Peak), 0.005),
        new("Glaser.Year", TextbookWall + ": it dries", "held at the end, kg/m2", 0, () => TextbookYear(BoardWall, 1700).Figure(r => r.Spells[^1].Held), 1e-12),
        new("Glaser.Year", TextbookRoof + ": it dries", "held at the end, kg/m2", 0, () => TextbookYear(FlatRoof, 2000).Figure(r => r.Spells[^1].Held), 1e-12),
        new("Glaser.Year", "independent method: by hand, one plane wetted in winter and dried in the block climate", "wet sheet between equal sd 1, drying kg/m2", -DryingByHand, () => Drying(), 1e-9),
        new("Glaser.Year", FromFormulae, "wall with wool under the block climate with ISO surfaces, winter kg/m2", 4.27, () => Glaser.Year(Wall, 0.13, 0.04, Glaser.BlockClimate).Figure(r => r.Spells[0].Held), 0.005),
    ];

    private static readonly double[] Studs = [0.132, 0.090, 0.146, 1.077, 0.100];

    private static double Path(int which) => Warmth.Combined([new(1, [.. Studs])], 0.13, 0.04).Figure(t => t.Resistance) * which;

    private static Result<Transmittance> Timber(double correction = 0) =>
        Warmth.Paths([BridgedLayer.Plain(0.132), BridgedLayer.Plain(0.090), BridgedLayer.Plain(0.146), BridgedLayer.With(0.095, 1.077, 3.333), BridgedLayer.Plain(0.100)])
            .Then(paths => Warmth.Combined(paths, 0.13, 0.04, correction));

    private static double Solidwall() => Warmth.Combined([new(1, [0.018 / 0.50, 0.102 / 0.77, 0.102 / 0.56, 0.013 / 0.57])], 0.13, 0.04).Figure(t => t.U);

    /// <summary>The 90-day method of DIN 4108-3 (2014 on): the winter block, then a summer that is told as vapour pressures: saturation where the water lies, 1200 Pa on both sides.</summary>
    private static Result<MoistureReport> Textbook(MoistLayer[] layers, double wet, int winters = 1) =>
        Glaser.Spells(layers, 0.25, 0.04, [Glaser.BlockClimate[0] with { Seconds = winters * 90 * 86400 }, Summer(wet)], cutThickLayers: false);

    private static Result<MoistureReport> TextbookYear(MoistLayer[] layers, double wet) => Glaser.Year(layers, 0.25, 0.04, [Summer(wet), Glaser.BlockClimate[0]], cutThickLayers: false);

    private static ClimateSpell Summer(double wet) => new("drying", Vapour.DewPointOf(wet).Figure(), 1200, Vapour.DewPointOf(wet).Figure(), 1200, 90 * 86400);

    private static double SurfaceOfPanel() => Winter(FoamPanel, 20, 0.5, -10, 0.8).Figure(r => r.Spells[0].Planes[0].Temperature);

    internal static Result<MoistureReport> Winter(MoistLayer[] layers, double inside, double insideHumidity, double outside, double outsideHumidity, bool cut = true) =>
        ClimateSpell.Of("winter", inside, insideHumidity, outside, outsideHumidity, 90 * 86400).Then(s => Glaser.Spells(layers, 0.13, 0.04, [s], cut));

    /// <summary>Vapour pressures by projected relaxation: each plane the average of its neighbours by conductance, cut off at saturation; what does not flow on is condensed.</summary>
    internal static double Relaxed(MoistLayer[] layers, double inside, double insideHumidity, double outside, double outsideHumidity)
    {
        var total = 0.17 + layers.Sum(l => l.Resistance);
        var saturation = new double[layers.Length + 1];
        var resistance = 0.13;
        for (var k = 0; k <= layers.Length; k++)
        {
            saturation[k] = Vapour.Saturation(inside - (inside - outside) * resistance / total).Figure();
            resistance += k < layers.Length ? layers[k].Resistance : 0;
        }

        var p = (double[])saturation.Clone();
        // At a surface below the dew point of the air the pressure is that of saturation: the rest condenses on the surface and never enters the wall (ISO 13788).
        p[0] = Math.Min(saturation[0], Vapour.Pressure(inside, insideHumidity).Figure());
        p[^1] = Math.Min(saturation[^1], Vapour.Pressure(outside, outsideHumidity).Figure());
        for (var sweep = 0; sweep < 20000; sweep++)
        {
            for (var k = 1; k < layers.Length; k++)
            {
                var (a, b) = (1 / layers[k - 1].Sd, 1 / layers[k].Sd);
                p[k] = Math.Min(saturation[k], (a * p[k - 1] + b * p[k + 1]) / (a + b));
            }
        }

        double Flow(int k) => 2e-10 * (p[k] - p[k + 1]) / layers[k].Sd;
        return (Flow(0) - Flow(layers.Length - 1)) * 90 * 86400;
    }

    /// <summary>The block climate's drying half on a plane between two sheets of sd 1 m: saturated at 12 degrees, 70 % on both sides.</summary>
    private static double DryingByHand => 2 * 2e-10 * 0.3 * Vapour.Saturation(12).Figure() / 1.0 * 90 * 86400;

    private static double Drying() => Glaser.Year([new("inner", 0.5, 1), new("outer", 0.02, 1)], 0.25, 0.04, [Glaser.BlockClimate[0] with { Seconds = 900 * 86400 }, Glaser.BlockClimate[1]], false).Figure(r => r.Spells[1].Water[0].Change);
}
