using Wain.Core.Findings;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>A faulty stretch lies on its stick.</summary>
public static class FaultPlaces
{
    private static readonly string Text = Examples.Wall(48, 24, "    frame { studs every 16 in }") + "\nowned rest of strip_1x2 {\n    length 60 in\n    faulty FROM to TO\n}\n";

    public static readonly FindingInfo Info = new("WN7004", "fault-off-the-stick", Level.Warning, "A faulty stretch does not lie on its stick",
        "No part is cut across a faulty stretch, such as a knot or a split. One that begins beyond the end of the stick, or ends before it begins, keeps nothing clear, so the knot may end up in a part.",
        Text.With("FROM", "70 in").With("TO", "72 in"), Text.With("FROM", "30 in").With("TO", "32 in"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        var e = input.Spec.Evaluator;
        foreach (var owned in input.Spec.All("owned"))
        {
            double longest = owned.All("length").Select(l => e.Length(l, "length") ?? 0).DefaultIfEmpty(0).Max();
            foreach (var fact in owned.All("length").Where(l => l.Has("from")).Concat(owned.All("faulty")))
            {
                if (e.Length(fact, "from") is not { } from || e.Length(fact, "to") is not { } to || from >= 0 && to > from && from < longest) continue;
                string message = to <= from ? $"The faulty stretch of {owned.Name} ends at {input.Say.Length(to)}, before it begins at {input.Say.Length(from)}."
                    : $"The faulty stretch of {owned.Name} begins at {input.Say.Length(from)}; the stick is {input.Say.Length(longest)} long.";
                yield return new Finding(Info, message, e.SlotSpan(fact, "from")) { Subject = owned.Name ?? "", Hint = "Measure from one end of the stick to both ends of the fault." };
            }
        }
    }
}
