using System.Collections.Immutable;
using Wain.Core.Framing;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Model;
using Wain.Core.Pieces;

namespace Wain.Core.Drawing.Panels;

/// <summary>The sheets of one panel: as seen from outside, its frame as it lies on the bench, and its inside skin.</summary>
public static class PanelSheet
{
    private const double Column = 70;

    /// <summary>Outline, frame in hidden lines, openings, zones, splices and edge notes, seen from outside.</summary>
    public static IEnumerable<LaidSheet> Outside(Design design, PlacedPanel panel, DrawingOptions options)
    {
        var sketch = new PanelSketch(design, panel, options, Inside: false);
        ImmutableArray<SideBlock> blocks =
        [
            new SideBlock.Drawn(width => StackSection.HeightOf(design.Spec, panel.Stack, width, options), (corner, width) => StackSection.Draw(design.Spec, panel.Stack, corner, width, options)),
            new SideBlock.Words("Edges", [.. EdgeNotes.Of(design.Structure, panel, options).Select(n => n.Text)]),
            new SideBlock.Words("Notes", [.. sketch.Remarks()]),
        ];
        return Laid(sketch, "panel-" + panel.Name, "seen from outside" + SheetWords.Side(panel, outside: true), blocks, edgeTags: true);
    }

    /// <summary>The inside skin as its maker sees it; none for a panel of one skin.</summary>
    public static IEnumerable<LaidSheet> Inside(Design design, PlacedPanel panel, DrawingOptions options)
    {
        if (!PanelSketch.HasInsideSkin(panel)) return [];
        var sketch = new PanelSketch(design, panel, options, Inside: true);
        ImmutableArray<SideBlock> blocks =
        [
            new SideBlock.Words("Inside skin", [.. panel.Stack.Layers.SkipWhile(l => l.Kind is not (LayerKind.Frame or LayerKind.Foam)).Skip(1).Select(l => StackSection.Describe(design.Spec, l, options)), "Mirrored against the outside sheet: right and left change sides."]),
            new SideBlock.Words("Notes", [.. sketch.Remarks()]),
        ];
        return Laid(sketch, $"panel-{panel.Name}-inside", "inside skin, seen from inside" + SheetWords.Side(panel, outside: false), blocks, edgeTags: false);
    }

    private static IEnumerable<LaidSheet> Laid(PanelSketch sketch, string name, string view, ImmutableArray<SideBlock> blocks, bool edgeTags)
    {
        LaidSheet? With(double? beat, ImmutableArray<SideBlock> beside) => SheetLayout.Best(sketch.Options.Paper, sketch.Extent, paper => On(sketch with { Options = sketch.Options with { Paper = paper } }, name, view, beside, edgeTags), beat);
        var sheet = With(null, blocks)!;
        double scale = sheet.Sheet.Title.Scale!.Value;
        var alone = With(sheet.Complete ? 0.7 * scale : double.PositiveInfinity, []);
        if (alone is null || sheet.Complete && !SheetLayout.IsTooSmall(scale, alone.Sheet.Title.Scale!.Value)) return [sheet];
        return [alone, .. SheetLayout.Rest(name + "-notes", sketch.Options.Paper, alone.Sheet.Title with { View = "notes to the sheet before" }, blocks, Column)];
    }

    private static SheetLayout.Trial On(PanelSketch sketch, string name, string view, ImmutableArray<SideBlock> blocks, bool edgeTags)
    {
        var options = sketch.Options;
        var title = options.Title(SheetWords.Spoken(sketch.Panel.Name), FrameBuilder.MarkOf(sketch.Design.Structure, sketch.Panel), view, options.Mass(sketch.Panel.Name));
        var area = SheetFrame.Area(options.Paper, title);
        double over = sketch.Members.Any(m => sketch.IsUpright(m)) ? 22 : 5;
        var sharings = SheetLayout.Sharings(area, blocks, Column);
        return new(
            room => SheetLayout.Share(area, sharings, sketch.Extent, new(27 + room.Left, SheetLayout.Under + room.Below, room.Right, over + room.Above), sketch.IsInside),
            plan => Lay(sketch, name, title, edgeTags, over, plan));
    }

    private static (Func<LaidSheet> Sheet, SheetLayout.NoteRoom Needed) Lay(PanelSketch sketch, string name, TitleBlock title, bool edgeTags, double over, SheetLayout.Plan plan)
    {
        var paper = plan.View.ToPaper(sketch.Extent);

        var space = new LabelSpace(paper.Grow(0.5), sketch.Members.Select(m => Contour.Of(m.Outline).Map(plan.View)), sketch.HardLines(plan.View));
        if (edgeTags) sketch.Tag(space, plan.View);
        sketch.Name(space, plan.View);
        int named = space.Notes.Count;
        var numbers = FrameSheet.Numbers(sketch.Members);
        foreach (var member in sketch.Members.OrderByDescending(m => m.LongPoint).ThenBy(m => m.PartMark, StringComparer.Ordinal)) space.Member(member, plan.View, numbers);
        var dimensions = sketch.Runs(plan.View);
        var beside = SideNotes.Beside(plan.Area, paper, dimensions.HasAbove ? paper.Top : Math.Max(plan.Area.Top, paper.Top));
        var notes = SideNotes.Of(space.Notes, paper, dimensions.LevelLines, space.Taken);
        // The frame is behind the skin here: where names of its members are too many for the margin, the sheet of the frame alone has them.
        if (!notes.Fit(beside)) notes = SideNotes.Of([.. space.Notes.Take(named)], paper, dimensions.LevelLines, space.Taken);
        var runs = dimensions.Layout(plan.Area, notes.Left);
        return (Made, SheetLayout.NoteRoom.For(notes, runs, paper, over));

        LaidSheet Made()
        {
            var margin = Notes.Layout(notes.Right, paper, beside, [Side.Right]);
            var marks = ImmutableArray.CreateBuilder<Mark>();
            marks.AddRange(sketch.Behind(plan.View));
            marks.AddRange(runs.Lines());
            // Leaders stop at names that they pass: white under these breaks them.
            marks.AddRange(notes.Layout.Marks);
            marks.AddRange(margin.Marks);
            marks.AddRange(runs.Values());
            marks.AddRange(space.Backings);
            marks.AddRange(sketch.Front(plan.View));
            marks.AddRange(space.Marks);
            marks.AddRange(plan.Marks);
            ImmutableArray<LabelBox> labels = [.. runs.SelectMany(r => r.Labels), .. space.Labels, .. notes.Layout.Labels, .. margin.Labels, .. plan.Labels];
            return new(name, new(sketch.Options.Paper, title with { Scale = plan.View.Scale }, marks.ToImmutable()), labels) { Complete = plan.Complete };
        }
    }
}
