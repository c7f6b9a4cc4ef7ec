namespace Wain.Core.Revisions;

/// <summary>The figures that a builder asks for first, in words: weight, cost, balance, what the truck carries, room.</summary>
internal static class FigureWords
{
    private static readonly (string Name, string Words)[] Totals =
    [
        ("weight", "weight, nothing aboard"),
        ("weight_ready", "weight, ready for the road"),
        ("cost", "cost with tax"),
        ("centre_x_ready", "centre of gravity on the road, forward of the bed's front edge"),
        ("centre_y_ready", "centre of gravity on the road, left of the centre line"),
        ("centre_z_ready", "centre of gravity on the road, above the bed floor"),
    ];

    private static readonly (string Name, string Words)[] OfThings =
    [
        ("front_axle_load_ready", "front axle of {0} on the road"),
        ("rear_axle_load_ready", "rear axle of {0} on the road"),
        ("gvwr_margin_ready", "left of what {0} may weigh"),
        ("clearance", "least room as {0} rises"),
        ("clearance_racked", "least room as {0} rises with a corner low"),
        ("gap_least", "narrowest gap of {0}"),
        ("gap_most", "widest gap of {0}"),
        ("overlap", "overlap of {0} when raised"),
        ("headroom", "headroom under {0}"),
    ];

    /// <summary>Null for a figure that is none of them.</summary>
    public static string? Of(string name)
    {
        int index = Order(name);
        if (index < 0) return null;
        return index < Totals.Length ? Totals[index].Words : OfThings[index - Totals.Length].Words.Replace("{0}", name[..name.IndexOf('.')], StringComparison.Ordinal);
    }

    /// <summary>Where it comes in the list; below zero for a figure that is none of them.</summary>
    public static int Order(string name)
    {
        int dot = name.IndexOf('.');
        if (dot < 0 || name.IndexOf('.', dot + 1) >= 0) return -1;
        string top = name[..dot], rest = name[(dot + 1)..];
        if (top == "total") return Array.FindIndex(Totals, t => t.Name == rest);
        int index = Array.FindIndex(OfThings, t => t.Name == rest);
        return index < 0 ? -1 : Totals.Length + index;
    }
}
