using Wain.Core.Engineering;
using Wain.Core.Takeoff;
using static Wain.Tests.Engineering.ModelSpecs;

namespace Wain.Tests.Engineering;

/// <summary>Weight by state, centres, axle loads and lifts of whole specs.</summary>
public class ModelBalanceTests
{
    /// <summary>Told of a material that weighs nothing, as a textbook has it.</summary>
    private const string Weightless = "WN4127";

    private static string Load(string name, double kg, string at, string more = "") => $"load {name} {{\n weighs {kg} kg\n at {at}\n{more}}}\n";

    private const string Truck = "carrier truck {{\n wheelbase 208 in\n front_axle at 100 in\n empty front 2000 kg rear 1500 kg weighed 2026-01-01\n track 1.6 m\n{0}}}\n";

    private static string OnTruck(string facts) => string.Format(System.Globalization.CultureInfo.InvariantCulture, Truck, facts);

    /// <summary>
    /// A body of 5000 lb on a wheelbase of 208 in, its centre 28.2 in ahead of the rear axle, puts 4322 lb on the rear and 678 lb on the front axle: a published example of a
    /// trade page on axle weights. Here the body is a deck of almost no weight and one load.
    /// </summary>
    [Fact]
    public void Axle_loads_follow_the_published_body()
    {
        var run = Of(Ply.Replace("density 600 kg/m3 from 550 kg/m3 to 700 kg/m3", "density 0.001 kg/m3", StringComparison.Ordinal) + Deck("deck", "skin", "1 m", "1 m") + "load body {\n weighs 5000 lb\n at (100 in - 208 in + 28.2 in, 0 in, 20 in)\n}\n" + OnTruck(""), Weightless);
        const double pound = 0.45359237;
        Assert.Equal(4322, (run.Figure("truck.rear_axle_load_ready") - 1500) / pound, 0);
        Assert.Equal(678, (run.Figure("truck.front_axle_load_ready") - 2000) / pound, 0);
    }

    /// <summary>Areas 4.5, 9 and -2 with centroids (1, 1), (-1.5, 1.5), (-2.5, 2) have theirs at (-0.348, 1.22): Hibbeler, Statics, example 9.10, from memory. Here as loads, the hole as one taken out of the others.</summary>
    [Fact]
    public void Centre_of_loads_follows_the_textbook()
    {
        var run = Of(Ply.Replace("density 600 kg/m3 from 550 kg/m3 to 700 kg/m3", "density 0.0000001 kg/m3", StringComparison.Ordinal) + Deck("deck", "skin", "1 m", "1 m")
            + Load("triangle", 4.5, "(1 m, 1 m, 0 m)") + Load("rectangle", 7, "(-(1.5 * 9 - 2.5 * 2) / 7 * 1 m, (1.5 * 9 - 2 * 2) / 7 * 1 m, 0 m)"), Weightless);
        Assert.Equal(-0.348, run.Figure("total.centre_x_ready"), 3);
        Assert.Equal(1.22, run.Figure("total.centre_y_ready"), 2);
    }

    /// <summary>A floor and a lid of 7.2 kg each, 1 m square. Opened by a quarter turn about its front edge the lid stands upright there: its centre is 0.5 m over the hinge, its free edge 1 m, by hand.</summary>
    [Fact]
    public void A_hinged_lid_that_is_open_weighs_where_it_stands()
    {
        var run = Of(Ply + Deck("deck", "skin", "1 m", "1 m") + Deck("lid", "skin", "1 m", "1 m", top: "762 mm") + "load sleeper {\n weighs 7.2 kg\n people 1\n on lid\n at (-0.5 m, 0 m, 756 mm)\n when camped\n when raised\n}\n"
            + "lift flap {\n carries { lid }\n hinged at (0 m, 500 mm, 756 mm) to (0 m, -500 mm, 756 mm), opens 90 deg\n}\n" + OnTruck(" bed_floor 800 mm\n"));
        Assert.Equal(0.8 + 0.762, run.Figure("truck.height_closed"), 1e-9);
        Assert.Equal(0.8 + 1.756, run.Figure("truck.height_raised"), 1e-9);
        Assert.Equal(-0.5, run.Figure("total.centre_x_camped"), 1e-9);
        Assert.Equal(-0.5 / 3, run.Figure("total.centre_x_raised"), 1e-9);
        Assert.Equal((-0.006 + 2 * 1.256) / 3, run.Figure("total.centre_z_raised"), 1e-9);
        // Two of the three stand over the hinge, 100 in behind the front axle of a wheelbase of 208 in; the third half a metre farther aft.
        Assert.Equal(1500 + 7.2 * (3 * 100 + 500 / 25.4) / 208, run.Figure("truck.rear_axle_load_raised"), 1e-6);
    }

    /// <summary>By hand: 30 kg and its mirror over a deck of almost no weight lie together on the centre line, 60 kg in all; a tank's mirror is as full, and what lies on the left locker has its mirror on the right one.</summary>
    [Fact]
    public void The_mirror_of_a_load_weighs_as_much_on_the_other_side()
    {
        string deck = Ply.Replace("density 600 kg/m3 from 550 kg/m3 to 700 kg/m3", "density 0.0000001 kg/m3", StringComparison.Ordinal) + Deck("deck", "skin", "1 m", "1 m");
        string locker = "panel left_locker of skin {\n through (0 m, 0.4 m, 0.5 m) along (0 m, 0.2 m, 0.5 m) up (0.2 m, 0.4 m, 0.5 m)\n}\nmirror left_locker as right_locker\n";
        var run = Of(deck + locker + Load("left_bag", 30, "(-0.5 m, 0.4 m, 0.1 m)", " on left_locker\n") + "mirror left_bag as right_bag\nload left_tank {\n full 10 l\n at (-0.5 m, 0.4 m, 0.1 m)\n when ready 50 %\n}\nmirror left_tank as right_tank\n", Weightless);
        Assert.Equal(30, run.Figure("right_bag.weight"), 1e-9);
        Assert.Equal(run.Figure("left_tank.weight"), run.Figure("right_tank.weight"), 1e-12);
        Assert.Equal(60, run.Figure("total.weight_dry"), 1e-3);
        Assert.Equal(60 + run.Figure("left_tank.weight"), run.Figure("total.weight_ready"), 1e-3);
        Assert.Equal(0, run.Figure("total.centre_y_ready"), 1e-6);
        Assert.Equal("right_locker", run.Design!.Takeoff.Loads.Single(l => l.Name == "right_bag").On);
    }

    /// <summary>A floor of 2 m by 2 m of almost no weight and a load of 100 kg whose centre lies 1.5 m over it; straps at the corners lean by 3 in 4 (3-4-5 triangles), forward ones forward.</summary>
    private static Wain.Core.Compilation Strapped(string facts, string materials = "") =>
        Of(Ply.Replace("density 600 kg/m3 from 550 kg/m3 to 700 kg/m3", "density 0.0000001 kg/m3", StringComparison.Ordinal) + materials + Deck("floor", "skin", "2 m", "2 m", top: "12 mm", front: "1 m") + Load("box", 100, "(0 m, 0 m, 1.5 m)") + OnTruck(facts), Weightless);

    private const string Leaning = """
         tie_down front_left at (1.3 m, 1 m, 0 m), to (1 m, 1 m, 0.4 m), rated 500 N
         tie_down front_right at (1.3 m, -1 m, 0 m), to (1 m, -1 m, 0.4 m), rated 500 N
         tie_down rear_left at (-1.3 m, 1 m, 0 m), to (-1 m, 1 m, 0.4 m), rated 500 N
         tie_down rear_right at (-1.3 m, -1 m, 0 m), to (-1 m, -1 m, 0.4 m), rated 500 N

        """;

    /// <summary>
    /// By hand, W = 980.665 N. Braking at 0.8 g slides with 784.5 N, borne by the two rear straps at 3/5: 653.8 N each. It tips with W (0.8 x 1.5 - 1) = 196 N m about the front
    /// edge, to which rear straps have an arm of 2 x 4/5 + 0.4 x 3/5 = 1.84 m. Front straps start 0.4 m over that edge and slacken. Upward, a fifth of W on four at 4/5: 61.3 N.
    /// </summary>
    [Fact]
    public void Straps_hold_along_their_own_lines()
    {
        var run = Strapped(Leaning);
        const double weight = 980.665;
        Assert.Equal(weight * 0.8 / 1.2, run.Figure("truck.tie_down_force_braking"), 2);
        Assert.Equal(weight * 0.5 / 1.2, run.Figure("truck.tie_down_force_speeding_up"), 2);
        Assert.Equal(weight * 0.2 / 3.2, run.Figure("truck.tie_down_force_upward"), 2);
        var braking = run.Engineering().Balance!.TieDowns.Single(t => t.Direction == "braking");
        Assert.Equal(weight * 0.2 / 3.68, braking.Straps.Single(s => s.Name == "rear_left").Tip!.Value, 2);
        Assert.Equal(0, braking.Straps.Single(s => s.Name == "front_left").Tip!.Value, 9);
        Assert.Equal(1 / 1.5, braking.TipsAt!.Value, 4);
        Assert.Contains(run.Findings, f => f.Code == "WN6112" && f.Message.Contains("147 lbf of rear_left", StringComparison.Ordinal));
        // Nothing leans to a side: that is said, and no force is made of it.
        Assert.Contains("turning left at 0.5 g no strap holds against sliding, so 110 lbf is left to the bed", Assert.Single(run.Findings, f => f.Code == "WN6113").Message, StringComparison.Ordinal);
        Assert.Equal("no strap holds against sliding", run.Design!.Figures.FindMissing("truck.tie_down_force_turning_left")!.Reason);
    }

    /// <summary>Stated loads take the place of those of the rule, and the weakest of a point and what is bought for it is what counts.</summary>
    [Fact]
    public void Stated_loads_and_the_weakest_part_count()
    {
        const string bought = "hardware hook {\n kind tie_down\n weight 1 kg\n rated 300 N\n price 1 USD per each on 2026-01-01\n}\n";
        var run = Strapped(Leaning.Replace("rated 500 N", "rated 500 N, with hook", StringComparison.Ordinal) + " tie_down_loads forward 0.4 rear 0.4 side 0.25 up 0.2\n", bought);
        double weight = 980.665 + 4 * 9.80665;
        Assert.Equal(weight * 0.4 / 1.2, run.Figure("truck.tie_down_force_braking"), 2);
        Assert.Contains(run.Findings, f => f.Code == "WN6112" && f.Message.Contains("is rated 67 lbf", StringComparison.Ordinal));
        Assert.Equal(4, run.Figure("hook.need"), 9);
    }

    /// <summary>A point that names no place on the camper is held straight up its side: against tipping and lifting, not against sliding. Its arm is the way to the far edge.</summary>
    [Fact]
    public void A_strap_straight_up_holds_no_sliding()
    {
        var run = Strapped(" tie_down left at (-1 m, 1 m, 0 m)\n tie_down right at (-1 m, -1 m, 0 m)\n");
        Assert.Equal(980.665 * 0.2 / 4, run.Figure("truck.tie_down_force_braking"), 2);
        Assert.Contains("braking at 0.8 g no strap holds against sliding", Assert.Single(run.Findings, f => f.Code == "WN6113").Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_strap_without_length_is_told()
    {
        var told = Assert.Single(Compile(Ply + Deck("floor", "skin", "2 m", "2 m") + OnTruck(" tie_down left at (-1 m, 1 m, 0 m), to (-1 m, 1 m, 0 m)\n")).Findings, f => f.Code == "WN6002");
        Assert.Contains("both its ends at one place", told.Message, StringComparison.Ordinal);
    }

    /// <summary>By hand, in boxes: a wall of 1000 by 600 by 20 mm less a window of 300 by 200, its recess of 400 by 300 that is 10 mm deep from outside, and a rabbet of 100 mm by 10 mm along its left from inside.</summary>
    [Fact]
    public void What_is_cut_out_of_a_wall_moves_its_centre()
    {
        var run = Of("""
            sheet heavy { thickness 20 mm
                size 2 m by 3 m
                density 500 kg/m3 }
            stack board { sheet heavy }
            panel wall of board {
                through (0 mm, 0 mm, 0 mm) along (0 mm, 1000 mm, 0 mm) up (0 mm, 0 mm, 600 mm)
                opening window { size 300 mm by 200 mm
                    lower left at (600 mm, 300 mm)
                    recessed 10 mm, margin 50 mm
                    unframed }
                rabbet left 100 mm by 10 mm from inside
            }
            """, "WN4109");
        (double Volume, double Y, double Z, double Deep)[] boxes = [(1000 * 600 * 20, 500, 300, 10), (-300 * 200 * 20, 750, 400, 10), (-(400 * 300 - 300 * 200) * 10, 750, 400, 5), (-100 * 600 * 10, 50, 300, 15)];
        double whole = boxes.Sum(b => b.Volume);
        Assert.Equal(boxes.Sum(b => b.Volume * b.Y) / whole / 1000, run.Figure("wall.centre_y"), 9);
        Assert.Equal(boxes.Sum(b => b.Volume * b.Z) / whole / 1000, run.Figure("wall.centre_z"), 9);
        Assert.Equal(-boxes.Sum(b => b.Volume * b.Deep) / whole / 1000, run.Figure("wall.centre_x"), 9);
        Assert.Equal(whole * 500e-9, run.Figure("wall.weight"), 9);
    }

    /// <summary>Textbook centroid of what lies between a square corner and its arc: r (5/6 - pi/4) / (1 - pi/4) from either side, here along the whole left edge; a rabbet on the same edge leaves less of it to take.</summary>
    [Theory]
    [InlineData(16, 0)]
    [InlineData(16, 8)]
    public void A_rounded_arris_is_missing_where_it_was(double radius, double rabbet)
    {
        var run = Of(FormattableString.Invariant($$"""
            sheet heavy { thickness 20 mm
                size 2 m by 3 m
                density 500 kg/m3 }
            stack board { sheet heavy }
            panel wall of board {
                through (0 mm, 0 mm, 0 mm) along (0 mm, 1000 mm, 0 mm) up (0 mm, 0 mm, 600 mm)
                rounded left {{radius}} mm
                {{(rabbet > 0 ? $"rabbet left 20 mm by {rabbet} mm" : "")}}
            }
            """));
        double arris = 0, alongArris = 0, deepArris = 0;
        // A million slices of the arc, less what the rabbet has taken: its 20 mm by its depth from the outside.
        for (int i = 0; i < 1_000_000; i++)
        {
            double d = radius * (i + 0.5) / 1_000_000, back = radius - Math.Sqrt(radius * radius - (radius - d) * (radius - d)), from = d < rabbet ? Math.Min(20, back) : 0;
            (arris, alongArris, deepArris) = (arris + (back - from), alongArris + (back - from) * (back + from) / 2, deepArris + (back - from) * d);
        }
        double slice = radius / 1_000_000;
        (arris, alongArris, deepArris) = (arris * slice, alongArris * slice, deepArris * slice);
        double middle = radius * (5.0 / 6 - Math.PI / 4) / (1 - Math.PI / 4);
        if (rabbet == 0) Assert.Equal(middle, alongArris / arris, 3);
        double whole = 1000 * 20 - 20 * rabbet - arris;
        Assert.Equal((1000 * 20 * 500 - 20 * rabbet * 10 - alongArris) / whole / 1000, run.Figure("wall.centre_y"), 8);
        Assert.Equal(-(1000 * 20 * 10 - 20 * rabbet * rabbet / 2 - deepArris) / whole / 1000, run.Figure("wall.centre_x"), 8);
        Assert.Equal(whole * 600 * 500e-9, run.Figure("wall.weight"), 5);
    }

    /// <summary>Plain arithmetic: a plate of 1 m by 1 m by 12 mm at 600 kg/m3 weighs 7.2 kg, its middle 6 mm under its top.</summary>
    [Fact]
    public void A_plate_has_its_centre_in_its_middle()
    {
        var run = Of(Ply + Deck("deck", "skin", "1 m", "1 m", top: "100 mm", front: "200 mm"));
        Assert.Equal(-0.3, run.Figure("deck.centre_x"), 9);
        Assert.Equal(0, run.Figure("deck.centre_y"), 9);
        Assert.Equal(0.094, run.Figure("deck.centre_z"), 9);
        Assert.Equal(7.2, run.Engineering().Masses.States[LoadState.Dry].Weight.Likely, 9);
    }

    /// <summary>Two plates and their halves: what one scale says moves the centre toward what is heavier, and the scale's panel spreads no more.</summary>
    [Fact]
    public void What_is_weighed_takes_over()
    {
        string two = Ply + Deck("a", "skin", "1 m", "1 m", front: "1 m") + Deck("b", "skin", "1 m", "1 m");
        var estimated = Of(two);
        Assert.Equal(0, estimated.Figure("total.centre_x_dry"), 9);
        var run = Of(two + "built a { weighed 21.6 kg }\n");
        Assert.Equal((21.6 * 0.5 - 7.2 * 0.5) / 28.8, run.Figure("total.centre_x_dry"), 9);
        Assert.Equal(21.6 + 8.4, run.Engineering().Masses.States[LoadState.Dry].Weight.High, 9);
        Assert.Equal(run.Figure("total.weight_dry"), run.Engineering().Masses.States[LoadState.Dry].Weight.Likely, 9);
    }

    /// <summary>The low and high centre hold every corner of the spreads (an independent method: the spread worked by brute force).</summary>
    [Fact]
    public void Spread_of_the_centre_agrees_with_brute_force()
    {
        var run = Of(Ply + Deck("deck", "skin", "1 m", "1 m") + "load gear {\n weighs 5 kg from 4.9 kg to 5.1 kg\n at (1 m, 0 m, 0 m)\n}\n");
        double Centre(double deck, double gear) => (-0.5 * deck + gear) / (deck + gear);
        // First order: half the change from low to high of each cause, the squares added.
        double likely = Centre(7.2, 5);
        double byDeck = Centre(6.6, 5) - likely, byGear = Centre(7.2, 5.1) - likely;
        double high = run.Design!.Figures.Find("total.centre_x_dry")!.High!.Value.Value;
        Assert.InRange(high, likely + 0.9 * Math.Sqrt(byDeck * byDeck + byGear * byGear), likely + 1.1 * Math.Sqrt(byDeck * byDeck + byGear * byGear));
    }

    [Fact]
    public void Every_limit_is_told_on_its_own_terms()
    {
        string facts = " gross_vehicle_rating 3600 kg\n placard_payload 250 kg\n cargo_rating 150 kg\n people 2 75 kg at 40 in\n";
        var run = Of(Ply + Deck("deck", "skin", "1 m", "1 m") + Load("gear", 100, "(-1 m, 0 m, 0 m)") + OnTruck(facts), "WN6110");
        // 3500 empty, 150 people, 107.2 cargo: over the gross rating and the placard, within the cargo rating, which leaves people out.
        var told = run.Findings.Where(f => f.Code == "WN6110").Select(f => f.Subject).Order(StringComparer.Ordinal);
        Assert.Equal("truck.gvwr truck.placard_payload", string.Join(" ", told));
        Assert.Equal(150 - 107.2, run.Figure("truck.cargo_weight_rating_margin_ready"), 9);
    }

    [Fact]
    public void People_leave_the_cab_for_the_bunk()
    {
        var run = Of(Ply + Deck("deck", "skin", "1 m", "1 m") + Load("sleepers", 150, "(0 m, 0 m, 0.5 m)", " people 2\n when camped\n") + OnTruck(" people 2 75 kg at 40 in\n"));
        Assert.Equal(run.Figure("truck.gross_load_ready"), run.Figure("truck.gross_load_camped"), 6);
        Assert.True(run.Figure("truck.front_axle_load_ready") > run.Figure("truck.front_axle_load_camped"));
    }

    [Fact]
    public void A_truck_without_a_track_loses_its_wheels_alone()
    {
        var run = Of(Ply + Deck("deck", "skin", "1 m", "1 m") + OnTruck(" tyre_rating 1000 kg each\n").Replace(" track 1.6 m\n", "", StringComparison.Ordinal));
        Assert.Contains(run.Findings, f => f.Code == "WN6101" && f.Subject == "truck.track");
        Assert.True(run.Figure("truck.rear_axle_load_ready") > 1500);
        Assert.DoesNotContain(run.Engineering().Balance!.States.SelectMany(s => s.Limits.Checks), c => c.Name.Contains("tyre", StringComparison.Ordinal));
    }

    /// <summary>49 CFR 575.103 speaks of slide-in campers alone.</summary>
    [Fact]
    public void On_the_chassis_the_rule_does_not_apply()
    {
        var run = Of(Ply + Deck("deck", "skin", "1 m", "1 m") + OnTruck(" kind subframe\n"));
        var table = run.Engineering().Tables.Single(t => t.Key == "slide_in");
        Assert.Contains("does not apply", ((Wain.Core.Reporting.Cell.Words)table.Rows[0].Cells[1]).Value, StringComparison.Ordinal);
        Assert.DoesNotContain(run.Engineering().Tables, t => t.Key == "limits");
        Assert.Contains(run.Engineering().Tables, t => t.Key == "axles");
        Assert.Contains(Of(Ply + Deck("deck", "skin", "1 m", "1 m") + OnTruck(" gross_vehicle_rating 5000 kg\n")).Engineering().Tables, t => t.Key == "limits");
    }

    private static string Lift(string struts, string more = "") => Ply + Deck("roof", "skin", "2 m", "2 m", top: "1 m", front: "1 m") +
        "hardware strut_hardware {\n kind strut\n weight 1 g\n price 1 USD per each on 2026-01-01\n force 100 N at 120 N\n stroke 600 mm\n}\nlift up {\n carries { roof }\n travel 500 mm\n" +
        string.Concat(new[] { (1, 1), (1, -1), (-1, -1), (-1, 1) }.Select((p, i) => $" lifted at corner{i} ({p.Item1} m, {p.Item2} m, 1 m)\n")) + struts + more + "}\n";

    /// <summary>Statics: a square plate on four corners puts a quarter on each; with one gone the centre lies on the line between two others, and it drops.</summary>
    [Fact]
    public void Four_corners_share_alike()
    {
        var lift = Assert.Single(Of(Lift("")).Engineering().Lifts);
        double quarter = 4 * 0.012 * 600 * 9.80665 / 4;
        Assert.All(lift.Forces!.Elastic, f => Assert.Equal(quarter, f, 6));
        Assert.All(lift.Forces.Failures, f => Assert.True(f.Falls));
    }

    /// <summary>
    /// Upright gas springs of 100 N extended and 120 N compressed by their stroke of 600 mm: with 500 mm of travel and extended at its end they give
    /// 100 (1 + 0.2 x 500/600) = 116.67 N each when closed. Linear progression, common practice.
    /// </summary>
    [Fact]
    public void Struts_give_by_their_travel()
    {
        string struts = string.Concat(new[] { (1, 1), (1, -1), (-1, -1), (-1, 1) }.Select((p, i) => $" strut s{i} strut_hardware from ({p.Item1} m, {p.Item2} m, 0.4 m) to ({p.Item1} m, {p.Item2} m, 1 m)\n"));
        var run = Of(Lift(struts, " margin 50 %\n hand_force at most 100 N\n"));
        var lift = Assert.Single(run.Engineering().Lifts);
        Assert.Equal(4 * 116.6667, lift.Steps[0].Struts, 2);
        Assert.Equal(400, lift.Steps[^1].Struts, 6);
        double weight = 4 * 0.012 * 600 * 9.80665;
        Assert.Equal(400 / weight - 1, lift.Margin!.Value, 6);
        // 1.5 / 1.4163 = 1.059 and 1.505 / 1.4163 = 1.0626: what is told is enough, never a hair less.
        Assert.Contains("1.06 times", Assert.Single(run.Findings, f => f.Code == "WN6203").Hint);
        Assert.Contains("1.07 times", Assert.Single(Of(Lift(struts, " margin 50.5 %\n")).Findings, f => f.Code == "WN6203").Hint);
        Assert.Contains(run.Findings, f => f.Code == "WN6205" && f.Message.Contains("lower", StringComparison.Ordinal));
        Assert.Contains(run.Engineering().Cautions, c => c.Contains("not propped", StringComparison.Ordinal));
    }

    /// <summary>What is lifted rises by the travel: the centre of the raised state lies higher by the lifted share of it.</summary>
    [Fact]
    public void Raised_lifts_the_centre()
    {
        var run = Of(Lift("") + Deck("floor", "skin", "2 m", "2 m", top: "0 m", front: "1 m"));
        Assert.Equal(0.25, run.Figure("total.centre_z_raised") - run.Figure("total.centre_z_camped"), 9);
    }
}
