using Wain.Core.Findings;

namespace Wain.Core.Checks;

/// <summary>A kept cutting plan must have been made for the parts as they are.</summary>
public static class PlanIsStale
{
    public static readonly FindingInfo Info = new("WN7010", "plan-stale", Level.Warning, "The kept cutting plan was made for other parts or stock",
        "A plan holds for one list of parts and the stock that it was made for, whatever its prices are as long as they stand to each other as before. Where either has changed since, the old plan is not shown, lest somebody cut by it, and what to buy of that material is an estimate until wain cut plans anew. Plans of the materials that did not change stay in force.",
        Examples.Squares(3, ", price 40 USD, on 2026-01-05"), Examples.Squares(2, ", price 40 USD, on 2026-01-05"), new ExamplePlan(OfMended: true));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        var stale = input.Cutting.Stale;
        if (stale.IsEmpty) yield break;
        yield return new Finding(Info, $"The kept cutting plan was made for other parts or stock of {string.Join(", ", stale)}; what to buy of {(stale.Length == 1 ? "it" : "them")} is an estimate.", input.PlaceOf(stale[0]))
        {
            Subject = stale.Length == 1 ? stale[0] : "cutting",
            Hint = "wain cut makes a new plan, and keeps what has not changed.",
        };
    }
}
