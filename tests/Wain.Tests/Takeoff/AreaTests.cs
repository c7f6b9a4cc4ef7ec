using System.Collections.Immutable;
using CsCheck;
using NetTopologySuite.Geometries;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Takeoff;

namespace Wain.Tests.Takeoff;

public class AreaTests
{
    /// <summary>Moscow Mathematical Papyrus, problem 14 (from memory): a frustum of a square pyramid, sides 4 and 2, height 6, holds 56.</summary>
    [Fact]
    public void BevelledBlockIsAFrustum()
    {
        var run = TakeoffSpecs.Of("sheet block {\n thickness 6 mm\n size 48 in by 96 in\n density 1000 kg/m3\n}\nstack solid {\n sheet block\n}\n" + TakeoffSpecs.Deck("top", "solid", "4 mm", "4 mm"));
        var panel = run.Structure.Panels[0];
        double tilt = Math.Atan2(-1, 6);
        var bevelled = panel with { Outline = new Outline([.. panel.Outline.Edges.Select(e => e with { Tilt = tilt })]) };
        var slice = Assert.Single(LayerAreas.Of(bevelled));
        Assert.Equal(56, slice.Volume, 9);
        Assert.Equal(16, slice.OuterArea, 4);
        Assert.Equal(4, slice.InnerArea, 4);
        Assert.Equal(16, slice.Area, 4);
    }

    /// <summary>Independent method: NetTopologySuite's polygon intersection.</summary>
    [Fact]
    public void SharedAreaAgreesWithAnotherLibrary()
    {
        var star = from n in Gen.Int[3, 9] from radii in Gen.Double[20, 100].Array[n] from x in Gen.Double[-60, 60] from y in Gen.Double[-60, 60] from turn in Gen.Double[0, 6]
                   select Outline.Polygon(radii.Select((r, i) => new Vec2(x, y) + Vec2.FromAngle(turn + 2 * Math.PI * i / n) * r));
        Gen.Select(star, star).Sample((a, b) =>
        {
            double expected = ToPolygon(a).Intersection(ToPolygon(b)).Area;
            return Math.Abs(Overlap.Area(a, b) - expected) <= 1e-6 * Math.Max(1, expected);
        }, iter: 2000);
    }

    /// <summary>Plain arithmetic: a circle half over the edge of a square.</summary>
    [Fact]
    public void ArcsThatCrossAreCut()
    {
        double area = Overlap.Area(Outline.Rectangle(new(0, 0), new(100, 100)), Outline.Circle(new(100, 50), 20));
        Assert.Equal(Math.PI * 400 / 2, area, 0.1);
    }

    /// <summary>Layers with square edges have the panel's area less its openings, whatever the openings are.</summary>
    [Fact]
    public void LayerAreasAddUp() =>
        Gen.Select(Gen.Double[10, 30], Gen.Double[10, 20], Gen.Double[2, 28], Gen.Double[2, 60], Gen.Double[0, 4]).Sample((width, height, x, y, corner) =>
        {
            string Number(double value) => value.ToString("0.###", System.Globalization.CultureInfo.InvariantCulture);
            var run = TakeoffSpecs.Of(TakeoffSpecs.Ply + "stack skin {\n sheet ply\n sheet ply\n}\n" + TakeoffSpecs.Deck("deck", "skin", "90 in", "60 in",
                $" opening hatch {{\n  size {Number(width)} in by {Number(height)} in corner {Number(corner)} in\n  lower left at ({Number(x)} in, {Number(y)} in)\n }}\n"));
            double net = run["deck.area"] - run["deck.hatch.area"];
            Assert.Equal(net, run["deck.net_area"], 9);
            Assert.Equal(net, run["deck.ply.area"], 9);
            Assert.Equal(net, run["deck.ply_2.area"], 9);
            Assert.Equal(net * 0.012 * 600, run["deck.weight"], 6);
        }, iter: 50, threads: 1);

    /// <summary>What a zone takes from the panel's layers it gives to its own; a hole is cut out of one of the two.</summary>
    [Fact]
    public void ZonesAndPanelsShareTheArea()
    {
        var run = TakeoffSpecs.Of(TakeoffSpecs.Ply + "sheet thin {\n thickness 4 mm\n size 48 in by 96 in\n density 600 kg/m3\n}\nstack skin {\n sheet ply\n}\nstack bay {\n sheet thin\n}\n" + TakeoffSpecs.Deck("deck", "skin", "90 in", "60 in",
            " zone thin_bay of bay from 20 in to 50 in along\n opening hatch {\n  size 20 in by 10 in\n  lower left at (40 in, 5 in)\n }\n"));
        var panel = run.Structure.Panels[0];
        double whole = panel.Outline.Area() / 1e6, hole = 200 * 0.0254 * 0.0254;
        double own = LayerAreas.AreaAt(panel, null, 1) / 1e6, bay = LayerAreas.AreaAt(panel, panel.Zones[0], 1) / 1e6;
        Assert.Equal(whole - hole, own + bay, 9);
        // Half of the hole lies in the zone: 10 of its 20 in.
        Assert.Equal(panel.Zones[0].Region.Area() / 1e6 - hole / 2, bay, 9);
    }

    /// <summary>A recess takes its region from the layers above its floor, and from the layer that its floor lies in a part.</summary>
    [Fact]
    public void RecessesTakePartOfALayer()
    {
        var run = TakeoffSpecs.Of(TakeoffSpecs.Ply + "stack skin {\n sheet ply\n sheet ply\n}\n" + TakeoffSpecs.Deck("deck", "skin", "90 in", "60 in",
            " opening hatch {\n  size 20 in by 10 in\n  lower left at (30 in, 20 in)\n  recessed 9 mm margin 1 in from outside\n }\n"));
        var inch2 = 0.0254 * 0.0254;
        double whole = 90 * 60 * inch2, hole = 200 * inch2, recess = 22 * 12 * inch2;
        Assert.Equal((whole - recess) * 0.006, run["deck.ply.volume"], 9);
        Assert.Equal((whole - recess) * 0.003 + (whole - hole) * 0.003, run["deck.ply_2.volume"], 9);
    }

    private static Polygon ToPolygon(Outline outline) =>
        new(new LinearRing([.. outline.Corners.Append(outline.Edges[0].Start).Select(c => new Coordinate(c.X, c.Y))]));
}
