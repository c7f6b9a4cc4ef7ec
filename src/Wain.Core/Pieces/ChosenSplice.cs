using System.Collections.Immutable;

namespace Wain.Core.Pieces;

/// <summary>A row of pieces with splices that the rules of its panel leave free to place.</summary>
/// <param name="Row">Unique and the same for every compile: panel, layer, piece and axis.</param>
/// <param name="Question">What the splices must keep to.</param>
public sealed record SpliceRow(string Row, string Material, SpliceQuestion Question);

/// <summary>Splices placed where cutting costs least. Kept until the row changes.</summary>
/// <param name="Length">Of the row as cut (mm), as the other measures.</param>
/// <param name="At">Middles of the laps from where the row begins.</param>
public sealed record ChosenSplice(string Row, double Length, double Overlap, double Longest, ImmutableArray<double> At)
{
    public static ChosenSplice Of(SpliceRow row, ImmutableArray<double> places) =>
        new(row.Row, Rounded(row.Question.To - row.Question.From), Rounded(row.Question.Overlap), Rounded(row.Question.Longest), [.. places.Select(p => Rounded(p - row.Question.From))]);

    /// <summary>The places for a row as it is now; null if it has changed, or the places break a rule.</summary>
    public ImmutableArray<double>? For(SpliceQuestion q)
    {
        if (!IsNear(Length, q.To - q.From) || !IsNear(Overlap, q.Overlap) || !IsNear(Longest, q.Longest)) return null;
        ImmutableArray<double> places = [.. At.Select(a => a + q.From)];
        return SplicePlanner.Keeps(q, places) ? places : null;
    }

    // Far finer than any saw, and the same text on every machine.
    private static double Rounded(double mm) => Math.Round(mm, 5);

    private static bool IsNear(double a, double b) => Math.Abs(a - b) < 0.001;
}
