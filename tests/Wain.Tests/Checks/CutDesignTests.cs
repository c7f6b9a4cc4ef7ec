using Wain.Core;
using Wain.Core.Checks;
using Wain.Core.Findings;
using Wain.Core.Text;

namespace Wain.Tests.Checks;

/// <summary>The mark of a design changes with what is cut and with nothing else.</summary>
public class CutDesignTests
{
    private const string Spec = """
        sheet ply { thickness 6 mm
            size 48 in by 96 in }
        stick strip { section 3/4 in by 1 1/2 in
            length 96 in }
        board foam { thickness 1 in
            size 48 in by 96 in }
        stack wall_stack {
            sheet ply
            core frame of strip flat, filled with foam
            sheet ply
        }
        panel wall of wall_stack {
            through (0 in, 0 in, 0 in) along (0 in, -40 in, 0 in) up (0 in, 0 in, 30 in)
            frame { studs every 16 in, from left }
        }
        built NAME { cut on 2026-10-17MARK }

        """;

    private static IEnumerable<Finding> Told(string name, string mark, params (string Old, string New)[] changes)
    {
        string text = changes.Aggregate(Spec, (t, c) => t.Replace(c.Old, c.New, StringComparison.Ordinal)).Replace("NAME", name, StringComparison.Ordinal).Replace("MARK", mark, StringComparison.Ordinal);
        return Compiler.Compile(new SourceText("t.wain", text.ReplaceLineEndings("\n"))).Findings.Where(f => f.Code is "WN4501" or "WN4502");
    }

    private static string MarkOf(string name) => Assert.Single(Told(name, ""), f => f.Code == CutDesign.Unmarked.Code).Fixes[0].Text;

    [Theory]
    [InlineData("wall")]
    [InlineData("wall.rail_top")]
    public void A_part_cut_to_the_design_as_it_stands_raises_nothing(string name) => Assert.Empty(Told(name, MarkOf(name)));

    [Theory]
    [InlineData("-40 in, 0 in", "-40 1/16 in, 0 in")]
    [InlineData("thickness 6 mm", "thickness 6.3 mm")]
    [InlineData("every 16 in", "every 15 in")]
    public void A_change_of_what_is_cut_is_told(string old, string @new)
    {
        var told = Assert.Single(Told("wall", MarkOf("wall"), (old, @new)));
        Assert.Equal("WN4501", told.Code);
        Assert.Contains("was cut to design", told.Message, StringComparison.Ordinal);
    }

    /// <summary>A part asks only for itself: studs set closer leave the top rail as it is.</summary>
    [Fact]
    public void A_change_of_another_part_is_not_told() => Assert.Empty(Told("wall.rail_top", MarkOf("wall.rail_top"), ("every 16 in", "every 15 in")));

    [Fact]
    public void A_move_without_a_change_of_shape_is_not_told() =>
        Assert.Empty(Told("wall", MarkOf("wall"), ("(0 in, 0 in, 0 in) along (0 in, -40 in, 0 in) up (0 in, 0 in, 30 in)", "(5 in, 2 in, 1 in) along (5 in, -38 in, 1 in) up (5 in, 2 in, 31 in)")));

    /// <summary>Quarters of an inch lie on halves of a tenth of a millimetre; where a part stands moves the last bits of such sizes and not its mark.</summary>
    [Fact]
    public void No_move_whatever_changes_a_mark()
    {
        (string, string) shape = ("-40 in, 0 in) up (0 in, 0 in, 30 in", "-40 1/4 in, 0 in) up (0 in, 0 in, 30 3/4 in");
        string mark = Assert.Single(Told("wall", "", shape), f => f.Code == CutDesign.Unmarked.Code).Fixes[0].Text;
        for (int i = 1; i <= 40; i++)
        {
            string by = $"{i}/7 in";
            Assert.Empty(Told("wall", mark, shape, ("(0 in, 0 in, 0 in) along (0 in, -40 1/4 in, 0 in) up (0 in, 0 in, 30 3/4 in)", $"({by}, {by}, {by}) along ({by}, {by} - 40 1/4 in, {by}) up ({by}, {by}, {by} + 30 3/4 in)")));
        }
    }
}
