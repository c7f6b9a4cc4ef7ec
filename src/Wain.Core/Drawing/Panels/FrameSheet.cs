using System.Collections.Immutable;
using System.Globalization;
using Wain.Core.Framing;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;

namespace Wain.Core.Drawing.Panels;

/// <summary>The frame of a panel as it lies on the bench, with the sizes and end cuts of its members.</summary>
public static class FrameSheet
{
    private const double Over = 22;

    /// <summary>None for a panel without a frame. It is seen from the side that lies up: from inside, mirrored, unless the spec lays the inside face down.</summary>
    public static IEnumerable<LaidSheet> Of(Design design, PlacedPanel panel, DrawingOptions options)
    {
        var frames = design.Frames.Of(panel).Where(f => f.Members.Length > 0).ToList();
        if (frames.Count == 0) return [];
        var table = Table([.. frames.SelectMany(f => f.Members)], FromInside(frames), options);
        var words = Words(frames, options);
        LaidSheet? With(double? beat, params SideBlock[] blocks) => SheetLayout.Best(options.Paper, Extent(frames), paper => On(design, panel, frames, options with { Paper = paper }, blocks, table.Width), beat);
        // The list flows beside the frame or under it: whole, in halves, or, where that lets the frame be larger, so that at a column's end a few rows stay together.
        int all = table.Rows.Length;
        var alone = With(null)!;
        LaidSheet? best = null;
        foreach (int rows in new[] { all, (all + 1) / 2, 3, 1 }.Distinct())
        {
            if (With(best?.Sheet.Title.Scale ?? double.PositiveInfinity, [.. Tables(table, rows), words]) is { Complete: true, NotesFit: true } laid && !(laid.Sheet.Title.Scale >= best?.Sheet.Title.Scale)) best = laid;
            if (best?.Sheet.Title.Scale <= alone.Sheet.Title.Scale) break;
        }
        if (best is not null && !SheetLayout.IsTooSmall(best.Sheet.Title.Scale!.Value, alone.Sheet.Title.Scale!.Value)) return [best];
        return [alone, .. SheetLayout.Rest(alone.Name + "-members", options.Paper, alone.Sheet.Title with { View = "members of the frame" }, [.. Tables(table, 24), words], table.Width)];
    }

    private static bool FromInside(List<PanelFrame> frames) => !frames[0].Rules.FaceDownInside;

    private static Box Extent(List<PanelFrame> frames)
    {
        var bounds = frames.Select(f => f.Area.Bounds).Aggregate((a, b) => a.Union(b));
        return new(bounds.Min.X, bounds.Min.Y, bounds.Max.X, bounds.Max.Y);
    }

    private static SheetLayout.Trial On(Design design, PlacedPanel panel, List<PanelFrame> frames, DrawingOptions options, IReadOnlyList<SideBlock> blocks, double column)
    {
        bool fromInside = FromInside(frames);
        string seen = fromInside ? $"frame, seen from inside{SheetWords.Side(panel, outside: false)} (outside face down)" : $"frame, seen from outside{SheetWords.Side(panel, outside: true)} (inside face down)";
        var title = options.Title(SheetWords.Spoken(panel.Name) + " frame", FrameBuilder.MarkOf(design.Structure, panel), seen);
        var area = SheetFrame.Area(options.Paper, title);
        var extent = Extent(frames);
        var sharings = SheetLayout.Sharings(area, blocks, column);
        return new(
            room => SheetLayout.Share(area, sharings, extent, new(27 + room.Left, SheetLayout.Under + room.Below, room.Right, Over + room.Above), fromInside),
            plan => Lay(panel, frames, extent, options, title, plan));
    }

    private static (Func<LaidSheet> Sheet, SheetLayout.NoteRoom Needed) Lay(PlacedPanel panel, List<PanelFrame> frames, Box extent, DrawingOptions options, TitleBlock title, SheetLayout.Plan plan)
    {
        var members = frames.SelectMany(f => f.Members).ToList();
        var numbers = Numbers(members);
        var view = plan.View;
        var paper = view.ToPaper(extent);

        var space = new LabelSpace(paper.Grow(0.5), members.Select(m => Contour.Of(m.Outline).Map(view)), [.. frames.Select(f => f.Area).Concat(panel.Openings.Select(o => o.Hole)).SelectMany(o => Contour.Of(o).Map(view).Flatten() is var p ? p.Zip(p.Skip(1)) : [])]);
        foreach (var hole in members.SelectMany(m => m.Holes).Where(h => h.Kind is HoleKind.Pour or HoleKind.Vent)) space.Keep(HoleMark(hole, view).Bounds.Grow(0.3));
        foreach (var member in members.OrderByDescending(m => m.LongPoint).ThenBy(m => m.PartMark, StringComparer.Ordinal)) space.Member(member, view, numbers);
        foreach (var opening in panel.Openings)
            if (opening.Hole.Bounds is var b) space.Area(view.ToPaper(new Box(b.Min.X, b.Min.Y, b.Max.X, b.Max.Y)), SheetWords.Spoken(opening.Name));

        var dimensions = Runs(new PanelRuns(view, extent, options), frames, members, panel);
        var notes = SideNotes.Of(space.Notes, paper, dimensions.LevelLines, space.Taken);
        var runs = dimensions.Layout(plan.Area, notes.Left);
        return (Made, SheetLayout.NoteRoom.For(notes, runs, paper, Over));

        LaidSheet Made()
        {
            // Names that are too many for the room beside the frame take all the height that it has.
            var beside = SideNotes.Beside(plan.Area, paper, paper.Top);
            var margin = Notes.Layout(notes.Right, paper, notes.Fit(beside) ? beside : plan.Area, [Side.Right]);
            var marks = ImmutableArray.CreateBuilder<Mark>();
            marks.AddRange(runs.Lines());
            foreach (var member in members) marks.AddRange(Draw(member, view));
            // Leaders stop at names that they pass: white under these breaks them.
            marks.AddRange(notes.Layout.Marks);
            marks.AddRange(margin.Marks);
            marks.AddRange(runs.Values());
            marks.AddRange(space.Backings);
            foreach (var frame in frames) marks.Add(new PathMark(Contour.Of(frame.Area).Map(view), Pen.Edge));
            foreach (var opening in panel.Openings) marks.Add(new PathMark(Contour.Of(opening.Hole).Map(view), Pen.Alternate));
            marks.AddRange(space.Marks);
            marks.AddRange(plan.Marks);
            var sheet = new Sheet(options.Paper, title with { Scale = view.Scale }, marks.ToImmutable());
            return new($"panel-{panel.Name}-frame", sheet, [.. runs.SelectMany(r => r.Labels), .. space.Labels, .. notes.Layout.Labels, .. margin.Labels, .. plan.Labels]) { Complete = plan.Complete, NotesFit = notes.Fit(plan.Area) };
        }
    }

    /// <summary>A member with its holes and laps; a pocket shows as the line of its screw.</summary>
    private static IEnumerable<Mark> Draw(Member member, View view)
    {
        yield return new PathMark(Contour.Of(member.Outline).Map(view), Pen.Edge, 1);
        foreach (var lap in member.Laps) yield return new PathMark(Contour.Of(lap.Region).Map(view), lap.FromOutside == view.Mirrored ? Pen.Hidden : Pen.Narrow);
        foreach (var hole in member.Holes) yield return HoleMark(hole, view);
    }

    private static PathMark HoleMark(MemberHole hole, View view) =>
        new(Contour.Circle(hole.At, Math.Max(hole.Diameter / 2, 0.35 * view.Scale)).Map(view), Pen.Narrow, hole.Kind == HoleKind.Pocket ? 0 : 1);

    private static PanelRuns Runs(PanelRuns runs, List<PanelFrame> frames, List<Member> members, PlacedPanel panel)
    {
        foreach (var frame in frames) runs.Corners(frame.Area);
        // How far members are lapped, for who routs them on the bench.
        foreach (var opening in panel.Openings)
            if (opening.Recess is { } recess && members.Exists(m => m.Around == opening.Name && !m.Laps.IsEmpty)) runs.Bounds(recess.Region.Bounds, runs.Plain);
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

    private const int FewMembers = 12;

    private static IEnumerable<Member> Listed(IEnumerable<Member> members) => members.OrderBy(m => m.Role).ThenBy(m => m.Key, StringComparer.Ordinal);

    /// <summary>Numbers of the members in the list of their frame, by their keys: a mark for those whose names have no room. None where there are few.</summary>
    public static IReadOnlyDictionary<string, string> Numbers(IReadOnlyCollection<Member> members) => members.Count <= FewMembers ? ImmutableDictionary<string, string>.Empty
        : Listed(members).Index().DistinctBy(m => m.Item.Key).ToDictionary(m => m.Item.Key, m => (m.Index + 1).ToString(CultureInfo.InvariantCulture), StringComparer.Ordinal);

    private static TableDrawing Table(IReadOnlyList<Member> members, bool mirrored, DrawingOptions options)
    {
        // What is sawn to a curve has no short side to measure.
        bool Slanted(Member m) => m.LongPoint - m.ShortPoint > 0.1 && !((m.Start.Shaped || m.End.Shaped) && m.ShortPoint < 1);
        // A zone's own frame is of thinner sticks than the one around it.
        bool mixed = members.Select(m => options.Length(m.Depth)).Distinct(StringComparer.Ordinal).Count() > 1;
        bool any = members.Any(Slanted);
        var numbers = Numbers(members);
        (TableColumn Head, bool Shown, Func<Member, string> Cell)[] columns =
        [
            (new("", true), numbers.Count > 0, m => numbers.GetValueOrDefault(m.Key, "")), (new("Member"), true, m => m.Key), (new("Wide", true), true, m => options.Length(m.Width)), (new("Thick", true), mixed, m => options.Length(m.Depth)), (new("Long", true), true, m => options.Length(m.LongPoint)),
            (new("Short", true), any, m => Slanted(m) ? options.Length(m.ShortPoint) : ""), (new("Ends"), true, m => Ends(m, mirrored)),
        ];
        var shown = columns.Where(c => c.Shown).ToList();
        return new("", [.. shown.Select(c => c.Head)], [.. Listed(members).Select(m => (ImmutableArray<string>)[.. shown.Select(c => c.Cell(m))])]);
    }

    // In the order of the drawing: a member begins at its left end seen from outside, an upright one at its foot.
    private static string Ends(Member m, bool mirrored)
    {
        bool turned = mirrored && m.CentreLine.Chord.Unit.X > 1e-6;
        string start = End(turned ? m.End : m.Start), end = End(turned ? m.Start : m.End);
        string ends = start == end ? start : $"{start} / {end}", rip = !Shows(m.RipBevel) ? "" : $", rip {Bevel(m.RipBevel)}";
        return ends + (LeansAlike(m) ? ", alike" : "") + rip + (m.Laps.IsEmpty ? "" : ", cut back");
    }

    private static string End(EndCut cut)
    {
        if (cut.Shaped) return "shaped";
        if (cut.IsSquare) return "square";
        var parts = new List<string>();
        if (IsTaper(cut)) parts.Add($"taper {LengthText.OfAngle(Math.PI / 2 - Math.Abs(cut.Angle))}");
        else if (Shows(cut.Angle)) parts.Add(LengthText.OfAngle(Math.Abs(cut.Angle)));
        if (Shows(cut.Bevel)) parts.Add($"bevel {Bevel(cut.Bevel)}");
        return parts.Count == 0 ? "square" : string.Join(" ", parts);
    }

    // The list alone must tell a parallelogram from a trapezoid: both are as long and as short.
    private static bool LeansAlike(Member m) => !m.Start.Shaped && !m.End.Shaped && Shows(m.Start.Angle) && Shows(m.End.Angle) && Math.Sign(m.Start.Angle) != Math.Sign(m.End.Angle);

    // With the face that its long point lies on.
    private static string Bevel(double tilt) => $"{LengthText.OfAngle(Math.Abs(tilt))} {(tilt > 0 ? "in" : "out")}";

    // Less than the saw's scale can be set to is sawn square.
    private static bool Shows(double angle) => LengthText.OfAngle(Math.Abs(angle)) != LengthText.OfAngle(0);

    // Past what a mitre gauge turns to: sawn along the stick instead.
    private static bool IsTaper(EndCut cut) => !cut.Shaped && Math.Abs(cut.Angle) > Math.PI / 4 + 1e-6;

    private static SideBlock.Words Words(List<PanelFrame> frames, DrawingOptions options)
    {
        var frame = frames[0];
        var members = frames.SelectMany(f => f.Members).ToList();
        var notes = new List<string> { $"{SheetWords.Sold(frame.Layer.Material)}, {options.Length(frame.Depth)} through the wall. Long is from long point to long point. Angles are from square. Members are dimensioned to their centres." };
        foreach (var inner in frames.Where(f => f.Zone is not null && (f.Layer.Material?.Name != frame.Layer.Material?.Name || options.Length(f.Depth) != options.Length(frame.Depth))))
            notes.Add($"Within the zone {SheetWords.Spoken(inner.Zone!.Name)}: {SheetWords.Sold(inner.Layer.Material)}, {options.Length(inner.Depth)} through.");
        if (members.Exists(m => Shows(m.Start.Angle) && Shows(m.End.Angle))) notes.Add("Two slanted ends make one side longer than the other; alike, they lean the same way.");
        if (members.Exists(m => End(m.Start) != End(m.End))) notes.Add("Ends as drawn: left / right, or lower / upper.");
        if (members.Exists(m => Shows(m.Start.Bevel) || Shows(m.End.Bevel) || Shows(m.RipBevel))) notes.Add("In or out: a bevel's long point is on the inside or the outside face.");
        if (members.Exists(m => Shows(m.RipBevel))) notes.Add("Rip: sawn along the side that lies on the panel's edge; wide is the wider face.");
        if (members.Exists(m => IsTaper(m.Start) || IsTaper(m.End))) notes.Add("A taper is sawn along the stick, its angle from the stick's edge.");
        if (frame.Rules.Screw is { } screw) notes.Add($"Meetings: {SheetWords.Several(frame.Rules.ScrewCount, SheetWords.Spoken(screw.Name))} each{(frame.Rules.Glue is { } glue ? $", glued with {SheetWords.Spoken(glue.Name)}" : "")}.");
        foreach (var group in frames.SelectMany(f => f.Members).SelectMany(m => m.Cuts(options.Length).Select(c => (Cut: c, m.Key))).GroupBy(c => c.Cut, StringComparer.Ordinal))
            notes.Add($"{string.Join(", ", group.Select(g => g.Key))}: {group.Key}.");
        var pockets = frames.SelectMany(f => f.Meetings).Where(m => m.Pockets.Length > 0 && m.Pocket is not null).GroupBy(m => (Pocket: m.Pocket!, Thick: options.Length(m.First.Depth))).ToList();
        foreach (var (pocket, thick) in pockets.Select(g => g.Key))
            notes.Add($"Black dots {(pockets.Count == 1 ? "" : $"in members {thick} thick ")}are pocket holes: drill {options.Length(Pockets.Diameter)}, {LengthText.OfAngle(pocket.Angle)} from the {(pocket.FromSide ? "wide side that looks into the bay" : "face")}, begun {options.Length(pocket.FromEnd)} from the end, {options.Length(pocket.Depth)} deep to the shoulder. Screws {options.Length(pocket.ScrewLength)} long.");
        if (frames.SelectMany(f => f.Meetings).Any(m => m.Driven < m.Count)) notes.Add("Where a pocket would break out of its member, or into another, none is drawn: glue that end, or drive a screw through the other member into it.");
        string[] open = [.. members.SelectMany(m => m.Holes).Where(h => h.Kind is HoleKind.Pour or HoleKind.Vent).Select(h => (h.Kind, h.Diameter)).Distinct().OrderByDescending(h => h.Diameter).Select(h => $"{(h.Kind == HoleKind.Pour ? "pour" : "vent")} holes {options.Length(h.Diameter)}")];
        if (open.Length > 0) notes.Add($"Open circles are {string.Join(", ", open)}: at a third and two thirds of each bay, or stretch that the foam flows.");
        return new SideBlock.Words("Frame", [.. notes]);
    }

    private static IEnumerable<SideBlock> Tables(TableDrawing table, int rows) => table.Rows.Chunk(rows).Select(part => new SideBlock.Rows(table.Of([.. part])));
}
