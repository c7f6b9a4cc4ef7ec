using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Geometry.Kernel;

namespace Wain.Core.Geometry;

/// <summary>Which way a leg goes, and on which side of it the inside of the plan lies.</summary>
internal readonly record struct LegDirection(Vec2 Axis, bool InsideToRight);

/// <summary>Compares what the legs of a plan state with each other.</summary>
internal static class PlanMisfits
{
    /// <summary>
    /// Each measure that is a slip of its own: with its closing value, and no other change, all that the plan states agrees within its tolerance (mm). One slip
    /// of the pen disagrees with several measures, and this tells it from them.
    /// </summary>
    /// <param name="stated">All that the plan states of its legs.</param>
    /// <param name="start">How far from the centre line the walk begins.</param>
    /// <param name="within">What else would close a leg by itself: a measure may be wrong without being one of the two that disagree most.</param>
    /// <param name="walk">Walks the plan again with another value (mm or radians) for a measure of a leg; null where that leads nowhere.</param>
    public static ImmutableArray<Slip> Slips(ImmutableArray<Misfit> misfits, IReadOnlyList<StatedMeasure> stated, StatedMeasure start, IEnumerable<Slip> within, double tolerance, Func<Slip, ImmutableArray<Misfit>?> walk)
    {
        var wrong = misfits.Where(m => m.Error > tolerance).ToList();
        // A plan that is symmetrical starts half as far from the centre line as its last leg is across.
        var starts = wrong.Where(m => m.Measure.Kind == "across").Select(m => new Slip(start, m.Measure.Value / 2));
        // What the way home is off by may have come in on any leg that goes the same way, forward or back.
        var along = from m in wrong where m.Measure.Kind is "run" or "across"
                    from s in stated where s.Kind == m.Measure.Kind || s.Kind == "length" || s.Kind == "width" && m.Measure.Kind == "across"
                    from sign in new[] { 1, -1 } select new Slip(s, s.Value + sign * (m.Measure.Value - m.Closing));
        var candidates = wrong.SelectMany(m => new[] { new Slip(m.Measure, m.Closing), new Slip(m.Against, m.AgainstClosing) }).Concat(within).Concat(starts).Concat(along)
            .Where(c => c.Closing > -1e-9 && Math.Abs(c.Closing - c.Measure.Value) > 1e-9).DistinctBy(c => (c.Measure.Leg, c.Measure.Kind, Math.Round(c.Closing, 6)));
        return [.. candidates.Take(100).Where(c => walk(c) is { } left && left.All(m => m.Error <= tolerance)).DistinctBy(c => (c.Measure.Leg, c.Measure.Kind))
            .OrderBy(c => c.Measure.Value == 0).ThenBy(c => Coarseness(c.Closing))];
    }

    // Builders state round numbers: a whole inch or degree comes before halves, and those before what no tape shows.
    private static int Coarseness(double value)
    {
        for (int parts = 1; parts <= 64; parts *= 2) if (Math.Abs(value / 25.4 * parts - Math.Round(value / 25.4 * parts)) < 0.001 * parts) return parts;
        return 128;
    }

    /// <summary>Every stated measure against what the geometry gives at its leg's far end.</summary>
    public static ImmutableArray<Misfit> Of(List<BoundFact> legs, List<LegDirection> directions, TraverseResult result, List<StatedMeasure> stated, Vec2 start, out bool couldFail, List<Slip>? within = null)
    {
        var misfits = ImmutableArray.CreateBuilder<Misfit>();
        couldFail = false;
        StatedMeasure? Find(string leg, params string[] kinds) => stated.FirstOrDefault(s => s.Leg == leg && kinds.Contains(s.Kind));
        for (int i = 0; i < legs.Count && i < result.Legs.Length; i++)
        {
            string name = legs[i].Name!;
            var walked = result.Legs[i];
            bool alongX = directions[i].Axis.X != 0;
            StatedMeasure? Of(LegMeasure measure) => measure switch
            {
                LegMeasure.Run => Find(name, alongX ? "run" : "across"),
                LegMeasure.Across => Find(name, alongX ? "across" : "run", "inward by", "outward by") ?? Find(name, "width"),
                LegMeasure.Length => Find(name, "length"),
                _ => Find(name, "inward", "outward"),
            };
            double Signed(StatedMeasure measure, double value, LegMeasure kind) => measure.Kind switch
            {
                "width" => 2 * Math.Abs(walked.Segment.From.Y + (directions[i].InsideToRight ? directions[i].Axis.Right : directions[i].Axis.Left).Y * value),
                "outward" or "outward by" => -value,
                _ => value,
            };
            if (walked.Solution is { } solution)
            {
                if (solution.Misfits.Length > 0 || walked.Width is not null) couldFail = true;
                foreach (var pair in solution.Disagreements)
                {
                    if (Of(pair.A) is { } one) within?.Add(new Slip(one, Signed(one, pair.ClosingA, pair.A)));
                    if (Of(pair.B) is { } two) within?.Add(new Slip(two, Signed(two, pair.ClosingB, pair.B)));
                }
                // The two measures that disagree most tell the whole leg's trouble.
                if (solution.Disagreements.FirstOrDefault() is { } d && Of(d.A) is { } a && Of(d.B) is { } b)
                {
                    misfits.Add(new Misfit(a, d.ErrorA, Signed(a, d.ClosingA, d.A), b, Signed(b, d.ClosingB, d.B)));
                }
                if (walked.Width is { } w && Find(name, "width") is { } widthMeasure && Of(LegMeasure.Across) is { } acrossMeasure && acrossMeasure.Kind != "width")
                {
                    misfits.Add(new Misfit(widthMeasure, w.Error, Signed(widthMeasure, w.Closing, LegMeasure.Across), acrossMeasure, w.Stated));
                }
            }
            if (walked.Leg is LegHome or LegTo)
            {
                // A leg to a point takes up the error, so what it states is compared with where the others have led.
                var chord = walked.Segment.Chord;
                foreach (var (kind, actual) in new[] { ("across", Math.Abs(chord.Y)), ("run", Math.Abs(chord.X)), ("length", chord.Length) })
                {
                    if (Find(name, kind) is not { } measure) continue;
                    couldFail = true;
                    // The leg across from it is named where it shows the same difference; else the way that is left to the start is all there is.
                    var against = Opposite(stated, name, kind) is { } other && Math.Abs(Math.Abs(other.Value - measure.Value) - Math.Abs(measure.Value - actual)) < 1e-6 ? other : measure;
                    misfits.Add(new Misfit(measure, Math.Abs(measure.Value - actual), actual, against, against.Value + (measure.Value - actual) * (against.Kind == "width" || against.Kind == kind ? 1 : 0)));
                }
            }
            if (walked.Leg is MirrorLeg mirror && legs.FindIndex(l => l.Name == mirror.Of) is >= 0 and var at && at < result.Legs.Length)
            {
                // The mirrored leg must begin where the mirror image of its original ends.
                var wanted = result.Legs[at].Segment.To;
                couldFail = true;
                var crossing = legs.Skip(at + 1).Take(i - at - 1).Select(l => Find(l.Name!, "across")).FirstOrDefault(m => m is not null);
                // Of nested pairs the innermost tells the whole error; the outer ones would tell it again.
                if (crossing is null || legs.Skip(at + 1).Take(i - at - 1).Any(l => l.Has("mirror"))) continue;
                double closing = 2 * Math.Abs(wanted.Y);
                var legMeasure = new[] { "width", "inward", "outward", "inward by", "outward by", "run" }.Select(kind => Find(mirror.Of, kind)).FirstOrDefault(m => m is not null);
                if (legMeasure is null) continue;
                misfits.Add(new Misfit(crossing, Math.Abs(crossing.Value - closing), closing, legMeasure, ClosingFor(legMeasure, result.Legs[at], crossing.Value / 2)));
            }
        }
        return misfits.ToImmutable();
    }

    private static StatedMeasure? Opposite(List<StatedMeasure> stated, string leg, string kind) => stated.LastOrDefault(s => s.Leg != leg && (s.Kind == kind || (kind == "across" && s.Kind == "width")));

    /// <summary>The value of a leg's measure that would bring its far end to a half width.</summary>
    private static double ClosingFor(StatedMeasure measure, WalkedLeg leg, double halfWidth)
    {
        double aside = Math.Abs(Math.Abs(leg.Segment.From.Y) - halfWidth);
        double run = Math.Abs(leg.Segment.Chord.X);
        double angle = Math.Atan2(Math.Abs(leg.Segment.Chord.Y), run);
        return measure.Kind switch
        {
            "width" => 2 * halfWidth,
            "inward" or "outward" => Math.Atan2(aside, run),
            "run" => angle > 1e-9 ? aside / Math.Tan(angle) : run,
            _ => aside,
        };
    }
}
