using System.Collections.Immutable;
using Wain.Core.Clearance;
using Wain.Core.Findings;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>A panel that touches no other and has no joint hangs in the air: it was placed where it was not meant.</summary>
public static class TouchesNothing
{
    // 1 ft: what is nearer was most likely meant to touch, and is told to the hair.
    private const double Close = 304.8;

    public static readonly FindingInfo Info = new("WN4312", "panel-touches-nothing", Level.Warning, "A panel touches no other",
        "Nothing holds a panel that stands free of all others: most often a number in its place is a slip. What hangs on hardware has a joint that says so, with its gap; what rises is held by its lift.",
        Examples.Post("6 in"), Examples.Post("0 in"));

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
            if (panel.Lift is not null || joined.Contains(panel) || tree.Touching(body.Around.Grown(NearlyMeet.Near)).Any(i => bodies[i].Panel != panel && body.Nearest(bodies[i], NearlyMeet.Near).Distance < NearlyMeet.Near)) continue;
            var (nearest, away, exact) = Nearest(body, bodies, tree);
            yield return new Finding(Info, $"{panel.Name} touches no other panel; {nearest.Name} is nearest, {(exact ? "" : "at least ")}{input.Say.Nearly(away)} away.", panel.Fact.NameSpan)
            {
                Subject = panel.Name,
                Related = [new Related(nearest.Fact.NameSpan, $"{nearest.Name} is here")],
                Hint = "Run it to what holds it. If it hangs on hardware, say so with a joint and its gap.",
                Fixes = exact ? Binding.Fixing.One(Reaching.Meet(input.Spec, panel, nearest, away)) : [],
            };
        }
    }

    // Looked for farther and farther out, and by the boxes round the panels first, since a spec of thousands of loose boards would take all day to compare each with each. From afar the box says enough.
    private static (PlacedPanel Panel, double Away, bool IsExact) Nearest(Body body, ImmutableArray<Body> bodies, BoxTree tree)
    {
        for (double reach = Close; ; reach *= 4)
        {
            var others = tree.Touching(body.Around.Grown(reach)).Where(i => bodies[i].Panel != body.Panel).Order().ToList();
            if (others.Count == 0) continue;
            int nearest = others.MinBy(i => body.Around.DistanceTo(bodies[i].Around));
            double least = body.Around.DistanceTo(bodies[nearest].Around);
            if (least > reach) continue;
            if (least >= Close) return (bodies[nearest].Panel, least, false);
            var (found, away) = others.Select(i => (Index: i, Away: body.Nearest(bodies[i]).Distance)).MinBy(o => o.Away);
            // What lies outside of the reach is farther than it.
            if (away <= reach) return (bodies[found].Panel, away, true);
        }
    }
}
