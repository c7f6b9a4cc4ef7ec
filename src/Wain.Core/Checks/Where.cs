using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>Places as a person with a tape finds them.</summary>
internal static class Where
{
    /// <summary>A point of a panel's face, from its lower left corner seen from outside.</summary>
    public static string On(Vec2 at) => $"{Show.Length(Math.Round(at.X / 25.4 * 16) / 16 * 25.4)} along and {Show.Length(Math.Round(at.Y / 25.4 * 16) / 16 * 25.4)} up";

    /// <summary>The opening that a subject such as <c>wall.vent</c> names.</summary>
    public static PlacedOpening? Opening(PlacedPanel panel, string subject) => panel.Openings.FirstOrDefault(o => $"{panel.Name}.{o.Name}" == subject);
}
