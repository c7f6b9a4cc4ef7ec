using Wain.Core.Takeoff;
using static Wain.Tests.Takeoff.TakeoffSpecs;

namespace Wain.Tests.Takeoff;

public class JointTakeoffTests
{
    private const string Materials = Ply +
        "screw deck_screw {\n gauge 8\n length 1 1/2 in\n weight 2 g\n}\nadhesive glue {\n spread 200 g/m2\n density 1100 kg/m3\n}\n" +
        "resin epoxy {\n density 1100 kg/m3\n}\nfiller silica {\n with epoxy\n bulk_density 50 kg/m3\n paste_density 1000 kg/m3\n consistency butter 2\n}\n" +
        "tape strip {\n weight 300 g/m2\n width 4 in\n glass 0.5\n}\nsealant bead {\n bead 1/4 in by 1/4 in\n density 1300 kg/m3\n}\ntrim edge {\n weight 0.2 kg/m\n length 8 ft\n}\nhardware hinge {\n weight 0.1 kg\n}\n" +
        "stack skin {\n sheet ply\n sheet ply\n}\n";

    private const string Box = "plan base {\n start at (0 in, 30 in)\n leg left forward length 48 in\n leg front right length 60 in\n leg right aft length 48 in\n leg rear left length 60 in, home\n}\n" +
        "panel floor of skin {\n covers plan base, top at 0 in\n}\npanel left_wall of skin {\n stands on base.left, from 0 in to 24 in\n}\n";

    private static Run Joint(string facts) => Of(Materials + Box + "joint left_wall.bottom to floor.top {\n" + facts + "}\n");

    private const string Name = "left_wall.bottom_to_floor.top";

    /// <summary>Plain arithmetic over a joint 48 in long of a wall 12 mm thick.</summary>
    [Fact]
    public void EverythingAlongAJoint()
    {
        var run = Joint(" butt\n screws deck_screw every 8 in, end distance 1 in\n glue glue\n sealant bead beads 2\n trim edge\n hardware hinge 3\n");
        double metres = run.Structure.Joints.Single().Length / 1000;
        Assert.Equal(48 * 0.0254, metres, 3);
        Assert.Equal(7, run[Name + ".deck_screw.count"]);
        Assert.Equal(0.014, run[Name + ".deck_screw.weight"], 9);
        Assert.Equal(metres * 0.012, run[Name + ".glue.area"], 9);
        Assert.Equal(metres * 0.012 * 0.2, run[Name + ".glue.mass"], 9);
        Assert.Equal(2 * metres * 0.00635 * 0.00635, run[Name + ".bead.volume"], 12);
        Assert.Equal(metres * 0.2, run[Name + ".edge.weight"], 9);
        Assert.Equal(0.3, run[Name + ".hinge.weight"], 9);
        Assert.Equal(run["floor.weight"] + run["left_wall.weight"] + run[Name + ".deck_screw.weight"] + run[Name + ".glue.weight"] + run[Name + ".bead.weight"] + 0.2 * metres + 0.3, run["total.weight"], 9);
    }

    /// <summary>
    /// A cove of radius 10 mm in a right angle holds r2 (1 - pi/4) a run. Two volumes of powder at 50 kg/m3 to one of resin at 1100 make a paste that is
    /// 1100 / 1200 resin by weight; tape at half glass takes its own weight of resin.
    /// </summary>
    [Fact]
    public void FilletAndTape()
    {
        var run = Joint(" butt\n fillet silica radius 10 mm, taped with strip\n");
        double metres = run.Structure.Joints.Single().Length / 1000;
        Assert.Equal(Math.PI / 2, run.Structure.Joints.Single().Dihedral, 6);
        double volume = 1e-4 * (1 - Math.PI / 4) * metres;
        Assert.Equal(volume, run[Name + ".silica.volume"], 12);
        Assert.Equal(volume * 1000 * 100 / 1200, run[Name + ".silica.mass"], 9);
        Assert.Equal(volume * 1000 * 1100 / 1200, run[Name + ".epoxy.mass"], 9);
        Assert.Equal(metres * 0.1016 * 0.3, run[Name + ".strip.weight"], 9);
        Assert.Equal(metres * 0.1016 * 0.3, run[Name + ".epoxy_2.mass"], 9);
    }

    [Fact]
    public void WhatAPasteLacksIsTold()
    {
        var run = Of((Materials + Box + "joint left_wall.bottom to floor.top {\n fillet silica radius 10 mm\n}\n").Replace(" bulk_density 50 kg/m3\n", ""));
        Assert.Contains(run.Findings, f => f.Info == TakeoffFindings.PropertyMissing && f.Message.Contains("bulk_density", StringComparison.Ordinal));
        Assert.Equal([Name + ".silica.weight"], run.Figures.Find("total.weight")!.Lacks.ToArray());
    }

    /// <summary>
    /// A deck 140 in by 66 in of 1/4 in plywood from 48 in sheets laid across, joined by laps of 1 1/2 in routed half from each: three sections that add to
    /// 143 in. Laps are bought twice and weigh once.
    /// </summary>
    [Fact]
    public void LapsAreBoughtTwiceAndWeighOnce()
    {
        string ply = "sheet ply {\n thickness 1/4 in\n size 48 in by 96 in\n density 600 kg/m3\n}\nstack skin {\n sheet ply\n}\nresin epoxy {\n density 1100 kg/m3\n seal_coat 150 g/m2\n}\n";
        var run = Of(ply + Deck("deck", "skin", "140 in", "66 in", " splice across length {\n  lap width 1 1/2 in\n  lap depth half\n  glue epoxy\n }\n"));
        double inch = 0.0254;
        Assert.Equal(3, run["deck.ply.pieces"]);
        Assert.Equal(143 * 66 * inch * inch, run["deck.ply.area"], 9);
        Assert.Equal(2 * 1.5 * 66 * inch * inch, run["deck.ply.lap_area"], 9);
        Assert.Equal(140 * 66 * 0.25 * Math.Pow(inch, 3), run["deck.ply.volume"], 9);
        Assert.Equal(1.5 * 66 * inch * inch, run["deck.epoxy.area"], 9);
        Assert.Equal(1.5 * 66 * inch * inch, run["deck.epoxy_2.area"], 9);
    }

    /// <summary>What a mirror would copy and the spec states for the other side as well is one joint, as stated there; the same joint by other words is told.</summary>
    [Theory]
    [InlineData("", 1, 1)]
    [InlineData("joint right_side.bottom to floor.top {\n glue glue\n}\n", 1, 1)]
    [InlineData("joint floor.top to right_side.bottom {\n butt\n}\n", 1, 0)]
    [InlineData("joint left_side.bottom to floor.outside {\n glue glue\n}\n", 1, 1, "WN1010")]
    public void A_joint_that_is_stated_for_both_sides_counts_once(string more, int left, int right, string? code = null)
    {
        var run = Of(Ply + "adhesive glue {\n spread 200 g/m2\n density 1100 kg/m3\n}\nstack skin {\n sheet ply\n}\n" + """
            plan body {
             start at (0 mm, 500 mm)
             leg left run 900 mm, aft
             leg rear across 1000 mm
             leg right run 900 mm
             leg front home
            }
            panel floor of skin {
             covers plan body, top at 0 mm
             outside up
            }
            panel left_side of skin {
             stands on body.left, from floor.top to 400 mm
            }
            mirror left_side as right_side
            joint left_side.bottom to floor.top {
             glue glue
            }

            """ + more);
        Assert.Equal(left, run.Takeoff.Lines.Count(l => l.Key.StartsWith("left_side.bottom_to_floor", StringComparison.Ordinal)));
        Assert.Equal(right, run.Takeoff.Lines.Count(l => l.Panels.Contains("right_side") && l.Panels.Length == 2));
        Assert.Equal(code is null ? [] : [code], run.Findings.Where(f => f.Level == Wain.Core.Findings.Level.Error).Select(f => f.Code));
    }
}
