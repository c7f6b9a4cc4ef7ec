using Wain.Core.Findings;

namespace Wain.Core.Takeoff;

/// <summary>What takeoff finds lacking or doubtful.</summary>
public static class TakeoffFindings
{
    private const string Deck = "plan bed {\n    start at (0 in, 20 in)\n    leg left forward length 40 in\n    leg front right length 40 in\n    leg right aft length 40 in\n    leg rear home\n}\npanel deck of skin { covers plan bed, top at 0 in }\n";

    private static string Ply(string facts) => "sheet ply {\n    thickness 6 mm\n    size 48 in by 96 in\n    " + facts.TrimEnd().Replace("\n", "\n    ", StringComparison.Ordinal) + "\n}\nstack skin { sheet ply }\n";

    public static readonly FindingInfo PropertyMissing = new("WN5001", "property-missing", Level.Warning, "A material does not state what a figure needs",
        "The figure is left out, and every sum that it belongs to says that it is not whole. Nothing is put in its place, since a silent zero looks like a light camper.",
        Ply("price 40 USD per sheet on 2026-01-01\n") + Deck, Ply("density 600 kg/m3\nprice 40 USD per sheet on 2026-01-01\n") + Deck);

    public static readonly FindingInfo NotSold = new("WN5002", "not-priced", Level.Note, "What something costs can't be told",
        "The material states no price, or not how it is sold, or nothing that turns what is needed into what is sold. Costs leave it out and say so.",
        Ply("density 600 kg/m3\n") + Deck, Ply("density 600 kg/m3\nprice 40 USD per sheet on 2026-01-01\n") + Deck);

    public static readonly FindingInfo PriceUndated = new("WN5003", "price-without-date", Level.Note, "A price has no date",
        "Prices move. Without the day that it was asked on, nobody can tell later whether it still holds.",
        Ply("density 600 kg/m3\nprice 40 USD per sheet\n") + Deck, Ply("density 600 kg/m3\nprice 40 USD per sheet on 2026-01-01\n") + Deck);

    public static readonly FindingInfo PriceStale = new("WN5004", "price-stale", Level.Note, "A price is older than the spec allows",
        "The spec says after how long a price is to be asked again.",
        "camper \"Demo\" { prices older than 90 days are stale on 2026-06-01 }\n" + Ply("density 600 kg/m3\nprice 40 USD per sheet on 2026-01-01\n") + Deck,
        "camper \"Demo\" { prices older than 90 days are stale on 2026-03-01 }\n" + Ply("density 600 kg/m3\nprice 40 USD per sheet on 2026-01-01\n") + Deck);

    public static readonly FindingInfo GlassContent = new("WN5005", "glass-content", Level.Error, "A glass content that can't be",
        "Glass content is the glass's share of the wet-out cloth by weight. Laid by hand it is near one half; above 0.8 there is too little resin to wet the glass, and nothing below zero or above one exists.",
        "cloth glass {\n    weight 200 g/m2\n    glass 0.9\n}\n" + Ply("density 600 kg/m3\n"), "cloth glass {\n    weight 200 g/m2\n    glass 0.5\n}\n" + Ply("density 600 kg/m3\n"));

    public static readonly FindingInfo SpreadOrder = new("WN5006", "spread-out-of-order", Level.Error, "A low value above the likely one, or a high value below it",
        "A figure's spread runs from its low value over the likely one to its high value.",
        Ply("density 600 kg/m3 from 650 kg/m3 to 700 kg/m3\n") + Deck, Ply("density 600 kg/m3 from 550 kg/m3 to 700 kg/m3\n") + Deck);

    public static readonly FindingInfo WeighedDiffers = new("WN5007", "weighed-differs", Level.Note, "A weighed panel is outside the spread of its estimate",
        "The scale takes over in every sum. That it lies outside what the materials' figures allow means that a density or a resin ratio is not what the spec says, and the panels not yet built are likely to be off in the same way.",
        Ply("density 600 kg/m3\n") + Deck + "built deck { weighed 20 kg }\n", Ply("density 600 kg/m3 from 500 kg/m3 to 4000 kg/m3\n") + Deck + "built deck { weighed 20 kg }\n");

    public static readonly FindingInfo UnknownDefault = new("WN5008", "default-unknown", Level.Error, "There is no default of that name",
        "A line \"default\" takes the place of a value that the program ships; one that it does not ship would have no effect.",
        "default squeeze_outs 0.2\n" + Ply(""), "default squeeze_out 0.2\n" + Ply(""));
}
