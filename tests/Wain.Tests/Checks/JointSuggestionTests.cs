using Wain.Core;
using Wain.Core.Findings;
using Wain.Core.Text;

namespace Wain.Tests.Checks;

/// <summary>What is said of joints that name the wrong edge or panel, that nothing holds, and of splices that nothing needs.</summary>
public class JointSuggestionTests
{
    private const string Box = """
        sheet ply { thickness 12 mm
            size 48 in by 96 in }
        adhesive glue { spread 200 g/m2
            density 1.1 g/cm3 }
        stack board { sheet ply }
        plan box { start at (-40 in, 20 in)
            leg left run 40 in
            leg front across 40 in
            leg right mirror of left
            leg aft home, across 40 in }
        panel floor of board { covers plan box, top at 0 in }
        panel side of board { stands on box.left, from floor.top to 30 in }
        panel nose of board { stands on box.front, from floor.top to 30 in }
        panel roof of board { covers plan box, underside at 30 in }

        """;

    private static IReadOnlyList<Finding> Compile(string text) => Compiler.Compile(new SourceText("box.wain", text.ReplaceLineEndings("\n"))).Findings;

    private static string Mended(string text, Fix fix) => text[..fix.Place.Start] + fix.Text + text[fix.Place.End..];

    [Theory]
    // The upper edge named for the lower one; the roof may have been meant as well.
    [InlineData("side.top to floor.top", "side.bottom|roof.bottom")]
    // The aft end for the forward one: of the front wall the two ends run through, and nothing else meets there.
    [InlineData("side.right to nose.inside", "side.left")]
    [InlineData("nose.top to floor.top", "nose.bottom|roof.bottom")]
    [InlineData("floor.top to nose.top", "nose.bottom|roof.bottom")]
    public void A_wrong_edge_is_told_with_what_meets(string sides, string written)
    {
        string text = (Box + $"joint {sides} {{\n    butt\n    glue glue\n}}\n").ReplaceLineEndings("\n");
        var told = Assert.Single(Compile(text), f => f.Code == "WN4003");
        Assert.Equal(written, string.Join("|", told.Fixes.Select(f => f.Text)));
        Assert.All(told.Fixes, fix => Assert.DoesNotContain(Compile(Mended(text, fix)), f => f.Code == "WN4003"));
        Assert.Contains("meets", told.Hint);
    }

    /// <summary>Within a group its parts go by their own names, and what stands outside by the one that it has everywhere.</summary>
    [Fact]
    public void What_is_to_be_written_in_a_group_is_named_as_there()
    {
        string text = (Box + """
            group locker(side) {
                plan lid_plan { start at (-10 in, side)
                    leg outer run 10 in
                    leg fore across 8 in, right
                    leg inner run 10 in, aft
                    leg back home }
                panel lid of board { covers plan lid_plan, top at 12 in }
                panel face of board { spans from (-10 in, side - 6 in) to (0 in, side - 6 in), standing on floor.top, up to 11 1/2 in }
                joint face.top to floor.top { butt
                    glue glue }
            }
            place locker(15 in) as port

            """).ReplaceLineEndings("\n");
        Assert.Equal("face.bottom|lid.bottom", string.Join("|", Assert.Single(Compile(text), f => f.Code == "WN4003").Fixes.Select(f => f.Text)));
        var reaching = Assert.Single(Compile(text.Replace("11 1/2 in", "11 1/4 in", StringComparison.Ordinal).Replace("face.top to floor.top", "face.top to lid.bottom", StringComparison.Ordinal)), f => f.Code == "WN4003");
        Assert.Equal("lid.bottom", Assert.Single(reaching.Fixes).Text);
    }

    [Fact]
    public void An_edge_that_has_its_joint_is_not_offered_again()
    {
        string text = Box + "joint side.bottom to floor.top {\n    butt\n    glue glue\n}\njoint side.top to floor.top {\n    butt\n    glue glue\n}\n";
        var told = Assert.Single(Compile(text), f => f.Code == "WN4003");
        Assert.Equal(["roof.bottom"], told.Fixes.Select(f => f.Text));
        Assert.Equal("Its edge top meets roof.", told.Hint);
    }

    /// <summary>The lower edge of the front wall only crosses the seam at its end; its side runs along it.</summary>
    [Theory]
    [InlineData("side.left to nose.bottom", "Its edge right is there.", "nose.right")]
    [InlineData("side.left to nose.left", "Its edge right is there.", "nose.right")]
    // A wall under the edge of a board stands on its face and not at its edge.
    [InlineData("post.top to shelf.top", "It is met on its inside.", "shelf.inside")]
    public void The_edge_that_runs_along_the_seam_is_named(string sides, string hint, string written)
    {
        string text = (Box.Replace("panel roof", """
            panel post of board { spans from (-30 in, 0 in) to (-10 in, 0 in), standing on floor.top, up to 15 in }
            panel shelf of board { through (-30 in, 0 in, 15 in + 12 mm) along (-10 in, 0 in, 15 in + 12 mm) up (-30 in, 12 in, 15 in + 12 mm) }
            panel roof
            """, StringComparison.Ordinal) + $"joint {sides} {{\n    butt\n    glue glue\n}}\n").ReplaceLineEndings("\n");
        var told = Assert.Single(Compile(text), f => f.Code == "WN4003");
        Assert.Equal(hint, told.Hint);
        Assert.Equal(written, Assert.Single(told.Fixes).Text);
        Assert.DoesNotContain(Compile(Mended(text, told.Fixes[0])), f => f.Code == "WN4003");
    }

    /// <summary>A partition that ends where its step begins is run on by the step; one whose other end was meant is told that alone.</summary>
    [Fact]
    public void A_partition_runs_on_into_its_step()
    {
        string With(string edge) => (Box.Replace("panel roof", """
            panel keel of board { spans from (-30 in, 6 mm) to (-10 in, 6 mm), standing on floor.top, up to 15 in }
            panel cross of board { spans from (-20 in, 15 in) to (-20 in, 6 mm + 4 mm), standing on floor.top, up to 15 in }
            panel roof
            """, StringComparison.Ordinal) + $"joint cross.{edge} to keel.inside {{\n    rabbet depth 6 mm\n    glue glue\n}}\n").ReplaceLineEndings("\n");
        string text = With("right");
        var told = Assert.Single(Compile(text), f => f.Code is "WN4003" or "WN4209");
        Assert.Equal("WN4209", told.Code);
        Assert.DoesNotContain(Compile(Mended(text, Assert.Single(told.Fixes))), f => f.Code is "WN4003" or "WN4209");
        Assert.Equal("WN4003", Assert.Single(Compile(With("left")), f => f.Code is "WN4003" or "WN4209").Code);
    }

    private static List<Finding> Unheld(params string[] bodies)
    {
        string[] sides = ["side.bottom to floor.top", "nose.bottom to floor.top", "side.top to roof.bottom"];
        return [.. Compile(Box + string.Concat(bodies.Select((b, i) => $"joint {sides[i]} {{\n    butt\n    {b}\n}}\n"))).Where(f => f.Code == "WN4006")];
    }

    [Fact]
    public void A_joint_that_nothing_holds_is_told_beside_one_that_is_held()
    {
        var told = Assert.Single(Unheld("glue glue", "", "glue glue"));
        Assert.Equal((Level.Warning, "nose.bottom to floor.top"), (told.Level, told.Subject));
        Assert.Equal("add the line glue glue", Assert.Single(told.Fixes).Label);
        Assert.Empty(Unheld("glue glue", "unglued", "gap at most 1/8 in"));
        // Sealant closes a joint and holds nothing.
        Assert.Equal(2, Unheld("glue glue", "through floor", "trim edging").Count);
    }

    [Fact]
    public void A_sketch_without_any_fastening_gets_one_note()
    {
        var told = Assert.Single(Unheld("", "", ""));
        Assert.Equal(Level.Note, told.Level);
        Assert.Contains("None of the 3 joints", told.Message);
        Assert.Equal(Level.Note, Assert.Single(Unheld("")).Level);
    }

    private static List<Finding> Idle(string size, string splice) => [.. Compile(Box.Replace("size 48 in by 96 in", size) + $"panel deck of board {{ through (0 in, 20 in, 60 in) along (0 in, -20 in, 60 in) up (90 in, 20 in, 60 in)\n    grain up\n{splice} }}\n").Where(f => f.Code == "WN4213")];

    [Theory]
    [InlineData("size 48 in by 96 in", "    splice across length { lap width 2 in\n lap depth half }", "joins nothing")]
    [InlineData("size 48 in by 96 in", "    splice across length at 30 in { lap width 2 in\n lap depth half }", "is not needed")]
    [InlineData("size 48 in by 80 in", "    splice across length { lap width 2 in\n lap depth half }", "")]
    // Its grain runs up the panel, and a sheet that is cut across has it the other way.
    [InlineData("size 96 in by 48 in", "    splice across length { lap width 2 in\n lap depth half }", "")]
    // The smallest of several sizes that covers it is named.
    [InlineData("size 60 in by 120 in\n    size 48 in by 96 in", "    splice across length { lap width 2 in\n lap depth half }", "one sheet of 48 in by 96 in")]
    public void A_splice_that_one_sheet_makes_needless_is_a_note(string size, string splice, string says)
    {
        var told = Idle(size, splice);
        if (says.Length == 0) Assert.Empty(told);
        else Assert.Contains(says, Assert.Single(told).Message);
    }

    [Fact]
    public void A_splice_of_a_loop_is_idle_only_if_no_panel_needs_it()
    {
        string Loop(string longest) => Box + $"for size in low = 80 in, high = {longest} {{\n    panel shelf[size] of board {{\n        through (0 in, 20 in, size.value) along (0 in, -20 in, size.value) up (size.value, 20 in, size.value)\n        splice across length {{ lap width 2 in\n lap depth half }}\n    }}\n}}\n";
        Assert.Empty(Compile(Loop("120 in")).Where(f => f.Code == "WN4213" || f.Level == Level.Error));
        Assert.Single(Compile(Loop("90 in")), f => f.Code == "WN4213");
    }
}
