using Wain.Core;
using Wain.Core.Drawing.Panels;
using Wain.Core.Framing;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Text;

namespace Wain.Tests.Drawing.Panels;

/// <summary>What a sheet tells of rabbets and grooves: where each begins and ends, along which edge, and each once. Sizes by hand.</summary>
public class StepSheetTests
{
    private const string Board = """
        sheet ply { thickness 12 mm
            size 1250 mm by 2500 mm }
        stack board { sheet ply }
        camper "Steps" { lengths millimetres }

        """;

    private static Design Compile(string text)
    {
        var compiled = Compiler.Compile(new SourceText("steps.wain", (Board + text).ReplaceLineEndings("\n")));
        Assert.True(compiled.Findings.All(f => f.Level < Core.Findings.Level.Error), string.Join("\n", compiled.Findings.Select(f => f.Message)));
        return compiled.Design!;
    }

    private static List<string> Texts(Design design, string panel) =>
        [.. PanelSheet.Outside(design, design.Structure.Panel(panel)!, new() { Camper = "Steps", Metric = true }).First().Labels.Select(l => l.Text)];

    private static string Notes(Design design, string panel) => string.Join(' ', Texts(design, panel));

    /// <summary>A board 800 mm by 300 mm with a groove across it, 12 mm wide from 494 mm to 506 mm: it begins and ends at edges and runs along none.</summary>
    [Fact]
    public void AGrooveFromEdgeToEdgeIsPlacedByItsSides()
    {
        var design = Compile("""
            panel keel of board { spans from (0 mm, 0 mm) to (-800 mm, 0 mm), standing on 0 mm, up to 300 mm }
            panel cross of board { spans from (-494 mm, 400 mm) to (-494 mm, -5 mm), standing on 0 mm, up to 300 mm }
            joint cross.right to keel.outside { rabbet depth 5 mm }
            """);
        string notes = Notes(design, "keel");
        Assert.Contains("Step 12 wide, 5 deep", notes, StringComparison.Ordinal);
        Assert.DoesNotContain("step 300 wide", notes, StringComparison.Ordinal);
        var bounds = PanelStep.Of(design.Structure, design.Structure.Panel("keel")!).Single().Taken(design.Structure.Panel("keel")!.Outline).Single().Bounds;
        Assert.Equal(12, bounds.Width, 6);
        Assert.Superset(new HashSet<string> { $"{bounds.Min.X:0}", $"{bounds.Max.X:0}" }, Texts(design, "keel").ToHashSet());
    }

    /// <summary>A lid 600 mm by 400 mm with a rabbet over a part of its left edge, from 100 mm to 250 mm up.</summary>
    [Fact]
    public void ThePartOfAnEdgeThatIsRabbetedIsMeasured()
    {
        var texts = Texts(Compile("panel side of board {\n    spans from (0 mm, 0 mm) to (-600 mm, 0 mm), standing on 0 mm, up to 400 mm\n    rabbet left 20 mm by 4 mm, over 100 mm to 250 mm\n}"), "side");
        Assert.Superset(new HashSet<string> { "0", "100", "250", "400", "600" }, texts.ToHashSet());
        Assert.DoesNotContain("20", texts);
    }

    /// <summary>The rabbet that a lid states for the side which stands in it is the one that their joint cuts: 12 mm by 6 mm over 500 mm, once.</summary>
    [Fact]
    public void ARabbetOfBothAPanelAndItsJointIsOne()
    {
        const string text = """
            panel lid of board {
                through (0 mm, 300 mm, 400 mm) along (0 mm, -300 mm, 400 mm) up (500 mm, 300 mm, 400 mm)
                outside up
                FACTS
            }
            panel side of board { spans from (500 mm, 300 mm) to (0 mm, 300 mm), standing on 0 mm, up to 394 mm }
            joint side.top to lid.inside { rabbet depth 6 mm }
            """;
        var alone = Compile(text.Replace("FACTS", "", StringComparison.Ordinal));
        string edge = alone.Structure.Panel("lid")! is var p && PanelStep.Of(alone.Structure, p).Single().Taken(p.Outline).Single().Bounds.Centre.X < p.Outline.Bounds.Centre.X ? "left" : "right";
        var both = Compile(text.Replace("FACTS", $"rabbet {edge} 12 mm by 6 mm from inside", StringComparison.Ordinal));
        double Volume(Design d) => d.Pieces.All.Where(q => q.Panel.Name == "lid").Sum(q => q.Volume);
        Assert.Equal(600 * 500 * 12 - 500 * 12 * 6, Volume(alone), 1);
        Assert.Equal(Volume(alone), Volume(both), 1);
        Assert.Single(PanelStep.Of(both.Structure, both.Structure.Panel("lid")!));
        Assert.Equal(1, Notes(both, "lid").Split("6 deep").Length - 1);
    }
}
