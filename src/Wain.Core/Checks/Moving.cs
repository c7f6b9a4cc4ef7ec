using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Framing;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>Finds a place for an opening that does not fit where it is.</summary>
internal static class Moving
{
    /// <summary>
    /// The nearest place, straight along or up, with room for members all round: as text for the opening's own <c>lower left</c> or <c>lower right</c>.
    /// Null where the opening is placed in another way, is a mirror's, or has no such place.
    /// </summary>
    public static Fix? Into(Spec spec, PanelFrame frame, PlacedOpening opening)
    {
        if (frame.Clear is not { } clear || frame.Panel.Mirrored is not null || opening.Fact.Find("lower") is not { } place || spec.Evaluator.Place(place, "at") is not { } at) return null;
        double room = opening.Framed ? frame.Layer.FaceWidth : 0;
        var (low, high, hole) = (clear.Bounds.Min + new Vec2(room, room), clear.Bounds.Max - new Vec2(room, room), opening.Hole.Bounds);
        if (high.X - low.X < hole.Width || high.Y - low.Y < hole.Height) return null;
        // To whole sixteenths, inward.
        static double Shift(double from, double to, double low, double high) =>
            from < low ? Math.Ceiling((low - from) * 16 / 25.4 - 1e-9) * 25.4 / 16 : to > high ? -Math.Ceiling((to - high) * 16 / 25.4 - 1e-9) * 25.4 / 16 : 0;
        double along = Shift(hole.Min.X, hole.Max.X, low.X, high.X), up = Shift(hole.Min.Y, hole.Max.Y, low.Y, high.Y);
        if (along == 0 && up == 0 || !clear.Contains(opening.Hole.Translated(new Vec2(along, up)))) return null;
        string text = $"({Show.Length(at[0] + (place.Word("corner") == "right" ? -along : along))}, {Show.Length(at[1] + up)})";
        return Fixing.Write(spec, place, "at", text);
    }
}
