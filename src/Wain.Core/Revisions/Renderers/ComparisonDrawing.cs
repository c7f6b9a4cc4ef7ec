using System.Collections.Immutable;
using Wain.Core.Drawing;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;

namespace Wain.Core.Revisions.Renderers;

/// <summary>
/// A changed panel seen from outside: as it was in dashed lines, as it is in full lines. What is cut anew is laid on what it was by the lower left corners,
/// so that the shapes compare; what only moved is drawn where it was and where it is.
/// </summary>
public static class ComparisonDrawing
{
    private const double Width = 180, Height = 130, Margin = 8, Foot = 22;

    /// <summary>A picture for each panel that is told, with the name of its file; a mirror's is the mirror of its original's.</summary>
    public static IEnumerable<(string Name, Picture Picture)> Of(Comparison c) =>
        c.Changes.Where(x => x.Thing == "panel" && (x.Before ?? x.After) is not null).Select(x => (x.Name, Draw(x)));

    private static Picture Draw(Change change)
    {
        var olds = Contours(change.Before, Shift(change)).ToList();
        var news = Contours(change.After, Vec2.Zero).ToList();
        var extent = olds.Concat(news).Aggregate(Box.Empty, (b, c) => b.Union(c.Bounds));
        var view = View.Fit(extent, new Box(Margin, Margin + Foot, Width - Margin, Height - Margin - 10));
        var marks = ImmutableArray.CreateBuilder<Mark>();
        if (news.Count > 0) marks.Add(new PathMark([.. news.Select(c => c.Map(view))], Pen.Outline));
        // The old lines lie over the new ones, so that what stays shows as one line and what goes shows dashed.
        if (olds.Count > 0) marks.Add(new PathMark([.. olds.Select(c => c.Map(view))], new Pen(LineType.Dashed, 0.35)));
        string title = $"{change.Name}: {ComparisonWords.Verb(change)}";
        marks.Add(new TextMark(new(Margin, Height - Margin - 4), title, TextMark.Medium, Bold: true));
        double y = Margin + Foot - 8;
        foreach (string line in change.Details.Select(ComparisonWords.Of).Take(3))
        {
            marks.Add(new TextMark(new(Margin, y), line));
            y -= 4.5;
        }
        double right = Width - Margin - 52;
        marks.Add(new PathMark(Contour.Line(new(right, Margin + 9), new(right + 14, Margin + 9)), new Pen(LineType.Dashed, 0.35)));
        marks.Add(new TextMark(new(right + 16, Margin + 8), "old, from outside"));
        marks.Add(new PathMark(Contour.Line(new(right, Margin + 3), new(right + 14, Margin + 3)), Pen.Outline));
        marks.Add(new TextMark(new(right + 16, Margin + 2), $"new, {Scales.Text(view.Scale)}"));
        return new Picture(title, "The panel seen from outside. Dashed: as it was. Full lines: as it is now.", Width, Height, marks.ToImmutable());
    }

    /// <summary>Where the old panel lay, as seen in the plane of the new one.</summary>
    private static Vec2 Shift(Change change)
    {
        if (change is not { Kind: ChangeKind.Moved, Before: { } before, After: { } after } || before.Face.U.AngleTo(after.Face.U) > 1e-3) return Vec2.Zero;
        var was = after.Face.ToLocal(Renames.Anchor(before));
        return new Vec2(was.X, was.Y) - after.Outline.Bounds.Min;
    }

    private static IEnumerable<Contour> Contours(PlacedPanel? panel, Vec2 shift)
    {
        if (panel is null) yield break;
        var to = shift - panel.Outline.Bounds.Min;
        yield return Contour.Of(panel.Outline.Translated(to));
        foreach (var opening in panel.Openings) yield return Contour.Of(opening.Hole.Translated(to));
    }
}
