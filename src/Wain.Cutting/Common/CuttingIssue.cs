namespace Wain.Cutting;

/// <summary>Why something could not be planned as asked.</summary>
public enum IssueKind
{
    /// <summary>The size, count, price or kerf is negative, zero where it must not be, or too large to reckon with.</summary>
    BadValue,

    /// <summary>The piece fits none of the stock in any allowed position.</summary>
    FitsNoStock,

    /// <summary>Pieces are left over when the limited stock is used up, as far as the search could see.</summary>
    NotEnoughStock,

    /// <summary>The budget ended before every piece had a place.</summary>
    BudgetSpent,
}

/// <summary>One thing that stands in the way of a whole plan.</summary>
/// <param name="Subject">Id of the piece or stock.</param>
/// <param name="Count">How many pieces it touches.</param>
/// <param name="Text">The same for people.</param>
public sealed record CuttingIssue(IssueKind Kind, string Subject, long Count, string Text);
