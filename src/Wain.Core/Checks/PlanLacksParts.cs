using Wain.Core.Findings;

namespace Wain.Core.Checks;

/// <summary>A kept cutting plan has a place for every part.</summary>
public static class PlanLacksParts
{
    public static readonly FindingInfo Info = new("WN7012", "plan-lacks-parts", Level.Warning, "The kept cutting plan leaves parts without a place",
        "A part may be larger than the stock, the stock may be too little, or the search may have ended too soon. The plan shows the rest; what to buy of that material is an estimate by amount, since the plan does not cover it all.",
        Examples.Squares(3, ", price 40 USD, on 2026-01-05, count 1"), Examples.Squares(3, ", price 40 USD, on 2026-01-05, count 2"), new ExamplePlan());

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        foreach (var m in input.Cutting.Plan?.Materials.Where(m => !m.Problems.IsEmpty) ?? [])
            yield return new Finding(Info, $"The cutting plan of {m.Material} is not whole: {m.Problems[0].TrimEnd('.')}{(m.Problems.Length > 1 ? $", and {m.Problems.Length - 1} more like it" : "")}.", input.PlaceOf(m.Material)) { Subject = m.Material, Hint = input.CutLists.Any(l => l.Material == m.Material && l.Stock.IsEmpty) ? Sold(input, m.Material) : null };
    }

    /// <summary>How the size is stated that a material is sold in, such as a roll of cloth.</summary>
    private static string? Sold(CheckInput input, string material) =>
        input.Structure.Materials.FirstOrDefault(m => m.Name == material)?.Fact.Shape.Body?.Facts.FirstOrDefault(f => f.Keyword is "roll" or "length" or "size") is { } fact ? $"Add a line to {material}: {fact.Reading}." : null;
}
