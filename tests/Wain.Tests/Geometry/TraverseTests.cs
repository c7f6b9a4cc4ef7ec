using Wain.Core.Geometry.Kernel;

namespace Wain.Tests.Geometry;

public class TraverseTests
{
    private const double Inch = 25.4, Degree = Math.PI / 180;

    /// <summary>A taper from 70 in to 56 in at 8 degrees a side: plain right-triangle arithmetic, run 49.81 in and leg 50.30 in; a run of 48 in makes it 8.30 degrees.</summary>
    [Fact]
    public void Taper_from_seventy_to_fifty_six()
    {
        var leg = LegSolver.Solve(new(Across: 7 * Inch, Angle: 8 * Degree)).Triangle!.Value;
        Assert.Equal(49.81, leg.Run / Inch, 2);
        Assert.Equal(50.30, leg.Length / Inch, 2);
        var shorter = LegSolver.Solve(new(Run: 48 * Inch, Across: 7 * Inch)).Triangle!.Value;
        Assert.Equal(8.30, shorter.Angle / Degree, 2);
    }

    [Fact]
    public void Any_two_measures_give_the_same_triangle()
    {
        var truth = new LegTriangle(300, 400);
        foreach (var a in Enum.GetValues<LegMeasure>())
            foreach (var b in Enum.GetValues<LegMeasure>())
            {
                if (a == b) continue;
                var found = LegSolver.From(a, truth[a], b, truth[b])!.Value;
                Assert.Equal(300, found.Run, 9);
                Assert.Equal(400, found.Across, 9);
            }
    }

    [Fact]
    public void Over_determined_leg_names_the_pair_and_the_closing_values()
    {
        var solution = LegSolver.Solve(new(Run: 48 * Inch, Across: 7 * Inch, Angle: 8 * Degree));
        Assert.Equal([LegMeasure.Run, LegMeasure.Across], solution.Base.AsEnumerable());
        var angle = Assert.Single(solution.Misfits);
        Assert.Equal(8.30, angle.Closing / Degree, 2);
        Assert.Equal((angle.Closing - 8 * Degree) * Math.Sqrt(48 * 48 + 7 * 7) * Inch, angle.Error, 9);
        Assert.Equal(3, solution.Disagreements.Length);
        var runAndAcross = Assert.Single(solution.Disagreements, d => d.Held == LegMeasure.Angle);
        Assert.Equal(49.81, runAndAcross.ClosingA / Inch, 2);
        Assert.Equal(48 * Math.Tan(8 * Degree), runAndAcross.ClosingB / Inch, 9);
        Assert.Equal(runAndAcross.ClosingA - 48 * Inch, runAndAcross.ErrorA, 9);
        Assert.Empty(LegSolver.Solve(new(Run: 3, Length: 5)).Misfits);
    }

    [Fact]
    public void Consistent_measures_do_not_disagree()
    {
        var solution = LegSolver.Solve(new(300, 400, 500, Math.Atan2(4, 3)));
        Assert.Equal(12, solution.Disagreements.Length);
        Assert.All(solution.Disagreements, d => Assert.InRange(d.Greatest, 0, 1e-9));
    }

    [Fact]
    public void Impossible_and_unknown_legs_are_told_apart()
    {
        Assert.Equal(LegFailure.TooFewMeasures, LegSolver.Solve(new(Run: 5)).Failure);
        Assert.Equal(LegFailure.Impossible, LegSolver.Solve(new(Run: 5, Length: 4)).Failure);
        Assert.Equal(LegFailure.Impossible, LegSolver.Solve(new(Run: 5, Angle: Math.PI / 2)).Failure);
    }

    [Fact]
    public void A_tapered_plan_is_walked_round()
    {
        // From the left rear corner forward and in, across, the mirror back, and home.
        var (width, nose) = (70 * Inch, 56 * Inch);
        var x = new Vec2(1, 0);
        Leg[] legs =
        [
            new MeasuredLeg("left_nose", x, new(Angle: 8 * Degree), ToRight: true, WidthAtEnd: nose),
            new MeasuredLeg("nose", new(0, -1), new(Length: nose, Angle: 0)),
            new MirrorLeg("right_nose", "left_nose"),
            new LegHome("aft"),
        ];
        var walk = Traverse.Walk(new(-1000, width / 2), legs, default, x);
        Assert.Empty(walk.Problems);
        Assert.Equal(0, walk.Misclosure.Length, 9);
        Assert.Equal(4, walk.Legs.Length);
        Assert.Equal(50.30, walk.Legs[0].Segment.Length / Inch, 2);
        Assert.Equal(width, walk.Legs[3].Segment.Length, 9);
        var run = 7 / Math.Tan(8 * Degree) * Inch;
        Assert.Equal(run * (width + nose) / 2, walk.Outline!.Area(), 6);
        // Walked clockwise, seen from above.
        Assert.True(walk.Outline!.SignedArea() < 0);
        Assert.Equal("nose", walk.Outline!.Edges[1].Name);
    }

    [Fact]
    public void Turns_and_arcs_close_a_slot()
    {
        Leg[] legs = [new TurnedLeg("near", 0, 100), new ArcLeg("end", 20, Math.PI), new TurnedLeg("far", 0, 100), new ArcLeg("start", 20, Math.PI)];
        var walk = Traverse.Walk(default, legs, default, new(1, 0));
        Assert.Equal(0, walk.Misclosure.Length, 9);
        Assert.Equal(4000 + Math.PI * 400, walk.Outline!.SignedArea(), 9);
    }

    [Fact]
    public void Problems_name_the_leg()
    {
        Leg[] legs = [new TurnedLeg("a", 0, 0), new MirrorLeg("b", "nothing"), new MirrorLeg("c", "d"), new ArcLeg("d", 0, 1), new MeasuredLeg("e", new(1, 0), new(Run: 5))];
        var problems = Traverse.Walk(default, legs, default, new(1, 0)).Problems;
        Assert.Equal(
            [TraverseFailure.NoLength, TraverseFailure.UnknownMirror, TraverseFailure.MirrorOfLater, TraverseFailure.BadArc, TraverseFailure.Measures, TraverseFailure.TooFewLegs],
            problems.Select(p => p.Failure));
    }
}
