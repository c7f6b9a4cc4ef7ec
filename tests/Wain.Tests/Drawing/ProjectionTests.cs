using CsCheck;
using Wain.Core.Drawing;
using Wain.Core.Geometry.Kernel;

namespace Wain.Tests.Drawing;

public class ProjectionTests
{
    private static IEnumerable<Face> Block(string name, double x0, double x1, double y0, double y1, double z0, double z1)
    {
        Vec3 Corner(int i) => new((i & 1) == 0 ? x0 : x1, (i & 2) == 0 ? y0 : y1, (i & 4) == 0 ? z0 : z1);
        int[][] sides = [[0, 1, 3, 2], [4, 5, 7, 6], [0, 1, 5, 4], [2, 3, 7, 6], [0, 2, 6, 4], [1, 3, 7, 5]];
        return sides.Select(s => new Face(name, [.. s.Select(Corner)]));
    }

    /// <summary>Third-angle projection of a vehicle whose x is forward, y left, z up: the front points left in plan and left side; in the rear view left is left.</summary>
    [Fact]
    public void Directions()
    {
        var place = new Vec3(1, 2, 3);
        Assert.Equal((new Vec2(-1, -2), 3), Projection.Project(place, Direction.Plan));
        Assert.Equal((new Vec2(-1, 3), 2), Projection.Project(place, Direction.LeftSide));
        Assert.Equal((new Vec2(-2, 3), -1), Projection.Project(place, Direction.Rear));
    }

    /// <summary>At random places the face painted last is the nearest of all that cover them, for blocks stacked without touching.</summary>
    [Fact]
    public void TheNearestIsPaintedLast()
    {
        var block = Gen.Select(Gen.Double[0, 100], Gen.Double[5, 60], Gen.Double[0, 100], Gen.Double[5, 60]);
        Gen.Select(block.Array[2, 8], Gen.Double[0, 160].Array[20], Gen.Enum<Direction>()).Sample((blocks, probes, direction) =>
        {
            // Disjoint in all three axes' depth: each block has its own slab along the line of sight.
            var faces = blocks.SelectMany((b, i) => direction switch
            {
                Direction.Plan => Block($"b{i}", b.Item1, b.Item1 + b.Item2, b.Item3, b.Item3 + b.Item4, (i * 7 % 11) * 10, (i * 7 % 11) * 10 + 8),
                Direction.Rear or Direction.Front => Block($"b{i}", (i * 7 % 11) * 10, (i * 7 % 11) * 10 + 8, b.Item1, b.Item1 + b.Item2, b.Item3, b.Item3 + b.Item4),
                _ => Block($"b{i}", b.Item1, b.Item1 + b.Item2, (i * 7 % 11) * 10, (i * 7 % 11) * 10 + 8, b.Item3, b.Item3 + b.Item4),
            });
            var painted = Projection.InPaintOrder(faces, direction);
            Assert.Equal(blocks.Length * 6, painted.Length);
            for (int i = 0; i + 1 < probes.Length; i += 2)
            {
                var p = new Vec2(direction is Direction.RightSide or Direction.Front ? probes[i] : -probes[i], direction == Direction.Plan ? -probes[i + 1] : probes[i + 1]);
                var covering = painted.Where(f => f.Covers(p)).ToList();
                if (covering.Count > 0) Assert.Equal(covering.Max(f => f.Nearness(p)), covering[^1].Nearness(p), 6);
            }
        }, iter: 300);
    }

    /// <summary>A long sloped board whose middle is nearer than a small one before its far end: sorting by centres would hide the small one.</summary>
    [Fact]
    public void SlopedBoardsAreComparedWhereTheyOverlap()
    {
        var sloped = new Face("sloped", new Vec3(0, 0, 0), new Vec3(100, 0, 100), new Vec3(100, 50, 100), new Vec3(0, 50, 0));
        var small = new Face("small", new Vec3(2, 10, 20), new Vec3(12, 10, 20), new Vec3(12, 20, 20), new Vec3(2, 20, 20));
        Assert.Equal("small", Projection.InPaintOrder([small, sloped], Direction.Plan)[^1].Face.Name);
        Assert.Equal("small", Projection.InPaintOrder([sloped, small], Direction.Plan)[^1].Face.Name);
    }

    [Fact]
    public void FortyPanelsInOneViewKeepTheirNamesApart()
    {
        var faces = Enumerable.Range(0, 40).SelectMany(i => Block($"panel_{i:00}", i % 8 * 300, i % 8 * 300 + (i % 3 == 0 ? 290 : 60), i / 8 * 400, i / 8 * 400 + (i % 2 == 0 ? 380 : 40), 0, 30)).ToList();
        var title = new TitleBlock { Name = "Test" };
        var view = ViewDrawing.Draw("Plan", Painting.Of(faces, Direction.Plan), SheetFrame.Area(Paper.Letter, title), new LengthFormat());
        for (int i = 0; i < view.Labels.Length; i++)
        {
            for (int k = i + 1; k < view.Labels.Length; k++) Assert.False(view.Labels[i].Bounds.Overlaps(view.Labels[k].Bounds), $"{view.Labels[i]} over {view.Labels[k]}");
        }
        Assert.Equal(40, view.Labels.Count(l => l.Text.StartsWith("panel_", StringComparison.Ordinal)));
        Assert.True(SheetFrame.Area(Paper.Letter, title).Contains(view.Bounds), $"{view.Bounds}");
    }
}
