using Wain.Core.Framing;
using static Wain.Core.Methods.Customary;
using static Wain.Tests.Takeoff.TakeoffSpecs;

namespace Wain.Tests.Takeoff;

public class FrameTakeoffTests
{
    // 1x2 is 3/4 in by 1 1/2 in: American Softwood Lumber Standard PS 20. Air-dry Douglas fir 34 lb/ft3: Wood Handbook, table 5-3.
    private const string Fir = "stick strip {\n section 3/4 in by 1 1/2 in called \"1x2\"\n length 8 ft\n density 34 lb/ft3\n price 4 USD per each on 2026-01-05\n}\n";
    private const string Glue = "adhesive glue {\n spread 200 g/m2\n}\n";

    private static string Framed(string fill, string materials = "") => Ply + Fir + Glue + materials + $"stack framed {{\n sheet ply glued with glue\n core frame of strip flat{fill}\n sheet ply glued with glue\n}}\n";

    /// <summary>Plain arithmetic: a rectangle's frame of flat 1 1/2 in members has rails of full length and stiles between them.</summary>
    [Fact]
    public void MembersByLengthAndWeight()
    {
        var run = Of(Framed("") + Deck("deck", "framed", "96 in", "48 in"));
        double inches = 2 * 96 + 2 * (48 - 3);
        double either = 2 * 48 + 2 * (96 - 3);
        double length = run["deck.strip.length"] / 0.0254;
        Assert.True(Math.Abs(length - inches) < 1e-6 || Math.Abs(length - either) < 1e-6, $"{length}");
        Assert.Equal(length * 0.75 * 1.5 / 1728 * 34, run["deck.strip.weight"] / Pound, 9);
        Assert.Equal(4, run["deck.strip.members"]);
    }

    /// <summary>Sticks that each take more than half a length can't come out of one: four members, 8 ft sticks, and yet three would do by length.</summary>
    [Fact]
    public void LongMembersNeedTheirOwnStick()
    {
        var run = Of(Framed("") + Deck("deck", "framed", "60 in", "60 in"));
        Assert.Equal(4, run["strip.packs"]);
    }

    /// <summary>Skins on a frame are glued where they touch: the members alone over poured foam, members and boards over boards.</summary>
    [Fact]
    public void GlueGoesWhereFacesTouch()
    {
        string foam = "foam pour {\n density 2 lb/ft3\n}\nboard xps {\n thickness 3/4 in\n size 48 in by 96 in\n density 25 kg/m3\n}\n";
        var poured = Of(Framed(", filled with pour", foam) + Deck("deck", "framed", "96 in", "48 in"));
        var boards = Of(Framed(", filled with xps", foam) + Deck("deck", "framed", "96 in", "48 in"));
        double members = FrameBuilder.Build(poured.Structure).Members.Sum(m => m.Area) / 1e6;
        Assert.Equal(members, poured["deck.glue.area"], 9);
        Assert.Equal(members, poured["deck.glue_2.area"], 9);
        Assert.Equal(2.97289728, boards["deck.glue.area"], 9);
        Assert.Equal(members * 0.2, poured["deck.glue.mass"], 9);
        Assert.Equal(members * 0.2 * 1.1, poured["deck.glue.need"], 9);
    }

    /// <summary>Solid, board and member share the frame layer: their volumes add up to area times depth.</summary>
    [Fact]
    public void FrameLayerIsFull()
    {
        string foam = "board xps {\n thickness 3/4 in\n size 48 in by 96 in\n density 25 kg/m3\n}\n";
        var run = Of(Framed(", filled with xps", foam) + Deck("deck", "framed", "90 in", "40 in", " frame {\n  studs every 16 in\n }\n opening hatch {\n  size 14 in by 10 in\n  centred at (20 in, 45 in)\n }\n"));
        Assert.Equal((90 * 40 - 140) * 0.75 * Math.Pow(0.0254, 3), run["deck.strip.volume"] + run["deck.xps.volume"], 9);
    }

    /// <summary>Kit yield is weight over density: 16 lb of 2 lb/ft3 foam rise to 8 ft3, and with three tenths over-packed fill 6.15 ft3 (yield by common practice).</summary>
    [Theory]
    [InlineData(0, 8)]
    [InlineData(0.3, 6.1538)]
    public void PourFoamByCavity(double overpack, double foot3)
    {
        string foam = $"foam pour {{\n free_rise 2 lb/ft3\n overpack {overpack.ToString(System.Globalization.CultureInfo.InvariantCulture)}\n density 2.4 lb/ft3\n sold by kit of 16 lb\n price 150 USD per kit on 2026-01-05\n}}\n";
        var run = Of(Framed(", filled with pour", foam) + Deck("deck", "framed", "96 in", "48 in"));
        double volume = run["deck.pour.volume"] / Math.Pow(0.3048, 3);
        Assert.Equal(16 * volume / foot3, run["deck.pour.mass"] / Pound, 1e-4);
        Assert.Equal(1, run["pour.packs"]);
    }

    /// <summary>What joins members is counted by the meetings of the frame.</summary>
    [Fact]
    public void MeetingsTakeScrews()
    {
        var run = Of(Framed("", "screw pocket {\n kind pocket_screw\n length 1 1/4 in\n weight 3 g\n sold by box of 100\n}\n") + Deck("deck", "framed", "96 in", "48 in", " frame {\n  joined with pocket 2 each, glued with glue\n }\n"));
        var meetings = FrameBuilder.Build(run.Structure).All[0].Meetings;
        Assert.Equal(meetings.Sum(m => m.Count), run["deck.pocket.count"]);
        Assert.Equal(8, run["deck.pocket.count"]);
        Assert.Equal(0.024, run["deck.pocket.weight"], 9);
        Assert.Equal(1, run["pocket.packs"]);
    }
}
