using System.Collections.Immutable;
using System.Globalization;
using Wain.Core.Framing;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;

namespace Wain.Core.Drawing.Panels;

/// <summary>The frame of a panel as it lies on the bench, with the sizes and end cuts of its members.</summary>
public static class FrameSheet
{
    // A frame drawn smaller than this share of what the sheet could show, or so small that it bristles with leaders, has its list on a sheet of its own.
    private const double LeastShare = 0.6;
    private const int MostLeaders = 6;

    /// <summary>None for a panel without a frame. It is seen from the side that lies up: from inside, mirrored, unless the spec lays the inside face down.</summary>
    public static IEnumerable<LaidSheet> Of(Design design, PlacedPanel panel, DrawingOptions options)
    {
        var frames = design.Frames.Of(panel).Where(f => f.Members.Length > 0).ToList();
        if (frames.Count == 0) return [];
        var table = Table([.. frames.SelectMany(f => f.Members)], options);
        var words = Words(frames, options);
        // The list flows beside the frame or under it in tables of some length: the one that leaves the frame largest.
        var laid = new[] { 4, 5, 6, 8, 10, 12, 16, 24, 48 }.Where(rows => rows == 4 || rows < 2 * table.Rows.Length)
            .Select(rows => SheetLayout.Settle(right => Lay(design, panel, frames, options, right, [words, .. Tables(table, rows)], table.Width))).Where(s => s.Complete).ToList();
        var alone = SheetLayout.Settle(right => Lay(design, panel, frames, options, right, [words], table.Width));
        if (laid.MinBy(s => s.Sheet.Title.Scale) is { } best && alone.Sheet.Title.Scale >= LeastShare * best.Sheet.Title.Scale && (best.Leaders <= MostLeaders || alone.Leaders >= best.Leaders)) return [best];
        var blocks = alone.Complete ? Tables(table, 24) : [words, .. Tables(table, 24)];
        return [alone, .. SheetLayout.Rest(alone.Name + "-members", options.Paper, alone.Sheet.Title with { View = "members of the frame" }, [.. blocks], table.Width)];
    }

    private static (LaidSheet Sheet, IReadOnlyList<Note> Notes) Lay(Design design, PlacedPanel panel, List<PanelFrame> frames, DrawingOptions options, double right, IReadOnlyList<SideBlock> blocks, double column)
    {
        bool fromInside = !frames[0].Rules.FaceDownInside;
        var members = frames.SelectMany(f => f.Members).ToList();
        string seen = fromInside ? "frame, seen from inside (outside face down)" : "frame, seen from outside (inside face down)";
        var title = options.Title(SheetWords.Spoken(panel.Name) + " frame", FrameBuilder.MarkOf(design.Structure, panel), seen);
        var area = SheetFrame.Area(options.Paper, title);

        var bounds = frames.Select(f => f.Area.Bounds).Aggregate((a, b) => a.Union(b));
        var extent = new Box(bounds.Min.X, bounds.Min.Y, bounds.Max.X, bounds.Max.Y);
        var margins = new SheetLayout.Margins(27, 25, right, 22);
        var plan = SheetLayout.Share(area, extent, margins, blocks, column, fromInside);
        var view = plan.View;
        var paper = view.ToPaper(extent);

        var space = new LabelSpace(paper.Grow(0.5), [.. frames.SelectMany(f => Contour.Of(f.Area).Map(view).Flatten() is var p ? p.Zip(p.Skip(1)) : [])]);
        foreach (var member in members.OrderByDescending(m => m.LongPoint).ThenBy(m => m.PartMark, StringComparer.Ordinal)) space.Member(member, view);
        foreach (var opening in panel.Openings)
            if (opening.Hole.Bounds is var b) space.Area(view.ToPaper(new Box(b.Min.X, b.Min.Y, b.Max.X, b.Max.Y)), SheetWords.Spoken(opening.Name));

        var runs = Runs(new PanelRuns(view, extent, options), frames, members).Layout(plan.Area);
        var marks = ImmutableArray.CreateBuilder<Mark>();
        foreach (var run in runs) marks.AddRange(run.Marks);
        foreach (var member in members) marks.AddRange(Draw(member, view));
        marks.AddRange(space.Backings);
        foreach (var frame in frames) marks.Add(new PathMark(Contour.Of(frame.Area).Map(view), Pen.Edge));
        foreach (var opening in panel.Openings) marks.Add(new PathMark(Contour.Of(opening.Hole).Map(view), Pen.Alternate));
        marks.AddRange(space.Marks);
        var margin = Notes.Layout(space.Notes, paper, new(plan.Area.Left, Math.Max(plan.Area.Bottom, paper.Bottom - 20), plan.Area.Right, paper.Top), [Side.Right]);
        marks.AddRange(margin.Marks);
        marks.AddRange(plan.Marks);
        var sheet = new Sheet(options.Paper, title with { Scale = view.Scale }, marks.ToImmutable());
        return (new($"panel-{panel.Name}-frame", sheet, [.. runs.SelectMany(r => r.Labels), .. space.Labels, .. margin.Labels, .. plan.Labels]) { Complete = plan.Complete, Leaders = space.Notes.Count }, space.Notes);
    }

    /// <summary>A member with its holes and laps; a pocket shows as the line of its screw.</summary>
    private static IEnumerable<Mark> Draw(Member member, View view)
    {
        yield return new PathMark(Contour.Of(member.Outline).Map(view), Pen.Edge, 1);
        foreach (var lap in member.Laps) yield return new PathMark(Contour.Of(lap.Region).Map(view), lap.FromOutside == view.Mirrored ? Pen.Hidden : Pen.Narrow);
        foreach (var hole in member.Holes)
        {
            double radius = Math.Max(hole.Diameter / 2, 0.35 * view.Scale);
            yield return new PathMark(Contour.Circle(hole.At, radius).Map(view), Pen.Narrow, hole.Kind == HoleKind.Pocket ? 0 : 1);
        }
    }

    private static PanelRuns Runs(PanelRuns runs, List<PanelFrame> frames, List<Member> members)
    {
        foreach (var frame in frames) runs.Corners(frame.Area);
        foreach (var member in members)
        {
            var run = member.CentreLine.Chord.Unit;
            var b = member.Outline.Bounds;
            // Frames are set out by the near edges and checked by the centres: upright members above, level ones at the left.
            if (Math.Abs(run.Y) > 0.95 && member.Role != MemberRole.Stile) runs.Above(member.CentreLine.At(0.5).X, b.Max.Y);
            else if (Math.Abs(run.X) > 0.95 && member.Role != MemberRole.Rail) runs.AlongY(member.CentreLine.At(0.5).Y, b.Min.X);
        }
        return runs;
    }

    private static TableDrawing Table(IReadOnlyList<Member> members, DrawingOptions options)
    {
        bool Slanted(Member m) => m.LongPoint - m.ShortPoint > 0.1;
        bool any = members.Any(Slanted);
        var table = new TableDrawing("", [new("Member"), new("Wide", true), new("Long", true), new("Short", true), new("Ends")],
            [.. members.OrderBy(m => m.Role).ThenBy(m => m.Key, StringComparer.Ordinal).Select(m => (ImmutableArray<string>)
                [m.Key, options.Inches(m.Width), options.Inches(m.LongPoint), Slanted(m) ? options.Inches(m.ShortPoint) : "", Ends(m)])]);
        return any ? table : table with { Columns = table.Columns.RemoveAt(3), Rows = [.. table.Rows.Select(r => r.RemoveAt(3))] };
    }

    private static string Ends(Member m)
    {
        string start = End(m.Start), end = End(m.End);
        string ends = start == end ? start : $"{start} / {end}", rip = m.RipBevel == 0 ? "" : $", rip {LengthText.OfAngle(Math.Abs(m.RipBevel))}";
        return ends + rip + (m.Laps.IsEmpty ? "" : ", cut back");
    }

    private static string End(EndCut cut)
    {
        if (cut.Shaped) return "shaped";
        if (cut.IsSquare) return "square";
        var parts = new List<string>();
        if (Math.Abs(cut.Angle) > 1e-6) parts.Add(LengthText.OfAngle(Math.Abs(cut.Angle)));
        if (Math.Abs(cut.Bevel) > 1e-6) parts.Add($"bevel {LengthText.OfAngle(Math.Abs(cut.Bevel))}");
        return string.Join(" ", parts);
    }

    private static SideBlock.Words Words(List<PanelFrame> frames, DrawingOptions options)
    {
        var frame = frames[0];
        var notes = new List<string> { $"{SheetWords.Sold(frame.Layer.Material)}, {options.Inches(frame.Depth)} through the wall. Long is from long point to long point. Angles are from square." };
        if (frame.Rules.Screw is { } screw) notes.Add($"Meetings: {frame.Rules.ScrewCount.ToString(CultureInfo.InvariantCulture)} {SheetWords.Spoken(screw.Name)} each{(frame.Rules.Glue is { } glue ? $", glued with {SheetWords.Spoken(glue.Name)}" : "")}.");
        foreach (var group in frames.SelectMany(f => f.Members).SelectMany(m => m.Cuts(options.Inches).Select(c => (Cut: c, m.Key))).GroupBy(c => c.Cut, StringComparer.Ordinal))
            notes.Add($"{string.Join(", ", group.Select(g => g.Key))}: {group.Key}.");
        var pocket = frames.SelectMany(f => f.Meetings).Select(m => m.Pocket).FirstOrDefault(p => p is not null);
        if (pocket is not null) notes.Add("Black dots are pocket holes.");
        if (frames.SelectMany(f => f.Members).Any(m => m.Holes.Any(h => h.Kind is HoleKind.Pour or HoleKind.Vent))) notes.Add("Open circles are pour and vent holes.");
        return new SideBlock.Words("Frame", [.. notes]);
    }

    private static IEnumerable<SideBlock> Tables(TableDrawing table, int rows)
    {
        foreach (var part in table.Rows.Chunk(rows))
        {
            var page = table with { Rows = [.. part] };
            yield return new SideBlock.Drawn(page.Height + 1, (corner, _) => Laid(page.Marks(corner)));
        }
    }

    private static DimensionLayout Laid(ImmutableArray<Mark> marks) =>
        new(marks, [.. marks.OfType<TextMark>().Select(t => new LabelBox(t.Text, t.Bounds))], marks.Aggregate(Box.Empty, (b, m) => b.Union(m.Bounds)));
}
