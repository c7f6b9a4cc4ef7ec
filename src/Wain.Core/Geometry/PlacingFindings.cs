using Wain.Core.Findings;

namespace Wain.Core.Geometry;

/// <summary>What can go wrong while plans are walked and panels placed.</summary>
public static class PlacingFindings
{
    // A deck on a plan with one wall on its left side. Figures are invented.
    private static string Example(string plan = Walk, string deck = Deck, string wall = Wall, string more = "") => $$"""
        sheet ply { thickness 12 mm
            size 48 in by 96 in }
        stack board { sheet ply }
        plan body {
        {{plan}}
        }
        {{deck}}
        {{wall}}
        {{more}}
        """;

    private const string Walk = """
            start at (0 in, 20 in)
            leg left run 80 in
            leg front across 40 in
            leg right run 80 in
            leg rear home, across 40 in
        """;

    private const string Deck = "panel deck of board {\n    covers plan body, top at 20 in\n}";

    private const string Wall = "panel wall of board {\n    stands on body.left, from deck.top to 50 in\n}";

    // A second wall round the corner; what the first says of it comes later.
    private const string Corner = "panel wall of board {\n    stands on body.left, from deck.top to 50 in\n    stops at front_wall\n}\npanel front_wall of board {\n    stands on body.front, from deck.top to 50 in\n    SAYS\n}";

    public static readonly FindingInfo LegUnknown = new("WN3001", "leg-not-determined", Level.Error, "A leg of a plan is not determined",
        "A leg needs enough measures to be drawn: a run or a length with an angle, a width or a point.",
        Example(Walk.Replace("leg rear home, across 40 in", "leg rear", StringComparison.Ordinal)), Example());

    public static readonly FindingInfo PlanCrosses = new("WN3002", "outline-crosses-itself", Level.Error, "An outline crosses itself",
        "Nothing can be cut to an outline whose sides cross.",
        Example(Walk.Replace("leg right run 80 in", "leg right run 50 in\n    leg notch across 60 in, left", StringComparison.Ordinal)), Example());

    public static readonly FindingInfo PlanOpen = new("WN3003", "plan-not-closed", Level.Error, "A plan does not come back to its start",
        "The last leg should end where the first began: write home as its end.",
        Example(Walk.Replace("home, across 40 in", "across 38 in", StringComparison.Ordinal)), Example(Walk.Replace("home, across 40 in", "across 40 in", StringComparison.Ordinal)));

    public static readonly FindingInfo NotPlaced = new("WN3004", "panel-not-placed", Level.Error, "A panel has no place",
        "A panel covers a plan, stands on a leg, spans two points, leans between two edges or is placed by three points; without one of these nothing can be measured.",
        Example(deck: "panel deck of board {\n    covers plan body\n}", wall: ""), Example(wall: ""));

    public static readonly FindingInfo PlacedTwice = new("WN3005", "panel-placed-twice", Level.Error, "A panel is placed in two ways",
        "Each panel has one place; every height has one owner.",
        Example(wall: "panel wall of board {\n    stands on body.left, from deck.top to 50 in\n    spans from (0 in, 20 in) to (40 in, 20 in), standing on deck.top, up to 50 in\n}"), Example());

    public static readonly FindingInfo NoOutline = new("WN3006", "panel-has-no-area", Level.Error, "A panel comes out without an area",
        "Its sides do not enclose anything: its top may lie below its bottom, or its ends may pass each other.",
        Example(wall: Wall.Replace("from deck.top to 50 in", "from 50 in to deck.top", StringComparison.Ordinal)), Example());

    public static readonly FindingInfo NoSuchEdge = new("WN3007", "no-such-edge", Level.Error, "A panel or plan has no edge of that name",
        "Edges of a wall are bottom, right, top and left, as seen from outside; those of a deck have the names of its plan's legs.",
        Example(wall: Wall.Replace("body.left", "body.lefft", StringComparison.Ordinal)), Example());

    public static readonly FindingInfo Rounding = new("WN3008", "arc-larger-than-corner", Level.Error, "A rounded corner does not fit",
        "The arc needs more of the two sides than they have.",
        Example(wall: Wall.Replace("50 in\n", "50 in\n    rounded_corner upper_left 36 in\n", StringComparison.Ordinal)), Example(wall: Wall.Replace("50 in\n", "50 in\n    rounded_corner upper_left 6 in\n", StringComparison.Ordinal)));

    public static readonly FindingInfo OffsetFails = new("WN3009", "offset-fails", Level.Error, "A derived plan comes to nothing",
        "Offset so far inward, its sides close up on each other.",
        Example(more: "plan liner from body, inward by 21 in { }\npanel mat of board {\n    covers plan liner, underside at deck.top\n}"), Example(more: "plan liner from body, inward by 1 in { }\npanel mat of board {\n    covers plan liner, underside at deck.top\n}"));

    public static readonly FindingInfo NoStack = new("WN3010", "panel-without-stack", Level.Error, "A panel has no stack",
        "Without its layers it has no thickness.",
        Example(wall: Wall.Replace(" of board", "", StringComparison.Ordinal)), Example());

    public static readonly FindingInfo OpeningPlace = new("WN3011", "opening-not-placed", Level.Error, "An opening lacks its size or its place",
        "An opening has the size of its unit, or one of its own, and stands at a corner or is centred.",
        Example(wall: Wall.Replace("50 in\n", "50 in\n    opening vent {\n        size 12 in by 8 in\n    }\n", StringComparison.Ordinal)), Example(wall: Wall.Replace("50 in\n", "50 in\n    opening vent {\n        size 12 in by 8 in\n        lower left at (14 in, 8 in)\n    }\n", StringComparison.Ordinal)));

    public static readonly FindingInfo NotLevel = new("WN3012", "face-not-level", Level.Error, "A height is asked of a face that is not level",
        "A raked face has no one height. Let the panel run to the face itself, without arithmetic.",
        Example(wall: Wall.Replace("50 in", "roof.bottom - 1/2 in", StringComparison.Ordinal), more: "panel roof of board {\n    covers plan body, underside at 50 in, pitched 1 deg toward aft\n}"), Example(wall: Wall.Replace("50 in", "roof.bottom", StringComparison.Ordinal), more: "panel roof of board {\n    covers plan body, underside at 50 in, pitched 1 deg toward aft\n}"));

    public static readonly FindingInfo Measured = new("WN3014", "placed-as-measured", Level.Note, "A fitted panel is placed as it was measured",
        "What is fitted no longer follows the drawing. Its measured size takes the place of the designed one, what is placed from it follows, and the checks tell what no longer closes.",
        Example(more: "built wall {\n    cut on 2026-05-02\n    measured height 29 3/4 in\n    fitted on 2026-05-09\n}"), Example());

    public static readonly FindingInfo TooLarge = new("WN3015", "larger-than-a-truck", Level.Error, "A panel is larger than anything that a truck carries",
        "A size with a slip of the pen would be framed, cut up and bought like any other: a million studs, a thousand sheets. A panel may be up to 100 m either way and 1 m thick.",
        Example(wall: Wall.Replace("50 in", "5000 in", StringComparison.Ordinal)), Example());

    public static readonly FindingInfo Bevels = new("WN3016", "bevel-leaves-no-panel", Level.Error, "A bevel leaves no edge or no panel",
        "A bevel is told from square: at 90 degrees the cut would run along the face. Two that lean toward each other leave nothing where they meet before they reach the far face.",
        Example(wall: Wall.Replace("50 in\n", "50 in\n    bevel top 95 deg\n", StringComparison.Ordinal)), Example(wall: Wall.Replace("50 in\n", "50 in\n    bevel top 5 deg\n", StringComparison.Ordinal)));

    public static readonly FindingInfo CornerBothWays = new("WN3017", "corner-both-ways", Level.Error, "What is said of a corner contradicts itself",
        "Of two walls that meet at a corner one runs through and the other stops at it. If both run through they fill the same space; if both stop the corner is open.",
        Example(wall: Corner.Replace("SAYS", "stops at wall", StringComparison.Ordinal)), Example(wall: Corner.Replace("SAYS", "runs through wall", StringComparison.Ordinal)));

    public static readonly FindingInfo CornerElsewhere = new("WN3018", "corner-elsewhere", Level.Warning, "What is said of a corner names a wall that is not there",
        "Which wall runs through is told of two walls that meet at a corner of one plan. Said of another wall it changes nothing, and the corner is cut by the plan's rule.",
        Example(wall: Corner.Replace("stops at front_wall", "stops at rear_wall", StringComparison.Ordinal).Replace("    SAYS\n", "", StringComparison.Ordinal), more: Rear), Example(wall: Corner.Replace("    SAYS\n", "", StringComparison.Ordinal), more: Rear));

    private const string Rear = "panel rear_wall of board {\n    stands on loft.rear, from 60 in to 70 in\n}\nplan loft from body, inward by 4 in { }";

    public static readonly FindingInfo Skewed = new("WN3019", "points-out-of-square", Level.Warning, "The third point of a panel is not square over its first",
        "A panel through three points has its lower left corner at the first, its bottom toward the second, and its left side toward the third. With that aside of the first it comes out as a parallelogram, which is most often a slip in one of the figures.",
        Example(deck: Points.Replace("UP", "(-40 in, 17 in, 20 in)", StringComparison.Ordinal), wall: ""), Example(deck: Points.Replace("UP", "(-40 in, 20 in, 20 in)", StringComparison.Ordinal), wall: ""));

    private const string Points = "panel deck of board {\n    through (0 in, 20 in, 20 in) along (0 in, -20 in, 20 in) up UP\n}";

    public static readonly FindingInfo NoOtherSide = new("WN3020", "joint-without-other-side", Level.Warning, "A joint asks for a mirrored one and there is none",
        "What a joint says holds for the other side as well where its panels are mirrored or lie across the centre line. A panel that was written out for the other side is no mirror, so nothing would glue it or screw it there.",
        Example(more: "joint wall.bottom to deck.top {\n    butt\n    mirrored\n}"), Example(more: "mirror wall as other_wall\njoint wall.bottom to deck.top {\n    butt\n    mirrored\n}"));

    public static readonly FindingInfo PlanEmpty = new("WN3013", "plan-lacks-facts", Level.Error, "A plan lacks its start or its legs",
        "A walk needs a beginning and at least three legs; a derived plan names the plan that it comes from.",
        Example(Walk.Replace("    start at (0 in, 20 in)\n", "", StringComparison.Ordinal)), Example());
}
