using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Geometry;

namespace Wain.Core.Checks;

/// <summary>A joint says what holds it, or that nothing does.</summary>
public static class JointHeld
{
    private const string Text = """
        sheet ply {
            thickness 12 mm
            size 48 in by 96 in
        }
        adhesive wood_glue {
            spread 200 g/m2
            density 1.1 g/cm3
        }
        stack board { sheet ply }
        plan body {
            start at (0 in, 20 in)
            leg left_side run 80 in
            leg front across 40 in
            leg right_side mirror of left_side
            leg rear home, across 40 in
        }
        panel deck of board { covers plan body, top at 0 in }
        panel front_wall of board { stands on body.front, from deck.top to 40 in }
        panel rear_wall of board { stands on body.rear, from deck.top to 40 in }
        joint front_wall.bottom to deck.top {
            butt
            glue wood_glue
        }
        joint rear_wall.bottom to deck.top {
            butt
        GLUE}

        """;

    public static readonly FindingInfo Info = new("WN4006", "joint-unheld", Level.Warning, "A joint has neither glue nor screws",
        "What a joint does not state is not bought, not weighed, not in the order of work and not counted for strength, so a forgotten line comes to light when the clamps are already on. One that comes apart says unglued; one that stays open states its gap or its seal. A spec whose joints state no fastening at all is a first sketch: then it is one note.",
        Text.With("GLUE", ""), Text.With("GLUE", "    glue wood_glue\n"));

    /// <summary>What holds by itself or with others. Sealant and trim close a joint and hold nothing.</summary>
    private static readonly ImmutableArray<string> Holding = ["glue", "screws", "fillet", "taped", "hardware", "gusset"];

    /// <summary>What says that nothing should.</summary>
    private static readonly ImmutableArray<string> Open = ["unglued", "gap", "seal"];

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        var joints = input.Structure.Joints.Where(j => !j.Mirrored).ToList();
        var bare = joints.Where(j => j.First.Panel.Lift == j.Second.Panel.Lift && !States(j, Holding) && !States(j, Open)).ToList();
        if (bare.Count == 0) yield break;
        if (bare.Count > 1 && !joints.Exists(j => States(j, Holding)))
        {
            yield return new Finding(Info, $"None of the {bare.Count} joints says what holds it: glue and screws are neither bought nor weighed nor counted for strength.", bare[0].Fact.HeadSpan)
            {
                Level = Level.Note, Subject = "joints", Hint = "In each, state its glue or screws. One that comes apart says unglued.",
            };
            yield break;
        }
        string? glue = Glue(input, joints);
        foreach (var joint in bare)
            yield return new Finding(Info, $"Joint {joint.Name} has neither glue nor screws, so nothing holds it.", joint.Fact.HeadSpan)
            {
                Level = joints.Count == 1 ? Level.Note : Level.Warning,
                Subject = joint.Name,
                Hint = $"Say what holds it{(glue is null ? "" : $", such as glue {glue}")}. If it is to come apart, say unglued; if it is to stay open, state its gap.",
                Fixes = glue is null ? [] : Fixing.One(Fixing.AddLine(joint.Fact, $"glue {glue}")),
            };
    }

    /// <summary>The glue of most other joints, or the only adhesive that the spec has.</summary>
    private static string? Glue(CheckInput input, List<PlacedJoint> joints)
    {
        var used = joints.Select(j => j.Fact.Find("glue") is { } glue ? input.Spec.Evaluator.Thing(glue, "glue")?.Name : null).OfType<string>().GroupBy(n => n, StringComparer.Ordinal).MaxBy(g => g.Count());
        if (used is not null) return used.Key;
        var own = input.Spec.All("adhesive").Where(a => a.Span.Source == input.Spec.Main).ToList();
        return own.Count == 1 ? own[0].Name : null;
    }

    // Asked without counting as a reader: that a joint has a line is no use of what the line says.
    private static bool States(PlacedJoint joint, ImmutableArray<string> keywords)
    {
        foreach (var fact in joint.Fact.Body) if (keywords.Contains(fact.Keyword)) return true;
        return false;
    }
}
