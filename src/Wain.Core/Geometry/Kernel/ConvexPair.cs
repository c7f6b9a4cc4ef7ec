namespace Wain.Core.Geometry.Kernel;

/// <summary>
/// The nearest a moving solid comes to a standing one. <see cref="Part"/> is the part of the movement (0 to 1) at which it does, <see cref="OnMoving"/> the
/// nearest point with the solid there. <see cref="Bound"/> is a distance that the true one can't be below; the two differ by rounding alone.
/// </summary>
public readonly record struct NearestPair(double Distance, double Bound, double Part, Vec3 OnMoving, Vec3 OnStanding);

/// <summary>How deep two solids are in each other: the least shift that would free them (mm) and its direction for the moving one (unit).</summary>
public readonly record struct Penetration(double Depth, Vec3 Direction);

/// <summary>
/// Two convex solids, the first of them moving straight by a vector. What it passes through is the sum of the solid and that vector's line, which is convex
/// again, so a least distance over all positions is one distance between convex solids and not a search over positions.
/// </summary>
public static class ConvexPair
{
    private readonly record struct Vertex(Vec3 W, Vec3 A, Vec3 B, double Part);

    /// <summary>
    /// Gilbert, Johnson and Keerthi's method (IEEE Journal of Robotics and Automation 4, 1988) on the difference of the swept solid and the standing one. Every
    /// step has a separating plane that bounds the answer from below, and it stops when that meets the answer from above.
    /// </summary>
    public static NearestPair Nearest(ConvexPolyhedron moving, ConvexPolyhedron standing, Vec3 by)
    {
        // Measured from near both solids, so that coordinates far from the world's origin lose nothing.
        var simplex = new List<Vertex>(4) { Support(moving, standing, by, (moving.Bounds.Min + moving.Bounds.Max - standing.Bounds.Min - standing.Bounds.Max) / 2) };
        double[] weights = [1];
        var v = simplex[0].W;
        var bound = 0.0;
        for (var step = 0; step < 256; step++)
        {
            var square = v.LengthSquared;
            if (square <= 1e-24) break;
            var next = Support(moving, standing, by, v);
            bound = Math.Max(bound, v.Dot(next.W) / Math.Sqrt(square));
            if (Math.Sqrt(square) - bound <= 1e-12 * Math.Max(1, Math.Sqrt(square)) || simplex.Exists(s => s.W == next.W)) break;
            simplex.Add(next);
            var (kept, newWeights) = NearestToOrigin(simplex);
            var reached = Sum(kept, newWeights, s => s.W);
            if (reached.LengthSquared >= square) { simplex.RemoveAt(simplex.Count - 1); break; }
            (simplex, weights, v) = (kept, newWeights, reached);
            if (simplex.Count == 4) break;
        }
        var part = 0.0;
        for (var i = 0; i < simplex.Count; i++) part += weights[i] * simplex[i].Part;
        part = Math.Min(part, 1);
        return new(v.Length, bound, part, Sum(simplex, weights, s => s.A) + by * part, Sum(simplex, weights, s => s.B));
    }

    private static Vec3 Sum(List<Vertex> simplex, double[] weights, Func<Vertex, Vec3> of)
    {
        var sum = Vec3.Zero;
        for (var i = 0; i < simplex.Count; i++) sum += of(simplex[i]) * weights[i];
        return sum;
    }

    // The corner of the difference that lies farthest against v.
    private static Vertex Support(ConvexPolyhedron moving, ConvexPolyhedron standing, Vec3 by, Vec3 v)
    {
        var part = by.Dot(v) < 0 ? 1.0 : 0.0;
        var (a, b) = (moving.Support(-v), standing.Support(v));
        return new(a + by * part - b, a, b, part);
    }

    // Every subset of at most four corners is tried: 15 small solves, slower than a clever order of cases and without its traps.
    private static (List<Vertex>, double[]) NearestToOrigin(List<Vertex> simplex)
    {
        var best = double.PositiveInfinity;
        (List<Vertex> Kept, double[] Weights) result = (simplex, []);
        for (var mask = 1; mask < 1 << simplex.Count; mask++)
        {
            var subset = new List<Vertex>(4);
            for (var i = 0; i < simplex.Count; i++)
                if ((mask >> i & 1) != 0) subset.Add(simplex[i]);
            if (Weights(subset) is not { } weights) continue;
            var square = Sum(subset, weights, s => s.W).LengthSquared;
            // A smaller subset comes out equal when the others carry no weight; the tie goes to it.
            if (square < best * (1 - 1e-15) || square < best && subset.Count <= result.Kept.Count) (best, result) = (square, (subset, weights));
        }
        return result;
    }

    // Weights, none negative, of the point of the subset's flat nearest to the origin; null when it lies outside the subset.
    private static double[]? Weights(List<Vertex> s)
    {
        switch (s.Count)
        {
            case 1: return [1];
            case 2:
            {
                var d = s[1].W - s[0].W;
                var t = -s[0].W.Dot(d) / d.LengthSquared;
                return t is >= 0 and <= 1 ? [1 - t, t] : null;
            }
            case 3:
            {
                var (a, b, c) = (s[0].W, s[1].W, s[2].W);
                var n = (b - a).Cross(c - a);
                var square = n.LengthSquared;
                if (square == 0) return null;
                double[] w = [b.Cross(c).Dot(n) / square, c.Cross(a).Dot(n) / square, 0];
                w[2] = a.Cross(b).Dot(n) / square;
                return Normalised(w);
            }
            default:
            {
                var (a, b, c, d) = (s[0].W, s[1].W, s[2].W, s[3].W);
                var volume = (b - a).Dot((c - a).Cross(d - a));
                if (volume == 0) return null;
                return Normalised([b.Dot(c.Cross(d)) / volume, -a.Dot(c.Cross(d)) / volume, a.Dot(b.Cross(d)) / volume, -a.Dot(b.Cross(c)) / volume]);
            }
        }

        static double[]? Normalised(double[] w)
        {
            var sum = w.Sum();
            return Array.Exists(w, x => !(x >= 0)) || sum <= 0 ? null : Array.ConvertAll(w, x => x / sum);
        }
    }

    /// <summary>
    /// How deep the swept solid is in the standing one; null when they share no volume. The least shift is square to a face of their difference: a face of
    /// either, an edge of one with an edge of the other, or an edge of the moving one with its path.
    /// </summary>
    public static Penetration? Penetrates(ConvexPolyhedron moving, ConvexPolyhedron standing, Vec3 by)
    {
        var best = new Penetration(double.PositiveInfinity, default);
        foreach (var axis in Axes(moving, standing, by))
        {
            var (a0, a1) = moving.Extent(axis);
            var (b0, b1) = standing.Extent(axis);
            var step = by.Dot(axis);
            var up = b1 - (a0 + Math.Min(0, step));
            var down = a1 + Math.Max(0, step) - b0;
            if (up <= Tolerance.Length || down <= Tolerance.Length) return null;
            if (up < best.Depth) best = new(up, axis);
            if (down < best.Depth) best = new(down, -axis);
        }
        return best;
    }

    /// <summary>The parts of the movement (0 to 1) between which the two share volume; null when they never do.</summary>
    public static (double From, double To)? Collision(ConvexPolyhedron moving, ConvexPolyhedron standing, Vec3 by)
    {
        var (from, to) = (0.0, 1.0);
        foreach (var axis in Axes(moving, standing, by))
        {
            var (a0, a1) = moving.Extent(axis);
            var (b0, b1) = standing.Extent(axis);
            var step = by.Dot(axis);
            if (Math.Abs(step) <= Tolerance.Length)
            {
                if (Math.Min(b1 - a0, a1 - b0) <= Tolerance.Length) return null;
                continue;
            }
            var (enter, leave) = ((b0 - a1) / step, (b1 - a0) / step);
            from = Math.Max(from, Math.Min(enter, leave));
            to = Math.Min(to, Math.Max(enter, leave));
            if (from > to) return null;
        }
        return (to - from) * by.Length <= Tolerance.Length && by.Length > Tolerance.Length ? null : (from, to);
    }

    private static IEnumerable<Vec3> Axes(ConvexPolyhedron moving, ConvexPolyhedron standing, Vec3 by)
    {
        foreach (var face in moving.Faces) yield return face.Plane.Normal;
        foreach (var face in standing.Faces) yield return face.Plane.Normal;
        foreach (var a in moving.EdgeDirections)
        {
            foreach (var b in standing.EdgeDirections)
                if (a.Cross(b) is { Length: > 1e-7 } axis) yield return axis.Unit;
            if (by.Length > Tolerance.Length && a.Cross(by.Unit) is { Length: > 1e-7 } along) yield return along.Unit;
        }
        if (by.Length > Tolerance.Length)
            foreach (var b in standing.EdgeDirections)
                if (b.Cross(by.Unit) is { Length: > 1e-7 } along) yield return along.Unit;
    }
}
