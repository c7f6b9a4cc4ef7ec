using System.Globalization;
using Wain.Core.CutLists;
using Wain.Core.Findings;

namespace Wain.Core.Checks;

/// <summary>A plan that is not proven to cost least says by how much it could be beaten.</summary>
public static class PlanCouldCostLess
{
    // What is ripped to thickness is planned from bought boards alone, so beside an owned one nothing is proven.
    private const string Boards = """
        board foam {
            thickness 2 in
            size 48 in by 96 in, price 30 USD, on 2026-01-05
            density 30 kg/m3
        }
        stack bed { foam foam thick 3/4 in }
        panel deck of bed { through (0 in, 20 in, 0 in) along (0 in, -20 in, 0 in) up (80 in, 20 in, 0 in) }

        """;

    public static readonly FindingInfo Info = new("WN7013", "plan-gap", Level.Note, "A cutting plan is not proven to cost least",
        "The search found a plan and a bound that no plan can be below, and the two do not meet. A better plan may exist, though most often it is the bound that is low. A longer search (wain cut SPEC --steps N) may close the gap; it never makes a plan worse.",
        Boards + "owned scrap of foam { size 48 in by 96 in }\n", Boards, new ExamplePlan());

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        foreach (var m in input.Cutting.Plan?.Materials.Where(m => m.Problems.IsEmpty && !m.IsProven) ?? [])
        {
            string Amount(long cost) => m.CostUnit.Length > 0 ? string.Create(CultureInfo.InvariantCulture, $"{cost / 100.0:0.00} {m.CostUnit}") : "by amount";
            string by = m.CostUnit.Length > 0 ? $" costs {Amount(m.Cost)}{(m.Kept > 0 ? $" and keeps offcuts worth {Amount(m.Kept)}, together {Amount(m.Net)}" : "")}, and {(m.Bound > 0 ? $"no plan can cost less than {Amount(m.Bound)}" : "nothing is proven of it")}" : " takes more than any plan must";
            yield return new Finding(Info, string.Create(CultureInfo.InvariantCulture, $"The cutting plan of {m.Material}{by}{(m.Bound > 0 ? $": a gap of {CuttingTables.AtMost(m.Gap)} %" : "")}{(m.Interrupted ? "; its search was stopped early" : "")}."), input.PlaceOf(m.Material))
            {
                Subject = m.Material,
                Hint = $"wain cut with --steps {m.Steps * 10} searches ten times as long.",
            };
        }
    }
}
