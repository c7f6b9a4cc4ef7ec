using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Framing;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Model;
using Wain.Core.Pieces;

namespace Wain.Core.Drawing.Panels;

/// <summary>What is drawn of a panel, seen from outside or, mirrored, from inside.</summary>
internal sealed record PanelSketch(Design Design, PlacedPanel Panel, DrawingOptions Options, bool Inside)
{
    private Outline Face { get; } = Inside ? Panel.OutlineAt(Panel.Thickness) : Panel.Outline;

    public bool IsInside => Inside;

    public ImmutableArray<Member> Members { get; } = [.. Design.Frames.Of(Panel).SelectMany(f => f.Members)];

    public Box Extent { get; } = (Panel.Outline.Bounds, Panel.OutlineAt(Panel.Thickness).Bounds) is var (a, b) && Inside
        ? new(b.Min.X, b.Min.Y, b.Max.X, b.Max.Y)
        : new(a.Min.X, a.Min.Y, a.Max.X, a.Max.Y);

    public static bool HasInsideSkin(PlacedPanel panel) => panel.Stack.Layers.SkipWhile(l => l.Kind is not (LayerKind.Frame or LayerKind.Foam)).Any(l => l.Kind == LayerKind.Sheet);

    public bool IsUpright(Member m) => Math.Abs(m.CentreLine.Chord.Unit.Y) > 0.95;

    private IEnumerable<Splice> Splices => Design.Pieces.Splices.Where(s => s.Panel == Panel && OnThisFace(s.Layer));

    /// <summary>The layers above the frame belong to the outside skin, those below to the inside skin; a panel without a core has only an outside.</summary>
    private bool OnThisFace(StackLayer layer)
    {
        int core = Panel.Stack.Layers.ToList().FindIndex(l => l.Kind is LayerKind.Frame or LayerKind.Foam), at = Panel.Stack.Layers.IndexOf(layer);
        return core < 0 || at < 0 ? !Inside : at > core == Inside;
    }

    private bool Shows(PlacedZone zone) => zone.Added
        ? Inside == (zone.Offset >= Panel.Thickness - 1e-6)
        : !Inside || zone.Offset + zone.Stack.Thickness < Panel.Thickness - 1e-6 || zone.Stack.Name != Panel.Stack.Name;

    /// <summary>What lies behind the face, and centre lines: all that a mark may break.</summary>
    public IEnumerable<Mark> Behind(View view)
    {
        foreach (var member in Members) yield return new PathMark(Contour.Of(member.Outline).Map(view), Pen.Hidden);
        foreach (var opening in Panel.Openings)
        {
            var b = opening.Hole.Bounds;
            var (centre, reach) = (b.Centre, 3 * view.Scale);
            Contour[] lines = [Contour.Line(new(b.Min.X - reach, centre.Y), new(b.Max.X + reach, centre.Y)), Contour.Line(new(centre.X, b.Min.Y - reach), new(centre.X, b.Max.Y + reach))];
            yield return new PathMark([.. lines.Select(c => c.Map(view))], new(LineType.LongDashDot, 0.18));
        }
    }

    /// <summary>Lines that a mark must not cover.</summary>
    public (Vec2 A, Vec2 B)[] HardLines(View view) => [.. Front(view).OfType<PathMark>().SelectMany(m => m.Contours).SelectMany(c => c.Flatten() is var p ? p.Zip(p.Skip(1)) : [])];

    /// <summary>Joints and what is told of them stand on the sheet of their face; a panel without an inside skin has both on one.</summary>
    private bool IsOnThisFace(JointSide side) => side.IsInside == Inside || !HasInsideSkin(Panel);

    private IEnumerable<Footprint> Feet => Footprint.Of(Design.Structure, Panel, IsOnThisFace);

    /// <summary>The face itself.</summary>
    public IEnumerable<Mark> Front(View view)
    {
        PathMark Path(Outline o, Pen pen) => new(Contour.Of(o).Map(view), pen);
        yield return Path(Face, Pen.Outline);
        // The edge of the other face, where bevels make it stand back or reach out.
        var other = Inside ? Panel.Outline : Panel.OutlineAt(Panel.Thickness);
        if (Panel.Outline.Edges.Any(e => Math.Abs(e.Tilt) > JointAngles.SquareWithin)) yield return Path(other, Pen.Hidden);
        foreach (var zone in Panel.Zones) yield return Path(zone.Region, Shows(zone) ? Pen.Edge : Pen.Hidden);
        foreach (var opening in Panel.Openings)
        {
            if (opening.Recess is { } recess) yield return Path(recess.Region, recess.FromOutside == !Inside ? Pen.Edge : Pen.Hidden);
            yield return Path(opening.Hole, Pen.Outline);
        }
        foreach (var foot in Feet) yield return Path(foot.Region, Pen.Alternate);
        foreach (var (line, step) in Steps()) yield return new PathMark(new Contour([line], false).Map(view), step.FromOutside == !Inside ? Pen.Edge : Pen.Hidden);
        foreach (var (lines, _) in SpliceLines()) yield return new PathMark([.. lines.Select(l => new Contour([l], false).Map(view))], Pen.Edge);
    }

    /// <summary>Lines of the steps where they end within the face, each with its step.</summary>
    private IEnumerable<(Segment Line, PanelStep Step)> Steps()
    {
        foreach (var step in PanelStep.Of(Design.Structure, Panel))
            foreach (var region in step.Taken(Panel.Outline))
                for (int i = 0; i < region.Count; i++)
                    if (region.Segment(i) is var side && Panel.Outline.DistanceToEdges(side.At(0.5)) > 0.1) yield return (side, step);
    }

    /// <summary>Each splice where it crosses the face, openings left out.</summary>
    private IEnumerable<(ImmutableArray<Segment> Lines, Splice Splice)> SpliceLines()
    {
        var b = Panel.Outline.Bounds;
        foreach (var splice in Splices)
        {
            double at = (splice.AlongU ? b.Min.X : b.Min.Y) + splice.At;
            ImmutableArray<Segment> lines = [.. Cross([Face, .. Panel.Openings.Select(o => o.Hole)], splice.AlongU, at)];
            if (lines.Length > 0) yield return (lines, splice);
        }
    }

    /// <summary>The stretches of an upright (or level) line inside an outline and outside of the holes in it.</summary>
    private static IEnumerable<Segment> Cross(IEnumerable<Outline> outlines, bool upright, double at)
    {
        var hits = outlines.SelectMany(o => o.Flattened(0.1).Segments).Select(s => upright ? s : new Segment(new(s.From.Y, s.From.X), new(s.To.Y, s.To.X)))
            .Where(s => s.From.X > at != s.To.X > at).Select(s => s.From.Y + (at - s.From.X) / (s.To.X - s.From.X) * (s.To.Y - s.From.Y)).Order().ToList();
        for (int i = 0; i + 1 < hits.Count; i += 2) yield return upright ? new(new(at, hits[i]), new(at, hits[i + 1])) : new(new(hits[i], at), new(hits[i + 1], at));
    }

    /// <summary>True of an opening whose unit states its hole in the other unit.</summary>
    public static bool IsInOther(Spec spec, PlacedOpening opening, DrawingOptions options) => SheetWords.InOtherUnit(spec, opening.Unit?.Fact.Find("cut_out"), "width", options);

    public PanelRuns Runs(View view)
    {
        var runs = new PanelRuns(view, Extent, Options);
        runs.Corners(Face);
        foreach (var opening in Panel.Openings)
        {
            runs.Bounds(opening.Hole.Bounds, IsInOther(Design.Spec, opening, Options) ? Options.Both : Options.Plain);
            if (opening.Recess is { } recess) runs.Bounds(recess.Region.Bounds, Options.Plain);
        }
        foreach (var zone in Panel.Zones) runs.Bounds(zone.Region.Bounds, Options.Plain);
        // How far a step goes in from its edge is told by the edge's note; its ends, and one within the face, by the sides that run square to a dimension.
        foreach (var (line, _) in Steps().Where(s => !EdgeNotes.EdgesOf(Panel, s.Step).Any(e => Math.Abs(Panel.Outline.Segment(e).Chord.Unit.Cross(s.Line.Chord.Unit)) < 1e-3)))
        {
            if (Math.Abs(line.Chord.Unit.X) < 1e-3) runs.AlongX(line.From.X, Math.Min(line.From.Y, line.To.Y));
            else if (Math.Abs(line.Chord.Unit.Y) < 1e-3) runs.AlongY(line.From.Y, Inside ? Math.Max(line.From.X, line.To.X) : Math.Min(line.From.X, line.To.X));
        }
        foreach (var (lines, splice) in SpliceLines())
        {
            if (splice.AlongU) runs.AlongX(lines[0].From.X, lines[0].From.Y);
            else runs.AlongY(lines[0].From.Y, Inside ? lines[^1].To.X : lines[0].From.X);
        }
        foreach (var foot in Feet) foot.Measure(runs, Extent, Inside);
        foreach (var member in Members.Where(m => IsUpright(m) && m.Role != MemberRole.Stile)) runs.Above(member.CentreLine.At(0.5).X, Math.Max(member.CentreLine.From.Y, member.CentreLine.To.Y));
        return runs;
    }

    /// <summary>Letters at the edges that have notes.</summary>
    public void Tag(LabelSpace space, View view)
    {
        foreach (var note in EdgeNotes.Of(Design.Structure, Panel, Options))
        {
            var edge = Panel.Outline.Segment(note.Edge);
            var from = view.ToPaper(edge.At(0.5));
            var inward = view.ToPaper(edge.At(0.5) + edge.Tangent(0.5).Left) - from;
            space.Tag(note.Tag, from, inward.Unit, inward.Unit.Left);
        }
    }

    /// <summary>Names of openings, zones and splices.</summary>
    public void Name(LabelSpace space, View view)
    {
        Box Paper(Outline o) => o.Bounds is var b ? view.ToPaper(new Box(b.Min.X, b.Min.Y, b.Max.X, b.Max.Y)) : default;
        foreach (var opening in Panel.Openings)
        {
            string corner = opening.Corner > 0 ? $", R {Options.Length(opening.Corner)}" : "";
            string size = $"{Options.Length(opening.Width)} by {Options.Length(opening.Height)}{corner}";
            string name = SheetWords.Spoken(opening.Name);
            if (opening.Recess is { } r) space.Area(Paper(opening.Hole), name, size, $"recess {Options.Length(r.Depth)} deep, {(r.FromOutside ? "outside" : "inside")}");
            else space.Area(Paper(opening.Hole), name, size);
        }
        foreach (var zone in Panel.Zones)
        {
            string offset = zone.Added ? "added" : Math.Abs(zone.Offset) > 1e-6 ? $"recessed {Options.Length(zone.Offset)}" : "flush";
            space.Area(Paper(zone.Region), $"zone {SheetWords.Spoken(zone.Name)}", $"{SheetWords.Spoken(zone.Stack.Name)}, {offset}");
        }
        foreach (var foot in Feet.DistinctBy(f => f.Panel)) space.Along(foot.Panel, foot.Line, view);
        foreach (var arc in Face.Segments.Where(a => a.IsArc)) space.Note(view.ToPaper(arc.At(0.5)), $"R {Options.Length(arc.Radius)}");
        int n = 0;
        foreach (var (lines, splice) in SpliceLines())
        {
            // Away from the right, where leaders run to their notes.
            var from = view.ToPaper(lines.MaxBy(l => l.Length).At(Inside && !splice.AlongU ? 0.8 : 0.2));
            space.Tag("S" + (++n).ToString(System.Globalization.CultureInfo.InvariantCulture), from, default, splice.AlongU ? new(0, 1) : new(1, 0));
        }
    }

    /// <summary>Splices, zones and recesses in words.</summary>
    public IEnumerable<string> Remarks()
    {
        int n = 0;
        foreach (var (_, splice) in SpliceLines())
        {
            double t = splice.Layer.Thickness;
            string how = splice.Rule.Kind switch
            {
                SpliceKind.Lap => $"lap {Options.Length(splice.Overlap)}, its middle on the line, routed {Routed(splice.Rule.LapDepths(t))}",
                SpliceKind.Scarf => FormattableString.Invariant($"scarf {splice.Rule.Slope:0.#} to 1, {Options.Length(splice.Overlap)} long, its middle on the line"),
                _ => splice.Rule.Backing > 0 ? $"butt with a strip {Options.Length(splice.Rule.Backing)} wide behind it" : "butt",
            };
            string over = splice.OverMember is { } m ? $", over {m}" : "";
            yield return $"S{(++n).ToString(System.Globalization.CultureInfo.InvariantCulture)}: splice of {SheetWords.Sold(splice.Layer.Material)}, {how}{over}.";
        }
        foreach (var zone in Panel.Zones.Where(z => !z.Added)) yield return $"Zone {SheetWords.Spoken(zone.Name)}: {string.Join(", ", zone.Stack.Layers.Select(l => StackSection.Describe(Design.Spec, l, Options)))}.{Worked(zone)}";
        foreach (string step in EdgeNotes.OnFaces(Design.Structure, Panel, Options)) yield return step;
        foreach (string joint in OnFaces()) yield return joint;
        if (Feet.Any()) yield return "Dash and two dots: where they stand.";
        if (Panel.Mirrored is { } original) yield return $"Other hand of {original}.";
        if (Members.Length > 0 && !Inside) yield return $"Dashed: the frame behind the skin. Dimensions above are to the centres of its upright members.{(FrameSheet.Numbers(Members).Count > 0 ? " A number in a circle is that of a member in its list." : "")}";

        IEnumerable<string> OnFaces()
        {
            var meets = Design.Structure.Joints.SelectMany(j => new[] { (Own: j.First, Other: j.Second), (Own: j.Second, Other: j.First) }).Where(p => p.Own.Panel == Panel && p.Own.IsFace && IsOnThisFace(p.Own));
            foreach (var face in meets.GroupBy(p => p.Own.Name, StringComparer.Ordinal).OrderBy(g => g.Key, StringComparer.Ordinal))
                yield return $"On the {face.Key} face: {string.Join(", ", face.Select(p => $"{p.Other.Panel.Name}.{p.Other.Name}").Distinct(StringComparer.Ordinal))}.";
        }

        string Worked(PlacedZone zone) => zone.Fact.Find("edge") is not { } edge ? "" : $" Its step is {edge.Word("treatment")}{(Design.Spec.Evaluator.Length(edge, "size") is { } size ? " " + Options.Length(size) : "")}.";

        string Routed((double First, double Second) depth) => Math.Abs(depth.First - depth.Second) < 1e-6
            ? $"{Options.Fine(depth.First)} off each piece"
            : $"{Options.Fine(depth.First)} off the first, {Options.Fine(depth.Second)} off the second";
    }
}
