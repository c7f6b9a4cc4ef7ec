namespace Wain.Cutting;

/// <summary>
/// A rule that every whole plan keeps and the linear program does not: weigh the pieces, and over all sticks the whole multiples of the divisor cannot be
/// more than in all pieces together. In a rule of three kinds weighed 1 with divisor 2, no more sticks hold two of the three than half of their pieces.
/// (Chvatal and Gomory's rounding; subset rows: Jepsen, Petersen, Spoorendonk and Pisinger 2008.)
/// </summary>
/// <param name="Kinds">Kinds that count, in ascending order.</param>
/// <param name="Weights">What one piece of each weighs, above 0.</param>
/// <param name="Divisor">Above 0.</param>
/// <param name="Price">What one whole multiple takes off a stick's worth, in the certificate's scale.</param>
public sealed record RoundingCut(IReadOnlyList<int> Kinds, IReadOnlyList<int> Weights, int Divisor, long Price)
{
    /// <summary>Whole multiples of the divisor in these pieces.</summary>
    internal long Multiples(ReadOnlySpan<int> amounts)
    {
        long sum = 0;
        for (var i = 0; i < Kinds.Count; i++)
            sum += (long)Weights[i] * amounts[Kinds[i]];
        return sum / Divisor;
    }
}
