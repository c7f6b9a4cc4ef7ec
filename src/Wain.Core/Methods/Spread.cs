namespace Wain.Core.Methods;

/// <summary>A low, a likely and a high value of one figure, in any unit. The half-spreads below and above the likely value need not be alike.</summary>
public sealed record Spread(double Low, double Likely, double High)
{
    public double Below => Likely - Low;

    public double Above => High - Likely;

    public static Spread Exactly(double value) => new(value, value, value);

    /// <summary>Likely value with a fraction either way: <c>Within(10, 0.1)</c> is 9, 10, 11.</summary>
    public static Result<Spread> Within(double likely, double fraction) =>
        Need.All(Need.Finite(likely, "the likely value"), Need.NotNegative(fraction, "the spread")) is { } why
            ? new Missing(why)
            : new Spread(likely - Math.Abs(likely) * fraction, likely, likely + Math.Abs(likely) * fraction);

    public static Result<Spread> Of(double low, double likely, double high) =>
        Need.All(
            Need.Finite(low, "the low value"), Need.Finite(likely, "the likely value"), Need.Finite(high, "the high value"),
            Need.That(low <= likely && likely <= high, "the low, likely and high values must come in that order")) is { } why
            ? new Missing(why)
            : new Spread(low, likely, high);

    /// <summary>The spread of a known multiple. A negative factor swaps low and high.</summary>
    public Spread Times(double factor) =>
        factor >= 0 ? new(Low * factor, Likely * factor, High * factor) : new(High * factor, Likely * factor, Low * factor);
}

/// <summary>One figure with the cause of its spread: figures with the same cause (the density of one material, say) are high or low together.</summary>
public sealed record CausedSpread(string Cause, Spread Value);

/// <summary>
/// The stated rule for adding spreads. Independent causes: the likely values add, and the half-spreads below and above each combine as the root
/// of the sum of squares (JCGM 100:2008, "GUM", 5.1.2). One common cause: the half-spreads add (GUM 5.2.2, note 1).
/// </summary>
public static class Spreads
{
    /// <summary>Sum of figures whose causes of spread are independent. Same unit in and out; an empty list is exactly zero.</summary>
    public static Spread SumIndependent(IEnumerable<Spread> parts)
    {
        var (likely, below, above) = (0.0, 0.0, 0.0);
        foreach (var part in parts)
        {
            likely += part.Likely;
            below += part.Below * part.Below;
            above += part.Above * part.Above;
        }

        return new(likely - Math.Sqrt(below), likely, likely + Math.Sqrt(above));
    }

    /// <summary>Sum of figures that are all low or all high together, the widest case.</summary>
    public static Spread SumTogether(IEnumerable<Spread> parts) =>
        parts.Aggregate(Spread.Exactly(0), (sum, part) => new(sum.Low + part.Low, sum.Likely + part.Likely, sum.High + part.High));

    /// <summary>Together within a cause, independent between causes. The rule for weights, where one board's density is every board's density.</summary>
    public static Spread SumByCause(IEnumerable<CausedSpread> parts) =>
        SumIndependent(parts.GroupBy(part => part.Cause, StringComparer.Ordinal).Select(group => SumTogether(group.Select(part => part.Value))));

    /// <summary>
    /// Product of independent figures, to first order: each half-spread is scaled by the likely values of the other factors and they combine as
    /// the root of the sum of squares (GUM 5.1.2 with the partial derivatives of a product, 5.1.6).
    /// </summary>
    public static Spread ProductIndependent(params IReadOnlyList<Spread> factors)
    {
        var terms = factors.Select((factor, i) =>
            new Spread(factor.Low - factor.Likely, 0, factor.High - factor.Likely)
                .Times(factors.Where((_, j) => j != i).Aggregate(1.0, (product, other) => product * other.Likely)));
        var likely = factors.Aggregate(1.0, (product, factor) => product * factor.Likely);
        var sum = SumIndependent(terms);
        return new(likely + sum.Low, likely, likely + sum.High);
    }
}
