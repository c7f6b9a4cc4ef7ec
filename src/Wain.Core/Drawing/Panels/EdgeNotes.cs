using System.Collections.Immutable;
using Wain.Core.Framing;
using Wain.Core.Geometry;

namespace Wain.Core.Drawing.Panels;

/// <summary>What is to know of one edge of a panel.</summary>
/// <param name="Tag">The letter that marks it on the drawing.</param>
public sealed record EdgeNote(string Tag, int Edge, string Text);

/// <summary>Joints, saw tilts, steps and trimming of a panel's edges, in words.</summary>
public static class EdgeNotes
{
    /// <summary>Edges in their order, each with a letter; edges of which there is nothing to say have none.</summary>
    public static ImmutableArray<EdgeNote> Of(Structure structure, PlacedPanel panel, DrawingOptions options)
    {
        var notes = ImmutableArray.CreateBuilder<EdgeNote>();
        for (int i = 0; i < panel.Outline.Count; i++)
        {
            var parts = Joints(structure, panel, i).Concat(Saw(panel, i, options)).Concat(Worked(structure, panel, i, options)).Concat(Stepped(structure, panel, i, options)).ToList();
            if (parts.Count == 0) continue;
            string tag = Letter(notes.Count);
            string name = panel.Outline.Edges[i].Name is { Length: > 0 } n ? " " + n.Replace('_', ' ') : "";
            notes.Add(new(tag, i, $"{tag}{name}: {string.Join("; ", parts)}."));
        }
        return notes.ToImmutable();
    }

    /// <summary>A to Z, then AA, AB.</summary>
    private static string Letter(int n) => n < 26 ? ((char)('A' + n)).ToString() : Letter(n / 26 - 1) + Letter(n % 26);

    private static IEnumerable<string> Joints(Structure structure, PlacedPanel panel, int edge)
    {
        foreach (var joint in structure.Joints)
        {
            bool first = joint.First.Panel == panel && joint.First.Edge == edge, second = joint.Second.Panel == panel && joint.Second.Edge == edge;
            if (!first && !second) continue;
            var other = first ? joint.Second : joint.First;
            string role = joint.Kind == JointKind.Mitre || joint.Through is null ? "" : joint.Through == panel ? ", runs through" : ", stops";
            yield return $"{JointWords.Kind(joint)} {(other.IsFace ? "on" : "with")} {other.Panel.Name}.{other.Name}{role}";
        }
    }

    private static IEnumerable<string> Saw(PlacedPanel panel, int edge, DrawingOptions options)
    {
        var cut = JointAngles.Cut(panel, edge);
        if (cut.IsSquare) yield break;
        if (cut.IsSawnSquare)
        {
            yield return FormattableString.Invariant($"saw square (true {cut.Setting.Tilt * 180 / Math.PI:0.00}\u00B0 from it, {cut.Error / 25.4:0.000} in off at the far side)");
            yield break;
        }
        string hold = cut.Setting.WorkOnEdge ? ", work on edge against a tall fence" : "";
        yield return FormattableString.Invariant($"saw at {LengthText.OfAngle(cut.Setting.Tilt)}{hold} (true {cut.Setting.Tilt * 180 / Math.PI:0.00}\u00B0, {cut.Error / 25.4:0.000} in off at the far side)");
        yield return $"long point on the {(cut.Tilt > 0 ? "inside" : "outside")}: {options.Inches(cut.Size.Blank)} long, {options.Inches(cut.Size.Short)} short";
        if (cut.Compound is { } compound)
            yield return FormattableString.Invariant($"compound: {cut.MitreWords} ({cut.MitreError / 25.4:0.000} in off at the far end), bevel {LengthText.OfAngle(compound.Bevel)}");
    }

    private static IEnumerable<string> Stepped(Structure structure, PlacedPanel panel, int edge, DrawingOptions options)
    {
        foreach (var step in PanelStep.Of(structure, panel))
            if (step.Edge == edge && step.What != "rabbet") yield return $"step {options.Inches(step.Width)} wide, {options.Inches(step.Depth)} deep from the {(step.FromOutside ? "outside" : "inside")} for the {step.What}";
    }

    private static IEnumerable<string> Worked(Structure structure, PlacedPanel panel, int edge, DrawingOptions options)
    {
        var e = structure.Spec.Evaluator;
        foreach (string keyword in (string[])["rabbet", "lip", "rounded", "trimmed_flush"])
        {
            foreach (var fact in PanelFacts.All(panel, keyword))
            {
                if (fact.Word("edge") is not { } word) continue;
                if (PanelFacts.IsTurnedRound(panel, fact)) word = PanelFacts.OtherHand(word);
                if (!PanelFacts.Edges(panel.Outline, word).Contains(edge)) continue;
                string Size(string slot) => e.Length(fact, slot) is { } mm ? options.Inches(mm) : "?";
                yield return keyword switch
                {
                    "rabbet" => $"rabbet {Size("width")} wide, {Size("depth")} deep from the {fact.Word("face") ?? "outside"}{(fact.Has("start") ? $", over {Size("start")} to {Size("end")} from its {(PanelFacts.IsTurnedRound(panel, fact) && Math.Abs(panel.Outline.Segment(edge).Chord.X) > 1e-6 ? "right" : Math.Abs(panel.Outline.Segment(edge).Chord.X) > 1e-6 ? "left" : "lower")} end" : "")}",
                    "lip" => $"skin reaches {Size("width")} past the frame",
                    "rounded" => $"rounded over, radius {Size("radius")}",
                    _ => fact.Has("value") ? $"cut {Size("value")} large, trim flush after glueing" : "trim flush after glueing",
                };
            }
        }
    }
}
