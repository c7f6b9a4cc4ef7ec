using Wain.Core.Findings;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>An owned offcut must have a size to be cut from.</summary>
public static class OwnedSizes
{
    private static readonly string Text = Examples.Wall(48, 24, "    frame { studs every 16 in }") + "\nowned rest of ply_6mm { size WIDE by 24 in }\n";

    public static readonly FindingInfo Info = new("WN7003", "owned-without-size", Level.Warning, "An owned offcut has no size",
        "What is in the shop already is cut before anything is bought. An offcut of no width or length gives nothing, so it is left out of the plan; most often a digit was lost.",
        Text.With("WIDE", "0 in"), Text.With("WIDE", "20 in"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        var e = input.Spec.Evaluator;
        foreach (var owned in input.Spec.All("owned"))
        {
            foreach (var (fact, slot) in owned.All("size").SelectMany(s => new[] { (s, "width"), (s, "length") }).Concat(owned.All("length").Select(l => (l, "length"))))
            {
                if (e.Length(fact, slot) is not { } size || size > 0) continue;
                yield return new Finding(Info, $"{owned.Name} is {input.Say.Length(size)} {(slot == "width" ? "wide" : "long")}, so nothing can be cut from it.", e.SlotSpan(fact, slot)) { Subject = owned.Name ?? "", Hint = "Measure it again, or take the line out." };
            }
        }
    }
}
