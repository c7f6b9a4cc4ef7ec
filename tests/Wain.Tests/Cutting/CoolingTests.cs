using Wain.Cutting;

namespace Wain.Tests.Cutting;

/// <summary>The annealing of sheet plans: its own logarithm, and that it grows cold, is heated again and cools twice as long.</summary>
public sealed class CoolingTests
{
    [Fact]
    public void The_logarithm_made_of_sums_is_that_of_the_library()
    {
        var (random, same) = (new FixedRandom(5), new FixedRandom(5));
        for (var n = 0; n < 100_000; n++)
            Assert.Equal(-Math.Log((same.Next() + 0.5) / 4294967296.0), random.Waiting(), 1e-9);
    }

    [Fact]
    public void It_ends_at_six_per_cent_and_then_cools_for_twice_as_long()
    {
        var (random, same) = (new FixedRandom(9), new FixedRandom(9));
        var cooling = new Cooling(8, 1000);
        var temperatures = Enumerable.Range(0, 3001).Select(_ => cooling.Allowed(ref random) / same.Waiting()).ToArray();
        Assert.Equal(8, temperatures[0], 1e-9);
        Assert.Equal(8 * Math.Exp(-2.8 * 0.999), temperatures[999], 1e-4);
        Assert.Equal(8, temperatures[1000], 1e-9);
        Assert.Equal(8 * Math.Exp(-1.4), temperatures[2000], 1e-4);
        Assert.Equal(8 * Math.Exp(-2.8 * 0.9995), temperatures[2999], 1e-4);
        Assert.Equal(8, temperatures[3000], 1e-9);
    }
}
