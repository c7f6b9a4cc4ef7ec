using Wain.Core;
using Wain.Core.Drawing.Panels;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Reporting;
using Wain.Core.Text;

namespace Wain.Tests.Drawing.Panels;

/// <summary>The list that skins, foam and cloth are cut by. Sizes by hand.</summary>
public class PieceTableTests
{
    private static Table Of(Design design) => PieceTable.Of(design.Pieces, ReportUnits.Read(design.Spec));

    private static double Number(Table table, string row, string column) => Assert.IsType<Cell.Number>(table.Rows.Single(r => r.Key == row).Cells[table.ColumnIndex(column)]).Value;

    private static string Words(Table table, string row, string column) => Assert.IsType<Cell.Words>(table.Rows.Single(r => r.Key == row).Cells[table.ColumnIndex(column)]).Value;

    private const string Text = """
        camper "Pieces" { lengths millimetres }
        sheet ply { thickness 6 mm
            size 1200 mm by 2400 mm
            grain along }
        stick batten { section 30 mm by 45 mm
            length 3600 mm }
        board foam { thickness 30 mm
            size 600 mm by 1200 mm }
        stack wall { sheet ply
            core frame of batten flat, filled with foam
            sheet ply }
        panel side of wall { through (0 mm, 0 mm, 0 mm) along (-3000 mm, 0 mm, 0 mm) up (0 mm, 0 mm, 800 mm)
            frame { studs every 1000 mm }
            splice across length { lap width 60 mm
                lap depth half } }
        plan nose { start at (0 mm, 500 mm)
            leg left run 400 mm, width 600 mm
            leg tip across 600 mm
            leg right mirror of left
            leg back home }
        stack bare { sheet ply }
        panel shelf of bare { covers plan nose, top at 900 mm }

        """;

    /// <summary>A skin of 3000 mm from sheets of 2400 mm lapped by 60 mm: a full sheet, and 3000 - 2400 + 60 mm that begins at 2340 mm. A tapered shelf is told by its corners.</summary>
    [Fact]
    public void PiecesAreListedAsTheyAreCut()
    {
        var table = Of(Compiler.Compile(new SourceText("pieces.wain", Text)).Design!);
        string[] skins = [.. table.Rows.Select(r => r.Key).Where(k => k.StartsWith("side.ply", StringComparison.Ordinal))];
        Assert.Equal(4, skins.Length);
        var outside = skins.Where(k => Number(table, k, "layer") == 1).OrderBy(k => Number(table, k, "left")).ToList();
        Assert.Equal([(2400.0, 0.0), (660.0, 2340.0)], outside.Select(k => (Math.Round(Number(table, k, "long"), 6), Math.Round(Number(table, k, "left"), 6))));
        Assert.All(outside, k => Assert.Equal((800, 6, "along", "rectangle"), (Math.Round(Number(table, k, "wide"), 6), Number(table, k, "thick"), Words(table, k, "grain"), Words(table, k, "shape"))));
        Assert.Equal("lap 3 mm from inside", Words(table, outside[0], "routed"));
        Assert.Equal("lap 3 mm from outside", Words(table, outside[1], "routed"));
        // Bays of 955 mm between sticks of 45 mm, ripped to nothing: the board is as thick as the frame.
        string bay = table.Rows.First(r => r.Key.StartsWith("side.bay", StringComparison.Ordinal)).Key;
        Assert.Equal((2.0, 30.0, 45.0), (Number(table, bay, "layer"), Number(table, bay, "thick"), Number(table, bay, "bottom")));
        string shelf = table.Rows.Single(r => r.Key.StartsWith("shelf", StringComparison.Ordinal)).Key;
        foreach (string corner in new[] { "(0;\u00A00)", "(1000;\u00A00)", "(800;\u00A0400)", "(200;\u00A0400)" }) Assert.Contains(corner, Words(table, shelf, "shape"), StringComparison.Ordinal);
    }

    /// <summary>No piece of the demo is left out, and each fits the blank that the list tells.</summary>
    [Fact]
    public void EveryPieceOfTheDemoIsListed()
    {
        var design = Samples.Heron;
        var table = Of(design);
        Assert.Equal(design.Pieces.All.Select(p => p.PartMark).Order(StringComparer.Ordinal), table.Rows.Select(r => r.Key));
        Assert.Equal(table.Rows.Length, table.Rows.Select(r => r.Key).Distinct(StringComparer.Ordinal).Count());
        foreach (var piece in design.Pieces.All)
            Assert.True(piece.Rough.Area() <= Number(table, piece.PartMark, "long") * Number(table, piece.PartMark, "wide") * 25.4 * 25.4 + 1, piece.PartMark);
    }
}
