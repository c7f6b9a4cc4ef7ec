using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Model;
using Wain.Core.Text;

namespace Wain.Core.Geometry;

/// <summary>The outline of a panel that is fitted, with the sizes that a tape gave.</summary>
internal static class AsMeasured
{
    /// <summary>The layers of a panel as thick over all as measured. A tape says how much and not which layer: the thickest takes the difference, and the skins stay as they are sold.</summary>
    public static Stack Of(Resolver resolver, BoundFact panel, BoundFact built, Stack stack)
    {
        foreach (var fact in built.All("measured"))
        {
            if (fact.Word("what") != "thickness" || resolver.Evaluator.Length(fact, "value") is not { } measured || measured <= 0) continue;
            double more = measured - stack.Thickness;
            if (Math.Abs(more) < 0.01 || stack.Layers.MaxBy(l => l.Thickness) is not { } thickest) continue;
            if (thickest.Thickness + more < 0.5)
            {
                resolver.Report(new Finding(PlacingFindings.NoOutline, $"{panel.Name} was measured {resolver.Spec.Say.Length(measured)} thick and designed {resolver.Spec.Say.Length(stack.Thickness)}: nothing of its layer of {thickest.Material?.Name ?? "air"} is left.", fact.HeadSpan) { Subject = panel.Path });
                continue;
            }
            resolver.Report(new Finding(PlacingFindings.Measured, $"{panel.Name} is placed as measured, {resolver.Spec.Say.Length(measured)} thick, and not {resolver.Spec.Say.Length(stack.Thickness)} as designed.", fact.HeadSpan) { Subject = panel.Path });
            stack = stack with { Layers = stack.Layers.Replace(thickest, thickest with { Thickness = thickest.Thickness + more }) };
        }
        return stack;
    }

    /// <summary>The top of an upright panel that runs between two levels, as high as measured once it is fitted: what stands on it or goes up to it follows.</summary>
    public static Plane Top(Resolver resolver, BoundFact panel, Frame face, PanelLimits limits)
    {
        static bool Level(Plane plane) => Math.Abs(plane.Normal.Z) > 1 - 1e-9;
        if (!Level(limits.Bottom) || !Level(limits.Top) || face.V.Z < 1e-6 || !resolver.Fitted.Value.TryGetValue(panel.Name ?? "", out var built)) return limits.Top;
        // The normals point out of the panel: down at its bottom, up at its top.
        double designed = (limits.Top.Offset + limits.Bottom.Offset) / face.V.Z;
        var measured = built.All("measured").Where(m => m.Word("what") == "height").Select(m => resolver.Evaluator.Length(m, "value")).FirstOrDefault(m => m > 0);
        return measured is { } high ? limits.Top.Moved((high - designed) * face.V.Z) : limits.Top;
    }

    /// <summary>
    /// The outline over all as wide and as high as measured (mm). A tape says how much and not where: a panel that straddles the centre line takes half of a
    /// difference on each side, any other takes it at its right and upper edges and keeps the corner that its drawing measures from. Corners beyond the middle
    /// move, so bevels, arcs and slopes stay what they are.
    /// </summary>
    public static Outline Of(Resolver resolver, BoundFact panel, BoundFact built, Frame face, Outline outline)
    {
        foreach (var fact in built.All("measured"))
        {
            if (fact.Word("what") is not ("width" or "height") || resolver.Evaluator.Length(fact, "value") is not { } measured || measured <= 0) continue;
            bool wide = fact.Word("what") == "width";
            var box = outline.Bounds;
            double designed = wide ? box.Width : box.Height, more = measured - designed;
            if (Math.Abs(more) < 0.01) continue;
            var axis = wide ? new Vec2(1, 0) : new Vec2(0, 1);
            var (low, high) = (face.ToWorld(box.Min), face.ToWorld(box.Max));
            bool straddles = Math.Abs(face.DirectionToWorld(axis).Y) > 0.9 && Math.Abs(low.Y + high.Y) < 1;
            double middle = box.Centre.Dot(axis);
            var moved = new Outline([.. outline.Edges.Select(e => e with { Start = e.Start + axis * (e.Start.Dot(axis) > middle ? straddles ? more / 2 : more : straddles ? -more / 2 : 0) })]);
            if (moved.SignedArea() < 1 || moved.Crossings().Length > 0)
            {
                resolver.Report(new Finding(PlacingFindings.NoOutline, $"{panel.Name} was measured {resolver.Spec.Say.Length(measured)} {fact.Word("what")} and designed {resolver.Spec.Say.Length(designed)}: nothing of its shape is left.", fact.HeadSpan) { Subject = panel.Path });
                continue;
            }
            outline = moved;
            resolver.Report(new Finding(PlacingFindings.Measured, $"{panel.Name} is placed as measured, {resolver.Spec.Say.Length(measured)} {(wide ? "wide" : "high")}, and not {resolver.Spec.Say.Length(designed)} as designed.", fact.HeadSpan) { Subject = panel.Path });
        }
        return outline;
    }
}
