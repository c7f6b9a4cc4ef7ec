using Wain.Core.Framing;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Pieces;
using static Wain.Tests.Framing.Designs;

namespace Wain.Tests.Framing;

public class PieceTests
{
    private static PieceList Build(Structure structure) => PieceBuilder.Build(structure, FrameBuilder.Build(structure));

    private const string Laps = "splice across length {\nlap width 1 1/2 in\nlap depth half\nglue epoxy\n";

    /// <summary>Plain arithmetic: a deck 140 in by 66 in of 1/4 in plywood from sheets of 48 in by 96 in laid across, with laps of 1 1/2 in routed 1/8 in
    /// from each piece: 48 + 46 1/2 + 46 1/2 reaches 140, so three sections, and they add to 140 + 2 * 1 1/2 = 143 in.</summary>
    [Fact]
    public void Deck_of_three_sections_adds_to_143_inches()
    {
        var pieces = Build(Place(Panel("deck", "skin", 140, 66, Laps.Replace("half", "1/8 in") + "}")));
        Assert.Empty(pieces.Problems);
        Assert.Equal(["deck.ply_quarter.a", "deck.ply_quarter.b", "deck.ply_quarter.c"], pieces.All.Select(p => p.PartMark));
        Assert.Equal(143 * Inch, pieces.All.Sum(p => p.Rough.Bounds.Width), 6);
        Assert.Equal(48 * Inch, pieces.All[0].Rough.Bounds.Width, 6);
        Assert.All(pieces.All, p => Assert.True(p.BlankWidth <= 48 * Inch + 1e-6 && p.BlankLength <= 96 * Inch));
        // Wood that is routed off the laps is not counted: what is left is the deck.
        Assert.Equal(140 * 66 * 0.25 * Math.Pow(Inch, 3), pieces.All.Sum(p => p.Volume), 1);
        Assert.Equal(2, pieces.Splices.Length);
        Assert.All(pieces.Splices, s => Assert.Equal(66 * 1.5 * Inch * Inch, s.GlueArea, 6));
    }

    /// <summary>Wood Handbook (GTR-190), chapter on fastenings: scarf slopes of 1:8 and flatter. At 8 to 1 in 6.35 mm a scarf takes 50.8 mm.</summary>
    [Fact]
    public void A_scarf_takes_its_slope_and_a_butt_nothing()
    {
        var scarf = Build(Place(Panel("deck", "skin", 90, 66, "splice across length {\nscarf 8\n}")));
        Assert.Equal((90 + 2) * Inch, scarf.All.Sum(p => p.Rough.Bounds.Width), 6);
        Assert.Equal(90 * 66 * 0.25 * Math.Pow(Inch, 3), scarf.All.Sum(p => p.Volume), 1);
        var butt = Build(Place(Panel("deck", "skin", 90, 66, "splice across length {\nbutt backed by 4 in\n}")));
        Assert.Equal(90 * Inch, butt.All.Sum(p => p.Rough.Bounds.Width), 6);
        Assert.Equal(66 * 4 * Inch * Inch, Assert.Single(butt.Splices).GlueArea, 6);
    }

    [Fact]
    public void Splices_lie_over_studs_and_stagger_between_the_faces()
    {
        var pieces = Build(Place(Panel("wall", "wall_stack", 140, 46, "frame {\nstuds every 16 in, on centre\n}\n" + Laps + "over stud\nstaggered by 10 in\nleast piece 20 in\n}")));
        Assert.DoesNotContain(pieces.Problems, p => p.Kind is PieceProblemKind.NotOverMember or PieceProblemKind.NotStaggered or PieceProblemKind.PieceTooShort);
        Assert.Equal(2, pieces.Splices.Length);
        Assert.All(pieces.Splices, s => Assert.Equal(0, s.At / Inch % 16, 6));
        Assert.True(Math.Abs(pieces.Splices[0].At - pieces.Splices[1].At) >= 10 * Inch);
        Assert.All(pieces.Splices, s => Assert.NotNull(s.OverMember));
        Assert.All(pieces.All.Where(p => p.Layer.Kind == Core.Model.LayerKind.Sheet), p => Assert.InRange(p.BlankLength, 20 * Inch, 96 * Inch));
    }

    /// <summary>Random lengths, laps and stock: the pieces add to the length and the laps, none is longer than the stock, and the count is the least that does it.</summary>
    [Fact]
    public void Pieces_and_laps_add_to_the_length() => CsCheck.Check.Sample(
        CsCheck.Gen.Select(CsCheck.Gen.Double[500, 9000], CsCheck.Gen.Double[0, 80], CsCheck.Gen.Double[900, 2500]), (length, lap, stock) =>
        {
            var places = SplicePlanner.Place(new SpliceQuestion(0, length, lap, stock, lap + 1, false, [], [], 0))!.Value;
            double begin = 0, sum = 0;
            foreach (double end in places.Select(p => p + lap / 2).Append(length))
            {
                Assert.InRange(end - begin, 0, stock + 1e-3);
                sum += end - begin;
                begin = end - lap;
            }
            Assert.Equal(length + places.Length * lap, sum, 1e-6);
            Assert.True(places.Length == 0 || length > places.Length * stock - (places.Length - 1) * lap, "one piece fewer would have done");
        }, iter: 2000, threads: 1);

    [Fact]
    public void Skins_are_net_of_openings_recesses_and_bevels()
    {
        var structure = Place(Panel("wall", "wall_stack", 60, 30, """
            opening window {
                size 20 in by 10 in
                lower left at (20 in, 10 in)
                recessed 10 mm, margin 2 in
            }
            bevel right 45 deg
            trimmed_flush top, allowance 1/4 in
            """));
        var pieces = Build(structure);
        var outside = Assert.Single(pieces.All, p => p.Key == "ply_6mm");
        var inside = Assert.Single(pieces.All, p => p.Key == "ply_4mm");
        Assert.Equal((60 * 30 - 24 * 14) * Inch * Inch, outside.Area, 3);
        // The inner skin begins 25.05 mm down, where a bevel of 45 degrees has taken as much off.
        Assert.Equal((60 * Inch - 25.05) * 30 * Inch - 20 * 10 * Inch * Inch, inside.Area, 3);
        Assert.Equal(30.25 * Inch, outside.Rough.Bounds.Height, 6);
        Assert.Equal(60 * Inch, outside.Rough.Bounds.Width, 6);
        double depth = 6, exact = (60 * Inch * depth - depth * depth / 2) * 30 * Inch - 24 * 14 * Inch * Inch * depth;
        Assert.Equal(exact, outside.Volume, 1);
    }

    [Fact]
    public void Foam_is_ripped_to_the_frame_and_fills_every_bay()
    {
        var structure = Place(Panel("wall", "thick_stack", 60, 30, "frame {\nstuds every 16 in\n}"));
        var frame = OnlyFrame(structure);
        var blocks = Build(structure).All.Where(p => p.Cavity is not null).ToList();
        Assert.Equal(frame.Cavities.Length, blocks.Count);
        Assert.All(blocks, b => Assert.Equal(1.5 * Inch, b.Thickness, 9));
        Assert.Equal(frame.Cavities.Sum(c => c.Volume), blocks.Sum(b => b.Volume), 3);
    }

    /// <summary>A roll 50 in wide with laps of 1 in: 80 in take two lengths, of 50 in and 31 in.</summary>
    [Fact]
    public void Cloth_comes_off_the_roll_in_lengths_that_lap()
    {
        var structure = Place("stack glassed {\ncloth glass\nsheet ply_quarter\n}\n" + Panel("deck", "glassed", 90, 80, Laps + "}"));
        var lengths = Build(structure).All.Where(p => p.Layer.Kind == Core.Model.LayerKind.Cloth).ToList();
        Assert.Equal([50 * Inch, 31 * Inch], lengths.Select(p => Math.Round(p.BlankWidth, 6)));
        Assert.All(lengths, p => Assert.Equal(90 * Inch, p.BlankLength, 6));
        // 6 oz/yd2 is 203.43 g/m2: one ounce is 28.349523125 g and one yard 0.9144 m by definition.
        double area = 81 * 90 * Inch * Inch / 1e6;
        Assert.Equal(6 * 0.028349523125 / (0.9144 * 0.9144) * area, lengths.Sum(p => p.Mass!.Value), 6);
    }

    [Fact]
    public void Marks_stay_when_other_parts_change()
    {
        string deck = Panel("deck", "skin", 140, 66, Laps + "}"), wall = Panel("wall", "wall_stack", 60, 30, "frame {\nstuds every 16 in\n}"), other = Panel("other", "thick_stack", 40, 20, "");
        Dictionary<string, string> Marks(string text)
        {
            var structure = Place(text);
            var frames = FrameBuilder.Build(structure);
            return PieceBuilder.Build(structure, frames).All.Select(p => (p.PartMark, Size: $"{p.Panel.Name} {p.BlankLength:0.000} {p.BlankWidth:0.000} {p.Below:0.000}"))
                .Concat(frames.Members.Select(m => (m.PartMark, Size: $"{m.Panel.Name} {m.LongPoint:0.000} {m.CentreLine.From.X:0.000} {m.CentreLine.From.Y:0.000}"))).ToDictionary(p => p.PartMark, p => p.Size);
        }
        var first = Marks(deck + wall);
        var more = Marks(other + wall + deck);
        Assert.All(first, p => Assert.Equal(p.Value, more[p.Key]));
        Assert.Equal(Marks(wall), Marks(deck + wall).Where(p => p.Key.StartsWith("wall.", StringComparison.Ordinal)).ToDictionary());
    }

    [Fact]
    public void A_mirrored_panel_is_spliced_in_mirror_image()
    {
        var structure = Place(Panel("left_deck", "skin", 140, 66, Laps + "}") + "mirror left_deck as right_deck\n");
        var splices = Build(structure).Splices;
        Assert.Equal(4, splices.Length);
        Assert.Equal(splices.Take(2).Select(s => Math.Round(140 * Inch - s.At, 4)).Order(), splices.Skip(2).Select(s => Math.Round(s.At, 4)).Order());
    }

    /// <summary>A deck of 120 in by 110 in is too large for one row of sheets of 48 in by 96 in: rows of rows, and no wood counted twice where four pieces meet.</summary>
    [Fact]
    public void A_skin_too_large_both_ways_is_spliced_both_ways()
    {
        var pieces = Build(Place(Panel("deck", "skin", 120, 110, Laps + "}\n" + Laps.Replace("across length", "across width", StringComparison.Ordinal) + "}")));
        Assert.Empty(pieces.Problems);
        Assert.All(pieces.All, p => Assert.True(p.BlankWidth <= 48 * Inch + 1e-6 && p.BlankLength <= 96 * Inch + 1e-6));
        Assert.Equal(120 * 110 * 0.25 * Math.Pow(Inch, 3), pieces.All.Sum(p => p.Volume), 1);
        Assert.Equal(pieces.All.Length, pieces.All.Select(p => p.PartMark).Distinct().Count());
    }
}
