namespace Wain.Core.Binding;

/// <summary>Words that people write for a fact that has another name in its block, so that a finding can name the fact that was meant.</summary>
internal static class SpokenWords
{
    private static readonly (string Block, string Word, string[] Facts)[] All =
    [
        ("spec", "include", ["use"]), ("spec", "import", ["use"]), ("spec", "truck", ["carrier"]), ("spec", "vehicle", ["carrier"]), ("spec", "wall", ["panel"]), ("spec", "floor", ["panel"]), ("spec", "roof", ["panel"]), ("spec", "deck", ["panel"]), ("spec", "window", ["unit"]), ("spec", "door", ["unit"]),
        ("spec", "plywood", ["sheet"]), ("spec", "ply", ["sheet"]), ("spec", "lumber", ["stick"]), ("spec", "glue", ["adhesive"]), ("spec", "paint", ["coating"]), ("spec", "epoxy", ["resin"]), ("spec", "fabric", ["membrane"]), ("spec", "bolt", ["screw"]), ("spec", "hinge", ["hardware"]), ("spec", "weight", ["load"]), ("spec", "outline", ["plan"]), ("spec", "layup", ["stack"]), ("spec", "footprint", ["plan"]),
        ("stick", "size", ["section", "length"]), ("stick", "thickness", ["section"]), ("stick", "width", ["section"]), ("stick", "profile", ["section"]), ("stick", "lengths", ["length"]), ("stick", "long", ["length"]),
        ("sheet", "section", ["thickness", "size"]), ("sheet", "length", ["size"]), ("sheet", "width", ["size"]), ("sheet", "sheet", ["size"]), ("sheet", "thick", ["thickness"]),
        ("board", "section", ["thickness", "size"]), ("board", "length", ["size"]), ("board", "width", ["size"]), ("board", "thick", ["thickness"]),
        ("stack", "frame", ["core"]), ("stack", "insulation", ["foam", "core"]), ("stack", "plywood", ["sheet"]), ("stack", "ply", ["sheet"]), ("stack", "skin", ["sheet"]), ("stack", "paint", ["coating"]), ("stack", "glass", ["cloth"]), ("stack", "board", ["foam"]),
        ("unit", "size", ["cut_out"]), ("unit", "hole", ["cut_out"]), ("unit", "opening", ["cut_out"]), ("unit", "rough_opening", ["cut_out"]), ("unit", "thickness", ["wall"]), ("unit", "radius", ["cut_out"]), ("unit", "corner", ["cut_out"]),
        ("opening", "at", ["lower", "centred"]), ("opening", "width", ["size"]), ("opening", "height", ["size"]), ("opening", "hole", ["size"]), ("opening", "corner", ["size"]), ("opening", "window", ["unit"]), ("opening", "door", ["unit"]), ("opening", "centered", ["centred"]),
        ("panel", "size", ["covers", "stands"]), ("panel", "at", ["covers", "stands"]), ("panel", "on", ["stands"]), ("panel", "plan", ["covers"]), ("panel", "from", ["stands", "spans"]), ("panel", "window", ["opening"]), ("panel", "door", ["opening"]), ("panel", "studs", ["frame"]),
        ("frame", "stud", ["studs"]), ("frame", "spacing", ["studs"]), ("plan", "side", ["leg"]), ("plan", "from", ["start"]),
        ("joint", "screw", ["screws"]), ("joint", "glued", ["glue"]), ("lift", "height", ["travel"]), ("lift", "rises", ["travel"]), ("lift", "panels", ["carries"]), ("lift", "raises", ["carries"]),
        ("load", "weight", ["weighs"]), ("load", "mass", ["weighs"]), ("cloth", "thickness", ["weight"]), ("resin", "weight", ["density"]),
    ];

    /// <summary>The facts that the word may stand for in a block; none for a word that is not among them.</summary>
    public static string[] Of(string block, string word) => All.FirstOrDefault(s => s.Block == block && s.Word == word).Facts ?? [];
}
