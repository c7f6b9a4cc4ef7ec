using Wain.Core.Takeoff;
using static Wain.Tests.Takeoff.TakeoffSpecs;

namespace Wain.Tests.Takeoff;

public class BuyingTests
{
    private const string Skin = "stack skin {\n sheet ply\n}\n";

    [Theory]
    [InlineData(3, 1, 3)]
    [InlineData(3.0000000000001, 1, 3)]
    [InlineData(3.01, 1, 4)]
    [InlineData(0.3, 0.1, 3)]
    [InlineData(0, 1, 0)]
    public void WholePacksCoverTheNeed(double need, double pack, int packs) => Assert.Equal(packs, Buying.WholePacks(need, pack));

    [Fact]
    public void WasteIsBoughtOnTop()
    {
        var run = Of(Ply.Replace("density", "waste 10 %\n density") + Skin + Deck("deck", "skin", "96 in", "48 in"));
        Assert.Equal(1.1 * run["deck.ply.area"], run["deck.ply.need"], 9);
        Assert.Equal(2, run["ply.packs"]);
        Assert.Equal(80, run["ply.cost"], 9);
        Assert.Equal(80, run["deck.cost"], 9);
    }

    /// <summary>Four decks that each take six tenths of a sheet: by area three sheets, and yet no two come out of one.</summary>
    [Fact]
    public void HalfSheetsCannotShare()
    {
        var run = Of(Ply + Skin + string.Concat("abcd".Select(c => Deck("deck_" + c, "skin", "57.6 in", "48 in"))));
        Assert.Equal(4, run["ply.packs"]);
        Assert.True(run.Takeoff.Buy.Single().IsEstimate);
    }

    /// <summary>Of several sizes one that holds the pieces is bought, for the least money in whole sheets, whatever a square foot costs: 90 in by 40 in out of one sheet for 55 and not out of two for 40 that are too short, and a small panel out of one for 40.</summary>
    [Theory]
    [InlineData("90 in", 48 * 96, 1, 55)]
    [InlineData("40 in", 60 * 60, 1, 40)]
    public void TheSizeThatHoldsThePiecesForTheLeastIsBought(string length, double squareInches, int packs, double cost)
    {
        string ply = Ply.Replace(" size 48 in by 96 in\n", " size 48 in by 96 in price 55 USD\n size 60 in by 60 in price 40 USD\n", StringComparison.Ordinal).Replace(" price 40 USD per sheet on 2026-01-05\n", "", StringComparison.Ordinal);
        var run = Of(ply + Skin + Deck("deck", "skin", length, "40 in"));
        Assert.Equal((packs, cost), (run["ply.packs"], run["ply.cost"]));
        Assert.Equal(squareInches * 0.0254 * 0.0254, run["ply.pack_size"], 1e-9);
    }

    [Fact]
    public void CuttingPlanTakesTheEstimatesPlace()
    {
        var run = Of(Ply + Skin + Deck("deck", "skin", "96 in", "48 in"), cutting: [new CuttingCount("ply", 48 * 25.4, 96 * 25.4, 3)]);
        Assert.Equal(3, run["ply.packs"]);
        Assert.Equal(120, run["ply.cost"], 9);
        Assert.False(run.Takeoff.Buy.Single().IsEstimate);
    }

    [Fact]
    public void OwnedStockComesOff()
    {
        var run = Of(Ply + Skin + Deck("deck", "skin", "96 in", "96 in") + "owned old of ply {\n size 48 in by 96 in\n}\n");
        Assert.Equal(1, run["ply.packs"]);
    }

    /// <summary>A box of a hundred, a least order of two boxes, a price for each piece.</summary>
    [Fact]
    public void BoxesAndLeastOrders()
    {
        string item = "item knob {\n weight 10 g\n sold by box of 100 minimum 2\n price 0.05 USD per each on 2026-01-05\n}\nload knobs {\n item knob 30 pieces\n at (0 in, 0 in, 0 in)\n}\n";
        var run = Of(Ply + Skin + Deck("deck", "skin", "96 in", "48 in") + item);
        Assert.Equal(2, run["knob.packs"]);
        Assert.Equal(5, run["knob.pack_price"], 9);
        Assert.Equal(10, run["knob.cost"], 9);
        Assert.Equal(0.3, run["knobs.weight"], 9);
    }

    /// <summary>Resin is needed by weight and sold by the gallon: 9.23 lb make one (trade page on coverage).</summary>
    [Fact]
    public void WeightIsSoldByVolume()
    {
        var run = Of("cloth glass {\n weight 923 g/m2\n glass 0.5\n}\nresin epoxy {\n density 9.23 lb/gal\n sold by gal\n price 90 USD per gal on 2026-01-05\n}\n" + Ply + "stack skin {\n cloth glass wet with epoxy\n sheet ply\n}\n" + Deck("deck", "skin", "2 m", "1 m"));
        Assert.Equal(2 * 0.923 / 0.45359237 / 9.23, run["epoxy.need"] / (231 * Math.Pow(0.0254, 3)), 9);
        Assert.Equal(1, run["epoxy.packs"]);
    }

    /// <summary>Panels, joints and the rest add up to what is bought, and tax comes on top.</summary>
    [Fact]
    public void SharesAddUp()
    {
        var run = Of("camper \"Demo\" {\n tax 7.5 %\n}\n" + Ply + Skin + Deck("a", "skin", "40 in", "30 in") + Deck("b", "skin", "50 in", "40 in") + Deck("c", "skin", "90 in", "45 in"));
        Assert.Equal(run["ply.cost"], run["a.cost"] + run["b.cost"] + run["c.cost"], 9);
        Assert.Equal(run["total.cost_bought"] * 1.075, run["total.cost"], 9);
    }

    [Fact]
    public void OtherCurrenciesTakeTheStatedRate()
    {
        string camper = "camper \"Demo\" {\n currency USD\n exchange 1 EUR is 1.25 USD on 2026-01-05\n}\n";
        var run = Of(camper + Ply.Replace("USD", "EUR") + Skin + Deck("deck", "skin", "96 in", "48 in"));
        Assert.Equal(50, run["ply.cost"], 9);
        var without = Of("camper \"Demo\" {\n currency USD\n}\n" + Ply.Replace("USD", "EUR") + Skin + Deck("deck", "skin", "96 in", "48 in"));
        Assert.Null(without.Figures.Find("ply.cost"));
        Assert.Contains("rate", without.Figures.FindMissing("ply.cost")!.Reason);
        Assert.Contains("ply.cost", without.Figures.Find("total.cost")!.Lacks);
    }

    /// <summary>What was paid for a panel takes the place of its share, and the difference is told.</summary>
    [Fact]
    public void PaidTakesOver()
    {
        var run = Of(Ply + Skin + Deck("a", "skin", "96 in", "48 in") + Deck("b", "skin", "96 in", "48 in") + "built a {\n paid 55 USD\n}\n");
        Assert.Equal(55, run["a.cost"], 9);
        Assert.Equal(40, run["a.cost_estimated"], 9);
        Assert.Equal(15, run["a.cost_difference"], 9);
        Assert.Equal(95, run["total.cost"], 9);
    }
}
