using CsCheck;
using Wain.Core.Methods;

namespace Wain.Tests.Engineering;

public class LiftTests
{
    private static readonly LiftPoint[] Corners = [new(1, 0.5), new(1, -0.5), new(-1, -0.5), new(-1, 0.5)];

    private static LiftForces Forces(double x, double y) => LiftPoints.Forces(1000, x, y, Corners).TryGet(out var f) ? f : throw new Xunit.Sdk.XunitException("no forces");

    [Fact]
    public void ForcesBalanceWeightAndMoments() => Gen.Select(Gen.Double[-0.9, 0.9], Gen.Double[-0.4, 0.4]).Sample(at =>
    {
        var (x, y) = at;
        var forces = Forces(x, y).Elastic;
        Assert.Equal(1000, forces.Sum(), 1e-6);
        Assert.Equal(1000 * x, forces.Select((f, i) => f * Corners[i].X).Sum(), 1e-6);
        Assert.Equal(1000 * y, forces.Select((f, i) => f * Corners[i].Y).Sum(), 1e-6);
        // Least energy: adding the self-balanced pattern (+1, -1, +1, -1) must not lower the sum of squares.
        Assert.Equal(0, forces[0] - forces[1] + forces[2] - forces[3], 1e-6);
    });

    [Fact]
    public void FourCornersUnderACentredRoofFallWhenOneGoes()
    {
        var centred = Forces(0, 0);
        Assert.All(centred.Failures, f => Assert.True(f.Falls));
        Assert.All(centred.Most, m => Assert.Equal(500, m, 1e-6));
        Assert.All(centred.Least, m => Assert.Equal(0, m, 1e-6));
    }

    /// <summary>A centre is reckoned, not weighed: a hair off the line between two corners neither of the others is safe to lose.</summary>
    [Fact]
    public void ARoofNearlyCentredHoldsOnNoThreePoints() => Assert.All(Forces(0.02, 0.01).Failures, f => Assert.True(f.Falls));

    [Fact]
    public void OffCentreRoofStandsOnTheThreeNearPoints()
    {
        var forces = Forces(0.2, 0.1);
        Assert.False(forces.Failures[2].Falls);
        Assert.True(forces.Failures[0].Falls);
        Assert.Equal(1000, forces.Failures[2].Forces!.Value.Sum(), 1e-6);
        Assert.True(forces.Failures[2].WorstRise > 0);
    }

    [Fact]
    public void CentreOutsideIsSaid() => Assert.Contains("outside", LiftPoints.Forces(1000, 2, 0, Corners).Reason);

    [Fact]
    public void OneLineIsSaid() => Assert.Contains("line", LiftPoints.Forces(1000, 0, 0, [new(0, 0), new(1, 1), new(2, 2)]).Reason);

    private static readonly Lid Roof = new(600, new(0.9, 0.05), new(0.25, -0.5), new(0.55, 0), new(1.8, 0), double.DegreesToRadians(50), 2);

    private static LidTravel Travel(GasSpring? spring, double margin = 1.2) => LidLift.Travel(Roof, spring, margin).TryGet(out var t) ? t : throw new Xunit.Sdk.XunitException("no travel");

    /// <summary>Independent method: the lever arm is the rate of the spring's length with the angle.</summary>
    [Fact]
    public void ArmIsTheRateOfLength()
    {
        var states = LidLift.Travel(Roof, null, 1, 4000).TryGet(out var t) ? t.States : [];
        for (var i = 1; i < states.Length - 1; i++)
        {
            Assert.Equal((states[i + 1].Length - states[i - 1].Length) / (states[i + 1].Angle - states[i - 1].Angle), states[i].Arm, 1e-6);
        }
    }

    [Fact]
    public void SpringOfTheRequiredForceHoldsAndHalfOfItDoesNot()
    {
        var required = Travel(null).Required!.Value;
        var ends = Travel(null).States;
        GasSpring Spring(double force) => new(force, ends.Max(s => s.Length) + 0.01, ends.Max(s => s.Length) - ends.Min(s => s.Length) + 0.02);
        var strong = Travel(Spring(required));
        Assert.True(strong.Fits && strong.StaysOpen);
        Assert.All(strong.States, s => Assert.True(s.HandOpening <= 0));
        Assert.True(strong.OneFailedHand > 0);
        var weak = Travel(Spring(required / 3));
        Assert.False(weak.StaysOpen);
        Assert.True(weak.States[^1].HandClosing < 0);
    }

    [Fact]
    public void SpringOutOfItsTravelIsSaid() => Assert.False(Travel(new(800, 0.5, 0.05)).Fits);

    [Fact]
    public void FrictionWorksBothWays()
    {
        var state = LidLift.Travel(Roof, new(900, 1, 0.6, 1, 50)).TryGet(out var t) ? t.States[30] : null!;
        Assert.Equal(2 * 2 * 50 * state.Arm / 1.8, state.HandOpening + state.HandClosing, 1e-9);
    }

    [Fact]
    public void ScissorIsStuckFlat() => Assert.Contains("angle", StraightLift.Scissor(100, 1, 0, 1, new(ScissorMember.Base, 0), new(ScissorMember.Top, 0), 1).Reason);

    /// <summary>Independent method: an upright actuator from base to top rises with the roof, so it carries the weight at every angle.</summary>
    [Fact]
    public void UprightActuatorOfAScissorCarriesTheWeight()
    {
        var states = StraightLift.Scissor(800, 1, 0.1, 1.2, new(ScissorMember.Base, 0.3), new(ScissorMember.Top, 0.3), 2);
        Assert.All(states.TryGet(out var s) ? s : [], state => Assert.Equal(400, state.Needed!.Value, 1e-9));
    }
}
