using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;

namespace Wain.Core.Framing;

/// <summary>A step cut into one face of a panel: a rabbet along an edge, or what a joint takes off so that another panel laps it or sits in it (mm).</summary>
/// <param name="Edge">Name of the edge that it runs along; null for one that <paramref name="Bounds"/> alone place.</param>
/// <param name="Width">From that edge into the panel.</param>
/// <param name="Depth">From the face that it is cut from.</param>
/// <param name="Bounds">Straight cuts that bound it beside the edge, in the panel's axes.</param>
/// <param name="What">As parts and drawings call it: "rabbet", "lap with deck_aft".</param>
public sealed record PanelStep(int? Edge, double Width, double Depth, bool FromOutside, ImmutableArray<HalfPlane> Bounds, string What)
{
    /// <summary>True if it runs along an edge from corner to corner.</summary>
    public bool IsWholeEdge => Edge is not null && Bounds.IsEmpty;

    /// <summary>How far it goes into a layer (mm) that lies this far below the outside face of a panel.</summary>
    public double Into(double below, double thickness, double whole) => Math.Clamp(FromOutside ? Depth - below : Depth - (whole - below - thickness), 0, thickness);

    /// <summary>What it takes of an outline of its panel at some depth, seen on the face.</summary>
    public ImmutableArray<Outline> Taken(Outline outline)
    {
        if (Straight(outline) is { } cuts) return outline.Clip(cuts);
        return outline.Offset(i => i == Edge ? -Width : 0).Outline is { } left ? [.. outline.Less(left).Parts.SelectMany(p => p.Clip([.. Bounds]))] : [];
    }

    /// <summary>The straight cuts that part what it takes from what it leaves; null where it follows a bow, or an edge beyond whose line the panel goes on.</summary>
    public HalfPlane[]? Straight(Outline outline)
    {
        if (Edge is not { } edge || edge >= outline.Count) return [.. Bounds];
        var s = outline.Segment(edge);
        var line = HalfPlane.LeftOf(s.From, s.Chord);
        return s.IsArc || line.Heights(outline.Bounds).Low < -Tolerance.Length && outline.Flattened(0.1).Corners.Any(c => line.Height(c) < -0.1) ? null : [line.Moved(Width).Flipped, .. Bounds];
    }

    /// <summary>Every step of a panel: those that it states, those of the panel that it mirrors, and those of its joints; what is stated by both is cut once.</summary>
    public static ImmutableArray<PanelStep> Of(Structure structure, PlacedPanel panel)
    {
        ImmutableArray<PanelStep> all =
            [.. PanelFacts.All(panel, "rabbet").SelectMany(f => Rabbet(structure.Spec, panel, f)), .. structure.SteppedJoints(panel.Name).SelectMany(j => JointSteps.Of(structure.Spec, j, panel))];
        return all.Length < 2 ? all : [.. all.Where((s, i) => !all.Where((o, k) => k != i && o.Covers(s, panel.Outline) && (k < i || !s.Covers(o, panel.Outline))).Any())];
    }

    /// <summary>True if this one takes all that another takes of a panel.</summary>
    private bool Covers(PanelStep other, Outline outline)
    {
        if (FromOutside != other.FromOutside || Depth < other.Depth - Tolerance.Length) return false;
        var own = Taken(outline);
        return other.Taken(outline).All(r => r.Area() - own.Sum(o => Overlap.Area(r, o)) <= Tolerance.Length * (r.Bounds.Width + r.Bounds.Height));
    }

    private static IEnumerable<PanelStep> Rabbet(Spec spec, PlacedPanel panel, BoundFact fact)
    {
        var e = spec.Evaluator;
        if (fact.Word("edge") is not { } word || e.Length(fact, "width") is not { } width || e.Length(fact, "depth") is not { } depth || width <= 0 || depth <= 0) yield break;
        bool turned = PanelFacts.IsTurnedRound(panel, fact);
        foreach (int edge in PanelFacts.Edges(panel.Outline, turned ? PanelFacts.OtherHand(word) : word))
        {
            ImmutableArray<HalfPlane> ends = e.Length(fact, "start") is { } start && e.Length(fact, "end") is { } end ? Ends(panel.Outline.Segment(edge), start, end, turned) : [];
            yield return new PanelStep(edge, width, depth, fact.Word("face") != "inside", ends, "rabbet");
        }
    }

    // From its left or lower end, seen from outside on the panel that the fact was written for.
    private static ImmutableArray<HalfPlane> Ends(Segment edge, double start, double end, bool turned)
    {
        bool forward = (edge.Chord.X > 1e-6 || Math.Abs(edge.Chord.X) <= 1e-6 && edge.Chord.Y > 0) != (turned && Math.Abs(edge.Chord.X) > 1e-6);
        HalfPlane At(double run, int side)
        {
            double t = forward ? run / edge.Length : 1 - run / edge.Length;
            return new HalfPlane(edge.At(t), edge.Tangent(t) * (forward ? side : -side));
        }
        return [At(start, 1), At(end, -1)];
    }
}
