using Wain.Core.Engineering;
using static Wain.Tests.Engineering.ModelSpecs;

namespace Wain.Tests.Engineering;

/// <summary>What hands and tools must still get at, and what is built already. Rooms for a driver and a hand are common practice.</summary>
public class ModelReachTests
{
    /// <summary>A wall on a deck, screwed from below, and a floor close under the deck that hangs from it by a post.</summary>
    private const string Shop = """
        sheet ply {
            thickness 12 mm
            size 48 in by 96 in
            density 600 kg/m3
        }
        stick strip { section 3/4 in by 1 1/2 in }
        screw deck_screw {
            kind wood_screw
            diameter 0.164 in, root 0.107 in
            length 1 3/4 in
        }
        coating paint {
            coverage 10 m2/l
            density 1200 kg/m3
        }
        stack board { sheet ply }
        stack painted {
            coating paint 1 coats
            sheet ply
            coating paint 1 coats
        }
        stack framed {
            sheet ply
            core frame of strip flat
            sheet ply
        }
        plan deck_plan {
            start at (0 in, 20 in)
            leg left_side run 60 in
            leg front across 40 in
            leg right_side mirror of left_side
            leg rear home, across 40 in
        }
        panel deck of board { covers plan deck_plan, top at 0 in }
        panel floor of board { covers plan deck_plan, top at -4 in }
        panel wall of framed { stands on deck_plan.front, from deck.top to 40 in }
        panel post of board { spans from (10 in, -10 in) to (10 in, 10 in), standing on floor.top, up to deck.bottom }
        joint wall.bottom to deck.top {
            butt
            screws deck_screw every 8 in, driven from SIDE
        }
        joint post.bottom to floor.top { butt }

        """;

    private static string Driven(string side) => Shop.Replace("SIDE", side, StringComparison.Ordinal);

    private static List<string> Order(Wain.Core.Compilation run) => [.. run.Engineering().Work.Steps.Select(s => s.Step.Key)];

    [Fact]
    public void Screws_are_driven_before_their_side_is_closed()
    {
        var run = Of(Driven("below"));
        var order = Order(run);
        // By name the post would come first: "post" is before "wall".
        Assert.True(order.IndexOf("wall.bottom to deck.top.fit") < order.IndexOf("post.bottom to floor.top.fit"));
        Assert.DoesNotContain(run.Findings, f => f.Code is "WN6701" or "WN6703");
    }

    [Fact]
    public void What_is_fitted_already_closes_the_side()
    {
        var run = Of(Driven("below") + "built floor { fitted on 2026-05-04 }\nbuilt post { fitted on 2026-05-04 }\n");
        var told = Assert.Single(run.Findings, f => f.Code == "WN6703");
        Assert.Contains("floor closes that side", told.Message, StringComparison.Ordinal);
        Assert.Contains("wall.bottom to deck.top", told.Message, StringComparison.Ordinal);
    }

    /// <summary>Two floors that each close the other's screws: neither order will do.</summary>
    [Fact]
    public void A_circle_of_closed_sides_is_told_as_such()
    {
        string both = Driven("below").Replace("joint post.bottom to floor.top { butt }", "joint post.bottom to floor.top {\n butt\n screws deck_screw every 8 in, driven from below\n}\npanel low of board { covers plan deck_plan, top at -8 in }\n"
            + "panel leg of board { spans from (30 in, -10 in) to (30 in, 10 in), standing on low.top, up to floor.bottom }\njoint leg.top to floor.bottom {\n butt\n screws deck_screw every 8 in, driven from above\n}\njoint leg.bottom to low.top { butt }", StringComparison.Ordinal);
        var run = Of(both);
        // Post to floor from below is closed by the low floor, so it comes before the leg is fitted; leg to floor from above is closed by the deck, which the wall is fitted to first.
        var told = run.Findings.Where(f => f.Code == "WN6703").ToList();
        Assert.Single(told);
        Assert.DoesNotContain(run.Findings, f => f.Code == "WN6701");
        Assert.Equal(run.Engineering().Work.Steps.Length, Order(run).Distinct().Count());
        Assert.Contains("wall.bottom to deck.top.fit", Order(run));
    }

    [Fact]
    public void Screws_from_within_a_closed_panel_are_told()
    {
        var told = Assert.Single(Compile(Driven("above")).Findings, f => f.Code == "WN6703");
        Assert.Contains("from within wall", told.Message, StringComparison.Ordinal);
    }

    private static string Slot(string gap) => Driven("below").Replace("panel post", $"panel first of painted {{ spans from (40 in, -15 in) to (40 in, 15 in), standing on deck.top, up to 20 in }}\n"
        + $"panel second of painted {{ spans from (40 in - {gap}, -15 in) to (40 in - {gap}, 15 in), standing on deck.top, up to 20 in }}\njoint first.bottom to deck.top {{ butt }}\njoint second.bottom to deck.top {{ butt }}\npanel post", StringComparison.Ordinal);

    [Fact]
    public void A_face_that_will_be_covered_is_coated_before()
    {
        var narrow = Of(Slot("2 in"));
        Assert.True(Order(narrow).IndexOf("first.coat") < Order(narrow).IndexOf("first.bottom to deck.top.fit"));
        Assert.Contains("second will cover it", narrow.Engineering().Work.Steps.Single(s => s.Step.Key == "first.coat").Step.Note, StringComparison.Ordinal);
        Assert.DoesNotContain(narrow.Findings, f => f.Code is "WN6701" or "WN6704");
        var wide = Of(Slot("12 in"));
        Assert.True(Order(wide).IndexOf("first.coat") > Order(wide).IndexOf("first.bottom to deck.top.fit"));
    }

    [Fact]
    public void A_face_that_is_covered_already_is_told()
    {
        string fitted = string.Concat(new[] { "first", "second", "deck" }.Select(p => $"built {p} {{ fitted on 2026-05-04 }}\n"));
        var told = Of(Slot("2 in") + fitted).Findings.Where(f => f.Code == "WN6704").Select(f => f.Subject).ToList();
        Assert.Equal(["first.coat", "second.coat"], told.Order(StringComparer.Ordinal));
        Assert.DoesNotContain(Of(Slot("12 in") + fitted).Findings, f => f.Code == "WN6704");
    }

    [Fact]
    public void What_is_built_leaves_the_plan_and_is_shown_as_done()
    {
        var run = Of(Driven("below") + "built wall { glued on 2026-05-02 }\nbuilt floor { fitted on 2026-05-04 }\nbuilt post { fitted on 2026-05-03 }\n", "WN6703");
        var work = run.Engineering().Work;
        Assert.DoesNotContain(work.Steps, s => s.Step.Subject is "wall" or "floor" or "post" or "post.bottom to floor.top");
        Assert.Contains(work.Done, d => d.Step.Key == "wall.close" && d.How == "glued on 2026-05-02");
        Assert.Contains(work.Done, d => d.Step.Key == "post.bottom to floor.top.fit");
        Assert.Contains(work.Steps, s => s.Step.Key == "wall.bottom to deck.top.fit");
        Assert.Equal(work.Steps.Sum(s => s.Step.Hours), work.Hours, 9);
        var row = run.Engineering().Tables.Single(t => t.Key == "work").Rows.Single(r => r.Key == "wall.close");
        Assert.Contains(row.Cells, c => c is Wain.Core.Reporting.Cell.Words { Value: "done: glued on 2026-05-02" });
    }

    /// <summary>A lid of 7.2 kg is more than one person of 5 kg lifts, when it is set on as a whole.</summary>
    [Fact]
    public void What_a_lift_carries_is_set_on_last()
    {
        var run = Of(Ply + Deck("deck", "skin", "1 m", "1 m") + Deck("lid", "skin", "1 m", "1 m", top: "30 in") + "lift raise {\n carries { lid }\n travel 18 in\n}\nshop {\n person lifts 5 kg\n people 1\n}\n", "WN6601");
        Assert.Equal("raise.set", Order(run)[^1]);
        Assert.Contains(run.Findings, f => f.Code == "WN6601" && f.Message.StartsWith("What raise carries", StringComparison.Ordinal));
    }

    /// <summary>
    /// A lid of 7.2 kg (70.6 N) on four upright springs of 20 N at its corners. With one gone 60 N are left, 10.6 N short, and the couple about the centre is that of the missing 20 N at half a
    /// metre each way: 20 x 0.5 x sqrt 2 = 14.1 N m (statics). Springs of 30 N leave 90 N and hold; an actuator holds where it stands.
    /// </summary>
    [Theory]
    [InlineData("strut", 20, true)]
    [InlineData("strut", 30, false)]
    [InlineData("actuator", 20, true)]
    [InlineData("actuator", 30, false)]
    public void One_spring_fails(string kind, int newton, bool sinks)
    {
        string struts = string.Concat(new[] { (0, 500), (0, -500), (-1000, 500), (-1000, -500) }.Select((p, i) => $" strut s{i} gas from ({p.Item1} mm, {p.Item2} mm, 100 mm) to ({p.Item1} mm, {p.Item2} mm, 750 mm)\n"));
        var run = Compile(Ply + Deck("deck", "skin", "1 m", "1 m") + Deck("lid", "skin", "1 m", "1 m", top: "30 in") + $"hardware gas {{\n kind {kind}\n force {newton} N\n stroke 20 in\n}}\nlift raise {{\n carries {{ lid }}\n travel 18 in\n{struts}}}\n");
        var lift = Assert.Single(run.Engineering().Lifts);
        Assert.Equal(sinks ? 4 : 0, run.Findings.Count(f => f.Code == "WN6206"));
        Assert.All(lift.Failures, f => Assert.Equal(sinks, f.Sinks));
        // Actuators bear what they must and no more: a third of the weight each.
        double each = kind == "actuator" ? 7.2 * 9.80665 / 3 : newton;
        Assert.All(lift.Failures, f => Assert.Equal(kind == "actuator" ? 0 : 3 * newton, f.Left, 6));
        Assert.All(lift.Failures, f => Assert.Equal(kind == "actuator" ? each : double.NaN, f.Load ?? double.NaN, 6));
        Assert.All(lift.Failures, f => Assert.Equal(each * 0.5 * Math.Sqrt(2), f.Racking, 3));
    }

    /// <summary>
    /// A lid of 7.2 kg hinged along its front edge, its centre 0.5 m and its free edge 1 m behind it: half its 70.6 N is held at the free edge when it lies flat. Two springs stand upright under
    /// its rear corners, a metre from the hinge. By moments about the hinge the one that is left gives its own force there; it stands half a metre off the middle of the hinge, and so twists it.
    /// </summary>
    [Theory]
    [InlineData("strut", 30, true, 30, null)]
    [InlineData("strut", 40, false, 40, null)]
    [InlineData("actuator", 40, false, 0, 7.2 * 9.80665 / 2)]
    public void One_strut_of_a_hinged_lid_fails(string kind, int newton, bool sinks, double left, double? load)
    {
        string struts = string.Concat(new[] { 500, -500 }.Select((y, i) => $" strut s{i} gas from (-1000 mm, {y} mm, -900 mm) to (-1000 mm, {y} mm, 756 mm)\n"));
        var run = Compile(Ply + Deck("deck", "skin", "1 m", "1 m") + Deck("lid", "skin", "1 m", "1 m", top: "30 in") + $"hardware gas {{\n kind {kind}\n force {newton} N\n stroke 20 in\n}}\nlift raise {{\n carries {{ lid }}\n hinged at (0 m, 500 mm, 756 mm) to (0 m, -500 mm, 756 mm), opens 0.01 deg\n{struts}}}\n");
        var lift = Assert.Single(run.Engineering().Lifts);
        Assert.All(lift.Failures, f => Assert.Equal(7.2 * 9.80665 / 2, f.ToHold, 1));
        Assert.All(lift.Failures, f => Assert.Equal(left, f.Left, 1));
        Assert.All(lift.Failures, f => Assert.Equal(load is { } each ? each : double.NaN, f.Load ?? double.NaN, 1));
        Assert.All(lift.Failures, f => Assert.Equal((load ?? newton) * 0.5, f.Racking, 1));
        Assert.All(lift.Failures, f => Assert.Equal(sinks, f.Sinks));
        Assert.Equal(sinks ? 2 : 0, run.Findings.Count(f => f.Code == "WN6206"));
    }
}
