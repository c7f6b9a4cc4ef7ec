using System.Collections.Immutable;
using Wain.Core.Geometry.Kernel;

namespace Wain.Core.Drawing.Panels;

/// <summary>
/// The notes of a panel's view. Those on its left half stand between the part and the dimensions at its left, level with what they name and clear of
/// the extension lines; the others, and those that find no such place, stand at its right.
/// </summary>
/// <param name="Left">Room that those at the left take between the part and the dimension line, mm; 0 if there are none.</param>
/// <param name="Right">Those that are left for the right.</param>
internal sealed record SideNotes(DimensionLayout Layout, double Left, ImmutableArray<Note> Right)
{
    private const double Gap = 2, Step = 0.5, FarthestAway = 25, Under = 20;

    /// <summary>Beside the part, where those at the right stand while they are few.</summary>
    /// <param name="area">What the view has, paper mm.</param>
    /// <param name="top">As high as they may stand, paper mm.</param>
    public static Box Beside(Box area, Box part, double top) => area with { Bottom = Math.Max(area.Bottom, part.Bottom - Under), Top = top };

    /// <summary>True if those at the right find room in a box.</summary>
    public bool Fit(Box box) => Notes.Stack(Right) <= box.Height;

    /// <param name="part">The part on paper, mm.</param>
    /// <param name="lines">The extension lines that run to the left, by their height on paper.</param>
    /// <param name="taken">Texts within the part.</param>
    public static SideNotes Of(IReadOnlyList<Note> notes, Box part, IReadOnlyCollection<double> lines, IReadOnlyCollection<Box> taken, double height = TextMark.Small)
    {
        var marks = ImmutableArray.CreateBuilder<Mark>();
        var labels = ImmutableArray.CreateBuilder<LabelBox>();
        var leaders = new List<(Vec2 A, Vec2 B)>();
        var boxes = new List<Box>();
        var right = ImmutableArray.CreateBuilder<Note>();
        double edge = part.Left - Gap;
        foreach (var note in notes.OrderBy(n => n.Target.X).ThenBy(n => n.Target.Y))
        {
            if (note.Target.X < part.Centre.X && Place(note) is { } layout)
            {
                marks.AddRange(layout.Marks);
                labels.AddRange(layout.Labels);
                boxes.Add(Notes.Extent(note, layout.Bottom, Side.Left, edge, height));
                leaders.Add((layout.Shelf, note.Target));
            }
            else right.Add(note);
        }
        return new(new(marks.ToImmutable(), labels.ToImmutable(), boxes.Aggregate(Box.Empty, (a, b) => a.Union(b))), boxes.Count == 0 ? 0 : part.Left - boxes.Min(b => b.Left), right.ToImmutable());

        // As level as can be, from the height of the target up and down.
        (ImmutableArray<Mark> Marks, ImmutableArray<LabelBox> Labels, double Bottom, Vec2 Shelf)? Place(Note note)
        {
            double level = note.Target.Y - Notes.ShelfOf(0, height);
            for (int i = 0; i <= 2 * FarthestAway / Step; i++)
            {
                double bottom = level + (i % 2 == 0 ? 1 : -1) * ((i + 1) / 2) * Step;
                var box = Notes.Extent(note, bottom, Side.Left, edge, height);
                var shelf = new Vec2(edge, Notes.ShelfOf(bottom, height));
                if (box.Bottom < part.Bottom || box.Top > part.Top || lines.Any(y => y > box.Bottom && y < box.Top) || boxes.Exists(b => b.Grow(Gap / 4).Overlaps(box))) continue;
                if (leaders.Exists(l => Notes.Cross(l.A, l.B, shelf, note.Target)) || boxes.Exists(b => b.Crosses(shelf, note.Target)) || taken.Any(b => !b.Contains(note.Target) && b.Crosses(shelf, note.Target))) continue;
                var (drawn, texts) = Notes.Draw(note, bottom, Side.Left, edge, height);
                return (drawn, texts, bottom, shelf);
            }
            return null;
        }
    }
}
