using System.Collections.Immutable;
using Wain.Core.Geometry.Kernel;

namespace Wain.Core.Drawing;

/// <summary>A note on a place of the drawing.</summary>
/// <param name="Target">Where its leader ends, paper mm.</param>
/// <param name="Lines">Its text, line by line.</param>
/// <param name="End">Arrow on an outline, dot within an area.</param>
public sealed record Note(Vec2 Target, ImmutableArray<string> Lines, LineEnd End = LineEnd.Dot);

/// <summary>
/// Notes in the margins left and right of a drawing, joined to their places by straight leaders with a short shelf.
/// Notes never overlap, and leaders never cross each other: on each side, from the bottom up, each shelf takes the place that a ray turning
/// from straight down meets first, so all places still to be joined lie above that leader, as do their shelves.
/// </summary>
public static class Notes
{
    private const double Shelf = 3, TextGap = 1, NoteGap = 1.5;

    /// <param name="notes">Targets lie within <paramref name="drawing"/>.</param>
    /// <param name="drawing">What the texts keep clear of, paper mm.</param>
    /// <param name="area">Where texts may stand; left and right of the drawing it must leave room for their width.</param>
    /// <param name="sides">Left, Right, or both (the default), each taking the notes nearer to it, in equal numbers as far as they fit.</param>
    public static DimensionLayout Layout(IReadOnlyCollection<Note> notes, Box drawing, Box area, IReadOnlyCollection<Side>? sides = null, double height = TextMark.Small)
    {
        bool left = sides is null || sides.Contains(Side.Left), right = sides is null || sides.Contains(Side.Right);
        // Leaders of the left never cross those of the right, because all targets of the left lie left of all targets of the right.
        var byX = notes.OrderBy(n => n.Target.X).ThenBy(n => n.Target.Y).ThenBy(n => string.Join('\n', n.Lines), StringComparer.Ordinal).ToList();
        int split = !left ? 0 : !right ? byX.Count : SplitAt(byX, drawing.Centre.X, area.Height, height);
        var marks = ImmutableArray.CreateBuilder<Mark>();
        var labels = ImmutableArray.CreateBuilder<LabelBox>();
        Column(byX.Take(split), Side.Left, drawing.Left - 2, area, height, marks, labels);
        Column(byX.Skip(split), Side.Right, drawing.Right + 2, area, height, marks, labels);
        var all = marks.ToImmutable();
        return new(all, labels.ToImmutable(), all.Aggregate(Box.Empty, (b, m) => b.Union(m.Bounds)));
    }

    /// <summary>The least height of a column that holds these.</summary>
    public static double Stack(IEnumerable<Note> column, double height = TextMark.Small) => column.Sum(n => HeightOf(n, height) + NoteGap);

    private static double HeightOf(Note note, double height) => (1 + (note.Lines.Length - 1) * Lettering.Leading + Lettering.Descent) * height;

    /// <summary>At the middle of the drawing, moved if one side would be more than full.</summary>
    private static int SplitAt(List<Note> byX, double middle, double room, double height)
    {
        int split = byX.Count(n => n.Target.X < middle);
        double Total(IEnumerable<Note> column) => Stack(column, height);
        while (split > 0 && Total(byX.Take(split)) > room && Total(byX.Take(split)) > Total(byX.Skip(split))) split--;
        while (split < byX.Count && Total(byX.Skip(split)) > room && Total(byX.Skip(split)) > Total(byX.Take(split))) split++;
        return split;
    }

    private static void Column(IEnumerable<Note> column, Side side, double edge, Box area, double height, ImmutableArray<Mark>.Builder marks, ImmutableArray<LabelBox>.Builder labels)
    {
        var waiting = column.ToList();
        if (waiting.Count == 0) return;
        bool left = side == Side.Left;
        double total = waiting.Sum(n => HeightOf(n, height));
        double gap = waiting.Count == 1 ? NoteGap : Math.Clamp((area.Height - total) / (waiting.Count - 1), NoteGap, 2 * height);
        double stack = total + gap * (waiting.Count - 1);
        double wanted = waiting.Average(n => n.Target.Y) - stack / 2;
        double bottom = area.Top - stack < area.Bottom ? area.Centre.Y - stack / 2 : Math.Clamp(wanted, area.Bottom, area.Top - stack);

        var order = new List<Note>();
        var bottoms = new List<double>();
        while (waiting.Count > 0)
        {
            // The shelf stands at a note's lowest line, so that its place is known before its note is chosen.
            var shelf = new Vec2(edge, ShelfOf(bottom, height));
            var next = waiting.MinBy(n => (FromStraightDown(n.Target - shelf, left), (n.Target - shelf).Length));
            waiting.Remove(next!);
            order.Add(next!);
            bottoms.Add(bottom);
            bottom += HeightOf(next!, height) + gap;
        }

        var relaxed = Spreading.Place(
            [.. order.Select(n => n.Target.Y - ShelfOf(0, height))], i => HeightOf(order[i], height) + NoteGap, area.Bottom, area.Top - HeightOf(order[^1], height));
        // Level leaders read best; where they would cross, the even stack that can't stays.
        bool inTurn = relaxed.Zip(relaxed.Skip(1)).All(p => p.First < p.Second);
        if (inTurn && !AnyCross(order, relaxed, edge, height)) bottoms = [.. relaxed];

        for (int i = 0; i < order.Count; i++)
        {
            var (drawn, texts) = Draw(order[i], bottoms[i], side, edge, height);
            marks.AddRange(drawn);
            labels.AddRange(texts);
        }
    }

    /// <summary>One note: its leader, from its target to a shelf that begins at an edge, and its text.</summary>
    /// <param name="bottom">Of its text, paper mm.</param>
    internal static (ImmutableArray<Mark> Marks, ImmutableArray<LabelBox> Labels) Draw(Note note, double bottom, Side side, double edge, double height)
    {
        bool left = side == Side.Left;
        var marks = ImmutableArray.CreateBuilder<Mark>();
        var labels = ImmutableArray.CreateBuilder<LabelBox>();
        var shelf = new Vec2(edge, ShelfOf(bottom, height));
        var start = shelf + new Vec2(left ? -Shelf : Shelf, 0);
        marks.Add(Arrows.Line(start, shelf, note.Target));
        marks.AddRange(Arrows.End(note.End, note.Target, note.Target - shelf));
        for (int k = 0; k < note.Lines.Length; k++)
        {
            double y = bottom + (Lettering.Descent + (note.Lines.Length - 1 - k) * Lettering.Leading) * height;
            var text = new TextMark(new(start.X + (left ? -TextGap : TextGap), y), note.Lines[k], height, left ? Anchor.End : Anchor.Start);
            marks.Add(text);
            labels.Add(new(note.Lines[k], text.Bounds));
        }
        return (marks.ToImmutable(), labels.ToImmutable());
    }

    /// <summary>What the text of a note takes with its shelf.</summary>
    internal static Box Extent(Note note, double bottom, Side side, double edge, double height)
    {
        double reach = Shelf + TextGap + note.Lines.Max(l => Lettering.Width(l, height)), top = bottom + HeightOf(note, height);
        return side == Side.Left ? new(edge - reach, bottom, edge, top) : new(edge, bottom, edge + reach, top);
    }

    internal static double ShelfOf(double bottom, double height) => bottom + (Lettering.Descent + 0.5) * height;

    /// <summary>The turn from straight down to a direction, through the side that the drawing lies on.</summary>
    private static double FromStraightDown(Vec2 d, bool drawingIsRight) => Math.Atan2(drawingIsRight ? d.X : -d.X, -d.Y);

    private static bool AnyCross(List<Note> order, IReadOnlyList<double> bottoms, double edge, double height)
    {
        for (int i = 0; i < order.Count; i++)
        {
            for (int k = i + 1; k < order.Count; k++)
            {
                if (Cross(new(edge, ShelfOf(bottoms[i], height)), order[i].Target, new(edge, ShelfOf(bottoms[k], height)), order[k].Target)) return true;
            }
        }
        return false;
    }

    internal static bool Cross(Vec2 a, Vec2 b, Vec2 c, Vec2 d)
    {
        double Turn(Vec2 p, Vec2 q, Vec2 r) => (q - p).Cross(r - p);
        return Turn(a, b, c) * Turn(a, b, d) < 0 && Turn(c, d, a) * Turn(c, d, b) < 0;
    }
}
