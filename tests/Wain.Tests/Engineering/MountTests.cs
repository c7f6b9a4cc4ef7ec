using System.Collections.Immutable;
using Wain.Core;
using Wain.Core.Methods;
using Wain.Core.Text;

namespace Wain.Tests.Engineering;

/// <summary>Forces on the mounts of a subframe, against equilibrium worked by hand.</summary>
public class MountTests
{
    private static ImmutableArray<double> Of(double weight, double x, double y, LiftPoint[] points)
    {
        Assert.True(LiftPoints.Rigid(weight, x, y, points).TryGet(out var forces));
        return forces;
    }

    [Fact]
    public void Upright_forces_are_in_equilibrium_and_pull_where_the_centre_lies_outside()
    {
        LiftPoint[] points = [new(1, 0.5), new(1, -0.5), new(-1, 0.4), new(-1.2, -0.5)];
        var forces = Of(1000, 1.6, 0.2, points);
        Assert.Equal(1000, forces.Sum(), 6);
        Assert.Equal(1000 * 1.6, points.Zip(forces, (p, f) => p.X * f).Sum(), 6);
        Assert.Equal(1000 * 0.2, points.Zip(forces, (p, f) => p.Y * f).Sum(), 6);
        Assert.Contains(forces, f => f < 0);
    }

    [Fact]
    public void Braking_moves_the_weight_onto_the_front_mounts()
    {
        // 400 kg with its centre in the middle of four mounts that stand 2 m by 1 m, 0.5 m over them: at 0.8 g the moment is 0.8 W 0.5 = 0.4 W, 0.2 W to each end over 2 m.
        const double weight = 400 * Customary.Gravity;
        LiftPoint[] points = [new(1, 0.5), new(1, -0.5), new(-1, 0.5), new(-1, -0.5)];
        var forces = Of(weight, 0.8 * 0.5, 0, points);
        Assert.Equal(weight * (0.25 + 0.1), forces[0], 6);
        Assert.Equal(weight * (0.25 - 0.1), forces[2], 6);
    }

    [Theory]
    [InlineData("180 lbf", true)]
    [InlineData("2000 lbf", false)]
    public void A_mount_is_held_against_what_it_is_rated(string rated, bool over)
    {
        var c = Compiler.Compile(new SourceText("example.wain", Wain.Core.Engineering.EngineeringFindings.MountOver.Bad.Replace("200 lbf", rated, StringComparison.Ordinal)));
        Assert.Equal(over, c.Findings.Any(f => f.Code == "WN6115"));
        var force = c.Design!.Figures.Find("truck.mount_force_braking")!;
        // By hand from the figures of the design: share upright and along of the worst of four mounts.
        double w = c.Design.Figures.Find("total.weight_ready")!.Value.Value * Customary.Gravity, x = c.Design.Figures.Find("total.centre_x_ready")!.Value.Value, y = c.Design.Figures.Find("total.centre_y_ready")!.Value.Value, h = c.Design.Figures.Find("total.centre_z_ready")!.Value.Value + 0.1;
        double up = w * (0.25 + 0.5 * (x + 0.8 * h - 0.5) + 0.5 * Math.Abs(y)), along = 0.8 * w / 4;
        Assert.Equal(Math.Sqrt(up * up + along * along), force.Value.Value, 0.5);
    }
}
