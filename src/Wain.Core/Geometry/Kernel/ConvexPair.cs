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
        // Measured from near both solids, so that coordinates far from the world's origin lose nothing. Asked of thousands of pairs, so nothing is made on the heap.
        Span<Vertex> simplex = stackalloc Vertex[4], kept = stackalloc Vertex[4];
        Span<double> weights = stackalloc double[4], newWeights = stackalloc double[4];
        simplex[0] = Support(moving, standing, by, (moving.Bounds.Min + moving.Bounds.Max - standing.Bounds.Min - standing.Bounds.Max) / 2);
        weights[0] = 1;
        var count = 1;
        var v = simplex[0].W;
        var bound = 0.0;
        for (var step = 0; step < 256; step++)
        {
            var square = v.LengthSquared;
            if (square <= 1e-24) break;
            var next = Support(moving, standing, by, v);
            bound = Math.Max(bound, v.Dot(next.W) / Math.Sqrt(square));
            if (Math.Sqrt(square) - bound <= 1e-12 * Math.Max(1, Math.Sqrt(square)) || Holds(simplex[..count], next.W)) break;
            simplex[count] = next;
            var (left, reached) = NearestToOrigin(simplex[..(count + 1)], kept, newWeights);
            if (reached.LengthSquared >= square) break;
            (count, v) = (left, reached);
            kept[..count].CopyTo(simplex);
            newWeights[..count].CopyTo(weights);
            if (count == 4) break;
        }
        var part = 0.0;
        Vec3 onMoving = Vec3.Zero, onStanding = Vec3.Zero;
        for (var i = 0; i < count; i++)
        {
            part += weights[i] * simplex[i].Part;
            onMoving += simplex[i].A * weights[i];
            onStanding += simplex[i].B * weights[i];
        }
        part = Math.Min(part, 1);
        return new(v.Length, bound, part, onMoving + by * part, onStanding);
    }

    private static bool Holds(ReadOnlySpan<Vertex> simplex, Vec3 w)
    {
        foreach (var vertex in simplex) if (vertex.W == w) return true;
        return false;
    }

    // The corner of the difference that lies farthest against v.
    private static Vertex Support(ConvexPolyhedron moving, ConvexPolyhedron standing, Vec3 by, Vec3 v)
    {
        var part = by.Dot(v) < 0 ? 1.0 : 0.0;
        var (a, b) = (moving.Support(-v), standing.Support(v));
        return new(a + by * part - b, a, b, part);
    }

    // Every subset of at most four corners is tried: 15 small solves, slower than a clever order of cases and without its traps. Gives how many corners bear the nearest point, and it.
    private static (int Count, Vec3 Nearest) NearestToOrigin(ReadOnlySpan<Vertex> simplex, Span<Vertex> kept, Span<double> keptWeights)
    {
        var best = double.PositiveInfinity;
        var (count, nearest) = (simplex.Length, Vec3.Zero);
        Span<Vertex> subset = stackalloc Vertex[4];
        Span<double> weights = stackalloc double[4];
        for (var mask = 1; mask < 1 << simplex.Length; mask++)
        {
            var size = 0;
            for (var i = 0; i < simplex.Length; i++)
                if ((mask >> i & 1) != 0) subset[size++] = simplex[i];
            if (!Weights(subset[..size], weights)) continue;
            var sum = Vec3.Zero;
            for (var i = 0; i < size; i++) sum += subset[i].W * weights[i];
            var square = sum.LengthSquared;
            // A smaller subset comes out equal when the others carry no weight; the tie goes to it.
            if (!(square < best * (1 - 1e-15) || square < best && size <= count)) continue;
            (best, count, nearest) = (square, size, sum);
            subset[..size].CopyTo(kept);
            weights[..size].CopyTo(keptWeights);
        }
        return (count, nearest);
    }

    // Weights, none negative, of the point of the subset's flat nearest to the origin; false when it lies outside the subset.
    private static bool Weights(ReadOnlySpan<Vertex> s, Span<double> w)
    {
        switch (s.Length)
        {
            case 1:
                w[0] = 1;
                return true;
            case 2:
            {
                var d = s[1].W - s[0].W;
                var t = -s[0].W.Dot(d) / d.LengthSquared;
                (w[0], w[1]) = (1 - t, t);
                return t is >= 0 and <= 1;
            }
            case 3:
            {
                var (a, b, c) = (s[0].W, s[1].W, s[2].W);
                var n = (b - a).Cross(c - a);
                var square = n.LengthSquared;
                if (square == 0) return false;
                (w[0], w[1], w[2]) = (b.Cross(c).Dot(n) / square, c.Cross(a).Dot(n) / square, a.Cross(b).Dot(n) / square);
                return Normalised(w[..3]);
            }
            default:
            {
                var (a, b, c, d) = (s[0].W, s[1].W, s[2].W, s[3].W);
                var volume = (b - a).Dot((c - a).Cross(d - a));
                if (volume == 0) return false;
                (w[0], w[1], w[2], w[3]) = (b.Dot(c.Cross(d)) / volume, -a.Dot(c.Cross(d)) / volume, a.Dot(b.Cross(d)) / volume, -a.Dot(b.Cross(c)) / volume);
                return Normalised(w);
            }
        }

        static bool Normalised(Span<double> w)
        {
            var sum = 0.0;
            foreach (var x in w)
            {
                if (!(x >= 0)) return false;
                sum += x;
            }
            if (sum <= 0) return false;
            foreach (ref var x in w) x /= sum;
            return true;
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
