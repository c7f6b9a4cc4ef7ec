using Wain.Core;
using Wain.Core.Drawing.Panels;
using Wain.Core.Geometry;
using Wain.Core.Text;

namespace Wain.Tests.Geometry;

/// <summary>Sides that reach beyond a panel's place or stay inside it, on walls as on decks. By hand.</summary>
public sealed class ReachedTests
{
    private const string Text = """
        sheet ply { thickness 12 mm
            size 48 in by 96 in }
        stack board { sheet ply }
        plan box { start at (-100 in, 30 in)
            leg left run 100 in
            leg front across 60 in
            leg right mirror of left
            leg aft home
            corners mitred }
        panel lid of board { covers plan box, underside at 40 in, pitched 2 deg toward aft
            outside up }
        panel side of board { stands on box.left, from 0 in to TOP
            FACT }
        panel fore of board { stands on box.front, from 0 in to lid.bottom }
        mirror side as other

        """;

    private static Structure Placed(string fact, string top = "40 in", string more = "")
    {
        var compiled = Compiler.Compile(new SourceText("reached.wain", Text.Replace("FACT", fact, StringComparison.Ordinal).Replace("TOP", top, StringComparison.Ordinal) + more));
        Assert.DoesNotContain(compiled.Findings, f => f.Code.StartsWith("WN3", StringComparison.Ordinal) && f.Level == Core.Findings.Level.Error);
        return compiled.Structure!;
    }

    [Theory]
    [InlineData("", 100, 40, 0)]
    [InlineData("inset top by 1/4 in", 100, 39.75, 0)]
    [InlineData("inset bottom by 1/4 in", 100, 39.75, 0.25)]
    [InlineData("overhang top by 2 in", 100, 42, 0)]
    [InlineData("inset right by 3 in\n overhang bottom by 1 in", 97, 41, -1)]
    [InlineData("inset all by 1 in", 98, 38, 1)]
    public void A_wall_ends_where_it_is_told_to(string fact, double width, double height, double foot)
    {
        var side = Placed(fact).Panel("side")!;
        Assert.Equal((width, height, foot), (Math.Round(side.Width / 25.4, 9), Math.Round(side.Height / 25.4, 9), Math.Round(side.Face.Origin.Z / 25.4, 9)));
    }

    /// <summary>The gap under a sloping lid is measured square to it, all along; the mirror has the same.</summary>
    [Theory]
    [InlineData("side")]
    [InlineData("other")]
    public void A_gap_under_a_sloping_lid_is_even(string name)
    {
        var structure = Placed("inset top by 1/4 in", "lid.bottom");
        var (lid, side) = (structure.Panel("lid")!, structure.Panel(name)!);
        int top = side.Outline.IndexOf("top");
        var segment = side.Outline.Segment(top);
        foreach (var end in new[] { segment.From, segment.To })
            Assert.Equal(6.35, (lid.Face.Origin - side.Face.ToWorld(end)).Dot(lid.Face.N) - lid.Thickness, 1e-3);
    }

    /// <summary>On the sheet an edge that keeps a gap is no butt, and says how wide the gap is and what closes it.</summary>
    [Fact]
    public void The_sheet_tells_the_gap()
    {
        const string more = "seal bulb { works between 1/8 in and 3/8 in }\njoint side.top to lid.bottom {\n gap between 1/8 in and 3/8 in\n seal bulb\n unglued\n}\n";
        var compiled = Compiler.Compile(new SourceText("reached.wain", Text.Replace("FACT", "inset top by 1/4 in", StringComparison.Ordinal).Replace("TOP", "lid.bottom", StringComparison.Ordinal) + more));
        var texts = DrawingBook.Sheets(compiled.Design!, new DrawingOptions { Camper = "Reached" }).Single(s => s.Name == "panel-side").Labels.Select(l => l.Text);
        Assert.Contains(texts, t => t.Contains("gap of 1/4 to lid.bottom, bulb.", StringComparison.Ordinal));
    }

    /// <summary>A mitred end that is drawn back keeps its bevel.</summary>
    [Fact]
    public void A_bevel_moves_along()
    {
        var (plain, inset) = (Placed("").Panel("side")!, Placed("inset left by 2 in").Panel("side")!);
        int left = plain.Outline.IndexOf("left");
        Assert.NotEqual(0, plain.Outline.Edges[left].Tilt);
        Assert.Equal(plain.Outline.Edges[left].Tilt, inset.Outline.Edges[inset.Outline.IndexOf("left")].Tilt, 1e-12);
        Assert.Equal(50.8, plain.Width - inset.Width, 1e-9);
    }

    [Fact]
    public void What_spans_two_points_does_so_too()
    {
        var post = Placed("", more: "panel post of board { spans from (-50 in, 20 in) to (-50 in, -20 in), standing on 0 in, up to 30 in\n inset left by 1 in\n overhang top by 1 in }\n").Panel("post")!;
        Assert.Equal((39, 31), (Math.Round(post.Width / 25.4, 9), Math.Round(post.Height / 25.4, 9)));
    }

    [Theory]
    [InlineData("inset top by 41 in", "nothing is left of it")]
    [InlineData("inset roof by 1 in", "roof")]
    public void What_can_not_be_is_told(string fact, string says)
    {
        var compiled = Compiler.Compile(new SourceText("reached.wain", Text.Replace("FACT", fact, StringComparison.Ordinal).Replace("TOP", "40 in", StringComparison.Ordinal)));
        Assert.Contains(compiled.Findings, f => f.Level == Core.Findings.Level.Error && f.Message.Contains(says, StringComparison.Ordinal));
    }
}
