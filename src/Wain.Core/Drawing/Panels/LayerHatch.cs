using System.Collections.Immutable;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Model;

namespace Wain.Core.Drawing.Panels;

/// <summary>What a cut area is made of, as far as hatching tells it.</summary>
public enum CutMaterial
{
    Sheet,
    Wood,
    Foam,
    Film,
    Air,
}

/// <summary>Hatching that tells layers apart in black and white: close lines one way for sheets, wide the other way for sticks, crossed for foam, grey for films.</summary>
public static class LayerHatch
{
    private static readonly Pen Fine = new(LineType.Continuous, 0.13);

    public static CutMaterial Of(LayerKind kind) => kind switch
    {
        LayerKind.Sheet => CutMaterial.Sheet,
        LayerKind.Frame => CutMaterial.Wood,
        LayerKind.Foam => CutMaterial.Foam,
        LayerKind.Air => CutMaterial.Air,
        _ => CutMaterial.Film,
    };

    /// <param name="area">Closed, paper mm.</param>
    /// <param name="turn">Radians by which the lines are turned, so that neighbouring parts differ.</param>
    public static ImmutableArray<Mark> Marks(Contour area, CutMaterial material, double turn = 0)
    {
        var outline = new PathMark(area, Pen.Edge);
        PathMark Lines(double degrees, double spacing) => Hatching.Lines([area], degrees * Math.PI / 180 + turn, spacing, Fine);
        return material switch
        {
            CutMaterial.Sheet => [Lines(45, 0.9), outline],
            CutMaterial.Wood => [Lines(-45, 2.2), outline],
            CutMaterial.Foam => [Lines(20, 3.2), Lines(-70, 3.2), outline],
            CutMaterial.Film => [new PathMark(area, Pen.Narrow, 0.5)],
            _ => [new PathMark(area, Pen.Narrow)],
        };
    }
}
