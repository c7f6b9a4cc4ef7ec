using System.Globalization;
using Wain.Core;
using Wain.Core.Text;

namespace Wain.Tests.Framing;

/// <summary>
/// What rounding over takes is missing from skins and members. Checked against the section between an angle and its arc, r2 (cot(a / 2) - (pi - a) / 2), a
/// textbook's circular segment, and against thin slices added up.
/// </summary>
public class EdgeRoundingTests
{
    private const string Materials = """
        sheet ply_a { thickness 6 mm
            size 60 in by 120 in
            grain none }
        sheet small { thickness 6 mm
            size 600 mm by 700 mm
            grain none }
        stick strip { section 20 mm by 60 mm
            length 120 in }
        stack framed {
            sheet ply_a
            core frame of strip flat
            sheet ply_a
        }
        stack solid { sheet ply_a }
        stack spliced { sheet small }

        """;

    private static double Volume(string stack, string facts)
    {
        var made = Compiler.Compile(new SourceText("example.wain", (Materials + $$"""
            panel deck of {{stack}} {
                through (0 mm, 300 mm, 0 mm) along (0 mm, -300 mm, 0 mm) up (1000 mm, 300 mm, 0 mm)
                outside up
            {{facts}}
            }
            """).ReplaceLineEndings("\n"))).Design!;
        return made.Pieces.All.Sum(p => p.Volume * p.Count) + made.Frames.Members.Sum(m => m.Volume);
    }

    private static double Taken(string stack, string facts, string without = "") => Volume(stack, without) - Volume(stack, $"{without}\n{facts}");

    private static string Mm(double mm) => mm.ToString(CultureInfo.InvariantCulture) + " mm";

    [Theory]
    [InlineData(2)]
    [InlineData(5.5)]
    [InlineData(18)]
    public void Along_one_edge_it_is_the_section_times_the_length(double radius) =>
        Assert.Equal(radius * radius * (1 - Math.PI / 4) * 1000, Taken("framed", $"rounded left {Mm(radius)}"), 2);

    [Theory]
    [InlineData(25)]
    [InlineData(-25)]
    public void On_a_bevelled_edge_it_lies_in_that_angle(double bevel)
    {
        double angle = Math.PI / 2 - bevel * Math.PI / 180, section = 9 * (1 / Math.Tan(angle / 2) - (Math.PI - angle) / 2);
        Assert.Equal(section * 1000, Taken("framed", "rounded left 3 mm", FormattableString.Invariant($"bevel left {bevel} deg")), 2);
    }

    [Fact]
    public void Round_a_corner_what_two_edges_share_is_taken_once()
    {
        double SetBack(double depth) => 5 - Math.Sqrt(25 - (5 - depth) * (5 - depth));
        Assert.Equal(Slices(d => 1000 * 600 - (1000 - 2 * SetBack(d)) * (600 - 2 * SetBack(d))), Taken("solid", "rounded all 5 mm"), 2);
    }

    /// <summary>Two straight sides and an arc: inside of a corner of radius R its arc has radius R less the set-back.</summary>
    [Fact]
    public void It_follows_a_round_corner()
    {
        const string corner = "rounded_corner upper_right 200 mm";
        double SetBack(double depth) => 5 - Math.Sqrt(25 - (5 - depth) * (5 - depth));
        double Area(double back) => (1000 - 2 * back) * (600 - 2 * back) - (200 - back) * (200 - back) * (1 - Math.PI / 4);
        Assert.Equal(Slices(d => Area(0) - Area(SetBack(d))), Taken("solid", "rounded all 5 mm", corner), 1);
    }

    /// <summary>Round a corner between a square side and a bevelled one the arc below the face has a step at one end; the rounding of another side is taken all the same.</summary>
    [Fact]
    public void A_round_corner_between_unlike_bevels_hides_no_rounding()
    {
        const string corner = "rounded_corner upper_right 200 mm\nbevel right 20 deg";
        Assert.Equal(25 * (1 - Math.PI / 4) * 1000, Taken("solid", "rounded left 5 mm", corner), 1);
    }

    [Fact]
    public void Pieces_that_lap_lose_it_once()
    {
        const string splice = "splice across length {\n lap width 50 mm\n lap depth half\n}";
        Assert.Equal(25 * (1 - Math.PI / 4) * 1000, Taken("spliced", "rounded left 5 mm", splice), 2);
    }

    // A hundred thousand slices of what is rounded 5 mm.
    private static double Slices(Func<double, double> area)
    {
        const int count = 100_000;
        double sum = 0;
        for (int i = 0; i < count; i++) sum += area(5 * (i + 0.5) / count);
        return sum * 5 / count;
    }
}
