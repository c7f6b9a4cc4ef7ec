using System.Collections.Immutable;
using Wain.Core.Clearance;
using Wain.Core.Findings;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>Two panels that bear on each other and have no joint: what holds them is in no list.</summary>
public static class MeetUnjoined
{
    // Parts of an arc are flat within a twentieth of a millimetre.
    private const double Touching = 0.1;

    // What is smaller than this (mm) both ways is a corner that passes another, and nothing to glue.
    private const double Least = 5;

    public static readonly FindingInfo Info = new("WN4316", "panels-meet-without-joint", Level.Note, "Two panels meet and no joint holds them",
        "A joint brings its glue, screws and fillets into the lists, its hours into the order of work and its strength into the cases. Where none is stated nothing is counted, as if the panels only stood side by side.",
        Examples.Post("0 in"), Examples.Post("0 in") + "\nadhesive glue { spread 200 g/m2 }\njoint post.bottom to deck.outside {\n    butt\n    glue glue\n}\n");

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        var bodies = input.Clearance.Bodies.Where(b => b.Kind == BodyKind.Panel).ToImmutableArray();
        var joined = input.Structure.Joints.SelectMany(j => new[] { (j.First.Panel.Name, j.Second.Panel.Name), (j.Second.Panel.Name, j.First.Panel.Name) }).ToHashSet();
        var clashing = input.Clearance.Clashes.SelectMany(c => new[] { (c.First.Name, c.Second.Name), (c.Second.Name, c.First.Name) }).ToHashSet();
        var tree = new BoxTree([.. bodies.Select(b => b.Around)]);
        for (int a = 0; a < bodies.Length; a++)
            foreach (int b in tree.Touching(bodies[a].Around.Grown(Touching)).Where(b => b > a).Order())
            {
                var (first, second) = (bodies[a].Panel, bodies[b].Panel);
                // What moves bears on what stands by its seal, and panels that pass through each other are told as such.
                if (first.Lift != second.Lift || joined.Contains((first.Name, second.Name)) || clashing.Contains((first.Name, second.Name)) || !Bear(bodies[a], bodies[b])) continue;
                yield return new Finding(Info, $"{first.Name} and {second.Name} meet, and no joint says what holds them.", second.Fact.NameSpan)
                {
                    Subject = second.Name,
                    Related = [new Related(first.Fact.NameSpan, $"{first.Name} is here")],
                    Hint = "State a joint between them, butt, lap or mitre, with what it is held by; no glue, screw or hour is counted there.",
                };
            }
    }

    private static bool Bear(Body a, Body b)
    {
        foreach (var p in a.Parts)
            foreach (var q in b.Parts)
            {
                var (low, high) = (Larger(p.Bounds.Min, q.Bounds.Min), Smaller(p.Bounds.Max, q.Bounds.Max));
                int wide = (high.X - low.X > Least ? 1 : 0) + (high.Y - low.Y > Least ? 1 : 0) + (high.Z - low.Z > Least ? 1 : 0);
                if (wide >= 2 && Math.Min(high.X - low.X, Math.Min(high.Y - low.Y, high.Z - low.Z)) > -Touching && ConvexPair.Nearest(p, q, default).Distance < Touching) return true;
            }
        return false;
    }

    private static Vec3 Larger(Vec3 a, Vec3 b) => new(Math.Max(a.X, b.X), Math.Max(a.Y, b.Y), Math.Max(a.Z, b.Z));

    private static Vec3 Smaller(Vec3 a, Vec3 b) => new(Math.Min(a.X, b.X), Math.Min(a.Y, b.Y), Math.Min(a.Z, b.Z));
}
