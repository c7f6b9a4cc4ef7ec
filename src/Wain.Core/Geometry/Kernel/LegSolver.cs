using System.Collections.Immutable;

namespace Wain.Core.Geometry.Kernel;

/// <summary>The four measures of a leg. <c>Run</c> goes along the axis and <c>Length</c> along the leg: two words that never stand for each other.</summary>
public enum LegMeasure { Run, Across, Length, Angle }

/// <summary>What is known of a leg: run and across in mm, length in mm, angle from the axis in radians.</summary>
public sealed record LegMeasures(double? Run = null, double? Across = null, double? Length = null, double? Angle = null)
{
    public double? this[LegMeasure measure] => measure switch
    {
        LegMeasure.Run => Run,
        LegMeasure.Across => Across,
        LegMeasure.Length => Length,
        _ => Angle,
    };

    public ImmutableArray<LegMeasure> Known => [.. Enum.GetValues<LegMeasure>().Where(m => this[m] is not null)];
}

/// <summary>The right triangle under a leg, from its run and across (mm).</summary>
public readonly record struct LegTriangle(double Run, double Across)
{
    public double Length => Math.Sqrt(Run * Run + Across * Across);

    /// <summary>From the axis, radians.</summary>
    public double Angle => Math.Atan2(Across, Run);

    public double this[LegMeasure measure] => measure switch
    {
        LegMeasure.Run => Run,
        LegMeasure.Across => Across,
        LegMeasure.Length => Length,
        _ => Angle,
    };

    /// <summary>How far the far end would move (mm) for a measure to become a value: an angle swings the end on the leg's length.</summary>
    public double FarEnd(LegMeasure measure, double value) =>
        measure == LegMeasure.Angle ? Math.Abs(Math.IEEERemainder(value - Angle, 2 * Math.PI)) * Length : Math.Abs(value - this[measure]);
}

/// <summary>
/// Two stated measures that do not agree while a third is held. <see cref="ErrorA"/> is how far A is, at the leg's far end (mm), from what B and the held
/// measure give, and <see cref="ClosingA"/> the value of A that would agree (mm or radians); likewise B.
/// </summary>
public sealed record LegDisagreement(LegMeasure A, LegMeasure B, LegMeasure Held, double ErrorA, double ErrorB, double ClosingA, double ClosingB)
{
    public double Greatest => Math.Max(ErrorA, ErrorB);
}

/// <summary>A stated measure against the leg as solved: the error at the far end (mm) and the value that would close it.</summary>
public sealed record LegMisfit(LegMeasure Measure, double Stated, double Closing, double Error);

public enum LegFailure
{
    /// <summary>Fewer than two independent measures.</summary>
    TooFewMeasures,

    /// <summary>No triangle has the two measures: a length shorter than its run, an angle of 90 degrees with a run.</summary>
    Impossible,
}

/// <summary>A solved leg. <see cref="Base"/> are the two measures that it was solved from, the rest are compared.</summary>
public sealed record LegSolution(
    LegTriangle? Triangle, ImmutableArray<LegMeasure> Base, ImmutableArray<LegMisfit> Misfits, ImmutableArray<LegDisagreement> Disagreements, LegFailure? Failure = null);

/// <summary>Finds the triangle of a leg from any two of its measures, and says how well the others agree.</summary>
public static class LegSolver
{
    /// <summary>
    /// Solves a leg. With more than two measures the pair that fixes the far end most firmly is the base: run with across, or length with angle,
    /// before a pair such as run with length, where a small slip moves the end a long way. Disagreements come greatest first.
    /// </summary>
    public static LegSolution Solve(LegMeasures measures)
    {
        var known = measures.Known;
        if (known.Length < 2) return new(null, known, [], [], LegFailure.TooFewMeasures);
        var bases = Pairs(known)
            .Select(p => (p.A, p.B, Triangle: From(p.A, measures[p.A]!.Value, p.B, measures[p.B]!.Value)))
            .Where(p => p.Triangle is not null)
            .Select(p => (p.A, p.B, Triangle: p.Triangle!.Value))
            .OrderByDescending(p => Math.Round(Firmness(p.A, p.B, p.Triangle.Angle), 9))
            .ToList();
        if (bases.Count == 0) return new(null, known, [], [], LegFailure.Impossible);
        var (a, b, triangle) = bases[0];
        var misfits = known.Where(m => m != a && m != b)
            .Select(m => new LegMisfit(m, measures[m]!.Value, triangle[m], triangle.FarEnd(m, measures[m]!.Value)))
            .OrderByDescending(m => m.Error);
        return new(triangle, [a, b], [.. misfits], Disagreements(measures, known));
    }

    /// <summary>The triangle from two of its measures; null when none has them. Roots are taken positive.</summary>
    public static LegTriangle? From(LegMeasure a, double x, LegMeasure b, double y)
    {
        if (a > b) return From(b, y, a, x);
        var triangle = (a, b) switch
        {
            (LegMeasure.Run, LegMeasure.Across) => new LegTriangle(x, y),
            (LegMeasure.Run, LegMeasure.Length) => new(x, Root(y * y - x * x, y)),
            (LegMeasure.Run, LegMeasure.Angle) => new(x, Math.Abs(Math.Cos(y)) <= Tolerance.Angle || x * Math.Cos(y) < 0 ? double.NaN : x * Math.Tan(y)),
            (LegMeasure.Across, LegMeasure.Length) => new(Root(y * y - x * x, y), x),
            (LegMeasure.Across, LegMeasure.Angle) => new(Math.Abs(Math.Sin(y)) <= Tolerance.Angle || x * Math.Sin(y) < 0 ? double.NaN : x / Math.Tan(y), x),
            (LegMeasure.Length, LegMeasure.Angle) => new(x < 0 ? double.NaN : x * Math.Cos(y), x * Math.Sin(y)),
            _ => new LegTriangle(double.NaN, double.NaN),
        };
        return double.IsFinite(triangle.Run) && double.IsFinite(triangle.Across) ? triangle : null;

        static double Root(double square, double length) =>
            length < 0 ? double.NaN : square >= 0 ? Math.Sqrt(square) : square > -Tolerance.Length * length ? 0 : double.NaN;
    }

    private static IEnumerable<(LegMeasure A, LegMeasure B)> Pairs(ImmutableArray<LegMeasure> known) =>
        from i in Enumerable.Range(0, known.Length)
        from j in Enumerable.Range(i + 1, known.Length - i - 1)
        select (known[i], known[j]);

    // Area spanned by the two directions in which the measures pull the far end: 1 when they stand square to each other, 0 when one says nothing new.
    private static double Firmness(LegMeasure a, LegMeasure b, double angle) => Math.Abs(Pull(a, angle).Cross(Pull(b, angle)));

    private static Vec2 Pull(LegMeasure measure, double angle) => measure switch
    {
        LegMeasure.Run => new(1, 0),
        LegMeasure.Across => new(0, 1),
        LegMeasure.Length => Vec2.FromAngle(angle),
        _ => Vec2.FromAngle(angle).Left,
    };

    private static ImmutableArray<LegDisagreement> Disagreements(LegMeasures measures, ImmutableArray<LegMeasure> known)
    {
        var found = new List<LegDisagreement>();
        foreach (var (a, b) in Pairs(known))
            foreach (var held in known)
            {
                if (held == a || held == b) continue;
                var (va, vb, vh) = (measures[a]!.Value, measures[b]!.Value, measures[held]!.Value);
                if (From(b, vb, held, vh) is not { } withB || From(a, va, held, vh) is not { } withA) continue;
                found.Add(new(a, b, held, withB.FarEnd(a, va), withA.FarEnd(b, vb), withB[a], withA[b]));
            }
        return [.. found.OrderByDescending(d => Math.Round(d.Greatest, 9))];
    }
}
