using CsCheck;
using Wain.Core;
using Wain.Core.Checks;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Text;
using Wain.Tests.Geometry;

namespace Wain.Tests.Clearance;

public class TurningClearanceTests
{
    private const double Inch = 25.4;

    private static readonly Gen<ConvexPolyhedron> Blocks = Gen.Select(Gen.Double[-300, 300], Gen.Double[-300, 300], Gen.Double[-300, 300], Gen.Double[10, 200], Gen.Double[10, 200], Gen.Double[10, 200], Gen.Double[-1, 1])
        .Select((x, y, z, a, b, c, turn) => ConvexPolyhedron.Block(new Vec3(x, y, z), new Vec3(x + a, y + b, z + c)).Transformed(new RigidMove(new Vec3(x, y, z), new Vec3(1, 2, 2) / 3, turn, Vec3.Zero)));

    private static readonly Gen<Hinge> Hinges = Gen.Select(Gen.Double[-200, 200], Gen.Double[-200, 200], Gen.Double[-1, 1], Gen.Double[-1, 1], Gen.Double[0.1, 3])
        .Select((x, y, p, q, angle) => new Hinge(new Vec3(x, y, 20), new Vec3(p, q, 1).Unit, angle));

    /// <summary>
    /// Random solids on random hinges against sampling at 200 angles by every corner, edge and face. Between samples nothing moves by more than its radius
    /// times half a step, so the least distance lies at most that far below the least sample, and never above it.
    /// </summary>
    [Fact]
    public void Least_clearance_over_a_swing_agrees_with_sampling_200_angles()
    {
        int apart = 0, collided = 0;
        Gen.Select(Blocks, Blocks, Hinges).Sample((moving, standing, hinge) =>
        {
            var found = Assert.Single(TurningClearance.Find([[moving]], [[standing]], hinge, 1e5));
            double sampled = Enumerable.Range(0, 201).Min(k => BruteForce.Distance(moving.Transformed(hinge.At(hinge.Angle * k / 200)), standing));
            double slip = moving.Corners.Max(hinge.Radius) * hinge.Angle / 400;
            if (found.Distance < -slip) Assert.Equal(0, sampled);
            else Assert.InRange(sampled - Math.Max(0, found.Distance), -TurningClearance.Error, slip + TurningClearance.Error);
            if (found.Distance > 0)
            {
                Interlocked.Increment(ref apart);
                Assert.Equal(found.Distance, BruteForce.Distance(moving.Transformed(hinge.At(found.Travel)), standing), 5);
                Assert.Equal(found.Distance, found.OnMoving.DistanceTo(found.OnStanding), 5);
            }
            else if (found.Distance < -0.01)
            {
                Interlocked.Increment(ref collided);
                Assert.InRange(found.Travel, found.From!.Value, found.To!.Value);
                Assert.Equal(0, BruteForce.Distance(moving.Transformed(hinge.At(found.From.Value)), standing), 1e-2);
                Assert.Equal(0, BruteForce.Distance(moving.Transformed(hinge.At(found.To.Value)), standing), 1e-2);
            }
        }, iter: 100);
        Assert.True(apart > 20 && collided > 20, $"{apart} apart, {collided} collided");
    }

    /// <summary>By Pythagoras: the far upper corner of a flap 300 long and 40 thick swings on a radius of the root of 300^2 + 40^2 and comes level with the hinge on the way.</summary>
    [Fact]
    public void A_corner_swings_past_a_wall_on_its_radius()
    {
        var flap = ConvexPolyhedron.Block(new Vec3(0, 0, 0), new Vec3(300, 500, 40));
        var wall = ConvexPolyhedron.Block(new Vec3(310, -1000, -1000), new Vec3(330, 1000, 1000));
        // About the y axis by the right-hand rule x turns towards -z.
        var found = Assert.Single(TurningClearance.Find([[flap]], [[wall]], new Hinge(Vec3.Zero, Vec3.UnitY, Math.PI / 2), 100));
        Assert.Equal(310 - Math.Sqrt(300 * 300 + 40 * 40), found.Distance, TurningClearance.Error);
        Assert.Equal(Math.Atan2(40, 300), found.Travel, 0.01);
    }

    private static string Lid(string hinge, string opens) => $$"""
        sheet ply { thickness 1/2 in
            size 48 in by 96 in }
        stack board { sheet ply }
        panel base of board { through (0 in, 20 in, 0 in) along (0 in, -20 in, 0 in) up (60 in, 20 in, 0 in) }
        panel lid of board { through (0 in, 20 in, 40 1/2 in) along (0 in, -20 in, 40 1/2 in) up (60 in, 20 in, 40 1/2 in) }
        panel shelf of board { spans from (64 in, -20 in) to (64 in, 20 in), standing on 44 in, up to 60 in }
        panel curb of board { spans from (-1/2 in, 20 in) to (-1/2 in, -20 in), standing on 0 in, up to 42 in }
        lift lid_lift {
            carries { lid }
            hinged at {{hinge}}, opens {{opens}}
            headroom at least 60 in
        }
        """;

    /// <summary>
    /// A lid 60 in long, 1/2 in thick, closed at 40 to 40 1/2 in, with a curb that stands 1 1/2 in over it behind its hinge. Hinged along its lower rear edge
    /// its upper rear edge swings back into the curb. By hand: that edge is 1/2 in above the hinge, so it goes back by 1/2 in at a quarter turn, and the curb
    /// is as thick. Hinged at its upper edge it turns against the curb without biting.
    /// </summary>
    [Fact]
    public void A_lid_that_bites_its_curb_is_told_with_the_angle_and_one_hinged_at_its_upper_edge_is_not()
    {
        var low = Compiler.Compile(new SourceText("lid.wain", Lid("(0 in, 20 in, 40 in) to (0 in, -20 in, 40 in)", "85 deg")));
        var finding = Assert.Single(low.Findings, f => f.Code == LiftClears.Straight.Code);
        Assert.Contains("lid runs into curb by 1/2 in", finding.Message);
        Assert.Contains("of its swing", finding.Message);
        var high = Compiler.Compile(new SourceText("lid.wain", Lid("(0 in, 20 in, 40 1/2 in) to (0 in, -20 in, 40 1/2 in)", "85 deg")));
        Assert.DoesNotContain(high.Findings, f => f.Code == LiftClears.Straight.Code);
        Assert.DoesNotContain(high.Findings, f => f.Code == LiftClears.Racked.Code);
    }

    /// <summary>Opened 85 degrees the lid's inside face is its lowest over the base nearest to its hinge: by hand no more than its height when closed.</summary>
    [Fact]
    public void Headroom_is_had_with_the_lid_open()
    {
        var found = Compiler.Compile(new SourceText("lid.wain", Lid("(0 in, 20 in, 40 1/2 in) to (0 in, -20 in, 40 1/2 in)", "60 deg"))).Design!.Figures.Find("lid_lift.headroom")!;
        // The lower face starts 1/2 in below the hinge, square to the lid: 1/2 in / cos 60 below it where it passes over the hinge.
        Assert.Equal((40.5 - 0.5 / Math.Cos(Math.PI / 3)) * Inch, found.Value.Millimetres, 3);
    }

    [Theory]
    [InlineData("(0 in, 0 in, 40 in) to (0 in, 0 in, 40 in)", "80 deg", "hinged at one point")]
    [InlineData("(0 in, 20 in, 40 in) to (0 in, -20 in, 40 in)", "0 deg", "opens 0 deg")]
    public void A_hinge_that_is_none_is_a_finding(string hinge, string opens, string says) =>
        Assert.Contains(Compiler.Compile(new SourceText("lid.wain", Lid(hinge, opens))).Findings, f => f.Message.Contains(says, StringComparison.Ordinal));
}
