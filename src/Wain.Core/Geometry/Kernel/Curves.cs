using System.Collections.Immutable;

namespace Wain.Core.Geometry.Kernel;

/// <summary>Curves that came out of another step as runs of chords, put back as arcs: what is one curve to who saws it is one edge.</summary>
public static class Curves
{
    /// <summary>How far a chord's ends may lie off the circle, and its middle off the arc (mm): what an overlay of flattened outlines leaves.</summary>
    private const double OnCircle = 0.02, OnArc = 0.05;

    /// <summary>An outline whose runs of chords of any of these arcs are arcs of the same circles again.</summary>
    /// <param name="flat">Straight edges only.</param>
    public static Outline Restored(this Outline flat, IEnumerable<Segment> arcs)
    {
        var known = arcs.Where(a => a.IsArc).ToArray();
        if (known.Length == 0) return flat;
        var of = Enumerable.Range(0, flat.Count).Select(i => Array.FindIndex(known, a => IsChord(flat.Segment(i), a))).ToArray();
        // Begun where one edge is no chord of what the one before it is of, so that no run is cut in two.
        int first = Enumerable.Range(0, flat.Count).FirstOrDefault(i => of[i] < 0 || of[i] != of[flat.Previous(i)]);
        var edges = ImmutableArray.CreateBuilder<OutlineEdge>();
        for (int n = 0; n < flat.Count;)
        {
            int i = (first + n) % flat.Count;
            double sweep = 0;
            do
            {
                if (of[i] >= 0) sweep += Turn(flat.Segment((first + n) % flat.Count), known[of[i]].Centre);
                n++;
            }
            // Two half circles are two edges: one alone would have no chord.
            while (n < flat.Count && of[i] >= 0 && of[(first + n) % flat.Count] == of[i] && Math.Abs(sweep) < Math.PI);
            edges.Add(flat.Edges[i] with { Sweep = sweep });
        }
        return new Outline(edges.ToImmutable());
    }

    private static bool IsChord(Segment s, Segment arc)
    {
        double radius = arc.Radius;
        var centre = arc.Centre;
        return Math.Abs(s.From.DistanceTo(centre) - radius) < OnCircle && Math.Abs(s.To.DistanceTo(centre) - radius) < OnCircle && arc.DistanceTo(s.At(0.5)) < OnArc;
    }

    private static double Turn(Segment s, Vec2 centre) => Math.Atan2((s.From - centre).Cross(s.To - centre), (s.From - centre).Dot(s.To - centre));

    /// <summary>
    /// Arcs that stand for the image of an arc under a map that is nearly one of likeness, such as a plan's curve on a panel of some pitch: as few equal parts as keep within the tolerance
    /// (mm), each through the images of its ends and its middle.
    /// </summary>
    /// <param name="arc">An arc, or a straight line, which stays one.</param>
    public static IEnumerable<(Vec2 Start, double Sweep)> Image(this Segment arc, Func<Vec2, Vec2> map, double tolerance)
    {
        if (!arc.IsArc) return [(map(arc.From), 0)];
        for (int parts = 1; ; parts *= 2)
        {
            var made = Enumerable.Range(0, parts).Select(k => Through(map(arc.At((double)k / parts)), map(arc.At((k + 0.5) / parts)), map(arc.At((k + 1.0) / parts)))).ToArray();
            // Farthest off about a quarter of the way between the points that it goes through.
            bool close = Enumerable.Range(0, parts).All(k => made[k].DistanceTo(map(arc.At((k + 0.25) / parts))) <= tolerance && made[k].DistanceTo(map(arc.At((k + 0.75) / parts))) <= tolerance);
            if (close || parts >= 256) return made.Select(m => (m.From, m.Sweep));
        }
    }

    private static Segment Through(Vec2 from, Vec2 middle, Vec2 to)
    {
        var chord = to - from;
        double height = chord.Unit.Cross(middle - from);
        return new Segment(from, to, -4 * Math.Atan2(2 * height, chord.Length));
    }
}
