using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Framing;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Syntax;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>Finds a place for an opening that does not fit where it is, as text for the line that places it. An opening of a mirrored panel moves with its original.</summary>
internal static class Moving
{
    /// <summary>The nearest place, straight along or up, with room for members all round; null if there is none.</summary>
    public static Fix? Into(Spec spec, PanelFrame frame, PlacedOpening opening)
    {
        if (frame.Clear is not { } clear) return null;
        return Into(spec, frame.Panel, clear, RoomRound(frame, opening), opening);
    }

    /// <summary>The nearest place within a panel that has no frame; null if there is none.</summary>
    public static Fix? Within(Spec spec, PlacedPanel panel, PlacedOpening opening) => Within(spec, panel, opening, panel.Outline);

    /// <summary>The nearest place within a part of a panel; null if there is none.</summary>
    public static Fix? Within(Spec spec, PlacedPanel panel, PlacedOpening opening, Outline part) => Into(spec, panel, part, 0, opening);

    private static Fix? Into(Spec spec, PlacedPanel panel, Outline clear, double room, PlacedOpening opening) =>
        Inside(spec.Say, clear, room, opening) is not { } shift ? null : (shift.Length > Far ? Exchanged(spec, panel, clear, room, opening) : null) ?? By(spec, panel, opening, shift);

    /// <summary>4 in: farther off than this no tape was misread, and along and up may have changed places.</summary>
    private const double Far = 4 * 25.4;

    private static Fix? Exchanged(Spec spec, PlacedPanel panel, Outline clear, double room, PlacedOpening opening)
    {
        if (panel.Mirrored is not null || opening.Fact.Body.FirstOrDefault(f => f.Keyword == "lower") is not { } place || !place.Slots.TryGetValue("at", out var text)) return null;
        if (text.Terms[0] is not PlaceExpression { Items: [MeasureExpression along, MeasureExpression up] } at) return null;
        double by = up.Value.Millimetres - along.Value.Millimetres;
        var hole = opening.Hole.Translated(new Vec2(place.Word("corner") == "right" ? -by : by, -by));
        string written = $"({up.Span.Text}, {along.Span.Text})";
        return Inside(spec.Say, clear, room, hole) == new Vec2(0, 0) ? new Fix(at.Span, written, $"write {written}") : null;
    }

    /// <summary>The shortest move of either of two openings that parts them: with a member of its own for each if there is room, else with one that both share.</summary>
    /// <param name="needs">mm that one member takes.</param>
    public static Fix? Apart(Spec spec, PanelFrame frame, PlacedOpening one, PlacedOpening other, double needs)
    {
        if (frame.Clear is not { } clear) return null;
        foreach (double gap in new[] { 2 * needs, needs }.Select(g => Math.Max(g, spec.Say.Step)).Distinct())
        {
            var moves =
                from pair in new[] { (Moved: one, Fixed: other), (Moved: other, Fixed: one) }
                from shift in Past(spec.Say, pair.Moved.Hole.Bounds, pair.Fixed.Hole.Bounds, gap)
                let hole = pair.Moved.Hole.Translated(shift)
                where Inside(spec.Say, clear, RoomRound(frame, pair.Moved), hole) == new Vec2(0, 0)
                    && frame.Panel.Openings.All(o => ReferenceEquals(o, pair.Moved) || Between(hole.Bounds, o.Hole.Bounds) >= gap - 0.01)
                orderby shift.Length
                select By(spec, frame.Panel, pair.Moved, shift);
            if (moves.OfType<Fix>().FirstOrDefault() is { } fix) return fix;
        }
        return null;
    }

    private static double RoomRound(PanelFrame frame, PlacedOpening opening) => opening.Framed ? frame.Layer.FaceWidth : 0;

    private static Vec2? Inside(Say say, Outline clear, double room, PlacedOpening opening) => Inside(say, clear, room, opening.Hole) is { } shift && (shift.X != 0 || shift.Y != 0) ? shift : null;

    // How far a hole has to move to lie within an outline less the room beside it; null if it does not fit.
    private static Vec2? Inside(Say say, Outline clear, double room, Outline hole)
    {
        var (low, high, box) = (clear.Bounds.Min + new Vec2(room, room), clear.Bounds.Max - new Vec2(room, room), hole.Bounds);
        if (high.X - low.X < box.Width || high.Y - low.Y < box.Height) return null;
        double Shift(double from, double to, double low, double high) => from < low - 1e-6 ? say.Up(low - from) : to > high + 1e-6 ? -say.Up(to - high) : 0;
        var shift = new Vec2(Shift(box.Min.X, box.Max.X, low.X, high.X), Shift(box.Min.Y, box.Max.Y, low.Y, high.Y));
        return clear.Contains(hole.Translated(shift)) ? shift : null;
    }

    private static IEnumerable<Vec2> Past(Say say, Box2 moved, Box2 still, double gap)
    {
        yield return new(say.Up(still.Max.X + gap - moved.Min.X), 0);
        yield return new(-say.Up(moved.Max.X - still.Min.X + gap), 0);
        yield return new(0, say.Up(still.Max.Y + gap - moved.Min.Y));
        yield return new(0, -say.Up(moved.Max.Y - still.Min.Y + gap));
    }

    private static double Between(Box2 a, Box2 b) => Math.Max(Math.Max(a.Min.X - b.Max.X, b.Min.X - a.Max.X), Math.Max(a.Min.Y - b.Max.Y, b.Min.Y - a.Max.Y));

    private static Fix? By(Spec spec, PlacedPanel panel, PlacedOpening opening, Vec2 shift)
    {
        if (panel.Mirrored is not null || opening.Fact.Body.FirstOrDefault(f => f.Keyword is "lower" or "upper" or "centred") is not { } place) return null;
        string At(double along, double up) => $"({spec.Say.Length(along)}, {spec.Say.Length(up)})";
        if (place.Has("at") && spec.Evaluator.Place(place, "at") is { } at) return Fixing.Write(spec, place, "at", At(at[0] + (place.Word("corner") == "right" ? -shift.X : shift.X), at[1] + shift.Y));
        // One that stands in the middle of the length stays there if it moves up or down alone.
        if (shift.X == 0 && spec.Evaluator.Length(place, "up") is { } up) return Fixing.Write(spec, place, "up", spec.Say.Length(up + shift.Y));
        var corner = opening.Hole.Bounds.Min + shift;
        string text = $"lower left at {At(corner.X, corner.Y)}";
        return new Fix(place.Span, text, $"write {text}");
    }
}
