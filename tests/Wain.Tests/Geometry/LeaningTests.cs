using Wain.Core;
using Wain.Core.Text;

namespace Wain.Tests.Geometry;

/// <summary>A raked panel begins at the face of each panel that looks toward the other, whichever of the two is its outside.</summary>
public sealed class LeaningTests
{
    // A deck of 12 mm with its top 300 mm up and a shelf of 12 mm with its underside 700 mm up, told from either face.
    private static Compilation Compiled(string deck, string shelf, string more = "") => Compiler.Compile(new SourceText("lean.wain", $$"""
        sheet ply { thickness 12 mm
            size 1220 mm by 2440 mm
            density 600 kg/m3 }
        stack board { sheet ply }
        plan below {
            start at (0 mm, 500 mm)
            leg left run 1000 mm
            leg front across 1000 mm
            leg right run 1000 mm, aft
            leg rear home, across 1000 mm
        }
        plan above {
            start at (0 mm, 500 mm)
            leg left run 300 mm
            leg front across 1000 mm
            leg right run 300 mm, aft
            leg rear home, across 1000 mm
        }
        panel deck of board { covers plan below, {{deck}} }
        panel shelf of board { covers plan above, {{shelf}} }
        panel cover of board {
            leans from deck.front to shelf.front
            {{more}}
        }

        """));

    [Theory]
    [InlineData("top at 300 mm", "underside at 700 mm")]
    [InlineData("underside at 288 mm", "underside at 700 mm")]
    [InlineData("top at 300 mm", "top at 712 mm")]
    [InlineData("underside at 288 mm", "top at 712 mm")]
    [InlineData("underside at 288 mm", "top at 712 mm", "outside up")]
    public void From_the_top_of_the_lower_to_the_bottom_of_the_upper(string deck, string shelf, string more = "")
    {
        var cover = Compiled(deck, shelf, more).Structure!.Panel("cover")!;
        var corners = cover.Outline.Corners.Select(c => cover.Face.ToWorld(c)).ToList();
        Assert.Equal([300.0, 300, 700, 700], corners.Select(c => Math.Round(c.Z, 6)).Order());
        // From the front edge of the one to that of the other.
        Assert.Equal(700, corners.Max(c => c.X) - corners.Min(c => c.X), 6);
    }

    /// <summary>The board goes along the edge of the deck as it does where the deck faces up: no more of it is in the deck.</summary>
    [Fact]
    public void A_deck_that_faces_down_is_not_run_through()
    {
        static List<string> Clashes(Compilation compiled) => [.. compiled.Findings.Where(f => f.Code == "WN4301").Select(f => f.Message)];
        Assert.Equal(Clashes(Compiled("top at 300 mm", "underside at 700 mm")), Clashes(Compiled("underside at 288 mm", "top at 712 mm")));
    }
}
