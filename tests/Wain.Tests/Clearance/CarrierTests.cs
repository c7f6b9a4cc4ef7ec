using Wain.Core;
using Wain.Core.Checks;
using Wain.Core.Findings;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Text;

namespace Wain.Tests.Clearance;

/// <summary>The camper going into a bed, onto a flatbed and onto a subframe: a good design and what each single change of it must raise, with amounts by hand. All figures are invented.</summary>
public class CarrierTests
{
    private const double Inch = 25.4;

    // A tub 40 in wide and 70 in long from its underside at 0, and a bunk over the cab whose underside is at 36 in. Boards are 1/2 in thick.
    private const string Camper = """
        sheet ply { thickness 1/2 in
            size 48 in by 96 in
            density 600 kg/m3 }
        stack board { sheet ply }
        stick tube { section 2 in by 3 in
            wall 1/8 in
            length 24 ft
            price 100 USD per piece, on 2026-01-02
            density 7850 kg/m3 }
        hardware bolt_plate { weight 3 lb
            price 9 USD per piece, on 2026-01-02 }
        panel floor of board { through (0 in, 20 in, FLOOR) along (0 in, -20 in, FLOOR) up (-70 in, 20 in, FLOOR) }
        panel bunk of board { through (44 in, 20 in, 36 in) along (44 in, -20 in, 36 in) up (0 in, 20 in, 36 in) }

        """;

    private const string Bed = """
        carrier truck {
            kind bed
            bed 73 in by 54 in, depth 20 in
            wheel_well from -50 in to -22 in, between 42 in, high 9 in
            tailgate open, width 50 in
            side_clearance 1/2 in
            cab roof 31 in, rear 3 in, width 64 in, length 60 in
            cab_clearance 2 in, pitched 1 deg
            tie_down left at (-8 in, 30 in, 0 in), rated 1200 lbf
            tie_down_room 2 in
            jack rear at (-60 in, 38 in, 0 in), room 4 in
        }
        """;

    private static Compilation Compile(string carrier, string floor = "0 in", params (string Old, string New)[] changes)
    {
        string text = Camper.Replace("FLOOR", floor, StringComparison.Ordinal) + carrier;
        foreach (var (old, @new) in changes)
        {
            Assert.Contains(old, text, StringComparison.Ordinal);
            text = text.Replace(old, @new, StringComparison.Ordinal);
        }
        var compiled = Compiler.Compile(new SourceText("carrier.wain", text.ReplaceLineEndings("\n")));
        Assert.NotNull(compiled.Design);
        return compiled;
    }

    private static List<Finding> Told(Compilation compiled) => [.. compiled.Findings.Where(f => f.Code.StartsWith("WN44", StringComparison.Ordinal) && f.Code != RearWindow.Info.Code)];

    [Fact]
    public void A_camper_that_goes_in_raises_nothing() => Assert.Empty(Told(Compile(Bed)));

    [Theory]
    // 54 in made 40 1/2 in: 1/4 in to each side where 1/2 in is asked for.
    [InlineData("bed 73 in by 54 in", "bed 73 in by 40 1/2 in", "floor has 1/4 in to the side of the bed; 1/2 in is asked for")]
    [InlineData("between 42 in", "between 39 in", "floor reaches 1/2 in into the wheel well that it must pass")]
    // Wells that lie aft of what is wide are passed by it all the same; wells forward of the whole camper are not.
    [InlineData("from -50 in to -22 in, between 42 in", "from -72 in to -71 in, between 40 in", "floor has 0 in to the wheel well that it must pass")]
    [InlineData("open, width 50 in", "open, width 38 in", "floor reaches 1 in into the tailgate")]
    [InlineData("open, width 50 in", "removed, width 38 in", "floor reaches 1 in into the side of the tailgate's opening")]
    [InlineData("bed 73 in by 54 in", "bed 69 in by 54 in", "floor reaches 1 in into the tailgate", "open, width 50 in", "closed")]
    [InlineData("panel floor of board { through (0 in, 20 in, 0 in) along (0 in, -20 in, 0 in)", "panel floor of board { through (3/4 in, 20 in, 0 in) along (3/4 in, -20 in, 0 in)", "floor reaches 3/4 in into the front of the bed")]
    // The bunk is 36 in up, the roof made 35 in.
    [InlineData("cab roof 31 in", "cab roof 35 in", "has 1 in to it at rest; 2 in is asked for")]
    [InlineData("tie_down left at (-8 in, 30 in", "tie_down left at (-8 in, 21 in", "floor has 1 in to tie-down left; 2 in is asked for")]
    [InlineData("jack rear at (-60 in, 38 in", "jack rear at (-60 in, 23 in", "floor has 3 in to jack rear; 4 in is asked for")]
    public void One_change_raises_one_finding_with_the_amount(string old, string @new, string says, string? alsoOld = null, string? alsoNew = null)
    {
        (string, string)[] changes = alsoOld is null ? [(old, @new)] : [(old, @new), (alsoOld, alsoNew!)];
        var told = Told(Compile(Bed, "0 in", changes));
        Assert.Contains(told, f => f.Message.Contains(says, StringComparison.Ordinal));
        Assert.All(told, f => Assert.Equal(Level.Error, f.Level));
        Assert.All(told, f => Assert.NotNull(f.Hint));
    }

    [Fact]
    public void Wells_forward_of_all_that_is_low_are_not_passed() => Assert.Empty(Told(Compile(Bed, "0 in", ("from -50 in to -22 in, between 42 in", "from 1 in to 2 in, between 40 in"))));

    /// <summary>
    /// Pitched nose down about the front edge of the floor by 4 degrees, the bunk's front lower edge (44 in, 36 in) sinks: by hand z' = 36 cos 4 - 44 sin 4
    /// = 32.84 in, which leaves 1.84 in over a roof at 31 in where 2 in is asked for; at 1 degree it leaves 4.23 in.
    /// </summary>
    [Fact]
    public void Pitched_the_bunk_comes_down_on_the_cab()
    {
        double left = 36 * Math.Cos(4 * Math.PI / 180) - 44 * Math.Sin(4 * Math.PI / 180) - 31;
        Assert.Equal(1.84, left, 0.005);
        var finding = Assert.Single(Told(Compile(Bed, "0 in", ("pitched 1 deg", "pitched 4 deg"))));
        Assert.Equal(FitsCarrier.Cab.Code, finding.Code);
        Assert.Contains("bunk has 1 13/16 in to the cab when pitched 4 deg", finding.Message);
    }

    /// <summary>A flatbed has no sides, but a floor.</summary>
    [Fact]
    public void On_a_flatbed_nothing_reaches_below_the_deck_but_past_its_edge()
    {
        const string flatbed = "carrier truck {\nkind flatbed\nbed 84 in by 60 in\n}\n";
        Assert.Empty(Told(Compile(flatbed)));
        Assert.Contains("floor reaches 3/8 in below the floor that the camper stands on", Assert.Single(Told(Compile(flatbed, "-3/8 in"))).Message);
        // Only the part over the deck counts: what hangs past its rear edge may be lower.
        Assert.Empty(Told(Compile(flatbed, "0 in", ("panel bunk of board { through (44 in, 20 in, 36 in) along (44 in, -20 in, 36 in) up (0 in, 20 in, 36 in) }",
            "panel bumper of board { through (-85 in, 20 in, -6 in) along (-85 in, -20 in, -6 in) up (-89 in, 20 in, -6 in) }"))));
    }

    private const string Subframe = """
        carrier truck {
            kind subframe
            wheelbase 130 in
            front_axle at 90 in
            empty front 2500 lb rear 1800 lb
            cab roof 31 in, rear 6 in, width 64 in, length 60 in
            cab_clearance 2 in
            subframe tube, high 3 in
            member rail_left from (-70 in, 17 in, -1 1/2 in) to (0 in, 17 in, -1 1/2 in)
            member rail_right from (-70 in, -17 in, -1 1/2 in) to (0 in, -17 in, -1 1/2 in)
            member cross from (-35 in, -16 in, -1 1/2 in) to (-35 in, 16 in, -1 1/2 in)
            mount left at (-10 in, 17 in, -3 in), rated 2000 lbf, with bolt_plate
            mount right at (-10 in, -17 in, -3 in), rated 2000 lbf, with bolt_plate
        }
        """;

    [Fact]
    public void A_subframe_that_fits_raises_nothing() => Assert.Empty(Told(Compile(Subframe)));

    [Theory]
    [InlineData("member cross from (-35 in, -16 in, -1 1/2 in) to (-35 in, 16 in, -1 1/2 in)", "member cross from (-35 in, -16 in, -1 1/4 in) to (-35 in, 16 in, -1 1/4 in)", "WN4405", "Tube cross and floor pass through each other by 1/4 in")]
    [InlineData("(-35 in, 16 in, -1 1/2 in)", "(-35 in, 17 in, -1 1/2 in)", "WN4405", "Tubes cross and rail_left pass through each other by 1 in")]
    [InlineData("to (0 in, 17 in, -1 1/2 in)", "to (5 in, 17 in, -1 1/2 in)", "WN4405", "Tube rail_left comes 1 in too near to the cab")]
    [InlineData("high 3 in", "high 2 1/2 in", "WN4405", "reaches 1/2 in below the top of the chassis")]
    [InlineData("mount left at (-10 in, 17 in", "mount left at (-10 in, 12 in", "WN4406", "Mount left is 4 in from the nearest tube, rail_left")]
    public void What_does_not_fit_about_a_subframe_is_told(string old, string @new, string code, string says)
    {
        var told = Told(Compile(Subframe, "0 in", (old, @new)));
        Assert.All(told, f => Assert.Equal(code, f.Code));
        Assert.Contains(told, f => f.Message.Contains(says, StringComparison.Ordinal));
    }

    [Fact]
    public void A_camper_that_floats_over_its_subframe_is_told() =>
        Assert.Contains("1 in from the nearest tube", Assert.Single(Told(Compile(Subframe, "1 in")), f => f.Code == SubframeFits.Bearing.Code).Message);

    /// <summary>
    /// By hand: metal in the section 2 x 3 in with a wall of 1/8 in is 6 - 1.75 x 2.75 = 1.1875 in2; the tubes are 70 + 70 + 32 = 172 in long; steel of
    /// 7850 kg/m3 makes that 26.27 kg. They are level with each other, so their centre is 1 1/2 in below the floor; along, (140 x -35 + 32 x -35) / 172 = -35 in.
    /// </summary>
    [Fact]
    public void Tubes_and_mounts_weigh_are_bought_are_cut_and_are_in_the_balance()
    {
        var design = Compile(Subframe).Design!;
        double kg = 172 * 1.1875 * Inch * Inch * Inch * 1e-9 * 7850;
        Assert.Equal(26.27, kg, 0.005);
        var lines = design.Takeoff.Lines.Where(l => l.Material.Name == "tube").ToList();
        Assert.Equal(kg, lines.Sum(l => l.Weight.Likely), 1e-9);
        Assert.Equal(["truck.cross", "truck.rail_left", "truck.rail_right"], lines.Select(l => l.Subject));
        var without = Compile(string.Join('\n', Subframe.Split('\n').Where(l => !l.Contains("member", StringComparison.Ordinal) && !l.Contains("mount", StringComparison.Ordinal)))).Design!;
        double plates = 2 * 3 * 0.45359237;
        Assert.Equal(kg + plates, design.Figures.Find("total.weight")!.Value.Value - without.Figures.Find("total.weight")!.Value.Value, 1e-9);
        // Moments about the origin: the tubes at -35 in, the plates at -10 in.
        double Moment(Design d) => d.Figures.Find("total.weight_dry")!.Value.Value * d.Figures.Find("total.centre_x_dry")!.Value.Millimetres;
        Assert.Equal((kg * -35 + plates * -10) * Inch, Moment(design) - Moment(without), 1e-6);
        Assert.Contains(design.Takeoff.Buy, b => b.Material.Name == "tube");
        Assert.Contains(design.Takeoff.Buy, b => b.Material.Name == "bolt_plate");
        var cuts = Assert.Single(design.CutLists, c => c.Material == "tube");
        Assert.Equal([("truck.cross", 32 * 2540L), ("truck.rail_left", 70 * 2540L), ("truck.rail_right", 70 * 2540L)], cuts.Parts.Select(p => (p.Mark, p.Length)));
    }

    /// <summary>What a scale says takes over from the tables.</summary>
    [Fact]
    public void A_weighed_subframe_weighs_what_the_scale_says()
    {
        var design = Compile(Subframe, "0 in", ("subframe tube, high 3 in", "subframe tube, weighs 60 lb, high 3 in")).Design!;
        Assert.Equal(60 * 0.45359237, design.Takeoff.Lines.Where(l => l.Material.Name == "tube").Sum(l => l.Weight.Likely), 1e-9);
    }

    /// <summary>The longer side stands upright: a level tube is as high as that, and as wide as the other.</summary>
    [Fact]
    public void A_tube_stands_on_its_narrow_side()
    {
        var tube = Compile(Subframe).Structure!.Subframe.Single(m => m.Name == "rail_left").Solid;
        var size = tube.Bounds.Max - tube.Bounds.Min;
        Assert.True(size.IsNear(new Vec3(70, 2, 3) * Inch, 1e-6), size.ToString());
    }
}
