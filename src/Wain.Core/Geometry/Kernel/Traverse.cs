using System.Collections.Immutable;

namespace Wain.Core.Geometry.Kernel;

/// <summary>One leg of a plan that is walked like a land survey.</summary>
public abstract record Leg(string? Name);

/// <summary>
/// A leg told by its measures against an axis. <paramref name="Axis"/> is the direction in which run is positive; across and angle are positive to the
/// left of it, or to the right when <paramref name="ToRight"/>. <paramref name="WidthAtEnd"/> is the full width (mm) of the plan at the leg's far end,
/// symmetric about the line through the traverse's centre along the axis; it is turned into an across.
/// </summary>
public sealed record MeasuredLeg(string? Name, Vec2 Axis, LegMeasures Measures, bool ToRight = false, double? WidthAtEnd = null) : Leg(Name);

/// <summary>A leg told by its turn from the last leg's heading (radians, positive to the left) and its length (mm).</summary>
public sealed record TurnedLeg(string? Name, double Turn, double Length) : Leg(Name);

/// <summary>A circular arc of a radius (mm) and signed sweep (radians, positive to the left) that starts on a heading turned from the last leg's.</summary>
public sealed record ArcLeg(string? Name, double Radius, double Sweep, double Turn = 0) : Leg(Name);

/// <summary>A straight leg to a stated point: it takes up what error there is.</summary>
public sealed record LegTo(string? Name, Vec2 Point) : Leg(Name);

/// <summary>A straight leg back to the start: it takes up what error there is.</summary>
public sealed record LegHome(string? Name) : Leg(Name);

/// <summary>The mirror image of an earlier leg, across the axis through the traverse's centre, walked the other way.</summary>
public sealed record MirrorLeg(string? Name, string Of) : Leg(Name);

/// <summary>A leg as walked. Heading is at its far end. Solution is null unless the leg was told by measures. Width compares a stated width with a stated across.</summary>
public sealed record WalkedLeg(Leg Leg, Segment Segment, double Heading, LegSolution? Solution = null, LegMisfit? Width = null);

public enum TraverseFailure { Measures, UnknownMirror, MirrorOfLater, NoLength, BadArc, TooFewLegs }

public sealed record TraverseProblem(int Leg, TraverseFailure Failure, LegFailure? Measures = null);

/// <summary>A walked plan. <see cref="Misclosure"/> is from where the walk ended to the start (mm); zero with a leg home. The outline is there when the walk closes.</summary>
public sealed record TraverseResult(ImmutableArray<WalkedLeg> Legs, Vec2 Misclosure, Outline? Outline, ImmutableArray<TraverseProblem> Problems);

/// <summary>Walks a plan leg by leg.</summary>
public static class Traverse
{
    /// <param name="start">Where the walk begins (mm).</param>
    /// <param name="legs">The legs in walking order.</param>
    /// <param name="centre">A point of the centre line that widths and mirrors refer to.</param>
    /// <param name="axis">Direction of that centre line.</param>
    public static TraverseResult Walk(Vec2 start, IReadOnlyList<Leg> legs, Vec2 centre, Vec2 axis)
    {
        var walked = ImmutableArray.CreateBuilder<WalkedLeg>();
        var problems = ImmutableArray.CreateBuilder<TraverseProblem>();
        var byName = new Dictionary<string, WalkedLeg>(StringComparer.Ordinal);
        var (at, heading) = (start, axis.Angle);
        for (var i = 0; i < legs.Count; i++)
        {
            var leg = legs[i];
            WalkedLeg? next = null;
            switch (leg)
            {
                case MeasuredLeg measured:
                    next = Measured(measured, at, centre, out var failure);
                    if (next is null) problems.Add(new(i, TraverseFailure.Measures, failure));
                    break;
                case TurnedLeg turned:
                    next = Straight(turned, at, at + Vec2.FromAngle(heading + turned.Turn) * turned.Length);
                    break;
                case ArcLeg arc when arc.Radius > Tolerance.Length && arc.Sweep != 0 && Math.Abs(arc.Sweep) < 2 * Math.PI:
                    var tangent = heading + arc.Turn;
                    var chord = Vec2.FromAngle(tangent + arc.Sweep / 2) * (2 * arc.Radius * Math.Sin(Math.Abs(arc.Sweep) / 2));
                    next = new(arc, new(at, at + chord, arc.Sweep), tangent + arc.Sweep);
                    break;
                case ArcLeg:
                    problems.Add(new(i, TraverseFailure.BadArc));
                    break;
                case LegTo to:
                    next = Straight(to, at, to.Point);
                    break;
                case LegHome:
                    next = Straight(leg, at, start);
                    break;
                case MirrorLeg mirror when byName.TryGetValue(mirror.Of, out var original):
                    var back = original.Segment.Reversed;
                    var moved = Mirror(back.To - back.From, axis);
                    next = new(mirror, new(at, at + moved, -back.Sweep), Mirror(back.Tangent(1), axis).Angle);
                    break;
                case MirrorLeg mirror:
                    problems.Add(new(i, legs.Any(l => l.Name == mirror.Of) ? TraverseFailure.MirrorOfLater : TraverseFailure.UnknownMirror));
                    break;
            }
            if (next is null) continue;
            if (next.Segment.Chord.Length <= Tolerance.Length)
            {
                // The last leg home may find itself there already: that is a walk that closes, not a leg of no length.
                if (leg is not LegHome) problems.Add(new(i, TraverseFailure.NoLength));
                continue;
            }
            walked.Add(next);
            if (leg.Name is { } name) byName.TryAdd(name, next);
            (at, heading) = (next.Segment.To, next.Heading);
        }
        if (walked.Count < 2) problems.Add(new(legs.Count, TraverseFailure.TooFewLegs));
        var misclosure = start - at;
        var closes = problems.Count == 0 && misclosure.Length <= Tolerance.Length;
        var outline = closes ? new Outline([.. walked.Select(w => new OutlineEdge(w.Segment.From, w.Segment.Sweep, w.Leg.Name))]) : null;
        return new(walked.ToImmutable(), misclosure, outline, problems.ToImmutable());
    }

    private static WalkedLeg? Measured(MeasuredLeg leg, Vec2 at, Vec2 centre, out LegFailure? failure)
    {
        var axis = leg.Axis.Unit;
        var across = leg.ToRight ? axis.Right : axis.Left;
        var measures = leg.Measures;
        double? fromWidth = null;
        if (leg.WidthAtEnd is { } width)
        {
            // The far end stays on its own side of the centre line.
            var here = (at - centre).Dot(across);
            fromWidth = (here < 0 ? -1 : 1) * width / 2 - here;
            if (measures.Across is null) measures = measures with { Across = fromWidth };
        }
        var solution = LegSolver.Solve(measures);
        failure = solution.Failure;
        if (solution.Triangle is not { } triangle) return null;
        var walked = Straight(leg, at, at + axis * triangle.Run + across * triangle.Across);
        var misfit = leg.Measures.Across is not null && fromWidth is { } stated
            ? new LegMisfit(LegMeasure.Across, stated, triangle.Across, triangle.FarEnd(LegMeasure.Across, stated))
            : null;
        return walked with { Solution = solution, Width = misfit };
    }

    private static WalkedLeg Straight(Leg leg, Vec2 from, Vec2 to) => new(leg, new(from, to), (to - from).Angle);

    private static Vec2 Mirror(Vec2 v, Vec2 axis)
    {
        var along = axis.Unit;
        return along * (2 * v.Dot(along)) - v;
    }
}
