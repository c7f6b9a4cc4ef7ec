using System.Globalization;
using Wain.Core;
using Wain.Core.CutLists;
using Wain.Core.Framing;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Pieces;
using Wain.Core.Takeoff;
using Wain.Core.Text;

namespace Wain.Benchmarks;

/// <summary>Frames, pieces, takeoff and cut lists: how the time of each grows with the number of panels. Every panel is a framed wall with a window and a zone.</summary>
public static class FrameRows
{
    private const string Text = """
        sheet ply { thickness 6 mm
            size 48 in by 96 in
            density 600 kg/m3 }
        stick strip { section 3/4 in by 1 1/2 in
            length 96 in
            density 450 kg/m3 }
        board foam_board { thickness 1 in
            size 48 in by 96 in
            density 30 kg/m3 }
        stack wall_stack {
            sheet ply
            core frame of strip flat, filled with foam_board
            sheet ply
        }
        stack thin { sheet ply }
        panel wall of wall_stack {
            through (0 in, 0 in, 0 in) along (70 in, 0 in, 0 in) up (0 in, 0 in, 40 in)
            frame { studs every 16 in }
            zone bay of thin from 44 in to 60 in along, from 10 in to 26 in up
            opening vent {
                size 18 in by 10 in, corner 1 in
                lower left at (16 in, 14 in)
            }
        }
        """;

    /// <summary>Rows of (pass, panels, seconds of processor time), then growth over n log n without the collecting of memory: at most 1 is no worse.</summary>
    public static int Run()
    {
        double worst = 0;
        foreach (var (pass, small, large, growth, own) in Measured())
        {
            worst = Math.Max(worst, own);
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{pass,-9}  1,000 panels {small:0.000} s, 10,000 panels {large:0.000} s, growth over n log n: {own:0.00}, with the collecting of memory {growth:0.00}"));
        }
        return worst <= 1.25 ? 0 : 1;
    }

    /// <summary>Seconds of processor time for 1,000 and for 10,000 panels, and growth over n log n with and without the collecting of memory.</summary>
    public static IEnumerable<(string Pass, double Small, double Large, double Growth, double OwnGrowth)> Measured()
    {
        // A first pass, so that neither row pays for the machine code of both.
        Of(100);
        var (small, large) = (Of(1_000), Of(10_000));
        return small.Zip(large, (a, b) => (a.Pass, a.Seconds, b.Seconds, ClearanceRows.Growth(a.Seconds, b.Seconds), ClearanceRows.Growth(a.Own, b.Own)));
    }

    private static List<(string Pass, double Seconds, double Own)> Of(int count)
    {
        var structure = Many(count);
        var rows = new List<(string, double, double)>();
        T Timed<T>(string pass, Func<T> run)
        {
            GC.Collect();
            var clock = new ProcessorClock();
            var value = run();
            rows.Add((pass, clock.Seconds, clock.OwnSeconds));
            return value;
        }
        var frames = Timed("frames", () => FrameBuilder.Build(structure));
        var pieces = Timed("pieces", () => PieceBuilder.Build(structure, frames));
        Timed("cut lists", () => CutListBuilder.Of(structure, frames, pieces));
        Timed("takeoff", () => TakeoffPass.Of(structure, frames, pieces, []));
        return rows;
    }

    private static Structure Many(int count)
    {
        var compiled = Compiler.Compile(new SourceText("rows.wain", Text.ReplaceLineEndings("\n")));
        var wall = compiled.Structure!.Panel("wall")!;
        int side = (int)Math.Ceiling(Math.Sqrt(count));
        return compiled.Structure with { Panels = [.. Enumerable.Range(0, count).Select(i => wall with { Name = $"wall_{i}", Face = wall.Face.Moved(new Vec3(i % side * 3000, i / side * 3000, 0)) })] };
    }
}
