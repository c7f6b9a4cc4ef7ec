using System.Collections.Immutable;
using Wain.Core;
using Wain.Core.CutLists;
using Wain.Core.Pieces;

namespace Wain.Cli.Cutting;

/// <summary>Places the splices of each row where cutting costs least: rows one after another, each placing planned with a short search, until a round changes nothing.</summary>
public static class SpliceRun
{
    // The searches are the same whatever the budget of the plan, so that a larger budget plans the same pieces.
    private const int TrialSteps = 20_000, MostPlacings = 12, MostRounds = 2;

    /// <summary>The choice for every row that the rules leave free. Rows of the kept choice that have not changed stay as they are.</summary>
    public static ImmutableArray<ChosenSplice> Choose(Design design, ImmutableArray<ChosenSplice> kept, Action<CutProgress> tell, CancellationToken cancel)
    {
        var rows = design.Spliced([]).Pieces.Rows;
        var chosen = new SortedDictionary<string, ChosenSplice>(StringComparer.Ordinal);
        foreach (var row in rows)
            if (kept.FirstOrDefault(k => k.Row == row.Row) is { } old && Row(design, Values(chosen), row.Row) is { } now && old.For(now.Question) is not null) chosen[row.Row] = old;
        var open = rows.Where(r => !chosen.ContainsKey(r.Row)).ToList();
        int trials = 0;
        for (int round = 0; round < MostRounds && open.Count > 0; round++)
        {
            bool changed = false;
            foreach (var row in open)
            {
                if (cancel.IsCancellationRequested || Row(design, Values(chosen), row.Row) is not { } now) continue;
                var usual = chosen.GetValueOrDefault(row.Row);
                (Score Score, ChosenSplice? Splice)? best = null;
                foreach (var places in SplicePlanner.Options(now.Question, Lengths(design, Values(chosen), now), MostPlacings))
                {
                    if (cancel.IsCancellationRequested) break;
                    var splice = ChosenSplice.Of(now, places);
                    chosen[row.Row] = splice;
                    tell(new CutProgress($"splices of {row.Row}", ++trials, trials, -1, 0));
                    var score = Scored(design, Values(chosen), now.Material, places.Length, cancel);
                    if (best is null || score.CompareTo(best.Value.Score) < 0) best = (score, splice);
                }
                if (best?.Splice is { } better && !cancel.IsCancellationRequested) chosen[row.Row] = better;
                else if (usual is not null) chosen[row.Row] = usual;
                else chosen.Remove(row.Row);
                changed |= !(chosen.GetValueOrDefault(row.Row)?.At.SequenceEqual(usual?.At ?? []) ?? usual is null);
            }
            if (!changed || open.Count == 1) break;
        }
        return [.. chosen.Values];
    }

    /// <summary>Parts without a place first, then cost, then pieces to join, then the smallest sum of sheets.</summary>
    private readonly record struct Score(int Problems, long Cost, int Splices, long Sheets) : IComparable<Score>
    {
        public int CompareTo(Score other) => (Problems, Cost, Splices, Sheets).CompareTo((other.Problems, other.Cost, other.Splices, other.Sheets));
    }

    private static ImmutableArray<ChosenSplice> Values(SortedDictionary<string, ChosenSplice> chosen) => [.. chosen.Values];

    // What a row must keep to may hang on the splices of the other face.
    private static SpliceRow? Row(Design design, ImmutableArray<ChosenSplice> chosen, string row) => design.Spliced(chosen).Pieces.Rows.FirstOrDefault(r => r.Row == row);

    /// <summary>Lengths of a piece that leave of a sheet just what another part takes.</summary>
    private static List<double> Lengths(Design design, ImmutableArray<ChosenSplice> chosen, SpliceRow row)
    {
        var list = design.Spliced(chosen).Lists.First(l => l.Material == row.Material);
        return [.. list.Parts.SelectMany(p => new[] { p.Width, p.Length }).Distinct().Select(l => row.Question.Longest - (l + list.Kerf) / CutList.UnitsPerMillimetre).Where(l => l > row.Question.Least).Distinct().Order().Take(40)];
    }

    private static Score Scored(Design design, ImmutableArray<ChosenSplice> chosen, string material, int splices, CancellationToken cancel)
    {
        var list = design.Spliced(chosen).Lists.First(l => l.Material == material);
        var plan = CutRun.Plan(list, TrialSteps, _ => { }, cancel);
        return new Score(plan.Problems.Length, plan.Net, splices, plan.Sheets.Sum(s => (long)s.Times));
    }
}
