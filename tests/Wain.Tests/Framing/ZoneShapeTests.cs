using CsCheck;
using NetTopologySuite.Geometries;
using NetTopologySuite.Operation.OverlayNG;
using SpatialFunction = NetTopologySuite.Operation.Overlay.SpatialFunction;
using Wain.Core.Framing;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Pieces;
using static Wain.Tests.Framing.Designs;

namespace Wain.Tests.Framing;

/// <summary>Zones of any shape: their frame and skins are theirs alone, and the panel's own go up to them. Judged by NetTopologySuite.</summary>
public class ZoneShapeTests
{
    private static readonly PrecisionModel Grid = new(1e6);

    private static Structure Design(string zoneStack) => Place(Panel("wall", "wall_stack", 80, 50, $"frame {{\nstuds every 16 in\n}}\nzone bay of {zoneStack} from 20 in to 60 in along, from 10 in to 40 in up"));

    private static readonly Structure[] Designs = [Design("skin"), Design("thick_stack")];

    private static readonly Gen<Outline> Shapes = Gen.Select(Gen.Int[0, 5], Gen.Double[8, 30], Gen.Double[8, 20], Gen.Double[20, 40], Gen.Double[14, 25], Gen.Double[0.1, 0.6]).Select((kind, x, y, w, h, cut) => kind switch
    {
        0 => Inches((x, y), (x + w, y), (x + w * cut, y + h)),
        1 => Inches((x, y), (x + w, y), (x + w * 0.9, y + h), (x + w * cut, y + h)),
        // An L, a notch, a shape with a bow, and one that reaches the panel's own corner.
        2 => Inches((x, y), (x + w, y), (x + w, y + h), (x + w * cut, y + h), (x + w * cut, y + h * cut), (x, y + h * cut)),
        3 => Inches((x, y), (x + w, y), (x + w, y + h), (x + w * 0.7, y + h * 0.5), (x + w * 0.2, y + h)),
        4 => new Outline([new(new(x * Inch, y * Inch)), new(new((x + w) * Inch, y * Inch), 1.2 * cut), new(new((x + w) * Inch, (y + h) * Inch)), new(new(x * Inch, (y + h) * Inch))]),
        _ => Inches((0, 0), (w, 0), (w * cut, h), (0, h)),
    });

    /// <summary>The panel's members, its bays and the zone cover the frame once; so do the zone's own members and bays the zone.</summary>
    [Fact]
    public void A_frame_goes_up_to_a_zone_of_any_shape_and_no_farther() => Check(80, 0);

    /// <summary>The test above must be able to fail: with the zone told 2 mm too large it does.</summary>
    [Fact]
    public void The_test_notices_two_millimetres() => Assert.ThrowsAny<Exception>(() => Check(20, 2));

    private static void Check(int cases, double wrong) =>
        Gen.Select(Gen.Int[0, Designs.Length - 1], Shapes).Sample((d, shape) =>
        {
            var panel = Designs[d].Panels[0];
            var zone = panel.Zones[0] with { Region = shape };
            panel = panel with { Zones = [zone] };
            var frames = FrameBuilder.Build(Designs[d] with { Panels = [panel] });
            var region = (NetTopologySuite.Geometries.Geometry)Referee(wrong > 0 ? shape.Offset(wrong).Outline! : shape);
            foreach (var frame in frames.All.GroupBy(f => f.Zone?.Name ?? ""))
            {
                if (frame.Any(f => f.Clear is null)) continue;
                var parts = frame.SelectMany(f => f.Members.Select(m => (m.Key, Shape: (NetTopologySuite.Geometries.Geometry)Referee(m.Outline))).Concat(f.Cavities.Select(c => (c.Key, Shape: (NetTopologySuite.Geometries.Geometry)Referee(c.Outline))))).ToList();
                var whole = frame.Key == "" ? OverlayNG.Overlay(Referee(panel.Outline), region, SpatialFunction.Difference, Grid) : region;
                double slack = 2 + whole.Area * 3e-6;
                Assert.True(Math.Abs(parts.Sum(p => p.Shape.Area) - whole.Area) < slack, $"{frame.Key}: parts {parts.Sum(p => p.Shape.Area)}, whole {whole.Area}");
                foreach (var p in parts) Assert.True(OverlayNG.Overlay(p.Shape, whole, SpatialFunction.Intersection, Grid).Area > p.Shape.Area - slack, $"{p.Key} reaches out of {(frame.Key == "" ? "the panel's own" : "the zone")}");
                for (int i = 0; i < parts.Count; i++)
                    for (int j = i + 1; j < parts.Count; j++)
                        if (parts[i].Shape.EnvelopeInternal.Intersects(parts[j].Shape.EnvelopeInternal)) Assert.True(OverlayNG.Overlay(parts[i].Shape, parts[j].Shape, SpatialFunction.Intersection, Grid).Area < slack, $"{parts[i].Key} overlaps {parts[j].Key}");
            }
        }, iter: cases);

    /// <summary>Common practice: the edge of a skin has wood under it. 5 mm outside of a zone's side, wherever that is on the panel, lies a member.</summary>
    [Fact]
    public void Along_every_side_of_a_zone_lies_a_member() =>
        Gen.Select(Gen.Int[0, Designs.Length - 1], Shapes).Sample((d, shape) =>
        {
            var panel = Designs[d].Panels[0];
            panel = panel with { Zones = [panel.Zones[0] with { Region = shape }] };
            var frame = FrameBuilder.Build(Designs[d] with { Panels = [panel] }).All.Single(f => f.Zone is null);
            for (int i = 0; i < shape.Count; i++)
                foreach (double t in (double[])[0.1, 0.3, 0.5, 0.7, 0.9])
                {
                    var point = shape.Segment(i).At(t) + shape.Segment(i).Tangent(t).Right * 5;
                    if (shape.Contains(point) || panel.Outline.SignedDistance(point) > -1) continue;
                    Assert.True(frame.Members.Any(m => m.Outline.Contains(point)), $"no member beside {point} of {shape}");
                }
        }, iter: 80);

    /// <summary>By hand: a step of 10 mm on either face of a wall of 29.05 mm puts a zone of 6 mm that far from that face.</summary>
    [Theory]
    [InlineData("outside", 10)]
    [InlineData("inside", 29.05 - 10 - 6)]
    public void A_recess_is_as_deep_as_stated_from_its_face(string face, double offset)
    {
        string text = Panel("wall", "wall_stack", 60, 30, $"zone bay of thin from 10 in to 30 in along, from 5 in to 20 in up, recessed 10 mm from {face}") + "stack thin { sheet ply_6mm }\n";
        Assert.Equal(offset, Place(text).Panel("wall")!.Zones.Single().Offset, 1e-9);
    }

    /// <summary>By hand: a quarter turn of radius 10 in at one corner of a zone stays one arc on a face that looks up or down, and as few straight members lie along it as a stick of 1 1/2 in can be sawn to: an arc of angle a bows r (1 - cos(a / 2)), here at most a quarter of the stick.</summary>
    [Theory]
    [InlineData("up")]
    [InlineData("down")]
    public void The_arc_of_a_zone_is_framed_by_few_straight_members(string outside)
    {
        string text = $$"""
            plan box {
                start at (0 in, 40 in)
                leg left run 80 in
                leg front across 80 in
                leg right run 80 in
                leg aft home
            }
            plan round {
                start at (20 in, 20 in)
                leg left run 40 in, rounded 10 in
                leg front across 40 in
                leg right run 40 in
                leg aft home
            }
            panel deck of wall_stack {
                covers plan box, underside at 0 in
                outside {{outside}}
                zone bay of thin over plan round
            }
            stack thin { sheet ply_6mm }

            """;
        var panel = Place(text).Panel("deck")!;
        Assert.Equal(40 * 40 - 100 * (1 - Math.PI / 4), panel.Zones[0].Region.Area() / (Inch * Inch), 6);
        int members = (int)Math.Ceiling(Math.PI / 2 / (2 * Math.Acos(1 - 1.5 / 4 / 10)));
        Assert.Equal(members, FrameBuilder.Build(Place(text)).Members.Count(m => m.Key.StartsWith("bay.side", StringComparison.Ordinal)));
    }

    /// <summary>By hand: a right triangle of 30 in by 20 in in the lower left corner of a wall 80 in by 50 in takes 300 in2 of its outside skin.</summary>
    [Fact]
    public void Skins_stop_at_the_slope_of_a_zone()
    {
        var panel = Designs[0].Panels[0];
        panel = panel with { Zones = [panel.Zones[0] with { Region = Inches((0, 0), (30, 0), (0, 20)) }] };
        var structure = Designs[0] with { Panels = [panel] };
        var pieces = PieceBuilder.Build(structure, FrameBuilder.Build(structure));
        double Area(string material) => pieces.All.Where(p => p.Material.Name == material).Sum(p => p.Finished.Area()) / (Inch * Inch);
        Assert.Equal(80 * 50 - 300, Area("ply_6mm"), 0.01);
        Assert.Equal(300, Area("ply_quarter"), 0.01);
    }
}
