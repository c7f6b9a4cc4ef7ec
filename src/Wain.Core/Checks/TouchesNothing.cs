using System.Collections.Immutable;
using Wain.Core.Clearance;
using Wain.Core.Findings;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>A panel that touches no other and has no joint hangs in the air: it was placed where it was not meant.</summary>
public static class TouchesNothing
{
    private static readonly string Text = Examples.Materials + """

        panel deck of deck_stack {
            through (0 in, 20 in, 0 in) along (0 in, -20 in, 0 in) up (90 in, 20 in, 0 in)
        }
        panel post of deck_stack {
            spans from (20 in, 10 in) to (40 in, 10 in), standing on deck.top + ABOVE, up to 30 in
        }
        """;

    public static readonly FindingInfo Info = new("WN4312", "panel-touches-nothing", Level.Warning, "A panel touches no other",
        "Nothing holds a panel that stands free of all others: most often a number in its place is a slip. What hangs on hardware has a joint that says so, with its gap; what rises is held by its lift.",
        Text.With("ABOVE", "6 in"), Text.With("ABOVE", "0 in"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        var bodies = input.Clearance.Bodies.Where(b => b.Kind == BodyKind.Panel).ToImmutableArray();
        if (bodies.Length < 2) yield break;
        var joined = input.Structure.Joints.SelectMany(j => new[] { j.First.Panel, j.Second.Panel }).ToHashSet();
        var tree = new BoxTree([.. bodies.Select(b => b.Around)]);
        foreach (var body in bodies)
        {
            var panel = body.Panel;
            // A hair is told as such.
            if (panel.Lift is not null || joined.Contains(panel) || tree.Touching(body.Around.Grown(NearlyMeet.Near)).Any(i => bodies[i].Panel != panel && Distance(body, bodies[i]) < NearlyMeet.Near)) continue;
            var (nearest, away) = bodies.Where(b => b.Panel != panel).Select(b => (b.Panel, Away: Distance(body, b))).MinBy(b => b.Away);
            yield return new Finding(Info, $"{panel.Name} touches no other panel; {nearest.Name} is nearest, {input.Say.Nearly(away)} away.", panel.Fact.NameSpan)
            {
                Subject = panel.Name,
                Related = [new Related(nearest.Fact.NameSpan, $"{nearest.Name} is here")],
                Hint = "Run it to what holds it. If it hangs on hardware, say so with a joint and its gap.",
                Fixes = Binding.Fixing.One(Reaching.Meet(input.Spec, panel, nearest, away)),
            };
        }
    }

    private static double Distance(Body a, Body b)
    {
        double least = double.PositiveInfinity;
        foreach (var p in a.Parts)
            foreach (var q in b.Parts)
                if (p.Bounds.DistanceTo(q.Bounds) < least) least = Math.Min(least, ConvexPair.Nearest(p, q, default).Distance);
        return least;
    }
}
