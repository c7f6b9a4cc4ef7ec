using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Model;

namespace Wain.Core.Checks;

/// <summary>Two units that name each other as their mirror have opposite hands and the same hole.</summary>
public static class UnitHands
{
    private static string Pair(string hand, string other) => Examples.Materials + $$"""

        unit left_window {
            cut_out 20 in by 10 in
            handed left other right_window
        }
        unit right_window {
            cut_out 20 in by 10 in
            handed {{hand}} other {{other}}
        }
        panel wall of wall_stack {
            through (0 in, 0 in, 0 in) along (0 in, -90 in, 0 in) up (0 in, 0 in, 30 in)
            opening view {
                unit left_window
                centred at (25 in, 15 in)
                framed
            }
            opening back {
                unit right_window
                centred at (65 in, 15 in)
                framed
            }
        }
        """;

    public static readonly FindingInfo Info = new("WN4119", "hands-do-not-pair", Level.Warning, "Two units are not each other's mirror",
        "A mirrored panel takes the other hand of its window. If the two don't pair, one side is built with a hinge or a slider on the wrong end.",
        Pair("left", "left_window"), Pair("right", "left_window"));

    // Of two that are alike either may be the slip.
    private static IEnumerable<Fix> Paired(Spec spec, UnitMaterial unit, BoundFact handed, UnitMaterial other, BoundFact? back)
    {
        string opposite = handed.Word("hand") == "left" ? "right" : "left";
        if (back is null) return Fixing.One(Fixing.AddLine(other.Fact, $"handed {opposite} other {unit.Name}"));
        if (spec.Evaluator.Thing(back, "other")?.Name != unit.Name) return [Fixing.Write(spec, back, "other", unit.Name)];
        return back.Word("hand") == handed.Word("hand") ? [Fixing.Write(spec, back, "hand", opposite), Fixing.Write(spec, handed, "hand", opposite)] : [];
    }

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        var e = input.Spec.Evaluator;
        var units = input.Structure.Materials.OfType<UnitMaterial>().ToDictionary(u => u.Name, StringComparer.Ordinal);
        foreach (var unit in units.Values.OrderBy(u => u.Name, StringComparer.Ordinal))
        {
            if (unit.Fact.Find("handed") is not { } handed || e.Thing(handed, "other") is not { Name: { } name } || !units.TryGetValue(name, out var other)) continue;
            var back = other.Fact.Find("handed");
            string? why = back is null ? $"{name} states no hand"
                : e.Thing(back, "other")?.Name != unit.Name ? $"{name} names {e.Thing(back, "other")?.Name} as its mirror"
                : back.Word("hand") == handed.Word("hand") ? $"both are {handed.Word("hand")}"
                : Math.Abs(unit.CutOutWidth - other.CutOutWidth) > 0.01 || Math.Abs(unit.CutOutHeight - other.CutOutHeight) > 0.01 ? "they ask for unlike holes" : null;
            // A pair that disagrees is told at the first of its names.
            if (why is not null && (string.CompareOrdinal(unit.Name, name) < 0 || back is null || e.Thing(back, "other")?.Name != unit.Name))
                yield return new Finding(Info, $"{unit.Name} names {name} as its mirror, and {why}.", handed.Span) { Subject = unit.Name, Related = [new Related(other.Fact.NameSpan, "the other one")], Fixes = [.. Paired(input.Spec, unit, handed, other, back)] };
        }
    }
}
