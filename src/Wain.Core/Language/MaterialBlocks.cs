using System.Collections.Immutable;
using static Wain.Core.Language.Shape;

namespace Wain.Core.Language;

/// <summary>The blocks that describe what is bought: sheets, sticks, foams, cloth, resins, fastenings, units.</summary>
public static class MaterialBlocks
{
    // A figure of a material says how far it spreads and where it comes from.
    private const string Spread = " [from <low:same>] [to <high:same>] [source <source:text>]";

    private static FactShape Figure(string reading, string summary) => Fact(reading + Spread, summary);

    private static readonly FactShape[] Bought =
    [
        Fact("price <amount:money> per <per:word> [on <date:date>] [source <source:text>]", "What it costs, for what, and on which day that was so."),
        Fact("sold by <package:word> [of <size:any>] [minimum <minimum:count>]", "What it is sold in, and how much one holds."),
        Fact("waste <share:ratio>", "The share lost in cutting, mixing and spilling; bought on top."),
        Fact("grade <grade:text>", "The trade's grade, as text."),
        Fact("note <text:text>", "A remark that goes with the buying list."),
        Fact("source <text:text>", "Where the figures of this material come from, unless a figure says otherwise."),
    ];

    private static readonly FactShape[] Mechanical =
    [
        Figure("modulus <value:pressure>", "Modulus of elasticity in bending along the grain or the panel."),
        Figure("modulus_across <value:pressure>", "Modulus of elasticity across the grain."),
        Figure("shear_modulus <value:pressure>", "Shear modulus through the thickness."),
        Figure("bending_strength <value:pressure>", "Allowable or ultimate bending stress; say which in the source."),
        Figure("compressive_strength <value:pressure>", "Compressive strength."),
        Figure("tensile_strength <value:pressure>", "Tensile strength."),
        Figure("shear_strength <value:pressure>", "Shear strength; for a core, through its thickness."),
        Figure("safety <value:ratio>", "What a strength is divided by before it counts as allowable."),
        Figure("poisson <value:ratio>", "Poisson's ratio."),
    ];

    private static readonly FactShape[] Warm =
    [
        Figure("conductivity <value:conductivity>", "Heat conductivity."),
        Figure("vapour <value:count>", "Vapour resistance factor (mu) after ISO 10456."),
    ];

    private static readonly FactShape Density = Figure("density <value:density>", "Mass by volume.");
    private static readonly FactShape Gravity = Figure("specific_gravity <value:ratio>", "Specific gravity of wood, ovendry.");

    /// <summary>A material may be like another of its kind but for what its own block states: the same board from another yard, or one of a shipped list with a price.</summary>
    private static FactShape Named(string kind, string summary, BlockShape body) => Fact($"{kind} <name:new> [like <like:{kind}>] {{ ... }}", summary, body);

    private static BlockShape Material(string name, string summary, params FactShape[][] facts) => Block(name, summary, [.. facts.SelectMany(f => f), .. Bought]);

    public static readonly FactShape Sheet = Named("sheet", "A sheet material: plywood, plastic, metal.", Material("sheet", "A sheet material.",
    [
        Fact("thickness <true:length> [called <called:text>] [measured <measured:length>]", "True thickness; what the shop calls it; what a caliper says of the sheets in hand."),
        Fact("size <width:length> by <length:length> [called <called:text>] [price <amount:money>] [on <date:date>] [count <count:count>]", "A size it is sold in, width by length; the grain runs along the length.", many: true),
        Fact("grain <grain:along|across|none>", "Along the length, across it, or none."),
        Fact("trimmed <edge:length>", "What is trimmed off each factory edge before cutting."),
        Fact("kind <kind:wood|metal|plastic>", "What it is made of."),
        Fact("plies <count:count>", "Number of plies."),
        Figure("weight <value:massperarea>", "Mass by area, if known better than by density."),
        Density, Gravity,
    ], Mechanical, Warm));

    public static readonly FactShape Stick = Named("stick", "Lumber or metal sold by length.", Material("stick", "Lumber or metal sold by length.",
    [
        Fact("section <thickness:length> by <width:length> [called <called:text>] [measured <measured_thickness:length> by <measured_width:length>]", "True section, thickness by width; what the yard calls it."),
        Fact("wall <wall:length>", "Wall thickness of a hollow section."),
        Fact("length <length:length> [price <amount:money>] [on <date:date>] [count <count:count>]", "A length it is sold in.", many: true),
        Fact("kind <kind:softwood|hardwood|plywood|aluminium|steel|plastic>", "What it is made of."),
        Figure("weight <value:massperlength>", "Mass by length, if known better than by density."),
        Density, Gravity,
    ], Mechanical, Warm));

    public static readonly FactShape Board = Named("board", "Foam board.", Material("board", "Foam board.",
    [
        Fact("thickness <true:length> [called <called:text>] [measured <measured:length>]", "True thickness of the board as sold."),
        Fact("size <width:length> by <length:length> [called <called:text>] [price <amount:money>] [on <date:date>] [count <count:count>]", "A size it is sold in.", many: true),
        Density,
    ], Mechanical, Warm));

    public static readonly FactShape Foam = Named("foam", "Two-part foam that is poured.", Material("foam", "Two-part foam that is poured into cavities.",
    [
        Density,
        Figure("free_rise <value:density>", "Density when it rises freely at the temperature of the data sheet."),
        Fact("overpack <share:ratio>", "How much more than free rise is poured, so that corners fill."),
        Fact("mix <a:count> to <b:count> by <by:weight|volume>", "Parts of A to parts of B."),
        Figure("part_a_density <value:density>", "Density of part A as it comes; what is mixed by volume needs it for grams."),
        Figure("part_b_density <value:density>", "Density of part B as it comes."),
        Fact("cream <time:time>", "Time from mixing until it begins to rise, at the temperature of the data sheet."),
        Fact("data_sheet_temperature <value:temperature>", "Temperature that the free-rise density holds at."),
        Figure("cold_loss <value:ratio>", "Share of volume lost for each 10 Fahrenheit degrees below that temperature."),
        Fact("pour_depth <value:length>", "Deepest layer that may be poured at once."),
        Fact("flow <value:length>", "How far it flows before it sets, at least; a cavity that reaches farther wants more holes."),
        Fact("shallow <value:length>", "A cavity shallower than this fills badly when it is wide."),
    ], Mechanical, Warm));

    public static readonly FactShape Cloth = Named("cloth", "Glass cloth or mat.", Material("cloth", "Glass cloth or mat.",
    [
        Figure("weight <value:massperarea>", "Mass by area, dry."),
        Fact("roll <width:length> wide [<length:length> long] [price <amount:money>] [on <date:date>]", "A roll it is sold on.", many: true),
        Figure("glass <value:ratio>", "Glass content by weight of the wet-out cloth."),
        Fact("overlap <value:length>", "How far one length laps the next."),
        Fact("bend_radius <value:length>", "Smallest outside radius that it lies over."),
        Figure("fibre_density <value:density>", "Density of the glass itself."),
    ], Mechanical, Warm));

    public static readonly FactShape Tape = Named("tape", "Glass tape for fillets and seams.", Material("tape", "Glass tape.",
    [
        Figure("weight <value:massperarea>", "Mass by area, dry."),
        Fact("width <value:length>", "Width of the tape."),
        Figure("glass <value:ratio>", "Glass content by weight when wet out."),
        Fact("roll <length:length> long [price <amount:money>] [on <date:date>]", "A roll it is sold on.", many: true),
    ]));

    public static readonly FactShape Resin = Named("resin", "Epoxy or another laminating resin.", Material("resin", "Laminating resin with its hardener.",
    [
        Density,
        Fact("mix <a:count> to <b:count> by <by:weight|volume>", "Parts of resin to parts of hardener."),
        Figure("resin_density <value:density>", "Density of the resin part."),
        Figure("hardener_density <value:density>", "Density of the hardener part."),
        Fact("pot_life <time:time> [at <at:temperature>]", "How long a cup stays liquid."),
        Fact("working_time <time:time>", "How long a wet surface can be worked, at the temperature of the pot life."),
        Fact("cure <time:time> [at <at:temperature>]", "When the next step may load it."),
        Figure("fill_coat <value:massperarea>", "Mass of one fill coat by area."),
        Figure("flood_coat <value:massperarea>", "Mass of one flood coat by area."),
        Figure("seal_coat <value:massperarea>", "Mass of one seal coat on bare wood by area."),
        Figure("shear_strength <value:pressure>", "Shear strength of a bond."),
        Figure("safety <value:ratio>", "What the strength is divided by."),
    ], Warm));

    public static readonly FactShape Filler = Named("filler", "Powder that thickens resin.", Material("filler", "Powder that thickens resin.",
    [
        Fact("with <resin:resin>", "The resin it thickens."),
        Figure("bulk_density <value:density>", "Mass of loose powder by volume."),
        Figure("paste_density <value:density>", "Density of the mixed paste."),
        Fact("consistency <name:new> <volumes:ratio>", "Volumes of powder to one of mixed resin.", many: true),
    ]));

    public static readonly FactShape Coating = Named("coating", "Paint, varnish, primer.", Material("coating", "Paint, varnish or primer.",
    [
        Figure("coverage <value:coverage>", "Area that one coat of a volume covers."),
        Density,
        Figure("solids <value:ratio>", "Share of mass that stays when it is dry."),
        Fact("recoat <time:time>", "Time until the next coat."),
        Fact("cure <time:time>", "Time until it may be used."),
        Fact("thins <share:ratio>", "Thinner by volume."),
    ], Warm));

    public static readonly FactShape Adhesive = Named("adhesive", "Glue.", Material("adhesive", "Glue.",
    [
        Figure("spread <value:massperarea>", "Mass by area of glue line."),
        Density,
        Fact("open_time <time:time>", "Time between spreading and closing."),
        Fact("clamp_time <time:time>", "Time under clamps."),
        Fact("cure <time:time> [at <at:temperature>]", "When it may be loaded."),
        Figure("shear_strength <value:pressure>", "Shear strength of a bond."),
        Figure("safety <value:ratio>", "What the strength is divided by."),
    ]));

    public static readonly FactShape Sealant = Named("sealant", "Sealant from a cartridge.", Material("sealant", "Sealant.",
    [
        Fact("bead <width:length> by <depth:length>", "Section of the bead."),
        Density,
        Fact("cure <time:time>", "Time until it is set."),
    ]));

    public static readonly FactShape Seal = Named("seal", "Rubber or brush seal by the run.", Material("seal", "Seal by the run.",
    [
        Fact("works <range:bounds_length>", "The gap that it closes, compressed to free."),
        Figure("weight <value:massperlength>", "Mass by length."),
    ]));

    public static readonly FactShape Membrane = Named("membrane", "A film or fabric by area.", Material("membrane", "Film or fabric by area.",
    [
        Fact("thickness <true:length>", "Thickness."),
        Figure("weight <value:massperarea>", "Mass by area."),
        Fact("roll <width:length> wide [<length:length> long] [price <amount:money>] [on <date:date>]", "A roll it is sold on.", many: true),
    ], Warm));

    public static readonly FactShape Trim = Named("trim", "Edging, moulding, rail.", Material("trim", "Edging or moulding by the run.",
    [
        Fact("section <thickness:length> by <width:length>", "Section."),
        Fact("length <length:length> [price <amount:money>] [on <date:date>]", "A length it is sold in.", many: true),
        Figure("weight <value:massperlength>", "Mass by length."),
    ]));

    public static readonly FactShape Screw = Named("screw", "A screw, staple or bolt.", Material("screw", "Screw, staple or bolt.",
    [
        Fact("kind <kind:wood_screw|pocket_screw|machine_screw|staple|bolt|nail>", "What it is."),
        Fact("gauge <gauge:count>", "Gauge number."),
        Fact("diameter <value:length> [root <root:length>]", "Shank diameter, and that of the root of the thread."),
        Fact("length <value:length>", "Length under the head; for a countersunk head, over all."),
        Fact("thread <value:length>", "Length of the thread."),
        Fact("head <diameter:length> [countersunk <countersunk:yes|no>]", "Diameter of the head."),
        Fact("pilot <value:length>", "Pilot drill."),
        Fact("hole_angle <value:angle>", "Angle of a pocket hole."),
        Figure("weight <value:mass>", "Mass of one."),
    ]));

    public static readonly FactShape Hardware = Named("hardware", "Hinges, latches, struts, brackets.", Material("hardware", "Hinge, latch, strut or bracket.",
    [
        Fact("kind <kind:hinge|latch|strut|actuator|bracket|tie_down|jack|handle>", "What it is."),
        Figure("weight <value:mass>", "Mass of one."),
        Fact("proud <value:length>", "How far it stands out of the face it sits on."),
        Fact("force <value:force> [at <end:force>]", "Force of a gas spring extended, and compressed."),
        Fact("stroke <value:length>", "Travel."),
        Fact("rated <value:force>", "Load it is rated for."),
    ]));

    public static readonly FactShape Unit = Named("unit", "A bought window, door or hatch.", Material("unit", "Bought window, door or hatch.",
    [
        Fact("kind <kind:window|door|hatch|vent|light>", "What it is."),
        Fact("cut_out <width:length> by <height:length> [corner <corner:length>]", "The hole it asks for, with its corner radius."),
        Fact("wall <range:bounds_length>", "Thickness of the wall that it can be clamped to."),
        Fact("flange <value:length>", "Width of the flange round the hole."),
        Fact("proud <outside:length> [inside <inside:length>]", "How far it stands out of the face."),
        Figure("weight <value:mass>", "Mass of one."),
        Figure("transmittance <value:transmittance>", "Heat transmittance of the whole unit."),
        Fact("handed <hand:left|right> other <other:unit>", "Its hand, and the unit that is its mirror."),
        Fact("area_lit <value:area>", "Area of glass."),
    ]));

    public static readonly FactShape Item = Named("item", "Anything else that is bought or carried.", Material("item", "Anything else that is bought or carried.",
    [
        Figure("weight <value:mass>", "Mass of one."),
        Fact("size <x:length> by <y:length> by <z:length>", "Its size, for clearance and lifting."),
    ]));

    public static readonly ImmutableArray<FactShape> All =
        [Sheet, Stick, Board, Foam, Cloth, Tape, Resin, Filler, Coating, Adhesive, Sealant, Seal, Membrane, Trim, Screw, Hardware, Unit, Item];
}
