using Wain.Core;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Text;

namespace Wain.Tests.Geometry;

/// <summary>A leg that mirrors another has its bow and its rounded corner as well, so that a plan walked in halves is the same on both sides.</summary>
public sealed class MirroredLegTests
{
    private static PlacedPlan Plan(string corner, string other)
    {
        var compiled = Compiler.Compile(new SourceText("plan.wain", $$"""
            plan nose {
                start at (0 in, 30 in)
                leg cheek run 30 in
                leg slant to (40 in, 20 in){{corner}}
                leg prow across 40 in
                leg other_slant mirror of slant{{other}}
                leg other_cheek mirror of cheek
                leg back home
            }
            """));
        Assert.DoesNotContain(compiled.Findings, f => f.Level == Core.Findings.Level.Error);
        return compiled.Structure!.Plans.Single();
    }

    [Theory]
    [InlineData("", "")]
    [InlineData(", bowed outward by 2 in", "")]
    [InlineData(", rounded 4 in", "")]
    public void Both_sides_are_alike(string corner, string other) => Assert.Equal(0, Plan(corner, other).Outline.Centroid().Y, 1e-6);

    /// <summary>Two segments of a circle over chords of sqrt(200) in, 2 in high: r2 (a - sin a) / 2 each.</summary>
    [Fact]
    public void Both_bows_add_their_area()
    {
        double chord = Math.Sqrt(200), height = 2, radius = (chord * chord / 4 + height * height) / (2 * height), angle = 4 * Math.Atan2(2 * height, chord);
        double bows = 2 * radius * radius * (angle - Math.Sin(angle)) / 2;
        Assert.Equal(bows, (Plan(", bowed outward by 2 in", "").Outline.Area() - Plan("", "").Outline.Area()) / (25.4 * 25.4), 1e-6);
    }

    [Fact]
    public void A_mirror_may_say_otherwise()
    {
        var plan = Plan(", bowed outward by 2 in", ", bowed outward by 1 in");
        Assert.NotEqual(plan.Outline.Edges[plan.Outline.IndexOf("slant")].Sweep, plan.Outline.Edges[plan.Outline.IndexOf("other_slant")].Sweep, 1e-3);
    }

    /// <summary>A corner of 45 degrees rounded with r loses r2 (tan 22.5 - 22.5 degrees in radians): two of them.</summary>
    [Fact]
    public void Both_corners_are_rounded()
    {
        double lost = 2 * 4 * 4 * (Math.Tan(Math.PI / 8) - Math.PI / 8);
        Assert.Equal(lost, (Plan("", "").Outline.Area() - Plan(", rounded 4 in", "").Outline.Area()) / (25.4 * 25.4), 1e-6);
    }
}
