using System.Globalization;
using Wain.Core;
using Wain.Core.Clearance;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Text;

namespace Wain.Benchmarks;

/// <summary>Room between panels: how the time grows with their number. A tenth of the panels rise past another tenth that stands.</summary>
public static class ClearanceRows
{
    private const string Text = """
        sheet ply { thickness 12 mm
            size 48 in by 96 in }
        stack board { sheet ply }
        panel wall of board { through (0 in, 0 in, 0 in) along (30 in, 0 in, 0 in) up (0 in, 0 in, 20 in) }
        panel shell of board { through (0 in, -1 in, 10 in) along (30 in, -1 in, 10 in) up (0 in, -1 in, 30 in) }
        lift top_lift {
            carries { shell }
            travel 12 in
            clearance at least 1/8 in
        }
        """;

    /// <summary>Rows of (panels, seconds of processor time, pairs found), then growth over n log n: at most 1 is no worse.</summary>
    public static int Run()
    {
        // A first pass, so that neither row pays for the machine code of both.
        Of(200);
        var small = Of(1_000);
        var large = Of(10_000);
        foreach (var (panels, seconds, pairs) in new[] { small, large })
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"clearance  {panels,6} panels  {seconds:0.000} s  {pairs} near pairs"));
        double growth = Growth(small.Seconds, large.Seconds);
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"clearance  growth over n log n: {growth:0.00}"));
        return growth <= 1.25 ? 0 : 1;
    }

    /// <summary>Seconds of processor time for 10,000 panels, and growth from 1,000 over n log n.</summary>
    public static (double Seconds, double Growth) Measured()
    {
        Of(200);
        var (small, large) = (Of(1_000), Of(10_000));
        return (large.Seconds, Growth(small.Seconds, large.Seconds));
    }

    /// <summary>How the time of 10,000 stands to that of 1,000, over n log n.</summary>
    internal static double Growth(double small, double large) => large / Math.Max(1e-3, small) / (10_000 * Math.Log(10_000) / (1_000 * Math.Log(1_000)));

    private static (int Panels, double Seconds, int Pairs) Of(int count)
    {
        var structure = Many(count);
        // What was made before is none of this row's.
        GC.Collect();
        var clock = new ProcessorClock();
        var result = ClearancePass.Of(structure);
        return (count, clock.Seconds, result.Lifts.Sum(l => l.Straight.Length));
    }

    /// <summary>Walls on a square grid 2 m apart; every tenth place has a moving shell beside its wall.</summary>
    public static Structure Many(int count)
    {
        var one = Compiler.Compile(new SourceText("rows.wain", Text.ReplaceLineEndings("\n"))).Structure!;
        var (wall, shell) = (one.Panel("wall")!, one.Panel("shell")!);
        int places = count - count / 10, side = (int)Math.Ceiling(Math.Sqrt(places));
        var panels = new List<PlacedPanel>();
        for (int i = 0; i < places; i++)
        {
            var to = new Vec3(i % side * 2000, i / side * 2000, 0);
            panels.Add(wall with { Name = $"wall_{i}", Face = wall.Face.Moved(to) });
            if (i % 9 == 0) panels.Add(shell with { Name = $"shell_{i}", Face = shell.Face.Moved(to) });
        }
        var lift = one.Lifts[0] with { Carries = [.. panels.Where(p => p.Name.StartsWith("shell", StringComparison.Ordinal)).Select(p => p.Name)] };
        return one with { Panels = [.. panels], Joints = [], Lifts = [lift] };
    }
}
