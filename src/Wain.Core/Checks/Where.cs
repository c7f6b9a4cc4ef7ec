using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>Places as a person with a tape finds them.</summary>
internal static class Where
{
    /// <summary>A point of a panel's face, from its lower left corner seen from outside.</summary>
    public static string On(this Say say, Vec2 at) => $"{say.ToTape(at.X)} along and {say.ToTape(at.Y)} up";

    /// <summary>A place in the camper, as near as a tape tells.</summary>
    public static string In(this Say say, Vec3 at)
    {
        string side = say.ToTape(at.Y) == say.ToTape(0) ? "on the centre line" : $"{say.Nearly(Math.Abs(at.Y))} to the {(at.Y > 0 ? "left" : "right")}";
        return $"{say.Nearly(Math.Abs(at.X))} {(at.X < 0 ? "aft" : "forward")} of the origin, {side}, {say.Nearly(at.Z)} up";
    }

    /// <summary>The part of a panel that a place lies in: a zone that is added to its face, by name, or else the panel.</summary>
    public static string Part(PlacedPanel panel, Vec3 at)
    {
        var local = panel.Face.ToLocal(at);
        if (-local.Z >= 0 && -local.Z <= panel.Thickness) return panel.Name;
        var zone = panel.Zones.FirstOrDefault(z => z.Added && -local.Z >= z.Offset && -local.Z <= z.Offset + z.Stack.Thickness && z.Region.Contains(new Vec2(local.X, local.Y)));
        return zone is null ? panel.Name : $"{zone.Name} of {panel.Name}";
    }

    /// <summary>The opening that a subject such as <c>wall.vent</c> names.</summary>
    public static PlacedOpening? Opening(PlacedPanel panel, string subject) => panel.Openings.FirstOrDefault(o => $"{panel.Name}.{o.Name}" == subject);
}
