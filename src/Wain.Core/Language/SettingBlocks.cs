using System.Collections.Immutable;
using static Wain.Core.Language.Shape;

namespace Wain.Core.Language;

/// <summary>The blocks about everything round the structure: the camper's settings, loads, the carrier, what is built, the shop, the weather.</summary>
public static class SettingBlocks
{
    /// <summary>The version of the language that "written for wain" names.</summary>
    public const int LanguageVersion = 1;

    public static readonly FactShape Camper = Fact("camper <title:text> [revision <revision:text>] { ... }", "The name of the design, and how results are shown.", Block("camper", "Settings of the whole spec.",
        Fact("currency <currency:word>", "Money is shown in this currency."),
        Fact("exchange <money:money> is <value:money> on <date:date>", "A rate between two currencies, with its day; of two the later one counts.", many: true),
        Fact("lengths <style:inches|feet|millimetres> [to <fraction:ratio>]", "How lengths are shown."),
        Fact("weights <style:pounds|kilograms>", "How weights are shown."),
        Fact("tax <share:ratio> [source <source:text>]", "Sales tax on what is bought."),
        Fact("prices older than <age:time> are stale [on <date:date>]", "A price older than this on that day is told in a note."),
        Fact("tolerance <value:length>", "What stated measures may disagree by."),
        Fact("lap_ratio <value:count>", "Least lap width over the thickness left."),
        Fact("kerf <value:length>", "Width of the saw cut."),
        Fact("cuts <style:guillotine|free>", "Whether each cut goes from edge to edge of what lies on the saw, or may stop inside, as a jigsaw or a router cuts."),
        Fact("squeeze_out <share:ratio>", "Glue beyond what the joint needs."),
        Fact("offcut <value:money> per <unit:word>", "What a kept offcut is worth."),
        Fact("note <text:text>", "A remark for the first page.")));

    public static readonly FactShape Load = Fact("load <name:new> { ... }", "Something heavy with a place.", Block("load", "Weight that is carried.",
        Fact("weighs <value:mass> [from <low:mass>] [to <high:mass>] [source <source:text>]", "Its weight."),
        Fact("full <volume:volume> [density <density:density>]", "A tank: what it holds when full, of water unless a density is given."),
        Fact("item <item:item|hardware|unit> [<count:some> pieces]", "A bought item."),
        Fact("at <at:place3>", "Its centre."),
        Fact("on <panel:panel>", "It rests on this panel and moves with it."),
        Fact("when <state:dry|ready|camped|raised> [<share:ratio>]", "The states that it is aboard in, and how full.", each: "state"),
        Fact("size <x:length> by <y:length> by <z:length>", "Its size."),
        Fact("people <count:some>", "They are people, in the camper when camped.")));

    public static readonly FactShape Carrier = Fact("carrier <name:new> { ... }", "The truck: its ratings, its bed or frame, its cab.", Block("carrier", "The truck.",
        Fact("kind <kind:bed|flatbed|subframe>", "What the camper sits on."),
        Fact("wheelbase <value:length>", "Between the axles."),
        Fact("front_axle at <x:length>", "Place of the front axle along the truck, from the origin."),
        Fact("empty front <front:mass> rear <rear:mass> [weighed <date:date>] [guess] [with <with:text>]", "Axle loads of the empty truck, as weighed or as a guess."),
        Fact("gross_vehicle_rating <value:mass> [source <source:text>]", "GVWR."),
        Fact("front_axle_rating <value:mass> [source <source:text>]", "Front GAWR."),
        Fact("rear_axle_rating <value:mass> [source <source:text>]", "Rear GAWR."),
        Fact("tyre_rating <value:mass> each [source <source:text>]", "Load limit of one tyre."),
        Fact("wheel_rating <value:mass> each [source <source:text>]", "Load limit of one wheel."),
        Fact("placard_payload <value:mass> [source <source:text>]", "Payload on the tyre placard, people included."),
        Fact("cargo_rating <value:mass> [source <source:text>]", "Cargo weight rating, people excluded."),
        Fact("seats <count:count>", "Designated seats."),
        Fact("people <count:count> <each:mass> at <x:length>", "Who rides in the cab."),
        Fact("centre_zone from <from:length> to <to:length>", "Where the maker wants the centre of gravity of the cargo, along x."),
        Fact("track <value:length>", "Between the wheels of an axle."),
        Fact("bed <length:length> by <width:length> [depth <depth:length>]", "Inside of the bed, and the height of its rails."),
        Fact("wheel_well from <from:length> to <to:length> [between <between:length>] [high <high:length>]", "Wheel wells: along x, space between them, height."),
        Fact("tailgate <state:removed|open|closed> [width <width:length>]", "The tailgate, and the width of its opening."),
        Fact("bed_floor <value:length>", "Height of the bed floor over the ground."),
        Fact("cab roof <roof:length> [rear <rear:length>] [width <width:length>] [length <length:length>]", "The cab: its roof over the bed floor, its rear wall along x, width and length."),
        Fact("cab_clearance <value:length> [pitched <angle:angle>]", "What must stay clear of the cab, at rest and pitched."),
        Fact("side_clearance <value:length>", "Space to each side wall of the bed and to the wheel wells."),
        Fact("subframe <stick:stick> [weighs <weight:mass>] [high <height:length>]", "A frame of metal tube on the chassis: its tube, what a scale says of it, and how high the camper's underside lies over the chassis."),
        Fact("member <name:new> [of <stick:stick>] from <from:place3> to <to:place3>", "A tube of the subframe: the ends of its centre line as cut, its longer side upright, and what it is if not the tube of all."),
        Fact("tie_down <name:new> at <at:place3> [to <to:place3>] [rated <rated:force>] [with <hardware:hardware>]", "A place on the truck to tie down to, where the strap meets the camper (straight up if it isn't said), and what is bought for it."),
        Fact("tie_down_loads forward <forward:ratio> rear <rear:ratio> side <side:ratio> up <up:ratio> [source <source:text>]", "What the straps are held against, in units of gravity; 49 CFR 393.102 where it isn't stated."),
        Fact("tie_down_room <value:length>", "Clear space around each tie-down."),
        Fact("jack <name:new> at <at:place3> [room <room:length>]", "A jack of the camper and the room it needs."),
        Fact("mount <name:new> at <at:place3> [rated <rated:force>] [with <hardware:hardware>]", "A mount of the subframe, and what is bought for it."),
        Fact("rear_window from <low:length> to <high:length>", "The rear window of the cab over the bed floor.")));

    public static readonly FactShape Built = Fact("built <of:panel|part> { ... }", "What is already cut, measured, weighed or fitted.", Block("built", "Facts of what is built.",
        Fact("cut on <date:date> [design <mark:text>]", "Cut on this day, to the design with this mark."),
        Fact("glued on <date:date>", "Glued on this day."),
        Fact("fitted on <date:date>", "Fitted on this day."),
        Fact("measured <what:width|height|length|thickness> <value:length>", "As a tape says.", each: "what"),
        Fact("weighed <value:mass>", "As a scale says."),
        Fact("paid <value:money>", "What it cost."),
        Fact("note <text:text>", "A remark.")));

    public static readonly FactShape Owned = Fact("owned <name:new> of <material:sheet|stick|board|cloth|resin|adhesive|coating|screw|foam> { ... }", "Offcuts and packs already in the shop.", Block("owned", "Stock that is already there.",
        Fact("size <width:length> by <length:length> [count <count:count>]", "An offcut of a sheet or board.", many: true),
        Fact("length <length:length> [count <count:count>] [faulty <from:length> to <to:length>]", "A stick or a length of roll.", many: true),
        Fact("faulty <from:length> to <to:length>", "A stretch of every stick of this block that no part may touch, from one end.", many: true),
        Fact("amount <amount:any>", "What is left of a pack.")));

    public static readonly FactShape Shop = Fact("shop { ... }", "The shop and the people in it.", Block("shop", "The shop.",
        Fact("temperature <value:temperature>", "Temperature while glueing and pouring."),
        Fact("person lifts <value:mass>", "What one person lifts, as a limit for findings."),
        Fact("people <count:count>", "Hands at hand."),
        Fact("door <width:length> by <height:length>", "The door that parts must go through."),
        Fact("bench <length:length> by <width:length>", "The bench."),
        Fact("hours <hours:time> a day", "Hours of work in a day."),
        Fact("start on <date:date>", "First day of work."),
        Fact("cup <volume:volume>", "Largest cup that is mixed at once."),
        Fact("saw_tilt <value:angle>", "The most that the saw tilts.")));

    public static readonly FactShape Night = Fact("night <name:new> { ... }", "A cold night to stay warm in.", Block("night", "Inside and outside air for warmth and moisture.",
        Fact("outside <temperature:temperature> [humidity <humidity:ratio>]", "Air outside."),
        Fact("inside <temperature:temperature> [humidity <humidity:ratio>]", "Air inside."),
        Fact("lasts <time:time>", "How long."),
        Fact("air_change <rate:count> an hour", "Air changes in an hour."),
        Fact("people <count:count>", "Sleepers."),
        Fact("bridge <name:new> <value:ratio> W_per_K", "A thermal bridge, in watts per kelvin."),
        Fact("margin <value:ratio>", "What the heater should have in hand.")));

    public static readonly FactShape Climate = Fact("climate <name:new> { ... }", "Month by month air, for moisture after ISO 13788.", Block("climate", "Twelve months of air outside and inside.",
        Fact("month <name:new> outside <outside:temperature> <outside_humidity:ratio> inside <inside:temperature> <inside_humidity:ratio>", "One month's means."),
        Fact("source <text:text>", "Where the figures come from.")) with { IsSequence = true });

    public static readonly FactShape Case = Fact("case <name:new> on <panel:panel> { ... }", "A load that a panel must bear.", Block("case", "A load case of strength and stiffness.",
        Fact("uniform <pressure:pressure> [source <source:text>]", "Spread over the panel."),
        Fact("patch <force:force> on <width:length> by <length:length> [source <source:text>]", "A person, a hand, a wheel."),
        Fact("wind <speed:speed> [source <source:text>]", "Wind on the panel."),
        Fact("span <span:length> [width <width:length>]", "The span that bears, where it is not the panel's own."),
        Fact("edges <edges:simple|fixed|cantilever>", "How the edges are held."),
        Fact("method <method:beam|plate>", "One-way strip, or plate held on four sides."),
        Fact("deflection at most <limit:ratio> of span", "Least stiffness, such as 1/180.")));

    public static readonly FactShape Work = Fact("work <name:new> { ... }", "A step of work beyond those that the model gives, or a change of one.", Block("work", "A step of work.",
        Fact("after <step:word>", "What must be done before.", many: true),
        Fact("takes <time:time>", "Hours of work."),
        Fact("waits <time:time>", "Time that nothing may touch it."),
        Fact("on <panel:panel>", "What it is done to.", many: true),
        Fact("note <text:text>", "What to do.")));

    private static readonly FactShape[] Plain =
    [
        Fact("written for wain <version:count>", "The version of the language that the spec was written for."),
        Fact("use <file:text>", "Reads another file of the spec, once.", many: true),
        Fact("place <group:call> as <name:new>", "Sets up the contents of a group with its values filled in."),
        Fact("level <name:new> at <at:level>", "A height with a name."),
        Fact("default <name:word> <value:any> [source <source:text>]", "Takes the place of a default that the program ships.", each: "name"),
        Fact("accept <code:word> [for <subject:subject>] [because <reason:text>]", "Accepts one finding at one place, with a reason.", many: true),
    ];

    /// <summary>Everything that may stand at the top of a spec.</summary>
    public static readonly BlockShape Spec = Block("spec", "The whole spec.",
        [.. Plain, Camper, .. MaterialBlocks.All, StructureBlocks.Stack, StructureBlocks.Plan, StructureBlocks.Panel, StructureBlocks.Mirror, StructureBlocks.Joint,
         StructureBlocks.Lift, StructureBlocks.Assembly, Load, Carrier, Built, Owned, Shop, Night, Climate, Case, Work]);

    /// <summary>Kinds of things that have a name of their own: the keywords of the top level that give one.</summary>
    public static readonly ImmutableArray<string> NamedKinds = [.. Spec.Facts.Where(f => f.NameSlot is not null).Select(f => f.Keyword)];
}
