using System.Collections.Immutable;
using Wain.Core.Geometry.Kernel;

namespace Wain.Core.Pieces;

/// <summary>What splices are placed by. Positions are the middles of laps, on one axis (mm).</summary>
/// <param name="From">Where the layer begins, as cut.</param>
/// <param name="To">Where it ends.</param>
/// <param name="Longest">The longest piece that the stock gives.</param>
/// <param name="Least">The shortest piece allowed.</param>
/// <param name="Members">Middles of framing members that a splice may lie over.</param>
/// <param name="Others">Splices of the other face.</param>
/// <param name="Stagger">How far to stay from those.</param>
public sealed record SpliceQuestion(double From, double To, double Overlap, double Longest, double Least, bool OverMember, ImmutableArray<double> Members, ImmutableArray<double> Others, double Stagger);

/// <summary>Places the splices of a layer: the fewest pieces first, then full sheets from the start.</summary>
public static class SplicePlanner
{
    // Beyond these a layer is too large for any camper; the search ends rather than run on.
    private const int MostPieces = 60;
    private const int MostSteps = 20_000;
    private const int MostInRun = 2_000;

    /// <summary>The least number of pieces: each after the first adds its length less the lap.</summary>
    public static int LeastPieces(double length, double longest, double overlap)
    {
        if (length <= longest + Tolerance.Length) return 1;
        return longest <= overlap ? int.MaxValue : 1 + (int)Math.Min(1e6, Math.Ceiling((length - longest) / (longest - overlap) - 1e-9));
    }

    /// <summary>Middles of the laps in order, or null if no placing keeps all the rules. Up to two pieces more than the fewest are tried.</summary>
    public static ImmutableArray<double>? Place(SpliceQuestion q) => All(q, []).Select(p => (ImmutableArray<double>?)p).FirstOrDefault();

    /// <summary>Placings that keep all the rules, the one that <see cref="Place"/> takes first: with the fewest pieces that keep them, and with one more.</summary>
    /// <param name="lengths">Lengths of a piece that are worth trying, such as what another part leaves of a sheet.</param>
    /// <param name="most">The most placings to give for each number of pieces.</param>
    public static ImmutableArray<ImmutableArray<double>> Options(SpliceQuestion q, IReadOnlyList<double> lengths, int most)
    {
        var options = new List<ImmutableArray<double>>();
        int least = 0;
        foreach (var same in All(q, lengths).GroupAdjacent(p => p.Length))
        {
            if (least == 0)
            {
                least = same[0].Length;
                options.AddRange(All(q, []).Take(1));
            }
            if (same[0].Length > least + 1) break;
            // What fills up another sheet is tried first.
            int Matches(ImmutableArray<double> places) => Lengths(q, places).Count(l => lengths.Any(w => Math.Abs(w - l) < 0.01));
            foreach (var places in same.OrderByDescending(Matches).Take(most))
                if (!options.Exists(o => o.Length == places.Length && o.Zip(places).All(p => Math.Abs(p.First - p.Second) < 0.01))) options.Add(places);
        }
        return [.. options];
    }

    private static IEnumerable<double> Lengths(SpliceQuestion q, ImmutableArray<double> places)
    {
        double from = q.From;
        foreach (double place in places)
        {
            yield return place + q.Overlap / 2 - from;
            from = place - q.Overlap / 2;
        }
        yield return q.To - from;
    }

    // Runs of placings with one number of pieces, none so long that it would take all day to sort.
    private static IEnumerable<List<ImmutableArray<double>>> GroupAdjacent(this IEnumerable<ImmutableArray<double>> all, Func<ImmutableArray<double>, int> key)
    {
        List<ImmutableArray<double>> run = [];
        foreach (var places in all)
        {
            if (run.Count > 0 && key(run[0]) != key(places))
            {
                yield return run;
                run = [];
            }
            if (run.Count < MostInRun) run.Add(places);
        }
        if (run.Count > 0) yield return run;
    }

    /// <summary>True if a placing keeps all the rules.</summary>
    public static bool Keeps(SpliceQuestion q, ImmutableArray<double> places)
    {
        double from = q.From;
        for (int k = 0; k < places.Length; k++)
        {
            double place = places[k];
            if (k > 0 && place <= places[k - 1] || !Fits(q, place + q.Overlap / 2 - from)) return false;
            if (q.OverMember && !q.Members.Any(m => Math.Abs(m - place) < 0.01) || q.Others.Any(o => Math.Abs(o - place) < q.Stagger - 0.01)) return false;
            from = place - q.Overlap / 2;
        }
        return Fits(q, q.To - from);
    }

    private static IEnumerable<ImmutableArray<double>> All(SpliceQuestion q, IReadOnlyList<double> lengths)
    {
        int least = LeastPieces(q.To - q.From, q.Longest, q.Overlap);
        if (least == 1) yield return [];
        if (least == 1 || least > MostPieces) yield break;
        for (int pieces = least; pieces <= least + 2; pieces++)
        {
            var places = Candidates(q, pieces, lengths).Where(c => q.Others.All(o => Math.Abs(o - c) >= q.Stagger - 0.01)).Distinct().OrderDescending().ToArray();
            var steps = new Steps();
            foreach (var found in Search(q, places, new double[pieces - 1], 0, steps)) yield return found;
        }
    }

    private sealed class Steps
    {
        public int Done { get; set; }
    }

    private static IEnumerable<double> Candidates(SpliceQuestion q, int pieces, IReadOnlyList<double> lengths)
    {
        if (q.OverMember) return q.Members.Where(m => m > q.From && m < q.To);
        var places = new List<double>();
        double half = q.Overlap / 2, step = q.Longest - q.Overlap, even = (q.To - q.From + (pieces - 1) * q.Overlap) / pieces;
        for (int k = 1; k < pieces; k++)
        {
            places.Add(q.From + q.Longest - half + (k - 1) * step);
            places.Add(q.To - q.Longest + half - (k - 1) * step);
            places.Add(q.From + k * (even - q.Overlap) + half);
        }
        places.Add(q.From + q.Least - half);
        places.Add(q.To - q.Least + half);
        foreach (double length in lengths) places.AddRange([q.From + length - half, q.To - length + half]);
        places.AddRange(q.Others.SelectMany(o => new[] { o - q.Stagger, o + q.Stagger }));
        // From each place also the next full sheets either way, so that a shift for one reason carries on along the row.
        foreach (double p in places.ToArray()) for (int k = 1; k < pieces; k++) places.AddRange([p + k * step, p - k * step]);
        return places.Where(p => p > q.From && p < q.To).Select(p => Math.Round(p, 6));
    }

    private static IEnumerable<ImmutableArray<double>> Search(SpliceQuestion q, double[] places, double[] chosen, int at, Steps steps)
    {
        double from = at == 0 ? q.From : chosen[at - 1] - q.Overlap / 2;
        if (at == chosen.Length)
        {
            if (Fits(q, q.To - from)) yield return [.. chosen];
            yield break;
        }
        foreach (double place in places)
        {
            if (++steps.Done > MostSteps) yield break;
            if ((at > 0 && place <= chosen[at - 1]) || !Fits(q, place + q.Overlap / 2 - from)) continue;
            chosen[at] = place;
            foreach (var found in Search(q, places, chosen, at + 1, steps)) yield return found;
        }
    }

    private static bool Fits(SpliceQuestion q, double length) => length <= q.Longest + 1e-4 && length >= q.Least - 1e-4 && length > q.Overlap;
}
