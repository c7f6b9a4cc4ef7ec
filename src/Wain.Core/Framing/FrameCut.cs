using System.Collections.Immutable;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;

namespace Wain.Core.Framing;

/// <summary>What a recess or a step takes of a frame: all within its sides, this deep from one side of it (mm, panel axes).</summary>
/// <param name="Sides">Straight cuts; null where <paramref name="Shape"/> has a bow or a round corner.</param>
/// <param name="Deep">At most the depth of the frame.</param>
internal sealed record FrameCut(HalfPlane[]? Sides, Outline? Shape, double Deep, bool FromOutside, string What)
{
    /// <summary>Recesses of openings and steps of the panel that go into a frame layer; a step along a whole edge that takes all of it has moved the frame itself already.</summary>
    public static IEnumerable<FrameCut> Of(PlacedPanel panel, List<PlacedOpening> openings, ImmutableArray<PanelStep> steps, Outline area, double below, double depth)
    {
        foreach (var opening in openings)
        {
            if (opening.Recess is not { } recess) continue;
            var (outside, inside) = panel.FacesAt(opening);
            double deep = recess.FromOutside ? recess.Depth + outside - below : recess.Depth - (inside - below - depth);
            if (deep > 0) yield return new FrameCut(recess.Region.HasArcs ? null : recess.Region.Bounds.Sides(), recess.Region, Math.Min(deep, depth), recess.FromOutside, $"recess of {opening.Name}");
        }
        var outline = panel.OutlineAt(below);
        foreach (var step in steps)
        {
            double into = step.Into(below, depth, panel.Thickness);
            if (into <= 0 || step.IsWholeEdge && into >= depth - Tolerance.Length) continue;
            if (step.Straight(outline) is { } sides)
            {
                if (!area.Clip(sides).IsEmpty) yield return new FrameCut(sides, null, into, step.FromOutside, step.What);
            }
            else foreach (var region in step.Taken(outline)) yield return new FrameCut(null, region, into, step.FromOutside, step.What);
        }
    }

    /// <summary>What of an outline it takes, and what it leaves beside it.</summary>
    public (ImmutableArray<Outline> Inside, ImmutableArray<Outline> Outside) Split(Outline outline) => Sides is { } sides ? outline.Split(sides) : outline.Part(Shape!);

    /// <summary>True if a cut through the whole depth leaves a member in one piece beside it, which is then notched and not shortened.</summary>
    public bool Notches(ImmutableArray<Outline> inside, ImmutableArray<Outline> outside, double width)
    {
        if (outside.IsEmpty) return false;
        // What is taken is narrower than the stick: it runs on beside the cut.
        double least = inside.Max(i => Math.Min(i.Bounds.Width, i.Bounds.Height));
        return least < width - 0.5 && outside.Length > 1;
    }
}
