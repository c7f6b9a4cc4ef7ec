using System.Collections.Immutable;
using System.Text;

namespace Wain.Core.Figures;

/// <summary>The names of all computed figures, for the reference. Capitals stand for names that a spec gives; a test holds every figure of the demo against them.</summary>
public static class FigureNames
{
    /// <summary>Pattern and meaning. LINE is a panel, a zone (PANEL.ZONE), an opening, a joint (EDGE_to_EDGE), a lift's strut or a load, with the material after it; STEP is a panel, a joint, an opening or a lift with what is done to it, or work of the spec's own.</summary>
    public static readonly ImmutableArray<(string Pattern, string Meaning)> All =
    [
        ("PANEL.width", "over all along the panel, at the outside face"), ("PANEL.height", "over all up the panel"), ("PANEL.width_measured", "what a tape said of a panel that isn't fitted yet; height likewise"), ("PANEL.width_difference", "measured less designed"), ("PANEL.height_measured", "as a tape said"), ("PANEL.height_difference", "measured less designed"), ("PANEL.thickness", "through its layers, before cloth and coatings"),
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
        ("MATERIAL.section_area", "of a stick, its hollow taken off"),
        ("PANEL.centre_x", "centre of gravity, forward of the origin"), ("PANEL.centre_y", "centre of gravity, to the left"), ("PANEL.centre_z", "centre of gravity, over the origin"), ("PANEL.hands", "people who lift it, with what is fitted in it"),
        ("PANEL.u", "heat transmittance (ISO 6946)"), ("PANEL.ZONE.u", "heat transmittance (ISO 6946)"), ("PANEL.BAY.foam", "poured foam to mix"), ("PANEL.BAY.foam_a", "part A of it"), ("PANEL.BAY.foam_b", "part B of it"), ("PANEL.BAY.foam_a_volume", "part A as it comes, where its density is stated; part B likewise"), ("PANEL.BAY.pours", "layers to pour it in"),
        ("LINE.batches", "cups to mix"), ("LINE.part_a", "resin in each mix, all cups"), ("LINE.part_b", "hardener, all cups"), ("LINE.part_a_volume", "resin by volume"), ("LINE.part_b_volume", "hardener by volume"), ("LINE.hands", "people who spread it, so that all of it is worked while it is wet"),
        ("CASE.deflection", "bends by"), ("CASE.margin", "the least of allowable over value, less one"), ("CASE.wind_pressure", "of the wind stated"), ("CASE.deflection_bending", "the part of it from bending"), ("CASE.deflection_shear", "the part of it from shear"),
        ("CASE.joint_pull", "on a glue line, away from it"), ("CASE.joint_shear", "along a glue line"), ("CASE.screw_pull", "on one screw"), ("CASE.gusset_bond", "most shear under a gusset"), ("CASE.splice_bond", "shear in a lap"), ("CASE.splice_skin", "stress in what a lap leaves of the skin"), ("CASE.face_stress", "most stress in a skin"), ("CASE.core_shear", "most shear in the core"), ("CASE.member_stress", "most stress in a frame member"), ("CASE.wrinkling_stress", "at which a skin would wrinkle, against which its stress is held"),
        ("LIFT.clearance", "least clear space over the travel"), ("LIFT.clearance_racked", "the same with one corner behind"), ("LIFT.gap_least", "least gap between standing and moving walls"), ("LIFT.gap_most", "widest gap"), ("LIFT.headroom", "inside, raised"),
        ("LIFT.overlap", "how far the walls still lap when raised"), ("LIFT.strut_margin", "what the struts have in hand"), ("LIFT.hand_force_raising", "most that a person pushes"), ("LIFT.hand_force_lowering", "most that a person pulls down"), ("LIFT.POINT.force", "at a lifting point, level"), ("LIFT.POINT.force_most", "with uneven travel"),
        ("NIGHT.heat_loss", "of the whole shell and of air change"), ("NIGHT.heater", "heater to buy"), ("NIGHT.heat", "over the night"), ("NIGHT.coldest_surface", "of any wall inside"), ("CLIMATE.STACK.condensate", "most that a lay-up holds in a year (ISO 13788)"),
        ("TRUCK.front_axle_load_STATE", "dry, ready, camped, raised"), ("TRUCK.rear_axle_load_STATE", "likewise"), ("TRUCK.gross_load_STATE", "both axles"), ("TRUCK.rear_left_load_STATE", "on the left rear wheels"), ("TRUCK.rear_right_load_STATE", "on the right rear wheels"), ("TRUCK.front_left_load_STATE", "on the left front wheel"), ("TRUCK.front_right_load_STATE", "on the right front wheel"),
        ("TRUCK.LIMIT_margin_STATE", "what is left to a rating: gvwr, front_gawr, rear_gawr, front_tyre, rear_tyre, front_wheel, rear_wheel, placard_payload, cargo_weight_rating"), ("TRUCK.cargo_rating_by_seats", "gross rating less the empty truck and 150 lb a seat (49 CFR 575.103)"), ("TRUCK.height_closed", "over the road, with what stands out of the roof"), ("TRUCK.height_raised", "the same, roof up"), ("TRUCK.mount_force_WAY", "the most of one mount of the subframe: braking, speeding_up, turning_left, turning_right"), ("TRUCK.tie_down_force_WAY", "the most of one tie-down: braking, speeding_up, turning_left, turning_right, upward"),
        ("total.centre_x_STATE", "centre of all that is aboard, forward"), ("total.centre_y_STATE", "to the left"), ("total.centre_z_STATE", "over the origin"),
        ("total.air_volume", "inside, raised"), ("STEP.work", "of one person, for a step of the order of work"), ("total.work", "all steps that are left"), ("total.days", "from the first day of work to the last cure"),
        ("total.panels", "how many"), ("total.net_area", "all panels less openings"), ("total.weight", "all that is built, without loads"),
        ("total.weight_dry", "with the loads that stay aboard"), ("total.weight_ready", "ready to travel"), ("total.weight_camped", "camped, people aboard"), ("total.weight_raised", "camped, roof up"),
        ("total.cost_bought", "all whole packs, before tax"), ("total.tax_rate", "as the spec says"), ("total.tax", "on what is bought"), ("total.cost", "with tax; what was paid for a built panel takes the place of its share"),
    ];

    /// <summary>Names of figures that a thing may have, before any is computed: those with one word after its own.</summary>
    public static IEnumerable<string> Of(string keyword, string name)
    {
        string owner = keyword == "total" ? keyword : (keyword == "mirror" ? "panel" : keyword).ToUpperInvariant() + ".";
        return All.Where(f => f.Pattern.StartsWith(owner, StringComparison.Ordinal) && f.Pattern.IndexOf('.', StringComparison.Ordinal) is var dot && f.Pattern.LastIndexOf('.') == dot && !f.Pattern[dot..].Any(char.IsUpper))
            .Select(f => name + f.Pattern[f.Pattern.IndexOf('.', StringComparison.Ordinal)..]);
    }

    /// <summary>The list as a table in Markdown.</summary>
    public static string Markdown()
    {
        var table = new StringBuilder("| Figure | What it is |\n| --- | --- |\n");
        foreach (var (pattern, meaning) in All) table.Append("| `").Append(pattern).Append("` | ").Append(meaning).Append(" |\n");
        return table.ToString();
    }
}
