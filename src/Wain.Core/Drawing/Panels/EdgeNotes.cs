using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Framing;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;

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
            var parts = Joints(structure, panel, i, options).Concat(Saw(panel, i, options)).Concat(Worked(structure, panel, i, options)).Concat(Stepped(structure, panel, i, options)).ToList();
            if (parts.Count == 0) continue;
            string tag = Text.Letters.Of(notes.Count, 'A');
            string name = panel.Outline.Edges[i].Name is { Length: > 0 } n ? " " + n.Replace('_', ' ') : "";
            notes.Add(new(tag, i, $"{tag}{name}: {string.Join("; ", parts)}."));
        }
        return notes.ToImmutable();
    }

    private static IEnumerable<string> Joints(Structure structure, PlacedPanel panel, int edge, DrawingOptions options)
    {
        foreach (var joint in structure.Joints)
        {
            bool first = joint.First.Panel == panel && joint.First.Edge == edge, second = joint.Second.Panel == panel && joint.Second.Edge == edge;
            if (!first && !second) continue;
            var other = first ? joint.Second : joint.First;
            // What stays apart is no butt; the gap is what a builder looks for.
            if (joint.Gap > 0.5 && joint.Fact.Find("gap") is not null)
            {
                yield return $"gap of {options.Fine(joint.Gap)} to {other.Panel.Name}.{other.Name}{(joint.Fact.Find("seal") is { } seal && structure.Spec.Evaluator.Thing(seal, "seal")?.Name is { } name ? $", {SheetWords.Spoken(name)}" : "")}";
                continue;
            }
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
            yield return FormattableString.Invariant($"saw square (true {cut.Setting.Tilt * 180 / Math.PI:0.00}\u00B0 from it{Off(cut.Error, "side")})");
            yield break;
        }
        string hold = cut.Setting.WorkOnEdge ? ", work on edge against a tall fence" : "";
        yield return FormattableString.Invariant($"saw at {LengthText.OfAngle(cut.Setting.Tilt)}{hold} (true {cut.Setting.Tilt * 180 / Math.PI:0.00}\u00B0{Off(cut.Error, "side")})");
        string longest = options.Length(cut.Size.Blank), shortest = options.Length(cut.Size.Short);
        yield return $"long point on the {(cut.Tilt > 0 ? "inside" : "outside")}: {longest} long{(longest == shortest ? "" : $", {shortest} short")}";
        if (cut.Compound is { } compound)
            yield return FormattableString.Invariant($"compound: {cut.MitreWords}{Off(cut.MitreError, "end")}, bevel {LengthText.OfAngle(compound.Bevel)}");

        // Nothing to tell where the saw's scale has the angle itself.
        string Off(double error, string far) => options.Error(error) == options.Error(0) ? "" : $", {options.Error(error)} off at the far {far}";
    }

    private static IEnumerable<string> Stepped(Structure structure, PlacedPanel panel, int edge, DrawingOptions options)
    {
        foreach (var step in PanelStep.Of(structure, panel))
            if (step.What != "rabbet" && Wide(panel, step, edge) is { } width) yield return $"step {Size(step, width, options)}";
    }

    /// <summary>Steps cut into a face, away from every edge: what another panel stands in.</summary>
    public static IEnumerable<string> OnFaces(Structure structure, PlacedPanel panel, DrawingOptions options)
    {
        foreach (var step in PanelStep.Of(structure, panel)) if (IsOnFace(panel, step)) yield return $"Step {Size(step, Narrow(panel, step), options)}.";
    }

    /// <summary>What a joint cuts into one of its panels.</summary>
    public static IEnumerable<string> Of(Structure structure, PlacedJoint joint, PlacedPanel panel, DrawingOptions options) =>
        JointSteps.Of(structure.Spec, joint, panel).Select(step => $"{panel.Name}: step {Size(step, Narrow(panel, step), options)}");

    // The narrower way across a step, along one of its sides.
    private static double Narrow(PlacedPanel panel, PanelStep step) =>
        step.Edge is not null ? step.Width : step.Taken(panel.Outline).SelectMany(r => r.Segments.Select(s => Across(r, s.Chord.Unit.Left))).DefaultIfEmpty().Min();

    /// <summary>The edges that have a step in their notes.</summary>
    public static IEnumerable<int> EdgesOf(PlacedPanel panel, PanelStep step) => Enumerable.Range(0, panel.Outline.Count).Where(e => Wide(panel, step, e) is not null);

    private static bool IsOnFace(PlacedPanel panel, PanelStep step) => !EdgesOf(panel, step).Any();

    private static string Size(PanelStep step, double width, DrawingOptions options) =>
        $"{options.Length(width)} wide, {options.Length(step.Depth)} deep from the {(step.FromOutside ? "outside" : "inside")} ({step.What})";

    // From an edge into the panel; null of a step that does not run along it but into the face from it, as a groove does that begins there.
    private static double? Wide(PlacedPanel panel, PanelStep step, int edge)
    {
        if (step.Edge is { } own) return own == edge ? step.Width : null;
        var line = panel.Outline.Segment(edge);
        var along = line.Chord.Unit;
        foreach (var region in step.Taken(panel.Outline))
        {
            double width = Across(region, along.Left);
            if (width < line.Length / 2 && region.Segments.Any(s => Math.Abs(s.Chord.Unit.Cross(along)) < 1e-3 && Math.Abs((s.At(0.5) - line.From).Dot(along.Left)) < 0.1 && s.Length > Math.Max(1, width))) return width;
        }
        return null;
    }

    private static double Across(Outline region, Vec2 direction) => region.Edges.Max(e => e.Start.Dot(direction)) - region.Edges.Min(e => e.Start.Dot(direction));

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
                string Size(string slot) => e.Length(fact, slot) is { } mm ? options.Length(mm) : "?";
                yield return keyword switch
                {
                    "rabbet" => $"rabbet {Size("width")} wide, {Size("depth")} deep from the {fact.Word("face") ?? "outside"}{(fact.Has("start") ? $", over {Size("start")} to {Size("end")} {From(panel, edge, fact)}" : "")}",
                    "lip" => $"skin reaches {Size("width")} past the frame",
                    "rounded" => $"rounded over, radius {Size("radius")}",
                    _ => fact.Has("value") ? $"cut {Size("value")} large, trim flush after glueing" : "trim flush after glueing",
                };
            }
        }
    }

    // A rounded corner is no part of the edge that it ends.
    private static string From(PlacedPanel panel, int edge, BoundFact fact)
    {
        var line = panel.Outline.Segment(edge);
        bool level = Math.Abs(line.Chord.X) > 1e-6, atRight = level && PanelFacts.IsTurnedRound(panel, fact), atStart = (level ? line.Chord.X > 0 : line.Chord.Y > 0) != atRight;
        int beside = (edge + (atStart ? -1 : 1) + panel.Outline.Count) % panel.Outline.Count;
        return $"from its {(!level ? "lower" : atRight ? "right" : "left")} end{(panel.Outline.Segment(beside).IsArc ? ", where the round begins" : "")}";
    }
}
