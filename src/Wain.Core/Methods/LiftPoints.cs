using System.Collections.Immutable;

namespace Wain.Core.Methods;

/// <summary>A point that holds a roof up, m in plan (x forward, y left), with a stiffness that may be any number the same for all points if they are alike.</summary>
public sealed record LiftPoint(double X, double Y, double Stiffness = 1);

/// <summary>What happens when one point lets go.</summary>
/// <param name="Failed">Which point, by its place in the list.</param>
/// <param name="Forces">N at each point, zero at the failed one; null if the rest cannot hold the roof level.</param>
/// <param name="Falls">True if the rest cannot be relied on to hold the roof: its centre is outside them, or so near to their border that nobody knows, and the corner drops.</param>
/// <param name="WorstRise">The largest force on another point over what it carried before.</param>
public sealed record PointFailure(int Failed, ImmutableArray<double>? Forces, bool Falls, double? WorstRise);

/// <summary>Forces at the lift points, N, up.</summary>
/// <param name="Elastic">With a rigid roof on springs of the stated stiffness. A negative force is a point that would have to pull down.</param>
/// <param name="Most">The most that each point can be made to carry by uneven travel, all points pushing: the case of three points.</param>
/// <param name="Least">The least; zero means that the point can go slack.</param>
/// <param name="Failures">One for each point.</param>
public sealed record LiftForces(ImmutableArray<double> Elastic, ImmutableArray<double> Most, ImmutableArray<double> Least, ImmutableArray<PointFailure> Failures);

/// <summary>Vertical forces of a rigid body on three or more points.</summary>
public static class LiftPoints
{
    /// <summary>The share of the weight that the least of three points must carry before they count as holding a roof: its centre is reckoned, not weighed, and a roof hangs on the line between two of them at 0 (our own margin).</summary>
    private const double Sure = 0.05;

    /// <summary>
    /// Three points are statics. With four or more, statics leaves the forces open: the elastic solution takes the roof as rigid on springs, R = k (p + q x + r y),
    /// with the sum of forces and of moments about both axes; four unequal lengths can shift the load until one point is slack, so the extremes over all
    /// sets of non-negative forces in equilibrium are given too (they lie where at most three points carry). Points must not all lie on one line.
    /// </summary>
    /// <param name="weight">N.</param>
    public static Result<LiftForces> Forces(double weight, double x, double y, IReadOnlyList<LiftPoint> points)
    {
        if (Need.All(
            Need.Positive(weight, "the lifted weight"), Need.Finite(x + y, "the centre of the lifted weight"),
            Need.That(points.Count >= 3, "a roof needs three lift points to stand by itself"),
            Need.Each(points, p => Need.All(Need.Finite(p.X + p.Y, "the place of a lift point"), Need.Positive(p.Stiffness, "the stiffness of a lift point")))) is { } why)
        {
            return new Missing(why);
        }

        if (Elastic(weight, x, y, points, _ => true) is not { } elastic)
        {
            return new Missing("the lift points lie on one line");
        }

        var most = new double[points.Count];
        var least = Enumerable.Repeat(double.PositiveInfinity, points.Count).ToArray();
        foreach (var triple in Triples(points.Count))
        {
            if (Elastic(weight, x, y, points, triple.Contains) is not { } forces || forces.Any(f => f < -1e-9 * weight))
            {
                continue;
            }

            for (var i = 0; i < forces.Length; i++)
            {
                most[i] = Math.Max(most[i], forces[i]);
                least[i] = Math.Min(least[i], Math.Max(0, forces[i]));
            }
        }

        if (double.IsPositiveInfinity(least[0]))
        {
            return new Missing("the centre of the lifted weight lies outside the lift points: the roof tips over them");
        }

        return new LiftForces([.. elastic], [.. most], [.. least], [.. Enumerable.Range(0, points.Count).Select(i => Fail(weight, x, y, points, elastic, i))]);
    }

    /// <summary>Upright forces, N, up, on points that pull as well as push, such as the mounts of a frame: the centre may lie outside of them, and a negative force pulls down.</summary>
    public static Result<ImmutableArray<double>> Rigid(double weight, double x, double y, IReadOnlyList<LiftPoint> points) =>
        Need.All(Need.Positive(weight, "the weight"), Need.Finite(x + y, "the centre of the weight"), Need.That(points.Count >= 3, "a body needs three mounts to stand by itself")) is { } why ? new Missing(why)
        : Elastic(weight, x, y, points, _ => true) is { } forces ? forces.ToImmutableArray() : new Missing("the mounts lie on one line");

    private static PointFailure Fail(double weight, double x, double y, IReadOnlyList<LiftPoint> points, double[] before, int failed)
    {
        var after = points.Count > 3 ? Elastic(weight, x, y, points, i => i != failed) : null;
        if (after is null)
        {
            return new(failed, null, true, null);
        }

        var supported = Triples(points.Count).Where(t => !t.Contains(failed)).Any(t => Elastic(weight, x, y, points, t.Contains) is { } f && t.All(i => f[i] > Sure * weight));
        return new(failed, [.. after], !supported, Enumerable.Range(0, after.Length).Where(i => i != failed).Max(i => after[i] - before[i]));
    }

    private static double[]? Elastic(double weight, double x, double y, IReadOnlyList<LiftPoint> points, Func<int, bool> carries)
    {
        var matrix = new double[3, 3];
        var size = Math.Max(1e-9, points.Max(p => Math.Max(Math.Abs(p.X - x), Math.Abs(p.Y - y))));
        double[] Row(LiftPoint p) => [1, (p.X - x) / size, (p.Y - y) / size];
        for (var i = 0; i < points.Count; i++)
        {
            if (!carries(i))
            {
                continue;
            }

            var row = Row(points[i]);
            for (var r = 0; r < 3; r++)
            {
                for (var c = 0; c < 3; c++)
                {
                    matrix[r, c] += points[i].Stiffness * row[r] * row[c];
                }
            }
        }

        return Solve.Linear(matrix, [weight, 0, 0]) is { } s
            ? [.. points.Select((p, i) => carries(i) ? p.Stiffness * Row(p).Zip(s, (a, b) => a * b).Sum() : 0)]
            : null;
    }

    private static IEnumerable<int[]> Triples(int count) =>
        from i in Enumerable.Range(0, count)
        from j in Enumerable.Range(i + 1, count - i - 1)
        from k in Enumerable.Range(j + 1, count - j - 1)
        select new[] { i, j, k };
}
