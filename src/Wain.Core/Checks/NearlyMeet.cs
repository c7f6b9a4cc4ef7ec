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

    public static readonly FindingInfo Info = new("WN4310", "panels-nearly-meet", Level.Warning, "Two panels nearly meet",
        "A gap of a hair is most often a slip: an edge measured to the wrong face, or a level typed where a face was meant. Run the panel to the other's face, or state a joint with its gap.",
        Examples.Post("1/16 in"), Examples.Post("0 in"));

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
                var (least, at) = bodies[a].Nearest(bodies[b], Near);
                // Parts of an arc are flat within a twentieth of a millimetre.
                if (least > 0.1 && least < Near) yield return (a, b, least, at);
            }
    }
}
