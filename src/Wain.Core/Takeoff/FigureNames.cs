using System.Collections.Immutable;
using System.Text;

namespace Wain.Core.Takeoff;

/// <summary>The names of the figures of geometry and takeoff, for the reference. Capitals stand for names that a spec gives.</summary>
public static class FigureNames
{
    /// <summary>Pattern and meaning. LINE is a panel, a zone (PANEL.ZONE), an opening, a joint (EDGE_to_EDGE), a lift's strut or a load, with the material after it.</summary>
    public static readonly ImmutableArray<(string Pattern, string Meaning)> All =
    [
        ("PANEL.width", "over all along the panel, at the outside face"), ("PANEL.height", "over all up the panel"), ("PANEL.thickness", "through its layers, before cloth and coatings"),
        ("PANEL.perimeter", "round its outside face"), ("PANEL.area", "inside its outline, openings counted in"), ("PANEL.net_area", "less its openings"),
        ("PANEL.weight", "the bare panel, as weighed or else as estimated"), ("PANEL.weight_estimated", "the estimate, where it was weighed"), ("PANEL.weight_difference", "weighed less estimated"),
        ("PANEL.cost", "as paid, or else its share of what is bought, before tax"), ("PANEL.cost_estimated", "the share, where a price paid is stated"), ("PANEL.cost_difference", "paid less the share"),
        ("PANEL.OPENING.width", "as cut"), ("PANEL.OPENING.height", "as cut"), ("PANEL.OPENING.area", "the hole, corners rounded"),
        ("LINE.area", "as cut or covered, net of openings"), ("LINE.length", "end to end"), ("LINE.volume", "what stays, bevels and laps counted; of coatings and sealant, as it is put on"), ("LINE.mass", "as it is mixed or spread"), ("LINE.count", "pieces"),
        ("LINE.need", "with waste"), ("LINE.weight", "what stays in the camper"), ("LINE.cost", "its share of what its material costs, before tax"),
        ("LINE.pieces", "pieces of a skin or board"), ("LINE.blocks", "blocks of board in the bays"), ("LINE.members", "members of the frame"), ("LINE.bays", "bays that are filled"), ("LINE.lap_area", "where pieces or lengths lap"),
        ("LINE.face_area", "the face that cloth lies on"), ("LINE.plies", "plies of cloth"), ("LINE.coats", "coats"), ("LINE.fill_coats", "fill coats of resin"), ("LINE.flood_coats", "flood coats of resin"),
        ("LINE.squeezed_out", "glue pressed out"), ("LINE.resin_share", "resin in a paste, by weight"), ("LINE.run", "length of all beads"),
        ("MATERIAL.PROPERTY", "a figure that the spec states, with its spread and source"),
        ("MATERIAL.need", "of all lines, in the measure that it is sold by"), ("MATERIAL.owned", "in the shop already"), ("MATERIAL.pack_size", "what one pack holds"), ("MATERIAL.packs", "whole packs to buy"),
        ("MATERIAL.pack_price", "in the spec's currency"), ("MATERIAL.cost", "packs times price, before tax"),
        ("STACK.thickness", "its layers, before cloth and coatings"), ("PLAN.area", "inside its outline"), ("PLAN.perimeter", "round its outline"), ("PLAN.misclosure", "the most that stated measures disagree"),
        ("LOAD.weight", "full"), ("LOAD.weighs", "as the spec says"), ("LOAD.full", "what a tank holds"), ("LOAD.full.density", "of what is in it"),
        ("ASSEMBLY.weight", "its panels, what is fitted in them and what joins them"), ("ASSEMBLY.cost", "the same, before tax"),
        ("default.NAME", "a value that ships with the program or that the spec puts in its place"), ("camper.squeeze_out", "as the spec says"),
        ("total.panels", "how many"), ("total.net_area", "all panels less openings"), ("total.weight", "all that is built, without loads"),
        ("total.weight_dry", "with the loads that stay aboard"), ("total.weight_ready", "ready to travel"), ("total.weight_camped", "camped, people aboard"), ("total.weight_raised", "camped, roof up"),
        ("total.cost_bought", "all whole packs, before tax"), ("total.tax_rate", "as the spec says"), ("total.tax", "on what is bought"), ("total.cost", "with tax; what was paid for a built panel takes the place of its share"),
    ];

    /// <summary>The list as a table in Markdown.</summary>
    public static string Markdown()
    {
        var table = new StringBuilder("| Figure | What it is |\n| --- | --- |\n");
        foreach (var (pattern, meaning) in All) table.Append("| `").Append(pattern).Append("` | ").Append(meaning).Append(" |\n");
        return table.ToString();
    }
}
