using Wain.Core.Methods;

namespace Wain.Tests.Engineering;

public class MixTests
{
    [Fact]
    public void ImpossibleMixesGiveReasons()
    {
        Assert.Contains("0.8", Laminates.Resin(0.2, 0.85).Reason);
        Assert.Contains("glass content", Laminates.Thickness(0.2, 0).Reason);
        Assert.Contains("over-pack", PourFoam.KitYield(1, 32, 0.5).Reason);
        Assert.Contains("density", Mixing.ByVolume(1, 2, 1, -1150, 1000).Reason);
        Assert.Contains("film", Coatings.ByFilm(1, 1, 0).Reason);
        Assert.Contains("batches", Mixing.Batches(1000, 0.01, 1, 100).Reason);
        Assert.Contains("gravity", Wood.Density(-0.4, 0.12).Reason);
        Assert.Contains("moisture", Wood.Density(0.4, -0.1).Reason);
    }

    [Fact]
    public void BatchesSayWhatLimitsThem()
    {
        Assert.Equal(new BatchPlan(4, 0.25, "pot"), Mixing.Batches(1, 0.3, 1, 1200).TryGet(out var pot) ? pot : null);
        Assert.Equal("pot life", Mixing.Batches(1, 0.3, 0.002, 100).TryGet(out var life) ? life.Because : null);
        Assert.Equal("nothing", Mixing.Batches(0.2, 0.3, 1, 1200).TryGet(out var one) ? one.Because : null);
    }

    /// <summary>ISO 12215-5 is the general form at fixed densities, for every glass content.</summary>
    [Theory]
    [InlineData(0.25)]
    [InlineData(0.48)]
    [InlineData(0.7)]
    public void StandardThicknessIsTheGeneralOne(double glass) =>
        Assert.Equal(Laminates.Thickness(0.6, glass).Or(0), Laminates.StandardThickness(0.6, glass).Or(1), 0.003 * Laminates.Thickness(0.6, glass).Or(0));

    [Fact]
    public void DeepCavityIsPouredInLayersAndAWideOneIsDivided()
    {
        var pour = PourFoam.Cavity(0.02, 32, 1.2, 0.9, 0.5, 0.2).TryGet(out var p) ? p : null!;
        Assert.Equal(3, pour.Pours);
        Assert.Equal(0.02 * 32 * 1.2 / 0.9, pour.Mass, 1e-12);
        Assert.Equal(1, PourFoam.Cavity(0.02, 32, 1.2, 1, 0.5, double.PositiveInfinity).TryGet(out var q) ? q.Pours : 0);
        Assert.False(PourFoam.Flow(0.02, 1, 20).TryGet(out var flow) && flow.Fills);
    }

    [Fact]
    public void ResultsNeverHoldWhatIsNotFinite()
    {
        Result<double> bad = double.NaN;
        Assert.False(bad.IsKnown);
        Assert.Contains("finite", bad.Reason);
        Assert.Equal("why", ((Result<int>)new Missing("why")).Map(x => x + 1).Reason);
        Assert.Equal(3, ((Result<int>)2).Then<int>(x => x + 1).Or(0));
    }
}
