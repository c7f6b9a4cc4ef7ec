using System.Collections.Immutable;
using System.Runtime.CompilerServices;

namespace Wain.Core.Geometry.Kernel;

/// <summary>Volume (mm3) and centroid (mm) of a solid.</summary>
public readonly record struct SolidMeasures(double Volume, Vec3 Centroid)
{
    /// <summary>Both together.</summary>
    public static SolidMeasures operator +(SolidMeasures a, SolidMeasures b)
    {
        var volume = a.Volume + b.Volume;
        return new(volume, volume == 0 ? default : (a.Centroid * a.Volume + b.Centroid * b.Volume) / volume);
    }
}

/// <summary>A face of a polyhedron: its plane with the normal outward, and its corners counter-clockwise seen from outside, as indices.</summary>
public sealed record PolyhedronFace(Plane Plane, ImmutableArray<int> Corners);

/// <summary>A bounded convex solid with flat faces (mm).</summary>
public sealed class ConvexPolyhedron
{
    // A kilometre: nothing that we place is larger.
    private const double Reach = 1e6;

    // Boxed, so that two threads that ask at once each see a whole value.
    private StrongBox<ImmutableArray<Vec3>>? _edgeDirections;

    private ConvexPolyhedron(ImmutableArray<Vec3> corners, ImmutableArray<PolyhedronFace> faces)
    {
        Corners = corners;
        Faces = faces;
        Bounds = Box3.Of(corners);
    }

    public ImmutableArray<Vec3> Corners { get; }
    public ImmutableArray<PolyhedronFace> Faces { get; }
    public Box3 Bounds { get; }

    /// <summary>Unit directions of the edges, parallel edges once. Found when first asked for: most solids are never near enough to another.</summary>
    public ImmutableArray<Vec3> EdgeDirections
    {
        get
        {
            if (_edgeDirections is { } known) return known.Value;
            var found = Directions();
            _edgeDirections = new(found);
            return found;
        }
    }

    public IEnumerable<Plane> Planes => Faces.Select(f => f.Plane);

    public static ConvexPolyhedron Block(Vec3 min, Vec3 max) => FromHalfSpaces([
        new(Vec3.UnitX, max.X), new(-Vec3.UnitX, -min.X), new(Vec3.UnitY, max.Y), new(-Vec3.UnitY, -min.Y), new(Vec3.UnitZ, max.Z), new(-Vec3.UnitZ, -min.Z)])!;

    /// <summary>The solid on the negative side of every plane; null when it is empty, flat, or not bounded within 900 m of the origin.</summary>
    public static ConvexPolyhedron? FromHalfSpaces(IReadOnlyList<Plane> halfSpaces)
    {
        var planes = Distinct(halfSpaces);
        // Faces cut out of squares a kilometre wide find where the solid is, those cut out of squares little larger than it find its corners to the last bits.
        var scratch = new Scratch(planes.Count);
        var rough = new List<Vec3>();
        for (var i = 0; i < planes.Count; i++)
            foreach (var p in FaceLoop(planes, i, default, Reach, scratch))
            {
                if (p.Length > 0.9 * Reach) return null;
                rough.Add(p);
            }
        return rough.Count < 4 ? null : Within(Box3.Of(rough), planes, scratch);
    }

    // The solid of planes that is known to lie in a box.
    private static ConvexPolyhedron? Within(Box3 box, List<Plane> planes, Scratch scratch)
    {
        var (centre, size) = ((box.Min + box.Max) / 2, (box.Max - box.Min).Length + 1);
        var corners = new List<Vec3>();
        var faces = ImmutableArray.CreateBuilder<PolyhedronFace>();
        for (var i = 0; i < planes.Count; i++)
        {
            var loop = FaceLoop(planes, i, centre, size, scratch);
            if (loop.Length < 3) continue;
            var indices = new List<int>(loop.Length);
            foreach (var p in loop)
            {
                var at = 0;
                while (at < corners.Count && !corners[at].IsNear(p, Tolerance.Length)) at++;
                if (at == corners.Count) corners.Add(p);
                if (indices.Count == 0 || indices[^1] != at && indices[0] != at) indices.Add(at);
            }
            if (indices.Count >= 3) faces.Add(new(planes[i], [.. indices]));
        }
        if (faces.Count < 4) return null;
        var solid = new ConvexPolyhedron([.. corners], faces.ToImmutable());
        return solid.Measures.Volume > Tolerance.Length ? solid : null;
    }

    /// <summary>
    /// The solid over a convex outline without bevels between two depths (mm) below a frame's face. Null where edges are too short, or too nearly in one line,
    /// for each to be a face of its own: <see cref="FromHalfSpaces"/> then tells what is left.
    /// </summary>
    public static ConvexPolyhedron? Upright(Frame frame, Outline convex, double from, double to)
    {
        int n = convex.Count;
        if (to - from <= 4 * Tolerance.Length) return null;
        for (int i = 0; i < n; i++)
        {
            var (before, here) = (convex.Segment(convex.Previous(i)), convex.Segment(i));
            if (here.IsArc || here.Chord.Length <= 4 * Tolerance.Length || before.Chord.Unit.Cross(here.Chord.Unit) <= 4 * Tolerance.Angle) return null;
        }
        var corners = ImmutableArray.CreateBuilder<Vec3>(2 * n);
        foreach (double depth in (ReadOnlySpan<double>)[from, to])
            for (int i = 0; i < n; i++) corners.Add(frame.ToWorld(convex.Edges[i].Start, depth));
        var (face, ring) = (frame.Plane, new int[n]);
        for (int i = 0; i < n; i++) ring[i] = i;
        var faces = ImmutableArray.CreateBuilder<PolyhedronFace>(n + 2);
        faces.Add(new(face.Moved(-from), [.. ring]));
        for (int i = 0; i < n; i++) ring[i] = 2 * n - 1 - i;
        faces.Add(new(face.Moved(-to).Flipped, [.. ring]));
        for (int i = 0; i < n; i++)
        {
            int next = convex.Next(i);
            faces.Add(new(Plane.Through(corners[i], frame.DirectionToWorld(convex.Segment(i).Chord.Unit.Right)), [n + i, n + next, next, i]));
        }
        return new(corners.MoveToImmutable(), faces.MoveToImmutable());
    }

    // Planes that differ by rounding alone are one plane and make one face: left in twice, each would cut away a part of the other's face.
    private static List<Plane> Distinct(IReadOnlyList<Plane> planes)
    {
        var kept = new List<Plane>(planes.Count);
        foreach (var plane in planes)
            if (!kept.Exists(k => plane.Normal.IsNear(k.Normal, Tolerance.Angle) && Math.Abs(plane.Offset - k.Offset) <= Tolerance.Length)) kept.Add(plane);
        return kept;
    }

    // Every clip of a convex loop adds at most one corner, two where rounding has bent it. Two arrays take turns, since a solid of twenty planes clips some eight hundred times.
    private sealed class Scratch(int planes)
    {
        public Vec3[] Loop = new Vec3[2 * planes + 8];
        public Vec3[] Spare = new Vec3[2 * planes + 8];
        public double[] Heights = new double[2 * planes + 8];
    }

    /// <summary>The face of a plane among the others, in the scratch: valid until the next call.</summary>
    private static ReadOnlySpan<Vec3> FaceLoop(List<Plane> planes, int i, Vec3 near, double reach, Scratch scratch)
    {
        var plane = planes[i];
        var n = plane.Normal;
        var u = n.Cross(Math.Abs(n.Z) < 0.9 ? Vec3.UnitZ : Vec3.UnitX).Unit;
        var v = n.Cross(u);
        var middle = plane.Project(near);
        scratch.Loop[0] = middle + (u + v) * reach;
        scratch.Loop[1] = middle + (v - u) * reach;
        scratch.Loop[2] = middle - (u + v) * reach;
        scratch.Loop[3] = middle + (u - v) * reach;
        var count = 4;
        for (var j = 0; j < planes.Count && count > 0; j++)
            if (j != i) count = Clip(scratch, count, planes[j]);
        return scratch.Loop.AsSpan(0, count);
    }

    private static int Clip(Scratch scratch, int count, Plane plane)
    {
        var (loop, heights) = (scratch.Loop, scratch.Heights);
        var outside = false;
        for (var k = 0; k < count; k++)
        {
            heights[k] = plane.SignedDistance(loop[k]);
            outside |= heights[k] > 0;
        }
        if (!outside) return count;
        var kept = scratch.Spare;
        var size = 0;
        var (before, last) = (loop[count - 1], heights[count - 1]);
        for (var k = 0; k < count; k++)
        {
            var (p, here) = (loop[k], heights[k]);
            if (last > 0 != here > 0 && last != here) kept[size++] = before.Lerp(p, last / (last - here));
            if (here <= 0) kept[size++] = p;
            (before, last) = (p, here);
        }
        (scratch.Loop, scratch.Spare) = (kept, loop);
        return size;
    }

    private ImmutableArray<Vec3> Directions()
    {
        var found = new List<Vec3>();
        foreach (var face in Faces)
            for (var k = 0; k < face.Corners.Length; k++)
            {
                var d = (Corners[face.Corners[(k + 1) % face.Corners.Length]] - Corners[face.Corners[k]]).Unit;
                if (!found.Exists(f => f.Cross(d).Length <= Tolerance.Angle)) found.Add(d);
            }
        return [.. found];
    }

    /// <summary>By the divergence theorem over tetrahedra from one corner, all positive in a convex solid.</summary>
    public SolidMeasures Measures
    {
        get
        {
            var apex = Corners[0];
            double six = 0;
            var sum = Vec3.Zero;
            foreach (var face in Faces)
            {
                var a = Corners[face.Corners[0]] - apex;
                for (var k = 2; k < face.Corners.Length; k++)
                {
                    var (b, c) = (Corners[face.Corners[k - 1]] - apex, Corners[face.Corners[k]] - apex);
                    var t = a.Dot(b.Cross(c));
                    six += t;
                    sum += (a + b + c) * (t / 4);
                }
            }
            return six == 0 ? default : new(six / 6, apex + sum / six);
        }
    }

    /// <summary>The corner farthest in a direction.</summary>
    public Vec3 Support(Vec3 direction)
    {
        var best = Corners[0];
        var reach = double.NegativeInfinity;
        foreach (var c in Corners)
        {
            var r = c.Dot(direction);
            if (r > reach) (best, reach) = (c, r);
        }
        return best;
    }

    public (double Min, double Max) Extent(Vec3 direction)
    {
        var (min, max) = (double.PositiveInfinity, double.NegativeInfinity);
        foreach (var c in Corners)
        {
            var r = c.Dot(direction);
            if (r < min) min = r;
            if (r > max) max = r;
        }
        return (min, max);
    }

    public bool Contains(Vec3 p, double tolerance = Tolerance.Length) => Faces.All(f => f.Plane.SignedDistance(p) <= tolerance);

    /// <summary>The common solid; null when the two share no volume.</summary>
    public static ConvexPolyhedron? Intersection(ConvexPolyhedron a, ConvexPolyhedron b) =>
        a.Bounds.Touches(b.Bounds) ? a.With(Distinct([.. a.Planes, .. b.Planes])) : null;

    // What further planes leave of this solid.
    private ConvexPolyhedron? With(List<Plane> planes) => Within(Bounds, planes, new Scratch(planes.Count));

    /// <summary>This solid less another, as convex parts that share no volume.</summary>
    public ImmutableArray<ConvexPolyhedron> Minus(ConvexPolyhedron other)
    {
        if (Intersection(this, other) is null) return [this];
        var parts = ImmutableArray.CreateBuilder<ConvexPolyhedron>();
        List<Plane> kept = [.. Planes];
        foreach (var plane in other.Planes)
        {
            if (With(Distinct([.. kept, plane.Flipped])) is { } part) parts.Add(part);
            kept.Add(plane);
        }
        return parts.ToImmutable();
    }

    /// <summary>What of this solid is on the negative side of every plane; null where nothing is. Planes that pass it by cost a look at its corners.</summary>
    public ConvexPolyhedron? Below(ReadOnlySpan<Plane> planes)
    {
        List<Plane>? cutting = null;
        foreach (var plane in planes)
        {
            var (low, high) = Extent(plane.Normal);
            if (low >= plane.Offset) return null;
            if (high > plane.Offset) (cutting ??= [.. Planes]).Add(plane);
        }
        return cutting is null ? this : With(Distinct(cutting));
    }

    public ConvexPolyhedron Transformed(RigidMove move) => move.IsNone ? this : new(
        [.. Corners.Select(move.Apply)],
        [.. Faces.Select(f => f with { Plane = Plane.Through(move.Apply(Corners[f.Corners[0]]), move.Turn(f.Plane.Normal)) })]);
}

/// <summary>A turn round a unit axis through a point, then a shift. A turn of 0 is a plain shift.</summary>
public readonly record struct RigidMove(Vec3 About, Vec3 Axis, double Angle, Vec3 Shift)
{
    public bool IsNone => Angle == 0 && Shift == default;
    public static RigidMove Straight(Vec3 by) => new(default, Vec3.UnitZ, 0, by);
    public Vec3 Apply(Vec3 p) => About + (p - About).Rotate(Axis, Angle) + Shift;
    public Vec3 Turn(Vec3 direction) => direction.Rotate(Axis, Angle);
}
