using System.Collections.Immutable;

namespace Wain.Core.CutLists;

/// <summary>A stick with angled ends, seen from the side that its ends lean in.</summary>
public static class StickShape
{
    /// <summary>Corners from the lower left, along the stick as X from the leftmost point, up its depth as Y; empty if both ends are square.</summary>
    /// <param name="turned">End for end, in the plane that the ends lean in.</param>
    /// <param name="rolled">Half a turn about its length besides.</param>
    public static ImmutableArray<CutPoint> Of(CutPart part, bool turned, bool rolled)
    {
        if (part.LeftRun == 0 && part.RightRun == 0) return [];
        var (left, right) = turned ? (part.RightRun, part.LeftRun) : (part.LeftRun, part.RightRun);
        // Long points on one face lean apart. Turning in the plane keeps how each end leans and exchanges them.
        bool leftLongBelow = (!turned || !part.RunsOpposed) != rolled, rightLongBelow = part.RunsOpposed ? leftLongBelow : !leftLongBelow;
        long length = part.Length, depth = part.Thickness;
        return
        [
            new(leftLongBelow ? 0 : left, 0), new(rightLongBelow ? length : length - right, 0),
            new(rightLongBelow ? length - right : length, depth), new(leftLongBelow ? left : 0, depth),
        ];
    }

    /// <summary>All ways that a stick may lie: its two faces and its two ends are alike.</summary>
    public static IEnumerable<ImmutableArray<CutPoint>> Positions(CutPart part) =>
        from turned in new[] { false, true } from rolled in new[] { false, true } select Of(part, turned, rolled);
}
