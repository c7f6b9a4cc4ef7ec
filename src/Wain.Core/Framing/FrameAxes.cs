using Wain.Core.Geometry.Kernel;

namespace Wain.Core.Framing;

/// <summary>
/// The axes that a frame is laid out in, so that one rule serves all: studs run along +Y and follow each other along +X. A mirrored panel is laid out as its
/// original and turned round afterwards, so both frames are mirror images to the last bit.
/// </summary>
public readonly record struct FrameAxes(bool Mirrored, bool Turned)
{
    public Vec2 To(Vec2 p)
    {
        var q = Mirrored ? new Vec2(-p.X, p.Y) : p;
        return Turned ? new Vec2(q.Y, -q.X) : q;
    }

    public Vec2 Back(Vec2 p)
    {
        var q = Turned ? new Vec2(-p.Y, p.X) : p;
        return Mirrored ? new Vec2(-q.X, q.Y) : q;
    }

    public Outline To(Outline outline)
    {
        var axes = this with { Mirrored = false };
        var o = Mirrored ? OtherHand(outline) : outline;
        return Turned ? Moved(o, axes.To) : o;
    }

    public Outline Back(Outline outline)
    {
        var axes = this with { Mirrored = false };
        var o = Turned ? Moved(outline, axes.Back) : outline;
        return Mirrored ? OtherHand(o) : o;
    }

    // Left and right are always told as seen from outside, so a mirror image changes the two names.
    private static Outline OtherHand(Outline outline) => new([.. outline.Mirrored.Edges.Select(e => e.Name is "left" or "right" ? e with { Name = PanelFacts.OtherHand(e.Name) } : e)]);

    private static Outline Moved(Outline outline, Func<Vec2, Vec2> move) => new([.. outline.Edges.Select(e => e with { Start = move(e.Start) })]);
}
