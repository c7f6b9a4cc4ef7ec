using System.Collections.Immutable;

namespace Wain.Core.Drawing;

/// <summary>Faces as one direction sees them, in paint order: the same at every scale, so made once.</summary>
/// <param name="Extent">The space that all of them take, mm of the view's plane.</param>
/// <param name="LongestName">On paper, mm.</param>
public sealed record Painting(Box Extent, double LongestName, ImmutableArray<SeenFace> Alternate, ImmutableArray<SeenFace> Solid)
{
    public static Painting Of(IReadOnlyCollection<Face> faces, Direction direction) => new(
        Box.Of(faces.SelectMany(f => f.Outline).Select(p => Projection.Project(p, direction).At)),
        faces.Where(f => !f.Alternate).Select(f => Lettering.Width(f.Name, TextMark.Small)).DefaultIfEmpty(0).Max(),
        Projection.InPaintOrder(faces.Where(f => f.Alternate), direction),
        Projection.InPaintOrder(faces.Where(f => !f.Alternate), direction));
}

/// <summary>Views of the whole: visible outlines, the other position of what moves, names, overall dimensions.</summary>
public static class ViewDrawing
{
    private const double DimensionRoom = 16, HeightRoom = 12, Slack = 2;

    /// <summary>One view, with names within their parts where they fit, else in the margins.</summary>
    /// <param name="painting">All faces; names repeat over the faces of a part.</param>
    /// <param name="area">Paper mm that may be used, names and dimensions included.</param>
    /// <param name="lengths">Null leaves the overall dimensions out.</param>
    /// <param name="scale">Null for the largest that fits.</param>
    /// <param name="named">Parts that are named elsewhere and need no name here; null for none.</param>
    public static DimensionLayout Draw(string title, Painting painting, Box area, LengthFormat? lengths, double? scale = null, IReadOnlySet<string>? named = null)
    {
        var extent = painting.Extent;
        if (extent.IsEmpty) return new([], [], Box.Empty);
        var room = Room(painting.LongestName, area, lengths is not null);
        var view = scale is { } s ? View.Centred(s, extent, room) : View.Fit(extent, room);
        var drawing = view.ToPaper(extent);

        var marks = ImmutableArray.CreateBuilder<Mark>();
        foreach (var face in painting.Alternate) marks.Add(Paint(face.Through(view)));
        var solid = painting.Solid.Select(f => f.Through(view)).ToList();
        marks.AddRange(solid.Select(Paint));

        // Names in the margin must not be struck by the extension lines of the height: it stands outside of them if they keep within it,
        // and otherwise between the view and the names, where leaders pass under its value.
        bool within = true;
        DimensionLayout LayOut(IReadOnlyCollection<Note> notes)
        {
            double half = Math.Max(Notes.Stack(notes.Where(n => n.Target.X < drawing.Centre.X)), Notes.Stack(notes.Where(n => n.Target.X >= drawing.Centre.X)));
            within = half < drawing.Height - 5;
            bool between = lengths is not null && !within;
            var names = new Box(area.Left, within ? drawing.Bottom + 1 : room.Bottom, area.Right, within ? drawing.Top - 2 : area.Top);
            return Notes.Layout(notes, between ? drawing with { Right = drawing.Right + HeightRoom } : drawing, names);
        }
        var (names, margin) = Labelling.Place(solid, LayOut, named: named);
        marks.AddRange(margin.Marks);
        marks.AddRange(names);
        var labels = names.Select(n => new LabelBox(n.Text, n.Bounds)).Concat(margin.Labels).ToList();

        double captionTop = drawing.Bottom - 3;
        if (lengths is not null)
        {
            double right = !within ? drawing.Right + 8 : Math.Max(drawing.Right, margin.Bounds.IsEmpty ? drawing.Right : margin.Bounds.Right) + 7;
            DimensionLayout[] overall =
            [
                Dimensions.Linear(new(drawing.Left, drawing.Bottom), new(drawing.Right, drawing.Bottom), -10, LengthText.Of(extent.Width, lengths)),
                Dimensions.Linear(new(drawing.Right, drawing.Bottom), new(drawing.Right, drawing.Top), drawing.Right - right, LengthText.Of(extent.Height, lengths)),
            ];
            foreach (var one in overall)
            {
                marks.AddRange(one.Marks.SelectMany(m => m is TextMark text ? new[] { text.Backing, text } : [m]));
                labels.AddRange(one.Labels);
            }
            captionTop = drawing.Bottom - DimensionRoom + 2;
        }
        var caption = new TextMark(new(drawing.Centre.X, captionTop - TextMark.Medium), $"{title}  {Scales.Text(view.Scale)}", TextMark.Medium, Anchor.Middle, Bold: true);
        marks.Add(caption);
        labels.Add(new(caption.Text, caption.Bounds));
        var group = new GroupMark(title, marks.ToImmutable());
        return new([group], [.. labels], group.Bounds);
    }

    /// <summary>What is left for the view itself after names in both margins, dimensions and the caption.</summary>
    private static Box Room(double longestName, Box area, bool dimensions)
    {
        double side = Math.Min(longestName + 9, area.Width / 4);
        return new(area.Left + side, area.Bottom + 8 + (dimensions ? DimensionRoom : 0), area.Right - side - (dimensions ? HeightRoom : 0), area.Top - 3);
    }

    /// <summary>Plan above left side, rear to the right of the side: one scale for all three, so that they line up as third-angle views do.</summary>
    public static Sheet ThreeViews(Paper paper, TitleBlock title, IReadOnlyCollection<Face> faces, LengthFormat lengths)
    {
        var area = SheetFrame.Area(paper, title);
        Painting fromAbove = Painting.Of(faces, Direction.Plan), fromLeft = Painting.Of(faces, Direction.LeftSide), fromBehind = Painting.Of(faces, Direction.Rear);
        Box plan = fromAbove.Extent, side = fromLeft.Extent, rear = fromBehind.Extent;
        if (plan.IsEmpty) return new(paper, title, []);
        double row = area.Height - 2 * (area.Height - Room(fromAbove.LongestName, area, true).Height);
        // Names and heights take at least this beside two views; how much more shows once they are laid out.
        const double overhead = 2 * HeightRoom;
        double scale = Scales.AtLeast(Math.Max((side.Width + rear.Width) / (area.Width - overhead), (plan.Height + side.Height) / row));
        while (true)
        {
            double left = area.Left + area.Width * Share(side.Width, rear.Width, overhead * scale);
            double middle = area.Bottom + area.Height * Share(side.Height, plan.Height, (area.Height - row) * scale);
            // A part is named once, in the first of the views that shows it.
            var named = new HashSet<string>(StringComparer.Ordinal);
            DimensionLayout View(string title, Painting painting, Box where)
            {
                var view = Draw(title, painting, where, lengths, scale, named);
                named.UnionWith(view.Labels.Select(l => l.Text));
                return view;
            }
            var above = View("Plan", fromAbove, new(area.Left, middle, left, area.Top));
            var below = View("Left side", fromLeft, new(area.Left, area.Bottom, left, middle));
            var beside = View("Rear", fromBehind, new(left, area.Bottom, area.Right, middle));
            // Long names can take more than their share: then the views move, the two at the left together so that they stay in line.
            double free = area.Left - Math.Min(above.Bounds.Left, below.Bounds.Left), pull = Math.Max(0, beside.Bounds.Right - area.Right);
            double clash = Math.Max(0, below.Bounds.Right + 4 - (beside.Bounds.Left - pull)), push = Math.Max(free, -clash);
            bool fits = beside.Bounds.Left - pull > Math.Max(below.Bounds.Right + push, area.Left) + 3 && above.Bounds.Bottom > Math.Max(below.Bounds.Top, above.Bounds.Right + push > beside.Bounds.Left - pull ? beside.Bounds.Top : double.NegativeInfinity) - Slack && Math.Min(below.Bounds.Bottom, beside.Bounds.Bottom) >= area.Bottom - Slack && above.Bounds.Top <= area.Top + Slack;
            if (fits || scale > 1e4)
            {
                ImmutableArray<Mark> marks = [.. above.Marks.Concat(below.Marks).Select(m => m.Map(new View(1, new(push, 0)))), .. beside.Marks.Select(m => m.Map(new View(1, new(-pull, 0))))];
                return new(paper, title with { Scale = scale }, marks, "Plan, left side and rear view; the raised state in dashed lines.");
            }
            scale = Scales.AtLeast(scale * 1.01);
        }
    }

    /// <summary>The part of a length that the first of two gets, when each needs half the overhead besides its own size.</summary>
    private static double Share(double first, double second, double overhead) => (first + overhead / 2) / (first + second + overhead);

    private static Mark Paint(SeenFace face) => new PathMark(face.Contours, face.Face.Alternate ? Pen.Alternate : Pen.Edge, face.EdgeOn ? null : 1);
}
