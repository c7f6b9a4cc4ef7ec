using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Geometry.Kernel;

namespace Wain.Core.Checks;

/// <summary>Loads lie over the camper or what carries it.</summary>
public static class LoadsAboard
{
    private static readonly string Text = Examples.Materials + """

        panel deck of deck_stack { through (0 in, 20 in, 0 in) along (0 in, -20 in, 0 in) up (-70 in, 20 in, 0 in) }
        carrier truck {
            kind bed
            bed 73 in by 54 in, depth 20 in
            wheelbase 128 in
            front_axle at 92 in
        }
        load water {
            weighs 90 lb
            at PLACE
        }
        """;

    public static readonly FindingInfo Info = new("WN4410", "load-beyond-camper", Level.Warning, "A load lies beyond the camper and what carries it",
        "Its centre hangs over nothing: a sign or a unit of its place is a slip, and with it every axle load and the centre of gravity. Where something does stand out so far, on a rack behind say, accept the finding and say why.",
        Text.With("PLACE", "(-300 in, 0 in, 12 in)"), Text.With("PLACE", "(-30 in, 0 in, 12 in)"));

    public static readonly FindingInfo Never = new("WN4411", "load-never-aboard", Level.Warning, "A load is aboard in no state",
        "What a load says of its states takes the place of what holds otherwise: it is aboard in those alone, and as full as is said there. One that is empty in each of them weighs nothing anywhere.",
        Text.With("PLACE", "(-30 in, 0 in, 12 in)\n    when dry 0 %"), Text.With("PLACE", "(-30 in, 0 in, 12 in)\n    when ready\n    when camped"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        foreach (var load in input.Spec.All("load").Where(l => l.Name is not null).OrderBy(l => l.Name, StringComparer.Ordinal))
        {
            var states = load.All("when").ToList();
            if (states.Count > 0 && states.All(s => s.Has("share") && input.Spec.Evaluator.Number(s, "share") is { } share && share <= 0))
                yield return new Finding(Never, $"{load.Name} is aboard in no state: it is {(states.Count > 1 ? "empty in all that it states" : "stated for one alone, and empty there")}.", states[0].HeadSpan)
                {
                    Subject = load.Name!,
                    Hint = "A state that it says nothing of does not have it aboard: write a line for each that does, such as when ready and when camped.",
                };
        }
        if (Reach(input) is not { } reach) yield break;
        bool carried = input.Spec.All("carrier").Any();
        foreach (var load in input.Spec.All("load").Where(l => l.Name is not null).OrderBy(l => l.Name, StringComparer.Ordinal))
        {
            if (load.Find("at") is not { } at || input.Spec.Evaluator.Place(at, "at") is not { } place) continue;
            var (by, where) = new[]
            {
                (reach.Min.X - place[0], "behind"), (place[0] - reach.Max.X, "ahead of"), (place[1] - reach.Max.Y, "to the left of"), (reach.Min.Y - place[1], "to the right of"),
            }.MaxBy(b => b.Item1);
            if (by < 1) continue;
            yield return new Finding(Info, $"The centre of {load.Name} lies {input.Say.Nearly(by)} {where} the camper{(carried ? " and what carries it" : "")}.", at.Span)
            {
                Subject = load.Name!,
                Hint = "Look at the sign and the unit of its place: x runs forward and y to the left, from the centre line at the front edge of the bed floor.",
            };
        }
    }

    // Seen from above: all panels as they stand, and of a carrier its bed, its cab and what lies between them and the front axle. Null before there is a panel.
    private static Box2? Reach(CheckInput input)
    {
        if (input.Clearance.Bodies.IsEmpty) return null;
        var e = input.Spec.Evaluator;
        var boxes = input.Clearance.Bodies.Select(b => new Box2(new(b.Around.Min.X, b.Around.Min.Y), new(b.Around.Max.X, b.Around.Max.Y))).ToList();
        foreach (var carrier in input.Spec.All("carrier"))
        {
            double Of(string fact, string slot) => carrier.Find(fact) is { } f && f.Has(slot) ? e.Length(f, slot) ?? 0 : 0;
            void Add(double rear, double front, double width) => boxes.Add(new Box2(new(rear, -width / 2), new(Math.Max(rear, front), width / 2)));
            Add(-Of("bed", "length"), Of("front_axle", "x"), Of("bed", "width"));
            Add(0, Of("cab", "rear") + Of("cab", "length"), Of("cab", "width"));
        }
        return boxes.Aggregate((a, b) => a.Union(b));
    }
}
