using System.Collections.Immutable;

namespace Wain.Core.Methods;

/// <summary>A wood screw by its gauge number, m.</summary>
public sealed record WoodScrewSize(string Name, double Shank, double Root);

/// <summary>Least distances in diameters, NDS commentary Table C12.1.5.7 (wood side members), from memory. The first of each pair is without, the second with a pilot hole.</summary>
public sealed record ScrewSpacing(string What, double NotBored, double Bored);

/// <summary>Sizes, spacing and pilot holes of wood screws.</summary>
public static class ScrewData
{
    /// <summary>Shank diameters by ASME B18.6.1 and root diameters by NDS Appendix L, from memory.</summary>
    public static ImmutableArray<WoodScrewSize> Sizes { get; } =
    [
        Size("#6", 0.138, 0.113), Size("#7", 0.151, 0.122), Size("#8", 0.164, 0.131), Size("#9", 0.177, 0.142), Size("#10", 0.190, 0.152),
        Size("#12", 0.216, 0.171), Size("#14", 0.242, 0.196), Size("#16", 0.268, 0.209), Size("#18", 0.294, 0.232), Size("#20", 0.320, 0.255), Size("#24", 0.372, 0.298),
    ];

    public static ImmutableArray<ScrewSpacing> Spacing { get; } =
    [
        new("edge", 2.5, 2.5), new("end, loaded towards it", 15, 10), new("end, loaded away from it", 10, 5), new("along the grain", 15, 10), new("across the grain", 10, 5),
        new("between rows in line", 5, 3), new("between rows staggered", 2.5, 2.5),
    ];

    /// <summary>Edge distance of a screw that is only pulled along itself, and spacing in its row, in diameters: 4 and 7, by an evaluation report for structural screws.</summary>
    public static (double Edge, double Row) AxialOnly => (4, 7);

    public static Result<WoodScrewSize> Find(string name) =>
        Sizes.FirstOrDefault(s => string.Equals(s.Name, name, StringComparison.Ordinal)) is { } size ? size : new Missing($"there is no wood screw {name}");

    /// <summary>
    /// Pilot hole for the thread, m. Withdrawal: none needed below G 0.5, 70 % of the root to 0.6, 90 % above. Lateral: 7/8 of the root below 0.6, the whole root above (NDS 12.1.5).
    /// Zero means that none is needed, not that one does harm.
    /// </summary>
    public static Result<double> Pilot(WoodScrewSize size, double specificGravity, bool lateral) =>
        Need.Positive(specificGravity, "the specific gravity") is { } why
            ? new Missing(why)
            : size.Root * (lateral ? (specificGravity >= 0.6 ? 1 : 0.875) : specificGravity >= 0.6 ? 0.9 : specificGravity >= 0.5 ? 0.7 : 0);

    /// <summary>Clearance in the side member for a laterally loaded screw, m: 7/8 of the shank below G 0.6, the whole shank above (NDS 12.1.5).</summary>
    public static Result<double> ShankHole(WoodScrewSize size, double specificGravity) =>
        Need.Positive(specificGravity, "the specific gravity") is { } why ? new Missing(why) : size.Shank * (specificGravity >= 0.6 ? 1 : 0.875);

    private static WoodScrewSize Size(string name, double shank, double root) => new(name, shank * Customary.Inch, root * Customary.Inch);
}
