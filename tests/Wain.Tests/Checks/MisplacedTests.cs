using Wain.Core;
using Wain.Core.Findings;
using Wain.Core.Text;

namespace Wain.Tests.Checks;

/// <summary>Panels that hang in the air, lean out of square or meet on another face than is said, and walls that are said to stop where they never meet: told with the amount and what mends it.</summary>
public class MisplacedTests
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
        panel floor of board { covers plan box, top at 0 in
            outside up }
        panel side of board { stands on box.left, from floor.top to 30 in
        SAID
        }
        panel nose of board { stands on box.front, from floor.top to 30 in }

        """;

    private static string With(string said, string more = "") => (Box.Replace("SAID\n", said + "\n", StringComparison.Ordinal) + more).ReplaceLineEndings("\n");

    private static IReadOnlyList<Finding> Compile(string text) => Compiler.Compile(new SourceText("box.wain", text)).Findings;

    // Written into the text, the value makes the finding go, and brings no error.
    private static void Mends(string text, Finding told)
    {
        Assert.NotEmpty(told.Fixes);
        foreach (var fix in told.Fixes)
        {
            var after = Compile(text[..fix.Place.Start] + fix.Text + text[fix.Place.End..]);
            Assert.DoesNotContain(after, f => f.Code == told.Code || f.Level == Level.Error);
        }
    }

    [Theory]
    [InlineData("on the other side of the camper", "    stops at far", "box.right", "which meets it at no corner of a plan", "nose")]
    [InlineData("on a leg of another plan", "    runs through far", "loft.front", "which meets it at no corner of a plan", "nose")]
    public void A_wall_elsewhere_has_no_say_at_a_corner(string why, string said, string leg, string words, string meant)
    {
        string text = With(said, $"panel far of board {{ stands on {leg}, from floor.top to 10 in }}\nplan loft from box, inward by 3 in {{ }}\n");
        var told = Assert.Single(Compile(text), f => f.Code == "WN3018");
        Assert.Contains(words, told.Message);
        Assert.Equal(meant, Assert.Single(told.Fixes).Text);
        Mends(text, told);
        Assert.DoesNotContain(Compile(text.Replace("through far", "through nose", StringComparison.Ordinal).Replace("at far", "at nose", StringComparison.Ordinal)), f => f.Code == "WN3018");
        Assert.NotEmpty(why);
    }

    [Fact]
    public void A_panel_with_points_of_its_own_stops_where_they_say()
    {
        string text = With("", "panel part of board { spans from (-20 in, -10 in) to (-20 in, 10 in), standing on floor.top, up to 20 in\n    stops at nose\n}\n");
        var told = Assert.Single(Compile(text), f => f.Code == "WN3018");
        Assert.Contains("no leg of a plan", told.Hint);
        Mends(text, told);
    }

    /// <summary>A shelf 5 in over the floor, 3 in off the side and more from the nose: 3 in away from the side, and the panel that a lift holds is not told.</summary>
    [Fact]
    public void A_panel_in_the_air_is_told_with_what_is_nearest()
    {
        const string shelf = "panel shelf of board { through (-30 in, 17 in - side.thickness, 5 in) along (-30 in, 2 in, 5 in) up (-15 in, 17 in - side.thickness, 5 in)\n outside up\n}\n";
        var told = Assert.Single(Compile(With("", shelf)), f => f.Code == "WN4312");
        Assert.Contains("shelf touches no other panel; side is nearest, 3 in away", told.Message);
        Assert.DoesNotContain(Compile(With("", shelf + "lift up { carries { shelf }\n travel 10 in\n}\n")), f => f.Code == "WN4312");
        Assert.DoesNotContain(Compile(With("", shelf + "joint shelf.left to side.inside { gap at most 4 in }\n")), f => f.Code == "WN4312");
        Assert.DoesNotContain(Compile(With("", shelf.Replace("17 in", "20 in", StringComparison.Ordinal))), f => f.Code == "WN4312");
    }

    /// <summary>A post that ends at a number 2 in over the floor is run down to it.</summary>
    [Fact]
    public void A_post_that_misses_the_floor_is_run_to_it()
    {
        string text = With("", "panel post of board { spans from (-20 in, 5 in) to (-20 in, -5 in), standing on 2 in, up to 20 in }\n");
        var told = Assert.Single(Compile(text), f => f.Code == "WN4312");
        Assert.Equal("floor.top", Assert.Single(told.Fixes).Text);
        Mends(text, told);
    }

    [Theory]
    [InlineData("side.bottom to floor.bottom", "top")]
    [InlineData("side.bottom to floor.inside", "outside")]
    [InlineData("floor.bottom to side.bottom", "top")]
    public void A_wall_is_joined_to_the_face_that_it_stands_on(string sides, string face)
    {
        string text = With("", $"joint {sides} {{\n    glue glue\n}}\n");
        var told = Assert.Single(Compile(text), f => f.Code == "WN4003");
        Assert.Contains($"side.bottom meets floor on its {face}", told.Message);
        Assert.Equal($"floor.{face}", Assert.Single(told.Fixes).Text);
        Mends(text, told);
    }

    /// <summary>A keel on the centre line has its inside where its outside is on the other side: the mirror of a joint is on that face, and isn't told.</summary>
    [Fact]
    public void A_mirrored_joint_meets_the_other_face_of_a_panel_on_the_centre_line()
    {
        string text = With("", """
            panel keel of board { spans from (-10 in, 6 mm) to (-30 in, 6 mm), standing on floor.top, up to 20 in }
            panel cross of board { spans from (-20 in, 20 in - side.thickness) to (-20 in, 6 mm), standing on floor.top, up to 20 in }
            mirror cross as other_cross
            joint cross.right to keel.outside { glue glue }

            """);
        var made = Compiler.Compile(new SourceText("box.wain", text.ReplaceLineEndings("\n")));
        Assert.DoesNotContain(made.Findings, f => f.Code == "WN4003");
        Assert.Equal(["outside", "inside"], made.Structure!.Joints.Select(j => j.Second.Name));
    }

    /// <summary>By hand: the third point stands 3 in aside of the first, along a bottom that runs toward the right.</summary>
    [Theory]
    [InlineData("(-30 in, 7 in, 20 in)", "3 in to the right")]
    [InlineData("(-30 in, 13 in, 20 in)", "3 in to the left")]
    public void Three_points_out_of_square_are_told(string up, string words)
    {
        string text = With("", $"panel part of board {{ through (-30 in, 10 in, 0 in) along (-30 in, -5 in, 0 in) up {up} }}\n");
        var told = Assert.Single(Compile(text), f => f.Code == "WN3019");
        Assert.Contains(words, told.Message);
        Assert.Equal("(-30 in, 10 in, 20 in)", Assert.Single(told.Fixes).Text);
        Mends(text, told);
    }
}
