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

    /// <summary>The least number of pieces: each after the first adds its length less the lap.</summary>
    public static int LeastPieces(double length, double longest, double overlap)
    {
        if (length <= longest + Tolerance.Length) return 1;
        return longest <= overlap ? int.MaxValue : 1 + (int)Math.Min(1e6, Math.Ceiling((length - longest) / (longest - overlap) - 1e-9));
    }

    /// <summary>Middles of the laps in order, or null if no placing keeps all the rules. Up to two pieces more than the fewest are tried.</summary>
    public static ImmutableArray<double>? Place(SpliceQuestion q)
    {
        int least = LeastPieces(q.To - q.From, q.Longest, q.Overlap);
        if (least == 1) return [];
        if (least > MostPieces) return null;
        for (int pieces = least; pieces <= least + 2; pieces++)
        {
            var places = Candidates(q, pieces).Where(c => q.Others.All(o => Math.Abs(o - c) >= q.Stagger - 0.01)).Distinct().OrderDescending().ToArray();
            var chosen = new double[pieces - 1];
            int steps = 0;
            if (Search(q, places, chosen, 0, ref steps)) return [.. chosen];
        }
        return null;
    }

    private static IEnumerable<double> Candidates(SpliceQuestion q, int pieces)
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
        places.AddRange(q.Others.SelectMany(o => new[] { o - q.Stagger, o + q.Stagger }));
        // From each place also the next full sheets either way, so that a shift for one reason carries on along the row.
        foreach (double p in places.ToArray()) for (int k = 1; k < pieces; k++) places.AddRange([p + k * step, p - k * step]);
        return places.Where(p => p > q.From && p < q.To).Select(p => Math.Round(p, 6));
    }

    private static bool Search(SpliceQuestion q, double[] places, double[] chosen, int at, ref int steps)
    {
        double from = at == 0 ? q.From : chosen[at - 1] - q.Overlap / 2;
        if (at == chosen.Length) return Fits(q, q.To - from);
        foreach (double place in places)
        {
            if (++steps > MostSteps) return false;
            if ((at > 0 && place <= chosen[at - 1]) || !Fits(q, place + q.Overlap / 2 - from)) continue;
            chosen[at] = place;
            if (Search(q, places, chosen, at + 1, ref steps)) return true;
        }
        return false;
    }

    private static bool Fits(SpliceQuestion q, double length) => length <= q.Longest + 1e-4 && length >= q.Least - 1e-4 && length > q.Overlap;
}
