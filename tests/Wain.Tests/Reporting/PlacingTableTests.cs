using Wain.Core;
using Wain.Core.Reporting;
using Wain.Core.Text;
using Cells = Wain.Core.Reporting.Figures;

namespace Wain.Tests.Reporting;

/// <summary>The placing of panels as data, against corners worked out by hand.</summary>
public class PlacingTableTests
{
    /// <summary>A floor and a wall of 12 mm on its left side: the wall's outside face is on the plan's line, and it stands on the floor.</summary>
    [Fact]
    public void Corners_normals_and_thickness_are_those_of_the_sketch()
    {
        var structure = Compiler.Compile(new SourceText("a.wain", """
            camper "Small" {
                lengths millimetres
            }
            sheet ply { thickness 12 mm
                size 48 in by 96 in }
            stack board { sheet ply }
            plan body {
                start at (-900 mm, 400 mm)
                leg left run 900 mm
                leg front across 800 mm
                leg right run 900 mm
                leg rear home
                through left
            }
            panel floor of board { covers plan body, underside at 100 mm }
            panel wall of board {
                stands on body.left, from floor.top to 700 mm
                bevel top 45 deg
                zone thin of board from 100 mm to 300 mm along, from 50 mm to 150 mm up, recessed 3 mm from outside
                opening vent {
                    size 200 mm by 100 mm
                    lower left at (500 mm, 300 mm)
                }
            }
            """.ReplaceLineEndings("\n"))).Structure!;
        var table = PlacingTable.Of(structure);
        var cells = new Cells([table]);
        double[] Row(string key, params string[] columns) => [.. columns.Select(c => cells["placing", key, c].Number)];
        void Is(double[] expected, string key, params string[] columns) => Assert.Equal(expected, Row(key, columns), (a, b) => Math.Abs(a - b) < 1e-6);

        // Seen from the left of the camper, the wall's lower left corner is its forward one.
        Is([0, 400, 112], "wall 1", "x", "y", "z");
        Is([0, 388, 112], "wall 1", "inside_x", "inside_y", "inside_z");
        Is([0, 1, 0, 12], "wall 1", "normal_x", "normal_y", "normal_z", "thickness");
        Assert.Equal("bottom", cells["placing", "wall 1", "edge"].Text);
        // Cut at 45 degrees, the top falls by the thickness toward the inside.
        Is([-900, 400, 700], "wall 3", "x", "y", "z");
        Is([-900, 388, 688], "wall 3", "inside_x", "inside_y", "inside_z");
        Is([-45], "wall 3", "tilt");
        // The hole and the zone, from that corner; the zone's own face lies 3 mm in.
        Is([-500, 400, 412], "wall.vent 1", "x", "y", "z");
        Assert.Contains(table.Rows.Where(r => r.Key.StartsWith("wall.thin ", StringComparison.Ordinal)), r => Row(r.Key, "x", "y", "z", "inside_y") is [-300, 397, 262, 385]);
        Is([0, 0, -1], "floor 1", "normal_x", "normal_y", "normal_z");
        Assert.Equal(16, table.Rows.Length);
    }
}
