using static Wain.Core.Language.Shape;

namespace Wain.Core.Language;

/// <summary>The blocks that describe what is built: stacks, plans, panels with their frames, zones and openings, joints, lifts.</summary>
public static class StructureBlocks
{
    public static readonly FactShape Stack = Fact("stack <name:new> { ... }", "Layers, listed from the outside face to the inside face.", Block("stack", "The layers of a panel, from the outside face to the inside face.",
        Fact("coating <material:coating> [<coats:some> coats]", "Coats of paint or varnish.", many: true),
        Fact("cloth <material:cloth> [wet with <resin:resin>] [plies <plies:some>] [fill coats <fill:count>] [flood coats <flood:count>]", "Glass cloth wet out with resin.", many: true),
        Fact("sheet <material:sheet> [glued with <glue:adhesive>] [grain <grain:along|across>]", "A skin.", many: true),
        Fact("core frame of <stick:stick> [flat] [on edge] [filled with <fill:board|foam>] [glued with <glue:adhesive>]", "A frame of sticks with what fills its bays; flat lays the stick's thickness through the wall, on edge its width.", many: true),
        Fact("foam <material:board> [thick <thickness:length>] [glued with <glue:adhesive>]", "A core of foam board without a frame, at the board's thickness or ripped thinner.", many: true),
        Fact("membrane <material:membrane>", "A film or fabric.", many: true),
        Fact("lining <material:membrane> [glued with <glue:adhesive>]", "A fabric lining.", many: true),
        Fact("air <thickness:length>", "An air space.", many: true)) with { IsSequence = true });

    public static readonly FactShape Plan = Fact("plan <name:new> [from <base:plan>] [outward by <outward:length>] [inward by <inward:length>] [mirrored] [joined with <joined:plan>] [cut back by <cut:plan>] { ... }",
        "An outline seen from above, walked leg by leg; or one that derives from another.", Block("plan", "An outline walked like a land survey.",
        Fact("start at <at:place2>", "Where the walk begins, x forward and y left."),
        Fact("leg <name:new> [run <run:length>] [across <across:length>] [length <length:length>] [inward <inward:angle>] [outward <outward:angle>] [inward by <in_by:length>] [outward by <out_by:length>] [width <width:length>] [forward] [aft] [left] [right] [to <to:place2>] [home] [mirror of <mirror:word>] [bowed outward by <bow:length>] [rounded <rounded:length>]",
            "One side of the outline. run is measured along the axis, length along the leg, width across the whole plan at the leg's far end."),
        Fact("side <name:new> [outward by <outward:length>] [inward by <inward:length>]", "Another offset for one side of a derived plan."),
        Fact("line <lies:outside|frame|inside>", "Where the outline lies in the thickness of the walls that stand on it."),
        Fact("corners <corners:mitred|lapped>", "How the walls meet at the corners."),
        Fact("through <leg:word>", "The wall on this leg runs through at both of its corners.", many: true),
        Fact("mitred <first:word> with <second:word>", "The corner between two legs is mitred.", many: true),
        Fact("tolerance <value:length>", "What stated measures may disagree by at a leg's far end.")) with { IsSequence = true });

    private static readonly FactShape Frame = Fact("frame { ... }", "The sticks between the skins.", Block("frame", "Rails, stiles, studs and blocking between the skins.",
        Fact("studs [every <every:length>] [count <count:count>] [on centre] [from <from:left|right|bottom|top|start|end>] [turned]", "Inner members across the rails, at a spacing or evenly by count."),
        Fact("rails <run:through|between>", "Which members run through at the corners."),
        Fact("blocking at <at:length> up [from <from:length>] [to <to:length>]", "A member along the panel, between the studs.", many: true),
        Fact("stud at <at:length> along", "One more stud at a place.", many: true),
        Fact("double <edge:bottom|top|left|right>", "Two members along an edge.", many: true),
        Fact("joined with <screw:screw> [<count:some> each] [glued with <glue:adhesive>]", "What holds each meeting of members."),
        Fact("margin <edge:word> <value:length>", "The frame stands back from this edge.", each: "edge"),
        Fact("bay at least <value:length>", "Bays narrower than this are filled solid."),
        Fact("header <stick:stick> [count <count:some>]", "Another stick for headers over openings."),
        Fact("face_down <face:outside|inside>", "The face that lies on the bench when the frame is assembled.")));

    private static readonly FactShape Opening = Fact("opening <name:new> { ... }", "A hole for a window, door or hatch, or a bare one.", Block("opening", "A hole through the panel, told as seen from outside.",
        Fact("unit <unit:unit>", "The bought unit that goes in."),
        Fact("size <width:length> by <height:length> [corner <corner:length>]", "The hole, where no unit says it."),
        Fact("lower <corner:left|right> at <at:place2> [seen from outside]", "The corner of the hole from the same corner of the panel: along, up."),
        Fact("upper <corner:left|right> at <at:place2> [seen from outside]", "The upper corner from the panel's lower corner on that side."),
        Fact("centred at <at:place2>", "The middle of the hole from the panel's lower left corner, seen from outside."),
        Fact("centred <up:length> up", "In the middle of the panel's length, this far up to the middle of the hole."),
        Fact("recessed <depth:length> [margin <margin:length>] [corner <corner:length>] [from <face:outside|inside>]", "The unit sits in a recess of its own, this deep and this much larger all round."),
        Fact("proud at most <value:length>", "How far trim may stand out of the face that surrounds it."),
        Fact("framed [with <stick:stick>] [trimmers <trimmers:count>]", "Members all round the hole."),
        Fact("unframed", "No members round the hole: the skins and foam alone."),
        Fact("lintel <value:length>", "Height of the header.")));

    private static readonly FactShape Zone = Fact("zone <name:new> [of <stack:stack>] [from <from:length> to <to:length> along] [from <low:length> to <high:length> up] [over plan <plan:plan>] [recessed <recess:length> from <face:outside|inside>] [on <side:top|bottom|outside|inside>] { ... }",
        "A part of the panel with a stack of its own, in place of its layers or added to a face.", Block("zone", "A part of a panel with a stack of its own.",
        Fact("lower left at <at:place2> [size <width:length> by <height:length>]", "A rectangle, seen from outside."),
        Fact("leaves <stack:stack>", "What the recess leaves."),
        Fact("edge <treatment:square|rounded|bevelled> [<size:length>]", "How the step at its border is worked.")));

    private static readonly FactShape Splice = Fact("splice across <axis:length|width> [at <at:length>] [of <material:sheet>] { ... }", "How a skin longer than a sheet is joined out of pieces.", Block("splice", "A joint within a skin.",
        Fact("lap width <value:length>", "How far the pieces lap."),
        Fact("lap depth <depths:depths>", "What is routed off each piece: half, or one or two depths."),
        Fact("scarf <slope:count>", "A scarf of this slope: 8 for 8 to 1."),
        Fact("butt [backed by <width:length>]", "A butt joint with a strip behind it."),
        Fact("glue <glue:adhesive|resin>", "What joins it."),
        Fact("pieces <lengths:lengths>", "The pieces as cut, if stated."),
        Fact("over stud", "The splice is placed over a framing member."),
        Fact("staggered by <value:length>", "How far the splices of the two faces stand apart."),
        Fact("least piece <value:length>", "No piece is shorter.")), many: true);

    public static readonly FactShape Panel = Fact("panel <name:new> [of <stack:stack>] { ... }", "A flat panel.", Block("panel", "A flat panel with its place, frame, zones, openings and splices.",
        Fact("covers plan <plan:plan> [underside at <underside:level>] [top at <top:level>] [pitched <pitch:angle> toward <toward:forward|aft|left|right>]", "Lies over a plan at a level; pitched tilts it to shed water."),
        Fact("stands on <leg:leg> [from <from:level>] [to <to:level>] [leaning <lean:angle> <leaning:inward|outward>]", "Stands on a leg of a plan, between two levels or faces."),
        Fact("spans from <a:place2> to <b:place2> [standing on <bottom:level>] [up to <top:level>]", "An upright panel between two points seen from above, such as a partition. Both lie on its outside face, the first at its left."),
        Fact("leans from <lower:edge> to <upper:edge> [overhang <overhang:length>]", "A raked panel from one edge to another, from the face of each panel that looks toward the other."),
        Fact("through <origin:place3> along <along:place3> up <up:place3> [shape <shape:plan>]", "Placed by three points: its lower left corner seen from outside, a point along its bottom, a point above it."),
        Fact("overhang <edge:word> by <value:length>", "Reaches beyond its place on one side: beyond the plan that it covers, or the edges that it stands, spans or leans between.", each: "edge"),
        Fact("inset <edge:word> by <value:length>", "Stays inside its place on one side, such as a wall that ends under a lid with a gap for the seal.", each: "edge", instead: "overhang"),
        Fact("outside <face:up|down|left|right|forward|aft>", "Which way the outside face looks."),
        Fact("bevel <edge:word> <angle:angle>", "The edge is cut at this angle from square.", each: "edge"),
        Fact("rounded <edge:word> <radius:length>", "The edge is rounded over where it meets the outside face.", each: "edge"),
        Fact("rounded_corner <corner:lower_left|lower_right|upper_left|upper_right> <radius:length>", "A corner of the outline is an arc.", each: "corner"),
        Fact("rabbet <edge:word> <width:length> by <depth:length> [from <face:outside|inside>] [over <start:length> to <end:length>]", "A step routed along an edge, or over a part of it that is measured from its left or lower end.", many: true),
        Fact("lip <edge:word> <width:length> [of <layer:sheet>]", "A skin that reaches past the frame.", many: true),
        Fact("runs through <other:panel>", "At the meeting with that panel this one runs through.", many: true),
        Fact("stops at <other:panel>", "At the meeting with that panel this one stops.", many: true),
        Fact("raised with <lift:lift>", "Moves with a lift; the lift's own list says the same."),
        Fact("part_mark <mark:text>", "A mark that stays whatever else changes."),
        Fact("trimmed_flush <edge:word> [allowance <value:length>]", "Cut large and trimmed after glueing.", each: "edge"),
        Fact("grain <along:along|up|free>", "Which way the grain of the skins runs."),
        Fact("finish <coating:coating> [<coats:some> coats] [on <face:outside|inside>]", "Coats on one face beyond those of the stack.", many: true),
        Fact("slope at least <value:angle>", "The least slope that sheds water."),
        Frame, Zone, Opening, Splice));

    public static readonly FactShape Mirror = Fact("mirror <of:panel|load> as <name:new> { ... }", "A copy across the centre line; facts in the block take the place of the copied ones.", Panel.Body);

    public static readonly FactShape Joint = Fact("joint <first:edge> to <second:edge> { ... }", "Where two panels meet and how they are held.", Block("joint", "How two panels meet.",
        Fact("butt", "One stops square against the other."),
        Fact("mitre", "Both are bevelled to meet."),
        Fact("lap [width <width:length>] [depth <depths:depths>]", "Both are stepped to lap; panels at an angle lap as far as the step is deep."),
        Fact("rabbet depth <depth:length>", "One sits in a step of the other."),
        Fact("through <panel:panel>", "The panel that runs through."),
        Fact("screws <screw:screw> [every <every:length>] [count <count:some>] [driven from <from:below|above|outside|inside|left|right|forward|aft>] [edge distance <edge:length>] [end distance <end:length>] [pilot <pilot:length>]", "Screws along the joint.", many: true),
        Fact("glue <glue:adhesive|resin>", "What glues it."),
        Fact("fillet <paste:filler> radius <radius:length> [consistency <consistency:word>] [taped with <tape:tape>] [both sides]", "A cove of thickened resin.", many: true),
        Fact("taped with <tape:tape> [plies <plies:some>] [wet with <resin:resin>]", "Glass tape over the seam.", many: true),
        Fact("sealant <sealant:sealant> [beads <beads:some>]", "A bead of sealant.", many: true),
        Fact("trim <trim:trim>", "Edging along the joint.", many: true),
        Fact("seal <seal:seal>", "A seal along the joint."),
        Fact("hardware <hardware:hardware> <count:some>", "Hinges, brackets.", many: true),
        Fact("gusset <material:sheet> <leg:extent> by <other:extent> [count <count:some>]", "Plywood gussets."),
        Fact("gap <range:bounds_length>", "The gap that is meant to stay."),
        Fact("unglued", "It comes apart."),
        Fact("mirrored", "The joint stands on the other side as well.")));

    public static readonly FactShape Lift = Fact("lift <name:new> { ... }", "What rises, and how far.", Block("lift", "A group of panels that moves.",
        Fact("carries { ... }", "The panels that move.", ListOf("carries", "The panels that move.", "panel")),
        Fact("travel <value:length> [toward <toward:up|down|forward|aft|left|right>]", "How far it moves."),
        Fact("gap <range:bounds_length>", "Clear space between what moves and what stands."),
        Fact("lag up to <value:length> at any corner", "How much one corner may be behind while it moves."),
        Fact("overlap raised <range:bounds_length>", "How far the walls still lap when raised."),
        Fact("clearance <range:bounds_length>", "Least clear space from anything proud, at every height."),
        Fact("headroom <range:bounds_length>", "Height inside when raised."),
        Fact("seal <seal:seal>", "The seal between what moves and what stands."),
        Fact("lifted at <name:new> <at:place3>", "A point where it is pushed up."),
        Fact("strut <name:new> <hardware:hardware> from <fixed:place3> to <moving:place3>", "A gas spring or actuator between a fixed and a moving point."),
        Fact("hinged at <first:place3> to <second:place3> [opens <angle:angle>]", "It turns about this line instead of rising straight, by a quarter turn unless it says otherwise; then it has no travel."),
        Fact("margin <value:ratio>", "By how much the struts should exceed the load."),
        Fact("hand_force at most <value:force>", "What a person is asked to push.")));

    public static readonly FactShape Assembly = Fact("assembly <name:new> { ... }", "Panels that are told together in weights and costs.", ListOf("assembly", "Panels that are told together.", "panel"));
}
