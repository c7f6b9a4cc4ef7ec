using Wain.Core;
using Wain.Core.Findings;
using Wain.Core.Framing;
using Wain.Core.Text;

namespace Wain.Tests.Framing;

/// <summary>Where the screws of a joint stand, against places worked out by hand, and how near two rows come in a corner.</summary>
public class ScrewRowTests
{
    private const double In = 25.4;

    private static Compilation Compile(string bottom, string side, string more = "") => Compiler.Compile(new SourceText("example.wain", $$"""
        sheet ply { thickness 12 mm
            size 48 in by 96 in }
        stick strip { section 3/4 in by 1 1/2 in }
        screw deck_screw { kind wood_screw
            diameter 4 mm
            length 1 1/2 in
            head 0.3 in, countersunk yes
            pilot 3/32 in }
        stack board { sheet ply }
        stack framed { sheet ply
            core frame of strip flat
            sheet ply }
        plan deck_plan {
            start at (0 in, 23 in)
            leg left_side run 80 in
            leg front across 46 in
            leg right_side mirror of left_side
            leg rear home, across 46 in
            through left_side
        }
        panel deck of board { covers plan deck_plan, top at 0 in }
        panel wall of framed { stands on deck_plan.front, from deck.top to 40 in }
        panel side of board { stands on deck_plan.left_side, from deck.top to 40 in }
        joint wall.bottom to deck.top {
            butt
            screws deck_screw {{bottom}}
        }
        joint wall.right to side.inside {
            butt
            screws deck_screw {{side}}
        }
        {{more}}
        """.ReplaceLineEndings("\n")));

    private static ScrewRow Row(Compilation c, string joint) => Assert.Single(ScrewRow.Of(c.Spec, c.Structure!.Joints.Single(j => j.Name.StartsWith(joint, StringComparison.Ordinal))));

    [Fact]
    public void Screws_from_below_stand_in_the_middle_of_the_frame_from_end_distance_to_end_distance()
    {
        var c = Compile("every 8 in, end distance 2 in", "every 8 in");
        var row = Row(c, "wall.bottom");
        // The wall runs from the side's inside face across to the far edge of the deck: 46 in less 12 mm.
        double length = 46 * In - 12;
        Assert.Equal(length, row.Joint.Length, 6);
        // 2 in from each end there are 41.53 in left; six spaces of 8 in cover it, with seven screws.
        Assert.Equal(7, row.Shafts.Length);
        Assert.Equal(2 * In, row.First, 6);
        Assert.Equal((length - 4 * In) / 6, row.Apart, 6);
        foreach (var shaft in row.Shafts)
        {
            // Head under the deck, 12 mm below its top; point 1 1/2 in above the head.
            Assert.Equal(-12, shaft.Head.Z, 6);
            Assert.Equal(1.5 * In - 12, shaft.Point.Z, 6);
            // The wall's outside face is the front edge of the deck at x = 80 in; its frame begins behind 12 mm of skin and is 3/4 in thick.
            Assert.Equal(80 * In - 12 - 0.375 * In, shaft.Head.X, 6);
        }
        Assert.Equal("below", row.Path.Side);
    }

    [Fact]
    public void Without_an_end_distance_each_screw_holds_the_same_length()
    {
        var row = Row(Compile("every 8 in, edge distance 3/8 in", "every 8 in"), "wall.bottom");
        Assert.Equal(6, row.Shafts.Length);
        Assert.Equal(row.Apart / 2, row.First, 6);
    }

    [Theory]
    // The row from below at height up to 26.1 mm and the row from the left at its first height: they pass each other by what stands between the two lines.
    [InlineData("2 in", "2 in", true)]
    [InlineData("1 in", "1/2 in", false)]
    public void Rows_that_come_round_a_corner_keep_apart(string bottomEnd, string sideEnd, bool clear)
    {
        var c = Compile($"every 8 in, end distance {bottomEnd}", $"every 8 in, end distance {sideEnd}");
        Assert.Equal(clear, c.Findings.All(f => f.Code != "WN4120"));
        if (!clear) Assert.Contains(c.Findings, f => f.Code == "WN4120" && f.Level == Level.Error);
    }

    [Fact]
    public void The_least_distance_is_that_of_two_lines_tried_in_many_places()
    {
        var c = Compile("every 8 in, end distance 1 3/4 in", "every 8 in, end distance 1 1/8 in");
        var (a, b) = (Row(c, "wall.bottom"), Row(c, "wall.right"));
        double least = double.PositiveInfinity;
        foreach (var p in a.Shafts)
            foreach (var q in b.Shafts)
                for (int i = 0; i <= 200; i++)
                    for (int k = 0; k <= 200; k++) least = Math.Min(least, p.Head.Lerp(p.Point, i / 200.0).DistanceTo(q.Head.Lerp(q.Point, k / 200.0)));
        // Prebored, three diameters of 4 mm.
        Assert.Equal(least < 12, c.Findings.Any(f => f.Code == "WN4120"));
        Assert.InRange(least, 0, 30);
    }

    /// <summary>What is driven from the left on the left side is driven from the right in its mirror, and passes the same panel there.</summary>
    [Fact]
    public void The_mirror_of_a_row_is_driven_from_the_other_side()
    {
        var c = Compile("every 8 in", "every 8 in, driven from left", "mirror side as other");
        var (row, mirror) = (Row(c, "wall.right"), Row(c, "wall.left"));
        Assert.Equal(("left", "side", "wall"), (row.Path.Side, row.Path.Through.Name, row.Path.Into.Name));
        Assert.Equal(("right", "other", "wall"), (mirror.Path.Side, mirror.Path.Through.Name, mirror.Path.Into.Name));
        Assert.Equal("right", ScrewPath.From(mirror.Joint, mirror.Fact));
        Assert.Equal(row.Shafts.Select(s => s.Point.Mirrored.Y).Order(), mirror.Shafts.Select(s => s.Point.Y).Order(), (a, b) => Math.Abs(a - b) < 1e-6);
        Assert.DoesNotContain(c.Findings, f => f.Code == "WN4133");
    }

    [Theory]
    [InlineData("driven from left", null)]
    [InlineData("driven from outside", null)]
    // From within the front wall, through its own rail.
    [InlineData("driven from right", null)]
    [InlineData("driven from inside", "outside")]
    [InlineData("driven from above", "left")]
    [InlineData("driven from aft", "left")]
    public void A_side_that_no_driver_can_stand_on_is_told(string side, string? mended)
    {
        var told = Compile("every 8 in", "every 8 in, " + side).Findings.SingleOrDefault(f => f.Code == "WN4133");
        Assert.Equal(mended, told?.Fixes.Single().Text);
    }

    [Fact]
    public void Pilot_countersink_and_side_are_listed()
    {
        var c = Compile("every 8 in", "every 8 in, driven from left, pilot 1/8 in");
        var below = Row(c, "wall.bottom");
        Assert.Equal(3 * In / 32, below.Pilot!.Value, 6);
        Assert.Equal(0.3 * In, below.Countersink!.Value, 6);
        var left = Row(c, "wall.right");
        Assert.Equal(In / 8, left.Pilot!.Value, 6);
        Assert.Equal("left", left.Path.Side);
    }
}
