using Wain.Core.CutLists;
using Wain.Core.Findings;

namespace Wain.Core.Checks;

/// <summary>What is owned is free, so a builder wants to know where a plan leaves it lying.</summary>
public static class PlanLeavesOwned
{
    public static readonly FindingInfo Info = new("WN7015", "plan-leaves-owned", Level.Note, "A cutting plan takes nothing from something that is owned",
        "An owned offcut is free, and is taken where that saves bought stock. It stays where no part fits it or none that does saves anything. Boards that are ripped to thickness, and cloth that is bought by the run, are planned from bought stock alone: lay parts on what you own by hand before you buy.",
        Examples.Squares(3, ", price 40 USD, on 2026-01-05", "owned scrap of ply { size 24 in by 24 in }\n"), Examples.Squares(3, ", price 40 USD, on 2026-01-05", "owned scrap of ply { size 41 in by 41 in }\n"), new ExamplePlan());

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        foreach (var plan in input.Cutting.Plan?.Materials.Where(m => m.Problems.IsEmpty) ?? [])
        {
            var list = input.CutLists.FirstOrDefault(l => l.Material == plan.Material);
            foreach (string name in list?.Stock.Where(s => s.Owned).Select(s => s.Name).Distinct(StringComparer.Ordinal).Where(n => !plan.Sheets.Any(s => s.Owned && s.Stock == n)) ?? [])
            {
                bool alone = !plan.Rips.IsEmpty || plan.Kind == CutKind.Roll && plan.Proof is null;
                yield return new Finding(Info, $"The cutting plan of {plan.Material} takes nothing from {name}.", input.Spec.Find(name)?.NameSpan ?? input.PlaceOf(plan.Material))
                {
                    Subject = name,
                    Hint = alone ? $"{(plan.Rips.IsEmpty ? "Cloth that is bought by the run" : "What is ripped to thickness")} is planned from bought stock alone: lay parts on {name} by hand, and buy less." : "Nothing that fits it saves a bought one.",
                };
            }
        }
    }
}
