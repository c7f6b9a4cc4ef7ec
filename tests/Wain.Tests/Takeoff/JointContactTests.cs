using Wain.Core;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Text;
using static Wain.Tests.Takeoff.TakeoffSpecs;

namespace Wain.Tests.Takeoff;

/// <summary>What two panels touch with: how long the joint is, how wide, and at which angle. All against plain geometry.</summary>
public class JointContactTests
{
    private const string Materials = Ply + """
        sheet thick { thickness 30 mm
            size 48 in by 96 in
            density 600 kg/m3 }
        adhesive glue { spread 200 g/m2
            density 1100 kg/m3 }
        resin epoxy { density 1100 kg/m3 }
        filler silica { with epoxy
            bulk_density 50 kg/m3
            paste_density 1000 kg/m3
            consistency butter 2 }
        stack skin { sheet ply }
        stack heavy { sheet thick }
        plan body {
            start at (0 mm, 500 mm)
            leg left run 900 mm, aft
            leg rear across 1000 mm
            leg right run 900 mm
            leg front home
            corners CORNERS
        }

        """;

    private static string With(string corners) => Materials.Replace("CORNERS", corners, StringComparison.Ordinal);

    /// <summary>The foot of a wall that leans is as wide as its thickness over the cosine of the lean, and a cove behind it lies in the sharper angle whichever way the deck looks.</summary>
    [Theory]
    [InlineData("top at 0 mm")]
    [InlineData("underside at -6 mm")]
    public void A_wall_that_leans_stands_on_its_bevel(string level)
    {
        var run = Of(With("lapped") + $$"""
            panel floor of skin { covers plan body, {{level}} }
            panel left_side of heavy { stands on body.left, from floor.top to 400 mm, leaning 20 deg inward }
            joint left_side.bottom to floor.top {
                glue glue
                fillet silica radius 10 mm
            }
            """);
        double lean = 20 * Math.PI / 180, angle = Math.PI / 2 - lean;
        Assert.Equal(0.9 * 0.03 / Math.Cos(lean), run["left_side.bottom_to_floor.top.glue.area"], 9);
        Assert.Equal(0.9 * 1e-4 * (1 / Math.Tan(angle / 2) - (Math.PI - angle) / 2), run["left_side.bottom_to_floor.top.silica.volume"], 12);
    }

    /// <summary>Where two walls lean, the mitre and the foot between slanting ends are measured as polygons in space, by their corners.</summary>
    [Fact]
    public void Between_slanting_ends_it_is_the_polygon()
    {
        var run = Of(With("mitred") + """
            panel floor of skin { covers plan body, top at 0 mm }
            panel left_side of heavy { stands on body.left, from floor.top to 400 mm, leaning 5 deg inward }
            panel front_side of heavy { stands on body.front, from floor.top to 400 mm, leaning 12 deg inward }
            joint left_side.bottom to floor.top { glue glue }
            joint left_side.left to front_side.right {
                mitre
                glue glue
            }
            """);
        var wall = run.Structure.Panel("left_side")!;
        Assert.Equal(Side(wall, "bottom"), run["left_side.bottom_to_floor.top.glue.area"], 9);
        Assert.Equal(Side(wall, run.Structure.Joints[1].First.Name), run["left_side.left_to_front_side.right.glue.area"], 9);
    }

    // The surface of an edge, from the corners of both faces (m2).
    private static double Side(PlacedPanel panel, string edge)
    {
        var (outer, inner) = (panel.Outline.Segment(panel.Outline.IndexOf(edge)), panel.OutlineAt(panel.Thickness).Segment(panel.Outline.IndexOf(edge)));
        Vec3 a = panel.Face.ToWorld(outer.From), b = panel.Face.ToWorld(outer.To), c = panel.Face.ToWorld(inner.To, panel.Thickness), d = panel.Face.ToWorld(inner.From, panel.Thickness);
        return (c - a).Cross(d - b).Length / 2 / 1e6;
    }

    /// <summary>A wall across the whole camper that stands on narrow decks at its ends is joined to each as far as that reaches, and is not told to stand apart.</summary>
    [Fact]
    public void An_edge_is_joined_as_far_as_the_other_panel_reaches()
    {
        string text = With("lapped") + """
            plan wing_plan {
                start at (0 mm, 500 mm)
                leg outer run 900 mm, aft
                leg back across 100 mm
                leg inner run 900 mm
                leg fore home
            }
            panel wing of skin { covers plan wing_plan, top at 0 mm }
            mirror wing as other_wing
            panel back_wall of skin { stands on body.rear, from wing.top to 400 mm }
            joint back_wall.bottom to wing.top { glue glue }
            """;
        var run = Of(text);
        Assert.Equal([100, 100], run.Structure.Joints.Select(j => Math.Round(j.Length, 6)));
        Assert.Equal(0.1 * 0.006, run["back_wall.bottom_to_wing.top.glue.area"], 9);
        Assert.DoesNotContain(Compiler.Compile(new SourceText("wing.wain", text)).Findings, f => f.Code == "WN4003");
    }

    /// <summary>At a lapped corner the panel that stops gives the width of the glue line, whichever of the two the joint names first.</summary>
    [Theory]
    [InlineData("side.left to fore.right", "through left", 0.006)]
    [InlineData("fore.right to side.left", "through left", 0.006)]
    [InlineData("side.left to fore.right", "through front", 0.03)]
    [InlineData("fore.right to side.left", "through front", 0.03)]
    public void The_panel_that_stops_gives_the_width(string joint, string runs, double width)
    {
        var run = Of(With("lapped\n" + runs) + $$"""
            panel side of heavy { stands on body.left, from 0 mm to 400 mm }
            panel fore of skin { stands on body.front, from 0 mm to 400 mm }
            joint {{joint}} { glue glue }
            """);
        Assert.Equal(0.4 * width, run[joint.Replace(" ", "_", StringComparison.Ordinal) + ".glue.area"], 9);
        Assert.Equal(runs == "through left" ? "side" : "fore", run.Structure.Joints.Single().Through?.Name);
    }

    /// <summary>Two faces are glued over what they share: here 300 mm by 200 mm of a patch of 300 mm by 260 mm that reaches 60 mm past the edge.</summary>
    [Fact]
    public void Two_faces_are_glued_over_what_they_share()
    {
        var run = Of(With("lapped") + """
            panel floor of skin { covers plan body, top at 0 mm }
            panel patch of skin { through (-300 mm, 560 mm, 6 mm) along (-300 mm, 300 mm, 6 mm) up (0 mm, 560 mm, 6 mm) }
            joint patch.inside to floor.top { glue glue }
            """);
        Assert.Equal(0.3 * 0.2, run["patch.inside_to_floor.top.glue.area"], 9);
    }
}
