using Wain.Core.Framing;
using Wain.Core.Geometry.Kernel;
using static Wain.Tests.Framing.Designs;

namespace Wain.Tests.Framing;

public class FrameTests
{
    private static Member Of(PanelFrame frame, string key) => Assert.Single(frame.Members, m => m.Key == key);

    /// <summary>Plain arithmetic: a frame 60 in by 30 in of sticks 1 1/2 in wide on the face, rails through, a stud each 15 in from the left.</summary>
    [Fact]
    public void Rectangle_by_hand()
    {
        var frame = OnlyFrame(Place(Panel("wall", "wall_stack", 60, 30, """
            frame {
                studs every 15 in
                joined with pocket_fine 2 each glued with wood_glue
            }
            """)));
        Assert.Equal(60 * Inch, Of(frame, "rail_bottom").LongPoint, 6);
        Assert.Equal(60 * Inch, Of(frame, "rail_top").LongPoint, 6);
        Assert.Equal(27 * Inch, Of(frame, "stile_left").LongPoint, 6);
        var studs = frame.Members.Where(m => m.Role == MemberRole.Stud).ToList();
        Assert.Equal(3, studs.Count);
        // From face to like face: the left side of each stud is a multiple of 15 in from the frame's left end.
        Assert.Equal([15 * Inch, 30 * Inch, 45 * Inch], studs.Select(s => Math.Round(s.Outline.Bounds.Min.X, 6)));
        Assert.All(studs, s => Assert.Equal(27 * Inch, s.LongPoint, 6));
        Assert.All(frame.Members, m => Assert.True(m.Start.IsSquare && m.End.IsSquare));
        // Four bays: 13 1/2 in, 13 1/2 in, 13 1/2 in, and what is left before the right stile: 60 - 46 1/2 - 1 1/2 = 12 in.
        Assert.Equal([13.5, 13.5, 13.5, 12], frame.Cavities.Select(c => Math.Round(c.Outline.Bounds.Width / Inch, 6)));
        Assert.All(frame.Cavities, c => Assert.Equal(c.Area * 0.75 * Inch, c.Volume, 3));
        // Each stile and stud has two ends on a rail: (2 + 3) * 2 meetings of two screws.
        Assert.Equal(10, frame.Meetings.Length);
        Assert.All(frame.Meetings, m => Assert.Equal((MeetingKind.Butt, 2), (m.Kind, m.Count)));
        Assert.All(frame.Meetings, m => Assert.Equal(1.5 * Inch, m.Length, 6));
        Assert.Equal(20, frame.Members.Sum(m => m.Holes.Count(h => h.Kind == HoleKind.Pocket)));
    }

    [Fact]
    public void Studs_on_centre_and_between_and_from_the_other_end()
    {
        var onCentre = OnlyFrame(Place(Panel("wall", "wall_stack", 60, 30, "frame {\nstuds every 16 in, on centre, from right\nrails between\n}")));
        Assert.Equal([12, 28, 44], onCentre.Members.Where(m => m.Role == MemberRole.Stud).Select(m => Math.Round(m.CentreLine.From.X / Inch, 6)).Order());
        Assert.Equal(30 * Inch, Of(onCentre, "stile_left").LongPoint, 6);
        Assert.Equal(57 * Inch, Of(onCentre, "rail_top").LongPoint, 6);
        var counted = OnlyFrame(Place(Panel("wall", "wall_stack", 60, 30, "frame {\nstuds count 3\n}")));
        // 57 in between the stiles, less three studs, in four equal bays: 13 1/8 in.
        Assert.All(counted.Cavities, c => Assert.Equal(13.125 * Inch, c.Outline.Bounds.Width, 6));
        var turned = OnlyFrame(Place(Panel("wall", "wall_stack", 60, 30, "frame {\nstuds every 10 in, turned\n}")));
        Assert.All(turned.Members.Where(m => m.Role == MemberRole.Stud), m => Assert.Equal(57 * Inch, m.LongPoint, 6));
    }

    /// <summary>The 3-4-5 triangle: a top that rises 3 in 4 cuts the studs at atan(3/4) = 36.87 degrees from square; long and short points differ by 3/4 of the width.</summary>
    [Fact]
    public void Raked_top_cuts_studs_at_its_angle()
    {
        var structure = WithOutline(Place(Panel("wall", "wall_stack", 40, 60, "frame {\nstuds every 10 in\n}")), "wall", Inches((0, 0), (40, 0), (40, 50), (0, 20)));
        var frame = OnlyFrame(structure);
        var studs = frame.Members.Where(m => m.Role == MemberRole.Stud).ToList();
        Assert.Equal(3, studs.Count);
        foreach (var stud in studs)
        {
            Assert.Equal(Math.Atan(0.75), Math.Abs(stud.End.Angle), 6);
            Assert.True(stud.End.Angle < 0, "The top falls to the left, so the right side is the longer.");
            Assert.Equal(0.75 * 1.5 * Inch, stud.LongPoint - stud.ShortPoint, 3);
            Assert.True(stud.Start.IsSquare);
        }
        // The inside of the top rail lies 1 1/2 in below the rake, square to it: 1 1/2 in * 5/4 measured upright. Stud 1 begins at 10 in.
        Assert.Equal((20 + 11.5 * 0.75 - 1.5 * 1.25 - 1.5) * Inch, studs[0].LongPoint, 3);
    }

    [Fact]
    public void Opening_gets_header_sill_trimmers_and_cripples()
    {
        var frame = OnlyFrame(Place(Panel("wall", "wall_stack", 72, 40, """
            frame {
                studs every 16 in
            }
            opening vent {
                size 20 in by 10 in
                lower left at (24 in, 15 in)
            }
            """)));
        Assert.Empty(frame.Problems);
        Assert.Equal(20 * Inch, Of(frame, "vent.header").LongPoint, 6);
        Assert.Equal(20 * Inch, Of(frame, "vent.sill").LongPoint, 6);
        Assert.Equal(37 * Inch, Of(frame, "vent.trimmer_left").LongPoint, 6);
        Assert.Equal(25 * Inch, Of(frame, "vent.header").Outline.Bounds.Min.Y, 6);
        // The stud at 32 in falls into the opening: below it 15 - 1 1/2 - 1 1/2 in are left, above it 40 - 25 - 1 1/2 - 1 1/2 in.
        var cripples = frame.Members.Where(m => m.Role == MemberRole.Cripple).ToList();
        Assert.Equal(2, cripples.Count);
        Assert.All(cripples, c => Assert.Equal(12 * Inch, c.LongPoint, 6));
        Assert.Equal(3, frame.Members.Count(m => m.Role == MemberRole.Stud));
    }

    [Fact]
    public void Kings_carry_past_and_jacks_stop_under_the_header()
    {
        var frame = OnlyFrame(Place(Panel("wall", "wall_stack", 72, 40, """
            frame {
                rails through
            }
            opening door {
                size 20 in by 20 in
                lower left at (24 in, 10 in)
                framed trimmers 2
            }
            """)));
        Assert.Equal(37 * Inch, Of(frame, "door.trimmer_left").LongPoint, 6);
        Assert.Equal(23 * Inch, Of(frame, "door.header").LongPoint, 6);
        Assert.Equal((30 - 1.5) * Inch, Of(frame, "door.trimmer_left_2").LongPoint, 6);
        Assert.Equal(20 * Inch, Of(frame, "door.sill").LongPoint, 6);
    }

    /// <summary>A recess of 10 mm goes through the 6 mm skin and 4 mm into the frame: members there keep 19.05 - 4 = 15.05 mm.</summary>
    [Fact]
    public void Members_lap_under_a_recess_deeper_than_the_skin()
    {
        var frame = OnlyFrame(Place(Panel("wall", "wall_stack", 60, 30, """
            opening window {
                size 20 in by 10 in
                lower left at (20 in, 10 in)
                recessed 10 mm, margin 2 in
            }
            """)));
        var header = Of(frame, "window.header");
        var lap = Assert.Single(header.Laps);
        Assert.Equal(4, lap.Depth, 9);
        Assert.Equal(header.Area, lap.Region.Area(), 3);
        Assert.Equal(header.Area * (0.75 * Inch - 4), header.Volume, 1);
        Assert.Contains(frame.Cavities, c => Math.Abs(c.Depth - (0.75 * Inch - 4)) < 1e-9);
    }

    [Fact]
    public void A_mirrored_panel_has_the_mirrored_frame()
    {
        var frames = FrameBuilder.Build(Place(Panel("left_wall", "wall_stack", 70, 30, """
            frame {
                studs every 16 in
                double left
                stud at 60 in along
            }
            opening vent {
                size 10 in by 10 in
                lower left at (20 in, 10 in)
            }
            """) + "mirror left_wall as right_wall\n")).All;
        Assert.Equal(2, frames.Length);
        double width = 70 * Inch;
        var original = frames[0].Members.Select(m => (m.Role, Left: Math.Round(m.Outline.Bounds.Min.X, 6), Right: Math.Round(m.Outline.Bounds.Max.X, 6), Long: Math.Round(m.LongPoint, 6))).Order();
        var image = frames[1].Members.Select(m => (m.Role, Left: Math.Round(width - m.Outline.Bounds.Max.X, 6), Right: Math.Round(width - m.Outline.Bounds.Min.X, 6), Long: Math.Round(m.LongPoint, 6))).Order();
        Assert.Equal(original, image);
        Assert.Contains(frames[1].Members, m => m.Key == "stile_right_inner");
        Assert.Contains(frames[0].Members, m => m.Key == "stile_left_inner");
    }

    [Fact]
    public void Bevelled_edges_are_in_length_and_volume()
    {
        var frame = OnlyFrame(Place(Panel("wall", "wall_stack", 60, 30, "bevel right 30 deg\nbevel top -20 deg")));
        // By hand: the frame begins 6 mm down, where the right edge has gone in by 6 tan 30 and the top out by 6 tan 20; it goes on to 25.05 mm.
        double depth = 0.75 * Inch, right = Math.Tan(Math.PI / 6), top = Math.Tan(Math.PI / 9);
        double Area(double d) => (60 * Inch - d * right) * (30 * Inch + d * top);
        double whole = depth / 6 * (Area(6) + 4 * Area(6 + depth / 2) + Area(6 + depth));
        Assert.Equal(whole, frame.Members.Sum(m => m.Volume) + frame.Cavities.Sum(c => c.Volume), whole * 1e-9);
        var rail = Of(frame, "rail_top");
        Assert.Equal(Math.PI / 9, rail.RipBevel, 9);
        Assert.Equal(-Math.PI / 6, rail.End.Bevel, 9);
        // What is cut from: as wide as the wider face, as long as the longer, and in common only what the shorter has.
        Assert.Equal(1.5 * Inch, rail.Width, 6);
        Assert.False(rail.IsRipped);
        Assert.Equal(60 * Inch - 6 * right, rail.LongPoint, 3);
        Assert.Equal(60 * Inch - (6 + depth) * right, rail.ShortPoint, 3);
    }

    [Fact]
    public void A_frame_that_does_not_fit_is_told_with_numbers()
    {
        var frame = OnlyFrame(Place(Panel("strip", "wall_stack", 60, 2.5, "")));
        var problem = Assert.Single(frame.Problems);
        Assert.Equal(FrameProblemKind.DoesNotFit, problem.Kind);
        Assert.Equal(2.5 * Inch, problem.Has, 3);
        Assert.Equal(3 * Inch, problem.Needs, 6);
        Assert.Empty(frame.Members);
    }

    [Fact]
    public void A_narrow_bay_is_filled_and_told()
    {
        var frame = OnlyFrame(Place(Panel("wall", "wall_stack", 60, 30, "frame {\nstud at 10 in along\nstud at 12 in along\n}")));
        var filler = Assert.Single(frame.Members, m => m.FillsBay);
        Assert.Equal(0.5 * Inch, filler.Width, 6);
        Assert.Equal(FrameProblemKind.BayFilled, Assert.Single(frame.Problems).Kind);
    }

    /// <summary>Common practice: 1 1/4 in screws in 3/4 in stock at 15 degrees. The axis leaves the stock in the middle of its end by plain trigonometry.</summary>
    [Fact]
    public void Pocket_geometry()
    {
        Assert.Equal(1.25 * Inch, Pockets.UsualScrew(0.75 * Inch));
        Assert.Null(Pockets.UsualScrew(6));
        var pocket = Pockets.For(0.75 * Inch, 1.25 * Inch)!;
        Assert.Equal(0.375 * Inch / Math.Tan(15 * Math.PI / 180), pocket.FromEnd, 9);
        Assert.Equal(pocket.FromEnd / Math.Cos(15 * Math.PI / 180), pocket.Depth + pocket.ScrewLength - pocket.Bite, 9);
    }

    /// <summary>Common practice: a pocket is bored for the thickness of the stock under the jig, 3/4 in of a 1x2 on edge as of one that lies flat, and for 1 1/2 in at the most.</summary>
    [Theory]
    [InlineData("wall_stack", false)]
    [InlineData("thick_stack", true)]
    public void Pockets_are_as_deep_as_the_stock_asks(string stack, bool fromSide)
    {
        var structure = Place(Panel("wall", stack, 60, 40, "frame {\n studs every 16 in\n joined with pocket_fine 2 each\n}"));
        var frame = FrameBuilder.Build(structure).All.Single();
        var meetings = frame.Meetings.Where(m => m.Pockets.Length > 0).ToList();
        Assert.NotEmpty(meetings);
        double angle = 15 * Math.PI / 180, depth = 0.375 * Inch / Math.Sin(angle) - 0.625 * Inch;
        Assert.All(meetings, m => Assert.Equal((Math.Round(depth, 6), 2, fromSide), (Math.Round(m.Pocket!.Depth, 6), m.Driven, m.Pocket.FromSide)));
        foreach (var (screw, _) in Meetings.Shafts(structure.Spec, frame))
        {
            var (from, to) = (frame.Panel.Face.ToLocal(screw.Head), frame.Panel.Face.ToLocal(screw.Point));
            // From one member into another: within the frame's depth, and half its length past the end.
            Assert.All(new[] { from, to }, p => Assert.InRange(-p.Z, frame.Below, frame.Below + frame.Depth));
            Assert.NotEqual(frame.Members.Single(m => m.Outline.Contains(new Vec2(from.X, from.Y))).Key, frame.Members.Single(m => m.Outline.Contains(new Vec2(to.X, to.Y))).Key);
        }
        Assert.Equal(meetings.Sum(m => m.Driven), frame.Members.Sum(m => m.Holes.Count(h => h.Kind == HoleKind.Pocket)));
    }

    [Fact]
    public void Stock_thicker_than_a_jig_is_set_for_is_bored_as_the_thickest() =>
        Assert.Equal(Pockets.For(1.5 * Inch, 2.5 * Inch)!.Depth, Pockets.For(3.5 * Inch, 2.5 * Inch)!.Depth, 9);
}
