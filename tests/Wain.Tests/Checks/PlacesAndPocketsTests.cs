using Wain.Core;
using Wain.Core.Findings;
using Wain.Core.Framing;
using Wain.Core.Text;

namespace Wain.Tests.Checks;

/// <summary>Loads out of place and pockets without wood, with their amounts worked out by hand.</summary>
public class PlacesAndPocketsTests
{
    private static Compilation Compile(string text) => Compiler.Compile(new SourceText("example.wain", text.ReplaceLineEndings("\n")));

    private static IEnumerable<Finding> Told(string text, string code) => Compile(text).Findings.Where(f => f.Code == code);

    private static IEnumerable<Finding> OfLoad(string place, string more = "") => Told($$"""
        sheet ply { thickness 12 mm
            size 48 in by 96 in }
        stack board { sheet ply }
        panel deck of board { through (0 in, 20 in, 0 in) along (0 in, -20 in, 0 in) up (-70 in, 20 in, 0 in) }
        {{more}}
        load water {
            weighs 90 lb
            at {{place}}
        }
        """, "WN4410");

    private const string Truck = """
        carrier truck {
            kind bed
            bed 73 in by 54 in, depth 20 in
            front_axle at 92 in
            cab roof 31 in, rear 3 in, width 64 in, length 60 in
        }
        """;

    [Theory]
    [InlineData("(-300 in, 0 in, 12 in)", "230 in behind the camper.", "227 in behind the camper and what carries it.")]
    [InlineData("(-72 in, 0 in, 12 in)", "2 in behind", null)]
    [InlineData("(100 in, 0 in, 12 in)", "100 in ahead of", "8 in ahead of")]
    [InlineData("(-20 in, 40 in, 12 in)", "20 in to the left of", "8 in to the left of")]
    [InlineData("(-20 in, -40 in, 12 in)", "20 in to the right of", "8 in to the right of")]
    [InlineData("(-20 in, 0 in, 12 in)", null, null)]
    public void A_load_over_nothing_is_told_with_how_far_off_it_is(string place, string? alone, string? carried)
    {
        foreach (var (expected, found) in new[] { (alone, OfLoad(place)), (carried, OfLoad(place, Truck)) })
        {
            if (expected is null) Assert.Empty(found);
            else
            {
                var told = Assert.Single(found);
                Assert.Equal(Level.Warning, told.Level);
                Assert.Contains(expected, told.Message);
            }
        }
    }

    private static IEnumerable<Finding> OfFrame(double every, int screws, string glue = "") => Told(Frame(every, screws, glue), "WN4125");

    private static string Frame(double every, int screws, string glue = "") => FormattableString.Invariant($$"""
        sheet ply { thickness 12 mm
            size 48 in by 96 in }
        stick strip { section 3/4 in by 1 1/2 in }
        adhesive wood_glue { spread 0.05 lb/ft2 }
        screw frame_screw { kind pocket_screw
            gauge 7
            length 1 in }
        stack framed { sheet ply
            core frame of strip flat
            sheet ply }
        panel deck of framed {
            through (0 in, 24 in, 0 in) along (0 in, -24 in, 0 in) up (40 in, 24 in, 0 in)
            frame {
                studs every {{every}} in, on centre
                blocking at 20 in up
                joined with frame_screw {{screws}} each{{glue}}
            }
        }
        """);

    [Fact]
    public void A_pocket_without_wood_is_not_drilled()
    {
        var members = Compile(Frame(3, 2)).Design!.Frames.Members.ToList();
        int Pockets(string key) => members.Single(m => m.Key == key).Holes.Count(h => h.Kind == HoleKind.Pocket);
        Assert.Equal(0, Pockets("blocking1_a"));
        Assert.Equal(4, Pockets("stud1"));
    }

    /// <summary>By hand: 48 in of studs every 3 in are 15 studs, 2 stiles and, in the end bays of 3/4 in, 4 fillers; each end of these takes 2 screws, 84. The ends of the 16 blocks would take 64 more and have wood for none.</summary>
    [Fact]
    public void A_screw_without_its_pocket_is_not_driven_counted_or_bought()
    {
        var compiled = Compile(Frame(3, 2));
        var frame = compiled.Design!.Frames.All.Single();
        Assert.Equal((148, 84), (frame.Meetings.Sum(m => m.Count), frame.Meetings.Sum(m => m.Driven)));
        Assert.Equal(84, Meetings.Shafts(compiled.Spec, frame).Count());
        Assert.Equal(84.0, compiled.Design.Figures.Find("deck.frame_screw.count")!.Value.Value);
    }

    private static List<Member> Poured(string opening) => Compile($$"""
        sheet ply { thickness 12 mm
            size 48 in by 96 in }
        stick strip { section 3/4 in by 1 1/2 in }
        foam pour { free_rise 2 lb/ft3
            density 2.4 lb/ft3 }
        screw frame_screw { kind pocket_screw
            gauge 7
            length 1 in }
        stack framed { sheet ply
            core frame of strip flat, filled with pour
            sheet ply }
        panel wall of framed {
            through (0 in, 24 in, 0 in) along (0 in, -24 in, 0 in) up (0 in, 24 in, 30 in)
            frame {
                studs count 0
                joined with frame_screw 2 each
            }
            opening vent { size {{opening}}
                centred at (24 in, 15 in) }
        }
        """).Design!.Frames.Members.ToList();

    /// <summary>
    /// A third of a sill of 6 in is 2 in from its end, and its pockets reach 2.124 in (as below); so the holes of the bay under it move toward its middle, and have wood.
    /// In a sill of 18 in they stand at 6 and 12 in.
    /// </summary>
    [Fact]
    public void Foam_is_not_poured_through_a_pocket()
    {
        double[] Places(string opening)
        {
            var sill = Poured(opening).Single(m => m.Key == "vent.sill");
            Assert.Equal(4, sill.Holes.Count(h => h.Kind == HoleKind.Pocket));
            return [.. sill.Holes.Where(h => h.Kind != HoleKind.Pocket).Select(h => (h.At.X - sill.Outline.Bounds.Min.X) / 25.4).Order()];
        }
        Assert.Equal([6.0, 12.0], Places("18 in by 8 in").Select(p => Math.Round(p, 6)));
        var narrow = Places("6 in by 8 in");
        Assert.Equal(2, narrow.Length);
        Assert.All(narrow, p => Assert.InRange(p, 2.124, 6 - 2.124));
    }

    /// <summary>What lies between a rounded hole and the square corner of its members is open to the hole: it is foam, and nothing is drilled for it.</summary>
    [Fact]
    public void The_corners_of_a_rounded_opening_take_no_holes()
    {
        int Holes(string opening) => Poured(opening).Sum(m => m.Holes.Count(h => h.Kind != HoleKind.Pocket));
        Assert.Equal(Holes("18 in by 8 in"), Holes("18 in by 8 in, corner 2 in"));
    }

    [Fact]
    public void A_block_shorter_than_the_mouth_of_its_pocket_is_told()
    {
        // At 15 degrees a 3/8 in drill that comes out in the middle of 3/4 in stock meets the face 0.375 / tan 15 = 1.400 in from the end, and its mouth reaches
        // 0.1875 / sin 15 = 0.724 in further: 2.124 in. The block between a stile of 1 1/2 in and the middle of a stud 3 in from the end is 3 - 1 1/2 - 3/4 = 3/4 in
        // long, so 1.374 in of the mouth have no wood. At 6 in on centre every block is longer than the mouth.
        var told = Assert.Single(OfFrame(3, 2));
        Assert.Equal(Level.Warning, told.Level);
        Assert.Contains("that of blocking1_a at stile_left by 1 3/8 in", told.Message);
        Assert.Equal(Level.Note, Assert.Single(OfFrame(3, 2, ", glued with wood_glue")).Level);
        Assert.Empty(OfFrame(6, 2));
    }

    private static (List<Member> Members, Finding? Told) Blocks(double every, int screws, string glue = "")
    {
        var compiled = Compile(Frame(every, screws, glue));
        return (compiled.Design!.Frames.Members.Where(m => m.Key.StartsWith("blocking", StringComparison.Ordinal)).ToList(), compiled.Findings.SingleOrDefault(f => f.Code == "WN4137"));
    }

    /// <summary>
    /// By hand, as above: two pockets in one line take 2 x 2.124 = 4.249 in. Blocks between studs 5 in on centre are 3 1/2 in long: of two screws an end, the
    /// one on the left of each end has wood, in halves of the width that are not the same; of one screw an end each moves to its own left, a quarter of the width off the middle, and passes the other. At 8 in on centre the shortest is that of the end bay, 5 3/4 in long.
    /// </summary>
    [Theory]
    [InlineData(5, 2, 2)]
    [InlineData(5, 1, 2)]
    [InlineData(8, 2, 4)]
    [InlineData(8, 1, 2)]
    public void Pockets_from_both_ends_of_a_short_member_keep_wood_between_them(double every, int screws, int bored)
    {
        var (members, told) = Blocks(every, screws);
        var block = members.Single(m => m.Key == "blocking1_c");
        var holes = block.Holes.Where(h => h.Kind == HoleKind.Pocket).ToList();
        Assert.Equal(bored, holes.Count);
        Assert.Equal(bored < 2 * screws, told is not null);
        if (every == 5)
        {
            // One from each end, 3/4 in apart across the stick.
            Assert.Equal(block.LongPoint - 2 * 25.4 * 1.39952, Math.Abs(holes[0].At.X - holes[1].At.X), 2);
            Assert.Equal(19.05, Math.Abs(holes[0].At.Y - holes[1].At.Y), 3);
        }
    }

    [Fact]
    public void Pockets_that_are_not_bored_are_told_and_not_counted()
    {
        var compiled = Compile(Frame(5, 2));
        var frame = compiled.Design!.Frames.All.Single();
        var told = Assert.Single(compiled.Findings, f => f.Code == "WN4137");
        Assert.Contains("3 1/2 in long", told.Message);
        Assert.Contains("two in one line take 4 1/4 in", told.Message);
        Assert.Equal(Level.Warning, told.Level);
        Assert.Equal(Level.Note, Blocks(5, 2, ", glued with wood_glue").Told!.Level);
        Assert.Equal(frame.Meetings.Sum(m => m.Pockets.Length), (int)compiled.Design.Figures.Find("deck.frame_screw.count")!.Value.Value);
        Assert.Equal(frame.Members.Sum(m => m.Holes.Count(h => h.Kind == HoleKind.Pocket)), frame.Meetings.Sum(m => m.Driven));
    }

    [Fact]
    public void More_pockets_than_the_stick_is_wide_break_out_of_its_sides()
    {
        // The outer of four pockets in 1 1/2 in stands 3/16 in from the side, half of what the drill takes there: it just has no wood. Of five it stands 0.15 in away.
        Assert.Empty(OfFrame(16, 3));
        Assert.Contains("by 1/32 in", Assert.Single(OfFrame(16, 5)).Message);
    }
}
