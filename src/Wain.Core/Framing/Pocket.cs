using Wain.Core.Geometry.Kernel;

namespace Wain.Core.Framing;

/// <summary>A pocket hole: drilled at a low angle into the face of a member so that the screw comes out in the middle of its end.</summary>
/// <param name="Angle">Between the drill and the face (radians).</param>
/// <param name="Depth">Drilled along the hole, from the face to the shoulder that the head pulls on (mm).</param>
/// <param name="FromEnd">From the member's end to where the axis of the hole meets the face (mm).</param>
/// <param name="ScrewLength">The screw for this stock (mm).</param>
/// <param name="Bite">How far the screw reaches into the other member (mm).</param>
public sealed record Pocket(double Angle, double Depth, double FromEnd, double ScrewLength, double Bite)
{
    /// <summary>True where the members stand on edge: the pockets are bored in the wide side that looks into a bay.</summary>
    public bool FromSide { get; init; }

    /// <summary>Through the frame from one pocket to the next, where they are bored from a side (mm).</summary>
    public double Apart { get; init; }
}

/// <summary>Where a pocket is begun on the face of its member (mm), and the way along the member that leads away from the end it is drilled to.</summary>
/// <param name="Side">Out of the side that it is bored from; nothing where that is the face.</param>
/// <param name="Row">Of several one behind the other, seen on the face.</param>
public readonly record struct PocketPlace(Vec2 At, Vec2 Inward, Vec2 Side = default, int Row = 0);

/// <summary>Pocket screws by the thickness of the stock.</summary>
public static class Pockets
{
    /// <summary>Common practice: pocket jigs of the trade drill at 15 degrees.</summary>
    public const double UsualAngle = 15 * Math.PI / 180;

    /// <summary>Width of the pocket (mm): a 3/8 in stepped drill, common practice.</summary>
    public const double Diameter = 9.525;

    /// <summary>Thickest stock that a jig is set for (mm): 1 1/2 in, common practice. Thicker stock is bored as for this, nearer to the face than to the middle.</summary>
    public const double Thickest = 38.1;

    // Common practice, from memory: thickness of the stock and length of the screw that goes with it, inches.
    private static readonly (double Stock, double Screw)[] Usual = [(0.5, 1), (0.75, 1.25), (1, 1.5), (1.25, 2), (1.5, 2.5)];

    /// <summary>The usual screw for a thickness of stock (mm): that of the greatest thickness in the table that the stock has; null for stock under 1/2 in, which holds none.</summary>
    public static double? UsualScrew(double stock)
    {
        double? length = null;
        foreach (var (thickness, screw) in Usual) if (stock >= thickness * 25.4 - 0.8) length = screw * 25.4;
        return length;
    }

    /// <summary>
    /// The pocket for stock of a thickness (mm), across the face that it is bored in, and a screw (mm). The axis comes out in the middle of the end, or as far in as in the thickest stock of the trade; half of the screw is left in each member,
    /// so the shoulder stands half the screw's length before the end. Null if the screw is so long that no pocket is left.
    /// </summary>
    public static Pocket? For(double stock, double screw, double angle = UsualAngle)
    {
        if (stock <= 0 || screw <= 0 || angle <= 0 || angle >= Math.PI / 2) return null;
        double middle = Math.Min(stock, Thickest) / 2, depth = middle / Math.Sin(angle) - screw / 2;
        return depth <= 0 ? null : new Pocket(angle, depth, middle / Math.Tan(angle), screw, screw / 2);
    }
}
