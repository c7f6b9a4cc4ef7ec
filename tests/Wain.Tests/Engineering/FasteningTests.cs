using Wain.Core.Methods;
using static Wain.Core.Methods.Customary;

namespace Wain.Tests.Engineering;

public class FasteningTests
{
    [Fact]
    public void ImpossibleJointsGiveReasons()
    {
        Assert.Contains("gravity", Withdrawal.ScrewReference(-0.4, 0.005, 0.02).Reason);
        Assert.Contains("denser", Withdrawal.ScrewUltimate(2, 0.005, 0.02).Reason);
        Assert.Contains("steeper", Bonds.ScarfEfficiency(3).Reason);
        Assert.Contains("one fastener", Bonds.FastenerGroup([(0, 0)], 1, 0, 0).Reason);
        Assert.Contains("overlap", Bonds.Lap(new(0, 1, 1, 1, 1, 1, 1, 1), 1).Reason);
        Assert.Contains("no wood screw", ScrewData.Find("#11").Reason);
        Assert.Contains("six diameters", ScrewData.Find("#8").Then(s => LateralYield.WoodScrew(s, 0.5, 0.5, 0.01, 0.01)).Reason);
    }

    /// <summary>Swapping the members swaps their modes and leaves the value (NDS 12.3.1 is the same joint seen from the other side).</summary>
    [Fact]
    public void MembersMaySwap()
    {
        static LateralValue Get(DowelJoint j) => LateralYield.Reference(j).TryGet(out var v) ? v : throw new Xunit.Sdk.XunitException("no value");
        var joint = new DowelJoint(0.005, 600e6, 20e6, 35e6, 0.012, 0.04);
        var swapped = new DowelJoint(0.005, 600e6, 35e6, 20e6, 0.04, 0.012);
        var (one, other) = (Get(joint), Get(swapped));
        Assert.Equal(one.Load, other.Load, 1e-6);
        Assert.Equal(one.Modes[3].Load, other.Modes[4].Load, 1e-6);
        Assert.Equal(one.Modes[2].Load, other.Modes[2].Load, 1e-6);
    }

    [Fact]
    public void EfficiencyIsBetweenTheEntriesAndNoMoreThanTheLast()
    {
        Assert.Equal(0.90, Bonds.ScarfEfficiency(20).Or(0), 1e-12);
        Assert.InRange(Bonds.ScarfEfficiency(9).Or(0), 0.80, 0.85);
    }

    [Fact]
    public void LateralScrewHoles()
    {
        var ten = ScrewData.Find("#10").TryGet(out var s) ? s : null!;
        Assert.Equal(0.190 * 0.875, ScrewData.ShankHole(ten, 0.5).Or(0) / Inch, 1e-9);
        Assert.Equal(0, ScrewData.Pilot(ten, 0.42, false).Or(-1));
    }
}
