using Wain.Core.Methods;

namespace Wain.Tests.Engineering;

public class VehicleLimitsTests
{
    // Invented truck: round figures that can be checked in the head. Front axle at x = 3, rear axle at x = 0.
    private static readonly VehicleLoading Truck = new(new(1600, 1200), 3, 0, 1.6)
    {
        People = [new(150, 1.5, 0, 1)],
        Cargo = [new(600, 0.5, 0.1, 1)],
    };

    private static LimitReport Check(VehicleRatings ratings, VehicleLoading? loading = null) =>
        VehicleLimits.Check(ratings, loading ?? Truck).TryGet(out var report) ? report : throw new Xunit.Sdk.XunitException("no report");

    [Fact]
    public void AxlesCarryEverything()
    {
        var axles = Check(new()).Axles;
        Assert.Equal(1600 + 75 + 100, axles.Front, 1e-9);
        Assert.Equal(1200 + 75 + 500, axles.Rear, 1e-9);
    }

    [Fact]
    public void EachLimitIsOnItsOwnTerms()
    {
        var report = Check(new() { Gvwr = 4000, RearGawr = 1800, PlacardPayload = 740, CargoWeightRating = 700, RearTyre = 950 });
        LimitCheck Of(string name) => report.Checks.Single(c => c.Name == name);
        Assert.Equal(3550, Of("GVWR").Load, 1e-9);
        Assert.Equal(1775, Of("rear GAWR").Load, 1e-9);
        Assert.True(Of("placard payload").Exceeded);
        Assert.False(Of("cargo weight rating").Exceeded);
        // Rear tyre on the left: half the axle and the moment of the cargo share, 500 kg at 0.1 m over a track of 1.6 m.
        Assert.Equal(1775 / 2.0 + 500 * 0.1 / 1.6, Of("rear tyre").Load, 1e-9);
        Assert.Equal("placard payload", report.Tightest!.Name);
        Assert.Contains("front GAWR", report.NotKnown);
    }

    [Fact]
    public void RoomIsTheCargoThatFillsTheLimit()
    {
        var ratings = new VehicleRatings { RearGawr = 1900, RearTyre = 1000 };
        foreach (var check in Check(ratings).Checks)
        {
            var more = Truck with { Cargo = [new(600 + check.Room!.Value, 0.5, 0.1, 1)] };
            Assert.Equal(check.Limit, Check(ratings, more).Checks.Single(c => c.Name == check.Name).Load, 1e-6);
        }
    }

    [Fact]
    public void CargoBehindTheRearAxleLightensTheFront()
    {
        var report = Check(new() { FrontGawr = 1700, RearGawr = 2500 }, Truck with { Cargo = [new(600, -0.5, 0, 1)] });
        Assert.Equal(1600 + 75 - 100, report.Axles.Front, 1e-9);
        Assert.Null(report.Checks[0].Room);
        Assert.Equal("rear GAWR", report.Tightest!.Name);
    }

    [Fact]
    public void WhatWasOnTheScaleCountsOnceOnTheAxlesAndOnceAgainstThePlacard()
    {
        var report = Check(new() { PlacardPayload = 1000, CargoWeightRating = 900 }, Truck with { PeopleWeighed = 70, EquipmentWeighed = 30 });
        Assert.Equal(70 + 30 + 150 + 600, report.Checks[0].Load, 1e-9);
        Assert.Equal(30 + 600, report.Checks[1].Load, 1e-9);
        Assert.Equal(3550, report.Axles.Total, 1e-9);
    }

    [Theory]
    [InlineData(0.2, 0.8, true)]
    [InlineData(0.6, 0.9, false)]
    [InlineData(0.1, 0.4, false)]
    public void CargoZone(double rear, double front, bool inside) => Assert.Equal(inside, Check(new() { CargoZone = (rear, front) }).Zone!.Inside);

    [Fact]
    public void ImpossibleTrucksGiveReasons()
    {
        Assert.Contains("wheelbase", VehicleLimits.Check(new(), Truck with { RearAxleX = 3 }).Reason);
        Assert.Contains("mass", VehicleLimits.Check(new(), Truck with { Cargo = [new(-1, 0, 0, 0)] }).Reason);
        Assert.Contains("rating", VehicleLimits.Check(new() { Gvwr = -5 }, Truck).Reason);
    }
}
