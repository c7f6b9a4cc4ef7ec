using System.Collections.Immutable;
using Wain.Core.Geometry.Kernel;

namespace Wain.Core.Drawing;

/// <summary>What a picture is made of. Coordinates are mm on paper unless a <see cref="View"/> has still to be applied.</summary>
public abstract record Mark
{
    /// <summary>The space it takes; lines count without their width.</summary>
    public abstract Box Bounds { get; }

    /// <summary>Through a view. Text keeps its height and its angle: a drawing is scaled, its lettering is not.</summary>
    public abstract Mark Map(View view);
}

/// <summary>Lines and areas: contours drawn with a pen, filled, or both. A contour inside another is a hole (even-odd rule).</summary>
/// <param name="Pen">Null for no line.</param>
/// <param name="Tone">Grey of the area, 0 black to 1 white; null for no area.</param>
public sealed record PathMark(ImmutableArray<Contour> Contours, Pen? Pen, double? Tone = null) : Mark
{
    public PathMark(Contour contour, Pen? pen, double? tone = null) : this([contour], pen, tone) { }

    public override Box Bounds => Contours.Aggregate(Box.Empty, (b, c) => b.Union(c.Bounds));

    public override Mark Map(View view) => this with { Contours = [.. Contours.Select(c => c.Map(view))] };
}

public enum Anchor
{
    Start,
    Middle,
    End,
}

/// <summary>One line of lettering.</summary>
/// <param name="At">On the base line, at the start, middle or end of the text.</param>
/// <param name="Height">Height of the capitals, mm; ISO 3098's series is 2.5, 3.5, 5, 7, 10. Nothing under 2.5 is drawn.</param>
/// <param name="Angle">Radians to the left from level.</param>
/// <param name="Hollow">Only the outlines of the letters, in grey: over a drawing without hiding it.</param>
public sealed record TextMark(Vec2 At, string Text, double Height = TextMark.Small, Anchor Anchor = Anchor.Start, double Angle = 0, bool Bold = false, bool Hollow = false) : Mark
{
    public const double Small = 2.5, Medium = 3.5, Large = 5;

    /// <summary>Grey and width (mm) of the outline of hollow letters.</summary>
    public const double HollowTone = 0.55, HollowWidth = 0.25;

    /// <summary>A white area under the text, for where lines would run through it.</summary>
    public Mark Backing => new PathMark(Contour.Rectangle(Bounds.Grow(0.4)), null, 1);

    public double Width => Lettering.Width(Text, Height, Bold);

    /// <summary>Around capitals and descenders, at any angle.</summary>
    public override Box Bounds
    {
        get
        {
            double left = Anchor switch { Anchor.Start => 0, Anchor.Middle => -Width / 2, _ => -Width };
            double low = -Lettering.Descent * Height;
            var at = At;
            var along = Vec2.FromAngle(Angle);
            Vec2 Corner(double x, double y) => at + along * x + along.Left * y;
            return Box.Of(Corner(left, low), Corner(left + Width, low), Corner(left + Width, Height), Corner(left, Height));
        }
    }

    public override Mark Map(View view) => this with { At = view.ToPaper(At) };
}

/// <summary>Marks that belong together, with the name of what they show.</summary>
/// <param name="Clip">Nothing outside this box is drawn.</param>
public sealed record GroupMark(string? Title, ImmutableArray<Mark> Marks, Box? Clip = null) : Mark
{
    public override Box Bounds => Marks.Aggregate(Box.Empty, (b, m) => b.Union(m.Bounds));

    public override Mark Map(View view) => new GroupMark(Title, [.. Marks.Select(m => m.Map(view))], Clip is { } clip ? view.ToPaper(clip) : null);
}

/// <summary>A finished page: what the writers take.</summary>
/// <param name="Width">mm.</param>
/// <param name="Height">mm.</param>
/// <param name="Description">Said to who can't see it.</param>
public sealed record Picture(string Title, string Description, double Width, double Height, ImmutableArray<Mark> Marks);
