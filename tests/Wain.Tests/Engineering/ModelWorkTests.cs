using Wain.Core.Engineering;
using static Wain.Tests.Engineering.ModelSpecs;

namespace Wain.Tests.Engineering;

/// <summary>Mixes and the order of work of whole specs.</summary>
public class ModelWorkTests
{
    private const string Laid = """
        cloth glass {
            weight 200 g/m2
            glass 50 %
        }
        resin epoxy {
            density 1100 kg/m3
            mix 2 to 1 by weight
            resin_density 1150 kg/m3
            hardener_density 1000 kg/m3
            pot_life 20 min at 20 degC
            cure 12 h at 20 degC
        }
        sheet ply {
            thickness 12 mm
            size 100 in by 120 in
            density 600 kg/m3
        }
        stack laid {
            cloth glass wet with epoxy
            sheet ply
        }

        """;

    /// <summary>Half glass by weight: as much resin as cloth (common practice). 1 m2 of 200 g/m2 takes 200 g, at 2 to 1 by weight 133.3 g and 66.7 g.</summary>
    [Fact]
    public void Resin_is_as_heavy_as_the_cloth()
    {
        var run = Of(Laid + Deck("deck", "laid", "1 m", "1 m"));
        var mix = Assert.Single(run.Engineering().Mixes);
        Assert.Equal(0.2, mix.Total, 9);
        Assert.Equal(0.2 * 2 / 3, mix.Parts!.MassA, 9);
        Assert.Equal(0.2 / 3, run.Figure("deck.epoxy.part_b"), 9);
        Assert.Contains(run.Engineering().Cautions, c => c.Contains("sensitises", StringComparison.Ordinal));
    }

    /// <summary>A cup of 100 ml holds 110 g: 200 g take two. Ten kelvin warmer halve the pot life (common practice), and what one person spreads in it halves.</summary>
    [Fact]
    public void Batches_fit_the_cup_and_the_pot_life()
    {
        string deck = Laid + Deck("deck", "laid", "1 m", "1 m");
        Assert.Equal(2, Of(deck + "shop {\n cup 100 ml\n temperature 20 degC\n}\n").Figure("deck.epoxy.batches"));
        // 3 kg in an hour, 20 min, six tenths used: 600 g; at 40 degrees a quarter of it, 150 g.
        Assert.Equal(1, Of(deck + "shop {\n cup 1 l\n temperature 20 degC\n}\n").Figure("deck.epoxy.batches"));
        Assert.Equal(2, Of(deck + "shop {\n cup 1 l\n temperature 40 degC\n}\n").Figure("deck.epoxy.batches"));
    }

    private static string Poured(string thickness, string more = "") => $$"""
        foam pour {
            free_rise 32 kg/m3
            overpack 20 %
            mix 1 to 1 by weight
            data_sheet_temperature 75 degF
            cold_loss 8 %
            pour_depth 8 in
            flow 24 in
            shallow 3/4 in
        }
        stick strip {
            section {{thickness}} by 1 1/2 in
            length 96 in
            density 450 kg/m3
        }
        sheet ply {
            thickness 6 mm
            size 100 in by 120 in
            density 600 kg/m3
        }
        stack wall {
            sheet ply
            core frame of strip, flat, filled with pour
            sheet ply
        }
        panel side of wall {
            through (0 in, 0 in, 0 in) along (0 in, -43 in, 0 in) up (0 in, 0 in, 23 in)
            frame { studs count 0 }
        }
        shop { temperature 75 degF }
        {{more}}
        """;

    /// <summary>One bay of 40 in by 20 in by 1 in at 32 kg/m3 with a fifth more: 0.0131 m3 times 38.4 kg/m3 is 503 g, half of it each part; 20 in of height in pours of 8 in take three.</summary>
    [Fact]
    public void Foam_is_by_the_volume_of_the_bay()
    {
        var run = Of(Poured("1 in"));
        var pour = Assert.Single(run.Engineering().Mixes, m => m.Kind == MixKind.Foam);
        double grams = 40 * 20 * 1 * Math.Pow(0.0254, 3) * 32 * 1.2;
        Assert.Equal(grams, pour.Total, 3);
        Assert.Equal(pour.Total / 2, pour.Parts!.MassA, 9);
        Assert.Equal(3, pour.Pours);
        Assert.DoesNotContain(run.Findings, f => f.Code == "WN6501");
    }

    /// <summary>By hand: 1 to 1 by volume of parts of 1.23 and 1.03 kg/l is 54.4 % and 45.6 % by weight, and as many millilitres of each.</summary>
    [Fact]
    public void Foam_mixed_by_volume_is_in_grams_of_each_part()
    {
        var run = Of(Poured("1 in").Replace("by weight", "by volume\n    part_a_density 1.23 g/cm3\n    part_b_density 1.03 g/cm3\n    cream 40 s", StringComparison.Ordinal));
        var pour = Assert.Single(run.Engineering().Mixes, m => m.Kind == MixKind.Foam);
        Assert.Equal(pour.Total * 1.23 / 2.26, run.Figure(pour.Key + "_a"), 9);
        Assert.Equal(pour.Total * 1.03 / 2.26, run.Figure(pour.Key + "_b"), 9);
        Assert.Equal(pour.Parts!.VolumeA, pour.Parts.VolumeB, 12);
        Assert.Equal(run.Figure(pour.Key + "_a") / 1230, run.Figure(pour.Key + "_a_volume"), 12);
        Assert.Contains("within 40 s", pour.Note, StringComparison.Ordinal);
    }

    /// <summary>What is mixed in all needs no density of a part; the grams of each do, and say which.</summary>
    [Fact]
    public void Without_the_density_of_a_part_its_grams_alone_are_missing()
    {
        var run = Of(Poured("1 in").Replace("by weight", "by volume\n    part_b_density 1.03 g/cm3", StringComparison.Ordinal));
        var pour = Assert.Single(run.Engineering().Mixes, m => m.Kind == MixKind.Foam);
        Assert.Equal(40 * 20 * 1 * Math.Pow(0.0254, 3) * 32 * 1.2, pour.Total, 3);
        Assert.Null(pour.Parts);
        Assert.Equal("pour states no part_a_density", run.Design!.Figures.FindMissing(pour.Key + "_a")!.Reason);
        var told = Assert.Single(run.Findings, f => f.Code == "WN6001" && f.Subject == "pour.part_a_density");
        Assert.Contains("part_a_density", told.Hint!, StringComparison.Ordinal);
    }

    /// <summary>3 kg in an hour for ten minutes are 500 g: 1.2 kg take three cups and three people, where pot life and cup alone would let one do it.</summary>
    [Fact]
    public void Working_time_limits_a_batch_and_tells_how_many_spread_it()
    {
        string deck = Laid + Deck("deck", "laid", "3 m", "2 m") + "shop {\n cup 2 l\n temperature 20 degC\n}\n";
        var slow = Of(deck.Replace("pot_life 20 min", "pot_life 60 min", StringComparison.Ordinal));
        Assert.Equal(1, slow.Figure("deck.epoxy.batches"));
        var quick = Of(deck.Replace("pot_life 20 min", "working_time 10 min\n    pot_life 60 min", StringComparison.Ordinal));
        Assert.Equal(3, quick.Figure("deck.epoxy.batches"));
        Assert.Equal(3, quick.Figure("deck.epoxy.hands"));
        Assert.Contains("working time", Assert.Single(quick.Engineering().Mixes).Note, StringComparison.Ordinal);
    }

    /// <summary>A joint is fitted, then its cove and its tape, each when what is under it has set; its sealant comes when both panels are coated, and the coat has cured.</summary>
    [Fact]
    public void A_joint_is_fitted_filled_taped_and_sealed_in_that_order()
    {
        const string goods = """
            filler silica {
                with epoxy
                bulk_density 50 kg/m3
                paste_density 1100 kg/m3
                consistency stiff 2
            }
            tape strip {
                weight 300 g/m2
                width 75 mm
                glass 50 %
            }
            adhesive glue {
                spread 200 g/m2
                clamp_time 2 h
            }
            coating paint {
                coverage 10 m2/l
                recoat 6 h
                cure 60 h
            }
            sealant bead {
                bead 6 mm by 6 mm
                cure 30 h
            }
            stack painted {
                coating paint 2 coats
                sheet ply
            }

            """;
        string text = Laid + goods + Deck("deck", "painted", "1 m", "1 m", top: "0 mm") + "panel wall of painted { stands on deck_plan.front, from deck.top to 0.5 m }\n"
            + "joint wall.bottom to deck.top {\n butt\n glue glue\n fillet silica radius 10 mm, taped with strip\n sealant bead\n}\nshop { temperature 20 degC }\n";
        var steps = Of(text).Engineering().Work.Steps.ToDictionary(s => s.Step.Key, s => s.Step, StringComparer.Ordinal);
        const string joint = "wall.bottom to deck.top";
        Assert.Equal(2, steps[joint + ".fit"].Waits, 9);
        Assert.Equal(12, steps[joint + ".fillet"].Waits, 9);
        Assert.Contains(joint + ".fit", steps[joint + ".fillet"].After);
        Assert.Contains(joint + ".fillet", steps[joint + ".tape"].After);
        // Six hours between its two coats, and sixty until it has cured.
        Assert.Equal(66, steps["wall.coat"].Waits, 9);
        Assert.Contains("wall.coat", steps[joint + ".seal"].After);
        Assert.Contains("deck.coat", steps[joint + ".seal"].After);
        Assert.Equal(30, steps[joint + ".seal"].Waits, 9);
    }

    [Fact]
    public void A_wide_and_shallow_bay_is_told()
    {
        var told = Assert.Single(Of(Poured("1/2 in")).Findings, f => f.Code == "WN6501");
        Assert.Contains("boards", told.Hint!, StringComparison.Ordinal);
    }

    private static WorkPlan Plan(string text) => Of(text).Engineering().Work;

    [Fact]
    public void Nothing_comes_before_what_it_waits_for()
    {
        var plan = Plan(Poured("1 in"));
        var done = new HashSet<string>(StringComparer.Ordinal);
        foreach (var step in plan.Steps)
        {
            Assert.All(step.Step.After, a => Assert.Contains(a, done));
            done.Add(step.Step.Key);
        }
        Assert.Equal("side.frame side.holes side.skin side.close side.pour", string.Join(" ", plan.Steps.Where(s => s.Step.Subject == "side").Select(s => s.Step.Key)));
    }

    /// <summary>Ten hours of work in days of four take three days; one that waits a day comes on the day after.</summary>
    [Fact]
    public void Days_have_their_hours()
    {
        var plan = Plan(Ply + Deck("deck", "skin", "1 m", "1 m") + "default hours_skin 0 min\nshop {\n hours 4 h a day\n start on 2026-05-04\n}\nwork long {\n after skin\n takes 10 h\n waits 24 h\n}\nwork last {\n after long\n takes 1 h\n}\n");
        var last = plan.Steps.Single(s => s.Step.Key == "last");
        // Done two hours into the third day, cured two hours into the fourth.
        Assert.Equal(4, last.Day);
        Assert.Equal(new DateOnly(2026, 5, 7), last.Date);
        Assert.Equal(11, plan.Hours, 9);
    }

    [Fact]
    public void A_circle_of_steps_is_told_with_all_of_it()
    {
        var told = Assert.Single(Compile(Ply + Deck("deck", "skin", "1 m", "1 m") + "work a { after c }\nwork b { after a }\nwork c { after b }\n").Findings, f => f.Code == "WN6701");
        Assert.All(new[] { "a", "b", "c" }, n => Assert.Contains(n, told.Message, StringComparison.Ordinal));
    }

    /// <summary>50 lb for one person is common practice: a panel of 7.2 kg takes one, one of 36 kg two.</summary>
    [Fact]
    public void Hands_are_by_the_weight()
    {
        Assert.Equal(1, Of(Ply + Deck("deck", "skin", "1 m", "1 m")).Figure("deck.hands"));
        var run = Of(Ply + Deck("deck", "skin", "2 m", "2.5 m"));
        Assert.Equal(2, run.Figure("deck.hands"));
        Assert.Contains(run.Findings, f => f.Code == "WN6601");
    }
}
