using Wain.Core;
using Wain.Core.Findings;
using Wain.Core.Text;

namespace Wain.Tests.Geometry;

/// <summary>What two walls say of the corner where they meet.</summary>
public sealed class CornerWordsTests
{
    private static List<Finding> Told(string left, string front, string more = "") => [.. Compiled(left, front, more).Findings.Where(f => f.Code == "WN3017")];

    private static Compilation Compiled(string left, string front, string more) => Compiler.Compile(new SourceText("corner.wain", $$"""
        sheet ply { thickness 12 mm
            size 48 in by 96 in }
        stack board { sheet ply }
        plan body {
            start at (0 in, 20 in)
            leg left run 80 in
            leg front across 40 in
            leg right run 80 in, aft
            leg rear home, across 40 in
        }
        panel left_wall of board {
            stands on body.left, from 0 in to 30 in
            {{left}}
        }
        panel front_wall of board {
            stands on body.front, from 0 in to 30 in
            {{front}}
        }
        {{more}}
        """));

    [Theory]
    [InlineData("stops at front_wall", "stops at left_wall", "both stop at the other")]
    [InlineData("runs through front_wall", "runs through left_wall", "both run through")]
    [InlineData("stops at front_wall\n    runs through front_wall", "", "said to run through and to stop")]
    public void A_contradiction_is_told_once_with_both_places(string left, string front, string said)
    {
        foreach (string more in new[] { "", "mirror left_wall as right_wall" })
        {
            var told = Assert.Single(Told(left, front, more));
            Assert.Equal(Level.Error, told.Level);
            Assert.Contains(said, told.Message);
            Assert.NotEqual(told.Place.Line, Assert.Single(told.Related).Place.Line);
        }
    }

    [Theory]
    [InlineData("stops at front_wall", "")]
    [InlineData("", "stops at left_wall")]
    [InlineData("stops at front_wall", "runs through left_wall")]
    [InlineData("runs through front_wall", "stops at left_wall")]
    public void What_agrees_is_not_told(string left, string front) => Assert.Empty(Told(left, front, "mirror left_wall as right_wall"));

    /// <summary>A leg of 40 in and one of 80 in, 12 mm thick: the one that the joint names is whole, the other 12 mm shorter. The right wall has no joint of its own and is no neighbour.</summary>
    [Theory]
    [InlineData("front_wall", 80 * 25.4 - 12, 40 * 25.4)]
    [InlineData("left_wall", 80 * 25.4, 40 * 25.4 - 12)]
    public void The_joint_says_who_runs_through(string through, double left, double front)
    {
        var structure = Compiled("", "", $"joint left_wall.left to front_wall.right {{\n    butt\n    through {through}\n}}\n").Structure!;
        Assert.Equal(left, structure.Panel("left_wall")!.Width, 6);
        Assert.Equal(front, structure.Panel("front_wall")!.Width, 6);
    }

    [Theory]
    [InlineData("stops at front_wall", "left_wall", true)]
    [InlineData("runs through front_wall", "front_wall", true)]
    [InlineData("runs through front_wall", "left_wall", false)]
    [InlineData("stops at front_wall", "front_wall", false)]
    public void A_joint_that_says_otherwise_than_a_wall_is_told(string left, string through, bool told) =>
        Assert.Equal(told, Told(left, "", $"joint left_wall.left to front_wall.inside {{\n    butt\n    through {through}\n}}\n").Count == 1);
}
