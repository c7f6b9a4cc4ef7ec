using Wain.Core.Framing;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Takeoff;
using static Wain.Core.Methods.Customary;
using static Wain.Tests.Takeoff.TakeoffSpecs;

namespace Wain.Tests.Takeoff;

public class QuantityTests
{
    private const double Gallon = 231 * 0.0254 * 0.0254 * 0.0254;
    private const double Foot2 = 0.3048 * 0.3048;

    /// <summary>A 4 by 8 ft sheet is 32 ft2 or 2.972897 m2: plain arithmetic with the foot of 1959.</summary>
    [Fact]
    public void OneSheetIsOneSheet()
    {
        var run = Of(Ply + "stack skin {\n sheet ply\n}\n" + Deck("deck", "skin", "96 in", "48 in"));
        Assert.Equal(2.972897, run["deck.ply.area"], 6);
        Assert.Equal(32, run["deck.ply.area"] / Foot2, 9);
        Assert.Equal(1, run["ply.packs"]);
        Assert.Equal(2.97289728 * 0.006 * 600, run["deck.weight"], 9);
    }

    /// <summary>APA engineered wood construction guide, area weights of plywood (from memory): 3/8 in 1.1, 1/2 in 1.5, 3/4 in 2.2 lb/ft2, about 36 lb/ft3.</summary>
    [Theory]
    [InlineData("3/8 in", 1.1)]
    [InlineData("1/2 in", 1.5)]
    [InlineData("3/4 in", 2.2)]
    public void PlywoodWeighsWhatTheTableSays(string thickness, double poundsByFoot2)
    {
        var run = Of($"sheet ply {{\n thickness {thickness}\n size 48 in by 96 in\n density 36 lb/ft3\n}}\nstack skin {{\n sheet ply\n}}\n" + Deck("deck", "skin", "96 in", "48 in"));
        Assert.Equal(poundsByFoot2, run["deck.weight"] / Pound / 32, 0.0501);
    }

    /// <summary>A weight by area takes over from density, since it was weighed that way.</summary>
    [Fact]
    public void WeightByAreaComesFirst()
    {
        var run = Of("sheet ply {\n thickness 6 mm\n size 48 in by 96 in\n density 600 kg/m3\n weight 4 kg/m2\n}\nstack skin {\n sheet ply\n}\n" + Deck("deck", "skin", "96 in", "48 in"));
        Assert.Equal(4 * 2.97289728, run["deck.weight"], 9);
    }

    /// <summary>
    /// Published estimate of a maker's magazine for 50:50 wet-out and three rolled fill coats with about 15 % waste: gallons = ft2 (0.00085 oz/yd2 + 0.0075).
    /// Its worked areas are 56 ft2 with two layers of 6 oz (0.99 gal) and 61 ft2 with one (0.77 gal). The mass of a fill coat is taken from the estimate
    /// itself (0.0025 gal/ft2 less waste); wet-out is the program's own, with mixed epoxy at 9.23 lb/gal (trade page on coverage).
    /// </summary>
    [Theory]
    [InlineData(56, 2, 0.99)]
    [InlineData(61, 1, 0.77)]
    public void EpoxyEstimate(double foot2, int plies, double gallons)
    {
        var run = Of("cloth glass {\n weight 6 oz/yd2\n glass 0.5\n}\nresin epoxy {\n density 9.23 lb/gal\n fill_coat 0.02006 lb/ft2\n waste 15 %\n sold by gal\n price 90 USD per gal on 2026-01-05\n}\n" + Ply +
            $"stack skin {{\n cloth glass wet with epoxy plies {plies} fill coats 3\n sheet ply\n}}\n" + Deck("deck", "skin", $"{foot2} ft", "1 ft"));
        Assert.Equal(gallons, run["epoxy.need"] / Gallon, 0.03 * gallons);
    }

    /// <summary>Trade page on coverage and yield: 50 in by 36 in at 0.010 in takes 18 in3 = 0.0779 gal = 326.8 g of mixed epoxy (4195 g/gal).</summary>
    [Fact]
    public void FilmTakesItsVolume()
    {
        var run = Of("coating film {\n coverage 100 in2/in3\n density 4195 g/gal\n solids 1\n}\n" + Ply + "stack skin {\n coating film 1 coats\n sheet ply\n}\n" + Deck("deck", "skin", "50 in", "36 in"));
        Assert.Equal(18 * Math.Pow(0.0254, 3), run["deck.film.volume"], 12);
        Assert.Equal(0.0779, run["deck.film.volume"] / Gallon, 5e-5);
        Assert.Equal(0.3268, run["deck.film.weight"], 2e-4);
    }

    /// <summary>A US gallon film: 1 gal = 231 in3 covers 1604.17 ft2 at one mil (exact; printed sheets say 1608).</summary>
    [Fact]
    public void GallonAtOneMil()
    {
        var run = Of("coating film {\n coverage 1604.1667 ft2/gal\n}\n" + Ply + "stack skin {\n coating film 2 coats\n sheet ply\n}\n" + Deck("deck", "skin", "10 ft", "10 ft"));
        Assert.Equal(2 * 100 * Foot2 * 25.4e-6, run["deck.film.volume"], 1e-9);
    }

    /// <summary>Resin equal to the cloth by weight for a 50:50 wet-out (boat supply house); 40 % glass takes half as much again.</summary>
    [Theory]
    [InlineData(0.5, 1.0)]
    [InlineData(0.4, 1.5)]
    public void GlassContentByWeight(double content, double ratio)
    {
        var run = Of($"cloth glass {{\n weight 200 g/m2\n glass {content.ToString(System.Globalization.CultureInfo.InvariantCulture)}\n}}\nresin epoxy {{\n density 1100 kg/m3\n}}\n" + Ply + "stack skin {\n cloth glass wet with epoxy\n sheet ply\n}\n" + Deck("deck", "skin", "96 in", "48 in"));
        Assert.Equal(2.97289728 * 0.2, run["deck.glass.weight"], 9);
        Assert.Equal(ratio * 2.97289728 * 0.2, run["deck.epoxy.weight"], 9);
    }

    /// <summary>Plain arithmetic: a 96 in wide face from a 50 in roll with 2 in laps is two lengths and one lap.</summary>
    [Fact]
    public void LapsBetweenLengthsOfCloth()
    {
        var run = Of("cloth glass {\n weight 200 g/m2\n glass 0.5\n overlap 2 in\n roll 50 in wide\n}\n" + Ply + "stack skin {\n cloth glass\n sheet ply\n}\n" + Deck("deck", "skin", "120 in", "96 in"));
        Assert.Equal(2 * 120 * 0.0254 * 0.0254, run["deck.glass.lap_area"], 9);
        Assert.Equal((96 + 2) * 120 * 0.0254 * 0.0254, run["deck.glass.area"], 9);
    }

    [Theory]
    [InlineData(48, 8, 1.0, 7)]
    [InlineData(48, 8, null, 6)]
    [InlineData(49, 8, null, 7)]
    [InlineData(17, 8, 0.5, 3)]
    [InlineData(0.5, 8, 0.5, 1)]
    [InlineData(0, 8, 0.5, 0)]
    public void ScrewsKeepTheirSpacing(double length, double every, double? end, int count) => Assert.Equal(count, ScrewRow.CountAlong(length, every, end));

    /// <summary>Closed form for a right angle, r2 (1 - pi/4); and by numbers, the area between two lines and the circle that touches both.</summary>
    [Theory]
    [InlineData(90)]
    [InlineData(60)]
    [InlineData(120)]
    [InlineData(157.5)]
    public void FilletSectionIsWhatLiesUnderTheArc(double degrees)
    {
        double angle = double.DegreesToRadians(degrees), r = 3;
        if (degrees == 90) Assert.Equal(9 * (1 - Math.PI / 4), JointTakeoff.FilletSection(r, angle), 12);
        // The kite between the corner, the two points where the arc touches and the arc's centre, less what lies in the circle, counted on a grid.
        double touch = r / Math.Tan(angle / 2);
        var centre = new Vec2(touch, r);
        var kite = Outline.Polygon(new(0, 0), new(touch, 0), centre, Vec2.FromAngle(angle) * touch);
        var box = kite.Bounds;
        const int steps = 1000;
        int inside = 0;
        for (int i = 0; i < steps; i++)
            for (int k = 0; k < steps; k++)
            {
                var point = new Vec2(box.Min.X + box.Width * (i + 0.5) / steps, box.Min.Y + box.Height * (k + 0.5) / steps);
                if (point.DistanceTo(centre) > r && kite.Contains(point, 0)) inside++;
            }
        double sum = box.Width * box.Height * inside / steps / steps;
        Assert.Equal(sum, JointTakeoff.FilletSection(r, angle), 0.01);
    }

    /// <summary>8.34 lb/gal (62.4 lb/ft3 over 7.4805 gal/ft3, from memory); owners' manuals print 8.3.</summary>
    [Fact]
    public void WaterComesAboardWhenReady()
    {
        var run = Of(Ply + "stack skin {\n sheet ply\n}\n" + Deck("deck", "skin", "96 in", "48 in") + "load water {\n full 12 gal\n at (0 in, 0 in, 10 in)\n}\nload stove {\n weighs 20 lb from 18 lb to 25 lb\n at (0 in, 0 in, 10 in)\n}\nload sleepers {\n weighs 340 lb\n people 2\n at (0 in, 0 in, 10 in)\n}\n");
        Assert.Equal(12 * 8.34, run["water.weight"] / Pound, 0.06);
        Assert.Equal(run["total.weight"] + 20 * Pound, run["total.weight_dry"], 9);
        Assert.Equal(run["total.weight_dry"] + run["water.weight"], run["total.weight_ready"], 9);
        Assert.Equal(run["total.weight_ready"] + 340 * Pound, run["total.weight_camped"], 9);
        Assert.Equal(run["total.weight_camped"], run["total.weight_raised"], 9);
    }
}
