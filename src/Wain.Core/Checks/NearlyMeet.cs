using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Clearance;
using Wain.Core.Findings;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>Two panels that stand a hair apart and have no joint: they were meant to meet.</summary>
public static class NearlyMeet
{
    /// <summary>1/8 in: nearer than this nobody leaves a gap on purpose without saying so.</summary>
    public const double Near = 25.4 / 8;

    private static readonly string Text = Examples.Materials + """

        panel deck of deck_stack {
            through (0 in, 20 in, 0 in) along (0 in, -20 in, 0 in) up (90 in, 20 in, 0 in)
        }
        panel post of deck_stack {
            spans from (20 in, 10 in) to (40 in, 10 in), standing on deck.top + ABOVE, up to 30 in
        }
        """;

    public static readonly FindingInfo Info = new("WN4310", "panels-nearly-meet", Level.Warning, "Two panels nearly meet",
        "A gap of a hair is most often a slip: an edge measured to the wrong face, or a level typed where a face was meant. Run the panel to the other's face, or state a joint with its gap.",
        Text.With("ABOVE", "1/16 in"), Text.With("ABOVE", "0 in"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        var bodies = input.Clearance.Bodies.Where(b => b.Kind == BodyKind.Panel).ToImmutableArray();
        var joined = input.Structure.Joints.SelectMany(j => new[] { (j.First.Panel.Name, j.Second.Panel.Name), (j.Second.Panel.Name, j.First.Panel.Name) }).ToHashSet();
        foreach (var (a, b, distance, at) in Pairs(bodies))
        {
            var (first, second) = (bodies[a].Panel, bodies[b].Panel);
            // A gap between what moves and what stands is the lift's to state.
            if (first.Lift != second.Lift || joined.Contains((first.Name, second.Name))) continue;
            yield return new Finding(Info, $"{first.Name} and {second.Name} are {input.Say.Nearly(distance)} apart, {input.Say.In(at)}, and have no joint.", second.Fact.NameSpan)
            {
                Subject = second.Name,
                Related = [new Related(first.Fact.NameSpan, $"{first.Name} is here")],
                Hint = $"Move one of them by {input.Say.Nearly(distance)}, or say that the gap is meant: gap at most {input.Say.Such("1/8 in", "3 mm")}",
                Fixes = Fixing.One(Reaching.Meet(input.Spec, first, second, distance)),
            };
        }
    }

    private static IEnumerable<(int A, int B, double Distance, Vec3 At)> Pairs(ImmutableArray<Body> bodies)
    {
        var tree = new BoxTree([.. bodies.Select(b => b.Around)]);
        for (int a = 0; a < bodies.Length; a++)
            foreach (int b in tree.Touching(bodies[a].Around.Grown(Near)).Where(b => b > a).Order())
            {
                double least = double.PositiveInfinity;
                Vec3 at = default;
                foreach (var p in bodies[a].Parts)
                    foreach (var q in bodies[b].Parts)
                    {
                        if (p.Bounds.DistanceTo(q.Bounds) >= Math.Min(least, Near)) continue;
                        var nearest = ConvexPair.Nearest(p, q, default);
                        if (nearest.Distance < least) (least, at) = (nearest.Distance, nearest.OnStanding);
                    }
                // Parts of an arc are flat within a twentieth of a millimetre.
                if (least > 0.1 && least < Near) yield return (a, b, least, at);
            }
    }
}
