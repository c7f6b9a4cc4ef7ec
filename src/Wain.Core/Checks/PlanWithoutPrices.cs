using Wain.Core.Findings;

namespace Wain.Core.Checks;

/// <summary>Where a price is missing a plan can only save stock, not money.</summary>
public static class PlanWithoutPrices
{
    public static readonly FindingInfo Info = new("WN7014", "plan-without-prices", Level.Note, "A cutting plan had to go by amounts, since a price is missing",
        "A plan costs least by the prices that the spec states. Where a size of a material has none, the plan takes the least area or length of stock in their place, which may not be the least money.",
        Examples.Squares(2, ""), Examples.Squares(2, ", price 40 USD, on 2026-01-05"), new ExamplePlan());

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        foreach (var m in input.Cutting.Plan?.Materials.Where(m => m.CostUnit.Length == 0 && m.Sheets.Length > 0) ?? [])
            yield return new Finding(Info, $"{m.Material} has a size without a price, so its cutting plan takes the least stock.", input.PlaceOf(m.Material)) { Subject = m.Material, Hint = "Write the price behind the size: price 62.00 USD, on 2026-09-12" };
    }
}
