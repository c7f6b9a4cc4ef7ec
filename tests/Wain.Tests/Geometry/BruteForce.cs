using Wain.Core.Geometry.Kernel;

namespace Wain.Tests.Geometry;

/// <summary>Distance of two convex solids by trying every corner against every face and every edge against every edge: slow and plain.</summary>
internal static class BruteForce
{
    public static double Distance(ConvexPolyhedron a, ConvexPolyhedron b)
    {
        if (a.Corners.Any(c => b.Contains(c)) || b.Corners.Any(c => a.Contains(c))) return 0;
        var best = double.PositiveInfinity;
        foreach (var (solid, other) in new[] { (a, b), (b, a) })
            foreach (var corner in solid.Corners)
                foreach (var face in other.Faces)
                    best = Math.Min(best, ToFace(corner, other, face));
        foreach (var (p, q) in Edges(a))
            foreach (var (r, s) in Edges(b))
                best = Math.Min(best, EdgeToEdge(p, q, r, s));
        // An edge that passes through a face.
        foreach (var (solid, other) in new[] { (a, b), (b, a) })
            foreach (var (p, q) in Edges(solid))
                foreach (var face in other.Faces)
                {
                    var (hp, hq) = (face.Plane.SignedDistance(p), face.Plane.SignedDistance(q));
                    if (hp > 0 != hq > 0 && ToFace(p.Lerp(q, hp / (hp - hq)), other, face) < 1e-9) return 0;
                }
        return best;
    }

    private static IEnumerable<(Vec3, Vec3)> Edges(ConvexPolyhedron s) =>
        s.Faces.SelectMany(f => f.Corners.Select((c, k) => (A: Math.Min(c, f.Corners[(k + 1) % f.Corners.Length]), B: Math.Max(c, f.Corners[(k + 1) % f.Corners.Length]))))
            .Distinct().Select(e => (s.Corners[e.A], s.Corners[e.B]));

    // A corner's distance to a face counts where its foot lies on the face; the edges are tried on their own.
    private static double ToFace(Vec3 p, ConvexPolyhedron s, PolyhedronFace face)
    {
        var foot = face.Plane.Project(p);
        var corners = face.Corners.Select(i => s.Corners[i]).ToArray();
        for (var k = 0; k < corners.Length; k++)
        {
            var (a, b) = (corners[k], corners[(k + 1) % corners.Length]);
            if ((b - a).Cross(foot - a).Dot(face.Plane.Normal) < 0) return double.PositiveInfinity;
        }
        return p.DistanceTo(foot);
    }

    // Four end-to-edge distances, and the common perpendicular where it falls within both.
    private static double EdgeToEdge(Vec3 p, Vec3 q, Vec3 r, Vec3 s)
    {
        var best = Math.Min(Math.Min(ToEdge(p, r, s), ToEdge(q, r, s)), Math.Min(ToEdge(r, p, q), ToEdge(s, p, q)));
        var (d, e, w) = (q - p, s - r, r - p);
        var n = d.Cross(e);
        if (n.LengthSquared < 1e-18 * d.LengthSquared * e.LengthSquared) return best;
        var t = w.Cross(e).Dot(n) / n.LengthSquared;
        var u = w.Cross(d).Dot(n) / n.LengthSquared;
        return t is >= 0 and <= 1 && u is >= 0 and <= 1 ? Math.Min(best, Math.Abs(w.Dot(n)) / n.Length) : best;
    }

    private static double ToEdge(Vec3 p, Vec3 a, Vec3 b) => p.DistanceTo(a.Lerp(b, Math.Clamp((p - a).Dot(b - a) / (b - a).LengthSquared, 0, 1)));
}
