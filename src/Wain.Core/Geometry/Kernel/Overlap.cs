namespace Wain.Core.Geometry.Kernel;

/// <summary>The area that two outlines share.</summary>
public static class Overlap
{
    // Arcs that cross the other outline are taken as chords this close to them (mm): on a whole camper the error stays below a square millimetre.
    private const double Sagitta = 0.001;

    /// <summary>mm2. Exact for straight edges, and for any outline that lies wholly inside or outside the other.</summary>
    public static double Area(Outline a, Outline b)
    {
        var (boxA, boxB) = (a.Bounds, b.Bounds);
        if (!boxA.Touches(boxB)) return 0;
        if (a.Contains(b)) return b.Area();
        if (b.Contains(a)) return a.Area();
        return Polygons([.. a.CounterClockwise.Flattened(Sagitta).Corners], [.. b.CounterClockwise.Flattened(Sagitta).Corners]);
    }

    /// <summary>
    /// A polygon is the signed sum of the triangles from one fixed point to its edges, whether it is convex or not; so the shared area of two polygons is
    /// the signed sum over pairs of triangles, and triangles are convex and easily clipped.
    /// </summary>
    private static double Polygons(Vec2[] a, Vec2[] b)
    {
        // A point near both keeps the triangles small and the sum free of cancellation.
        var apex = a[0];
        double sum = 0;
        for (int i = 0; i < a.Length; i++)
        {
            var (p, q) = (a[i], a[(i + 1) % a.Length]);
            double signA = Math.Sign((p - apex).Cross(q - apex));
            if (signA == 0) continue;
            for (int j = 0; j < b.Length; j++)
            {
                var (r, s) = (b[j], b[(j + 1) % b.Length]);
                double signB = Math.Sign((r - apex).Cross(s - apex));
                if (signB == 0) continue;
                sum += signA * signB * Triangles(apex, signA > 0 ? p : q, signA > 0 ? q : p, signB > 0 ? r : s, signB > 0 ? s : r);
            }
        }
        return Math.Max(0, sum);
    }

    // Both triangles run counter-clockwise and share the apex, so what they share is the first cut by the three edges of the second. Asked of every pair of edges, so nothing is made on the heap.
    private static double Triangles(Vec2 apex, Vec2 p, Vec2 q, Vec2 r, Vec2 s)
    {
        // A cut adds a corner; rounding could at the worst double them.
        Span<Vec2> shape = stackalloc Vec2[24], cut = stackalloc Vec2[24];
        (shape[0], shape[1], shape[2]) = (apex, p, q);
        int count = Cut(shape[..3], apex, r, cut);
        count = Cut(cut[..count], r, s, shape);
        count = Cut(shape[..count], s, apex, cut);
        double twice = 0;
        for (int i = 1; i + 1 < count; i++) twice += (cut[i] - cut[0]).Cross(cut[i + 1] - cut[0]);
        return twice / 2;
    }

    // What lies to the left of the line from one point to another; gives how many corners it has.
    private static int Cut(ReadOnlySpan<Vec2> shape, Vec2 from, Vec2 to, Span<Vec2> kept)
    {
        int count = 0;
        for (int i = 0; i < shape.Length; i++)
        {
            var (here, next) = (shape[i], shape[(i + 1) % shape.Length]);
            double side = (to - from).Cross(here - from), nextSide = (to - from).Cross(next - from);
            if (side >= 0) kept[count++] = here;
            if (side > 0 != nextSide > 0 && side != 0 && nextSide != 0) kept[count++] = here.Lerp(next, side / (side - nextSide));
        }
        return count;
    }
}
