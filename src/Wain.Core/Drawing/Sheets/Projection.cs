using System.Collections.Immutable;
using Wain.Core.Geometry.Kernel;

namespace Wain.Core.Drawing;

/// <summary>A plane polygon in space. Several faces of one name make a part, such as a panel's two sides and its edges.</summary>
/// <param name="Holes">Openings that one sees through.</param>
/// <param name="Alternate">True for the other position of a moving part: drawn behind the rest in long-dashed double-dotted lines, without a name.</param>
public sealed record Face(string Name, ImmutableArray<Vec3> Outline, ImmutableArray<ImmutableArray<Vec3>> Holes, bool Alternate = false)
{
    public Face(string name, params ReadOnlySpan<Vec3> outline) : this(name, [.. outline], []) { }
}

/// <summary>Third-angle views: the plan stands above the left side's view, the rear view to its right; the front points left.</summary>
public enum Direction
{
    Plan,
    LeftSide,
    RightSide,
    Rear,
    Front,
}

/// <summary>A face as seen: its contours in mm of the view's plane or, after <see cref="Through"/>, of the paper.</summary>
/// <param name="face">As in space.</param>
/// <param name="contours">Closed, of straight stretches.</param>
/// <param name="nearness">Of its plane at a place of the view: greater is nearer to the eye; constant for a face seen edge-on.</param>
/// <param name="edgeOn">True if it shows as a line.</param>
public sealed class SeenFace(Face face, ImmutableArray<Contour> contours, Func<Vec2, double> nearness, bool edgeOn)
{
    public Face Face => face;

    public ImmutableArray<Contour> Contours => contours;

    public bool EdgeOn => edgeOn;

    public Box Bounds { get; } = contours.Aggregate(Box.Empty, (b, c) => b.Union(c.Bounds));

    internal (Vec2 A, Vec2 B)[] Sides { get; } = [.. contours.SelectMany(c => c.Segments).Select(s => (s.From, s.To))];

    public double Nearness(Vec2 p) => nearness(p);

    /// <summary>On paper. Depth is a matter of the view's plane and is asked before.</summary>
    public SeenFace Through(View view) => new(face, [.. contours.Select(c => c.Map(view))], _ => double.NaN, edgeOn);

    /// <summary>True if the place lies within the face's contours and in none of its holes.</summary>
    public bool Covers(Vec2 p)
    {
        if (edgeOn || !Bounds.Contains(p)) return false;
        bool inside = false;
        foreach (var (a, b) in Sides)
        {
            if (a.Y > p.Y != b.Y > p.Y && CrossingAt(a, b, p.Y) < p.X) inside = !inside;
        }
        return inside;
    }

    private static double CrossingAt(Vec2 a, Vec2 b, double y) => a.X + (y - a.Y) / (b.Y - a.Y) * (b.X - a.X);

    /// <summary>Where a level line goes in and out of the face, from left to right.</summary>
    internal List<double> CrossingsAt(double y)
    {
        var found = new List<double>(4);
        foreach (var (a, b) in Sides)
        {
            if (a.Y > y != b.Y > y) found.Add(CrossingAt(a, b, y));
        }
        found.Sort();
        return found;
    }
}

/// <summary>Orthographic projection, with what is hidden taken away by painting the nearer over the farther.</summary>
public static class Projection
{
    /// <summary>Right and up on paper, and nearness to the eye.</summary>
    public static (Vec2 At, double Nearness) Project(Vec3 p, Direction direction) => direction switch
    {
        Direction.Plan => (new(-p.X, -p.Y), p.Z),
        Direction.LeftSide => (new(-p.X, p.Z), p.Y),
        Direction.RightSide => (new(p.X, p.Z), -p.Y),
        Direction.Rear => (new(-p.Y, p.Z), -p.X),
        _ => (new(p.Y, p.Z), p.X),
    };

    /// <summary>The faces in the order in which to paint them, farthest first. Where faces overlap in the view, the order follows their depth at a place that both
    /// cover; parts that run through each other have no true order and are taken by their nearest point.</summary>
    public static ImmutableArray<SeenFace> InPaintOrder(IEnumerable<Face> faces, Direction direction)
    {
        var seen = faces.Where(f => f.Outline.Length >= 3).Select(f => See(f, direction)).ToList();
        var before = new int[seen.Count];
        var after = new List<int>[seen.Count];
        for (int i = 0; i < seen.Count; i++) after[i] = [];
        for (int i = 0; i < seen.Count; i++)
        {
            for (int k = i + 1; k < seen.Count; k++)
            {
                double nearer = seen[i].Bounds.Overlaps(seen[k].Bounds.Grow(1e-6)) ? Compare(seen[i], seen[k]) : 0;
                if (nearer == 0) continue;
                var (far, near) = nearer > 0 ? (k, i) : (i, k);
                after[far].Add(near);
                before[near]++;
            }
        }

        var nearest = seen.Select(s => s.Face.Outline.Max(p => Project(p, direction).Nearness)).ToList();
        var ready = new PriorityQueue<int, (double, int)>();
        var waiting = new SortedSet<(double Nearest, int Index)>(Enumerable.Range(0, seen.Count).Select(i => (nearest[i], i)));
        foreach (var (depth, i) in waiting.Where(w => before[w.Index] == 0)) ready.Enqueue(i, (depth, i));
        var order = ImmutableArray.CreateBuilder<SeenFace>(seen.Count);
        while (waiting.Count > 0)
        {
            // In a circle of overlaps the farthest goes first; its own followers are then freed as usual.
            int next = ready.Count > 0 ? ready.Dequeue() : waiting.Min.Index;
            if (!waiting.Remove((nearest[next], next))) continue;
            order.Add(seen[next]);
            foreach (int i in after[next])
            {
                if (--before[i] == 0) ready.Enqueue(i, (nearest[i], i));
            }
        }
        return order.ToImmutable();
    }

    private static SeenFace See(Face face, Direction direction)
    {
        var points = face.Outline.Select(p => Project(p, direction)).ToList();
        // Newell's normal of the outline, in view axes.
        double nx = 0, ny = 0, nz = 0;
        for (int i = 0; i < points.Count; i++)
        {
            var (p, pd) = points[i];
            var (q, qd) = points[(i + 1) % points.Count];
            nx += (p.Y - q.Y) * (pd + qd);
            ny += (pd - qd) * (p.X + q.X);
            nz += (p.X - q.X) * (p.Y + q.Y);
        }
        double size = Math.Sqrt(nx * nx + ny * ny + nz * nz);
        bool edgeOn = Math.Abs(nz) <= 1e-6 * size;
        var (origin, depth) = points[0];
        double front = points.Max(p => p.Nearness);
        Func<Vec2, double> nearness = edgeOn ? _ => front : p => depth - (nx * (p.X - origin.X) + ny * (p.Y - origin.Y)) / nz;
        ImmutableArray<Contour> contours = [Flat(face.Outline), .. face.Holes.Where(h => h.Length >= 3).Select(Flat)];
        return new(face, contours, nearness, edgeOn);

        Contour Flat(ImmutableArray<Vec3> loop) => Contour.Polygon([.. loop.Select(p => Project(p, direction).At)]);
    }

    /// <summary>How much nearer a is than b where both cover the view; 0 if they share no place or lie in one plane.
    /// The first place that tells is enough: faces that don't run through each other keep their order all over.</summary>
    private static double Compare(SeenFace a, SeenFace b)
    {
        foreach (var p in a.EdgeOn || b.EdgeOn ? AlongEdge(a, b) : Shared(a, b))
        {
            double difference = a.Nearness(p) - b.Nearness(p);
            if (Math.Abs(difference) > 1e-3) return difference;
        }
        return 0;
    }

    /// <summary>Places that both faces cover: on level lines through every strip between corners, the middle of each stretch that lies in both.</summary>
    private static IEnumerable<Vec2> Shared(SeenFace a, SeenFace b)
    {
        double low = Math.Max(a.Bounds.Bottom, b.Bounds.Bottom), high = Math.Min(a.Bounds.Top, b.Bounds.Top);
        List<double> levels = [low, high];
        foreach (var sides in (ReadOnlySpan<(Vec2 A, Vec2 B)[]>)[a.Sides, b.Sides])
        {
            foreach (var (corner, _) in sides)
            {
                if (corner.Y > low && corner.Y < high) levels.Add(corner.Y);
            }
        }
        levels.Sort();
        for (int i = 0; i + 1 < levels.Count; i++)
        {
            if (levels[i + 1] - levels[i] < 1e-6) continue;
            foreach (double share in (double[])[0.17, 0.5, 0.83])
            {
                double y = levels[i] + (levels[i + 1] - levels[i]) * share;
                List<double> first = a.CrossingsAt(y), second = b.CrossingsAt(y);
                for (int k = 0, m = 0; k + 1 < first.Count && m + 1 < second.Count;)
                {
                    double from = Math.Max(first[k], second[m]), to = Math.Min(first[k + 1], second[m + 1]);
                    if (to - from > 1e-6) yield return new((from + to) / 2, y);
                    if (first[k + 1] < second[m + 1]) k += 2;
                    else m += 2;
                }
            }
        }
    }

    private static IEnumerable<Vec2> AlongEdge(SeenFace a, SeenFace b)
    {
        if (a.EdgeOn && b.EdgeOn) yield break;
        var (line, face) = a.EdgeOn ? (a, b) : (b, a);
        foreach (var (from, to) in line.Sides)
        {
            foreach (double share in (double[])[0.25, 0.5, 0.75])
            {
                var p = from.Lerp(to, share);
                if (face.Covers(p)) yield return p;
            }
        }
    }
}
