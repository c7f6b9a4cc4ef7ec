using System.Collections.Immutable;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Model;

namespace Wain.Core.Framing;

/// <summary>The spaces that a layout leaves, with what openings and recesses take from them.</summary>
internal static class Cavities
{
    public static ImmutableArray<Cavity> Finish(
        PlacedPanel panel, string mark, string prefix, List<(Outline Outline, Material? Fill)> free, List<PlacedOpening> openings, Outline clear, FrameAxes axes, double depth, double below,
        List<FrameCut> cuts)
    {
        var spaces = new List<(string? Key, Outline Outline, ImmutableArray<Outline> Holes, double Depth, double Below, Material? Fill)>();
        foreach (var (laid, fill) in free) spaces.Add((null, axes.Back(laid), [], depth, below, fill));
        var filled = free.Select(f => f.Fill).FirstOrDefault(f => f is not null);
        var clearBack = axes.Back(clear);
        foreach (var o in openings)
        {
            if (o.Framed)
            {
                // Members are square at their corners and holes often round: what is left there is filled like any bay.
                if (!clearBack.Contains(Outline.Rectangle(o.Hole.Bounds.Min, o.Hole.Bounds.Max))) continue;
                int corner = 0;
                foreach (var spandrel in Spandrels(o.Hole)) spaces.Add(($"{o.Name}.corner{++corner}", spandrel, [], depth, below, filled));
                continue;
            }
            for (int i = spaces.Count - 1; i >= 0; i--)
            {
                var s = spaces[i];
                if (s.Outline.Contains(o.Hole)) { spaces[i] = s with { Holes = s.Holes.Add(o.Hole) }; continue; }
                var (inside, outside) = s.Outline.Part(o.Hole);
                if (inside.IsEmpty) continue;
                spaces.RemoveAt(i);
                spaces.AddRange(outside.Select(p => s with { Outline = p }));
            }
        }
        foreach (var cut in cuts)
        {
            for (int i = spaces.Count - 1; i >= 0; i--)
            {
                var s = spaces[i];
                // A hole without members is cut through the bay as a whole; only its own recess makes the bay shallow.
                var (inside, outside) = cut.Split(s.Outline);
                if (inside.IsEmpty) continue;
                spaces.RemoveAt(i);
                spaces.AddRange(outside.Select(p => s with { Outline = p, Holes = Within(p, s.Holes) }));
                if (cut.Deep >= s.Depth - 0.01) continue;
                spaces.AddRange(inside.Select(p => s with { Outline = p, Holes = Within(p, s.Holes), Depth = s.Depth - cut.Deep, Below = cut.FromOutside ? s.Below + cut.Deep : s.Below }));
            }
        }
        int bay = 0, gap = 0;
        return [.. spaces.OrderBy(s => Math.Round(s.Outline.Bounds.Min.X, 3)).ThenBy(s => Math.Round(s.Outline.Bounds.Min.Y, 3)).ThenBy(s => s.Depth)
            .Select(s =>
            {
                string key = prefix + (s.Key ?? (s.Fill is null && filled is not null ? $"gap{++gap}" : $"bay{++bay}"));
                return new Cavity($"{mark}.{key}", key, panel, s.Outline, s.Holes, s.Depth, s.Below, s.Fill);
            })];
    }

    private static ImmutableArray<Outline> Within(Outline piece, ImmutableArray<Outline> holes) => [.. holes.Where(h => piece.Contains(h))];

    /// <summary>What lies between a rounded hole and its square corners, counter-clockwise.</summary>
    public static IEnumerable<Outline> Spandrels(Outline hole)
    {
        for (int i = 0; i < hole.Count; i++)
        {
            var s = hole.Segment(i);
            if (s.Sweep <= 0 || s.Sweep >= Math.PI - 1e-6) continue;
            if (SegmentPair.LineLine(s.From, s.Tangent(0), s.To, s.Tangent(1)) is not { } corner) continue;
            yield return new Outline([new(s.From), new(corner), new(s.To, -s.Sweep)]);
        }
    }
}
