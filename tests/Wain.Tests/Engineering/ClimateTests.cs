using CsCheck;
using Wain.Core.Methods;

namespace Wain.Tests.Engineering;

public class ClimateTests
{
    private static MoistureReport Get(Result<MoistureReport> r) => r.TryGet(out var report) ? report : throw new Xunit.Sdk.XunitException(r.Reason!);

    [Fact]
    public void SaysWhichPlaneGetsWet()
    {
        Assert.Equal("wool to plywood", Get(CheckValues.Winter(CheckValues.Wall, 20, 0.5, -5, 0.8)).PeakPlane);
        Assert.Equal("foam to outer ply", Get(CheckValues.Winter(CheckValues.FoamPanel, 20, 0.5, -10, 0.8)).PeakPlane);
        Assert.Null(Get(CheckValues.Winter(CheckValues.Wall, 20, 0.3, 15, 0.5)).PeakPlane);
    }

    /// <summary>Independent method: relaxation of the obstacle problem, on walls with any number of condensation planes.</summary>
    [Fact]
    public void HullAgreesWithRelaxationOnAnyWall() => Gen.Select(Gen.Double[0.01, 1.5], Gen.Double[0.05, 5]).Array[2, 6].Sample(
        walls =>
        {
            MoistLayer[] layers = [.. walls.Select((w, i) => new MoistLayer($"layer {i}", w.Item1, w.Item2))];
            var relaxed = CheckValues.Relaxed(layers, 20, 0.6, -10, 0.85);
            Assert.Equal(relaxed, Get(CheckValues.Winter(layers, 20, 0.6, -10, 0.85, false)).Peak, 1e-6 + 1e-6 * relaxed);
        },
        iter: 30);

    /// <summary>
    /// A wall so cold inside that its surface is below the dew point of the room: what enters it is at saturation of the surface. By hand, with the pressures of ISO 13788: surfaces
    /// of 0.13 and 0.04 and layers of 0.02 and 0.02 m2 K/W at 20 and -10 degrees put the surface at 1.43 degrees, 60 % of 2337 Pa is 1402 Pa, and 677 Pa is saturation there.
    /// </summary>
    [Fact]
    public void WhatCondensesOnTheSurfaceDoesNotEnterTheWall()
    {
        MoistLayer[] layers = [new("inner", 0.02, 0.05), new("outer", 0.02, 2.0)];
        var report = Get(CheckValues.Winter(layers, 20, 0.6, -10, 0.85, false));
        Assert.True(report.Spells[0].WetSurface);
        var planes = report.Spells[0].Planes;
        double Pressure(double t) => t >= 0 ? 610.5 * Math.Exp(17.269 * t / (237.3 + t)) : 610.5 * Math.Exp(21.875 * t / (265.5 + t));
        double surface = 20 - 30 * 0.13 / 0.21, between = 20 - 30 * 0.15 / 0.21, outside = 0.85 * Pressure(-10);
        Assert.Equal(Pressure(surface), planes[0].Pressure, 1e-6);
        double water = 2e-10 * ((Pressure(surface) - Pressure(between)) / 0.05 - (Pressure(between) - outside) / 2.0) * 90 * 86400;
        Assert.Equal(water, report.Peak, 1e-9);
        Assert.Equal(CheckValues.Relaxed(layers, 20, 0.6, -10, 0.85), report.Peak, 1e-9);
    }

    [Fact]
    public void FindsTwoPlanesAtOnce()
    {
        // Two cold tight sheets, each behind insulation that lets vapour through.
        MoistLayer[] layers = [new("lining", 0.05, 0.1), new("wool", 1.5, 0.05), new("sheet", 0.05, 2), new("second wool", 1.5, 0.05), new("skin", 0.05, 10)];
        var water = Get(CheckValues.Winter(layers, 22, 0.7, -15, 0.9, false)).Spells[0].Water;
        Assert.Equal(["wool to sheet", "second wool to skin"], water.Select(w => w.Plane));
        Assert.All(water, w => Assert.True(w.Held > 0.01));
    }

    [Fact]
    public void AYearBeginsWithTheFirstWetSpellAndDriesWithinOne()
    {
        ClimateSpell Month(string name, double inside, double outside) => ClimateSpell.Of(name, inside, 0.6, outside, 0.75, 30 * 86400).TryGet(out var s) ? s : null!;
        var months = new[] { Month("January", 20, -8), Month("April", 20, 12), Month("July", 22, 22), Month("October", 20, 9), Month("December", 20, -5) };
        MoistLayer[] wall = [new("lining", 0.05, 0.6), new("wool", 1.5, 0.1), new("ply", 0.05, 1)];
        var year = Get(Glaser.Year(wall, 0.13, 0.04, months));
        Assert.True(year.DriesOut);
        Assert.Equal("December", year.Spells[0].Name);
        Assert.Equal(year.Spells.Max(s => s.Held), year.Peak, 1e-12);
        // Nothing is lost or made: what came in all spells left in all spells.
        Assert.Equal(0, year.Spells.SelectMany(s => s.Water).Sum(w => w.Change), 1e-9);
        Assert.All(year.Spells.SelectMany(s => s.Water), w => Assert.True(w.Held >= 0));
    }

    /// <summary>Cutting a spell in two may not change its outcome, also where a plane dries within it.</summary>
    [Fact]
    public void SpellsMayBeCut()
    {
        MoistLayer[] wall = [new("lining", 0.05, 0.6), new("wool", 1.5, 0.1), new("ply", 0.05, 1)];
        ClimateSpell Spell(double outside, double days) => ClimateSpell.Of("spell", 20, 0.55, outside, 0.75, days * 86400).TryGet(out var s) ? s : null!;
        var whole = Get(Glaser.Spells(wall, 0.13, 0.04, [Spell(-10, 30), Spell(15, 12)]));
        var cut = Get(Glaser.Spells(wall, 0.13, 0.04, [Spell(-10, 20), Spell(-10, 10), Spell(15, 5), Spell(15, 7)]));
        Assert.Equal(whole.Peak, cut.Peak, 1e-9);
        Assert.Equal(whole.Spells[^1].Held, cut.Spells[^1].Held, 1e-9);
    }

    [Fact]
    public void WetSurfaceIsSaid() => Assert.True(Get(CheckValues.Winter([new("steel", 0.0001, 100)], 20, 0.6, -5, 0.8)).Spells[0].WetSurface);

    [Fact]
    public void BlockClimateHasTheVapourPressuresOfTheStandard()
    {
        // DIN 4108-3, from memory: 1170 and 321 Pa in winter, 982 Pa in the drying half.
        Assert.Equal(1168, Glaser.BlockClimate[0].InsidePressure, 2.0);
        Assert.Equal(321, Glaser.BlockClimate[0].OutsidePressure, 0.5);
        Assert.Equal(982, Glaser.BlockClimate[1].InsidePressure, 1.0);
        Assert.Equal(0.5, Glaser.BlockLimit(capillary: false));
    }

    [Fact]
    public void SaturationAndDewPointAreInverse() => Gen.Double[-40, 40].Sample(t => Assert.Equal(t, Vapour.Saturation(t).Then(Vapour.DewPointOf).Or(double.NaN), 1e-9));

    [Fact]
    public void CrossedBattensMakeFourPaths()
    {
        var paths = Warmth.Paths([BridgedLayer.With(0.1, 0.3, 1), BridgedLayer.With(0.2, 0.2, 0.8)]).TryGet(out var p) ? p : [];
        Assert.Equal(4, paths.Length);
        Assert.Equal(1, paths.Sum(x => x.Fraction), 1e-12);
        Assert.Equal(0.02, paths.Min(x => x.Fraction), 1e-12);
    }

    /// <summary>ISO 6946: the lower limit is never above the upper, and both meet where nothing is bridged.</summary>
    [Fact]
    public void LimitsBoundTheResistance() => Gen.Select(Gen.Double[0.01, 0.5], Gen.Double[0.05, 3], Gen.Double[0.05, 3]).Sample(v =>
    {
        var r = Warmth.Paths([BridgedLayer.Plain(0.1), BridgedLayer.With(v.Item1, v.Item2, v.Item3)]).Then(p => Warmth.Combined(p, 0.13, 0.04)).TryGet(out var t) ? t : null!;
        Assert.True(r.Upper >= r.Lower - 1e-12);
        Assert.InRange(r.Resistance, r.Lower - 1e-12, r.Upper + 1e-12);
    });

    [Theory]
    [InlineData(90, HeatFlow.Up)]
    [InlineData(30, HeatFlow.Horizontal)]
    [InlineData(31, HeatFlow.Up)]
    [InlineData(-20, HeatFlow.Horizontal)]
    [InlineData(-60, HeatFlow.Down)]
    public void FlowByInclination(double degrees, HeatFlow flow) => Assert.Equal(flow, Warmth.Flow(double.DegreesToRadians(degrees)).TryGet(out var f) ? f : (HeatFlow)99);

    [Fact]
    public void ImpossibleAirAndLayersGiveReasons()
    {
        Assert.Contains("100 %", Vapour.Pressure(20, 1.2).Reason);
        Assert.Contains("100 %", ClimateSpell.Of("night", 20, 0.5, -5, 1.01, 1).Reason);
        Assert.Contains("100 %", Glaser.Spells(CheckValues.Wall, 0.13, 0.04, [new("night", 20, 4000, -5, 300, 1)]).Reason);
        Assert.Contains("sd", Glaser.Spells([new("foam", 1, -1)], 0.13, 0.04, Glaser.BlockClimate).Reason);
        Assert.Contains("add to one", Warmth.Combined([new(0.5, [1])], 0.1, 0.04).Reason);
        Assert.Contains("conductivity", Warmth.Resistance(0.1, 0).Reason);
        Assert.Contains("air change", HeatLoss.Coefficient([], [], 10, -1).Reason);
    }
}
