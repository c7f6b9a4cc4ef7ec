using System.Collections.Immutable;

namespace Wain.Core.Methods;

/// <summary>One load that people or weather put on a part, with where the figure comes from.</summary>
/// <param name="Pressure">Pa over the whole area; zero if the load is a force.</param>
/// <param name="Force">N, in one place; zero if the load is a pressure.</param>
/// <param name="Patch">Side of the square that the force bears on, m; zero if the source gives none.</param>
public sealed record LiveLoad(string Name, double Pressure, double Force, double Patch, string Source);

/// <summary>Live loads as published, as data. None was written for campers: they are yardsticks, and local codes decide for a building.</summary>
public static class LiveLoads
{
    private const string Irc = "IRC Table R301.5";

    public static ImmutableArray<LiveLoad> All { get; } =
    [
        new("sleeping rooms", 30 * Customary.Psf, 0, 0, Irc),
        new("rooms other than sleeping rooms", 40 * Customary.Psf, 0, 0, Irc),
        new("uninhabitable attics without storage", 10 * Customary.Psf, 0, 0, Irc),
        new("attics with limited storage", 20 * Customary.Psf, 0, 0, Irc),
        new("decks", 40 * Customary.Psf, 0, 0, Irc),
        new("guards, any direction at the top", 0, 200 * Customary.PoundForce, 0, Irc),
        new("stair tread, on 4 square inches", 0, 300 * Customary.PoundForce, 2 * Customary.Inch, Irc),
        new("person in a designated seat, 150 lb", 0, 150 * Customary.PoundForce, 0, "49 CFR 575.103(d)"),
        new("maintenance person on a roof, 300 lb", 0, 300 * Customary.PoundForce, 0, "ASCE 7-10 Table 4-1, from memory"),
    ];
}
