using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>Places as a person with a tape finds them.</summary>
internal static class Where
{
    /// <summary>A point of a panel's face, from its lower left corner seen from outside.</summary>
    public static string On(Vec2 at) => $"{Show.Length(Math.Round(at.X / 25.4 * 16) / 16 * 25.4)} along and {Show.Length(Math.Round(at.Y / 25.4 * 16) / 16 * 25.4)} up";

    /// <summary>A place in the camper, to the nearest 1/16 in.</summary>
    public static string In(Vec3 at)
    {
        double y = Math.Round(at.Y / 25.4 * 16);
        string side = y == 0 ? "on the centre line" : $"{Nearly(Math.Abs(at.Y))} to the {(y > 0 ? "left" : "right")}";
        return $"{Nearly(Math.Abs(at.X))} {(at.X < 0 ? "aft" : "forward")} of the origin, {side}, {Nearly(at.Z)} up";
    }

    /// <summary>A length to the nearest 1/16 in, and 1/64 in where it is small, for the eye.</summary>
    public static string Nearly(double mm)
    {
        double part = Math.Abs(mm) < 25.4 / 4 ? 64 : 16;
        double rounded = Math.Round(mm / 25.4 * part, MidpointRounding.AwayFromZero) / part * 25.4;
        return rounded == 0 && mm != 0 ? Show.Length(mm) : Show.Length(rounded);
    }

    /// <summary>The opening that a subject such as <c>wall.vent</c> names.</summary>
    public static PlacedOpening? Opening(PlacedPanel panel, string subject) => panel.Openings.FirstOrDefault(o => $"{panel.Name}.{o.Name}" == subject);
}
