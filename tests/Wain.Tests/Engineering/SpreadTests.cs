using Wain.Core.Methods;

namespace Wain.Tests.Engineering;

public class SpreadTests
{
    [Fact]
    public void OneCauseAddsAndSeveralCausesCombine()
    {
        var boards = new[] { new CausedSpread("fir", new(9, 10, 12)), new CausedSpread("fir", new(18, 20, 24)), new CausedSpread("foam", new(1, 5, 8)) };
        var sum = Spreads.SumByCause(boards);
        Assert.Equal(35, sum.Likely, 1e-12);
        Assert.Equal(35 - 5, sum.Low, 1e-12);
        Assert.Equal(35 + Math.Sqrt(36 + 9), sum.High, 1e-12);
    }

    /// <summary>Independent method: the exact variance of a product of two independent figures, which differs from first order by the product of squares only.</summary>
    [Fact]
    public void ProductIsFirstOrder()
    {
        var product = Spreads.ProductIndependent(new Spread(9, 10, 11), new Spread(4.5, 5, 5.5));
        var exact = 50 * Math.Sqrt(0.01 + 0.01 + 0.0001);
        Assert.Equal(50, product.Likely, 1e-12);
        Assert.Equal(exact, product.Above, 0.02);
        Assert.Equal(product.Above, product.Below, 1e-12);
    }

    [Fact]
    public void ProductOfOneIsItself() => Assert.Equal(new Spread(1, 2, 4), Spreads.ProductIndependent(new Spread(1, 2, 4)));

    [Fact]
    public void OrderIsAsked()
    {
        Assert.Contains("order", Spread.Of(3, 2, 4).Reason);
        Assert.Contains("negative", Spread.Within(3, -0.1).Reason);
        Assert.Equal(new Spread(-4, -2, -1), new Spread(1, 2, 4).Times(-1));
    }
}
