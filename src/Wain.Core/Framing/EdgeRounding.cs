using System.Collections.Immutable;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;

namespace Wain.Core.Framing;

/// <summary>The outside arris of a panel's edge, rounded over: an arc that touches the outside face and the edge.</summary>
/// <param name="Edge">Of the panel's outline.</param>
/// <param name="Radius">mm.</param>
/// <param name="Tilt">Of that edge (radians).</param>
internal sealed record EdgeRounding(int Edge, double Radius, double Tilt)
{
    // Gauss-Legendre with eight points (Abramowitz and Stegun, table 25.4).
    private static readonly (double At, double Weight)[] Rule =
    [
        (0.1834346424956498, 0.3626837833783620), (0.5255324099163290, 0.3137066458778873),
        (0.7966664774136267, 0.2223810344533745), (0.9602898564975363, 0.1012285362903763),
    ];

    /// <summary>How far in from the arris the arc begins, on the face as on the edge (mm): the tangent to a circle in their angle.</summary>
    public double Reach => Radius / Math.Tan((Math.PI / 2 + Tilt) / 2);

    /// <summary>How deep below the face the arc ends (mm).</summary>
    public double Deep => Reach * Math.Cos(Tilt);

    /// <summary>How far the arc lies in from the edge at a depth below the face (mm).</summary>
    public double SetBack(double depth) => depth >= Deep ? 0 : Math.Max(0, Reach + depth * Math.Tan(Tilt) - Math.Sqrt(Math.Max(0, depth * (2 * Radius - depth))));

    /// <summary>Those of a panel; where an edge is told twice the larger counts.</summary>
    public static ImmutableArray<EdgeRounding> Of(Structure structure, PlacedPanel panel)
    {
        var found = new Dictionary<int, double>();
        foreach (var fact in PanelFacts.All(panel, "rounded"))
        {
            if (fact.Word("edge") is not { } word || structure.Spec.Evaluator.Length(fact, "radius") is not (> 0 and var radius)) continue;
            foreach (int i in PanelFacts.Edges(panel.Outline, PanelFacts.IsTurnedRound(panel, fact) ? PanelFacts.OtherHand(word) : word)) found[i] = Math.Max(radius, found.GetValueOrDefault(i));
        }
        return [.. found.OrderBy(f => f.Key).Select(f => new EdgeRounding(f.Key, f.Value, panel.Outline.Edges[f.Key].Tilt))];
    }

    /// <summary>What the roundings of a panel take off a part of it (mm3), holes in it not looked at.</summary>
    /// <param name="part">Its outline on its outer side.</param>
    /// <param name="below">How far that lies below the panel's outside face (mm).</param>
    public static double TakenOff(PlacedPanel panel, ImmutableArray<EdgeRounding> all, Outline part, double below, double thickness) =>
        Slices(all, below, thickness).Sum(s => At(panel, all, part, below, s.Depth) is var (own, left) ? s.Weight * Math.Max(0, own.Area() - Overlap.Area(own, left)) : 0);

    /// <summary>The same with its first moment in the panel's axes, depth from its outside face for the third (mm3, mm4).</summary>
    public static (double Volume, Vec3 First) Moment(PlacedPanel panel, ImmutableArray<EdgeRounding> all, Outline part, double below, double thickness)
    {
        var (volume, first) = (0.0, Vec3.Zero);
        foreach (var (depth, weight) in Slices(all, below, thickness))
        {
            // Most parts lie off the rounded edges, and to find that makes nothing.
            if (At(panel, all, part, below, depth) is not var (own, left) || own.Area() - Overlap.Area(own, left) < 1e-6 * own.Area()) continue;
            var taken = Region.Of(own).Minus(Region.Of(left), 0.001).Moments;
            (volume, first) = (volume + weight * taken.Area, first + new Vec3(taken.Sx, taken.Sy, taken.Area * depth) * weight);
        }
        return (volume, first);
    }

    // A part and its whole panel at a depth, the panel with its arcs; null where there is none of them.
    private static (Outline Own, Outline Left)? At(PlacedPanel panel, ImmutableArray<EdgeRounding> all, Outline part, double below, double depth)
    {
        // Where an arc ends in sides of other bevels the outline below has edges that the face has not.
        var whole = panel.OutlineAt(depth);
        var sources = whole.Count == panel.Outline.Count ? null : panel.Outline.AtDepth(depth).Sources as ImmutableArray<int>?;
        if (sources is { } known && known.Length != whole.Count) return null;
        var left = whole.Offset(i => -(all.FirstOrDefault(r => r.Edge == (sources?[i] ?? i))?.SetBack(depth) ?? 0)).Outline;
        return left is null || part.AtDepth(depth - below).Outline is not { } own ? null : (own, left);
    }

    // Depths (mm) and how much of the thickness each stands for. Each arc ends at its own depth. The square of the place takes the root out of the arc's beginning, where it touches the face.
    private static IEnumerable<(double Depth, double Weight)> Slices(ImmutableArray<EdgeRounding> all, double below, double thickness)
    {
        double end = Math.Min(below + thickness, all.Select(r => r.Deep).DefaultIfEmpty(0).Max());
        if (end <= below) yield break;
        double[] breaks = [below, .. all.Select(r => r.Deep).Where(d => d > below && d < end).Order(), end];
        for (int k = 0; k + 1 < breaks.Length; k++)
            foreach (var (at, weight) in Rule)
                foreach (double x in (double[])[-at, at])
                {
                    double w = (1 + x) / 2, stretch = breaks[k + 1] - breaks[k];
                    yield return (breaks[k] + stretch * w * w, stretch * w * weight);
                }
    }
}
