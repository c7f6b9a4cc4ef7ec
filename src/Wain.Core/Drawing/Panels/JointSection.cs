using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Framing;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Model;

namespace Wain.Core.Drawing.Panels;

/// <summary>A section through a type of joint, to scale, layers hatched, with what holds it.</summary>
public static class JointSection
{
    private const double Column = 72, FarLeaders = 2.2;

    /// <summary>The largest of a few, which break the panels off sooner or later, and then as much of them as that scale has room for.</summary>
    public static IEnumerable<LaidSheet> Of(Design design, JointType type, DrawingOptions options)
    {
        var (sheet, crossed) = new[] { 1, 0.85, 0.7 }.Select(share => Clear(design, type, options, share)).MinBy(s => s.Sheet.Sheet.Title.Scale);
        return sheet.Complete ? [sheet] : [sheet, .. SheetLayout.Rest(sheet.Name + "-notes", options.Paper, sheet.Sheet.Title, [.. Words(design, type, options, crossed)], Column)];
    }

    // A thickness whose dimension leaders would cross whichever side they run to is told in words.
    private static (LaidSheet Sheet, ImmutableArray<PlacedPanel> Crossed) Clear(Design design, JointType type, DrawingOptions options, double share)
    {
        var (sheet, crossed) = Lay(design, type, options, share, []);
        return crossed.IsEmpty ? (sheet, crossed) : (Lay(design, type, options, share, crossed).Sheet, crossed);
    }

    private static (LaidSheet Sheet, ImmutableArray<PlacedPanel> Crossed) Lay(Design design, JointType type, DrawingOptions options, double share, ImmutableArray<PlacedPanel> inWords)
    {
        var joint = type.Joint;
        var title = options.Title(SheetWords.Spoken(joint.Name), "", $"section, {JointWords.Kind(joint)} joint");
        var area = SheetFrame.Area(options.Paper, title);
        double thick = Math.Max(joint.First.Panel.Thickness, joint.Second.Panel.Thickness);
        double gusset = JointDetails.Legs(design.Spec, joint.Fact.Find("gusset")) is var (leg, other) ? Math.Max(leg, other) + thick : 0;
        double reach = Math.Max(gusset, share * Math.Max(45, thick * 2.2 + joint.Gap / 2));
        var plane = CutPlane.Across(joint);
        var cuts = new[] { joint.First, joint.Second }.Select(s => (Side: s, Cut: new PanelCut(s.Panel, plane, reach, PanelStep.Of(design.Structure, s.Panel)))).ToArray();
        var areas = cuts.Select(c => (c.Side.Panel, Areas: c.Cut.Areas(design.Frames).ToImmutableArray())).ToList();
        var details = new JointDetails(design.Spec, options, joint, plane, reach, cuts[0].Cut, cuts[1].Cut);

        var extent = areas.SelectMany(a => a.Areas).Select(a => a.Contour.Bounds).Append(new Box(-5, -5, 5, 5)).Aggregate(Box.Empty, (a, b) => a.Union(b)).Union(details.Bounds);
        ImmutableArray<SideBlock> blocks = [.. Words(design, type, options, inWords).Where(w => !w.Paragraphs.IsEmpty)];
        var margins = new SheetLayout.Margins(50, 16, 50, 16);
        var plan = SheetLayout.Share(area, SheetLayout.Sharings(area, blocks, Column), extent, margins, mirrored: false);
        var view = plan.View;
        var paper = view.ToPaper(extent);

        var marks = ImmutableArray.CreateBuilder<Mark>();
        var notes = new List<Note>();
        for (int k = 0; k < areas.Count; k++)
        {
            var (panel, cut) = areas[k];
            foreach (var one in cut) marks.AddRange(LayerHatch.Marks(one.Contour.Map(view), one.Material, k * Math.PI / 9));
            if (k == 1 && areas[0].Panel == panel) continue;
            foreach (var layer in cut.GroupBy(a => a.Layer)) notes.Add(new(view.ToPaper(Spot(layer.First(a => Largest(layer) == a).Contour)), [.. LayerLines(design.Spec, panel, layer.Key, options)]));
        }
        foreach (var (_, cut) in cuts) foreach (double s in cut.Breaks()) marks.Add(Break(cut, s, cut == cuts[0].Cut ? joint.First.Panel.Thickness : joint.Second.Panel.Thickness, view));
        marks.AddRange(details.Marks(view));
        notes.AddRange(details.Notes(view));
        foreach (var note in notes.Where(n => !paper.Contains(n.Target)).ToList()) notes[notes.IndexOf(note)] = note with { Target = new(Math.Clamp(note.Target.X, paper.Left, paper.Right), Math.Clamp(note.Target.Y, paper.Bottom, paper.Top)) };
        var dimensions = cuts.Where((c, i) => (i == 0 || c.Side.Panel != cuts[0].Side.Panel) && !inWords.Contains(c.Side.Panel))
            .Select(c => (c.Side.Panel, Layout: ThicknessOf(c.Side.Panel, c.Cut, view, options))).Where(d => d.Layout is not null).Select(d => (d.Panel, Layout: d.Layout!)).ToList();
        // Leaders run to the sides where they cross the fewest dimensions, unless that takes them across the whole drawing.
        DimensionLayout[] sided = [.. new Side[][] { [Side.Left, Side.Right], [Side.Left], [Side.Right] }.Select(sides => Notes.Layout(notes, paper.Grow(6), plan.Area, sides))];
        double near = Lines(sided[0]).Sum(l => (l.B - l.A).Length);
        var margin = sided.Where((m, i) => i == 0 || plan.Area.Contains(m.Bounds) && Lines(m).Sum(l => (l.B - l.A).Length) < FarLeaders * near).MinBy(m => dimensions.Count(d => LeadersCross(m, d.Layout)))!;
        marks.AddRange(margin.Marks);
        foreach (var dimension in dimensions) marks.AddRange(dimension.Layout.Marks.SelectMany(m => m is TextMark t ? new[] { t.Backing, t } : [m]));
        marks.AddRange(plan.Marks);
        ImmutableArray<LabelBox> labels = [.. margin.Labels, .. dimensions.SelectMany(d => d.Layout.Labels), .. plan.Labels];
        return (new(type.Name, new(options.Paper, title with { Scale = view.Scale }, marks.ToImmutable()), labels) { Complete = plan.Complete }, [.. dimensions.Where(d => LeadersCross(margin, d.Layout)).Select(d => d.Panel)]);
    }

    /// <summary>True if a leader of the notes runs over a line or the value of a dimension.</summary>
    internal static bool LeadersCross(DimensionLayout notes, DimensionLayout dimension)
    {
        var leaders = Lines(notes).ToList();
        return Lines(dimension).Any(d => leaders.Exists(l => Notes.Cross(l.A, l.B, d.A, d.B))) || dimension.Labels.Any(d => leaders.Exists(l => d.Bounds.Crosses(l.A, l.B)));
    }

    private static IEnumerable<(Vec2 A, Vec2 B)> Lines(DimensionLayout layout) =>
        layout.Marks.OfType<PathMark>().Where(m => m.Tone is null).SelectMany(m => m.Contours).SelectMany(c => c.Flatten() is var p ? p.Zip(p.Skip(1)) : []);

    private static CutArea Largest(IEnumerable<CutArea> areas) => areas.MaxBy(a => a.Contour.Bounds is var b ? Math.Round(b.Width * b.Height, 6) : 0)!;

    /// <summary>A place well inside: in the middle, or where a step cuts that away, as far as can be from every side.</summary>
    private static Vec2 Spot(Contour area)
    {
        var centre = area.Segments.Aggregate(Vec2.Zero, (sum, s) => sum + s.From) / area.Segments.Length;
        var outline = Outline.Polygon(area.Segments.Select(s => s.From)).CounterClockwise;
        if (outline.Segments.All(s => s.Chord.Cross(centre - s.From) >= -1e-6)) return centre;
        const int steps = 16;
        var b = outline.Bounds;
        return Enumerable.Range(0, steps * steps).Select(i => b.Min + new Vec2((i % steps + 0.5) / steps * b.Width, (i / steps + 0.5) / steps * b.Height))
            .Where(p => outline.Contains(p)).Append(centre).MaxBy(p => Math.Round(outline.Contains(p) ? outline.DistanceToEdges(p) : 0, 3));
    }

    private static IEnumerable<string> LayerLines(Spec spec, PlacedPanel panel, StackLayer layer, DrawingOptions options) =>
        Lettering.Wrap($"{panel.Name}: {StackSection.Describe(spec, layer, options)}", TextMark.Small, 36);

    private static IEnumerable<SideBlock.Words> Words(Design design, JointType type, DrawingOptions options, ImmutableArray<PlacedPanel> inWords)
    {
        var joint = type.Joint;
        yield return new("Held by", [.. JointTypes.Holding(design.Spec, joint, options)]);
        string angle = Math.Abs(joint.Dihedral) < 1e-4 || Math.Abs(joint.Dihedral - Math.PI) < 1e-4 ? "The panels are parallel." : FormattableString.Invariant($"Angle between the panels {joint.Dihedral * 180 / Math.PI:0.00}\u00B0.");
        string through = joint.Kind == JointKind.Mitre ? "" : joint.Through is { } p ? $" {p.Name} runs through." : "";
        yield return new("Cut", [angle + through, .. type.Angle.Cuts.Select(c => $"{c.Panel.Name}.{c.EdgeName}: {c.Instruction}"), .. new[] { joint.First.Panel, joint.Second.Panel }.Distinct().SelectMany(p => EdgeNotes.Of(design.Structure, joint, p, options)).Select(t => t + "."), .. inWords.Select(p => $"{p.Name} is {options.Fine(p.Thickness)} thick.")]);
        yield return new(type.Joints.Length == 1 ? "This joint" : $"These {type.Joints.Length.ToString(System.Globalization.CultureInfo.InvariantCulture)} joints are made so", [.. type.Joints.Select(j => $"{j.Joint.Name}, {options.Length(j.Joint.Length)}")]);
    }

    /// <summary>A line that breaks the drawing off, with a kink in its middle.</summary>
    private static PathMark Break(PanelCut cut, double s, double thickness, View view)
    {
        Vec2 a = view.ToPaper(cut.Point(s, -3)), b = view.ToPaper(cut.Point(s, thickness + 3));
        Vec2 along = (b - a).Unit, aside = along.Left * 1.5, middle = (a + b) / 2;
        return new(Contour.Open(a, middle - along * 1.5, middle - along * 0.5 + aside, middle + along * 0.5 - aside, middle + along * 1.5, b), Pen.Narrow);
    }

    /// <summary>Through the panel at the end that is broken off, or its own end.</summary>
    private static DimensionLayout? ThicknessOf(PlacedPanel panel, PanelCut cut, View view, DrawingOptions options)
    {
        if (cut.Breaks().Select(s => (double?)s).LastOrDefault() is not { } end) return null;
        Vec2 outside = view.ToPaper(cut.Point(end, 0)), inside = view.ToPaper(cut.Point(end, panel.Thickness));
        var beyond = view.ToPaper(cut.Point(end + Math.Sign(end), 0)) - outside;
        // The dimension line stands beyond the break, on whichever hand that is.
        double hand = Math.Sign((inside - outside).Left.Dot(beyond));
        return Dimensions.Linear(outside, inside, 6 * hand, options.Fine(panel.Thickness));
    }
}
