using Wain.Core.Findings;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>A kept cutting plan keeps the rules of cutting, and proves what it says of its cost.</summary>
public static class PlanIsBroken
{
    public static readonly FindingInfo Info = new("WN7011", "plan-broken", Level.Error, "The kept cutting plan breaks a rule, or does not prove what it says",
        "Each time a plan is read, every part is looked up in its place, the cuts are followed in their order, and the bound of its cost is reckoned again from the proof that is kept with it, in exact arithmetic. A plan that fails was edited by hand or damaged; nobody should cut by it.",
        Examples.Squares(3, ", price 40 USD, on 2026-01-05"), Examples.Squares(3, ", price 40 USD, on 2026-01-05"), new ExamplePlan(Was: "\"Cost\": 8000", Is: "\"Cost\": 4000"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        if (input.Cutting.Fault is { } fault) yield return new Finding(Info, $"The kept cutting plan can't be read: {fault}.", new Span(input.Spec.Main, 0, 0)) { Subject = "cutting", Hint = "Delete the file; wain cut makes a new plan." };
        foreach (var broken in input.Cutting.Broken)
            yield return new Finding(Info, $"The kept cutting plan of {broken.Material} does not hold: {broken.Why.TrimEnd('.')}.", input.PlaceOf(broken.Material)) { Subject = broken.Material, Hint = "wain cut makes a new plan." };
    }
}
