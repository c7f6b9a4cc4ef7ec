using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>Height to stand in when raised.</summary>
public static class LiftRoom
{
    private static readonly string Text = Examples.Materials + """

        panel deck of deck_stack {
            through (0 in, 20 in, 0 in) along (0 in, -20 in, 0 in) up (90 in, 20 in, 0 in)
        }
        panel roof of deck_stack {
            through (0 in, 20 in, 50 in) along (0 in, -20 in, 50 in) up (90 in, 20 in, 52 in)
        }
        lift top_lift {
            carries { roof }
            travel TRAVEL
            headroom at least 72 in
        }
        """;

    public static readonly FindingInfo Info = new("WN4307", "headroom-small", Level.Error, "There is less headroom than stated when raised",
        "It is measured from the floor to the lowest point of the roof's underside above it, with the lift at the end of its travel.",
        Text.With("TRAVEL", "18 in"), Text.With("TRAVEL", "24 in"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        foreach (var lift in input.Clearance.Lifts)
        {
            var fact = lift.Lift.Fact;
            if (fact.Find("headroom") is not { } stated || input.Spec.Evaluator.Bounds(stated, "range")?.Low?.Millimetres is not { } least || lift.Headroom is not { } room || room.Height >= least - 0.01) continue;
            double travel = lift.Lift.Travel + least - room.Height;
            yield return new Finding(Info, $"Raised, {room.Roof.Name} is {input.Say.Nearly(room.Height)} over {room.Floor.Name}; {input.Say.Length(least)} is asked for.", stated.HeadSpan)
            {
                Subject = fact.Name!,
                Hint = $"{input.Say.AtLeast(least - room.Height)} more {(lift.Lift.Hinge is null ? "travel" : "height at the hinge")} or higher walls.",
                Fixes = fact.Find("travel") is { } stroke ? [Fixing.Write(input.Spec, stroke, "value", input.Say.AtLeast(travel))] : [],
            };
        }
    }
}
